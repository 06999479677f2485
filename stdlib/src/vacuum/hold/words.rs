//! Why a verdict was given, and what to do next, in words.

use super::curve::Curve;
use super::judge::{Hold, Judgement, Verdict};
use crate::said::said;

/// Pa
const MICRON: f64 = 0.133_322_387_415;

said! {
    Verdict {
        Verdict::LevelsOff => "levels off",
        Verdict::FreeWater => "free water",
        Verdict::EveningOut => "evening out",
        Verdict::Straight => "straight",
        Verdict::Leak => "leak",
        Verdict::StillSlowing => "still slowing",
        Verdict::Accelerating => "accelerating",
        Verdict::Falling => "falling",
        Verdict::Step => "step",
        Verdict::OverRange => "over range",
        Verdict::NoMovement => "gauge does not move",
        Verdict::TooShort => "too short to tell",
        Verdict::CannotProveDry => "cannot prove dry",
        Verdict::OtherSide => "other side not proven",
        Verdict::Unclear => "unclear",
    }
}

/// Why, and what next.
pub(super) fn of(judgement: &Judgement, curve: &Curve, hold: &Hold) -> (String, String) {
    let rate = micron(judgement.rate * 60.0);
    let level = judgement.plateau.map_or_else(String::new, |plateau| format!(" at {} micron", micron(plateau)));
    let water = micron(hold.water_at_coldest);
    let (why, next) = match judgement.verdict {
        Verdict::LevelsOff => (
            format!("it levels off{level}, far below the {water} micron of water at the coldest pipe"),
            "absorbed moisture or evening out; go on if the level is met".to_string(),
        ),
        Verdict::FreeWater => (
            format!("it levels off{level}, near the {water} micron of water at the coldest pipe"),
            "water stands in the pipe: warm the coldest part, break with dry nitrogen, pull again".to_string(),
        ),
        Verdict::EveningOut => (
            format!("it levels off{level} within minutes and the gauge is at the pump"),
            "move the gauge to the far end and hold again".to_string(),
        ),
        Verdict::Straight if hold.standing => (
            format!("it rises straight at {rate} micron/min, but the pressure test held"),
            "look at hose, core tool, gauge and outdoor service valves first: blank the gauge off and hold again"
                .to_string(),
        ),
        Verdict::Straight => (
            format!("it rises straight at {rate} micron/min: a leak, or moisture slower than reckoned with"),
            "break with dry nitrogen, pull and hold again; the same slope is a leak, a smaller one moisture"
                .to_string(),
        ),
        Verdict::Leak => (
            format!("it rises at {rate} micron/min again after the break, or past what water can do"),
            "find it with nitrogen at test pressure and soap; hoses and gauge first".to_string(),
        ),
        Verdict::StillSlowing => (
            "it rises ever slower without a plateau: gas from oil, rubber or moisture".to_string(),
            "pull longer and hold again; outgassing shrinks with each pull".to_string(),
        ),
        Verdict::Accelerating => (
            "the slope grows: pipe warming, ice melting, or a valve opening".to_string(),
            "not judged: steady the temperature and hold again".to_string(),
        ),
        Verdict::Falling => (
            "it falls: pump not shut off, gauge warming, or water freezing".to_string(),
            "not a hold: shut the pump off at the core and start again".to_string(),
        ),
        Verdict::Step => {
            let minutes = judgement.jumped.map_or(0.0, |t| t / 60.0);
            (
                format!(
                    "it jumps {minutes:.0} minutes after the first reading: a valve opened, a hose moved, power came on"
                ),
                "a closed part was not evacuated: start again".to_string(),
            )
        }
        Verdict::OverRange => (
            "fewer than four readings before the gauge was over its range".to_string(),
            "look for an open end, a part that was not evacuated, or water; else read every few seconds from the start"
                .to_string(),
        ),
        Verdict::NoMovement => (
            format!("no noise in {} readings", curve.count()),
            "check that the gauge sees the system and is in range".to_string(),
        ),
        Verdict::TooShort => (
            format!("{:.0} minutes do not tell a leak from slow moisture here", curve.span() / 60.0),
            match judgement.time_needed {
                Some(seconds) => format!("hold for {:.0} minutes", (seconds / 60.0).ceil()),
                None => "hold longer".to_string(),
            },
        ),
        Verdict::OtherSide => (
            "not every side was reached: a good vacuum proves only the part that the gauge sees".to_string(),
            "a gauge on each main, or `volume_by_fill` and `volume_check`; then pull again".to_string(),
        ),
        Verdict::CannotProveDry => (
            format!("ice at the coldest pipe stands at {water} micron only: a low pressure proves nothing"),
            "warm the lines above 2 °C or do it another day".to_string(),
        ),
        Verdict::Unclear => (
            "none of leak, moisture or outgassing fits the readings".to_string(),
            "steady temperature, one reading a minute, gauge at the far end; hold again".to_string(),
        ),
    };
    match judgement.over {
        Some(seconds) => {
            (format!("{why}; over the gauge's range {:.0} minutes after the first reading", seconds / 60.0), next)
        }
        None => (why, next),
    }
}

fn micron(pascal: f64) -> String {
    let microns = pascal / MICRON;
    if microns.abs() < 10.0 { format!("{microns:.1}") } else { format!("{microns:.0}") }
}
