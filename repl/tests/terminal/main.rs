//! Sessions at a real pseudo-terminal.
#![cfg(unix)]
#![allow(clippy::unwrap_used)]

mod screen;

use std::fs;
use std::path::Path;
use std::process::Command;

use screen::{CTRL_C, ENTER, Screen, TAB, UP};
use serde_json::Value;

const SHEET: &str = "# Riser B\nsheet \"Riser B\"\nunits IP\nsite altitude = 1280 ft\nstage \"Superheat\"\n  \
    input suction = 118 psig # at the door\n  reading pipe : degF within 0 .. 150 degF\n  \
    over = superheat(R-410A, suction, pipe) as F° to 0.1\n  require \"superheat\" over within 5 .. 15 F°\n  \
    confirm \"valves open\"\nend\n";

fn folder() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("job.dew"), SHEET).unwrap();
    folder
}

/// The outcome of a sheet but for its name and its text.
fn outcome(folder: &Path, sheet: &str) -> Value {
    let run = Command::new(env!("CARGO_BIN_EXE_dewline"))
        .args(["run", sheet, "--format", "json"])
        .current_dir(folder)
        .output()
        .unwrap();
    let mut outcome: Value = serde_json::from_slice(&run.stdout).unwrap();
    // What the sheet is called and its digest.
    outcome.as_object_mut().unwrap().remove("sheet");
    outcome.as_object_mut().unwrap().remove("files");
    outcome
}

#[test]
fn a_calculation_is_completed_hinted_and_answered() {
    let folder = folder();
    let mut screen = Screen::start(folder.path(), &[], true);
    screen.sees("type an expression or");
    screen.keys("superh");
    screen.keys(TAB);
    screen.sees("> superheat(  # refrigerant, suction_pressure, line_temperature");
    screen.keys("R-410A, 118 psig, line_t");
    screen.keys(TAB);
    screen.sees("118 psig, line_temperature =");
    screen.keys("55 ");
    screen.keys(TAB);
    screen.keys(TAB);
    // Temperatures that are points, and no differences.
    screen.sees("degC");
    assert!(!screen.shown().contains("C°"), "{}", screen.shown());
    screen.keys("degF)");
    screen.keys(ENTER);
    screen.sees(" F°\n");
    screen.line("last * 2");
    screen.leave();
    assert_eq!(screen.exit_code(), 0);
}

#[test]
fn lines_go_on_until_a_table_ends_and_an_interrupt_lets_them_go() {
    let folder = folder();
    let mut screen = Screen::start(folder.path(), &[], false);
    screen.sees("type an expression or");
    screen.line("table gone");
    screen.keys("  a\r");
    screen.keys(CTRL_C);
    screen.line("table rise");
    screen.keys("time | p\r");
    screen.keys("min | micron\r");
    screen.keys("0 | 312\r");
    screen.keys("5 | 341\r");
    screen.keys("end\r");
    screen.line("last(rise.p) - first(rise.p)");
    screen.sees("\n29 micron difference");
    screen.line("max(1,");
    screen.keys("41 + 2)\r");
    screen.sees("\n43\n");
    screen.line("text gone");
    screen.sees("nothing called \"gone\"");
    screen.line("3 psgi + 2");
    screen.sees("typed:1:");
    screen.sees("3 psgi + 2");
    screen.leave();
    screen.sees("not saved");
    screen.line("yes");
    assert_eq!(screen.exit_code(), 0);
}

