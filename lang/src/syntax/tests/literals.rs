//! Numbers, fractions, units, pieces, dates and refrigerants, §1.

use super::{one_error, sound, tree_text};
use crate::syntax::tree::StatementKind;

fn reads(text: &str, wanted: &str) {
    let sheet = format!("it = {text}");
    match sound(&sheet).pop() {
        Some(StatementKind::Cell(cell)) => assert_eq!(tree_text::expr(&cell.value), wanted, "{text}"),
        other => panic!("{text}: {other:?}"),
    }
}

#[test]
fn numbers() {
    reads("12", "12");
    reads("1_280", "1280");
    reads("0.5", "0.5");
    reads("3.2e-4", "0.00032");
    reads("2E3", "2000");
    one_error("it = 1e999", "D0105", "1e999", "");
    one_error("it = 1_", "D0101", "_", "");
}

#[test]
fn proper_fractions_before_a_unit_are_numbers() {
    reads("3/8 in", "<0.375 in>");
    reads("1-1/8 in", "<1.125 in>");
    reads("1/2 lb", "<0.5 lb>");
    reads("1-1/2 ton", "<1.5 ton>");
    reads("x/4", "(/ x 4)");
    reads("5-3/8", "(- 5 (/ 3 8))");
    reads("5 - 3/8 in", "(- 5 <0.375 in>)");
    reads("100 / 5 min", "(/ 100 <5 min>)");
    reads("-3/8 in", "<-0.375 in>");
    one_error("it = 100/5 min", "D0109", "100/5", "100 / 5");
    one_error("it = 9/8 in", "D0109", "9/8", "1-1/4 in");
    one_error("it = 8/8 in", "D0109", "8/8", "");
    one_error("it = 5 1/8 in", "D0109", "5 1/8", "5-1/8");
    one_error("it = x/3/8 in", "D0109", "3/8", "brackets");
}

#[test]
fn a_minus_before_a_quantity_belongs_to_it() {
    reads("-40 degF", "<-40 degF>");
    reads("a - 40 degF", "(- a <40 degF>)");
    reads("a -40 F°", "(- a <40 F°>)");
    reads("f(-40 degF)", "f(<-40 degF>)");
    reads("f(a, -40 degF)", "f(a, <-40 degF>)");
    reads("a * -5 psi", "(* a <-5 psi>)");
    reads("-5", "(- 5)");
    reads("- 5 psi", "(- <5 psi>)");
}

#[test]
fn quantities_in_pieces() {
    reads("12 lb 4 oz", "<12 lb 4 oz>");
    reads("6 ft 4-1/2 in", "<6 ft 4.5 in>");
    reads("1 h 30 min", "<1 h 30 min>");
    reads("1 h 30 min 15.5 s", "<1 h 30 min 15.5 s>");
    reads("-6 ft 4 in", "<-6 ft -4 in>");
    one_error("it = 4 oz 12 lb", "D0110", "4 oz 12 lb", "fall");
    one_error("it = 12 lb 4 psi", "D0110", "12 lb 4 psi", "operator");
    one_error("it = 12.5 lb 4 oz", "D0110", "12.5 lb 4 oz", "last");
    one_error("it = 5 psig 3 psi", "D0110", "5 psig 3 psi", "");
}

#[test]
fn units_go_on_without_spaces() {
    reads("0.6 oz/ft", "<0.6 oz/ft>");
    reads("1.2 Btu/(lb·degF)", "<1.2 Btu/(lb·degF)>");
    reads("1.2 Btu/(lb*degF)", "<1.2 Btu/(lb·degF)>");
    reads("10 ft/x", "(/ <10 ft> x)");
    reads("10 ft*x", "(* <10 ft> x)");
    reads("10 ft/max(x, y)", "(/ <10 ft> max(x, y))");
    reads("10 ft/(x + y)", "(/ <10 ft> (+ x y))");
    reads("10 ft / x", "(/ <10 ft> x)");
    reads("10 ft·5", "(* <10 ft> 5)");
    reads("5 1/h", "<5 1/h>");
    reads("55 %", "<55 %>");
    reads("55%", "<55 %>");
    reads("5 m²", "<5 m2>");
    reads("118 PSIG", "<118 psig>");
    reads("5 µm", "<5 um>");
    one_error("s = 2\nit = 10 ft/s", "D0112", "ft/s", "ft / s");
}

#[test]
fn three_square_feet() {
    reads("3 ft2", "<3 ft2>");
    reads("3 ft^2", "<3 ft2>");
    reads("(3 ft)^2", "(^ <3 ft> 2)");
    one_error("it = 3 ft ^ 2", "D0114", "^", "`3 ft2`");
    one_error("it = 3 ft ^ 2", "D0114", "^", "`(3 ft)^2`");
}

#[test]
fn words_after_a_number_that_are_no_units() {
    for tail in ["by g", "at 2026-01-02", "within 1 .. 2", "optional", "\"note\"", "± 1"] {
        sound(&format!("instrument g\nreading it = 5 {tail}"));
    }
    reads("if a then 5 else 6", "(if a 5 6)");
    reads("mean(t.x where t.y > 5 or t.y < 3)", "mean(t.x where (or (> t.y 5) (< t.y 3)))");
    reads("x as psi to 0.1", "(as x psi to 0.1)");
}

#[test]
fn dates_and_times() {
    reads("2026-03-14", "@2026-03-14");
    reads("2026-03-14T07:40", "@2026-03-14T07:40");
    reads("2026-03-14T07:40 - 5 min", "(- @2026-03-14T07:40 <5 min>)");
    reads("2000 - 10 - 5", "(- (- 2000 10) 5)");
    one_error("it = 2026-02-30", "D0117", "2026-02-30", "");
    one_error("it = 2026-3-14", "D0117", "2026-3-14", "2026-03-14");
    one_error("it = 2026-03-14T25:00", "D0117", "2026-03-14T25:00", "");
    one_error("it = 2026-03-14 07:40", "D0116", "2026-03-14 07:40", "2026-03-14T07:40");
    one_error("it = 2026-03-14x", "D0116", "2026-03-14x", "");
}

#[test]
fn refrigerants() {
    for (text, wanted) in [("R-410A", "R-410A"), ("R410A", "R-410A"), ("R-1234ze(E)", "R-1234ze(E)"), ("R32", "R-32")] {
        reads(text, wanted);
    }
    one_error("input R-32 : psig", "D0216", "R-32", "another name");
    one_error("input R410A = 5", "D0216", "R410A", "another name");
    one_error("R32 = 5", "D0216", "R32", "another name");
}
