//! Functions that a crate outside the project adds are called, checked and explained as those of the trade library.
#![allow(clippy::unwrap_used, clippy::panic)]

use dewline_tests::own_functions;
use dewline_tests::sheet::{cell, errors, run};

#[test]
fn own_functions_serve_a_sheet() {
    let library = own_functions::library();
    let outcome = run(
        &library,
        r#"
        speed = driven_speed(1750 1/min, 4 in, driven = 8 in) as 1/min
        units IP
        state = filter_state(0.6 inH2O, grade = "fine").verdict
        table t
          tag  | temperature
          text | degF
          "a"  | 60
          "b"  | 80
          "c"  | 70
        end
        best = mean_of_best(t.temperature)
        "#,
    );
    assert_eq!(cell(&outcome, "speed"), "875 1/min");
    assert_eq!(cell(&outcome, "state"), "loaded");
    assert_eq!(cell(&outcome, "best"), "75 degF");
    assert!(outcome.cautions.iter().any(|caution| caution.contains("Lock the disconnect")), "{:?}", outcome.cautions);
}

#[test]
fn own_functions_are_checked_like_any_other() {
    let library = own_functions::library();
    let told =
        errors(&library, "a = driven_speed(1750 1/min, 4 psi, 8 in)\nb = filter_state(0.6 inH2O, grade = \"rough\")");
    assert_eq!(told.len(), 2, "{told:?}");
    assert!(told[0].contains("driver"), "{told:?}");
    assert!(told[1].contains("coarse"), "{told:?}");
}

#[test]
fn an_absent_field_breaks_only_who_uses_it() {
    let library = own_functions::library();
    let outcome = run(&library, "state = filter_state(2 inH2O)\nverdict = state.verdict\nleft = state.left");
    assert_eq!(cell(&outcome, "verdict"), "change");
    assert_eq!(cell(&outcome, "left"), "broken");
}

#[test]
fn a_value_outside_its_stated_range_is_named_with_its_limit() {
    let library = own_functions::library();
    let told = errors(&library, "a = driven_speed(9000 1/min, 4 in, 8 in)");
    assert_eq!(told.len(), 1, "{told:?}");
    assert!(told[0].contains("4000") && told[0].contains("9000"), "{told:?}");
}
