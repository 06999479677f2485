//! No file outside the folder of the sheet, whoever names it and however, unless the user has allowed its folder.

use crate::Bench;
use crate::records::audited;

const RISE: &str = "time,pressure\n0,312\n5,341\n";

/// A sheet that asks for the path in each way there is.
fn asking(path: &str) -> [String; 3] {
    [
        format!("use \"{path}\"\na = 1\n"),
        format!("fill \"{path}\" as x ()\na = 1\n"),
        format!("table hold from \"{path}\"\n  time | pressure\n  min  | micron\nend\na = last(hold.pressure)\n"),
    ]
}

/// A folder with a sheet, a form and a table outside that of the jobs.
fn bench() -> Bench {
    let bench = Bench::new();
    bench.file("outside/secret.csv", RISE);
    bench.file("outside/secret.dew", "define twice(x) = 2 * x\n");
    bench.file("jobs/data/rise.csv", RISE);
    bench
}

#[track_caller]
fn refused(bench: &Bench, path: &str) {
    for sheet in asking(path) {
        bench.file("jobs/job.dew", &sheet);
        let left = bench.run(&["run", "jobs/job.dew"]).ends_with_code(2);
        assert!(!left.out.contains("341"), "{path}: the file was read");
    }
}

#[test]
fn paths_that_lead_out() {
    let bench = bench();
    let whole = bench.path().join("outside/secret.csv");
    let whole = whole.to_str().unwrap();
    for path in [
        "../outside/secret.csv",
        "../outside/secret.dew",
        "./../outside/secret.csv",
        "data/../../outside/secret.csv",
        "data/../data/../../outside/secret.csv",
        " ../outside/secret.csv ",
        "..\\outside\\secret.csv",
        "..",
        "../",
        "/etc/passwd",
        "//etc/passwd",
        "~/secret.csv",
        "C:/secret.csv",
        "c:secret.csv",
        "file:///etc/passwd",
        "data/rise.csv/../../../outside/secret.csv",
        "DATA/../../outside/secret.csv",
        whole,
    ] {
        refused(&bench, path);
    }
}

#[test]
fn a_path_that_turns_round_inside_is_no_way_out() {
    let bench = bench();
    bench.file("jobs/job.dew", &asking("data/../data/rise.csv")[2]);
    bench.run(&["run", "jobs/job.dew"]).ends_with_code(0).prints("341");
    bench.file("jobs/job.dew", &asking("/etc/passwd")[2]);
    bench.run(&["run", "jobs/job.dew"]).ends_with_code(2).says("not a place inside the folder");
    bench.file("jobs/job.dew", &asking("data\\rise.csv")[2]);
    bench.run(&["run", "jobs/job.dew"]).ends_with_code(2).says("data/rise.csv");
    bench.file("jobs/job.dew", &asking("../outside/secret.csv")[2]);
    bench.run(&["run", "jobs/job.dew"]).ends_with_code(2).says("leads out of the folder").says("--allow");
}

#[cfg(unix)]
#[test]
fn links_devices_and_pipes() {
    use std::os::unix::fs::symlink;

    let bench = bench();
    let jobs = bench.path().join("jobs");
    symlink("../outside/secret.csv", jobs.join("file.csv")).unwrap();
    symlink(bench.path().join("outside/secret.dew"), jobs.join("file.dew")).unwrap();
    symlink("../outside", jobs.join("folder")).unwrap();
    symlink("folder/secret.csv", jobs.join("chain.csv")).unwrap();
    symlink("round.csv", jobs.join("round.csv")).unwrap();
    symlink("/dev/zero", jobs.join("endless.csv")).unwrap();
    symlink("/proc/self/environ", jobs.join("environment.csv")).unwrap();
    for path in [
        "file.csv",
        "file.dew",
        "folder/secret.csv",
        "chain.csv",
        "round.csv",
        "endless.csv",
        "environment.csv",
        "data",
    ] {
        refused(&bench, path);
    }
    let made = std::process::Command::new("mkfifo").arg(jobs.join("pipe.csv")).status();
    if made.is_ok_and(|status| status.success()) {
        refused(&bench, "pipe.csv");
        bench.file("jobs/job.dew", &asking("pipe.csv")[2]);
        bench.run(&["run", "jobs/job.dew"]).ends_with_code(2).says("a device or a pipe");
    }
    bench.file("jobs/job.dew", &asking("file.csv")[2]);
    bench.run(&["run", "jobs/job.dew"]).ends_with_code(2).says("link that leads out");
    // A link that stays inside is as good as the file.
    symlink("data/rise.csv", jobs.join("inside.csv")).unwrap();
    bench.file("jobs/job.dew", &asking("inside.csv")[2]);
    bench.run(&["run", "jobs/job.dew"]).ends_with_code(0).prints("341");
}

