//! What may follow a moment later, so that the picture under the hand need not wait for it.

use std::time::Duration;

use leptos::prelude::*;

/// How far behind, at most: an eye on the lever sees no lag in what stands beside it.
const MOMENT: Duration = Duration::from_millis(100);

/// The input as it was a moment ago, and as it is once it stands still. However often it changes, this does so no more
/// than once a moment.
pub fn behind<T>(input: Memo<T>) -> ReadSignal<T>
where
    T: Clone + PartialEq + Send + Sync + 'static,
{
    let (followed, follow) = signal(input.get_untracked());
    let waits = StoredValue::new(false);
    Effect::new(move |_| {
        let is_new = input.with(|input| followed.with_untracked(|followed| followed != input));
        if !is_new || waits.get_value() {
            return;
        }
        waits.set_value(true);
        let catch_up = move || {
            // Gone with the page that asked.
            if let Some(input) = input.try_get_untracked() {
                waits.set_value(false);
                follow.set(input);
            }
        };
        set_timeout(catch_up, MOMENT);
    });
    followed
}
