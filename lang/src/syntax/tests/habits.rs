//! Habits of typing, §1: each has an error of its own with its mend.

use super::{codes, one_error, sound};

#[test]
fn each_habit_is_told_with_its_mend() {
    one_error("it = .5 psi", "D0105", ".5", "`0.5`");
    one_error("it = 2 * .5", "D0105", ".5", "`0.5`");
    one_error("it = 1,280 ft", "D0106", "1,280", "`1280`");
    one_error("it = 1,280,500 Btu/h", "D0106", "1,280,500", "`1280500`");
    one_error("it = f(1,280)", "D0106", "1,280", "`f(1, 280)`");
    one_error("it = 850,9 micron", "D0106", "850,9", "`850.9`");
    one_error("it = 0,022 kg/m", "D0106", "0,022", "write `0.022` for");
    one_error("it = max(1,2)", "D0106", "1,2", "`max(1, 2)`");
    one_error("it = 3 * max(1,2 ft, 3 ft)", "D0106", "1,2", "`1.2` for a decimal comma, or `max(1, 2 ft, 3 ft)`");
    one_error("reading it = 52,4 degF", "D0106", "52,4", "`52, 4`");
    one_error("reading it = 5 psi ± 0,5 psi", "D0106", "0,5", "`0.5`");
    one_error("it = 12 lb 4,5 oz", "D0106", "4,5", "`4.5`");
    one_error("it = -850,9 psi", "D0106", "850,9", "`850.9`");
    one_error("it = 40'", "D0107", "40'", "`40 ft`");
    one_error("it = 3/8\"", "D0107", "3/8\"", "`3/8 in`");
    one_error("it = tube(3/8\").bore", "D0107", "3/8\"", "`3/8 in`");
    one_error("it = 1-1/8\"", "D0107", "1-1/8\"", "`1-1/8 in`");
    one_error("it = 6' 4\"", "D0107", "6' 4\"", "`6 ft 4 in`");
    one_error("it = 5 F", "D0108", "F", "`degF`");
    one_error("it = 5 deg", "D0108", "deg", "`F°`");
    one_error("it = 5 C", "D0108", "C", "`C°`");
    one_error("it = 5°", "D0108", "°", "`degF`");
    one_error("it = 5 psig/min", "D0121", "psig", "psi");
    one_error("reading it = 61 degF ± 1 degF", "D0119", "1 degF", "± 1 F°");
    one_error("reading it = 61 psig ± 1 psig", "D0119", "1 psig", "± 1 psi");
    one_error("it = (a + b) psi", "D0115", "psi", "as psi");
    one_error("it = f(a) psi", "D0115", "psi", "as psi");
    one_error("it = t[1] psi", "D0115", "psi", "as psi");
    one_error("it = a psi", "D0115", "psi", "as psi");
    one_error("it = 10 ft / min", "D0113", "/ min", "`10 ft/min`");
    one_error("it = 1.2 Btu / lb", "D0113", "/ lb", "`1.2 Btu/lb`");
    one_error("x = 1\nit = 2 x", "D0111", "2 x", "`2 * x`");
    one_error("it = 2 sqrt(4)", "D0111", "2 sqrt", "`2 * sqrt`");
    one_error("it = 2 (a + b)", "D0111", "(", "operator");
    one_error("it = 2 foo", "D0120", "foo", "");
    one_error("it = 5 psgi", "D0120", "psgi", "psig");
    one_error("it = 3 ft ^ 2", "D0114", "^", "(3 ft)^2");
}

#[test]
fn characters_pasted_in() {
    one_error("it = 5 × 3", "D0101", "×", "`*`");
    one_error("it = 5 – 3", "D0101", "–", "`-`");
    one_error("it = a ≤ b", "D0101", "≤", "`<=`");
    one_error("it = a ; b", "D0101", ";", "one statement");
    one_error("it = ½ in", "D0101", "½", "1/2");
    one_error("it = a $ b", "D0101", "$", "");
    one_error("note “hello”", "D0101", "“", "plain quote");
    one_error("note \"open", "D0102", "\"open", "close it");
    one_error("it = a²", "D0122", "²", "`^2`");
    one_error("it = a %", "D0122", "%", "55 %");
}

#[test]
fn spellings_that_are_fine() {
    sound("it = 5 °F\nb = 5 degF\nc = 5 F°\nd = 5 deltaF\ne = 5 ft·lbf\nf = 5 ft*lbf\ng = 5 m² + 5 m2");
    sound("reading p = 5 psig +/- 1 psi\nreading q = 5 psig ± 1 psi");
    assert!(codes("it = 1, 280").len() == 1, "a cell has one value");
    sound("reading p = 1, 2, 3 psig");
}
