//! One bad line, one message; all other lines are read.

use super::{codes, one_error, read, sound};
use crate::syntax::tree::StatementKind;

/// The sheet that the language's own description begins with.
pub const SAMPLE: &str = include_str!("sample.dew");

#[test]
fn the_sample_is_read() {
    let statements = sound(SAMPLE);
    let stages = statements.iter().filter(|kind| matches!(kind, StatementKind::Stage(_))).count();
    assert_eq!((statements.len(), stages), (6, 2));
}

/// Every line spoilt in turn: one message, or two where the line opened something, and never a lost neighbour.
#[test]
fn each_spoilt_line_costs_one_message() {
    let lines: Vec<&str> = SAMPLE.lines().collect();
    let cells = |text: &str| format!("{:?}", read(text).sheet).matches("Cell(").count();
    let whole = cells(SAMPLE);
    for (at, line) in lines.iter().enumerate().filter(|(_, line)| !line.trim().is_empty()) {
        for spoilt in [format!("{line} )"), format!("{line} $"), format!("{line} \"")] {
            let mut sheet = lines.clone();
            sheet[at] = &spoilt;
            let text = sheet.join("\n");
            let found = codes(&text);
            // Behind a comment nothing is spoilt.
            let wanted = if line.contains('#') { 0 } else { 1 };
            assert_eq!(found.len(), wanted, "{spoilt}: {found:?}");
            assert!(cells(&text) + 1 >= whole, "{spoilt} lost a neighbour");
        }
    }
}

#[test]
fn each_lost_end_costs_one_message() {
    let lines: Vec<&str> = SAMPLE.lines().collect();
    for at in (0..lines.len()).filter(|&at| lines[at].trim() == "end") {
        let rest: Vec<&str> = lines.iter().enumerate().filter(|(line, _)| *line != at).map(|(_, line)| *line).collect();
        assert_eq!(codes(&rest.join("\n")), ["D0206"], "line {at}");
    }
}

#[test]
fn a_bracket_eats_its_own_line_only() {
    one_error("x = f(a\ny = 2", "D0103", "(", "close it");
    one_error("x = [a\ny = 2", "D0103", "[", "close it");
    one_error("x = a)\ny = 2", "D0103", ")", "take `)` away");
    one_error("x = f(a]\ny = 2", "D0103", "]", "`)`");
    // A comma asks for the next line, and no more than that is lost.
    assert_eq!(codes("x = f(a,\nstage \"s\"\nend\ny = 1"), ["D0103", "D0207"]);
    assert_eq!(read("x = f(a\ny = 2").sheet.statements.len(), 2);
}

#[test]
fn several_faults_are_all_told() {
    assert_eq!(codes("x = a +\ny = 5 F\nz = 1 < 2 < 3\nw = 7\nreqire w"), ["D0203", "D0108", "D0204", "D0201"]);
}

#[test]
fn spoilt_statements_still_declare_their_names() {
    let declared = |text: &str| match read(text).sheet.statements.into_iter().next().map(|statement| statement.kind) {
        Some(StatementKind::Cell(cell)) => cell.name.text,
        Some(StatementKind::Input(given) | StatementKind::Reading(given)) => given.name.text,
        Some(StatementKind::Instrument(instrument)) => instrument.name.text,
        Some(StatementKind::Table(table)) => table.name.text,
        Some(StatementKind::Define(define)) => define.name.text,
        Some(StatementKind::Fill(fill)) => fill.name.text,
        other => format!("{other:?}"),
    };
    for text in [
        "it = a +",
        "it : psgi = 5 psi",
        "it = 5 F",
        "input it = .5 psi",
        "reading it : psig from here",
        "instrument it 5",
        "table it form \"a.csv\"\n a\n -\nend",
        "define it(x) = x +",
        "fill \"a.dew\" as it (x = )",
    ] {
        assert_eq!(declared(text), "it", "{text}");
        assert_eq!(codes(text).len(), 1, "{text}: {:?}", codes(text));
    }
}
