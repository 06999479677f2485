//! Statements, §3, each with its parts.

use super::{one_error, sound, tree_text};
use crate::syntax::tree::*;
use crate::units::UnitSystem;

fn first(text: &str) -> StatementKind {
    let mut statements = sound(text);
    assert_eq!(statements.len(), 1, "{text}");
    statements.remove(0)
}

fn given(text: &str) -> Given {
    match first(text) {
        StatementKind::Input(given) | StatementKind::Reading(given) => given,
        other => panic!("{text}: {other:?}"),
    }
}

/// Name, kind, values.
fn stated(given: &Given) -> String {
    format!("{} {} {}", given.name.text, tree_text::kind(given.annotation.as_ref()), tree_text::exprs(&given.values))
}

#[test]
fn heads_of_a_sheet() {
    assert!(matches!(first("sheet \"a {b} \"\"c\"\"\""), StatementKind::Title(words) if words.text == "a {b} \"c\""));
    assert!(matches!(first("units IP"), StatementKind::Units(UnitSystem::Ip)));
    assert!(matches!(first("units SI"), StatementKind::Units(UnitSystem::Si)));
    assert!(matches!(first("decide guarded"), StatementKind::DecideGuarded(None)));
    assert!(matches!(first("decide guarded 95 %"), StatementKind::DecideGuarded(Some(0.95))));
    assert!(
        matches!(first("site altitude = 1280 ft"), StatementKind::SiteAltitude(given) if stated(&given) == "altitude none <1280 ft>")
    );
    assert!(matches!(first("site atmosphere = 12.93 psia ± 0.05 psi \"barometer\""),
        StatementKind::SiteAtmosphere(given) if given.tail.uncertainty.is_some() && given.tail.note.is_some()));
    one_error("units US", "D0202", "US", "units IP");
    one_error("decide", "D0202", "", "decide guarded");
    one_error("site height = 5 ft", "D0202", "height", "site altitude");
    one_error("sheet a", "D0202", "a", "sheet \"title\"");
}

#[test]
fn sheets_of_others() {
    assert!(matches!(first("use \"a.dew\""), StatementKind::Use(Use { alias: None, path }) if path.text == "a.dew"));
    assert!(
        matches!(first("use \"a.dew\" as lib"), StatementKind::Use(Use { alias: Some(name), .. }) if name.text == "lib")
    );
    // After `as` of a `use` stands a name, also where a unit is spelled so.
    assert!(
        matches!(first("use \"a.dew\" as ft"), StatementKind::Use(Use { alias: Some(name), .. }) if name.text == "ft")
    );
    let bindings = |text: &str| match first(text) {
        StatementKind::Fill(fill) => {
            let bound: Vec<String> = fill
                .bindings
                .iter()
                .map(|(name, value)| format!("{} = {}", name.text, tree_text::expr(value)))
                .collect();
            (fill.name.text, fill.each.map(|name| name.text), bound.join(", "))
        }
        other => panic!("{other:?}"),
    };
    assert_eq!(bindings("fill \"f.dew\" as a"), ("a".into(), None, String::new()));
    assert_eq!(bindings("fill \"f.dew\" as a ()"), ("a".into(), None, String::new()));
    assert_eq!(bindings("fill \"f.dew\" as a(x = 1)"), ("a".into(), None, "x = 1".into()));
    assert_eq!(
        bindings("fill \"f.dew\" as a (\n  x = b + 1 psi,   # one\n  y = t\n)"),
        ("a".into(), None, "x = (+ b <1 psi>), y = t".into())
    );
    assert_eq!(bindings("fill \"f.dew\" as a each t ( x = load )"), ("a".into(), Some("t".into()), "x = load".into()));
    assert_eq!(bindings("fill \"f.dew\" as min each t(x = load)"), ("min".into(), Some("t".into()), "x = load".into()));
    one_error("fill \"f.dew\"", "D0202", "", "as name");
    one_error("fill \"f.dew\" as a (x)", "D0202", ")", "");
}

