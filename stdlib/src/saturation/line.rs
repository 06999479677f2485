//! One saturation line: temperature, pressure and density of each other.

use super::bit_table::BitTable;
use super::bytes::{Reader, Writer};
use super::fit::{self, quantum_of};
use crate::helmholtz::curve::{Curve, LinePoint, NODES, Piece};
use crate::helmholtz::envelope::{Envelope, Line};

/// A tabulated line.
///
/// From the cold to the *seam* it is given by polynomials in T and p. From the seam to its end,
/// where T or p turns, by the curve T(S), p(S) itself, which turns without trouble.
#[derive(Clone, Debug, PartialEq)]
pub struct SaturationLine {
    /// Coldest point: T (K) and p (Pa).
    pub cold: (f64, f64),
    /// Its end: T (K) and p (Pa).
    pub end: (f64, f64),
    /// T (K) and p (Pa) where the tables end and the curve begins.
    seam: (f64, f64),
    /// T of p, below half of the end's pressure.
    temperature_far: BitTable,
    /// T of p_end − p, above it.
    temperature_near: BitTable,
    /// p of T_end − T.
    pressure: BitTable,
    /// ρ (mol/m³) of T_end − T.
    density: BitTable,
    /// The curve from the seam to the end.
    last: Curve,
    /// S at the seam and at the end.
    separations: (f64, f64),
}

/// Largest relative errors of a fitted line: of T(p), p(T) and ρ(T).
#[derive(Clone, Copy, Debug, Default)]
pub struct FitErrors {
    /// Of T(p).
    pub temperature: f64,
    /// Of p(T).
    pub pressure: f64,
    /// Of ρ(T).
    pub density: f64,
}

/// Lengths in S of the stretch from the seam to the end. The shortest will do, unless a line has
/// pressure all but stand still farther out, as that of R-452C has.
const LENGTHS: [f64; 3] = [0.25, 0.5, 1.0];
const TOLERANCE_TEMPERATURE: f64 = 5e-12;
const TOLERANCE_PRESSURE: f64 = 2e-11;
const TOLERANCE_DENSITY: f64 = 1e-10;

impl SaturationLine {
    /// Temperature (K) at pressure `p` (Pa) within the line.
    #[inline]
    pub fn temperature(&self, p: f64) -> f64 {
        if p < 0.5 * self.end.1 {
            self.temperature_far.value(p)
        } else if p < self.seam.1 {
            self.temperature_near.value(self.end.1 - p)
        } else {
            self.last_at(p, |point| point.pressure()).temperature()
        }
    }

    /// Pressure (Pa) at temperature `t` (K) within the line.
    #[inline]
    pub fn pressure(&self, t: f64) -> f64 {
        if t < self.seam.0 {
            self.pressure.value(self.end.0 - t)
        } else {
            self.last_at(t, |point| point.temperature()).pressure()
        }
    }

    /// dT/dp (K/Pa) at pressure `p` (Pa): the slope of what gives the temperature. Where p turns it has no bound.
    pub fn temperature_slope(&self, p: f64) -> f64 {
        if p < 0.5 * self.end.1 {
            self.temperature_far.slope(p)
        } else if p < self.seam.1 {
            -self.temperature_near.slope(self.end.1 - p)
        } else {
            let point = self.last_at(p, |point| point.pressure());
            let (by_temperature, by_pressure) = self.last.slopes(point.separation);
            by_temperature / by_pressure * point.temperature() / point.pressure()
        }
    }

    /// dp/dT (Pa/K) at temperature `t` (K). Where T turns it has no bound.
    pub fn pressure_slope(&self, t: f64) -> f64 {
        if t < self.seam.0 {
            -self.pressure.slope(self.end.0 - t)
        } else {
            let point = self.last_at(t, |point| point.temperature());
            let (by_temperature, by_pressure) = self.last.slopes(point.separation);
            by_pressure / by_temperature * point.pressure() / point.temperature()
        }
    }

    /// Density (mol/m³) of the phase at the nominal composition, at temperature `t` (K).
    #[inline]
    pub fn density(&self, t: f64) -> f64 {
        if t < self.seam.0 {
            self.density.value(self.end.0 - t)
        } else {
            self.last_at(t, |point| point.temperature()).density()
        }
    }

    /// Temperature (K) and density (mol/m³) at pressure `p` (Pa).
    pub fn at_pressure(&self, p: f64) -> (f64, f64) {
        if p < self.seam.1 {
            let t = self.temperature(p);
            (t, self.density(t))
        } else {
            let point = self.last_at(p, |point| point.pressure());
            (point.temperature(), point.density())
        }
    }

    #[cold]
    fn last_at(&self, target: f64, value: impl Fn(&LinePoint) -> f64) -> LinePoint {
        let (seam, end) = self.separations;
        self.last.find(seam, end, target, value)
    }

    /// Tabulates a traced line from `coldest` (K) on.
    pub fn fitted(envelope: &Envelope, line: Line, coldest: f64) -> (Self, FitErrors) {
        let mut fitted = Self::fitted_to(envelope, line, coldest, LENGTHS[0]);
        for length in &LENGTHS[1..] {
            let FitErrors { temperature, pressure, .. } = fitted.1;
            if temperature > TOLERANCE_TEMPERATURE || pressure > TOLERANCE_PRESSURE {
                fitted = Self::fitted_to(envelope, line, coldest, *length);
            }
        }
        fitted
    }

