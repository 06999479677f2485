//! `look TARGET FILE…`: the sheet that bytes stand for, if the target is `sheet`, and what comes of the bytes.

use dewline_fuzz::{TARGETS, written};

fn main() {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let target = arguments.first().and_then(|name| TARGETS.iter().find(|target| target.name == name));
    let Some(target) = target else { return eprintln!("name a target and files") };
    for path in &arguments[1..] {
        let bytes = match std::fs::read(path) {
            Ok(bytes) => bytes,
            Err(error) => return eprintln!("{path}: {error}"),
        };
        if target.name == "sheet" {
            println!("{}", written(&bytes));
        }
        (target.enter)(&bytes);
    }
}
