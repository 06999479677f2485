//! Plain words.

use super::Typist;

const SHEET: &str = "units IP\nsite altitude = 1280 ft\nreading start = 550 psig\nreading stop : psig\n\
    fall = start - stop\ntwice = 2 * 3\nrequire \"holds\" fall within ± 3 psi\n\
    table rise\n  t | p\n  min | micron\n  0 | 312\n  5 | 341\n  dp = p - first(rise.p)\nend\n";

fn opened() -> Typist {
    let mut typist = Typist::new(&[("job.dew", SHEET)]);
    typist.type_in("open job.dew");
    typist
}

#[test]
fn each_word_answers() {
    let mut typist = opened();
    for (line, part) in [
        ("help", "Type an expression"),
        ("help superheat", "Takes"),
        ("help reading", "reading name"),
        ("help save", "writes the sheet"),
        ("help psig", "pressure point"),
        ("help D0101", "D0101"),
        ("help R-32", "safety group"),
        ("help fall", "fall = start - stop"),
        ("help superheta", "superheat"),
        ("units", "psig"),
        ("units micron", "mercury"),
        ("cells", "? TO TAKE"),
        ("cells twi", "twice  6"),
        ("why twice", "2 * 3"),
        ("why fall", "start"),
        ("pt R-410A 30 50", "bubble"),
        ("stages", "INCOMPLETE"),
        ("report", "INCOMPLETE"),
        ("text", "reading start = 550 psig"),
        ("text rise", "5 | 341"),
        ("rise", "341"),
        ("rise.dp", "29"),
        ("rise[5 min].dp", "29 micron difference"),
        ("fall", "not known yet"),
        ("fall", "waits for stop"),
        ("undo", "nothing to take back"),
    ] {
        let reply = typist.all(line);
        assert!(reply.out.contains(part) || reply.said.contains(part), "{line}: {}{}", reply.out, reply.said);
    }
}

#[test]
fn an_expression_of_a_broken_value_says_what_is_wrong() {
    let mut typist = Typist::new(&[("deep.dew", "x = 30 inHgv\ny = 20 inHgv\n")]);
    typist.type_in("open deep.dew");
    for line in ["x as psia", "x", "absolute(x) - absolute(y)"] {
        let reply = typist.all(line);
        assert!(reply.said.contains("absolute zero") && reply.out.is_empty(), "{line}: {}{}", reply.out, reply.said);
    }
    assert!(typist.all("y as inHga").out.contains("inHga"));
}

#[test]
fn what_is_mistyped_is_told_with_what_was_meant() {
    let mut typist = opened();
    for (line, part) in [
        ("hlep", "`help`"),
        ("stagse", "`stages`"),
        ("why fal", "fall"),
        ("why", "name a cell"),
        ("pt R-411Z", "R-4"),
        ("pt R-410A warm", "degrees"),
        ("open", "job.dew"),
        ("open jbo.dew", "jbo.dew"),
        ("fal", "fall"),
        ("superheta(R-410A, 118 psig, 55 degF)", "superheat"),
        ("rise.dq", "dq"),
        ("take fal", "nothing of this name"),
    ] {
        let said = typist.refused(line);
        assert!(said.contains(part), "{line}: {said}");
    }
}

#[test]
fn lines_that_belong_together_are_waited_for() {
    let mut typist = opened();
    assert!(typist.session.wants_more("superheat(R-410A,"));
    assert!(typist.session.wants_more("table x"));
    assert!(!typist.session.wants_more("help table"));
    typist.type_in("take");
    assert!(!typist.session.wants_more("table x"));
}

#[test]
fn lines_put_in_at_once_are_answered_together_or_one_by_one() {
    let mut typist = Typist::new(&[]);
    let told = typist.type_in("b = 2 * a\na = 3\n\n");
    assert!(told.contains("b = 6") && told.contains("a = 3"), "{told}");
    assert_eq!(typist.type_in("a + 1\nmax(1,\n 2)\nlast + b"), "4\n2\n8\n");
}

#[test]
fn a_value_named_like_a_word_is_shown() {
    let mut typist = Typist::new(&[]);
    assert!(typist.type_in("stages").contains("Nothing is checked"));
    typist.type_in("stages = 3");
    assert_eq!(typist.type_in("stages"), "3\n");
}

#[test]
fn an_assumption_and_a_caution_are_told_once() {
    let mut typist = Typist::new(&[]);
    assert!(typist.all("118 psig as psia").said.contains("Assumed"));
    assert!(!typist.all("119 psig as psia").said.contains("Assumed"));
}

#[test]
fn no_line_is_too_odd() {
    let mut typist = opened();
    let deep = "(".repeat(500);
    let long = "a+".repeat(20_000);
    for line in [
        "=",
        "==",
        "?",
        ")",
        "(",
        "\"",
        "a = ",
        "last",
        "= 3",
        "stage",
        "stage \"x\"",
        "end",
        "1..2",
        "table",
        "§",
        "\u{1b}[31m",
        "units",
        "units =",
        "x = ?",
        "take ",
        "save ",
        "text \"",
        "help \"",
        "why \"",
        "open \"\"",
        "#",
        "",
        "reading",
        "reading x",
        "input = = =",
        "rise[",
        "rise[\"",
        "rise[9 min].dp",
        "undo undo",
        "\u{202e}abc",
        "1e999",
        "confirm",
        "waive \"a\" reason \"b\"",
        "note \"{\"",
        "fill \"\" as x ()",
        "use \"job.dew\"",
        "chart line \"a\" t.x, t.y",
        &deep,
        &long,
    ] {
        typist.all(line);
        typist.session.prompt();
        typist.session.interrupt();
    }
}

#[test]
fn an_answer_in_doubt_says_so() {
    let mut typist = Typist::new(&[]);
    typist.type_in("reading p = 300 kPag ± 10 kPa standard");
    // Twice the standard uncertainty (JCGM 100, 6.2.1).
    assert_eq!(typist.type_in("p + 5 kPa"), "305 kPag  (± 20 kPa)\n");
    assert_eq!(typist.type_in("p - p"), "0 kPa\n");
    let told = typist.type_in("cells");
    assert!(told.contains("p  300 kPag ± 10 kPa standard"), "{told}");
}
