//! `fmt`: sheets laid out in place.

use crate::Bench;

const UNTIDY: &str = "a   =  3 ft   # kept\n\n\n\nstage \"S\"\nb = a+1 ft\nend\n";

#[test]
fn a_sheet_is_laid_out_once_and_then_left_alone() {
    let bench = Bench::with_sheet(UNTIDY);
    bench.run(&["fmt", "--check", "job.dew"]).ends_with_code(1).prints("job.dew would change");
    assert_eq!(bench.read("job.dew"), UNTIDY);
    bench.run(&["fmt", "job.dew"]).ends_with_code(0).prints("laid out");
    let tidy = bench.read("job.dew");
    assert!(tidy != UNTIDY && tidy.contains("# kept"), "{tidy}");
    bench.run(&["fmt", "--check", "job.dew"]).ends_with_code(0);
    bench.run(&["fmt", "job.dew"]).ends_with_code(0);
    assert_eq!(bench.read("job.dew"), tidy);
    assert_eq!(bench.names(), ["job.dew"]);
    let left = bench.run_with(&["fmt", "-"], UNTIDY).ends_with_code(0);
    assert_eq!(left.out, tidy);
}

#[test]
fn a_sheet_that_cannot_be_read_stays_as_it_is() {
    let bench = Bench::with_sheet("a = = 3\n");
    bench.run(&["fmt", "job.dew"]).ends_with_code(2).says("job.dew:1:");
    assert_eq!(bench.read("job.dew"), "a = = 3\n");
}

#[cfg(unix)]
#[test]
fn permissions_stay() {
    use std::os::unix::fs::PermissionsExt;
    let bench = Bench::with_sheet(UNTIDY);
    let path = bench.path().join("job.dew");
    std::fs::set_permissions(&path, std::fs::Permissions::from_mode(0o640)).unwrap();
    bench.run(&["fmt", "job.dew"]).ends_with_code(0);
    assert_eq!(std::fs::metadata(&path).unwrap().permissions().mode() & 0o777, 0o640);
}
