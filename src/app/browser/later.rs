//! Work too long for a frame: begun once its input has settled, done in slices while the browser idles, and given out
//! only while it is of the newest input.

use std::rc::Rc;
use std::sync::Arc;
use std::time::Duration;

use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use leptos::wasm_bindgen::prelude::Closure;
use leptos::web_sys::{IdleDeadline, IdleRequestOptions};

/// How long the input must stand still before the work begins.
const SETTLED: Duration = Duration::from_millis(140);
/// How long a slice may take, ms: what is left of a frame after the page's own work.
const SLICE: f64 = 5.0;
/// How long where the browser says that it has nothing else to do for that long, ms: a hand notices no less.
const LONG_SLICE: f64 = 30.0;
/// Between two slices where the browser does not tell when it idles.
const PAUSE: Duration = Duration::from_millis(16);
/// After this a slice is done even where the browser does not idle, ms.
const MOST_PAUSE: u32 = 50;

/// Does a piece of the work; gives the result with the last piece.
pub type Pieces<T> = Box<dyn FnMut() -> Option<T>>;

/// The result for the newest input, as soon as there is one; nothing while it is being worked out. Work is done only
/// while it is `wanted`, and never twice for one input.
pub fn later<K, T>(
    input: Memo<Option<K>>,
    wanted: Signal<bool>,
    begin: impl Fn(&K) -> Pieces<T> + 'static,
) -> Memo<Option<Arc<T>>>
where
    K: Clone + PartialEq + Send + Sync + 'static,
    T: PartialEq + Send + Sync + 'static,
{
    let done = RwSignal::new(None::<(K, Arc<T>)>);
    // Gone with the page that asked for the work, which ends it.
    let turn = StoredValue::new(0_u32);
    let begin = Rc::new(begin);
    Effect::new(move |_| {
        turn.update_value(|turn| *turn = turn.wrapping_add(1));
        let Some(input) = input.get().filter(|_| wanted.get()) else {
            return;
        };
        let is_done = done.with_untracked(|done| done.as_ref().is_some_and(|(of, _)| *of == input));
        if is_done {
            return;
        }
        let (mine, begin) = (turn.get_value(), Rc::clone(&begin));
        let is_asked = move || turn.try_get_value() == Some(mine);
        set_timeout(
            move || {
                if is_asked() {
                    let pieces = begin(&input);
                    let finish = move |result| done.set(Some((input.clone(), Arc::new(result))));
                    go_on(pieces, Box::new(is_asked), Box::new(finish));
                }
            },
            SETTLED,
        );
    });
    Memo::new(move |_| {
        input.with(|input| {
            done.with(|done| match (input, done) {
                (Some(input), Some((of, result))) if input == of => Some(Arc::clone(result)),
                _ => None,
            })
        })
    })
}

/// Does slices of the work, one each time that the browser idles, until it is done or no longer asked for.
fn go_on<T: 'static>(
    mut pieces: Pieces<T>,
    is_asked: Box<dyn Fn() -> bool>,
    finish: Box<dyn FnOnce(T)>,
) {
    when_idle(move |idle| {
        if !is_asked() {
            return;
        }
        let end = js_sys::Date::now() + idle.clamp(SLICE, LONG_SLICE);
        loop {
            if let Some(result) = pieces() {
                return finish(result);
            }
            if js_sys::Date::now() >= end {
                break;
            }
        }
        go_on(pieces, is_asked, finish);
    });
}

/// Once the browser idles, with how long it will as far as it knows, ms; it may forget to say so while nothing is painted,
/// and some browsers never say it.
fn when_idle(act: impl FnOnce(f64) + 'static) {
    let tells = js_sys::Reflect::has(&window(), &"requestIdleCallback".into());
    if !tells.unwrap_or(false) {
        set_timeout(move || act(0.0), PAUSE);
        return;
    }
    let act = move |deadline: IdleDeadline| act(deadline.time_remaining());
    let options = IdleRequestOptions::new();
    options.set_timeout(MOST_PAUSE);
    let act = Closure::once_into_js(act);
    // Refused only where the page is being torn down.
    let _ = window().request_idle_callback_with_options(act.unchecked_ref(), &options);
}
