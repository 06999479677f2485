//! States by pressure and enthalpy or entropy, at random over all refrigerants: what comes back has what was asked, and
//! nothing within the limits is refused. `STATES=62000 cargo test -p dewline-stdlib --test random_states -- --nocapture`
//! asks more of them; so many were asked once, and every one held.

use dewline_stdlib::refrigerant::{Limit, MixedState, Phase, PropertyError, Refrigerant};
use uom::si::available_energy::joule_per_kilogram;
use uom::si::f64::{AvailableEnergy, Pressure, SpecificHeatCapacity, ThermodynamicTemperature};
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::specific_heat_capacity::joule_per_kilogram_kelvin;
use uom::si::thermodynamic_temperature::kelvin;

/// Numbers between 0 and 1 from a seed (a linear congruence of Knuth's).
struct Random(u64);

impl Random {
    fn next(&mut self) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 11) as f64 / (1u64 << 53) as f64
    }

    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.next()
    }
}

fn count(usual: usize) -> usize {
    std::env::var("STATES").ok().and_then(|text| text.parse().ok()).unwrap_or(usual)
}

/// A state of one phase asked again by its temperature; of two phases, its share of vapor and what it says of itself.
fn fault(r: &Refrigerant, p: Pressure, asked: (f64, f64), by_entropy: bool, found: &MixedState) -> Option<String> {
    let (value, scale) = asked;
    let of = |h: AvailableEnergy, s: SpecificHeatCapacity| {
        if by_entropy { s.get::<joule_per_kilogram_kelvin>() } else { h.get::<joule_per_kilogram>() }
    };
    let own = (of(found.enthalpy, found.entropy) - value).abs() / scale;
    if own > 1e-9 {
        return Some(format!("is {own:.1e} from what was asked"));
    }
    match (found.phase, found.quality.map(|q| q.get::<ratio>())) {
        (Phase::TwoPhase, Some(quality)) if (0.0..=1.0).contains(&quality) => None,
        (Phase::TwoPhase, quality) => Some(format!("has a share of {quality:?} as vapor")),
        // On a line, pressure and temperature do not settle a state.
        _ => match r.state(p, found.temperature) {
            Ok((phase, again)) => {
                let apart = (of(again.enthalpy, again.entropy) - value).abs() / scale;
                (apart > 1e-7 || phase != found.phase).then(|| format!("is {apart:.1e} off when asked again"))
            }
            Err(PropertyError::InsideDome { bubble, dew, .. }) => {
                let t = found.temperature.get::<kelvin>();
                let off = (t / bubble - 1.0).abs().min((t / dew - 1.0).abs());
                (off > 1e-5).then(|| format!("lies between the lines at {t} K"))
            }
            Err(error) => Some(format!("cannot be asked again: {error}")),
        },
    }
}

