//! The program at a pseudo-terminal of 24 lines of 80 columns, and what its screen shows.

use std::io::{Read, Write};
use std::num::NonZeroU16;
use std::path::Path;
use std::process::Command;
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};

use portable_pty::{Child, CommandBuilder, PtySize, native_pty_system};

/// How long a text may take to appear on a machine that has other work.
const PATIENCE: Duration = Duration::from_secs(60);

const ROWS: NonZeroU16 = NonZeroU16::new(24).unwrap();
const COLUMNS: NonZeroU16 = NonZeroU16::new(80).unwrap();

/// A running program.
pub struct Screen {
    shared: Arc<Shared>,
    writer: Box<dyn Write + Send>,
    child: Box<dyn Child + Send + Sync>,
    /// Closing it would end the program.
    _master: Box<dyn portable_pty::MasterPty + Send>,
}

struct Shared {
    state: Mutex<State>,
    changed: Condvar,
}

struct State {
    parser: vt100::Parser,
    raw: Vec<u8>,
    ended: bool,
}

pub const ENTER: &str = "\r";
pub const TAB: &str = "\t";
pub const CTRL_C: &str = "\u{3}";
pub const CTRL_D: &str = "\u{4}";
pub const UP: &str = "\u{1b}[A";

impl Screen {
    /// Starts the program in a folder, in which it also keeps what it keeps between starts.
    pub fn start(folder: &Path, arguments: &[&str], color: bool) -> Screen {
        let size = PtySize { rows: ROWS.get(), cols: COLUMNS.get(), pixel_width: 0, pixel_height: 0 };
        let pair = native_pty_system().openpty(size).unwrap();
        let mut command = CommandBuilder::new(env!("CARGO_BIN_EXE_dewline"));
        command.args(arguments);
        command.cwd(folder);
        command.env("XDG_STATE_HOME", folder.join("state"));
        command.env("HOME", folder);
        command.env("TERM", "xterm-256color");
        if color {
            command.env_remove("NO_COLOR");
        } else {
            command.env("NO_COLOR", "1");
        }
        let child = pair.slave.spawn_command(command).unwrap();
        drop(pair.slave);
        let mut reader = pair.master.try_clone_reader().unwrap();
        let writer = pair.master.take_writer().unwrap();
        let state = State { parser: vt100::Parser::new(ROWS, COLUMNS, 0), raw: Vec::new(), ended: false };
        let shared = Arc::new(Shared { state: Mutex::new(state), changed: Condvar::new() });
        let theirs = Arc::clone(&shared);
        std::thread::spawn(move || {
            let mut bytes = [0; 4096];
            loop {
                let read = reader.read(&mut bytes).unwrap_or(0);
                // A test that has failed still has its screen.
                let mut state = theirs.state.lock().unwrap_or_else(PoisonError::into_inner);
                state.parser.process(&bytes[..read]);
                state.raw.extend_from_slice(&bytes[..read]);
                state.ended = read == 0;
                theirs.changed.notify_all();
                if read == 0 {
                    return;
                }
            }
        });
        Screen { shared, writer, child, _master: pair.master }
    }

    /// Types keys.
    pub fn keys(&mut self, keys: &str) {
        self.writer.write_all(keys.as_bytes()).unwrap();
        self.writer.flush().unwrap();
    }

    /// Types a line once a prompt stands there. Its echo is waited for, so that no two lines run into one another.
    pub fn line(&mut self, line: &str) {
        self.wait("a prompt", |screen| last_line(screen).ends_with(['>', ':', '?']));
        self.keys(line);
        self.wait(line, |screen| last_line(screen).contains(line));
        self.keys(ENTER);
    }

    /// Leaves at the next prompt: before it, the terminal itself would take the key.
    pub fn leave(&mut self) {
        self.ends_with(">");
        self.keys(CTRL_D);
    }

    /// Waits until the screen holds a text.
    pub fn sees(&self, text: &str) {
        self.wait(text, |screen| screen.contains(text));
    }

    /// Waits until the last line is just this.
    pub fn ends_with(&self, text: &str) {
        self.wait(text, |screen| last_line(screen) == text);
    }

    fn wait(&self, what: &str, holds: impl Fn(&str) -> bool) {
        let until = Instant::now() + PATIENCE;
        let mut state = self.shared.state.lock().unwrap();
        while !holds(&shown(&state)) {
            let left = until.saturating_duration_since(Instant::now());
            let ended = state.ended;
            assert!(!left.is_zero() && !ended, "waited for {what:?}:\n{}", shown(&state));
            state = self.shared.changed.wait_timeout(state, left).unwrap().0;
        }
    }

    /// What the screen shows.
    pub fn shown(&self) -> String {
        shown(&self.state())
    }

    /// All bytes written to the terminal.
    pub fn raw(&self) -> String {
        String::from_utf8_lossy(&self.state().raw).into_owned()
    }

    fn state(&self) -> MutexGuard<'_, State> {
        self.shared.state.lock().unwrap()
    }

    /// Waits for the program's own end.
    pub fn exit_code(mut self) -> u32 {
        let until = Instant::now() + PATIENCE;
        let mut state = self.shared.state.lock().unwrap();
        while !state.ended {
            let left = until.saturating_duration_since(Instant::now());
            assert!(!left.is_zero(), "waited for the end:\n{}", shown(&state));
            state = self.shared.changed.wait_timeout(state, left).unwrap().0;
        }
        drop(state);
        self.child.wait().unwrap().exit_code()
    }

    /// Ends the program as a flat battery would.
    pub fn kill(mut self) {
        let id = self.child.process_id().unwrap().to_string();
        assert!(Command::new("kill").args(["-9", &id]).status().unwrap().success());
        self.child.wait().unwrap();
    }
}

impl Drop for Screen {
    fn drop(&mut self) {
        let _ = self.child.kill();
    }
}

/// The lines without blanks at their ends and empty ones at the bottom.
fn shown(state: &State) -> String {
    let screen = state.parser.screen().contents();
    let lines: Vec<&str> = screen.lines().map(str::trim_end).collect();
    lines.join("\n").trim_end().to_string()
}

fn last_line(screen: &str) -> &str {
    screen.rsplit('\n').next().unwrap_or("").trim_end()
}
