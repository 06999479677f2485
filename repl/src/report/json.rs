//! The outcome as JSON. Numbers are the shortest text that reads back to the same bits.

use std::io::{self, Write};

use dewline_lang::outcome::Outcome;

pub(super) fn write(out: &mut dyn Write, outcome: &Outcome) -> io::Result<()> {
    serde_json::to_writer_pretty(out, outcome).map_err(io::Error::from)
}
