//! Completion and hints.

use super::Typist;

const SHEET: &str = "units IP\nsite altitude = 1280 ft\nreading suction = 118 psig\nover = 12 F°\nlength = 85 ft\n\
    hold = tube(3/8 in, temper = \"annealed\")\n\
    table indoor\n  tag | gas_pipe\n  text | degF\n  \"F-01\" | 52.3\n  \"F-02\" | ?\n  rise = gas_pipe - 40 degF\nend\n\
    stage \"Running\"\n  confirm \"drains run\"\n  require each \"x\" 3 > 2\nend\ndefine share(part, whole) = part / whole\n";

fn typist() -> Typist {
    let sheet = SHEET.replace("  require each \"x\" 3 > 2\n", "");
    let mut typist = Typist::new(&[("job.dew", &sheet), ("hold.csv", "a\n1\n"), ("other.dew", "a = 1\n")]);
    typist.type_in("open job.dew");
    typist
}

/// What a tab offers, and what stands there once the first is taken.
fn offered(typist: &Typist, line: &str) -> (Vec<String>, String) {
    let (start, found) = typist.session.complete(line, line.len());
    let first = found.first().map_or(String::new(), |one| format!("{}{}", &line[..start], one.text));
    (found.into_iter().map(|one| one.shown).collect(), first)
}

#[test]
fn names_functions_and_their_arguments_are_offered() {
    let typist = typist();
    for (line, whole) in [
        ("suct", "suction"),
        ("superh", "superheat("),
        ("x = len", "x = length"),
        ("superheat(R-410", "superheat(R-410A"),
        ("superheat(R-410A, suction_p", "superheat(R-410A, suction_pressure = "),
        ("indoor.gas", "indoor.gas_pipe"),
        ("mean(indoor.ri", "mean(indoor.rise"),
        ("hold.bo", "hold.bore"),
        ("indoor[", "indoor[\"F-01\"]"),
        ("indoor[\"F-02", "indoor[\"F-02\""),
        ("indoor[\"F-02\"].g", "indoor[\"F-02\"].gas_pipe"),
        ("trapped_pressure(nit", "trapped_pressure(nitrogen"),
        ("tube(3/8 in, temper = \"ann", ""),
        ("share", "share("),
        ("read", "reading "),
        ("sta", "stages "),
        ("confirm \"dra", "confirm \"drains run\""),
        ("stage \"Charge\" after \"R", "stage \"Charge\" after \"Running\""),
        ("open o", "open other.dew"),
        ("table t from \"h", "table t from \"hold.csv\""),
        ("why ov", "why over"),
        ("help superh", "help superheat"),
        ("pt R-41", "pt R-410A"),
        ("SUPERH", "superheat("),
    ] {
        let (_, first) = offered(&typist, line);
        assert_eq!(first, whole, "{line}");
    }
    let (found, _) = offered(&typist, "superheat(R-410A, ");
    assert_eq!(found[..2], ["suction_pressure =", "line_temperature ="], "{found:?}");
}

#[test]
fn units_that_fit_the_place_are_offered() {
    let mut typist = typist();
    for (line, some, none) in [
        ("superheat(R-410A, 118 ", "psig", "degF"),
        ("superheat(R-410A, 118 psig, line_temperature = 55 ", "degF", "F°"),
        ("suction as ", "kPag", "psi"),
        ("over as ", "C°", "degF"),
        ("length as ", "m", "psig"),
        ("x = length / (2 min) as ", "fpm", "ft"),
        ("require \"low\" over <= 5 ", "F°", "degF"),
        ("require \"low\" over within 5 .. 15 ", "F°", "psi"),
        ("suction = 120 ", "psig", "ft"),
        ("reading q : ", "psig", "none"),
        ("length > 3 ", "ft", "lb"),
    ] {
        let (found, _) = offered(&typist, line);
        assert!(found.iter().any(|one| one == some), "{line}: {found:?}");
        assert!(!found.iter().any(|one| one == none), "{line}: {found:?}");
    }
    let (found, _) = offered(&typist, "superheat(R-410A, 118 ");
    assert_eq!(found[0], "psig");
    typist.type_in("take");
    let (found, _) = offered(&typist, "3 ");
    assert!(found.is_empty() || !found.contains(&"psig".to_string()), "{found:?}");
}

#[test]
fn a_hint_tells_what_is_still_to_be_given() {
    let typist = typist();
    let hint = |line: &str| typist.session.hint(line, 78).unwrap_or_default();
    assert_eq!(hint("superheat("), "  # refrigerant, suction_pressure [psig], line_temperature [degF], …");
    assert_eq!(hint("superheat(R-410A, 118 psig, "), "  # line_temperature [degF], saturation = …");
    assert_eq!(hint("superheat(R-410A, line_temperature = 5"), "  # line_temperature [degF], suction_pr…");
    assert_eq!(hint("round(3, "), "  # step");
    assert_eq!(hint("share("), "  # part, whole");
    assert_eq!(hint("pt "), "  # REFRIGERANT [FROM TO]");
    assert!(hint("reading ").starts_with("  # reading name : unit"));
    assert_eq!(hint("superheat(R-410A, 118 psig, 55 degF)"), "");
    assert_eq!(hint("\"superheat("), "");
    let long = typist.session.hint("x = superheat(", 40).unwrap();
    assert!(long.ends_with('…') && crate::words::width(&long) <= 40 - 14, "{long}");
}

#[test]
fn no_place_of_a_cursor_is_too_odd() {
    let typist = typist();
    for line in [
        "",
        "(",
        "a[",
        "a.",
        ".",
        "\"",
        "x = 3 °",
        "f(((",
        "))",
        "µ °F ² §",
        "as ",
        "within ",
        "1 ",
        "R-",
        "a[\"",
        "open ",
    ] {
        for at in 0..=line.len() + 1 {
            typist.session.complete(line, at);
        }
        typist.session.hint(line, 10);
    }
}

#[test]
fn columns_of_a_table_called_like_a_statement_are_offered_and_hinted() {
    let sheet = "units IP\ntable units\n  tag | pipe\n  text | degF\n  \"F-01\" | 52.1\n  \"F-02\" | ?\nend\n";
    let mut typist = Typist::new(&[("job.dew", sheet)]);
    typist.type_in("open job.dew");
    assert_eq!(offered(&typist, "units.").0, ["tag", "pipe"]);
    let hint = |line: &str| typist.session.hint(line, 78).unwrap_or_default();
    assert_eq!(hint("units.pipe = "), "  # 2 values [degF]");
    assert_eq!(hint("units[\"F-02\"].pipe = "), "  # a value [degF]");
    assert_eq!(hint("units.tag = "), "  # 2 values");
    assert_eq!(hint("units.over : F° = "), "  # a formula for all rows");
}
