//! Where a command reads and prints. Tests and benches put buffers in its place.

use std::io::{self, BufWriter, IsTerminal, Read, Write};

use crate::paint::Paint;

/// The three streams of a command, and what may be drawn on them.
pub struct Console<'a> {
    /// What `-` reads.
    pub input: Box<dyn Read + 'a>,
    /// Results.
    pub out: Box<dyn Write + 'a>,
    /// Messages and progress.
    pub err: Box<dyn Write + 'a>,
    /// Colours for results.
    pub out_paint: Paint,
    /// Colours for messages.
    pub err_paint: Paint,
    /// Lines come from a terminal.
    pub in_terminal: bool,
    /// Results go to a terminal.
    pub out_terminal: bool,
    /// Messages go to a terminal, so progress may be drawn there.
    pub err_terminal: bool,
}

impl Console<'_> {
    /// The streams of this process. Colour is used on terminals only, and not if `NO_COLOR` is set.
    pub fn of_process() -> Console<'static> {
        let wanted = std::env::var_os("NO_COLOR").is_none_or(|value| value.is_empty())
            && std::env::var_os("TERM").is_none_or(|terminal| terminal != "dumb");
        let out_terminal = io::stdout().is_terminal();
        let err_terminal = io::stderr().is_terminal();
        Console {
            input: Box::new(io::stdin()),
            out: Box::new(BufWriter::with_capacity(64 * 1024, io::stdout())),
            err: Box::new(io::stderr()),
            out_paint: Paint::new(wanted && out_terminal),
            err_paint: Paint::new(wanted && err_terminal),
            in_terminal: io::stdin().is_terminal(),
            out_terminal,
            err_terminal,
        }
    }
}

impl<'a> Console<'a> {
    /// Buffers in place of the process's streams, without colour.
    pub fn inside(input: &'a [u8], out: &'a mut Vec<u8>, err: &'a mut Vec<u8>) -> Console<'a> {
        Console {
            input: Box::new(input),
            out: Box::new(out),
            err: Box::new(err),
            out_paint: Paint::new(false),
            err_paint: Paint::new(false),
            in_terminal: false,
            out_terminal: false,
            err_terminal: false,
        }
    }

    /// Prints a message. A closed error stream leaves nobody to tell, so failures are let go.
    pub fn say(&mut self, text: &str) {
        let _ = self.err.write_all(text.as_bytes()).and_then(|()| self.err.flush());
    }
}
