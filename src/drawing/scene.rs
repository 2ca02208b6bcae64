//! The scene: shapes with roles in named groups, and the handles that a page may put on them.

use geometry::body::SurfaceId;
use geometry::car::Lever;
use geometry::check::Verdict;
use geometry::side::Side;
use geometry::space::Vec2;

use crate::role::Role;

/// A drawing: what it is called, what part of the sheet it shows, and its groups from back to front.
#[derive(Debug, Clone, PartialEq)]
pub struct Scene {
    /// Short name; the groups' ids start with it.
    pub name: &'static str,
    /// The accessible name: one sentence that says what is to be seen.
    pub title: String,
    /// The accessible description.
    pub description: String,
    /// The part of the sheet that is shown.
    pub view: View,
    /// From back to front. Which groups there are depends on the kind of drawing only, so that a page
    /// can keep their elements and replace the contents of those that changed.
    pub groups: Vec<Group>,
    /// What can be dragged.
    pub handles: Vec<Handle>,
}

/// A part of the sheet, in sheet units.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct View {
    /// Left edge.
    pub x: f64,
    /// Upper edge.
    pub y: f64,
    /// Width.
    pub width: f64,
    /// Height.
    pub height: f64,
}

/// Shapes that belong together.
#[derive(Debug, Clone, PartialEq)]
pub struct Group {
    /// Short name, unique in the scene.
    pub name: &'static str,
    /// What it shows, for whoever cannot see it; `None` when it is decoration or says in lettering what it is.
    pub title: Option<&'static str>,
    /// The shapes, from back to front.
    pub items: Vec<Item>,
}

/// A shape with its role.
#[derive(Debug, Clone, PartialEq)]
pub struct Item {
    /// What it is.
    pub role: Role,
    /// Where it is.
    pub shape: Shape,
    /// What it stands for, if it stands for a surface.
    pub key: Option<Key>,
}

/// What a shape stands for, so that a page can light it up and its row in a list together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Key {
    /// The side.
    pub side: Side,
    /// The surface.
    pub surface: SurfaceId,
    /// What its gap is called.
    pub verdict: Verdict,
}

/// Where a shape is, in sheet units.
#[derive(Debug, Clone, PartialEq)]
pub enum Shape {
    /// Open lines.
    Lines(Vec<Vec<Vec2>>),
    /// A closed outline.
    Area(Vec<Vec2>),
    /// A disc.
    Circle {
        /// Its center.
        center: Vec2,
        /// Its radius.
        radius: f64,
    },
    /// One line of lettering.
    Text {
        /// The point on the base line that `anchor` speaks of.
        at: Vec2,
        /// Which part of the text is at the point.
        anchor: Anchor,
        /// Height of the lettering.
        size: f64,
        /// The letters.
        text: String,
    },
}

/// Which part of a text is at its point.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Anchor {
    /// Its left end.
    Start,
    /// Its middle.
    Middle,
    /// Its right end.
    End,
}

/// Something that can be dragged: along `axis` by so many millimeters, and the lever follows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Handle {
    /// The lever that it moves.
    pub lever: Lever,
    /// The side it is drawn on.
    pub side: Side,
    /// Where it is, on the sheet.
    pub at: Vec2,
    /// Unit vector, on the sheet, along which the lever's value rises.
    pub axis: Vec2,
    /// How much the lever's value rises, per unit moved along the axis.
    pub rate: f64,
}

impl Scene {
    /// The group of that name.
    #[must_use]
    pub fn group(&self, name: &str) -> Option<&Group> {
        self.groups.iter().find(|group| group.name == name)
    }
}

impl Group {
    /// An empty group.
    pub(crate) fn new(name: &'static str, title: Option<&'static str>) -> Self {
        Self {
            name,
            title,
            items: Vec::new(),
        }
    }

    /// Adds a shape.
    pub(crate) fn add(&mut self, role: Role, shape: Shape) {
        self.items.push(Item {
            role,
            shape,
            key: None,
        });
    }

    /// Adds a shape that stands for a surface.
    pub(crate) fn add_keyed(&mut self, role: Role, shape: Shape, key: Key) {
        self.items.push(Item {
            role,
            shape,
            key: Some(key),
        });
    }
}

impl Shape {
    /// One open line.
    #[must_use]
    pub fn line(points: impl Into<Vec<Vec2>>) -> Self {
        Self::Lines(vec![points.into()])
    }
}

impl Key {
    /// A name for the surface that is the same in every drawing of a car: `left-tub-wall-0`.
    #[must_use]
    pub fn name(self) -> String {
        let surface = self.surface.surface.label().replace(' ', "-");
        format!("{}-{surface}-{}", self.side.word(), self.surface.index)
    }
}
