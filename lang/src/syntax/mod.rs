//! From text to tree: tokens, literals, parser, formatter.
//!
//! ```text
//! text ─lexeme─► plain tokens ─join─► lines of joined tokens ─parser─► tree
//! ```

pub mod tree;

mod format;
mod join;
mod lexeme;
mod parser;
mod token;

pub use format::format;
pub use parser::{Literal, Parsed, parse, parse_expression, parse_field, parse_literal};

#[cfg(test)]
mod tests;