#[test]
fn instruments_have_lines() {
    let text = "instrument g \"gauge\"\naccuracy ± 0.5 % of 800 psi + 1 % of reading + 0.1 psi coverage 2\nrepeats ± 0.4 psi standard\n\
        serial \"PG-1\"\ncalibrated 2026-01-12 due 2027-01-12";
    let StatementKind::Instrument(found) = first(text) else { panic!() };
    assert_eq!(found.description.unwrap().text, "gauge");
    assert_eq!(
        tree_text::uncertainty(found.accuracy.as_ref()),
        "± 0.005 of <800 psi> + 0.01 of reading + <0.1 psi> coverage 2"
    );
    assert_eq!(tree_text::uncertainty(found.repeats.as_ref()), "± <0.4 psi> standard");
    assert_eq!(found.serial.unwrap().text, "PG-1");
    let (on, due) = found.calibrated.unwrap();
    assert_eq!((on.moment.to_string(), due.unwrap().moment.to_string()), ("2026-01-12".into(), "2027-01-12".into()));
    assert!(
        matches!(first("instrument g\ncalibrated 2026-01-12"), StatementKind::Instrument(i) if i.calibrated.is_some())
    );
    one_error("accuracy ± 1 psi", "D0217", "accuracy ± 1 psi", "right below");
    one_error("instrument g\nserial \"a\"\nserial \"b\"", "D0212", "serial \"b\"", "one of them");
    one_error("instrument g\naccuracy 1 psi", "D0202", "1 psi", "accuracy ±");
    one_error("instrument g\naccuracy ± 1 psi of reading", "D0202", "1 psi", "of reading");
}

#[test]
fn inputs_and_readings() {
    for (text, wanted) in [
        ("input volume = 1.1 ft3", "volume none <1.1 ft3>"),
        ("input n : number = 5", "n number 5"),
        ("input mode : one of \"cooling\", \"heating\" = \"heating\"", "mode one of cooling, heating [\"heating\"]"),
        ("input on : flag", "on flag "),
        ("input gas_kind : gas = nitrogen", "gas_kind gas nitrogen"),
        ("input r : refrigerant = R-32", "r refrigerant R-32"),
        ("input t : time = 2026-03-14", "t time @2026-03-14"),
        ("input w : lb oz", "w lb oz "),
        ("input q = a * 2 + 1 ft", "q none (+ (* a 2) <1 ft>)"),
        ("input q = if a then 1 ft else 2 ft", "q none (if a <1 ft> <2 ft>)"),
        ("reading p : psig", "p psig "),
        ("reading p : psig = ?", "p psig ?"),
        ("reading p = 61.0, 61.2, 60.9 degF", "p none <61 degF>, <61.2 degF>, <60.9 degF>"),
        ("reading p = -5, -6 degF", "p none <-5 degF>, <-6 degF>"),
        ("reading p = -5", "p none -5"),
        ("reading line = 55 degF", "line none <55 degF>"),
        ("reading ok = true", "ok none true"),
    ] {
        assert_eq!(stated(&given(text)), wanted, "{text}");
    }
    one_error("reading p", "D0219", "p", "reading p : psig");
    one_error("reading p = a + 1 psi", "D0218", "a + 1 psi", "in a cell");
    one_error("input if = 3", "D0216", "if", "another name");
    one_error("input 3 = 3", "D0216", "3", "another name");
    one_error("reading p = ?, 3 psig", "D0202", ",", "");
}

#[test]
fn tails_in_any_order() {
    let parts = ["± 1 psi", "by g", "at 2026-03-14T07:40", "within 0 .. 800 psig", "optional", "\"note\""];
    for turn in 0..parts.len() {
        let mut turned = parts;
        turned.rotate_left(turn);
        let tail = given(&format!("reading p = 5 psig {}", turned.join(" "))).tail;
        assert_eq!(tree_text::uncertainty(tail.uncertainty.as_ref()), "± <1 psi>");
        assert_eq!(tail.by.unwrap().text, "g");
        assert_eq!(tail.at.unwrap().moment.to_string(), "2026-03-14T07:40");
        let (from, to) = tail.within.unwrap();
        assert_eq!((tree_text::expr(&from).as_str(), tree_text::expr(&to).as_str()), ("<0 psig>", "<800 psig>"));
        assert!(tail.optional.is_some());
        assert_eq!(tail.note.unwrap().text, "note");
        for part in parts {
            let text = format!("reading p : psig {part} {part}");
            assert_eq!(super::codes(&text), ["D0212"], "{text}");
        }
    }
    assert!(given("reading p : psig by g \"{no filling}\"").tail.note.unwrap().text.contains('{'));
}

