//! Data files that somebody else writes while a session holds fields of them.

use super::Typist;

const SHEET: &str = "units IP\ntable rooms from \"rooms.csv\"\n  tag  | air\n  text | degF\nend\n";
const ROOMS: &str = "tag,air,note\nF-06,61,a\nF-07,,b\nF-08,,c\n";

/// A session in which the air of two rooms was typed.
fn typed() -> Typist {
    let mut typist = Typist::new(&[("job.dew", SHEET), ("rooms.csv", ROOMS)]);
    typist.type_in("open job.dew");
    typist.type_in("rooms[\"F-07\"].air = 55.9");
    typist.type_in("rooms[\"F-08\"].air = 57.2");
    typist
}

fn rewritten(typist: &Typist, text: &str) {
    typist.files.borrow_mut().insert("rooms.csv".to_string(), text.to_string());
}

#[test]
fn a_reading_stays_with_its_row_when_the_file_is_written_meanwhile() {
    for (meanwhile, saved) in [
        // A row inserted, the rows sorted, the columns swapped, another field filled in.
        (
            "tag,air,note\nF-05,60,n\nF-06,61,a\nF-07,,b\nF-08,,c\n",
            "tag,air,note\nF-05,60,n\nF-06,61,a\nF-07,55.9,b\nF-08,57.2,c\n",
        ),
        ("tag,air,note\nF-08,,c\nF-07,,b\nF-06,61,a\n", "tag,air,note\nF-08,57.2,c\nF-07,55.9,b\nF-06,61,a\n"),
        ("air,tag,note\n61,F-06,a\n,F-07,b\n,F-08,c\n", "air,tag,note\n61,F-06,a\n55.9,F-07,b\n57.2,F-08,c\n"),
        ("tag,air,note\nF-06,61,a\nF-07,55.9,b\nF-08,,c\n", "tag,air,note\nF-06,61,a\nF-07,55.9,b\nF-08,57.2,c\n"),
    ] {
        let mut typist = typed();
        rewritten(&typist, meanwhile);
        assert_eq!(typist.type_in("save"), "Saved \"job.dew\" and \"rooms.csv\".\n");
        assert_eq!(typist.file("rooms.csv"), saved);
        assert!(!typist.session.is_unsaved());
    }
}

#[test]
fn what_no_longer_stands_on_its_row_is_asked_about_and_kept() {
    for (meanwhile, why, saved) in [
        (
            "tag,air,note\nF-06,61,a\nF-08,,c\n",
            "its row is not there any more",
            "tag,air,note\nF-06,61,a\nF-08,57.2,c\n",
        ),
        (
            "tag,air,note\nF-06,61,a\nF-07,54,b\nF-08,,c\n",
            "now 54 stands there, where it was empty",
            "tag,air,note\nF-06,61,a\nF-07,54,b\nF-08,57.2,c\n",
        ),
    ] {
        let mut typist = typed();
        rewritten(&typist, meanwhile);
        let asked = typist.type_in("save");
        assert!(asked.contains("! rooms.csv: F-07, air = 55.9 (was empty)") && asked.contains(why), "{asked}");
        assert!(!asked.contains("F-08"), "{asked}");
        assert_eq!(typist.type_in("no"), "Nothing done.\n");
        assert_eq!(typist.file("rooms.csv"), meanwhile);
        typist.type_in("save");
        assert!(typist.type_in("yes").contains("1 field is not saved"));
        assert_eq!(typist.file("rooms.csv"), saved);
        assert!(typist.session.is_unsaved() && typist.session.work().fields.len() == 1);
    }
}

#[test]
fn a_head_with_another_unit_is_another_column() {
    let mut typist = Typist::new(&[("job.dew", SHEET), ("rooms.csv", "tag,air [degF]\nF-07,\n")]);
    typist.type_in("open job.dew");
    typist.type_in("rooms[\"F-07\"].air = 55.9");
    rewritten(&typist, "tag,air [degC]\nF-07,\n");
    assert!(typist.type_in("save").contains("there is no column \"air [degF]\" any more"));
}

#[test]
fn a_bare_number_is_of_the_unit_asked_for_whatever_the_file_is_in() {
    let mut typist = Typist::new(&[("job.dew", SHEET), ("rooms.csv", "tag,air [degC]\nF-07,\n")]);
    typist.type_in("open job.dew");
    typist.type_in("rooms[\"F-07\"].air = 59");
    typist.type_in("save");
    assert_eq!(typist.file("rooms.csv"), "tag,air [degC]\nF-07,59 degF\n");
    assert!(typist.type_in("rooms[\"F-07\"].air").starts_with("59 degF"));
}

#[test]
fn values_for_all_rows_are_not_put_into_other_rows() {
    let mut typist = typed();
    rewritten(&typist, "tag,air,note\nF-08,,c\nF-07,,b\nF-06,61,a\n");
    let said = typist.refused("rooms.air = 61, 55, 57");
    assert!(said.contains("changed by someone else") && said.contains("type this again"), "{said}");
    // What is asked for by its key is found by it.
    rewritten(&typist, "tag,air,note\nF-09,,d\nF-08,,c\nF-07,,b\nF-06,61,a\n");
    typist.type_in("rooms[\"F-08\"].air = 58");
    typist.type_in("save");
    assert_eq!(typist.file("rooms.csv"), "tag,air,note\nF-09,,d\nF-08,58,c\nF-07,55.9,b\nF-06,61,a\n");
}

#[test]
fn a_workbook_says_at_the_first_field_that_it_cannot_be_saved() {
    let sheet = SHEET.replace("rooms.csv", "rooms.xlsx#Air");
    let mut typist = Typist::new(&[("job.dew", &sheet), ("rooms.xlsx#Air", ROOMS)]);
    typist.type_in("open job.dew");
    let said = typist.refused("rooms[\"F-07\"].air = 55.9");
    assert!(said.contains("workbook \"rooms.xlsx#Air\", which a session cannot save"), "{said}");
    assert!(!typist.session.is_unsaved());
}
