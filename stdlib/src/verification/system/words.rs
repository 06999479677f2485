//! What verdicts on a system are called, its signs in words, and what to do next.

use super::{ENOUGH, Rest, Verdict, cooling, heating};
use crate::said::said;
use crate::verification::sign::Sign;

said! {
    Verdict {
        Verdict::Healthy => "healthy",
        Verdict::Short => "short of liquid",
        Verdict::HeldBack => "liquid held back",
        Verdict::Overfilled => "overfilled",
        Verdict::Gas => "gas that does not condense",
        Verdict::OutdoorAirflow => "outdoor airflow",
        Verdict::SuctionSide => "suction side",
        Verdict::Stop => "stop",
        Verdict::NotSettled => "not settled",
        Verdict::Undecided => "undecided",
    }
}

impl Verdict {
    /// What to do next where that is the same in both modes.
    fn next(self) -> Option<&'static str> {
        Some(match self {
            Verdict::Healthy => "the valves: `valve_reading`",
            Verdict::Overfilled => "recover and weigh; never vent",
            Verdict::Gas => "recover, evacuate, charge anew by weight",
            Verdict::Stop => "stop: hotter than oil and windings bear",
            Verdict::NotSettled => "wait until it has settled",
            _ => return None,
        })
    }
}

const GAUGE: &str = "compare both pressures with a gauge of your own";
const REST: &str = "rest test of the isolated outdoor coil: `noncondensable`";
const AMBIENT: &str = "ambient by a probe of your own";
const AGAIN: &str = "read again at steady load";

impl cooling::Signs {
    /// Those that are sure, in words.
    pub fn said(&self) -> String {
        sure(&[
            (self.little_subcooling, "little subcooling"),
            (self.much_subcooling, "much subcooling"),
            (self.hot, "condensing far above ambient"),
            (self.liquid_line_warm, "liquid line warm"),
            (self.below_target, "evaporating below target"),
            (self.discharge_high, "discharge hotter than expected"),
            (self.discharge_low, "discharge colder than vapor can be"),
            (self.wanting, "many units starving or wide open"),
        ])
    }

    /// What to do next.
    pub fn next(&self, verdict: Verdict, running: &cooling::Running) -> &'static str {
        use Verdict as V;
        if let Some(next) = verdict.next() {
            return next;
        }
        match verdict {
            V::Short => {
                "leak search and weight of the charge; no valve is named. Liquid line, strainer, service valve open?"
            }
            V::OutdoorAirflow => "clean the coil, fans, what blows back warm air",
            V::SuctionSide => "indoor air, suction line and its valve, units whose valve passes: `valve_reading`",
            _ if self.little_subcooling.is_sure() => {
                "consistent with short of liquid: a gauge at both ports, leak search, units' openings"
            }
            _ if !running.pressures_checked => GAUGE,
            _ if self.hot.is_sure() && running.rest == Rest::Unknown => REST,
            _ if self.hot.is_sure() && !running.ambient_by_hand => AMBIENT,
            _ if running.discharge.read.is_none() => "discharge temperature",
            _ if running.wanting.is_none() => "pipes and opening of three calling units or more",
            _ => AGAIN,
        }
    }
}

impl heating::Signs {
    /// Those that are sure, in words.
    pub fn said(&self) -> String {
        sure(&[
            (self.little_subcooling, "many coils with little subcooling"),
            (self.much_subcooling, "most coils with much subcooling"),
            (self.far_below_ambient, "evaporating far below ambient"),
            (self.much_superheat, "suction line hot"),
            (self.outdoor_wide, "outdoor valve wide open"),
            (self.below_target, "condensing below target"),
            (self.discharge_high, "discharge hotter than expected"),
            (self.discharge_low, "discharge colder than vapor can be"),
        ])
    }

    /// What to do next.
    pub fn next(&self, verdict: Verdict, running: &heating::Running) -> &'static str {
        use Verdict as V;
        if let Some(next) = verdict.next() {
            return next;
        }
        match verdict {
            V::Short => {
                "leak search and weight of the charge; no valve is named. Does liquid stand in coils whose valve is shut?"
            }
            V::HeldBack => "outdoor expansion valve, strainer, liquid service valve: open?",
            V::OutdoorAirflow => "read again after a defrost; then coil, fans, snow, what blows back cold air",
            V::SuctionSide => "outdoor expansion valve: step test, then its coils; suction line to the shell",
            _ if running.subcoolings.len() < ENOUGH => "liquid pipes of three calling units or more",
            _ if self.little_subcooling.is_sure() => {
                "consistent with short of liquid: a gauge at both ports, suction line, opening of the outdoor valve"
            }
            _ if self.much_subcooling.is_sure() && self.lacks_outdoors() => {
                "consistent with liquid held back: opening of the outdoor valve, discharge temperature"
            }
            _ if self.lacks_outdoors() && running.suction_line.is_none() => "suction line temperature",
            _ if self.lacks_outdoors() && !running.ambient_by_hand => AMBIENT,
            _ if !running.pressures_checked => GAUGE,
            _ if self.much_subcooling.is_sure() && running.rest == Rest::Unknown => REST,
            _ if running.discharge.read.is_none() => "discharge temperature",
            _ => AGAIN,
        }
    }
}

fn sure(signs: &[(Sign, &'static str)]) -> String {
    let sure: Vec<&str> = signs.iter().filter(|(sign, _)| sign.is_sure()).map(|(_, words)| *words).collect();
    if sure.is_empty() { "none".to_string() } else { sure.join("; ") }
}
