//! One target under a fuzzer that is guided by coverage: `FUZZ=sheet guided CORPUS_FOLDER`.
#![no_main]

use std::sync::OnceLock;

use dewline_fuzz::{TARGETS, Target};
use libfuzzer_sys::fuzz_target;

fn target() -> &'static Target {
    static TARGET: OnceLock<&'static Target> = OnceLock::new();
    TARGET.get_or_init(|| {
        let name = std::env::var("FUZZ").unwrap_or_default();
        let names: Vec<&str> = TARGETS.iter().map(|target| target.name).collect();
        let found = TARGETS.iter().find(|target| target.name == name);
        found.unwrap_or_else(|| {
            eprintln!("FUZZ names one of {names:?}");
            std::process::exit(2)
        })
    })
}

/// The fuzzer takes every panic for a finding. One inside the library that reads workbooks is caught where it is called;
/// were it not, it would end the process all the same.
fn bear_panics_that_are_caught() {
    let finding = std::panic::take_hook();
    std::panic::set_hook(Box::new(move |panic| {
        if !panic.location().is_some_and(|place| place.file().contains("calamine")) {
            finding(panic);
        }
    }));
}

fuzz_target!(
    init: bear_panics_that_are_caught(),
    |bytes: &[u8]| (target().enter)(bytes)
);
