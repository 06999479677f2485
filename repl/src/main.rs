//! The `dewline` program.

use std::process::ExitCode;
use std::thread;

use dewline_lang::limits::STACK_BYTES;

fn main() -> ExitCode {
    // The deepest sheet that the limits allow needs more stack than the system gives the main thread.
    let command = || dewline::run(std::env::args_os(), &mut dewline::Console::of_process());
    let thread = thread::Builder::new().stack_size(STACK_BYTES).spawn(command);
    match thread.map(thread::JoinHandle::join) {
        Ok(Ok(code)) => ExitCode::from(code),
        // A fault of the program itself was told where it happened; without memory for a stack nothing can be run.
        _ => ExitCode::from(2),
    }
}
