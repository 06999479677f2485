//! A record is there whole or not at all, whatever happens while it is written.
#![cfg(unix)]

use std::io::Write;
use std::os::unix::fs::PermissionsExt;
use std::os::unix::process::{CommandExt, ExitStatusExt};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use crate::Bench;
use crate::records::{audited, digest, read, recorded};

const DEWLINE: &str = env!("CARGO_BIN_EXE_dewline");

/// A command that writes the record of another reading.
fn writing(bench: &Bench, tenths: u32) -> Command {
    let mut command = bench.command();
    let reading = format!("end_pressure={} psig", 548.0 + f64::from(tenths) / 10.0);
    command.args(["run", "job.dew", "--quiet", "--record", "r.json", "--set", &reading]);
    command.stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null());
    command
}

#[test]
fn killed_at_any_moment_it_leaves_a_whole_record() {
    let bench = recorded(&[]);
    let began = Instant::now();
    writing(&bench, 0).status().unwrap();
    let usual = began.elapsed();
    // A fixed row of moments all over the time that a run takes; the numbers are from a linear congruence.
    let mut state = 12_345_u32;
    let (mut killed, mut finished) = (0, 0);
    for turn in 0..200 {
        state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        let moment = usual.mul_f64(f64::from(state >> 8) / f64::from(1 << 24) * 1.5);
        let mut child = writing(&bench, turn % 10).spawn().unwrap();
        std::thread::sleep(moment);
        child.kill().unwrap();
        if child.wait().unwrap().success() {
            finished += 1
        } else {
            killed += 1
        }
        let record = read(&bench);
        assert_eq!(record["digest"], digest(&record), "turn {turn}");
    }
    assert!(killed > 10, "{killed} killed, {finished} finished");
    assert_eq!(audited(&bench, &[])["result"], "same");
    // What a killed run left in the making is hidden, and no audit takes it for a record.
    bench.run(&["audit", "."]).ends_with_code(0).prints("");
    let left = bench.names().into_iter().filter(|name| !name.starts_with('.')).collect::<Vec<_>>();
    assert_eq!(left, ["job.dew", "parts", "r.json", "rise.csv"]);
    let again = Instant::now();
    writing(&bench, 3).status().unwrap();
    assert!(again.elapsed() < Duration::from_secs(60));
    assert_eq!(audited(&bench, &[])["result"], "same");
}

/// A run whose report stands unfinished beside its place, as it still waits for the sheet.
fn waiting(bench: &Bench, mut command: Command) -> Child {
    let child = command.stdin(Stdio::piped()).stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap();
    let began = Instant::now();
    while !bench.names().iter().any(|name| name.starts_with(".page.html")) {
        assert!(began.elapsed() < Duration::from_secs(60), "no report was begun");
        std::thread::sleep(Duration::from_millis(5));
    }
    child
}

fn sent(signal: &str, child: &Child) {
    assert!(Command::new("kill").args([format!("-{signal}"), child.id().to_string()]).status().unwrap().success());
}

/// Whoever started the tests may have had a signal ignored, as a shell does of interrupts for what runs in its background.
fn is_ignored(signal: i32) -> bool {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let mask = status.lines().find_map(|line| line.strip_prefix("SigIgn:")).map_or("0", str::trim);
    u64::from_str_radix(mask, 16).unwrap() >> (signal - 1) & 1 == 1
}

#[test]
fn made_to_end_it_leaves_nothing_behind() {
    let bench = Bench::new();
    let signals = [("HUP", 1), ("INT", 2), ("TERM", 15)];
    for (name, number) in signals.into_iter().filter(|(_, number)| !is_ignored(*number)) {
        let mut command = bench.command();
        command.args(["run", "-", "--out", "page.html"]);
        let mut child = waiting(&bench, command);
        // Waiting closes the input of a child, and a run whose input ends may be done before the signal reaches it.
        let input = child.stdin.take();
        sent(name, &child);
        assert_eq!(child.wait().unwrap().signal(), Some(number), "{name}");
        drop(input);
        assert!(bench.names().is_empty(), "{name} left {:?}", bench.names());
    }
}

