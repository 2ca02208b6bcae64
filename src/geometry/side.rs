//! Left and right: old bodies differ, so every side is computed on its own.

/// One side of the car, as its driver names it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Side {
    /// The side of positive y.
    Left,
    /// The side of negative y.
    Right,
}

impl Side {
    /// Both sides, left first.
    pub const BOTH: [Side; 2] = [Side::Left, Side::Right];

    /// +1 for the left, -1 for the right: `y = sign * out`.
    #[must_use]
    pub fn sign(self) -> f64 {
        match self {
            Side::Left => 1.0,
            Side::Right => -1.0,
        }
    }

    /// The word for the side, in lower case.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Side::Left => "left",
            Side::Right => "right",
        }
    }
}

/// One value a side.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Sides<T> {
    /// The left side's.
    pub left: T,
    /// The right side's.
    pub right: T,
}

impl<T> Sides<T> {
    /// Makes each side's value.
    pub fn each(mut make: impl FnMut(Side) -> T) -> Self {
        Self {
            left: make(Side::Left),
            right: make(Side::Right),
        }
    }

    /// The value of `side`.
    pub fn get(&self, side: Side) -> &T {
        match side {
            Side::Left => &self.left,
            Side::Right => &self.right,
        }
    }

    /// The value of `side`, to change.
    pub fn get_mut(&mut self, side: Side) -> &mut T {
        match side {
            Side::Left => &mut self.left,
            Side::Right => &mut self.right,
        }
    }

    /// Both values, left first, each with its side.
    pub fn iter(&self) -> impl Iterator<Item = (Side, &T)> {
        [(Side::Left, &self.left), (Side::Right, &self.right)].into_iter()
    }
}
