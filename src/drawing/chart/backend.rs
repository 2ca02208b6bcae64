//! A plotters backend that draws into a scene's group.
//!
//! plotters knows colors, the scene knows roles: a role is handed through plotters as a color that
//! stands for its place in [`Role::ALL`]. plotters counts whole pixels; here one of its pixels is a
//! tenth of ours, so that curves come out smooth.

use std::convert::Infallible;

use geometry::space::{Vec2, vec2};
use plotters::style::RGBColor;
use plotters_backend::text_anchor::{HPos, VPos};
use plotters_backend::{
    BackendColor, BackendCoord, BackendStyle, BackendTextStyle, DrawingBackend, DrawingErrorKind,
};

use crate::lettering;
use crate::role::Role;
use crate::scene::{Anchor, Group, Shape};

/// plotters' pixels in one of ours.
pub const FINE: f64 = 10.0;

type Outcome = Result<(), DrawingErrorKind<Infallible>>;

/// Draws into a group; its sheet is so many plotters' pixels large.
pub struct SceneBackend<'a> {
    group: &'a mut Group,
    size: (u32, u32),
}

impl<'a> SceneBackend<'a> {
    /// A backend on a sheet of that size, in plotters' pixels.
    pub fn new(group: &'a mut Group, size: (u32, u32)) -> Self {
        Self { group, size }
    }
}

/// The color that stands for a role.
pub fn color(role: Role) -> RGBColor {
    let place = Role::ALL
        .iter()
        .position(|&other| other == role)
        .unwrap_or(0);
    RGBColor(0, 0, u8::try_from(place).unwrap_or(u8::MAX))
}

fn role(color: BackendColor) -> Role {
    Role::ALL
        .get(usize::from(color.rgb.2))
        .copied()
        .unwrap_or(Role::Axis)
}

/// A point of plotters' on the sheet.
pub fn on_sheet((x, y): BackendCoord) -> Vec2 {
    vec2(f64::from(x) / FINE, f64::from(y) / FINE)
}

impl DrawingBackend for SceneBackend<'_> {
    type ErrorType = Infallible;

    fn get_size(&self) -> (u32, u32) {
        self.size
    }

    fn ensure_prepared(&mut self) -> Outcome {
        Ok(())
    }

    fn present(&mut self) -> Outcome {
        Ok(())
    }

    fn draw_pixel(&mut self, _: BackendCoord, _: BackendColor) -> Outcome {
        // Only bitmaps are drawn pixel by pixel, and charts hold none.
        Ok(())
    }

    fn draw_line<S: BackendStyle>(
        &mut self,
        from: BackendCoord,
        to: BackendCoord,
        style: &S,
    ) -> Outcome {
        self.draw_path([from, to], style)
    }

    fn draw_path<S: BackendStyle, I: IntoIterator<Item = BackendCoord>>(
        &mut self,
        path: I,
        style: &S,
    ) -> Outcome {
        let points: Vec<Vec2> = path.into_iter().map(on_sheet).collect();
        if style.color().alpha > 0.0 && points.len() > 1 {
            self.group.add(role(style.color()), Shape::line(points));
        }
        Ok(())
    }

    fn draw_rect<S: BackendStyle>(
        &mut self,
        from: BackendCoord,
        to: BackendCoord,
        style: &S,
        _: bool,
    ) -> Outcome {
        self.fill_polygon([from, (to.0, from.1), to, (from.0, to.1)], style)
    }

    fn draw_circle<S: BackendStyle>(
        &mut self,
        center: BackendCoord,
        radius: u32,
        style: &S,
        _: bool,
    ) -> Outcome {
        let shape = Shape::Circle {
            center: on_sheet(center),
            radius: f64::from(radius) / FINE,
        };
        self.group.add(role(style.color()), shape);
        Ok(())
    }

    fn fill_polygon<S: BackendStyle, I: IntoIterator<Item = BackendCoord>>(
        &mut self,
        outline: I,
        style: &S,
    ) -> Outcome {
        let shape = Shape::Area(outline.into_iter().map(on_sheet).collect());
        self.group.add(role(style.color()), shape);
        Ok(())
    }

    fn draw_text<S: BackendTextStyle>(
        &mut self,
        text: &str,
        style: &S,
        at: BackendCoord,
    ) -> Outcome {
        let size = style.size() / FINE;
        let at = on_sheet(at);
        // Height of figures above the base line, as common faces have it.
        let height = 0.72 * size;
        let drop = match style.anchor().v_pos {
            VPos::Top => height,
            VPos::Center => height / 2.0,
            VPos::Bottom => 0.0,
        };
        let anchor = match style.anchor().h_pos {
            HPos::Left => Anchor::Start,
            HPos::Center => Anchor::Middle,
            HPos::Right => Anchor::End,
        };
        let shape = Shape::Text {
            at: vec2(at.x, at.y + drop),
            anchor,
            size,
            text: text.to_owned(),
        };
        self.group.add(role(style.color()), shape);
        Ok(())
    }

    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "saturates; a width is not negative"
    )]
    fn estimate_text_size<S: BackendTextStyle>(
        &self,
        text: &str,
        style: &S,
    ) -> Result<(u32, u32), DrawingErrorKind<Infallible>> {
        Ok((
            lettering::width(text, style.size()) as u32,
            (0.72 * style.size()) as u32,
        ))
    }
}
