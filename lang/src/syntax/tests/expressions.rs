//! Expressions, §4: what binds tighter, and what stands where.

use super::{one_error, sound, tree_text};
use crate::syntax::tree::{Expr, ExprKind, StatementKind};

fn formula(text: &str) -> Expr {
    match sound(&format!("it = {text}")).pop() {
        Some(StatementKind::Cell(cell)) => cell.value,
        other => panic!("{text}: {other:?}"),
    }
}

fn reads(text: &str, wanted: &str) {
    assert_eq!(tree_text::expr(&formula(text)), wanted, "{text}");
}

#[test]
fn an_argument_may_be_called_within() {
    let ExprKind::Call(call) = formula("settled(t, y, within = 1 F°, over = 10 min)").kind else { panic!("no call") };
    let names: Vec<_> = call.arguments.iter().flat_map(|one| &one.name).map(|name| name.text.as_str()).collect();
    assert_eq!(names, ["within", "over"]);
}

#[test]
fn operators_bind_in_their_order() {
    reads("a + b * c", "(+ a (* b c))");
    reads("a * b + c", "(+ (* a b) c)");
    reads("a - b - c", "(- (- a b) c)");
    reads("a / b / c", "(/ (/ a b) c)");
    reads("a / b * c", "(* (/ a b) c)");
    reads("a ^ b ^ c", "(^ a (^ b c))");
    reads("-2^2", "(- (^ 2 2))");
    reads("2^-2", "(^ 2 (- 2))");
    reads("-a * b", "(* (- a) b)");
    reads("a * -b", "(* a (- b))");
    reads("--a", "(- (- a))");
    reads("a - -b", "(- a (- b))");
    reads("(a + b) * c", "(* (+ a b) c)");
}

#[test]
fn conditions_bind_loosest() {
    reads("a + 1 < b * 2", "(< (+ a 1) (* b 2))");
    reads("a < b and c >= d or e", "(or (and (< a b) (>= c d)) e)");
    reads("a or b and c", "(or a (and b c))");
    reads("not a and b", "(and (not a) b)");
    reads("not a < b", "(not (< a b))");
    reads("not not a", "(not (not a))");
    reads("a and not b", "(and a (not b))");
    reads("a == b and b != c", "(and (== a b) (!= b c))");
    reads("if a > 1 then b else if c then d else e + 1", "(if (> a 1) b (if c d (+ e 1)))");
    reads("2 * (if a then b else c)", "(* 2 (if a b c))");
}

#[test]
fn as_is_looser_than_arithmetic_and_tighter_than_comparisons() {
    reads("a + b as psi", "(as (+ a b) psi)");
    reads("a as psig to 0.1", "(as a psig to 0.1)");
    reads("charge as lb oz", "(as charge lb oz)");
    reads("charge as lb oz to 0.5", "(as charge lb oz to 0.5)");
    reads("a as psi < b", "(< (as a psi) b)");
    reads("f(a as psi, b)", "f((as a psi), b)");
    reads("-a as psi", "(as (- a) psi)");
    reads("a as °F", "(as a degF)");
}

#[test]
fn ranges_stand_after_within() {
    reads("x within 1 .. 2", "(within x 1 .. 2)");
    reads("x within 5 .. 15 F°", "(within x <5 F°> .. <15 F°>)");
    reads("x within -5 .. 15 F°", "(within x <-5 F°> .. <15 F°>)");
    reads("x within 5 F° .. 15 F°", "(within x <5 F°> .. <15 F°>)");
    reads("x within a - 1 .. a + 1", "(within x (- a 1) .. (+ a 1))");
    reads("x within ± 3 psi", "(within x ± <3 psi>)");
    reads("x within +/- 3 psi", "(within x ± <3 psi>)");
    reads("x within ± 3 psi of y", "(within x ± <3 psi> of y)");
    reads("x within ± tolerance of y + 1 psi", "(within x ± tolerance of (+ y <1 psi>))");
    reads("x within ± 5 % of y", "(within x ± 0.05 of y)");
    reads("not x within 1 .. 2", "(not (within x 1 .. 2))");
    reads("x within 1 .. 2 and y within 3 .. 4", "(and (within x 1 .. 2) (within y 3 .. 4))");
    reads("mean(t.x where t.x within 1 .. 2)", "mean(t.x where (within t.x 1 .. 2))");
    reads("f(range = 5 .. 15 F°)", "f(range = (<5 F°> .. <15 F°>))");
}

