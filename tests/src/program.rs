//! The program from its command line, run inside the test.

use std::ffi::OsString;

/// What a command left behind.
#[derive(Debug)]
pub struct Left {
    /// Its exit code.
    pub code: u8,
    /// Standard output.
    pub out: String,
    /// Standard error.
    pub err: String,
}

/// Runs `dewline` with these arguments.
pub fn dewline<S: AsRef<std::ffi::OsStr>>(arguments: &[S]) -> Left {
    dewline_reading(arguments, b"")
}

/// Runs `dewline` with these arguments and this on standard input.
pub fn dewline_reading<S: AsRef<std::ffi::OsStr>>(arguments: &[S], input: &[u8]) -> Left {
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let name = OsString::from("dewline");
    let all = std::iter::once(name).chain(arguments.iter().map(|one| one.as_ref().to_os_string()));
    let code = dewline::run(all, &mut dewline::Console::inside(input, &mut out, &mut err));
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).unwrap_or_else(|error| panic!("not UTF-8: {error}"));
    Left { code, out: text(out), err: text(err) }
}
