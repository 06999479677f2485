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

#[test]
fn refrigerants_are_listed_and_told_in_full() {
    let bench = Bench::new();
    bench
        .run(&["refrigerants"])
        .ends_with_code(0)
        .prints("R-454B        A2L  R-32 68.9 %, R-1234yf 31.1 %\n")
        .prints("R-409A        A1   R-22 60 %, R-124 25 %, R-142b 15 %; estimated\n")
        .prints("not computed: no published equation of");
    let left = bench.run(&["refrigerants", "r454b"]).ends_with_code(0);
    left.prints("62.614 g/mol").prints("doi:10.1063/5.0135368");
    bench.run(&["refrigerants", "R-454D"]).ends_with_code(2).says("did you mean R-454A or R-454B or R-454C?");
    bench.run(&["refrigerants", "R-400"]).ends_with_code(2).says("no published equation of state for R-12");
}

/// R-32 at 0 °C: 813.10 kPa absolute (Tillner-Roth & Yokozeki 1997, table 12), less the atmosphere.
#[test]
fn a_chart_is_at_the_site_in_either_system() {
    let bench = Bench::new();
    let chart = ["pt", "R-32", "--from", "0", "--to", "100", "--step", "100"];
    bench
        .run(&chart)
        .ends_with_code(0)
        .prints("           0         712         712\n")
        .prints("         100           -           -\n")
        .says("sea level");
    let at_site = ["pt", "R-32", "--ip", "--from", "32", "--to", "32", "--site", "13.0 psia"];
    // 813.10 kPa is 117.93 psia.
    bench.run(&at_site).ends_with_code(0).prints("          32       104.9       104.9\n");
    bench.run(&["pt", "R-32", "--site", "high up"]).ends_with_code(2);
    bench.run(&["pt", "R-32", "--from", "10", "--to", "0"]).ends_with_code(2).says("begin at 10");
}
