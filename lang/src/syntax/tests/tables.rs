//! Tables, §5: head lines, rows, formulas, checks.

use super::{one_error, sound, tree_text};
use crate::syntax::tree::{StatementKind, Table};

fn table(text: &str) -> Table {
    match sound(text).pop() {
        Some(StatementKind::Table(table)) => table,
        other => panic!("{text}: {other:?}"),
    }
}

/// A table with two columns and these lines.
fn with(lines: &str) -> String {
    format!("table t\n  a | b\n  - | psi\n{lines}\nend")
}

#[test]
fn head_lines() {
    let text = "instrument g\ntable t from \"a.csv\" at 2026-03-14\n\
        tag | n | m | ok | t | r | k | p = \"CH 1 [micron]\" | q | w\n\
        text | number | - | flag | time | refrigerant | gas | micron ± 10 micron | psig by g | lb oz\nend";
    let found = table(text);
    let kinds: Vec<String> = found.columns.iter().map(|column| tree_text::kind(column.annotation.as_ref())).collect();
    assert_eq!(kinds, ["text", "number", "number", "flag", "time", "refrigerant", "gas", "micron", "psig", "lb oz"]);
    assert_eq!(found.from.unwrap().text, "a.csv");
    assert!(found.at.is_some() && found.rows.is_empty());
    assert_eq!(found.columns[7].header.as_ref().unwrap().text, "CH 1 [micron]");
    assert_eq!(tree_text::uncertainty(found.columns[7].uncertainty.as_ref()), "± <10 micron>");
    assert_eq!(found.columns[8].by.as_ref().unwrap().text, "g");
}

#[test]
fn measured_columns_and_blank_kinds() {
    let found = table(
        "table t at 2026-03-14 from \"a.csv\"\n  a | b | c\n | psi ± 1 % of reading + 0.5 psi by g | Btu/(h·ft2·degF)\nend",
    );
    assert_eq!(tree_text::kind(found.columns[0].annotation.as_ref()), "text");
    assert_eq!(tree_text::uncertainty(found.columns[1].uncertainty.as_ref()), "± 0.01 of reading + <0.5 psi>");
    assert!(found.columns[1].by.is_some());
    assert_eq!(tree_text::kind(found.columns[2].annotation.as_ref()), "Btu/(h·ft2·degF)");
    one_error("table t\n a | b\n psi\nend", "D0208", "psi", "each column");
    one_error("table t\nend", "D0208", "table t", "two lines");
    one_error("table t\n a | b\nend", "D0208", "table t", "two lines");
    one_error("table\n", "D0202", "", "table name");
}

#[test]
fn rows_of_literals() {
    let found = table(
        "table t\n a | b | c | d | e | f\n text | psi | flag | time | refrigerant | gas\n\
         \"x {y}\" | -5 | true | 2026-03-14 | R-32 | nitrogen\n? | 5 psi | false | ? | ? | ?\n| | | | | \nend",
    );
    let rows: Vec<String> = found.rows.iter().map(|row| tree_text::exprs(&row.values)).collect();
    assert_eq!(
        rows,
        ["[\"x {y}\"], -5, true, @2026-03-14, R-32, nitrogen", "?, <5 psi>, false, ?, ?, ?", "?, ?, ?, ?, ?, ?"]
    );
    one_error(&with("1"), "D0209", "1", "`?`");
    one_error(&with("1 | 2 | 3"), "D0209", "1 | 2 | 3", "extra");
    one_error(&with("1 | 2 + 3"), "D0210", "+", "formulas stand below");
    one_error(&with("1 | f(2)"), "D0210", "f", "formulas stand below");
    one_error(&with("1 | 2\nc = a\n3 | 4"), "D0211", "3 | 4", "move the row up");
}

#[test]
fn formulas_and_checks_stand_below() {
    let found = table(&with(
        "1 | 2\nc : psi = b * 2 \"note\"\nend_value = b\nrequire each \"x\" b < 5 psi where a > 0\nadvise last(t.b) > 1 psi",
    ));
    assert_eq!((found.rows.len(), found.formulas.len(), found.checks.len()), (1, 2, 2));
    assert_eq!(found.checks[0].asked.as_ref().map(tree_text::expr).as_deref(), Some("(> a 0)"));
}

#[test]
fn a_line_that_is_spoilt_costs_itself_only() {
    one_error(&with("1 | 2\n2 | .5\n3 | 4"), "D0105", ".5", "0.5");
    one_error(&with("1 | 2\nc = b +\nd = b"), "D0203", "", "");
    one_error(&with("1 | 2\nreqire each b < 1 psi"), "D0201", "reqire", "`require`");
    one_error("table t\n a | if\n - | psi\n1 | 2\nend", "D0216", "if", "another name");
    one_error("table t\n a | b\n - | psgi\n1 | 2\nend", "D0120", "psgi", "psig");
    one_error("table t\n a | b\n - | psi\n1 | 2\nstage \"s\"\nend", "D0206", "table t", "`end`");
    one_error("table t\n a | b\n - | psi\n1 | 2\ninput x = 1 ft", "D0206", "table t", "`end`");
    one_error("table t\n 1 | 2\n 3 | 4\nend", "D0208", "1 | 2", "two lines");
}
