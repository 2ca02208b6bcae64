//! Work that is done at most once a painted frame, on the newest input only.

use leptos::prelude::*;

/// A place for the newest input; it is applied when the next frame is about to be painted.
pub struct NextFrame<T: 'static> {
    waiting: StoredValue<Option<T>, LocalStorage>,
}

impl<T> Clone for NextFrame<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for NextFrame<T> {}

impl<T: 'static> NextFrame<T> {
    /// An empty place.
    pub fn new() -> Self {
        Self {
            waiting: StoredValue::new_local(None),
        }
    }

    /// Hands in an input in place of the one that waits, if one does.
    pub fn put(self, input: T, apply: impl FnOnce(T) + 'static) {
        let replaced = self
            .waiting
            .try_update_value(|waiting| waiting.replace(input))
            .flatten();
        if replaced.is_none() {
            request_animation_frame(move || {
                if let Some(input) = self.take() {
                    apply(input);
                }
            });
        }
    }

    /// Takes away what waits.
    pub fn take(self) -> Option<T> {
        self.waiting.try_update_value(Option::take).flatten()
    }
}
