//! Colours on a terminal. A word always says the same, so that nothing is lost without them.

/// Paints words, or leaves them as they are.
#[derive(Debug, Clone, Copy)]
pub struct Paint {
    on: bool,
}

impl Paint {
    /// Paints if `on`.
    pub fn new(on: bool) -> Paint {
        Paint { on }
    }

    /// Colours are used.
    pub fn is_on(self) -> bool {
        self.on
    }

    /// What stops the job.
    pub fn bad(self, text: &str) -> String {
        self.with("1;31", text)
    }

    /// What waits or asks for a look.
    pub fn wait(self, text: &str) -> String {
        self.with("33", text)
    }

    /// What holds.
    pub fn good(self, text: &str) -> String {
        self.with("32", text)
    }

    /// Headings.
    pub fn strong(self, text: &str) -> String {
        self.with("1", text)
    }

    fn with(self, code: &str, text: &str) -> String {
        if self.on && !text.is_empty() { format!("\u{1b}[{code}m{text}\u{1b}[0m") } else { text.to_string() }
    }
}
