//! The combinations of a mix in the order of preference, one after another.

/// A dial that is turned: from how many values, and whether less gladly than the seam.
#[derive(Debug, Clone, Copy)]
struct Wheel {
    values: usize,
    last: bool,
}

/// All combinations of the values' places, each dial's first place being that it stays. The dials that come after the
/// seam are turned least, from the last on; then as few as can be of the others, and of these the last ones least.
#[derive(Debug, Clone)]
pub(super) struct Order {
    wheels: Vec<Wheel>,
    at: Vec<usize>,
    /// How many of the others are turned.
    turned: usize,
    over: bool,
}

impl Order {
    /// From the combination in which nothing is turned; each dial has at least two values.
    pub fn new(wheels: impl Iterator<Item = (usize, bool)>) -> Self {
        let wheels: Vec<Wheel> = wheels
            .map(|(values, last)| Wheel { values, last })
            .collect();
        Self {
            at: vec![0; wheels.len()],
            wheels,
            turned: 0,
            over: false,
        }
    }

    /// The combination that it stands at, if there is one left.
    pub fn present(&self) -> Option<&[usize]> {
        (!self.over).then_some(&self.at)
    }

    /// Goes on to the next.
    pub fn next(&mut self) {
        let others = self.places(false);
        if self.next_of_as_many(&others) {
            return;
        }
        self.turned += 1;
        if self.turned <= others.len() {
            self.turn_least(&others, self.turned);
            return;
        }
        self.turned = 0;
        self.turn_least(&others, 0);
        for place in self.places(true) {
            self.at[place] += 1;
            if self.at[place] < self.wheels[place].values {
                return;
            }
            self.at[place] = 0;
        }
        self.over = true;
    }

    /// The next combination of the others with as many turned; the last dial counts most.
    fn next_of_as_many(&mut self, others: &[usize]) -> bool {
        for (below, &place) in others.iter().enumerate() {
            let above = others[below + 1..]
                .iter()
                .filter(|&&place| self.at[place] > 0)
                .count();
            let Some(left) = self.turned.checked_sub(above + 1) else {
                continue;
            };
            if left <= below && self.at[place] + 1 < self.wheels[place].values {
                self.at[place] += 1;
                self.turn_least(&others[..below], left);
                return true;
            }
        }
        false
    }

    /// Turns so many of these by one step, the first ones, and no other.
    fn turn_least(&mut self, places: &[usize], count: usize) {
        for (i, &place) in places.iter().enumerate() {
            self.at[place] = usize::from(i < count);
        }
    }

    fn places(&self, last: bool) -> Vec<usize> {
        let is_of = |&place: &usize| self.wheels[place].last == last;
        (0..self.wheels.len()).filter(is_of).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The order by its definition: all combinations, sorted.
    #[test]
    fn it_is_every_combination_once_and_sorted() {
        let wheels = [(3, false), (2, true), (4, false), (2, false), (3, true)];
        let mut all = vec![Vec::new()];
        for (values, _) in wheels {
            let longer = |begun: &Vec<usize>| {
                let begun = begun.clone();
                (0..values).map(move |value| [begun.clone(), vec![value]].concat())
            };
            all = all.iter().flat_map(longer).collect();
        }
        all.sort_by_key(|combination: &Vec<usize>| {
            let turned = |last: bool| -> Vec<usize> {
                let of = wheels.iter().zip(combination);
                of.filter(|((_, is_last), _)| *is_last == last)
                    .map(|(_, &place)| place)
                    .rev()
                    .collect()
            };
            let others = turned(false);
            let count = others.iter().filter(|&&place| place > 0).count();
            (turned(true), count, others)
        });
        let mut order = Order::new(wheels.into_iter());
        let mut found = Vec::new();
        while let Some(present) = order.present() {
            found.push(present.to_vec());
            order.next();
        }
        assert_eq!(found, all);
    }

    #[test]
    fn of_no_dial_there_is_one_combination() {
        let mut order = Order::new(std::iter::empty());
        assert_eq!(order.present(), Some(&[][..]));
        order.next();
        assert_eq!(order.present(), None);
    }
}
