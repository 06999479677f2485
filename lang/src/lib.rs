//! The dewline sheet language: from text to outcome.
//!
//! ```text
//! text ─syntax─► tree ─names─► order ─kinds─► typed formulas ─plan─► plan ─engine─► outcome
//! ```
//!
//! This crate knows no trade, no files and no terminal. Trade functions come in through
//! [`library`], files through [`host`], and every message leaves as a [`diagnostic`].

pub mod diagnostic;
pub mod limits;
pub mod source;

pub mod moment;
pub mod suggest;
pub mod units;

pub mod syntax;

pub mod host;
pub mod library;

pub mod engine;
pub mod kinds;
pub mod names;
pub mod plan;

pub mod job;

pub mod outcome;

/// The version of the language.
pub const VERSION: &str = env!("CARGO_PKG_VERSION");

/// Digests of all that results of the language rest on, taken when it was built: what, and its SHA-256.
pub const FINGERPRINTS: &[(&str, &str)] = &include!(concat!(env!("OUT_DIR"), "/fingerprints.rs"));
