//! All refrigerants' saturation lines, in one file built into the program.

use super::bytes::{Reader, Writer};
use super::line::{FitErrors, SaturationLine};
use crate::helmholtz::Model;
use crate::helmholtz::envelope::{Envelope, Line};
use crate::helmholtz::trace::TraceError;

/// The saturation lines of one refrigerant, with what is needed to ask them within limits.
#[derive(Clone, Debug, PartialEq)]
pub struct Saturation {
    /// Of what the lines were made from.
    pub fingerprint: u64,
    /// kg/mol
    pub molar_mass: f64,
    /// T (K), p (Pa) and ρ (mol/m³).
    pub critical: (f64, f64, f64),
    /// Lowest and highest temperature (K) and highest pressure (Pa) of the equations.
    pub limits: FluidLimits,
    /// Boiling begins.
    pub bubble: SaturationLine,
    /// Condensation begins.
    pub dew: SaturationLine,
}

/// Limits of validity: the narrowest of the components'.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FluidLimits {
    /// K
    pub lowest_temperature: f64,
    /// K
    pub highest_temperature: f64,
    /// Pa
    pub highest_pressure: f64,
}

static ARCHIVE: &[u8] = include_bytes!("../../data/saturation.bin");

/// The lines of the refrigerant of this designation.
///
/// The archive begins with a directory, so that only the pages that hold these lines are touched.
pub fn saturation(designation: &str) -> Option<Saturation> {
    let mut archive = Reader::new(ARCHIVE);
    let mut before = 0;
    let mut wanted = None;
    for _ in 0..archive.unsigned()? {
        let name = archive.text()?;
        let length = archive.unsigned()? as usize;
        if name == designation {
            wanted = Some((before, length));
        }
        before += length;
    }
    let (before, length) = wanted?;
    archive.take(before)?;
    Saturation::read(&mut Reader::new(archive.take(length)?))
}

/// The archive of these refrigerants.
pub fn written<'a>(entries: impl Iterator<Item = (&'a str, &'a Saturation)>) -> Vec<u8> {
    let entries: Vec<(&str, Vec<u8>)> = entries
        .map(|(name, saturation)| {
            let mut writer = Writer::default();
            saturation.write(&mut writer);
            (name, writer.into_bytes())
        })
        .collect();
    let mut archive = Writer::default();
    archive.unsigned(entries.len() as u64);
    for (name, bytes) in &entries {
        archive.text(name);
        archive.unsigned(bytes.len() as u64);
    }
    entries.iter().for_each(|(_, bytes)| archive.bytes(bytes));
    archive.into_bytes()
}

impl Saturation {
    /// One of the lines.
    #[inline]
    pub fn line(&self, line: Line) -> &SaturationLine {
        match line {
            Line::Bubble => &self.bubble,
            Line::Dew => &self.dew,
        }
    }

    /// Makes the lines from the equations.
    pub fn made(model: &Model, fingerprint: u64) -> Result<(Self, FitErrors), TraceError> {
        let of = |pick: fn(&crate::helmholtz::equation::Limits) -> f64| {
            model.components().iter().map(move |c| pick(&c.limits))
        };
        let lowest = of(|l| l.lowest_temperature).fold(0.0, f64::max);
        // Traced a little beyond, since the last interval of a table may reach over its end.
        let envelope = Envelope::trace(model, BEYOND * lowest)?;
        let cold = |line| envelope.line(line).cold.temperature() / BEYOND;
        let lowest = lowest.max(cold(Line::Bubble)).max(cold(Line::Dew));
        let (bubble, a) = SaturationLine::fitted(&envelope, Line::Bubble, lowest);
        let (dew, b) = SaturationLine::fitted(&envelope, Line::Dew, lowest);
        let critical = envelope.critical();
        let made = Self {
            fingerprint,
            molar_mass: model.molar_mass,
            critical: (critical.temperature(), critical.pressure(), critical.density()),
            limits: FluidLimits {
                lowest_temperature: lowest,
                highest_temperature: of(|l| l.highest_temperature).fold(f64::INFINITY, f64::min),
                highest_pressure: of(|l| l.highest_pressure).fold(f64::INFINITY, f64::min),
            },
            bubble,
            dew,
        };
        let errors = FitErrors {
            temperature: a.temperature.max(b.temperature),
            pressure: a.pressure.max(b.pressure),
            density: a.density.max(b.density),
        };
        Ok((made, errors))
    }

    fn write(&self, writer: &mut Writer) {
        writer.unsigned(self.fingerprint);
        let (t, p, rho) = self.critical;
        let limits = &self.limits;
        let numbers = [
            self.molar_mass,
            t,
            p,
            rho,
            limits.lowest_temperature,
            limits.highest_temperature,
            limits.highest_pressure,
        ];
        numbers.into_iter().for_each(|number| writer.float(number));
        self.bubble.write(writer);
        self.dew.write(writer);
    }

    fn read(reader: &mut Reader) -> Option<Self> {
        let fingerprint = reader.unsigned()?;
        let molar_mass = reader.float()?;
        let critical = (reader.float()?, reader.float()?, reader.float()?);
        let limits = FluidLimits {
            lowest_temperature: reader.float()?,
            highest_temperature: reader.float()?,
            highest_pressure: reader.float()?,
        };
        let bubble = SaturationLine::read(reader)?;
        let dew = SaturationLine::read(reader)?;
        Some(Self { fingerprint, molar_mass, critical, limits, bubble, dew })
    }
}

/// Factor on the lowest temperature for tracing.
const BEYOND: f64 = 0.96;