#[test]
fn values_from_outside_lead_out_no_more_than_the_sheet() {
    let bench = bench();
    bench.file("jobs/job.dew", "table hold\n  time | pressure\n  min  | micron\nend\na = last(hold.pressure)\n");
    for path in ["../outside/secret.csv", "/etc/passwd"] {
        let left = bench.run(&["run", "jobs/job.dew", "--set", &format!("hold={path}")]).ends_with_code(2);
        assert!(!left.out.contains("341 micron"), "{}", left.out);
    }
    bench.run(&["run", "jobs/job.dew", "--set", "hold=data/rise.csv"]).ends_with_code(0).prints("341");
}

#[test]
fn an_allowed_folder_and_nothing_beyond_it() {
    let bench = bench();
    bench.file("outside/near.csv", RISE);
    bench.file("further/far.csv", RISE);
    let [used, filled, read] = asking("../outside/secret.dew");
    let allow = ["--allow", "outside"];
    for sheet in [used, filled] {
        bench.file("jobs/job.dew", &sheet);
        bench.run(&["run", "jobs/job.dew", allow[0], allow[1]]).ends_with_code(0);
        bench.run(&["check", "jobs/job.dew", allow[0], allow[1]]).ends_with_code(0);
        bench.run(&["why", "jobs/job.dew", "a", allow[0], allow[1]]).ends_with_code(0);
    }
    bench.file("jobs/job.dew", read.replace("secret.dew", "secret.csv"));
    bench.run(&["run", "jobs/job.dew", allow[0], allow[1]]).ends_with_code(0).prints("341");
    // A form there finds what stands beside it, and leads no further.
    bench.file("outside/form.dew", &asking("near.csv")[2]);
    bench.file("jobs/job.dew", "fill \"../outside/form.dew\" as x ()\nc = x.a\n");
    bench.run(&["run", "jobs/job.dew", allow[0], allow[1]]).ends_with_code(0).prints("341");
    bench.file("outside/form.dew", &asking("../further/far.csv")[2]);
    let left = bench.run(&["run", "jobs/job.dew", allow[0], allow[1]]).ends_with_code(2);
    assert!(!left.out.contains("341"));
    bench.run(&["run", "jobs/job.dew", "--allow", "nowhere"]).ends_with_code(2).says("cannot be allowed");
    bench.run(&["run", "jobs/job.dew", "--allow", "jobs/job.dew"]).ends_with_code(2).says("no folder");
}

#[test]
fn a_record_holds_what_came_from_an_allowed_folder() {
    let bench = bench();
    bench.file("jobs/job.dew", &asking("../outside/secret.csv")[2]);
    let allow = ["--allow", "outside"];
    bench.run(&["run", "jobs/job.dew", allow[0], allow[1], "--record", "r.json"]).ends_with_code(0);
    assert_eq!(audited(&bench, &[])["result"], "same");
    assert_eq!(audited(&bench, &["--sources", "jobs", allow[0], allow[1]])["result"], "same");
    bench.file("outside/secret.csv", RISE.replace("341", "342"));
    // What is embedded counts, not the disk.
    assert_eq!(audited(&bench, &[])["result"], "same");
    assert_eq!(audited(&bench, &["--sources", "jobs", allow[0], allow[1]])["result"], "differs");
}
