//! From text to tree: tokens, literals, parser, formatter.

pub mod tree;