#[test]
fn calls_fields_and_keys() {
    reads("pi()", "pi()");
    reads("f(a, b, named = c + 1)", "f(a, b, named = (+ c 1))");
    reads("tube(3/8 in).bore", "tube(<0.375 in>).bore");
    reads("form.room.load", "form.room.load");
    reads("lib.f(a)", "lib.f(a)");
    reads(
        "indoor[\"Exam 1\"].superheat",
        "indoor[\"Exam 1\"].superheat".replace("[\"Exam 1\"]", "[[\"Exam 1\"]]").as_str(),
    );
    reads("t[R-32].p", "t[R-32].p");
    reads("t[a + 1]", "t[(+ a 1)]");
    reads("a.b^2", "(^ a.b 2)");
    reads("-f(x).y", "(- f(x).y)");
    reads(
        "mean(indoor.superheat where indoor.running and not indoor.off)",
        "mean(indoor.superheat where (and indoor.running (not indoor.off)))",
    );
    reads("superheat(R-410A, 118 psig, 50 degF)", "superheat(R-410A, <118 psig>, <50 degF>)");
}

#[test]
fn solve_has_its_own_form() {
    reads("solve(x within 1 .. 2 where x * x == 2)", "(solve x 1 2 (* x x) 2)");
    reads("solve(t within 40 .. 60 degF where f(t) == p - 1 psi)", "(solve t <40 degF> <60 degF> f(t) (- p <1 psi>))");
    one_error("it = solve(x within 1 .. 2)", "D0202", ")", "");
    one_error("it = solve(x where x == 2)", "D0202", "where", "");
}

#[test]
fn an_open_bracket_goes_on_where_the_line_asks_for_more() {
    reads("max(a,\n  b)", "max(a, b)");
    reads("(a +\n  b)", "(+ a b)");
    reads("(a\n  + b)", "(+ a b)");
    reads("(\n  a\n)", "a");
    reads("(if a\n  then b\n  else c)", "(if a b c)");
    reads("f(a, # one\n\n  # two\n  b)", "f(a, b)");
    reads("f(named =\n 2)", "f(named = 2)");
    reads("(x as\n psi)", "(as x psi)");
    reads("mean(t.x\n where t.y)", "mean(t.x where t.y)");
    reads("(x within\n 1 ..\n 2)", "(within x 1 .. 2)");
}

#[test]
fn names_are_words_elsewhere() {
    reads("units + stage + line + gas + result", "(+ (+ (+ (+ units stage) line) gas) result)");
    reads("units.gas", "units.gas");
    reads("reading.note", "reading.note");
    reads("superheat(superheat = superheat)", "superheat(superheat = superheat)");
    reads("größe + Δt + température_2", "(+ (+ größe Δt) température_2)");
    // An accent typed in two ways gives one name.
    reads("caf\u{65}\u{301}", "café");
}

#[test]
fn texts_are_filled() {
    reads("\"a\"", "[\"a\"]");
    reads("\"\"", "[]");
    reads("\"the \"\"blue\"\" gauge\"", "[\"the \\\"blue\\\" gauge\"]");
    reads("\"drift {drift as psi} over {n} h\"", "[\"drift \", \"{(as drift psi)}\", \" over \", \"{n}\", \" h\"]");
    reads("\"{{plain}}\"", "[\"{plain}\"]");
    reads("\"{t[\"\"k\"\"].x}\"", "[\"{t[[\\\"k\\\"]].x}\"]");
    one_error("it = \"{a\"", "D0123", "{", "}");
    one_error("it = \"a}\"", "D0123", "}", "}}");
    one_error("it = \"{a + }\"", "D0203", "", "");
    one_error("it = \"{}\"", "D0202", "", "");
}

#[test]
fn comparisons_do_not_chain() {
    one_error("it = 1 < x < 5", "D0204", "<", "within 1 .. 5");
    one_error("it = a == b == c", "D0204", "==", "and");
    one_error("it = a < b within 1 .. 2", "D0204", "within", "and");
    one_error("it = f(1 < x <= 5)", "D0204", "<=", "and");
}

#[test]
fn what_is_missing_is_told() {
    one_error("it = a +", "D0203", "", "write the value");
    one_error("it = * a", "D0203", "*", "");
    one_error("it = a ** b", "D0203", "*", "`^`");
    one_error("it = f(a,, b)", "D0203", ",", "");
    one_error("it = f(a, )", "D0203", ")", "");
    one_error("it =", "D0203", "", "");
    one_error("it = ()", "D0203", ")", "");
    one_error("it = if a then b", "D0214", "if a then b", "else");
    one_error("it = if a else b", "D0202", "else", "then");
    one_error("it = a where b", "D0215", "where", "require each");
    one_error("it = a b", "D0111", "b", "operator");
    one_error("it = (a) (b)", "D0111", "(", "operator");
    one_error("it = a 5", "D0111", "5", "operator");
    one_error("it = 1 + ?", "D0213", "?", "reading");
    one_error("it = ?", "D0213", "?", "reading");
    one_error("require x = 5", "D0205", "=", "==");
    one_error("require x.verdict = \"tight\"", "D0205", "=", "==");
    one_error("it = a ± 1 psi", "D0202", "±", "where the value is given");
}
