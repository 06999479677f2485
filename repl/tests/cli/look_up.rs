//! `units`, `functions`, `explain`, `columns`.

use crate::Bench;

#[test]
fn units_are_listed_shown_and_suggested() {
    let bench = Bench::new();
    bench.run(&["units"]).ends_with_code(0).prints("pressure point").prints("psig");
    bench.run(&["units", "psig"]).ends_with_code(0).prints("psig: pressure point").prints("6894.75729316836");
    bench.run(&["units", "Btu/(h·ft2·degF)"]).ends_with_code(0).prints("in SI");
    bench.run(&["units", "psgi"]).ends_with_code(2).says("psig");
    bench.run(&["units", "length"]).ends_with_code(0).prints("ft");
}

#[test]
fn functions_are_listed_shown_and_suggested() {
    let bench = Bench::new();
    bench.run(&["functions"]).ends_with_code(0).prints("superheat");
    let left = bench.run(&["functions", "superheat"]).ends_with_code(0);
    left.prints("superheat(").prints("Takes").prints("Gives").prints("Source").prints("For example");
    bench.run(&["functions", "superhaet"]).ends_with_code(2).says("superheat");
    bench.run(&["functions"]).ends_with_code(0).prints("general\n").prints("weighted_mean");
    bench.run(&["functions", "taken"]).ends_with_code(0).prints("taken(column)\n  The column without its rows");
    bench.run(&["functions", "absolut"]).ends_with_code(0).prints("absolute  ").prints("compression_ratio");
    bench.run(&["functions", "interpolat"]).ends_with_code(0).prints("interpolate(");
    bench.run(&["functions", "tkaen"]).ends_with_code(2).says("did you mean taken?");
}

#[test]
fn messages_are_listed_and_explained() {
    let bench = Bench::new();
    bench.run(&["explain"]).ends_with_code(0).prints("D0101");
    bench.run(&["explain", "d0101"]).ends_with_code(0).prints("D0101: a character that the language does not use");
    bench.run(&["explain", "D9999"]).ends_with_code(2).says("no message");
}

#[test]
fn columns_prints_a_table_that_the_language_reads() {
    let bench = Bench::new();
    let csv = "Tag,Index [kW],Calling,CH 1 (micron),Read at,2nd\nU01,2.8,true,312,2026-03-14T07:40,x\nU02,,false,341,2026-03-14T07:45,y\n";
    bench.file("indoor.csv", csv);
    let left = bench.run(&["columns", "indoor.csv"]).ends_with_code(0);
    assert!(left.out.starts_with("table indoor from \"indoor.csv\"\n"), "{}", left.out);
    bench.file("job.dew", left.out + "worst = max(taken(indoor.ch_1))\n");
    bench.run(&["run", "job.dew"]).ends_with_code(0).prints("341 micron");
    bench.run(&["columns", "none.csv"]).ends_with_code(2).says("no file");
}
