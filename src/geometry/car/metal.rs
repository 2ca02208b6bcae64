//! How the metal is worked: sheet, laps, plugs, and how far a first cut stays short.

/// Which practice the plug welds follow. Neither is an approval.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum PlugPractice {
    /// As structural codes ask (AWS D1.1, AISC 360 J2.3).
    #[default]
    Code,
    /// As body repair does it (common practice, no source): smaller plugs, not code-compliant.
    Repair,
}

/// The shop's own numbers. Defaults are common practice, no source.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MetalSpec {
    /// Gauge of the fill strip's sheet, a whole number (Manufacturers' Standard Gauge).
    pub gauge: f64,
    /// How far the fill strip laps over the sheet on either edge, mm.
    pub lap: f64,
    /// Which practice the plug welds follow.
    pub plugs: PlugPractice,
    /// Pitch of the plug welds, mm, where it is not the practice's own.
    pub pitch: Option<f64>,
    /// How much missing room hammer and dolly may make, mm: more is cut.
    pub dolly: f64,
    /// How far the first cut stays short of the final trim, mm.
    pub first_cut: f64,
    /// Thickness of the boards that the mock-up is made of, mm.
    pub board: f64,
}

impl Default for MetalSpec {
    fn default() -> Self {
        Self {
            gauge: 18.0,
            lap: 19.05,
            plugs: PlugPractice::default(),
            pitch: None,
            dolly: 6.35,
            first_cut: 12.7,
            board: 12.7,
        }
    }
}