#[test]
fn what_depends_on_a_change_is_told_and_what_is_taken_is_saved() {
    let folder = folder();
    let mut screen = Screen::start(folder.path(), &["job.dew"], false);
    screen.sees("INCOMPLETE");
    screen.line("suction = 121 psig");
    screen.sees("suction = 121 psig (was 118 psig)");
    screen.line("take");
    screen.sees("pipe: in degF, within 0 .. 150 degF");
    screen.ends_with("pipe [degF]:");
    screen.line("550");
    screen.sees("550 degF");
    screen.sees("slip of the hand");
    screen.ends_with("pipe [degF]:");
    screen.line("52,4");
    screen.sees("52,4");
    screen.ends_with("pipe [degF]:");
    screen.line("52.4");
    screen.sees("confirm: valves open");
    screen.line("yes");
    screen.sees("Saved \"job.dew\"");
    screen.line("quit");
    assert_eq!(screen.exit_code(), 0);
    let saved = fs::read_to_string(folder.path().join("job.dew")).unwrap();
    assert!(saved.starts_with("# Riser B\n") && saved.contains("input suction = 121 psig  # at the door"), "{saved}");
    // The same job written by hand comes to the same.
    let by_hand = SHEET
        .replace("118 psig", "121 psig")
        .replace("pipe : degF", "pipe : degF = 52.4 degF")
        .replace("\"valves open\"", "\"valves open\" yes");
    fs::write(folder.path().join("by-hand.dew"), by_hand).unwrap();
    assert_eq!(outcome(folder.path(), "job.dew"), outcome(folder.path(), "by-hand.dew"));
}

#[test]
fn a_session_that_was_killed_is_offered_again() {
    let folder = folder();
    let mut screen = Screen::start(folder.path(), &["job.dew"], false);
    screen.line("suction = 121 psig");
    screen.sees("(was 118 psig)");
    screen.line("pipe = 52.4 degF");
    screen.sees("pipe = 52.4 degF (was ? TO TAKE)");
    screen.kill();
    assert_eq!(fs::read_to_string(folder.path().join("job.dew")).unwrap(), SHEET);

    // Another sheet only tells of it, until that sheet is opened.
    let mut screen = Screen::start(folder.path(), &[], false);
    screen.sees("Unsaved work on");
    screen.line("open job.dew");
    screen.sees("was not saved when dewline ended last");
    screen.sees("+ input suction = 121 psig");
    screen.line("later");
    screen.sees("Kept for later.");
    screen.line("suction");
    screen.sees("\n118 psig");
    screen.line("quit");
    assert_eq!(screen.exit_code(), 0);

    let mut screen = Screen::start(folder.path(), &["job.dew"], false);
    screen.sees("was not saved when dewline ended last");
    screen.sees("+ input suction = 121 psig");
    screen.line("yes");
    screen.sees("Restored");
    screen.line("save");
    screen.sees("Saved \"job.dew\"");
    screen.line("quit");
    assert_eq!(screen.exit_code(), 0);
    let saved = fs::read_to_string(folder.path().join("job.dew")).unwrap();
    assert!(saved.contains("suction = 121 psig") && saved.contains("pipe : degF = 52.4 degF"), "{saved}");

    // Nothing is left to offer.
    let mut screen = Screen::start(folder.path(), &["job.dew"], false);
    screen.ends_with(">");
    assert!(!screen.shown().contains("not saved"), "{}", screen.shown());
    screen.leave();
    assert_eq!(screen.exit_code(), 0);
}

#[test]
fn lines_are_kept_between_starts_for_their_owner_alone() {
    use std::os::unix::fs::PermissionsExt;
    let folder = folder();
    let mut screen = Screen::start(folder.path(), &[], false);
    screen.line("41 + 1");
    screen.sees("\n42\n");
    screen.line("quit");
    assert_eq!(screen.exit_code(), 0);
    let kept = folder.path().join("state/dewline/lines");
    assert_eq!(fs::metadata(&kept).unwrap().permissions().mode() & 0o777, 0o600);
    let mut screen = Screen::start(folder.path(), &[], false);
    screen.ends_with(">");
    screen.keys(UP);
    screen.keys(UP);
    screen.ends_with("> 41 + 1");
    screen.keys(ENTER);
    screen.sees("\n42\n");
    screen.leave();
    assert_eq!(screen.exit_code(), 0);
}

