//! `worst PROGRAM`: the worst sheets of each kind, run by that program within a gigabyte and ten seconds of a processor.
//!
//! The system ends a run that wants more (`ulimit`): of memory a gigabyte beside the stack that is set aside for the deepest
//! sheet, the program itself and what the allocator sets aside, of time six times ten seconds, for machines slower or busier
//! than the one they were measured on. What each took is printed.

use std::error::Error;
use std::fs;
use std::process::{Command, Stdio};
use std::time::Instant;

use dewline_tests::worst::sheets;

const KILOBYTES: u64 = (1024 + 256 + 64 + 128) * 1024;
const SECONDS: u64 = 60;

fn main() -> Result<(), Box<dyn Error>> {
    let program = fs::canonicalize(std::env::args().nth(1).ok_or("name the program")?)?;
    let folder = tempfile::tempdir()?;
    let mut fallen = Vec::new();
    for worst in sheets() {
        fs::write(folder.path().join("job.dew"), &worst.sheet)?;
        fs::write(folder.path().join("data.csv"), &worst.data)?;
        let begin = Instant::now();
        let script = format!("ulimit -v {KILOBYTES}; ulimit -t {SECONDS}; exec \"$0\" run job.dew \"$@\"");
        let run = Command::new("sh")
            .args(["-c", &script])
            .arg(&program)
            .args(worst.asked)
            .current_dir(folder.path())
            .stdout(Stdio::null())
            .stderr(Stdio::piped())
            .output()?;
        let code = run.status.code();
        println!("{:>6.1} s  {code:?}  {}", begin.elapsed().as_secs_f64(), worst.kind);
        if !matches!(code, Some(0..=3)) {
            let told = String::from_utf8_lossy(&run.stderr);
            fallen.push(format!("{}: {code:?} {}", worst.kind, told.lines().last().unwrap_or_default()));
        }
    }
    if fallen.is_empty() { Ok(()) } else { Err(fallen.join("\n").into()) }
}
