//! Definitions typed, typed again, taken back, saved.

use super::Typist;

const SHEET: &str = "# Riser B\nsheet \"Riser B\"\nunits IP\nsite altitude = 1280 ft\n\nstage \"Superheat\"\n  \
    input suction = 118 psig   # at the outdoor unit\n  reading pipe = 52.4 degF\n  \
    over = superheat(R-410A, suction, pipe) as F° to 0.1\n  require \"superheat\" over within 5 .. 15 F°\n  \
    other = 2 * 3\nend\n";

fn opened() -> Typist {
    let mut typist = Typist::new(&[("job.dew", SHEET)]);
    typist.type_in("open job.dew");
    typist
}

#[test]
fn an_expression_is_answered_in_the_units_typed() {
    let mut typist = Typist::new(&[]);
    assert!(typist.type_in("superheat(R-410A, 118 psig, 55 degF)").ends_with(" F°\n"));
    assert!(typist.type_in("dew_temperature(R-410A, 8 barg)").ends_with(" degC\n"));
    assert!(typist.type_in("dew_temperature(R-410A, 118 psig)").ends_with(" degF\n"));
    assert_eq!(typist.type_in("118 psig as kPag to 0.1"), "813.6 kPag\n");
    assert_eq!(typist.text(), "");
}

#[test]
fn last_is_the_last_answer() {
    let mut typist = Typist::new(&[]);
    typist.type_in("118 psig - 100 psig");
    assert_eq!(typist.type_in("last + 2 psi"), "20 psi\n");
    assert_eq!(typist.type_in("last * 2"), "40 psi\n");
    typist.type_in("kept = last");
    assert!(typist.text().contains("kept = 40 psi"), "{}", typist.text());
    typist.type_in("tube(3/8 in, temper = \"annealed\")");
    assert_eq!(typist.type_in("last.bore > 0 in"), "true\n");
    typist.type_in("52.5 degF");
    assert_eq!(typist.type_in("last"), "52.5 degF\n");
    typist.type_in("-3 F°");
    assert_eq!(typist.type_in("0 F° - last"), "3 F°\n");
}

#[test]
fn a_definition_typed_again_shows_what_changed_and_keeps_comments() {
    let mut typist = opened();
    let told = typist.type_in("suction = 170 psig");
    assert!(told.contains("suction = 170 psig (was 118 psig)"), "{told}");
    assert!(told.contains("over = ") && told.contains("(was "), "{told}");
    assert!(told.contains("check superheat: FAILED") && told.contains("(was passed)"), "{told}");
    assert!(told.contains("stage Superheat: FAILED (was passed)") && told.contains("job: FAILED"), "{told}");
    assert!(!told.contains("other"), "{told}");
    assert!(typist.text().contains("input suction = 170 psig   # at the outdoor unit"), "{}", typist.text());
    let told = typist.type_in("undo");
    assert!(told.contains("over = ") && told.contains("check superheat: passed"), "{told}");
    assert_eq!(typist.text(), SHEET);
}

#[test]
fn a_mistake_changes_nothing_and_is_shown_as_typed() {
    let mut typist = opened();
    for (line, part) in [
        ("suction = 118 psgi", "suction = 118 psgi"),
        ("over = pipe + suction", "over = pipe + suction"),
        ("x = nothing * 2", "x = nothing * 2"),
        ("x = sqrt(-1)", "x = sqrt(-1)"),
        ("require \"a\" 3 psig < 2", "require"),
        ("118 psig + 14.7 psia", "118 psig + 14.7 psia"),
        ("superheat(R-410A, 118 psi, 55 degF)", "superheat(R-410A, 118 psi, 55 degF)"),
    ] {
        let said = typist.refused(line);
        assert!(said.contains(part) && said.contains("typed:1:"), "{said}");
        assert!(!said.contains("answer"), "{said}");
        assert_eq!(typist.text(), SHEET, "{line}");
    }
}

#[test]
fn an_error_made_elsewhere_is_refused_and_shown_there() {
    let mut typist = opened();
    let said = typist.refused("pipe = 3 psi");
    assert!(said.contains("Nothing was changed"), "{said}");
    let mut typist = Typist::new(&[("job.dew", "a = 3 psi\nb = a + 1 psi\n")]);
    typist.type_in("open job.dew");
    let said = typist.refused("a = 3 ft");
    assert!(said.contains("job.dew:2:") && said.contains("b = a + 1 psi"), "{said}");
}

