//! Tests of the plan page and of what if.
