//! An evaluator of its own for arithmetic, to hold the language against.
//!
//! It walks the tree of an expression and carries dimension and stance beside every number, where the language settles
//! kinds first, compiles, and then works on bare numbers. The rules are written anew from the language reference;
//! nothing of the kind checker or the engine is used.

mod expression;
mod random;
mod value;

pub use expression::{Expression, Operator, expressions};
pub use random::WellKinded;
pub use value::{Fault, IllKinded, Stance, Value};
