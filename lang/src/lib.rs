//! The dewline sheet language.
