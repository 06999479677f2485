//! The built program as its users meet it: exit codes, streams, files.
#![allow(clippy::unwrap_used, clippy::panic)]

mod audit;
mod bad_input;
mod durable;
mod exit_codes;
mod folder;
mod hostile;
mod keys;
mod layout;
mod look_up;
mod output;
mod record;
mod records;
mod script;
mod settings;
mod streams;
mod tamper;
mod why;

use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};

/// What a command left behind.
struct Left {
    code: i32,
    out: String,
    err: String,
}

/// A folder for one test.
struct Bench {
    folder: tempfile::TempDir,
}

impl Bench {
    fn new() -> Bench {
        Bench { folder: tempfile::tempdir().unwrap() }
    }

    /// A folder with a sheet `job.dew`.
    fn with_sheet(text: &str) -> Bench {
        let bench = Bench::new();
        bench.file("job.dew", text);
        bench
    }

    fn path(&self) -> &Path {
        self.folder.path()
    }

    fn file(&self, name: &str, bytes: impl AsRef<[u8]>) {
        let path = self.path().join(name);
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(path, bytes).unwrap();
    }

    fn read(&self, name: &str) -> String {
        std::fs::read_to_string(self.path().join(name)).unwrap()
    }

    fn names(&self) -> Vec<String> {
        let mut names: Vec<String> = std::fs::read_dir(self.path())
            .unwrap()
            .map(|entry| entry.unwrap().file_name().into_string().unwrap())
            .collect();
        names.sort();
        names
    }

    fn command(&self) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_dewline"));
        command.current_dir(self.path()).env_remove("NO_COLOR");
        command
    }

    /// Runs the program in the folder.
    fn run(&self, arguments: &[&str]) -> Left {
        self.run_with(arguments, "")
    }

    /// Runs the program in the folder with this standard input.
    fn run_with(&self, arguments: &[&str], input: &str) -> Left {
        let mut child = self
            .command()
            .args(arguments)
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        // A program that refuses its command line may be gone before it has read anything.
        let _ = child.stdin.take().unwrap().write_all(input.as_bytes());
        let left = child.wait_with_output().unwrap();
        Left {
            code: left.status.code().unwrap(),
            out: String::from_utf8(left.stdout).unwrap(),
            err: String::from_utf8(left.stderr).unwrap(),
        }
    }
}

impl Left {
    #[track_caller]
    fn ends_with_code(self, code: i32) -> Left {
        assert_eq!(self.code, code, "\n--- out\n{}\n--- err\n{}", self.out, self.err);
        self
    }

    #[track_caller]
    fn says(self, text: &str) -> Left {
        assert!(self.err.contains(text), "no {text:?} in\n{}", self.err);
        self
    }

    #[track_caller]
    fn prints(self, text: &str) -> Left {
        assert!(self.out.contains(text), "no {text:?} in\n{}", self.out);
        self
    }
}

const PASSING: &str = "sheet \"Riser B\"\nstage \"Test\"\n  input start = 550.0 psig \"by the plan\"\n  \
     reading end_pressure = 549.0 psig\n  drop : psi = start - end_pressure\n  \
     require \"holds pressure\" drop within ± 3 psi\nend\n";

/// [`PASSING`] with another reading.
fn sheet_reading(reading: &str) -> String {
    PASSING.replace("= 549.0 psig", reading)
}