    fn fitted_to(envelope: &Envelope, line: Line, coldest: f64, length: f64) -> (Self, FitErrors) {
        let curve = envelope.curve();
        let end = envelope.line(line).end;
        let away = if line == Line::Bubble { length } else { -length };
        let seam = curve.at(end.separation + away);
        let beyond = if line == Line::Bubble { curve.highest() } else { curve.lowest() };
        let outer = curve.at(beyond);
        // Between the far cold and the end, beyond what the tables are asked for.
        let find =
            |target: f64, value: fn(&LinePoint) -> f64| curve.find(beyond, end.separation, libm::log(target), value);
        let at_t = |t: f64| find(t, |point| point.ln_temperature);
        let at_p = |p: f64| find(p, |point| point.ln_pressure);
        let (t_end, p_end) = (end.temperature(), end.pressure());
        let coldest = coldest.max(outer.temperature());
        let p_cold = at_t(coldest).pressure();

        let seam_t = t_end - seam.temperature();
        let seam_p = p_end - seam.pressure();
        let near = fit::fit(&|x| at_p(p_end - x).temperature(), seam_p, 0.5 * p_end, TOLERANCE_TEMPERATURE);
        let far = fit::fit(&|p| at_p(p).temperature(), p_cold, 0.5 * p_end, TOLERANCE_TEMPERATURE);
        let pressure = fit::fit(&|x| at_t(t_end - x).pressure(), seam_t, t_end - coldest, TOLERANCE_PRESSURE);
        let density = fit::fit(&|x| at_t(t_end - x).density(), seam_t, t_end - coldest, TOLERANCE_DENSITY);
        let errors =
            FitErrors { temperature: near.error.max(far.error), pressure: pressure.error, density: density.error };
        let (high, low) =
            if away > 0.0 { (seam.separation, end.separation) } else { (end.separation, seam.separation) };
        let last = curve.pieces().iter().filter(|piece| piece.low < high && piece.high > low);
        let last = Curve::new(last.cloned().collect()).unwrap_or_else(|| curve.clone());
        let tabulated = Self {
            cold: (coldest, p_cold),
            end: (t_end, p_end),
            seam: (seam.temperature(), seam.pressure()),
            temperature_far: far.table,
            temperature_near: near.table,
            pressure: pressure.table,
            density: density.table,
            last,
            separations: (seam.separation, end.separation),
        };
        (tabulated, errors)
    }

    /// Writes the line.
    pub fn write(&self, writer: &mut Writer) {
        for pair in [self.cold, self.end, self.seam, self.separations] {
            writer.float(pair.0);
            writer.float(pair.1);
        }
        for table in [&self.temperature_far, &self.temperature_near, &self.pressure, &self.density] {
            write_table(writer, table);
        }
        writer.unsigned(self.last.pieces().len() as u64);
        for piece in self.last.pieces() {
            writer.float(piece.high);
            writer.float(piece.low);
            piece.coefficients.iter().flatten().for_each(|&c| writer.float(c));
        }
    }

    /// Reads what [`Self::write`] wrote.
    pub fn read(reader: &mut Reader) -> Option<Self> {
        let mut pair = || Some((reader.float()?, reader.float()?));
        let (cold, end, seam, separations) = (pair()?, pair()?, pair()?, pair()?);
        let mut table = || read_table(reader);
        let [temperature_far, temperature_near, pressure, density] = [table()?, table()?, table()?, table()?];
        let count = reader.unsigned()?;
        let mut pieces = Vec::new();
        for _ in 0..count {
            let (high, low) = (reader.float()?, reader.float()?);
            let mut coefficients = [[0.0; 3]; NODES];
            for c in coefficients.iter_mut().flatten() {
                *c = reader.float()?;
            }
            pieces.push(Piece { high, low, coefficients });
        }
        let last = Curve::new(pieces)?;
        Some(Self { cold, end, seam, temperature_far, temperature_near, pressure, density, last, separations })
    }
}

fn write_table(writer: &mut Writer, table: &BitTable) {
    writer.unsigned(u64::from(table.lowest_exponent));
    writer.unsigned(table.octaves.len() as u64);
    for octave in &table.octaves {
        writer.unsigned(u64::from(octave.bits));
        writer.signed(i64::from(octave.first));
    }
    writer.unsigned(table.polynomials.len() as u64);
    for polynomial in &table.polynomials {
        let (_, exponent) = libm::frexp(polynomial[0]);
        writer.signed(i64::from(exponent));
        let quantum = quantum_of(polynomial[0]);
        polynomial.iter().for_each(|c| writer.signed((c / quantum) as i64));
    }
}

fn read_table(reader: &mut Reader) -> Option<BitTable> {
    let lowest_exponent = u32::try_from(reader.unsigned()?).ok()?;
    let count = reader.unsigned()?;
    let mut octaves = Vec::new();
    for _ in 0..count {
        let bits = u32::try_from(reader.unsigned()?).ok()?;
        let first = i32::try_from(reader.signed()?).ok()?;
        octaves.push(super::bit_table::Octave { bits, first });
    }
    let count = reader.unsigned()?;
    let mut polynomials = Vec::with_capacity(count.min(1 << 16) as usize);
    for _ in 0..count {
        let exponent = i32::try_from(reader.signed()?).ok()?;
        let quantum = libm::ldexp(fit::QUANTUM, exponent);
        let mut polynomial = [0.0; super::bit_table::TERMS];
        for c in &mut polynomial {
            *c = reader.signed()? as f64 * quantum;
        }
        polynomials.push(polynomial);
    }
    Some(BitTable { lowest_exponent, octaves, polynomials })
}
