#![allow(clippy::unwrap_used)]

use super::format;

/// The layout, which must stay when laid out again.
fn laid_out(text: &str) -> String {
    let once = format(text).unwrap();
    assert_eq!(format(&once).unwrap(), once, "a second time");
    once
}

#[test]
fn spaces_stand_round_operators_and_not_round_signs() {
    for (written, wanted) in [
        ("x=a+b*c", "x = a + b * c"),
        ("x = - a", "x = -a"),
        ("x = a - -b", "x = a - -b"),
        ("x = a -5 psi", "x = a - 5 psi"),
        ("x = -40 degF", "x = -40 degF"),
        ("x = - 40 F°", "x = - 40 F°"),
        ("x = max( a ,b , - c )", "x = max(a, b, -c)"),
        ("x = (a+b) ^ 2", "x = (a + b)^2"),
        ("x = -2 ^ -y", "x = -2^-y"),
        ("x = t [ \"k\" ] . superheat", "x = t[\"k\"].superheat"),
        ("x:psig=p as psig to 0.1  \"note\"", "x : psig = p as psig to 0.1 \"note\""),
        ("require\"a\" -x<5 psi and not(b)", "require \"a\" -x < 5 psi and not (b)"),
        ("require each x within±3 psi of y where z", "require each x within ± 3 psi of y where z"),
        ("x = if a then 1 else(2)", "x = if a then 1 else (2)"),
        ("x = solve(t within 1..2 where f(t)==0)", "x = solve(t within 1 .. 2 where f(t) == 0)"),
        ("x = 5-3/8", "x = 5 - 3 / 8"),
        ("x = 10 ft/x", "x = 10 ft / x"),
    ] {
        assert_eq!(laid_out(written), format!("{wanted}\n"));
    }
}

#[test]
fn units_keep_their_spelling() {
    for (written, wanted) in [
        ("x = 5psi", "x = 5 psi"),
        ("x = 55%", "x = 55 %"),
        ("x = 12 lb   4oz", "x = 12 lb 4 oz"),
        ("x = 1-1/8in + 3/8  in", "x = 1-1/8 in + 3/8 in"),
        ("x = 1.2 Btu/(lb·degF)", "x = 1.2 Btu/(lb·degF)"),
        ("x = 3 ft^2", "x = 3 ft^2"),
        ("x = charge as  lb   oz", "x = charge as lb oz"),
        ("x = 118 PSIG", "x = 118 PSIG"),
        ("input p : psig+/-1 psi", "input p : psig +/- 1 psi"),
    ] {
        assert_eq!(laid_out(written), format!("{wanted}\n"));
    }
}

#[test]
fn blocks_are_indented_and_comments_stay() {
    let written = "\n\n# first\r\nsheet \"a\"   #title\n\n\n\nstage \"b\"\n# inside\n\ninput x=1 ft\n\
        table t\n  a|b # names\n - | psi\n1|2 psi\n100 | ?\n # last row\nc : psi=b+1 psi\nend\ninstrument g\n\
        # lines\naccuracy±1 psi\n# before the end\nend\n\n\n# last";
    let wanted = "# first\nsheet \"a\"  #title\n\nstage \"b\"\n  # inside\n\n  input x = 1 ft\n  table t\n    a   | b  # names\n    \
        -   | psi\n    1   | 2 psi\n    100 | ?\n    # last row\n    c : psi = b + 1 psi\n  end\n  instrument g\n    # lines\n    \
        accuracy ± 1 psi\n  # before the end\nend\n\n# last\n";
    assert_eq!(laid_out(written), wanted);
}

#[test]
fn a_cell_may_be_called_fill() {
    assert_eq!(laid_out("fill=max(a,2)\n"), "fill = max(a, 2)\n");
}

#[test]
fn definitions_and_fillings_go_on_over_lines() {
    let written = "define f (x:F°,y=2)\na=x*y\nresult=a\nend\ndefine g(x)=x\nfill \"p.dew\" as p(\na=1,  # one\nb=max(\n1,\n2)\n)\n";
    let wanted = "define f(x : F°, y = 2)\n  a = x * y\n  result = a\nend\ndefine g(x) = x\nfill \"p.dew\" as p (\n  a = 1,  # one\n  \
        b = max(\n    1,\n    2)\n)\n";
    assert_eq!(laid_out(written), wanted);
}

#[test]
fn words_of_statements_may_be_names() {
    assert_eq!(laid_out("stage=1\ntable = 2\nx=stage+table\n"), "stage = 1\ntable = 2\nx = stage + table\n");
    assert_eq!(
        laid_out("table t\nstage|table\ntext|text\n\"a\"|\nend\n"),
        "table t\n  stage | table\n  text  | text\n  \"a\"   |\nend\n"
    );
}

#[test]
fn what_cannot_be_read_is_not_laid_out() {
    assert_eq!(format("x = (a\n").unwrap_err().len(), 1);
    assert_eq!(format("").unwrap(), "");
    assert_eq!(format("\n \n").unwrap(), "");
}

/// Whatever can be read in the corpus and the demo keeps its tokens and comments, and stays when laid out again.
#[test]
fn every_sheet_of_the_project_is_laid_out() {
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    let mut folders = vec![root.join("tests/corpus"), root.join("examples")];
    let mut count = 0;
    while let Some(folder) = folders.pop() {
        for path in std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()) {
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|ending| ending == "dew") {
                // Some sheets of the corpus are no texts at all.
                let Ok(text) = std::fs::read_to_string(&path) else { continue };
                let Ok(once) = format(&text) else { continue };
                count += 1;
                let letters =
                    |text: &str| text.chars().filter(|c| !c.is_whitespace() && *c != '\u{feff}').collect::<String>();
                assert_eq!(letters(&once), letters(&text), "{}", path.display());
                assert_eq!(format(&once).unwrap(), once, "{}", path.display());
                assert!(!once.contains("\n\n\n"), "{}", path.display());
            }
        }
    }
    assert!(count > 200, "{count} sheets");
}
