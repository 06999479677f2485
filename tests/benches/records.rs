//! Ten thousand records of the demo job, each with readings of its own: written and audited by the program as people
//! start it. Build it first with `cargo build --release`. `RECORDS=1000` makes fewer.
#![allow(missing_docs, clippy::unwrap_used, clippy::panic)]

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

const SHEET: &str = "../examples/clinic/clinic.dew";

fn program() -> PathBuf {
    let target = std::env::var("CARGO_TARGET_DIR").unwrap_or_else(|_| "../target".to_string());
    let program = Path::new(&target).join("release/dewline");
    assert!(program.exists(), "{} is not built: cargo build --release", program.display());
    program
}

/// Runs a command to its end; gives the seconds it took and, where the system tells it, the most memory it had in MB.
fn timed(command: &mut Command) -> (f64, Option<u64>) {
    let began = Instant::now();
    let mut child = command.stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap();
    let status = format!("/proc/{}/status", child.id());
    let mut most = None;
    loop {
        let text = std::fs::read_to_string(&status).unwrap_or_default();
        let peak = text.lines().find_map(|line| line.strip_prefix("VmHWM:")?.split_whitespace().next()?.parse().ok());
        most = most.max(peak);
        if child.try_wait().unwrap().is_some() {
            return (began.elapsed().as_secs_f64(), most.map(|kilobytes: u64| kilobytes / 1024));
        }
        std::thread::sleep(Duration::from_millis(10));
    }
}

fn main() {
    // The test runner asks benches for nothing but their names.
    if std::env::args().any(|argument| argument == "--test" || argument == "--list") {
        return;
    }
    let count: u32 = std::env::var("RECORDS").ok().and_then(|count| count.parse().ok()).unwrap_or(10_000);
    let folder = tempfile::tempdir().unwrap();
    let rows: String = (0..count)
        .map(|row| {
            let turn = |step: u32, size: f64| f64::from(row * step % 1_000) / 1_000.0 * size;
            let (end, ambient) = (536.0 + turn(7, 3.0), 57.0 + turn(11, 2.0));
            format!("{:.3},{:.3},{:.3},{:.3}\n", end, end - 0.3, ambient, 198.0 + turn(13, 3.0))
        })
        .collect();
    let header = "liquid_end [psig],gas_end [psig],ambient_end [degF],rest_pressure [psig]\n";
    std::fs::write(folder.path().join("jobs.csv"), format!("{header}{rows}")).unwrap();
    let (jobs, records) = (folder.path().join("jobs.csv"), folder.path().join("records"));

    let mut write = Command::new(program());
    write.args(["run", SHEET, "--quiet", "--format", "csv", "--set-from"]).arg(&jobs).arg("--record").arg(&records);
    let (seconds, memory) = timed(&mut write);
    let written = std::fs::read_dir(&records).unwrap().count();
    assert_eq!(written, count as usize);
    let bytes: u64 = std::fs::read_dir(&records).unwrap().map(|one| one.unwrap().metadata().unwrap().len()).sum();
    println!(
        "written: {written} records of {} kB in {seconds:.1} s, {memory:?} MB at most",
        bytes / u64::from(count) / 1000
    );

    for threads in [1, 2] {
        let mut audit = Command::new(program());
        audit.arg("audit").arg(&records).args(["--threads", &threads.to_string()]);
        let (seconds, memory) = timed(&mut audit);
        let rate = f64::from(count) / seconds;
        println!("audited on {threads} threads: {seconds:.1} s, {rate:.0} records/s, {memory:?} MB at most");
    }
}
