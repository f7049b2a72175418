//! Keeps a form's sentences up to date in the browser: prices at once, days as soon as the shop's
//! open work is placed, which is done little by little while the page can already be used.

use std::cell::RefCell;
use std::ops::ControlFlow;
use std::rc::Rc;

use shared_types::promise::board::Board;
use shared_types::promise::turn::{Seating, Turn};
use web_sys::HtmlFormElement;

use super::browser::{fields_of, later, on_input};
use super::live_days::{DayBook, LiveDays};
use super::quote_words::{FormKind, QuoteBook, Said, sentences};

/// Draws that are placed before the browser has its turn again: a few milliseconds' worth.
const SLICE: u32 = 10;

/// So long nothing must be typed or ticked before it is worked out, in milliseconds.
const QUIET: i32 = 120;

/// Says what the form's ticks come to now, and again after each change, for as long as the page
/// lives.
pub(super) fn keep_up(
    form: FormKind,
    element: HtmlFormElement,
    (book, days): (QuoteBook, DayBook),
    said: impl Fn(Vec<Said>) + 'static,
) {
    let live = Rc::new(RefCell::new(None::<LiveDays<'static>>));
    let (read, asked) = (element.clone(), Rc::clone(&live));
    let speak = move || {
        let fields = fields_of(&read);
        said(sentences(form, &fields, &book, asked.borrow_mut().as_mut()));
    };
    let speak = Rc::new(speak);
    // What was changed before the island came to life counts too.
    speak();
    let again = Rc::clone(&speak);
    on_input(&element, QUIET, move || again());
    place(days, move |placed| {
        *live.borrow_mut() = Some(placed);
        speak();
    });
}

/// Places all open work, and hands it over when that is done.
fn place(days: DayBook, done: impl FnOnce(LiveDays<'static>) + 'static) {
    // The page needs them until it is left, and then the browser takes back all there is.
    let days: &'static DayBook = Box::leak(Box::new(days));
    match days.board() {
        Some(board) => {
            let board: &'static Board = Box::leak(Box::new(board));
            go_on(days.seating(board), move |turn| {
                done(days.seated(Some((board, turn))))
            });
        }
        None => done(days.seated(None)),
    }
}

fn go_on(seating: Seating<'static>, done: impl FnOnce(Turn<'static>) + 'static) {
    later(0, move || match seating.seat(SLICE) {
        ControlFlow::Break(turn) => done(turn),
        ControlFlow::Continue(rest) => go_on(rest, done),
    });
}
