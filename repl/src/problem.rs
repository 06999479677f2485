//! What stops a command before the language has a say: files, the command line, a closed pipe.

use std::io;

use dewline_lang::host::HostProblem;

use crate::words::plain;

/// Why a command stopped.
#[derive(Debug)]
pub enum Stop {
    /// Something that the user can mend.
    Problem(Problem),
    /// Nobody reads the results any more; not an error.
    OutputClosed,
}

/// One line that says what is wrong, and one that says how to mend it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    /// What is wrong.
    pub message: String,
    /// How to mend it.
    pub mend: Option<String>,
}

impl Problem {
    /// A problem without a mend.
    pub fn new(message: impl Into<String>) -> Problem {
        Problem { message: message.into(), mend: None }
    }

    /// Says how to mend it.
    pub fn with_mend(mut self, mend: impl Into<String>) -> Problem {
        self.mend = Some(mend.into());
        self
    }

    /// As printed.
    pub fn text(&self) -> String {
        let mut text = format!("dewline: {}\n", plain(&self.message));
        if let Some(mend) = &self.mend {
            text.push_str(&format!("         {}\n", plain(mend)));
        }
        text
    }
}

impl From<HostProblem> for Problem {
    fn from(problem: HostProblem) -> Problem {
        Problem { message: problem.message, mend: problem.mend }
    }
}

impl From<Problem> for Stop {
    fn from(problem: Problem) -> Stop {
        Stop::Problem(problem)
    }
}

impl From<HostProblem> for Stop {
    fn from(problem: HostProblem) -> Stop {
        Stop::Problem(problem.into())
    }
}

impl From<io::Error> for Stop {
    fn from(error: io::Error) -> Stop {
        match error.kind() {
            io::ErrorKind::BrokenPipe => Stop::OutputClosed,
            _ => Stop::Problem(Problem::new(format!("the results could not be written: {}", said(&error)))),
        }
    }
}

/// What the system says of an error, without its number.
pub fn said(error: &io::Error) -> String {
    let text = error.to_string();
    match text.find(" (os error") {
        Some(at) => text[..at].to_lowercase(),
        None => text,
    }
}
