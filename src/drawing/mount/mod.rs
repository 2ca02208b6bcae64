//! Will it go on, as a picture: one side from behind, the wheel at a share of its way past the lip and onto the studs.

mod frame;
mod parts;
#[cfg(test)]
mod tests;
mod words;

use geometry::model::Model;
use geometry::mount::{Mounting, Spot};
use geometry::units::Notation;

use crate::lettering::Lettering;
use crate::scene::{Scene, View};

pub use words::{mount_finding, mount_here, mount_spoken};

/// What the picture shows.
#[derive(Debug, Clone, Copy)]
pub struct MountOptions {
    /// How wide the drawing is shown, CSS pixels: lettering keeps its size at that width.
    pub width: f64,
    /// How lengths are written.
    pub notation: Notation,
}

impl Default for MountOptions {
    fn default() -> Self {
        Self {
            width: 720.0,
            notation: Notation::default(),
        }
    }
}

/// The wheel at a share of its way on, 0 outside and 1 on the flange, with ghosts of places before. Where there is no
/// way the wheel is drawn where it would sit. Only draws: the way is taken from `mounting`.
#[must_use]
pub fn mount_view(model: &Model, mounting: &Mounting, share: f64, options: &MountOptions) -> Scene {
    let (view, lettering) = frame::frame(model, mounting, options.width);
    let draft = Draft {
        model,
        mounting,
        options,
        share: if share.is_nan() {
            1.0
        } else {
            share.clamp(0.0, 1.0)
        },
        view,
        lettering,
    };
    Scene {
        name: "mount",
        title: mount_finding(model, mounting, options.notation),
        description: format!(
            "Section through the axle, the {} side seen from behind. {}",
            mounting.side.word(),
            mount_here(model, mounting, draft.share, options.notation)
        ),
        view,
        groups: vec![
            parts::ghosts(&draft),
            parts::wheel(&draft),
            parts::hub(&draft),
            parts::body(&draft),
            parts::tightest_group(&draft),
        ],
        handles: Vec::new(),
    }
}

/// What the parts of the drawing share.
struct Draft<'a> {
    model: &'a Model,
    mounting: &'a Mounting,
    options: &'a MountOptions,
    share: f64,
    view: View,
    lettering: Lettering,
}

/// The tightest spot of the way, or of the seat where there is no way.
fn tightest(mounting: &Mounting) -> &Spot {
    mounting
        .tightest()
        .map_or(&mounting.seated, |stop| &stop.spot)
}
