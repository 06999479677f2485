//! `why`: how a value came about, down to inputs and readings.

use crate::Bench;

const FORM: &str = "sheet \"Holding\"\ninput start : psig\ninput stop : psig\nlost : psi = start - stop\n";

const JOB: &str = "fill \"form.dew\" as riser ( start = first_reading, stop = low )\n\
    reading first_reading = 550.0 psig \"manifold\"\n\
    low = min(log.pressure)\n\
    table log\n  time | pressure\n  min | psig\n  0 | 550.0\n  30 | 548.5\n  lost : psi = first_reading - pressure\n\
    pipe = tube(3/8 in, temper = \"annealed\")\nend\n\
    table rooms\n  tag | air\n  text | degF\n  \"Exam 1\" | 70.0\n  \"Exam 2\" | 71.0\nend\n\
    warmest = rooms[\"Exam 2\"].air + 1 F°\n";

fn bench() -> Bench {
    let bench = Bench::with_sheet(JOB);
    bench.file("form.dew", FORM);
    bench
}

#[test]
fn a_filled_sheet_is_told_down_to_what_fills_it() {
    let left = bench().run(&["why", "job.dew", "riser.lost"]).ends_with_code(0);
    let told: Vec<&str> = left.out.lines().collect();
    let expected = [
        "riser.lost = 1.5 psi",
        "│  = start - stop",
        "├─ riser.start = 550 psig (input, filled in, \"manifold\")",
        "│  └─ first_reading = 550 psig (reading, \"manifold\")",
        "└─ riser.stop = 548.5 psig (input, filled in)",
        "   └─ low = 548.5 psig",
        "      │  = min(log.pressure)",
        "      └─ log.pressure = 550 psig, 548.5 psig (input, 2 rows)",
    ];
    assert_eq!(told, expected, "{}", left.out);
}

#[test]
fn a_row_is_found_by_its_key_with_its_unit_or_without() {
    for name in ["log[\"30 min\"].lost", "log[30 min].lost", "log[\"30\"].lost"] {
        let left = bench().run(&["why", "job.dew", name]).ends_with_code(0);
        left.prints("log[\"30 min\"].lost = 1.5 psi").prints("└─ log[\"30 min\"].pressure = 548.5 psig (input)");
    }
    bench().run(&["why", "job.dew", "log[0 min].pipe.bore"]).ends_with_code(0).prints("log[\"0 min\"].pipe.bore = ");
}

#[test]
fn a_whole_column_is_told_with_the_columns_it_is_made_of() {
    let left = bench().run(&["why", "job.dew", "log.lost"]).ends_with_code(0);
    left.prints("log.lost = 0 psi, 1.5 psi (2 rows)").prints("└─ log.pressure = 550 psig, 548.5 psig (input, 2 rows)");
}

#[test]
fn a_looked_up_row_is_told_as_that_row() {
    let left = bench().run(&["why", "job.dew", "warmest"]).ends_with_code(0);
    left.prints("└─ rooms[\"Exam 2\"].air = 71 degF (input)");
}

#[test]
fn a_wrong_name_is_met_with_the_way_to_ask() {
    for (name, said) in [
        ("warmst", "did you mean `warmest`?"),
        ("pressure", "ask for `log[\"0 min\"].pressure`"),
        ("rooms[\"Exam 9\"].air", "the table `rooms` has no row \"Exam 9\""),
        ("rooms[\"Exam 9\"].air", "Its rows are Exam 1, Exam 2"),
        ("quite_another_thing", "`dewline run` lists every value"),
    ] {
        bench().run(&["why", "job.dew", name]).ends_with_code(2).says(said);
    }
}

#[test]
fn a_long_chain_ends_with_the_way_to_go_on() {
    let mut text = String::from("a0 = 1 ft\n");
    for at in 1..5_000 {
        text.push_str(&format!("a{at} = a{} + 1 ft\n", at - 1));
    }
    let bench = Bench::with_sheet(&text);
    let left = bench.run(&["why", "job.dew", "a4999"]).ends_with_code(0);
    let words: Vec<&str> = left.out.split([' ', '\n']).filter(|word| !word.is_empty() && *word != "│").collect();
    assert!(words.join(" ").contains("(for what it is made of, ask for a4983)"), "{}", left.out);
    assert!(!left.out.contains("a4900"), "{}", left.out);
}

const FILLED: &str = "site altitude = 1280 ft\nreading p = 550 psig\n\
    fill \"drift.dew\" as once ( a = p, b = p - 3 psi )\n\
    fill \"drift.dew\" as open ( a = p )\n\
    table branches\n  tag | from\n  text | psig\n  \"A\" | 550\n  \"B\" | 551\nend\n\
    fill \"drift.dew\" as branch each branches ( a = from )\n\
    fill \"drift.dew\" as firm each branches ( a = from, b = from - 3 psi )\n\
    worst = max(branch.drift)\nheld = absolute(p)\n";

fn filled() -> Bench {
    let bench = Bench::with_sheet(FILLED);
    bench.file("drift.dew", "input a : psig\ninput b : psig = a - 2 psi\ndrift : psi = a - b\n");
    bench
}

#[test]
fn an_input_is_told_by_the_formula_that_counted() {
    let told =
        |name: &str, set: &[&str]| filled().run(&[&["why", "job.dew", name], set].concat()).ends_with_code(0).out;
    let own = told("open.b", &[]);
    assert!(own.contains("open.b = 548 psig (input)\n│  = a - 2 psi\n└─ open.a = "), "{own}");
    let filled = told("once.b", &[]);
    assert!(
        filled.contains("once.b = 547 psig (input, filled in)\n│  = p - 3 psi\n└─ p = 550 psig (reading)"),
        "{filled}"
    );
    let set = told("once.b", &["--set", "once.b=540 psig"]);
    assert_eq!(set.trim_end(), "once.b = 540 psig (input, set from outside)");
}

#[test]
fn what_turns_gauge_into_absolute_names_the_site() {
    let left = filled().run(&["why", "job.dew", "held"]).ends_with_code(0);
    left.prints("├─ p = 550 psig (reading)").prints("└─ site altitude = 1280 ft (input)");
}

#[test]
fn a_sheet_filled_for_each_row_is_told_as_a_column_and_row_by_row() {
    let bench = filled();
    bench.run(&["why", "job.dew", "branch.drift"]).ends_with_code(0).prints("branch.drift = 2 psi, 2 psi (2 rows)");
    bench.run(&["why", "job.dew", "branch.b"]).ends_with_code(0).prints("= a - 2 psi");
    bench.run(&["why", "job.dew", "firm.b"]).ends_with_code(0).prints("= from - 3 psi");
    let worst = bench.run(&["why", "job.dew", "worst"]).ends_with_code(0);
    worst.prints("└─ branch.drift = 2 psi, 2 psi (2 rows)");
    let row = bench.run(&["why", "job.dew", "branch[\"B\"].drift"]).ends_with_code(0);
    row.prints("├─ branch[\"B\"].a = 551 psig (input, filled in)").prints("└─ branches[\"B\"].from = 551 psig (input)");
}
