//! The worst sheets of each kind that are accepted, or refused only while running: what a stranger could send.

use std::fmt::Write;

/// A sheet and its data file, if it has one.
pub struct Worst {
    /// What it goes to the end of.
    pub kind: &'static str,
    /// The sheet.
    pub sheet: String,
    /// The text of `data.csv`.
    pub data: String,
    /// What is asked for beside the run.
    pub asked: &'static [&'static str],
}

const JSON: &[&str] = &["--format", "json"];

/// All of them.
pub fn sheets() -> Vec<Worst> {
    let plain = |kind, sheet| Worst { kind, sheet, data: String::new(), asked: JSON };
    vec![
        plain("bytes of a sheet", format!("a = 1\n{}", "# a comment that goes on\n".repeat(160_000))),
        plain("named values, each of the one before", chain(99_000)),
        plain("operators", repeated(2_300, |at| format!("c{at} = {}\n", ["1.000001"; 190].join("*")))),
        plain("checks", format!("input x = 3 ft\n{}", repeated(99_000, check))),
        plain("texts that double", format!("{}{}", doubled(), repeated(60_000, |at| format!("u{at} = \"{{t13}}\"\n")))),
        plain(
            "texts compared",
            format!("{}{}", doubled(), repeated(90_000, |at| format!("u{at} = \"{{t13}}\" == \"{{t13}}x\"\n"))),
        ),
        plain("doubt that adds up", format!("{}s0 = r0\n{}", readings(6_000), repeated(5_999, |at| summed(at + 1)))),
        plain("definitions that call one another", defined()),
        plain("one root inside another", nested_roots()),
        plain("calls for properties of a blend", repeated(60_000, state)),
        plain("errors before running", repeated(10_000, |at| format!("c{at} = 1 ft + 1 lb\n"))),
        plain("errors while running", repeated(49_000, |at| format!("z{at} = 1\nc{at} = 1 / (z{at} - 1)\n"))),
        plain("the library's forms, again and again", filled()),
        table("rows", "- | -\nend\nm = mean(t.v)\n", 2_400_000),
        table("rows of text", "- | text\nend\nm = count(t.v)\n", 2_400_000),
        table("rows that break", "- | -\n w = 1 / (v - v)\nend\n", 1_600_000),
        table(
            "rows that break one by one",
            "- | kPaa\n w = dew_temperature(R-32, absolute(v) * (k / 1e12))\nend\n",
            1_600_000,
        ),
        table(
            "rows of doubt",
            "- | psi ± 1 psi\n w = v * 2 + v\n x = w * w / (1 psi)\nend\nm = mean(t.x)\n",
            1_000_000,
        ),
        table("rows of a check", "- | -\n require each \"below\" v < 50\nend\n", 96_000),
        Worst { kind: "a long hold on one gauge", sheet: hold(), data: log(1_500), asked: JSON },
        Worst { asked: &["--record", "record.json"], ..table("a record", "- | -\n w = v / 7\nend\n", 330_000) },
        Worst { asked: &["--out", "book.xlsx"], ..table("a workbook", "- | -\n w = v / 7\nend\n", 660_000) },
        Worst { asked: &["--out", "page.html"], ..table("a page", "- | -\n w = v / 7\nend\n", 1_600_000) },
    ]
}

fn repeated(count: usize, line: impl Fn(usize) -> String) -> String {
    (0..count).map(line).collect()
}

fn chain(count: usize) -> String {
    format!("c0 = 1\n{}", repeated(count - 1, |at| format!("c{} = c{at} + 1\n", at + 1)))
}

fn check(at: usize) -> String {
    format!("require \"c{at}\" x within 1 .. {} ft\n", 4 + at)
}

/// `t13` has half a mebibyte.
fn doubled() -> String {
    format!("t0 = \"{}\"\n{}", "x".repeat(64), repeated(13, |at| format!("t{} = \"{{t{at}}}{{t{at}}}\"\n", at + 1)))
}

fn readings(count: usize) -> String {
    repeated(count, |at| format!("reading r{at} = 5 psi ± 1 psi\n"))
}

fn summed(at: usize) -> String {
    format!("s{at} = s{} + r{at}\n", at - 1)
}

/// Half a million calls of a formula of two hundred operations.
fn defined() -> String {
    let mut text = format!("define f0(x) = {}\n", ["x"; 190].join("+"));
    for at in 1..19 {
        let _ = writeln!(text, "define f{at}(x) = f{0}(x) + f{0}(x)", at - 1);
    }
    text + "a = f18(1)\n"
}

fn nested_roots() -> String {
    let inner = "define g(y) = solve(x within 0 .. 10 where x*x*x + x + exp(x/100) == y)\n";
    let line = |at: usize| format!("b{at} = solve(z within 2 .. 900 where g(z) == {})\n", 0.9 + at as f64 * 1e-4);
    format!("{inner}{}", repeated(60_000, line))
}

fn state(at: usize) -> String {
    format!("c{at} = refrigerant_state(R-454B, {} kPaa, 30 degC).density\n", 100.0 + at as f64 * 0.01)
}

fn filled() -> String {
    let forms = dewline_stdlib::forms::FORMS;
    repeated(20 * forms.len(), |at| format!("fill \"forms/{}.dew\" as x{at} ()\n", forms[at % forms.len()].name))
}

fn table(kind: &'static str, rest: &str, rows: usize) -> Worst {
    let mut data = String::from("k,v\n");
    for row in 0..rows {
        let _ = writeln!(data, "{row},{}", 1 + row % 97);
    }
    Worst { kind, sheet: format!("table t from \"data.csv\"\n k | v\n {rest}"), data, asked: JSON }
}

fn hold() -> String {
    "instrument g \"a gauge\"\n accuracy ± 5 micron\n repeats ± 1 micron\ntable t from \"data.csv\"\n time | pressure\n \
     min | micron by g\nend\nh = hold_test(t.time, t.pressure, coldest = 60 degF)\n"
        .to_string()
}

fn log(rows: usize) -> String {
    let line = |row: usize| format!("{},{}\n", row as f64 * 0.05, 300.0 + row as f64 * 0.02);
    format!("time,pressure\n{}", repeated(rows, line))
}