#[test]
fn told_to_outlive_its_terminal_it_goes_on() {
    let bench = Bench::new();
    let mut command = Command::new("sh");
    command.current_dir(bench.path()).args(["-c", "trap '' HUP; exec \"$0\" run - --out page.html", DEWLINE]);
    let mut child = waiting(&bench, command);
    sent("HUP", &child);
    child.stdin.take().unwrap().write_all(b"a = 3 ft\n").unwrap();
    assert_eq!(child.wait().unwrap().code(), Some(0));
    assert_eq!(bench.names(), ["page.html"]);
}

/// The longest file that a process may write is set, so that the record comes to an end in its middle.
#[test]
fn a_file_that_cannot_grow_leaves_the_old_record() {
    let bench = recorded(&[]);
    let before = bench.read("r.json");
    let script = format!(
        "trap '' XFSZ; ulimit -f 4; exec {DEWLINE} run job.dew --quiet --record r.json \
        --set 'end_pressure=548 psig'"
    );
    let left = Command::new("sh").arg("-c").arg(script).current_dir(bench.path()).output().unwrap();
    intact(&bench, &before, &left);
}

/// A small disk in memory, where the tests may make one.
#[test]
fn a_full_disk_leaves_the_old_record() {
    let bench = recorded(&[]);
    let disk = bench.path().join("disk");
    std::fs::create_dir(&disk).unwrap();
    let mounted = Command::new("mount").args(["-t", "tmpfs", "-o", "size=64k", "tmpfs"]).arg(&disk).output();
    if !mounted.is_ok_and(|left| left.status.success()) {
        println!("skipped: no disk in memory may be made here");
        return;
    }
    let _unmounted = Unmount(&disk);
    let before = bench.read("r.json");
    std::fs::copy(bench.path().join("r.json"), disk.join("r.json")).unwrap();
    // All but one page is taken.
    let free = 64 * 1024 - before.len().next_multiple_of(4096) - 4096;
    std::fs::write(disk.join("filler"), vec![0; free]).unwrap();
    let mut command = bench.command();
    command.args(["run", "job.dew", "--quiet", "--set", "end_pressure=548 psig", "--record", "disk/r.json"]);
    let left = command.output().unwrap();
    let said = String::from_utf8_lossy(&left.stderr).into_owned();
    assert_eq!(left.status.code(), Some(2), "{said}");
    assert!(said.contains("cannot be written") && said.contains("no space left"), "{said}");
    assert_eq!(std::fs::read_to_string(disk.join("r.json")).unwrap(), before);
    assert_eq!(std::fs::read_dir(&disk).unwrap().count(), 2);
}

struct Unmount<'a>(&'a std::path::Path);

impl Drop for Unmount<'_> {
    fn drop(&mut self) {
        let _ = Command::new("umount").arg(self.0).status();
    }
}

#[test]
fn a_folder_that_may_not_be_written_leaves_the_old_record() {
    let bench = recorded(&[]);
    let before = bench.read("r.json");
    let set = |mode| std::fs::set_permissions(bench.path(), std::fs::Permissions::from_mode(mode)).unwrap();
    set(0o555);
    let mut command = bench.command();
    command.args(["run", "job.dew", "--quiet", "--record", "r.json", "--set", "end_pressure=548 psig"]);
    if std::fs::write(bench.path().join("probe"), "").is_ok() {
        // Whoever may do everything becomes nobody, if the program can be reached so.
        std::fs::remove_file(bench.path().join("probe")).unwrap();
        command.uid(65_534).gid(65_534);
        let reached = Command::new(DEWLINE).arg("--version").uid(65_534).gid(65_534).output();
        if !reached.is_ok_and(|left| left.status.success()) {
            println!("skipped: nobody else can start the program here");
            return set(0o755);
        }
    }
    let left = command.output().unwrap();
    set(0o755);
    intact(&bench, &before, &left);
}

/// The old record is as it was, nothing lies beside it, and the message says what happened.
#[track_caller]
fn intact(bench: &Bench, before: &str, left: &std::process::Output) {
    let said = String::from_utf8_lossy(&left.stderr).into_owned();
    assert_eq!(left.status.code(), Some(2), "{:?} {said}", left.status);
    assert!(said.contains("\"r.json\" cannot be written") || said.contains("r.json\" cannot be written"), "{said}");
    assert_eq!(bench.read("r.json"), before);
    assert_eq!(bench.names(), ["job.dew", "parts", "r.json", "rise.csv"]);
}
