//! The page as the browser has it, as far as an island reads it.

use shared_types::form::Fields;
use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::Closure;
use web_sys::{Element, FormData, HtmlFormElement, js_sys};

/// The form in which an element stands.
pub(super) fn form_around(element: &Element) -> Option<HtmlFormElement> {
    element.closest("form").ok()??.dyn_into().ok()
}

/// Calls back with the form's fields after each change, for as long as the page lives.
pub(super) fn on_input(form: &HtmlFormElement, changed: impl Fn(Fields) + 'static) {
    // What was changed before the island came to life counts too.
    changed(fields_of(form));
    let read = form.clone();
    let listen = Closure::<dyn Fn()>::new(move || changed(fields_of(&read)));
    // A page without its listener is the page as it was sent.
    let _ = form.add_event_listener_with_callback("input", listen.as_ref().unchecked_ref());
    listen.forget();
}

fn fields_of(form: &HtmlFormElement) -> Fields {
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
