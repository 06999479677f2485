//! Tests of dewline from outside.
