//! Viscosity of carbon dioxide (Laesecke & Muzny 2017, eqs. 4, 5 and 9).

const A: [f64; 7] = [
    1_749.354_893_188_35,
    -369.069_300_007_128,
    5_423_856.348_876_91,
    -2.212_838_521_683_56,
    -269_503.247_933_569,
    73_145.021_531_826,
    5.343_686_495_092_78,
];
/// Of the initial-density part, as for a Lennard-Jones fluid.
const B: [(f64, f64); 9] = [
    (-19.572_881, 0.0),
    (219.739_99, -0.25),
    (-1_015.322_6, -0.5),
    (2_471.012_5, -0.75),
    (-3_375.171_7, -1.0),
    (2_491.659_7, -1.25),
    (-787.260_86, -1.5),
    (14.085_455, -2.5),
    (-0.346_641_58, -5.5),
];
const ENERGY: f64 = 200.760;
const SIZE: f64 = 3.784_21e-10;
const AVOGADRO: f64 = 6.022_140_857e23;
const GAS_CONSTANT: f64 = 8.314_459_8;
const MOLAR_MASS: f64 = 0.044_009_5;
const TRIPLE_TEMPERATURE: f64 = 216.592;
const TRIPLE_DENSITY: f64 = 1_178.53;
const C: (f64, f64) = (0.360_603_235_428_487, 0.121_550_806_591_497);
const GAMMA: f64 = 8.062_827_374_812_77;

/// η (Pa s) at `t` (K) and `rho` (kg/m³).
pub fn value(t: f64, rho: f64) -> f64 {
    let sixth = libm::cbrt(t.sqrt());
    let third = libm::cbrt(t);
    let below = A[0]
        + A[1] * sixth
        + A[2] * libm::exp(A[3] * third)
        + (A[4] + A[5] * third) / libm::exp(third)
        + A[6] * t.sqrt();
    let dilute = 1e-3 * 1.0055 * t.sqrt() / below;
    let second: f64 = B.iter().map(|&(b, n)| b * libm::pow(t / ENERGY, n)).sum();
    let second = second * SIZE * SIZE * SIZE * AVOGADRO / MOLAR_MASS;

    let scale = libm::pow(TRIPLE_DENSITY, 2.0 / 3.0) * (GAS_CONSTANT * TRIPLE_TEMPERATURE).sqrt()
        / (libm::pow(MOLAR_MASS, 1.0 / 6.0) * libm::cbrt(AVOGADRO));
    let reduced = rho / TRIPLE_DENSITY;
    let warm = t / TRIPLE_TEMPERATURE;
    let dense =
        C.0 * warm * reduced * reduced * reduced + (reduced * reduced + libm::pow(reduced, GAMMA)) / (warm - C.1);
    dilute * (1.0 + second * rho) + scale * dense
}
