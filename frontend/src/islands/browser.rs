//! The page as the browser has it, as far as an island reads it.

use std::cell::Cell;
use std::rc::Rc;

use shared_types::form::Fields;
use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::Closure;
use web_sys::{Element, FormData, HtmlFormElement, js_sys, window};

/// The form in which an element stands.
pub(super) fn form_around(element: &Element) -> Option<HtmlFormElement> {
    element.closest("form").ok()??.dyn_into().ok()
}

/// Calls back once a change of the form was followed by so many quiet milliseconds, for as long as
/// the page lives.
pub(super) fn on_input(form: &HtmlFormElement, quiet: i32, changed: impl Fn() + 'static) {
    let changed = Rc::new(changed);
    let changes = Rc::new(Cell::new(0_u32));
    let listen = Closure::<dyn Fn()>::new(move || {
        let this = changes.get().wrapping_add(1);
        changes.set(this);
        let (changed, changes) = (Rc::clone(&changed), Rc::clone(&changes));
        later(quiet, move || {
            if changes.get() == this {
                changed();
            }
        });
    });
    // A page without its listener is the page as it was sent.
    let _ = form.add_event_listener_with_callback("input", listen.as_ref().unchecked_ref());
    listen.forget();
}

/// Calls back in so many milliseconds, after what else the browser has to do.
pub(super) fn later(milliseconds: i32, then: impl FnOnce() + 'static) {
    let then = Closure::once_into_js(then);
    if let Some(window) = window() {
        let then = then.unchecked_ref();
        // A page without timers stays as it is.
        let _ = window.set_timeout_with_callback_and_timeout_and_arguments_0(then, milliseconds);
    }
}

/// What is typed and ticked in a form.
pub(super) fn fields_of(form: &HtmlFormElement) -> Fields {
    let Ok(typed) = FormData::new_with_form(form) else {
        return Fields::default();
    };
    let entries = typed.entries().into_iter().flatten();
    entries
        .map(|entry| js_sys::Array::from(&entry))
        // A picture is a file and has no text.
        .filter_map(|entry| Some((entry.get(0).as_string()?, entry.get(1).as_string()?)))
        .collect()
}
