//! What verdicts on a unit are called, and what to do next.

use super::verdict::{Suspect, Verdict};
use crate::said::said;

impl Suspect {
    /// What would make a second sign.
    fn next(self) -> &'static str {
        match self {
            Suspect::NoFlow => {
                "command the valve open, wait 5 min, read pipes and air again; then resistance of its coils"
            }
            Suspect::Starving => "air out; a probe on the gas pipe; then a step of the opening",
            Suspect::Passing => "air out and the fan's flow; then a step of the opening",
            Suspect::LeaksIdle => "a probe on both pipes; is the commanded opening nought?",
        }
    }
}

said! {
    Verdict {
        Verdict::Healthy => "healthy",
        Verdict::Idle => "idle",
        Verdict::NoFlow => "no flow",
        Verdict::Starving => "starving",
        Verdict::Passing => "passing or stuck open",
        Verdict::LeaksIdle => "leaking when idle",
        Verdict::GasSensor => "gas-pipe sensor off its pipe",
        Verdict::PipeSensors => "pipe sensors disagree with the air",
        Verdict::Swapped => "pipe sensors swapped",
        Verdict::Crossed => "crossed, or two faults",
        Verdict::LittleAir => "little air",
        Verdict::OtherWay => "runs the other way",
        Verdict::SystemFirst => "system first",
        Verdict::NotSettled => "not settled",
        Verdict::NotTaken => "not taken",
        Verdict::ConsistentWith(Suspect::NoFlow) => "consistent with no flow",
        Verdict::ConsistentWith(Suspect::Starving) => "consistent with starving",
        Verdict::ConsistentWith(Suspect::Passing) => "consistent with passing",
        Verdict::ConsistentWith(Suspect::LeaksIdle) => "consistent with leaking when idle",
        Verdict::Undecided => "undecided",
    }
}

impl Verdict {
    /// What to do or read next.
    pub fn next(self) -> &'static str {
        match self {
            Verdict::Healthy | Verdict::Idle => "nothing",
            Verdict::NoFlow => "step test, then resistance of the valve's coils; branch and service valves open?",
            Verdict::Starving => "step test, then coils; strainer and branch before the valve",
            Verdict::Passing => "step test, then coils; plug on the right valve?",
            Verdict::LeaksIdle => "close it by power cycle; if the pipe stays cold the seat passes",
            Verdict::GasSensor => "a probe on the gas pipe; clip and insulate the sensor",
            Verdict::PipeSensors => "a probe on both pipes; plugs; `response_map`",
            Verdict::Swapped => "exchange the two plugs, then read again",
            Verdict::Crossed => "run these units one at a time: `response_map`",
            Verdict::LittleAir => "filter, fan, coil: then read again",
            Verdict::OtherWay => {
                "told so? read it in its own mode; told this mode: changeover box, wiring, air sensors"
            }
            Verdict::SystemFirst => "the system first: what ails all units is no valve's fault",
            Verdict::NotSettled => "wait until it has settled",
            Verdict::NotTaken => "take the missing readings",
            Verdict::ConsistentWith(suspect) => suspect.next(),
            Verdict::Undecided => "read again; a probe on both pipes",
        }
    }
}
