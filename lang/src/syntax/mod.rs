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
mod typed;
mod words;

pub use format::format;
pub(crate) use join::mend_of_commas;
pub use parser::{FORMS, Literal, Parsed, form, parse, parse_expression, parse_field, parse_literal};
pub use typed::{typed_system, wants_more};
pub use words::{Class, Word, words};

#[cfg(test)]
mod tests;
