//! What more than one page uses.
