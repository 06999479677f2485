//! The `dewline` program.

use std::process::ExitCode;

fn main() -> ExitCode {
    ExitCode::from(dewline::run(std::env::args_os(), &mut dewline::Console::of_process()))
}