/// Over all refrigerants, pressures from 5 kPa to the highest of the equations and all enthalpies from the coldest liquid to
/// the hottest vapor.
#[test]
fn what_comes_back_is_what_was_asked() {
    let all: Vec<Refrigerant> = Refrigerant::all().filter_map(Result::ok).collect();
    let mut random = Random(20_261_201);
    let (mut faults, mut refused, mut answered) = (Vec::new(), Vec::new(), 0);
    for k in 0..count(6_000) {
        let r = &all[k % all.len()];
        let limits = r.limits();
        let (cold, hot) = (limits.lowest_temperature.get::<kelvin>(), limits.highest_temperature.get::<kelvin>());
        let (least, most) = (5e3f64, limits.highest_pressure.get::<pascal>().min(2e7));
        let p = Pressure::new::<pascal>(random.between(least.ln(), most.ln()).exp());
        let at = |t: f64| r.state(p, ThermodynamicTemperature::new::<kelvin>(t)).map(|(_, state)| state);
        let (Ok(top), Ok(bottom)) = (at(hot), r.saturated_liquid_at_temperature(r.bubble_range().lowest_temperature))
        else {
            continue;
        };
        let by_entropy = random.next() < 0.3;
        let (low, high) = if by_entropy {
            (bottom.entropy.get::<joule_per_kilogram_kelvin>(), top.entropy.get::<joule_per_kilogram_kelvin>())
        } else {
            (bottom.enthalpy.get::<joule_per_kilogram>(), top.enthalpy.get::<joule_per_kilogram>())
        };
        let value = random.between(low, high);
        let found = if by_entropy {
            r.state_with_entropy(p, SpecificHeatCapacity::new::<joule_per_kilogram_kelvin>(value))
        } else {
            r.state_with_enthalpy(p, AvailableEnergy::new::<joule_per_kilogram>(value))
        };
        let what = if by_entropy { "entropy" } else { "enthalpy" };
        let said = || format!("{} {:.6e} Pa, {what} {value:.8e}", r.designation(), p.get::<pascal>());
        match found {
            Ok(found) => {
                answered += 1;
                if let Some(fault) = fault(r, p, (value, high - low), by_entropy, &found) {
                    faults.push(format!("{}: {found:?} {fault}", said()));
                }
            }
            // Colder than the equations begin: below the coldest state at this pressure.
            Err(PropertyError::OutOfRange { limit: Limit::Lowest, .. }) => {}
            Err(error) => match at(cold) {
                Ok(coldest)
                    if value
                        < if by_entropy {
                            coldest.entropy.get::<joule_per_kilogram_kelvin>()
                        } else {
                            coldest.enthalpy.get::<joule_per_kilogram>()
                        } => {}
                _ => refused.push(format!("{}: {error}", said())),
            },
        }
    }
    println!("{answered} answered, {} wrong, {} refused", faults.len(), refused.len());
    assert!(faults.is_empty(), "{} wrong of {answered}:\n{}", faults.len(), faults.join("\n"));
    assert!(refused.is_empty(), "{} refused beside {answered}:\n{}", refused.len(), refused.join("\n"));
}

/// About the critical point and above it: every state that is told by pressure and temperature comes back from its enthalpy
/// and its entropy.
#[test]
fn about_the_critical_point() {
    let mut random = Random(8_033);
    let (mut faults, mut tried) = (Vec::new(), 0);
    for k in 0..count(3_000) {
        let name = ["R-744", "R-32", "R-410A", "R-454B", "R-125", "R-448A"][k % 6];
        let Ok(r) = Refrigerant::find(name) else { continue };
        let critical = r.critical_point();
        let hottest = 1.3f64.min(r.limits().highest_temperature.get::<kelvin>() / critical.temperature.get::<kelvin>());
        // As often within a hundredth as all around.
        let near = random.next() < 0.5;
        let (t, p) = if near {
            (random.between(0.99, 1.01), random.between(0.99, 1.03))
        } else {
            (random.between(0.9, hottest), random.between(0.8, 3.0))
        };
        let t = ThermodynamicTemperature::new::<kelvin>(t * critical.temperature.get::<kelvin>());
        let p = Pressure::new::<pascal>(p * critical.pressure.get::<pascal>());
        let Ok((_, state)) = r.state(p, t) else { continue };
        tried += 1;
        let scale = 1e5;
        for (by_entropy, value, found) in [
            (false, state.enthalpy.get::<joule_per_kilogram>(), r.state_with_enthalpy(p, state.enthalpy)),
            (true, state.entropy.get::<joule_per_kilogram_kelvin>(), r.state_with_entropy(p, state.entropy)),
        ] {
            let said = format!("{name} {:.7e} Pa {:.4} K", p.get::<pascal>(), t.get::<kelvin>());
            match found {
                Ok(found) => {
                    let scale = if by_entropy { scale / t.get::<kelvin>() } else { scale };
                    if let Some(fault) = fault(&r, p, (value, scale), by_entropy, &found) {
                        faults.push(format!("{said}: {fault}"));
                    }
                }
                Err(error) => faults.push(format!("{said}: {error}")),
            }
        }
    }
    println!("{tried} states tried, {} not told", faults.len());
    assert!(tried > count(3_000) / 2, "{tried}");
    assert!(faults.is_empty(), "{} of {tried}:\n{}", faults.len(), faults.join("\n"));
}
