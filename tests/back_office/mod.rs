//! What the people of the shop do and see.
