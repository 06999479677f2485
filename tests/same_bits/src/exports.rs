//! The door for a platform without a system: bytes in, bytes out.
//!
//! The other side asks for room with [`same_bits_input`], writes a case as JSON there, calls [`same_bits_run`] and reads
//! the answer where [`same_bits_output`] says.
#![expect(unsafe_code, reason = "a name that is seen from outside is an unsafe attribute; nothing else here is unsafe")]

use std::sync::{Mutex, OnceLock, PoisonError};

use dewline_lang::library::Library;

use crate::{Case, Line, digest, examples};

static INPUT: Mutex<Vec<u8>> = Mutex::new(Vec::new());
static OUTPUT: Mutex<Vec<u8>> = Mutex::new(Vec::new());

fn library() -> &'static Library {
    static LIBRARY: OnceLock<Library> = OnceLock::new();
    LIBRARY.get_or_init(dewline_stdlib::library)
}

/// Room for so many bytes.
#[unsafe(no_mangle)]
pub extern "C" fn same_bits_input(length: usize) -> *const u8 {
    let mut input = INPUT.lock().unwrap_or_else(PoisonError::into_inner);
    *input = vec![0; length];
    input.as_ptr()
}

/// Runs the case that was put in; gives the length of the answer.
#[unsafe(no_mangle)]
pub extern "C" fn same_bits_run() -> usize {
    let input = INPUT.lock().unwrap_or_else(PoisonError::into_inner);
    answer(match serde_json::from_slice::<Case>(&input) {
        Ok(case) => vec![digest(library(), &case)],
        Err(error) => vec![("cannot be read".to_string(), error.to_string())],
    })
}

/// Runs the worked examples of all functions; gives the length of the answer.
#[unsafe(no_mangle)]
pub extern "C" fn same_bits_examples() -> usize {
    answer(examples(library()))
}

/// Where the answer is.
#[unsafe(no_mangle)]
pub extern "C" fn same_bits_output() -> *const u8 {
    OUTPUT.lock().unwrap_or_else(PoisonError::into_inner).as_ptr()
}

fn answer(lines: Vec<Line>) -> usize {
    let text: String = lines.iter().map(|(name, digest)| format!("{digest}  {name}\n")).collect();
    let mut output = OUTPUT.lock().unwrap_or_else(PoisonError::into_inner);
    *output = text.into_bytes();
    output.len()
}
