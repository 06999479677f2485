//! Viscosity by published correlations.

mod background;
mod carbon_dioxide;
mod entropy_scaling;

use serde::Deserialize;

use crate::helmholtz::Model;
use crate::helmholtz::data_file::{DataError, PublicationEntry};
use crate::helmholtz::equation::Publication;
use background::Background;
use entropy_scaling::EntropyScaling;

/// Correlations by the designation of the fluid or blend.
static CORRELATIONS: [(&str, &str); 23] = [
    ("R-123", include_str!("../../data/viscosity/r-123_tanaka_sotani_1996.json")),
    ("R-1234yf", include_str!("../../data/viscosity/r-1234yf_bell_laesecke_2016.json")),
    ("R-1234ze(E)", include_str!("../../data/viscosity/r-1234zee_bell_laesecke_2016.json")),
    ("R-124", include_str!("../../data/viscosity/r-124_bell_laesecke_2016.json")),
    ("R-125", include_str!("../../data/viscosity/r-125_huber_laesecke_2006.json")),
    ("R-134a", include_str!("../../data/viscosity/r-134a_huber_laesecke_perkins_2003.json")),
    ("R-152a", include_str!("../../data/viscosity/r-152a_bell_laesecke_2016.json")),
    ("R-22", include_str!("../../data/viscosity/r-22_bell_laesecke_2016.json")),
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
    ("air", include_str!("../../data/viscosity/air_lemmon_jacobsen_2004.json")),
];

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
}

#[derive(Deserialize)]
#[serde(tag = "form", rename_all = "snake_case")]
enum FileForm {
    Background(Background),
    EntropyScaling(EntropyScaling),
    CarbonDioxide {},
}

#[derive(Deserialize)]
struct File {
    publication: PublicationEntry,
    #[serde(flatten)]
    form: FileForm,
}

/// The correlation for a fluid or blend of this designation; `None` where none is built in.
pub fn viscosity(designation: &str) -> Option<Result<Viscosity, DataError>> {
    let (_, text) = CORRELATIONS.iter().find(|(name, _)| *name == designation)?;
    let file: Result<File, _> = serde_json::from_str(text);
    Some(file.map_err(|error| DataError(error.to_string())).map(|file| Viscosity {
        publication: file.publication.into(),
        form: match file.form {
            FileForm::Background(form) => Form::Background(form),
            FileForm::EntropyScaling(form) => Form::EntropyScaling(form),
            FileForm::CarbonDioxide {} => Form::CarbonDioxide,
        },
    }))
}

impl Viscosity {
    /// Viscosity (Pa s) at temperature `t` (K) and density `rho` (mol/m³) of the fluid's model.
    pub fn value(&self, model: &Model, t: f64, rho: f64) -> f64 {
        match &self.form {
            Form::Background(form) => form.value(t, rho),
            Form::EntropyScaling(form) => form.value(model, t, rho),
            Form::CarbonDioxide => carbon_dioxide::value(t, rho * model.molar_mass),
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
