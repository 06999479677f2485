//! The `dewline` program.
fn main() {}
