//! Viscosity: correlations published for a fluid or blend, and for other blends an estimate from their components.

mod background;
pub mod blend;
mod carbon_dioxide;
mod corresponding_states;
mod entropy_scaling;
mod free_energy;

use serde::Deserialize;

use crate::helmholtz::Model;
use crate::helmholtz::data_file::{DataError, PublicationEntry};
use crate::helmholtz::equation::Publication;
use background::Background;
use corresponding_states::CorrespondingStates;
use entropy_scaling::EntropyScaling;
use free_energy::FreeEnergy;

/// Correlations by the designation of the fluid or blend.
static CORRELATIONS: [(&str, &str); 32] = [
    ("R-123", include_str!("../../data/viscosity/r-123_tanaka_sotani_1996.json")),
    ("R-1234yf", include_str!("../../data/viscosity/r-1234yf_bell_laesecke_2016.json")),
    ("R-1234ze(E)", include_str!("../../data/viscosity/r-1234zee_bell_laesecke_2016.json")),
    ("R-124", include_str!("../../data/viscosity/r-124_bell_laesecke_2016.json")),
    ("R-125", include_str!("../../data/viscosity/r-125_huber_laesecke_2006.json")),
    ("R-1270", include_str!("../../data/viscosity/r-1270_huber_laesecke_perkins_2003.json")),
    ("R-134a", include_str!("../../data/viscosity/r-134a_huber_laesecke_perkins_2003.json")),
    ("R-142b", include_str!("../../data/viscosity/r-142b_huber_laesecke_perkins_2003.json")),
    ("R-143a", include_str!("../../data/viscosity/r-143a_klein_mclinden_laesecke_1997.json")),
    ("R-152a", include_str!("../../data/viscosity/r-152a_bell_laesecke_2016.json")),
    ("R-218", include_str!("../../data/viscosity/r-218_huber_laesecke_perkins_2003.json")),
    ("R-22", include_str!("../../data/viscosity/r-22_bell_laesecke_2016.json")),
    ("R-227ea", include_str!("../../data/viscosity/r-227ea_huber_laesecke_perkins_2003.json")),
    ("R-23", include_str!("../../data/viscosity/r-23_shan_penoncello_jacobsen_2000.json")),
    ("R-236ea", include_str!("../../data/viscosity/r-236ea_huber_laesecke_perkins_2003.json")),
    ("R-236fa", include_str!("../../data/viscosity/r-236fa_huber_laesecke_perkins_2003.json")),
    ("R-245fa", include_str!("../../data/viscosity/r-245fa_bell_laesecke_2016.json")),
    ("R-290", include_str!("../../data/viscosity/r-290_vogel_and_others_1998.json")),
    ("R-32", include_str!("../../data/viscosity/r-32_bell_laesecke_2016.json")),
    ("R-404A", include_str!("../../data/viscosity/r-404a_geller_2000.json")),
    ("R-407C", include_str!("../../data/viscosity/r-407c_geller_2000.json")),
    ("R-410A", include_str!("../../data/viscosity/r-410a_geller_2000.json")),
    ("R-507A", include_str!("../../data/viscosity/r-507a_geller_2000.json")),
    ("R-600", include_str!("../../data/viscosity/r-600_vogel_kuechenmeister_bich_1999.json")),
    ("R-600a", include_str!("../../data/viscosity/r-600a_vogel_kuechenmeister_bich_2000.json")),
    ("R-717", include_str!("../../data/viscosity/r-717_fenghour_and_others_1995.json")),
    ("R-728", include_str!("../../data/viscosity/r-728_lemmon_jacobsen_2004.json")),
    ("R-732", include_str!("../../data/viscosity/r-732_lemmon_jacobsen_2004.json")),
    ("R-740", include_str!("../../data/viscosity/r-740_lemmon_jacobsen_2004.json")),
    ("R-744", include_str!("../../data/viscosity/r-744_laesecke_muzny_2017.json")),
    ("R-C318", include_str!("../../data/viscosity/r-c318_huber_laesecke_perkins_2003.json")),
    ("air", include_str!("../../data/viscosity/air_lemmon_jacobsen_2004.json")),
];

/// How the viscosity of a refrigerant is found.
#[derive(Debug)]
pub enum Source {
    /// By a correlation published for it.
    Published(Box<Viscosity>),
    /// Estimated from the correlations of its components.
    Estimated(Vec<blend::Part>),
}

impl Source {
    /// The way for a refrigerant of this designation and model; why there is none, in words.
    pub fn of(designation: &str, model: &Model) -> Result<Self, String> {
        match published(designation) {
            Some(found) => found.map(|found| Self::Published(Box::new(found))).map_err(|error| error.0),
            None if model.count() > 1 => blend::parts(model).map(Self::Estimated).map_err(|reason| {
                format!("the viscosity of {designation} can be neither taken from a paper nor estimated: {reason}")
            }),
            None => Err(format!("no published viscosity correlation for {designation} is built in")),
        }
    }

