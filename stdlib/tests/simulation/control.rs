//! Controllers that turn valves by what their sensors say.

use super::random::Random;
use super::sensors::Readings;

/// The opening at which a controller comes to rest that opens as long as `wants_more` is true of what it sees there.
pub fn rest(least: f64, wants_more: impl Fn(f64) -> bool, random: &mut Random) -> f64 {
    let (mut low, mut high) = (least, 1.0);
    for _ in 0..40 {
        let middle = f64::midpoint(low, high);
        if wants_more(middle) { low = middle } else { high = middle }
    }
    let rest = if wants_more(1.0) { 1.0 } else { low };
    // It hunts a little.
    (rest * (1.0 + 0.03 * random.normal())).clamp(least, 1.0)
}

/// What two units exchanged.
#[derive(Clone, Copy, PartialEq)]
pub enum Exchanged {
    Sensors,
    Valves,
}

/// Two units that exchanged pipe sensors or valves. Each controller turns by its own readings; some rounds bring both to
/// rest or to their ends.
///
/// `at` says what is at an opening of the valve of one of the two, `over` how far its controller sees its want exceeded.
pub fn crossed<S: Copy>(
    exchanged: Exchanged,
    calling: [bool; 2],
    begin: [f64; 2],
    at: impl Fn(usize, f64) -> (S, Readings),
    over: impl Fn(usize, &Readings) -> f64,
) -> [(S, Readings); 2] {
    let mut openings = begin;
    let mut found = [0, 1].map(|row| at(row, openings[row]));
    for _ in 0..60 {
        for row in [0, 1] {
            let valve = if exchanged == Exchanged::Valves { 1 - row } else { row };
            found[row] = at(row, openings[valve]);
        }
        if exchanged == Exchanged::Sensors {
            let pipes = |read: &Readings| (read.liquid, read.gas);
            let (first, second) = (pipes(&found[0].1), pipes(&found[1].1));
            (found[0].1.liquid, found[0].1.gas) = second;
            (found[1].1.liquid, found[1].1.gas) = first;
        }
        for row in [0, 1] {
            found[row].1.opening = openings[row];
            if calling[row] {
                let over = over(row, &found[row].1);
                openings[row] = (openings[row] * (1.0 + 0.03 * over.clamp(-8.0, 8.0))).clamp(0.05, 1.0);
            }
        }
    }
    found
}
