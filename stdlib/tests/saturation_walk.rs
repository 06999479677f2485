//! Zero failures: every refrigerant at 10,000 temperatures and 10,000 pressures over its whole
//! range, on the bubble and on the dew line.

use dewline_stdlib::refrigerant::Refrigerant;
use uom::si::f64::{Pressure, ThermodynamicTemperature};
use uom::si::pressure::pascal;
use uom::si::thermodynamic_temperature::kelvin;

const STEPS: u32 = 10_000;

type Temperature<E> = Box<dyn Fn(f64) -> Result<f64, E>>;

struct Walked {
    name: String,
    worst_return: f64,
    faults: Vec<String>,
}

impl Walked {
    fn fault(&mut self, what: String) {
        if self.faults.len() < 5 {
            self.faults.push(what);
        }
    }
}

fn kelvins(t: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::new::<kelvin>(t)
}

fn pascals(p: f64) -> Pressure {
    Pressure::new::<pascal>(p)
}

/// The values from `low` to `high`, both included, that are evenly spaced by ratio.
fn spaced(low: f64, high: f64) -> impl Iterator<Item = f64> {
    let ratio = (high / low).ln();
    (0..=STEPS).map(move |k| match k {
        0 => low,
        STEPS => high,
        _ => low * (ratio * f64::from(k) / f64::from(STEPS)).exp(),
    })
}

fn walk(r: Refrigerant) -> Walked {
    let mut walked = Walked { name: r.designation().to_string(), worst_return: 0.0, faults: Vec::new() };
    let ranges = [r.bubble_range(), r.dew_range()];
    for (line, range) in ranges.into_iter().enumerate() {
        let pressure = |t: f64| {
            let p = if line == 0 { r.bubble_pressure(kelvins(t)) } else { r.dew_pressure(kelvins(t)) };
            p.map(|p| p.get::<pascal>())
        };
        let temperature: Temperature<_> = Box::new(move |p: f64| {
            let p = pascals(p);
            let t = if line == 0 { r.bubble_temperature(p) } else { r.dew_temperature(p) };
            t.map(|t| t.get::<kelvin>())
        });
        let (cold, hot) = (range.lowest_temperature.get::<kelvin>(), range.highest_temperature.get::<kelvin>());
        let mut before = 0.0;
        for t in spaced(cold, hot) {
            match pressure(t) {
                Ok(p) if p > before => {
                    before = p;
                    let back = temperature(
                        p.clamp(range.lowest_pressure.get::<pascal>(), range.highest_pressure.get::<pascal>()),
                    );
                    match back {
                        Ok(back) => walked.worst_return = walked.worst_return.max((back / t - 1.0).abs()),
                        Err(error) => walked.fault(format!("line {line}, T(p) at {t} K: {error}")),
                    }
                }
                Ok(p) => walked.fault(format!("line {line}, p steps back at {t} K: {before} {p}")),
                Err(error) => walked.fault(format!("line {line}, p at {t} K: {error}")),
            }
        }
        let mut before = 0.0;
        for p in spaced(range.lowest_pressure.get::<pascal>(), range.highest_pressure.get::<pascal>()) {
            match temperature(p) {
                Ok(t) if t > before => before = t,
                Ok(t) => walked.fault(format!("line {line}, T steps back at {p} Pa: {before} {t}")),
                Err(error) => walked.fault(format!("line {line}, T at {p} Pa: {error}")),
            }
        }
    }
    // Where both lines have a value: dew at or below bubble pressure, dew at or above bubble
    // temperature. At an azeotrope they touch, within the tables' 2e-11.
    let [bubble, dew] = ranges;
    let cold = bubble.lowest_temperature.max(dew.lowest_temperature).get::<kelvin>();
    let hot = bubble.highest_temperature.min(dew.highest_temperature).get::<kelvin>();
    for t in spaced(cold, hot) {
        if let (Ok(b), Ok(d)) = (r.bubble_pressure(kelvins(t)), r.dew_pressure(kelvins(t)))
            && d.get::<pascal>() > b.get::<pascal>() * (1.0 + 4e-11)
        {
            walked.fault(format!("dew above bubble pressure at {t} K: {d:?} {b:?}"));
        }
    }
    let low = bubble.lowest_pressure.max(dew.lowest_pressure).get::<pascal>();
    let high = bubble.highest_pressure.min(dew.highest_pressure).get::<pascal>();
    for p in spaced(low, high) {
        match r.glide(pascals(p)) {
            Ok(glide) if glide.value >= 0.0 => {}
            other => walked.fault(format!("glide at {p} Pa: {other:?}")),
        }
        if let (Ok(b), Ok(d)) = (r.bubble_temperature(pascals(p)), r.dew_temperature(pascals(p)))
            && d.get::<kelvin>() < b.get::<kelvin>() * (1.0 - 1e-11)
        {
            walked.fault(format!("dew below bubble temperature at {p} Pa: {d:?} {b:?}"));
        }
    }
    walked
}

#[test]
fn every_refrigerant_solves_everywhere() {
    let refrigerants: Vec<Refrigerant> = Refrigerant::all().filter_map(Result::ok).collect();
    assert!(refrigerants.len() >= 156, "{} are modelled", refrigerants.len());
    let mut worst = (0.0, String::new());
    let mut faults = Vec::new();
    for r in refrigerants {
        let walked = walk(r);
        if walked.worst_return > worst.0 {
            worst = (walked.worst_return, walked.name.clone());
        }
        if walked.worst_return > 1e-9 {
            faults.push(format!("{}: T(p(T)) comes back within {:.1e}", walked.name, walked.worst_return));
        }
        faults.extend(walked.faults.iter().map(|fault| format!("{}: {fault}", walked.name)));
    }
    println!("T(p(T)) comes back within {:.1e} ({})", worst.0, worst.1);
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}
