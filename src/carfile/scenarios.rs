//! The invented cars: presets of the page and cases of the tests.

/// An invented car.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Scenario {
    /// Its short name, which is its file's.
    pub name: &'static str,
    /// Its car file.
    pub text: &'static str,
}

/// The invented cars, each with a sentence in its file of why it is there.
pub const SCENARIOS: &[Scenario] = &[
    Scenario {
        name: "coupe",
        text: include_str!("../../scenarios/coupe.toml"),
    },
    Scenario {
        name: "fastback",
        text: include_str!("../../scenarios/fastback.toml"),
    },
    Scenario {
        name: "pickup",
        text: include_str!("../../scenarios/pickup.toml"),
    },
    Scenario {
        name: "low-car",
        text: include_str!("../../scenarios/low-car.toml"),
    },
    Scenario {
        name: "sedan",
        text: include_str!("../../scenarios/sedan.toml"),
    },
];
