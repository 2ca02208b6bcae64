//! What was done, step by step, so that every step can be taken back.

/// How many steps can be taken back.
pub const LIMIT: usize = 100;

/// Commits of one name that follow each other sooner than this are one step, ms: a slider held down
/// by its arrow key is one thing done, not forty.
const ONE_GESTURE: f64 = 900.0;

/// One step: what was done, and the state on its other side.
#[derive(Debug, Clone, PartialEq)]
pub struct Step<T> {
    /// What was done, as a button says it.
    pub what: String,
    /// The state before it (in the past) or after it (in the future).
    pub state: T,
}

/// The present, what led to it, and what was taken back.
#[derive(Debug, Clone, PartialEq)]
pub struct History<T> {
    past: Vec<Step<T>>,
    settled: T,
    preview: Option<T>,
    future: Vec<Step<T>>,
    last_commit: f64,
}

impl<T: Clone + PartialEq> History<T> {
    /// A present without a past.
    pub fn new(state: T) -> Self {
        Self::with_past(Vec::new(), state)
    }

    /// A present with what led to it, oldest first.
    pub fn with_past(mut past: Vec<Step<T>>, settled: T) -> Self {
        past.drain(..past.len().saturating_sub(LIMIT));
        Self {
            past,
            settled,
            preview: None,
            future: Vec::new(),
            last_commit: f64::NEG_INFINITY,
        }
    }

    /// What is to be seen now: the preview while something is being moved.
    pub fn present(&self) -> &T {
        self.preview.as_ref().unwrap_or(&self.settled)
    }

    /// The state that a preview starts from.
    pub fn settled(&self) -> &T {
        &self.settled
    }

    /// What led to the settled state, oldest first.
    pub fn past(&self) -> &[Step<T>] {
        &self.past
    }

    /// Shows `state` without making it a step.
    pub fn preview(&mut self, state: T) {
        self.preview = Some(state);
    }

    /// Makes `state` the present and a step called `what`; `now` is a running clock, ms.
    pub fn commit(&mut self, what: &str, state: T, now: f64) {
        self.preview = None;
        if state == self.settled {
            return;
        }
        let before = std::mem::replace(&mut self.settled, state);
        let goes_on = self.past.last().is_some_and(|step| step.what == what)
            && self.future.is_empty()
            && now - self.last_commit < ONE_GESTURE;
        if !goes_on {
            self.past.push(Step {
                what: what.to_owned(),
                state: before,
            });
            self.past.drain(..self.past.len().saturating_sub(LIMIT));
        }
        self.future.clear();
        self.last_commit = now;
    }

    /// Takes the last step back.
    pub fn undo(&mut self) {
        self.preview = None;
        if let Some(Step { what, state }) = self.past.pop() {
            let state = std::mem::replace(&mut self.settled, state);
            self.future.push(Step { what, state });
            self.last_commit = f64::NEG_INFINITY;
        }
    }

    /// Does again what was taken back last.
    pub fn redo(&mut self) {
        self.preview = None;
        if let Some(Step { what, state }) = self.future.pop() {
            let state = std::mem::replace(&mut self.settled, state);
            self.past.push(Step { what, state });
            self.last_commit = f64::NEG_INFINITY;
        }
    }

    /// What [`Self::undo`] would take back.
    pub fn undoable(&self) -> Option<&str> {
        self.past.last().map(|step| step.what.as_str())
    }

    /// What [`Self::redo`] would do again.
    pub fn redoable(&self) -> Option<&str> {
        self.future.last().map(|step| step.what.as_str())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const LATER: f64 = 2.0 * ONE_GESTURE;

    #[test]
    fn every_step_comes_back_both_ways() {
        let mut history = History::new(0);
        history.commit("one", 1, 0.0);
        history.commit("two", 2, 0.0);
        assert_eq!(history.undoable(), Some("two"));
        history.undo();
        assert_eq!((*history.present(), history.redoable()), (1, Some("two")));
        history.undo();
        history.undo();
        assert_eq!((*history.present(), history.undoable()), (0, None));
        history.redo();
        history.redo();
        history.redo();
        assert_eq!((*history.present(), history.redoable()), (2, None));
    }

    #[test]
    fn a_preview_is_seen_but_is_no_step() {
        let mut history = History::new(0);
        history.preview(7);
        assert_eq!((*history.present(), *history.settled()), (7, 0));
        assert_eq!(history.undoable(), None);
        history.undo();
        assert_eq!(*history.present(), 0);
    }

    #[test]
    fn a_commit_that_changes_nothing_is_no_step() {
        let mut history = History::new(3);
        history.preview(4);
        history.commit("back again", 3, 0.0);
        assert_eq!((*history.present(), history.undoable()), (3, None));
    }

    #[test]
    fn one_gesture_is_one_step() {
        let mut history = History::new(0);
        for state in 1..40 {
            history.commit("slide", state, f64::from(state) * 30.0);
        }
        history.commit("slide", 99, 40.0 * 30.0 + LATER);
        history.undo();
        assert_eq!(*history.present(), 39);
        history.undo();
        assert_eq!(*history.present(), 0);
    }

    #[test]
    fn a_new_step_ends_what_could_be_done_again() {
        let mut history = History::new(0);
        history.commit("one", 1, 0.0);
        history.undo();
        history.commit("other", 5, LATER);
        assert_eq!(history.redoable(), None);
        history.undo();
        assert_eq!(*history.present(), 0);
    }

    #[test]
    fn the_past_has_an_end() {
        let mut history = History::new(0);
        for state in 1..=LIMIT + 50 {
            history.commit("step", state, LATER * state as f64);
        }
        assert_eq!(history.past().len(), LIMIT);
        assert_eq!(history.past()[0].state, 50);
    }
}