#[test]
fn colour_is_used_only_where_it_is_wanted() {
    let folder = folder();
    for color in [true, false] {
        let mut screen = Screen::start(folder.path(), &["job.dew"], color);
        screen.line("118 psig as kPag");
        screen.sees("kPag\n");
        screen.line("superheat(R-410A, 118 psi, 55 degF)");
        screen.sees("typed:1:");
        screen.line("quit");
        screen.sees("> quit");
        let colours = ["\u{1b}[3", "\u{1b}[1", "\u{1b}[2m", "\u{1b}[38"];
        let raw = screen.raw().replace("\u{1b}[1C", "").replace("\u{1b}[1G", "");
        let painted = colours.iter().any(|code| {
            raw.match_indices(code).any(|(at, _)| {
                let rest = &raw[at + 2..];
                rest.find(|letter: char| letter.is_alphabetic()).is_some_and(|end| rest[end..].starts_with('m'))
            })
        });
        assert_eq!(painted, color, "{raw:?}");
        assert_eq!(screen.exit_code(), 0);
    }
}

#[test]
fn abandoning_a_line_leaves_everything_as_it_was() {
    let folder = folder();
    let mut screen = Screen::start(folder.path(), &["job.dew"], false);
    screen.ends_with(">");
    screen.keys("suction = 999 psig");
    screen.sees("999 psig");
    screen.keys(CTRL_C);
    screen.line("suction");
    screen.sees("\n118 psig");
    screen.line("take");
    screen.ends_with("pipe [degF]:");
    screen.keys(CTRL_C);
    screen.sees("Stopped. 0 values taken, 2 still to take.");
    screen.line("41 + 2");
    screen.sees("\n43\n");
    screen.leave();
    assert_eq!(screen.exit_code(), 0);
}

#[test]
fn lines_sent_at_once_all_run_and_the_last_stays_in_the_line() {
    let folder = folder();
    let mut screen = Screen::start(folder.path(), &[], false);
    screen.ends_with(">");
    // As a paste comes from a terminal that does not mark it.
    screen.keys("a = 41\rb = a + 1\rb * 2\rc = b + 100\rc\rd = c + 1");
    screen.sees("\n84\n");
    screen.sees("\n142\n");
    screen.ends_with("> d = c + 1");
    screen.keys(ENTER);
    screen.sees("d = 143");
    // While a line is worked out, and into a question.
    screen.keys("quit\rno\ra + 2\r");
    screen.sees("\n43\n");
    screen.line("quit");
    screen.ends_with("yes or no?");
    screen.line("yes");
    assert_eq!(screen.exit_code(), 0);
}

#[test]
fn a_reading_typed_before_a_crash_finds_its_row_again() {
    let folder = folder();
    let sheet = "units IP\ntable rooms from \"rooms.csv\"\n  tag  | air\n  text | degF\nend\n";
    let write = |name: &str, text: &str| fs::write(folder.path().join(name), text).unwrap();
    write("job.dew", sheet);
    write("rooms.csv", "tag,air\nF-07,\nF-08,\n");
    let mut screen = Screen::start(folder.path(), &["job.dew"], false);
    screen.line("rooms[\"F-07\"].air = 55.9");
    screen.sees("air of F-07 = 55.9 degF");
    screen.line("rooms[\"F-08\"].air = 57.2");
    screen.sees("air of F-08 = 57.2 degF");
    screen.ends_with(">");
    screen.kill();
    write("rooms.csv", "tag,air\nF-06,61\nF-07,\nF-09,\n");

    let mut screen = Screen::start(folder.path(), &["job.dew"], false);
    screen.sees("+ rooms.csv: F-07, air = 55.9 (was empty)");
    screen.sees("! rooms.csv: F-08, air = 57.2 (was empty): its row is not there any more");
    screen.line("yes");
    screen.sees("Restored");
    screen.line("save");
    screen.sees("Save the rest?");
    screen.line("yes");
    screen.sees("1 field is not saved");
    assert_eq!(fs::read_to_string(folder.path().join("rooms.csv")).unwrap(), "tag,air\nF-06,61\nF-07,55.9\nF-09,\n");
    screen.line("quit");
    screen.ends_with("yes or no?");
    screen.line("yes");
    assert_eq!(screen.exit_code(), 0);
}