#[test]
fn cells() {
    let StatementKind::Cell(cell) = first("drift : psi = end - start \"after {x}\"") else { panic!() };
    assert_eq!((cell.name.text.as_str(), tree_text::kind(cell.annotation.as_ref()).as_str()), ("drift", "psi"));
    assert_eq!(
        (tree_text::expr(&cell.value).as_str(), cell.note.unwrap().text.as_str()),
        ("(- end start)", "after {x}")
    );
    // Words of statements are names where a value is given to them.
    let text = "units = 3\nstage = 4\ntable : psi = x\nend = 5\nrequire = 6\nnote = \"a\"\ninput = 7";
    assert_eq!(sound(text).iter().filter(|kind| matches!(kind, StatementKind::Cell(_))).count(), 7);
    for word in ["if", "then", "else", "and", "or", "not", "as", "within", "where", "true", "false"] {
        one_error(&format!("{word} = 3"), "D0216", word, "another name");
    }
}

#[test]
fn definitions() {
    let StatementKind::Define(found) = first("define f(a : F°, b = 2, c : number = 3) : psi = a * b") else {
        panic!()
    };
    let parameters: Vec<String> = found
        .parameters
        .iter()
        .map(|p| {
            format!(
                "{} {} {}",
                p.name.text,
                tree_text::kind(p.annotation.as_ref()),
                p.default.as_ref().map_or(String::new(), tree_text::expr)
            )
        })
        .collect();
    assert_eq!(parameters, ["a F° ", "b none 2", "c number 3"]);
    assert_eq!(tree_text::kind(found.annotation.as_ref()), "psi");
    assert!(matches!(found.body, DefineBody::Formula(value) if tree_text::expr(&value) == "(* a b)"));
    let StatementKind::Define(found) = first("define f(a)\n  half = a / 2\n  result = half * half\nend") else {
        panic!()
    };
    assert!(matches!(found.body, DefineBody::Block(cells) if cells.len() == 2));
    assert!(matches!(first("define nothing() = 1"), StatementKind::Define(found) if found.parameters.is_empty()));
    one_error("define f", "D0202", "", "define name(parameter");
    one_error("define f(a b) = a", "D0202", "b", "define name(parameter");
    one_error("define f(a)\n  result = a\nstage \"x\"\nend", "D0206", "define f(a)", "`end`");
}

#[test]
fn checks() {
    let check = |text: &str| match first(text) {
        StatementKind::Check(check) => check,
        other => panic!("{text}: {other:?}"),
    };
    let found = check("require \"holds {x}\" drift within ± 8 psi");
    assert_eq!((found.level, found.each, found.label.unwrap().text.as_str()), (Level::Require, false, "holds {x}"));
    assert_eq!(check("advise a < b").level, Level::Advise);
    assert!(check("advise a < b").label.is_none());
    let found = check("require each \"in range\" x within 5 .. 15 F° where running");
    assert_eq!((found.each, found.asked.map(|asked| tree_text::expr(&asked)).as_deref()), (true, Some("running")));
    assert_eq!(tree_text::expr(&check("require -5 F° < x").condition), "(< <-5 F°> x)");
    assert_eq!(tree_text::expr(&check("require \"a\" \"b\" == c").condition), "(== [\"b\"] c)");
    one_error("require \"a\"", "D0202", "", "require \"label\" condition");
    one_error("require a where b", "D0215", "where", "require each");
}