    /// Viscosity (Pa s) at temperature `t` (K) and density `rho` (mol/m³) of `model`; `None` where the way leads nowhere.
    pub fn value(&self, model: &Model, t: f64, rho: f64) -> Option<f64> {
        let value = match self {
            Self::Published(viscosity) => viscosity.value(model, t, rho),
            Self::Estimated(parts) => blend::value(parts, model, t, rho),
        };
        (value.is_finite() && value > 0.0).then_some(value)
    }
}

/// A viscosity correlation of one fluid.
#[derive(Debug)]
pub struct Viscosity {
    /// Where it was published.
    pub publication: Publication,
    form: Form,
}

#[derive(Debug)]
enum Form {
    Background(Background),
    EntropyScaling(EntropyScaling),
    CarbonDioxide,
    CorrespondingStates(Box<CorrespondingStates>),
    FreeEnergy(FreeEnergy),
}

#[derive(Deserialize)]
#[serde(tag = "form", rename_all = "snake_case")]
enum FileForm {
    Background(Background),
    EntropyScaling(EntropyScaling),
    CarbonDioxide {},
    CorrespondingStates(corresponding_states::Published),
    FreeEnergy(FreeEnergy),
}

#[derive(Deserialize)]
struct File {
    publication: PublicationEntry,
    #[serde(flatten)]
    form: FileForm,
}

/// The correlation published for a fluid or blend of this designation; `None` where none is built in.
pub fn published(designation: &str) -> Option<Result<Viscosity, DataError>> {
    let (_, text) = CORRELATIONS.iter().find(|(name, _)| *name == designation)?;
    Some(read(text))
}

fn read(text: &str) -> Result<Viscosity, DataError> {
    let file: File = serde_json::from_str(text).map_err(|error| DataError(error.to_string()))?;
    let form = match file.form {
        FileForm::Background(form) => Form::Background(form),
        FileForm::EntropyScaling(form) => Form::EntropyScaling(form),
        FileForm::CarbonDioxide {} => Form::CarbonDioxide,
        FileForm::CorrespondingStates(form) => {
            Form::CorrespondingStates(Box::new(CorrespondingStates::new(form).map_err(DataError)?))
        }
        FileForm::FreeEnergy(form) => Form::FreeEnergy(form),
    };
    Ok(Viscosity { publication: file.publication.into(), form })
}

impl Viscosity {
    /// Viscosity (Pa s) at temperature `t` (K) and density `rho` (mol/m³) of the fluid's model.
    pub fn value(&self, model: &Model, t: f64, rho: f64) -> f64 {
        match &self.form {
            Form::Background(form) => form.value(t, rho),
            Form::EntropyScaling(form) => form.value(model, t, rho),
            Form::CarbonDioxide => carbon_dioxide::value(t, rho * model.molar_mass),
            Form::CorrespondingStates(form) => form.dilute(model, t) + form.dense(model, t, rho),
            Form::FreeEnergy(form) => form.value(t, rho),
        }
    }

    /// Viscosity (Pa s) of the dilute gas at temperature `t` (K).
    pub fn dilute(&self, model: &Model, t: f64) -> f64 {
        match &self.form {
            Form::CorrespondingStates(form) => form.dilute(model, t),
            Form::FreeEnergy(form) => form.dilute(t),
            _ => self.value(model, t, 0.0),
        }
    }

    /// What the density adds to the dilute gas.
    pub fn dense(&self, model: &Model, t: f64, rho: f64) -> f64 {
        match &self.form {
            Form::CorrespondingStates(form) => form.dense(model, t, rho),
            _ => self.value(model, t, rho) - self.dilute(model, t),
        }
    }
}

/// The collision integral of the Lennard-Jones potential at reduced temperature T* = kT/ε
/// (Neufeld, Janzen & Aziz 1972).
fn collision_integral(t: f64) -> f64 {
    1.16145 * libm::exp(-0.14874 * libm::log(t)) + 0.52487 * libm::exp(-0.77320 * t) + 2.16178 * libm::exp(-2.43787 * t)
}

/// Viscosity (Pa s) of a dilute gas of Lennard-Jones molecules of size `sigma` (m) and energy
/// ε/k `epsilon` (K), molar mass `mass` (kg/mol), by the kinetic theory of Chapman and Enskog.
fn dilute_gas(t: f64, mass: f64, sigma: f64, epsilon: f64) -> f64 {
    let sigma = sigma * 1e9;
    26.692e-9 * (mass * 1e3 * t).sqrt() / (sigma * sigma * collision_integral(t / epsilon))
}
