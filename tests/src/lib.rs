//! Tests of dewline from outside: a corpus of sheets with their expectations, and what the tests share.
#![allow(clippy::panic, clippy::unwrap_used)]

pub mod corpus;
pub mod differential;
pub mod oracle;
pub mod own_functions;
pub mod program;
pub mod same_bits;
pub mod sheet;
pub mod worst;