#[test]
fn a_sheet_with_errors_can_be_mended_line_by_line() {
    let mut typist = Typist::new(&[("job.dew", "a = 3 psgi\nb = 2 * c\nunits IP\n")]);
    let reply = typist.all("open job.dew");
    assert!(reply.said.contains("job.dew:1:") && reply.said.contains("job.dew:2:"), "{}", reply.said);
    assert_eq!(typist.type_in("2 * 3"), "6\n");
    let reply = typist.all("a = 3 psi");
    assert!(!reply.refused && reply.said.contains("1 error left"), "{}{}", reply.out, reply.said);
    let told = typist.type_in("b = 2 * a");
    assert!(told.contains("b = 6 psi"), "{told}");
}

#[test]
fn a_new_sheet_goes_on_in_the_units_it_was_begun_in() {
    let mut typist = Typist::new(&[]);
    typist.type_in("suction = 118 psig");
    typist.type_in("t = dew_temperature(R-410A, suction)");
    assert_eq!(typist.text(), "units IP\nsuction = 118 psig\nt = dew_temperature(R-410A, suction)\n");
    assert!(typist.type_in("t").ends_with("degF\n"));
    let mut typist = Typist::new(&[]);
    typist.type_in("suction = 8 barg");
    assert_eq!(typist.text(), "suction = 8 barg\n");
}

#[test]
fn what_is_saved_is_laid_out_and_comes_to_the_same() {
    let mut typist = opened();
    typist.type_in("suction   =   121 psig");
    typist.type_in("table rise\n t | p\n min | micron\n 0|312\n 5|341\nend");
    assert!(typist.session.is_unsaved());
    let before = serde_json::to_value(typist.session.sheet.outcome().unwrap()).unwrap();
    assert_eq!(typist.type_in("save"), "Saved \"job.dew\".\n");
    assert!(!typist.session.is_unsaved());
    let saved = typist.file("job.dew");
    assert!(saved.starts_with("# Riser B\n") && saved.contains("  # at the outdoor unit"), "{saved}");
    assert!(saved.contains("\n  t   | p\n  min | micron\n  0   | 312\n"), "{saved}");
    let mut again = Typist::new(&[("job.dew", &saved)]);
    again.type_in("open job.dew");
    assert_eq!(serde_json::to_value(again.session.sheet.outcome().unwrap()).unwrap(), before);
}

#[test]
fn what_is_removed_is_gone_unless_something_needs_it() {
    let mut typist = opened();
    assert!(typist.refused("remove suction").contains("over = superheat"));
    assert_eq!(typist.text(), SHEET);
    assert!(typist.type_in("remove other").contains("gone: other"));
    assert_eq!(typist.text(), SHEET.replace("  other = 2 * 3\n", ""));
    assert!(typist.type_in("remove superheat").contains("check superheat: gone"));
    typist.refused("remove nothing");
}

#[test]
fn nothing_is_lost_without_asking() {
    let mut typist = opened();
    typist.type_in("suction = 121 psig");
    assert!(typist.type_in("quit").contains("not saved"));
    assert_eq!(typist.session.prompt(), "yes or no? ");
    typist.refused("perhaps");
    assert_eq!(typist.type_in("no"), "Nothing done.\n");
    assert!(typist.session.end().out.contains("not saved"));
    assert!(typist.all("yes").leave);
    let mut typist = opened();
    typist.files.borrow_mut().insert("b.dew".to_string(), "a = 1\n".to_string());
    typist.type_in("suction = 121 psig");
    assert!(typist.type_in("save b.dew").contains("already"));
    typist.type_in("no");
    assert_eq!(typist.file("b.dew"), "a = 1\n");
    typist.files.borrow_mut().insert("job.dew".to_string(), "a = 1\n".to_string());
    assert!(typist.type_in("save").contains("someone else"));
    typist.type_in("yes");
    assert!(typist.file("job.dew").contains("121 psig"));
    assert!(typist.all("quit").leave);
}

#[test]
fn a_sheet_is_not_saved_away_from_its_files() {
    let sheet = "table t from \"t.csv\"\n  a\n  number\nend\nx = sum(t.a)\n";
    let mut typist = Typist::new(&[("job.dew", sheet), ("t.csv", "a\n1\n2\n")]);
    typist.type_in("open job.dew");
    typist.type_in("y = x + 1");
    typist.files.borrow_mut().remove("t.csv");
    assert!(typist.refused("save b.dew").contains("would not find"));
}

