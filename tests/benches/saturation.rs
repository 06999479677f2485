//! Saturation by the library's own interface: 2048 random inputs a pass.
//!
//! `tests/reference/saturation_speed.py` times a general-purpose library at the same inputs.

#![allow(missing_docs, reason = "criterion's macros declare undocumented functions")]

use std::hint::black_box;

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use dewline_stdlib::refrigerant::Refrigerant;
use uom::si::f64::{Pressure, ThermodynamicTemperature};
use uom::si::pressure::pascal;
use uom::si::thermodynamic_temperature::kelvin;

const COUNT: u32 = 2048;

/// Evenly spread over 0 … 1 without order (the golden section's multiples).
fn spread() -> impl Iterator<Item = f64> {
    (0..COUNT).map(|k| (f64::from(k) * 0.618_033_988_749_894_9).fract())
}

fn saturation(criterion: &mut Criterion) {
    for name in ["R-32", "R-410A", "R-454B"] {
        let Ok(r) = Refrigerant::find(name) else { continue };
        let mut group = criterion.benchmark_group(name);
        group.throughput(Throughput::Elements(u64::from(COUNT)));
        // From 200 kPa to 97 % of the line's end, and the temperatures that go with them.
        let range = r.dew_range();
        let (low, high) = (200e3, 0.97 * range.highest_pressure.get::<pascal>());
        let pressures: Vec<Pressure> = spread().map(|x| Pressure::new::<pascal>(low * (high / low).powf(x))).collect();
        group.bench_function("dew temperature of pressure", |bencher| {
            bencher.iter(|| {
                pressures.iter().map(|&p| r.dew_temperature(black_box(p)).map_or(0.0, |t| t.value)).sum::<f64>()
            });
        });
        let ends = [low, high].map(|p| r.dew_temperature(Pressure::new::<pascal>(p)));
        let [Ok(cold), Ok(hot)] = ends else { continue };
        let (cold, hot) = (cold.get::<kelvin>(), hot.get::<kelvin>());
        let temperatures: Vec<ThermodynamicTemperature> =
            spread().map(|x| ThermodynamicTemperature::new::<kelvin>(cold + (hot - cold) * x)).collect();
        group.bench_function("dew pressure of temperature", |bencher| {
            bencher.iter(|| {
                temperatures.iter().map(|&t| r.dew_pressure(black_box(t)).map_or(0.0, |p| p.value)).sum::<f64>()
            });
        });
        group.bench_function("one after the other", |bencher| {
            // Each input waits for the answer before: what one call takes by itself.
            bencher.iter(|| {
                pressures.iter().fold(0.0, |before: f64, &p| {
                    let p = Pressure { value: p.value + before * 1e-30, ..p };
                    r.dew_temperature(p).map_or(0.0, |t| t.value)
                })
            });
        });
        group.bench_function("saturated vapor of temperature", |bencher| {
            bencher.iter(|| {
                let states = temperatures.iter().map(|&t| r.saturated_vapor_at_temperature(black_box(t)));
                states.map(|state| state.map_or(0.0, |state| state.enthalpy.value)).sum::<f64>()
            });
        });
        group.finish();
    }
}

criterion_group!(benches, saturation);
criterion_main!(benches);
