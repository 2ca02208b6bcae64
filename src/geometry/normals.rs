//! Which ways normals of the meridian plane point, in sectors: few enough for one word, enough to tell crown from
//! sidewall.

use crate::space::{Vec2, vec2};

/// How many sectors there are all round.
pub const SECTORS: usize = 64;
/// Sectors from one axis to the next.
const QUARTER: f64 = SECTORS as f64 / 4.0;

/// A set of sectors. They are numbered from straight inward to straight inward again, by way of the first axis'
/// negative end, straight outward and its positive end; a normal between two sectors may count in either.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Normals(u64);

impl Normals {
    /// Normals of any kind.
    pub const ANY: Self = Self(u64::MAX);

    /// The sector of one normal.
    #[must_use]
    pub fn of(normal: Vec2) -> Self {
        Self(1 << sector(normal))
    }

    /// These and those.
    #[must_use]
    pub const fn and(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }

    /// The numbers of its sectors.
    pub fn sectors(self) -> impl Iterator<Item = usize> {
        let mut left = self.0;
        std::iter::from_fn(move || {
            let next = (left != 0).then_some(left.trailing_zeros() as usize);
            left &= left.wrapping_sub(1);
            next
        })
    }
}

/// The number of a normal's sector.
#[must_use]
pub fn sector(normal: Vec2) -> usize {
    // Rises with the angle, without trigonometry: from -2 to 2.
    let share = normal.x / (normal.x.abs() + normal.y.abs());
    let turned = if normal.y >= 0.0 {
        share
    } else {
        2.0_f64.copysign(normal.x) - share
    };
    // Not negative; what is no number counts as the first sector, and bounds nothing anyway.
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a share of the sectors"
    )]
    let sector = ((turned + 2.0) * QUARTER) as usize;
    sector.min(SECTORS - 1)
}

/// The sector on the other side of the second axis.
#[must_use]
pub const fn across(sector: usize) -> usize {
    SECTORS - 1 - sector
}

/// The least and the greatest part along the first axis of a sector's normals.
#[must_use]
pub fn along(sector: usize) -> [f64; 2] {
    // The axes are borders, so it rises or falls all along.
    let [from, to] = ends(sector).map(|end| end.x);
    [from.min(to), from.max(to)]
}

/// The unit normals between which a sector lies.
#[must_use]
pub fn ends(sector: usize) -> [Vec2; 2] {
    let border = |k: usize| {
        let turned = k as f64 / QUARTER - 2.0;
        let share = if turned.abs() <= 1.0 {
            turned
        } else {
            2.0_f64.copysign(turned) - turned
        };
        let along = (1.0 - share.abs()).copysign(1.0 - turned.abs());
        let normal = vec2(share, along);
        normal * (1.0 / normal.length())
    };
    [border(sector), border(sector + 1)]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::math;

    #[test]
    fn sectors_follow_the_angle_round() {
        // From straight inward on, the way that the first axis' negative end comes first.
        let mut last = 0;
        let mut seen = [false; SECTORS];
        for step in 0..1000 {
            let angle = f64::from(step) / 1000.0 * std::f64::consts::TAU;
            let normal = vec2(-math::sin(angle), -math::cos(angle));
            let k = sector(normal);
            assert!(k == last || k == last + 1, "{step}: {k} after {last}");
            let [from, to] = ends(k);
            assert!(
                normal.cross(from) >= -1e-12 && to.cross(normal) >= -1e-12,
                "{step}"
            );
            seen[k] = true;
            last = k;
        }
        assert!(seen.iter().all(|seen| *seen));
    }

    #[test]
    fn what_is_mirrored_lies_in_the_sector_across() {
        for k in 0..SECTORS {
            let [from, to] = ends(k);
            let middle = from + to;
            let across = vec2(-middle.x, middle.y);
            assert_eq!(sector(across), super::across(k));
        }
    }

    #[test]
    fn a_set_has_the_sectors_that_were_put_into_it() {
        let [one, other] = [3, SECTORS - 1].map(|k| Normals::of(ends(k)[0] + ends(k)[1]));
        assert_eq!(
            one.and(other).sectors().collect::<Vec<_>>(),
            [3, SECTORS - 1]
        );
        assert_eq!(Normals::ANY.sectors().count(), SECTORS);
    }
}
