//! The islands. Each does one thing that HTML and CSS can't, on a page that works without it.
