//! Places labels one above the other in a column, each as near to what it names as the others let it.

use geometry::order;

/// A label that wants a place.
#[derive(Debug, Clone, Copy)]
pub struct Wish {
    /// Where its middle would best be.
    pub middle: f64,
    /// How much of the column it takes.
    pub height: f64,
}

/// The middles that the labels get between `from` and `to`, in the order of the wishes: as wished where
/// they do not overlap, else pushed apart and kept in the order of their wishes. Where the column is too
/// short, the later ones run out at its far end.
pub fn place(wishes: &[Wish], from: f64, to: f64) -> Vec<f64> {
    let mut order: Vec<usize> = (0..wishes.len()).collect();
    order::sort_by(&mut order, |&a, &b| {
        wishes[a].middle.total_cmp(&wishes[b].middle)
    });

    // Down the column, each below the one before; then back up, where the last ran over the end.
    let mut placed = vec![0.0; wishes.len()];
    let mut least = from;
    for &i in &order {
        let Wish { middle, height } = wishes[i];
        placed[i] = f64::max(middle, least + height / 2.0);
        least = placed[i] + height / 2.0;
    }
    let mut most = to;
    for &i in order.iter().rev() {
        let height = wishes[i].height;
        placed[i] = f64::min(placed[i], most - height / 2.0);
        most = placed[i] - height / 2.0;
    }
    // Too full: start at the near end, so that what is cut off is at the far one.
    let mut least = from;
    for &i in &order {
        let height = wishes[i].height;
        placed[i] = f64::max(placed[i], least + height / 2.0);
        least = placed[i] + height / 2.0;
    }
    placed
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(middles: &[f64], from: f64, to: f64, expected: &[f64]) {
        let wishes: Vec<Wish> = middles
            .iter()
            .map(|&middle| Wish {
                middle,
                height: 10.0,
            })
            .collect();
        assert_eq!(place(&wishes, from, to), expected);
    }

    #[test]
    fn labels_stay_where_there_is_room() {
        check(&[20.0, 50.0], 0.0, 100.0, &[20.0, 50.0]);
    }

    #[test]
    fn labels_are_pushed_apart_in_order() {
        check(&[21.0, 20.0, 22.0], 0.0, 100.0, &[30.0, 20.0, 40.0]);
        check(&[98.0, 99.0], 0.0, 100.0, &[85.0, 95.0]);
        check(&[-5.0, 0.0], 0.0, 100.0, &[5.0, 15.0]);
    }

    #[test]
    fn a_full_column_runs_out_at_its_end() {
        check(&[5.0, 5.0, 5.0], 0.0, 20.0, &[5.0, 15.0, 25.0]);
    }

    #[test]
    fn odd_wishes_are_placed() {
        let wishes = [
            Wish {
                middle: f64::NAN,
                height: 10.0,
            },
            Wish {
                middle: 5.0,
                height: 10.0,
            },
        ];
        assert!(place(&wishes, 0.0, 100.0).iter().all(|at| at.is_finite()));
    }
}
