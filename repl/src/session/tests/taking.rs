//! What is still to be taken, asked for one thing after another.

use super::Typist;

const SHEET: &str = "units IP\ninstrument gauge \"digital\"\n  accuracy ± 1 psi\n\
    stage \"Pressure test\"\n  reading start = 550.0 psig by gauge\n  \
    reading stop : psig by gauge within 0 .. 800 psig   # the next morning\n  \
    fall = start - stop\n  require \"holds\" fall within ± 3 psi\n  confirm \"soap at every joint\"\nend\n\
    stage \"Running\" after \"Pressure test\"\n  input mode : one of \"cooling\", \"heating\"\n  \
    table units\n    tag | pipe\n    text | degF\n    \"F-01\" | 52.1\n    \"F-02\" | ?\n    \
    require each \"cold\" pipe <= 60 degF\n  end\n  \
    table rooms from \"rooms.csv\"\n    tag | air\n    text | degF\n    require each \"air\" air >= 50 degF\n  end\n  \
    table hold\n    time | pressure\n    min | micron\n  end\n  require \"deep\" last(hold.pressure) <= 500 micron\nend\n";

const ROOMS: &str = "tag,air\nF-01,61.2\nF-02,\n";

#[test]
fn everything_is_asked_for_in_stage_order_and_saved() {
    let mut typist = Typist::new(&[("job.dew", SHEET), ("rooms.csv", ROOMS)]);
    typist.type_in("open job.dew");
    let asked = typist.type_in("take");
    assert!(asked.contains("6 to take") && asked.contains("Pressure test"), "{asked}");
    assert!(asked.contains("stop: in psig, within 0 .. 800 psig, by gauge"), "{asked}");
    assert_eq!(typist.session.prompt(), "stop [psig]: ");

    // A slip of the hand, a wrong unit and a mistyped one are told where they were typed, and asked again.
    for (slip, part) in
        [("5500", "5500 psig"), ("549 psi", "549 psi"), ("549 pisg", "549 pisg"), ("549,2", "549,2"), ("x", "x")]
    {
        let said = typist.refused(slip);
        assert!(said.contains(part) && said.contains("typed:1:"), "{said}");
        assert_eq!(typist.session.prompt(), "stop [psig]: ");
    }
    let told = typist.type_in("549.2 at 2026-03-14T07:40");
    assert!(told.contains("check holds: passed"), "{told}");
    assert!(told.contains("confirm: soap at every joint"), "{told}");
    assert!(typist.refused("maybe").contains("yes or no"));
    let told = typist.type_in("yes at 2026-03-14T10:00 by \"R. Alder\"");
    assert!(told.contains("stage Pressure test: passed"), "{told}");

    assert!(told.contains("mode: one of cooling, heating"), "{told}");
    assert!(typist.refused("colling").contains("colling"));
    typist.type_in("cooling");
    assert_eq!(typist.session.prompt(), "hold: ");
    typist.refused("0 | many");
    typist.type_in("0 | 312");
    typist.type_in("5, 341");
    typist.type_in("");
    assert_eq!(typist.session.prompt(), "pipe [degF]: ");
    typist.refused("58 psig");
    typist.type_in("58.5");
    assert_eq!(typist.session.prompt(), "air [degF]: ");
    typist.refused("61 psig");
    let told = typist.type_in("60.9");
    assert!(told.contains("nothing is left to take") && told.contains("Saved \"job.dew\" and \"rooms.csv\""), "{told}");

    let saved = typist.file("job.dew");
    assert!(
        saved.contains("reading stop : psig = 549.2 psig at 2026-03-14T07:40 by gauge within 0 .. 800 psig"),
        "{saved}"
    );
    assert!(saved.contains("# the next morning"), "{saved}");
    assert!(saved.contains("confirm \"soap at every joint\" yes at 2026-03-14T10:00 by \"R. Alder\""), "{saved}");
    assert!(saved.contains("\"F-02\" | 58.5") && saved.contains("5    | 341"), "{saved}");
    assert_eq!(typist.file("rooms.csv"), "tag,air\nF-01,61.2\nF-02,60.9\n");
    assert_eq!(typist.session.exit_code(), 0);
}

#[test]
fn a_question_mark_leaves_one_for_later_and_an_interrupt_keeps_the_rest() {
    let mut typist = Typist::new(&[("job.dew", SHEET), ("rooms.csv", ROOMS)]);
    typist.type_in("open job.dew");
    typist.type_in("take");
    let asked = typist.type_in("?");
    assert!(asked.contains("soap"), "{asked}");
    typist.type_in("yes");
    let stopped = typist.session.interrupt();
    assert!(stopped.out.contains("Stopped. 1 value taken, 5 still to take."), "{}", stopped.out);
    assert!(typist.file("job.dew").contains("confirm \"soap at every joint\" yes"));
    let asked = typist.type_in("take mode");
    assert!(asked.contains("one of"), "{asked}");
    assert!(typist.type_in("heating").contains("4 still to take"));
}

#[test]
fn an_answer_that_breaks_other_things_is_asked_for_again() {
    let sheet = "units IP\nreading t : degF\np = trapped_pressure(nitrogen, 550 psig, 68 degF, t)\n";
    let mut typist = Typist::new(&[("job.dew", sheet)]);
    typist.type_in("open job.dew");
    typist.type_in("take");
    let said = typist.refused("579");
    assert!(said.contains("trapped_pressure") && said.contains("Not taken"), "{said}");
    assert_eq!((typist.session.prompt().as_str(), typist.text()), ("t [degF]: ", sheet));
    assert!(typist.type_in("57.9").contains("p = "));
}

#[test]
fn the_inputs_of_a_filled_sheet_go_into_its_brackets() {
    let form = "reading p : psig\nreading t : degF\nwarm = t + 1 F°\nconfirm \"soap\"\n";
    let job = "units IP\nfill \"form.dew\" as riser (\n  p = 550 psig\n)\n";
    let mut typist = Typist::new(&[("form.dew", form), ("job.dew", job)]);
    typist.type_in("open job.dew");
    let asked = typist.type_in("take");
    assert!(asked.contains("riser.t: in degF"), "{asked}");
    let asked = typist.type_in("61");
    assert!(asked.contains("confirm: riser: soap"), "{asked}");
    typist.type_in("yes by R. Alder");
    assert!(typist.file("job.dew").contains("p = 550 psig, t = 61 degF"), "{}", typist.file("job.dew"));
    assert!(typist.file("job.dew").ends_with(")\nconfirm \"riser: soap\" yes by \"R. Alder\"\n"));
}
