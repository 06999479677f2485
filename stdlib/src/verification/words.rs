//! What verdicts are called, and what to do next.

use super::peers::Sign;
use super::system::{self, Rest, Running, Signs};
use super::valve::{Suspect, Verdict};

impl Suspect {
    fn name(self) -> &'static str {
        match self {
            Suspect::NoFlow => "no flow",
            Suspect::Starving => "starving",
            Suspect::Passing => "passing",
            Suspect::LeaksIdle => "leaking when idle",
        }
    }

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

impl Verdict {
    /// As sheets see it.
    pub fn name(self) -> String {
        let name = match self {
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
            Verdict::SystemFirst => "system first",
            Verdict::NotSettled => "not settled",
            Verdict::NotTaken => "not taken",
            Verdict::ConsistentWith(suspect) => return format!("consistent with {}", suspect.name()),
            Verdict::Undecided => "undecided",
        };
        name.to_string()
    }

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
            Verdict::SystemFirst => "`system_reading` first: what ails all units is no valve's fault",
            Verdict::NotSettled => "wait until it has settled",
            Verdict::NotTaken => "take the missing readings",
            Verdict::ConsistentWith(suspect) => suspect.next(),
            Verdict::Undecided => "read again; a probe on both pipes",
        }
    }
}

/// The signs against a system that are sure, in words.
pub(super) fn signs(signs: &Signs) -> String {
    let all = [
        (signs.little_subcooling, "little subcooling"),
        (signs.much_subcooling, "much subcooling"),
        (signs.hot, "condensing far above ambient"),
        (signs.liquid_line_warm, "liquid line warm"),
        (signs.below_target, "evaporating below target"),
        (signs.discharge_high, "discharge hotter than expected"),
        (signs.discharge_low, "discharge colder than vapor can be"),
        (signs.wanting, "many units starving or wide open"),
    ];
    let sure: Vec<&str> = all.iter().filter(|(sign, _)| *sign == Sign::Sure).map(|(_, words)| *words).collect();
    if sure.is_empty() { "none".to_string() } else { sure.join("; ") }
}

/// What to do next about a system.
pub(super) fn next(verdict: system::Verdict, running: &Running, signs: &Signs) -> &'static str {
    use system::Verdict as V;
    match verdict {
        V::Healthy => "the valves: `valve_reading`",
        V::Short => {
            "leak search and weight of the charge; no valve is named. Liquid line, strainer, service valve open?"
        }
        V::Overfilled => "recover and weigh; never vent",
        V::Gas => "recover, evacuate, charge anew by weight",
        V::OutdoorAirflow => "clean the coil, fans, what blows back warm air",
        V::SuctionSide => "indoor air, suction line and its valve, units whose valve passes: `valve_reading`",
        V::Stop => "stop: hotter than oil and windings bear",
        V::NotSettled => "wait until it has settled",
        V::Undecided if signs.little_subcooling == Sign::Sure => {
            "consistent with short of liquid: a gauge at both ports, leak search, units' openings"
        }
        V::Undecided if !running.pressures_checked => "compare both pressures with a gauge of your own",
        V::Undecided if signs.hot == Sign::Sure && running.rest == Rest::Unknown => {
            "rest test of the isolated outdoor coil: `noncondensable`"
        }
        V::Undecided if signs.hot == Sign::Sure && !running.ambient_by_hand => "ambient by a probe of your own",
        V::Undecided if running.discharge.is_none() => "discharge temperature",
        V::Undecided if running.wanting.is_none() => "pipes and opening of three calling units or more",
        V::Undecided => "read again at steady load",
    }
}
