//! What moved when one thing was acted on: swapped and dead sensors show here and nowhere else.

use crate::said::said;
use std::collections::{BTreeMap, BTreeSet};

/// One channel read before and after something was acted on; K, nothing where not taken.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading<'a> {
    /// What was acted on: one unit run alone, one sensor warmed by hand.
    pub acted_on: &'a str,
    /// The channel read, called like the thing it should belong to.
    pub channel: &'a str,
    /// Before.
    pub before: Option<f64>,
    /// After.
    pub after: Option<f64>,
}

/// What came of acting on one thing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Verdict {
    /// Its own channel moved and no other.
    Own,
    /// Another channel moved instead, and acting on that one moves this.
    CrossedWith(String),
    /// Another channel moved instead.
    Elsewhere(String),
    /// Nothing moved.
    Silent,
    /// More than one moved.
    Several(Vec<String>),
    /// A channel moved by about the least change.
    Undecided,
    /// Readings are lacking.
    NotTaken,
}

said! {
    Verdict {
        Verdict::Own => "its own",
        Verdict::CrossedWith(_) => "crossed",
        Verdict::Elsewhere(_) => "another",
        Verdict::Silent => "silent",
        Verdict::Several(_) => "more than one",
        Verdict::Undecided => "undecided",
        Verdict::NotTaken => "not taken",
    }
}

impl Verdict {
    /// What moved instead of or besides its own channel.
    pub fn moved(&self) -> Option<String> {
        match self {
            Verdict::CrossedWith(other) | Verdict::Elsewhere(other) => Some(other.clone()),
            Verdict::Several(all) => Some(all.join(", ")),
            _ => None,
        }
    }

    /// What to do next.
    pub fn next(&self) -> &'static str {
        match self {
            Verdict::Own => "nothing",
            Verdict::CrossedWith(_) => {
                "these two are crossed: find out whether sensors or valves, then act on both again"
            }
            Verdict::Elsewhere(_) => "act on the one that moved and see what answers",
            Verdict::Silent => "is it powered, addressed, its sensor in its clip? act again for longer",
            Verdict::Several(_) => "let all others rest and act again",
            Verdict::Undecided => "act for longer, so that it moves more",
            Verdict::NotTaken => "read its own channel and all others, before and after",
        }
    }
}

/// Judges everything acted on, by name. A channel moved if it changed by `least` and its uncertainty more.
///
/// Common practice, no source.
pub fn judge(readings: &[Reading<'_>], least: f64, uncertainty: f64) -> BTreeMap<String, Verdict> {
    let mut of: BTreeMap<&str, Vec<&Reading<'_>>> = BTreeMap::new();
    for reading in readings {
        of.entry(reading.acted_on).or_default().push(reading);
    }
    let mut verdicts: BTreeMap<String, Verdict> =
        of.iter().map(|(name, readings)| ((*name).to_string(), one(name, readings, least, uncertainty))).collect();
    let elsewhere: BTreeSet<(String, String)> = verdicts
        .iter()
        .filter_map(|(name, verdict)| match verdict {
            Verdict::Elsewhere(other) => Some((name.clone(), other.clone())),
            _ => None,
        })
        .collect();
    for (name, other) in &elsewhere {
        if elsewhere.contains(&(other.clone(), name.clone())) {
            verdicts.insert(name.clone(), Verdict::CrossedWith(other.clone()));
        }
    }
    verdicts
}

fn one(acted_on: &str, readings: &[&Reading<'_>], least: f64, uncertainty: f64) -> Verdict {
    let mut moved = Vec::new();
    let mut near = false;
    let mut own_read = false;
    for reading in readings {
        let (Some(before), Some(after)) = (reading.before, reading.after) else { return Verdict::NotTaken };
        own_read |= reading.channel == acted_on;
        let change = (after - before).abs();
        if change - uncertainty >= least {
            moved.push(reading.channel.to_string());
        } else if change + uncertainty >= least {
            near = true;
        }
    }
    match moved.as_slice() {
        _ if !own_read => Verdict::NotTaken,
        _ if near => Verdict::Undecided,
        [] => Verdict::Silent,
        [only] if only == acted_on => Verdict::Own,
        [only] => Verdict::Elsewhere(only.clone()),
        _ => Verdict::Several(moved),
    }
}

#[cfg(test)]
mod tests {
    use super::{Reading, Verdict, judge};

    #[test]
    fn crossed_silent_and_own() {
        let names = ["U1", "U2", "U3", "U4"];
        // What moves when each is acted on; U4 moves nothing.
        let moves = [("U1", "U2"), ("U2", "U1"), ("U3", "U3"), ("U4", "-")];
        let mut readings = Vec::new();
        for (acted_on, answers) in moves {
            for channel in names {
                let change = if channel == answers { -12.0 } else { 0.3 };
                readings.push(Reading { acted_on, channel, before: Some(297.0), after: Some(297.0 + change) });
            }
        }
        let found = judge(&readings, 2.0, 0.5);
        let of = |name: &str| found.get(name).cloned();
        assert_eq!(of("U1"), Some(Verdict::CrossedWith("U2".into())));
        assert_eq!(of("U2"), Some(Verdict::CrossedWith("U1".into())));
        assert_eq!(of("U3"), Some(Verdict::Own));
        assert_eq!(of("U4"), Some(Verdict::Silent));
        // A change near the least one is not judged, and a channel that moved too is named.
        let more = |change| {
            let reading =
                |channel, change| Reading { acted_on: "U1", channel, before: Some(297.0), after: Some(297.0 + change) };
            judge(&[reading("U1", -9.0), reading("U2", change)], 2.0, 0.5).remove("U1")
        };
        assert_eq!(more(-2.2), Some(Verdict::Undecided));
        assert_eq!(more(-5.0), Some(Verdict::Several(vec!["U1".into(), "U2".into()])));
    }
}
