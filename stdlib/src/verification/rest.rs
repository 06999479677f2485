//! Sensors at rest: each against the others of its room, or against a probe held to it.

use std::collections::BTreeMap;

use crate::numeric::middle::middle;
use crate::said::said;

/// One sensor; K and s.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sensor<'a> {
    /// The room or place whose sensors should agree.
    pub room: &'a str,
    /// What it reads; nothing if not taken yet.
    pub reading: Option<f64>,
    /// What a probe held to it reads.
    pub hand: Option<f64>,
    /// How long the equipment has been off.
    pub off: f64,
    /// In the sun, or otherwise not at its room's temperature.
    pub sun: bool,
}

/// What is allowed; K and s.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Allowed {
    /// Off the median of its room.
    pub room: f64,
    /// Off the probe.
    pub hand: f64,
    /// Expanded uncertainty of a difference of two sensors.
    pub uncertainty: f64,
    /// Rest that it takes until pipes are at their room's temperature.
    pub rest: f64,
}

/// The verdict on a sensor.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// Within what is allowed, its uncertainty with it.
    Agrees,
    /// Outside of it, by more than its uncertainty.
    Off,
    /// Its uncertainty is too great to say.
    Indistinguishable,
    /// Fewer than three of its room were read and no probe was held to it.
    Alone,
    /// Off for too short a time.
    NotAtRest,
    /// Not at its room's temperature.
    InTheSun,
    /// Not taken yet.
    NotTaken,
}

said! {
    Verdict {
        Verdict::Agrees => "agrees",
        Verdict::Off => "off",
        Verdict::Indistinguishable => "indistinguishable",
        Verdict::Alone => "alone",
        Verdict::NotAtRest => "not at rest",
        Verdict::InTheSun => "in the sun",
        Verdict::NotTaken => "not taken",
    }
}

impl Verdict {
    /// What to do next.
    pub fn next(self) -> &'static str {
        match self {
            Verdict::Agrees => "swaps are not seen at rest: run `response_map`",
            Verdict::Off => "hold a probe to it; then clip, insulation, plug, type of sensor",
            Verdict::Indistinguishable => "read again with a better probe, held to the sensor",
            Verdict::Alone => "hold a probe to it, or read two more sensors of the room",
            Verdict::NotAtRest => "leave it off longer and read again",
            Verdict::InTheSun => "shade it or read before dawn",
            Verdict::NotTaken => "read it",
        }
    }
}

/// A sensor judged.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Judged {
    /// The verdict.
    pub verdict: Verdict,
    /// What it was compared with, K.
    pub reference: Option<f64>,
    /// Reading less reference, K.
    pub difference: Option<f64>,
}

/// Sensors of one room at least, for a median that one bad one does not move.
const ENOUGH: usize = 3;

/// Judges every sensor. Common practice, no source. A swapped sensor cannot be found this way: at rest all agree.
pub fn judge(sensors: &[Sensor<'_>], allowed: &Allowed) -> Vec<Judged> {
    let mut rooms: BTreeMap<&str, Vec<f64>> = BTreeMap::new();
    for sensor in sensors.iter().filter(|sensor| !sensor.sun && sensor.off >= allowed.rest) {
        rooms.entry(sensor.room).or_default().extend(sensor.reading);
    }
    let medians: BTreeMap<&str, f64> = rooms
        .into_iter()
        .filter(|(_, readings)| readings.len() >= ENOUGH)
        .filter_map(|(room, readings)| Some((room, middle(readings)?)))
        .collect();
    sensors.iter().map(|sensor| one(sensor, medians.get(sensor.room).copied(), allowed)).collect()
}

fn one(sensor: &Sensor<'_>, room: Option<f64>, allowed: &Allowed) -> Judged {
    let nothing = |verdict| Judged { verdict, reference: None, difference: None };
    let Some(reading) = sensor.reading else { return nothing(Verdict::NotTaken) };
    // A probe held to a sensor is right in the sun and soon after stopping too.
    let (reference, limit) = match sensor.hand {
        Some(hand) => (hand, allowed.hand),
        None if sensor.off < allowed.rest => return nothing(Verdict::NotAtRest),
        None if sensor.sun => return nothing(Verdict::InTheSun),
        None => match room {
            Some(median) => (median, allowed.room),
            None => return nothing(Verdict::Alone),
        },
    };
    let difference = reading - reference;
    let verdict = match difference.abs() {
        apart if apart + allowed.uncertainty <= limit => Verdict::Agrees,
        apart if apart - allowed.uncertainty > limit => Verdict::Off,
        _ => Verdict::Indistinguishable,
    };
    Judged { verdict, reference: Some(reference), difference: Some(difference) }
}

#[cfg(test)]
mod tests {
    use super::{Allowed, Sensor, Verdict, judge};

    const HOUR: f64 = 3_600.0;

    fn sensor(room: &str, reading: f64) -> Sensor<'_> {
        Sensor { room, reading: Some(reading), hand: None, off: 8.0 * HOUR, sun: false }
    }

    fn verdicts(sensors: &[Sensor<'_>]) -> Vec<Verdict> {
        let allowed = Allowed { room: 1.5, hand: 2.0, uncertainty: 0.5, rest: 2.0 * HOUR };
        judge(sensors, &allowed).iter().map(|one| one.verdict).collect()
    }

    /// Worked by hand: the median of a room is 297.0 K.
    #[test]
    fn one_bad_sensor_does_not_move_its_room() {
        use Verdict::{Agrees, Alone, Indistinguishable, NotAtRest, NotTaken, Off};
        let room = [sensor("A", 297.0), sensor("A", 297.4), sensor("A", 296.8), sensor("A", 303.0), sensor("A", 295.6)];
        assert_eq!(verdicts(&room), [Agrees, Agrees, Agrees, Off, Indistinguishable]);
        let mixed = [
            sensor("B", 297.0),
            Sensor { hand: Some(297.5), ..sensor("C", 297.0) },
            Sensor { off: HOUR, ..sensor("B", 297.0) },
            Sensor { reading: None, ..sensor("B", 0.0) },
            Sensor { sun: true, ..sensor("B", 310.0) },
        ];
        assert_eq!(verdicts(&mixed), [Alone, Agrees, NotAtRest, NotTaken, Verdict::InTheSun]);
    }
}