const TABLES: &str = "units IP\ntable rise\n  time | pressure # of the gauge\n  min | micron\n  0 | 312\n  5 | 341\nend\n\
    table rooms from \"rooms.csv\"\n  tag | air | out\n  text | degF | degF\n  split : F° = air - out\n  \
    require each \"cold air\" split >= 14 F°\nend\n";

#[test]
fn a_column_typed_again_takes_the_place_of_its_values() {
    let rooms = "tag,air,out\nF-01,75.2,56.0\nF-02,74.9,\n";
    let mut typist = Typist::new(&[("job.dew", TABLES), ("rooms.csv", rooms)]);
    typist.type_in("open job.dew");
    let told = typist.type_in("rise.pressure = 300, 355");
    assert!(told.contains("rise: pressure of 0 = 300 micron (was 312) and 1 more row"), "{told}");
    assert!(typist.text().contains("  0 | 300\n  5 | 355\nend"), "{}", typist.text());
    typist.type_in("rise[5].pressure = ?");
    typist.type_in("rise[5 min].pressure = 0.4 Torr");
    assert!(typist.text().contains("  5 | 0.4 Torr\n"), "{}", typist.text());
    typist.type_in("undo");
    assert!(typist.text().contains("  5 | ?\n"), "{}", typist.text());

    // In a file, which is written when the sheet is saved.
    let told = typist.type_in("rooms[\"F-02\"].out = 62.0");
    assert!(told.contains("check cold air: rooms F-02: FAILED"), "{told}");
    let told = typist.type_in("rooms.out = 56.1 | 13.0 degC");
    assert!(told.contains("check cold air: rooms F-02: passed"), "{told}");
    typist.type_in("save");
    assert_eq!(typist.file("rooms.csv"), "tag,air,out\nF-01,75.2,56.1\nF-02,74.9,13.0 degC\n");
}

#[test]
fn a_formula_of_a_column_is_replaced_or_new() {
    let mut typist = Typist::new(&[("job.dew", TABLES), ("rooms.csv", "tag,air,out\nF-01,75.2,56.0\n")]);
    typist.type_in("open job.dew");
    let told = typist.type_in("rooms.split = air - out + 1 F°");
    assert!(told.contains("split of F-01 = 20.2 F° (was 19.2)"), "{told}");
    assert!(typist.text().contains("  split : F° = air - out + 1 F°\n"), "{}", typist.text());
    typist.type_in("rooms.split : C° = air - out");
    assert!(typist.text().contains("  split : C° = air - out\n"), "{}", typist.text());
    let told = typist.type_in("rooms.half = split / 2  # of it");
    assert!(told.contains("rooms: half is new"), "{told}");
    typist.type_in("rise.so_far = pressure - first(rise.pressure)");
    assert!(typist.text().contains("  5 | 341\n  so_far = pressure - first(rise.pressure)\nend"), "{}", typist.text());
}

#[test]
fn a_column_that_does_not_fit_is_told_where_it_was_typed() {
    let mut typist = Typist::new(&[("job.dew", TABLES), ("rooms.csv", "tag,air,out\nF-01,75.2,56.0\n")]);
    typist.type_in("open job.dew");
    let before = typist.text().to_string();
    for (line, said) in [
        ("rise.pressure = 312", "`rise` has 2 rows, and 1 value was typed"),
        ("rise.pressure = 312,5, 341,2", "read in two ways"),
        ("rise.pressure = 312, 3 psi", "3 psi"),
        ("rise.pressure = 312, a + b", "a + b"),
        ("rise[7].pressure = 312", "no row with this key"),
        ("rise[5].pressure = 312, 341", "one value"),
        ("rise.pressure : psia = 1, 2", "second line of its table"),
        ("rise.new = 1, 2", "rise.new = 1, 2"),
        ("rise[5].new = 1", "leave the key away"),
        ("rooms.out = 56 psi", "the column is in degF"),
        ("rooms.split = air - ", "typed:1:"),
        ("rooms.split = air + out", "air + out"),
    ] {
        let refused = typist.refused(line);
        assert!(refused.contains(said) && refused.contains("typed:1:"), "{line}: {refused}");
        assert_eq!(typist.text(), before, "{line}");
    }
}
