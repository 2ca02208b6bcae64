//! For tests: where lettering comes out, and whether it can be read.

use crate::lettering::width;
use crate::scene::{Anchor, Scene, Shape};

/// Left, top, right and bottom of every text, with the text.
fn boxes(scene: &Scene) -> Vec<([f64; 4], &str)> {
    let items = scene.groups.iter().flat_map(|group| &group.items);
    items
        .filter_map(|item| match &item.shape {
            Shape::Text {
                at,
                anchor,
                size,
                text,
            } => {
                let long = width(text, *size);
                let left = match anchor {
                    Anchor::Start => at.x,
                    Anchor::Middle => at.x - long / 2.0,
                    Anchor::End => at.x - long,
                };
                Some(([left, at.y - 0.75 * size, left + long, at.y], text.as_str()))
            }
            _ => None,
        })
        .collect()
}

/// Fails where a text runs out of the picture or over another.
#[track_caller]
pub(crate) fn expect_legible(scene: &Scene) {
    let boxes = boxes(scene);
    let view = scene.view;
    for (i, (a, text)) in boxes.iter().enumerate() {
        let inside = a[0] >= view.x
            && a[1] >= view.y
            && a[2] <= view.x + view.width
            && a[3] <= view.y + view.height;
        assert!(inside, "{text} runs out of the picture");
        for (b, other) in &boxes[i + 1..] {
            let apart = a[2] <= b[0] || b[2] <= a[0] || a[3] <= b[1] || b[3] <= a[1];
            assert!(apart, "{text} overlaps {other}");
        }
    }
}