#[test]
fn confirmations_and_waivers() {
    let confirm = |text: &str| match first(text) {
        StatementKind::Confirm(confirm) => (confirm.answer, confirm.at.is_some(), confirm.by.map(|by| by.text)),
        other => panic!("{text}: {other:?}"),
    };
    assert_eq!(confirm("confirm \"soap\""), (None, false, None));
    assert_eq!(confirm("confirm \"soap\" yes"), (Some(true), false, None));
    assert_eq!(confirm("confirm \"soap\" no at 2026-03-14"), (Some(false), true, None));
    let both = (Some(true), true, Some("R. A.".to_string()));
    assert_eq!(confirm("confirm \"soap\" yes at 2026-03-14T07:40 by \"R. A.\""), both);
    assert_eq!(confirm("confirm \"soap\" yes by \"R. A.\" at 2026-03-14T07:40"), both);
    // "by" may be left out before whoever confirmed it.
    assert_eq!(confirm("confirm \"soap\" yes at 2026-03-14T07:40 \"R. A.\""), both);
    assert_eq!(confirm("confirm \"soap\" yes \"R. A.\""), (Some(true), false, Some("R. A.".into())));
    one_error("confirm \"soap\" maybe", "D0202", "maybe", "yes");
    one_error("confirm soap", "D0202", "soap", "confirm \"label\"");
    let waive = |text: &str| match first(text) {
        StatementKind::Waive(waive) => {
            let key = waive.rows.map(|rows| match rows {
                WaivedRows::One(key) => key.text,
                WaivedRows::All => "all".into(),
            });
            (waive.label.text, key, waive.reason.text, waive.by.text)
        }
        other => panic!("{text}: {other:?}"),
    };
    let said = |rows: Option<&str>| {
        let text = |words: &str| words.to_string();
        (text("a"), rows.map(text), text("old one"), text("R. A."))
    };
    let tail = "reason \"old one\" by \"R. A.\" at 2026-03-14";
    assert_eq!(waive(&format!("waive \"a\" {tail}")), said(None));
    assert_eq!(waive(&format!("waive \"a\" for \"row\" {tail}")), said(Some("row")));
    assert_eq!(waive(&format!("waive \"a\" for all rows {tail}")), said(Some("all")));
    assert_eq!(waive("waive \"a\" reason \"old one\" at 2026-03-14 by \"R. A.\""), said(None));
    // Reason, person and time are wanted, and the reason is more than a word.
    one_error("waive \"a\"", "D0202", "", "reason \"…\"");
    one_error("waive \"a\" \"old one\"", "D0202", "\"old one\"", "reason \"…\"");
    one_error("waive \"a\" reason \"old one\"", "D0202", "", "by \"name\"");
    one_error("waive \"a\" reason \"old one\" by \"R. A.\"", "D0202", "", "at time");
    one_error("waive \"a\" reason \"old .\" by \"R. A.\" at 2026-03-14", "D0221", "\"old .\"", "why it is accepted");
    one_error("waive \"a\" reason \"old one\" by \"-\" at 2026-03-14", "D0221", "\"-\"", "write the name");
}

#[test]
fn stages() {
    let text = "stage \"b\" after \"a\", form\n  x = 1\n  stage_two = 2\nend";
    let StatementKind::Stage(stage) = first(text) else { panic!() };
    assert_eq!((stage.name.text.as_str(), stage.after.len(), stage.statements.len()), ("b", 2, 2));
    assert!(matches!(&stage.after[1], After::Fill(name) if name.text == "form"));
    one_error("stage \"a\"\nx = 1", "D0206", "stage \"a\"", "`end`");
    one_error("stage \"a\"\nx = 1\nstage \"b\"\nend", "D0206", "stage \"a\"", "`end`");
    one_error("stage \"a\"\nx = 1\nsheet \"b\"", "D0206", "stage \"a\"", "`end`");
    one_error("x = 1\nend", "D0207", "end", "take it away");
    one_error("stage a\nend", "D0202", "a", "stage \"name\"");
}

#[test]
fn notes_and_charts() {
    let StatementKind::Note(note) = first("note \"drift {d as psi}, \"\"ok\"\"\"") else { panic!() };
    assert_eq!(tree_text::parts(&note), ["drift ", "{(as d psi)}", ", \"ok\""]);
    let StatementKind::Chart(chart) = first("chart line \"rise {x}\" rise.time, rise.a, rise.b") else { panic!() };
    assert_eq!((chart.style, chart.title.text.as_str()), (ChartStyle::Line, "rise {x}"));
    assert_eq!(tree_text::exprs(&chart.columns), "rise.time, rise.a, rise.b");
    assert!(matches!(first("chart bars \"a\" x, y"), StatementKind::Chart(chart) if chart.style == ChartStyle::Bars));
    one_error("chart pie \"a\" x, y", "D0202", "pie", "chart line");
    one_error("chart line \"a\" x", "D0202", "", "chart line");
    one_error("note x", "D0202", "x", "note \"text");
}

#[test]
fn misspelt_statements() {
    for (text, word, meant) in [
        ("reqire \"a\" x < 1", "reqire", "`require`"),
        ("reeding p : psig", "reeding", "`reading`"),
        ("inpt p : psig", "inpt", "`input`"),
        ("intrument g \"a\"", "intrument", "`instrument`"),
        ("Stage \"a\"", "Stage", "`stage`"),
        ("confrim \"a\"", "confrim", "`confirm`"),
        ("5 psi", "5 psi", "name = formula"),
        ("foo bar", "foo", "name = formula"),
        ("= 5", "=", "name = formula"),
    ] {
        one_error(text, "D0201", word, meant);
    }
}
