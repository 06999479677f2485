//! The coefficient files built into the program, read when first asked for.
//!
#![doc = include_str!("../../data/README.md")]

use std::sync::{Arc, OnceLock};

use super::Equation;
use super::data_file::{self, DataError, PairBook};

/// Equations of pure fluids, and the pseudo-pure one of air, by designation.
static EQUATIONS: [(&str, &str); 39] = [
    ("R-1123", include_str!("../../data/equations/r-1123_akasaka_and_others_2020.json")),
    ("R-1130(E)", include_str!("../../data/equations/r-1130e_huber_kazakov_lemmon_2025.json")),
    ("R-1132(E)", include_str!("../../data/equations/r-1132e_akasaka_lemmon_2024.json")),
    ("R-123", include_str!("../../data/equations/r-123_younglove_1994.json")),
    ("R-1233zd(E)", include_str!("../../data/equations/r-1233zde_akasaka_lemmon_2022.json")),
    ("R-1234yf", include_str!("../../data/equations/r-1234yf_lemmon_akasaka_2022.json")),
    ("R-1234ze(E)", include_str!("../../data/equations/r-1234zee_thol_lemmon_2016.json")),
    ("R-124", include_str!("../../data/equations/r-124_de_vries_tillner-roth_baehr_1995.json")),
    ("R-1243zf", include_str!("../../data/equations/r-1243zf_akasaka_lemmon_2025.json")),
    ("R-125", include_str!("../../data/equations/r-125_lemmon_jacobsen_2005.json")),
    ("R-1270", include_str!("../../data/equations/r-1270_lemmon_and_others_2010.json")),
    ("R-1336mzz(E)", include_str!("../../data/equations/r-1336mzze_akasaka_and_others_2023.json")),
    ("R-1336mzz(Z)", include_str!("../../data/equations/r-1336mzzz_mclinden_akasaka_2020.json")),
    ("R-134a", include_str!("../../data/equations/r-134a_tillner-roth_baehr_1994.json")),
    ("R-13I1", include_str!("../../data/equations/r-13i1_lemmon_span_2016.json")),
    ("R-142b", include_str!("../../data/equations/r-142b_lemmon_span_2006.json")),
    ("R-143a", include_str!("../../data/equations/r-143a_lemmon_jacobsen_2000.json")),
    ("R-152a", include_str!("../../data/equations/r-152a_outcalt_mclinden_1996.json")),
    ("R-218", include_str!("../../data/equations/r-218_lemmon_span_2006.json")),
    ("R-22", include_str!("../../data/equations/r-22_kamei_beyerlein_jacobsen_1995.json")),
    ("R-227ea", include_str!("../../data/equations/r-227ea_lemmon_span_2016.json")),
    ("R-23", include_str!("../../data/equations/r-23_penoncello_and_others_2003.json")),
    ("R-236ea", include_str!("../../data/equations/r-236ea_rui_pan_wang_2013.json")),
    ("R-236fa", include_str!("../../data/equations/r-236fa_pan_and_others_2012.json")),
    ("R-245fa", include_str!("../../data/equations/r-245fa_akasaka_zhou_lemmon_2015.json")),
    ("R-290", include_str!("../../data/equations/r-290_lemmon_mclinden_wagner_2009.json")),
    ("R-32", include_str!("../../data/equations/r-32_tillner-roth_yokozeki_1997.json")),
    ("R-600", include_str!("../../data/equations/r-600_buecker_wagner_2006.json")),
    ("R-600a", include_str!("../../data/equations/r-600a_buecker_wagner_2006.json")),
    ("R-601a", include_str!("../../data/equations/r-601a_lemmon_span_2006.json")),
    ("R-704", include_str!("../../data/equations/r-704_ortiz-vega_and_others_2019.json")),
    ("R-717", include_str!("../../data/equations/r-717_gao_and_others_2023.json")),
    ("R-718", include_str!("../../data/equations/r-718_wagner_pruss_2002.json")),
    ("R-728", include_str!("../../data/equations/r-728_span_and_others_2000.json")),
    ("R-732", include_str!("../../data/equations/r-732_schmidt_wagner_1985.json")),
    ("R-740", include_str!("../../data/equations/r-740_tegeler_span_wagner_1999.json")),
    ("R-744", include_str!("../../data/equations/r-744_span_wagner_1996.json")),
    ("R-C318", include_str!("../../data/equations/r-c318_platzer_polt_maurer_1990.json")),
    ("air", include_str!("../../data/equations/air_lemmon_and_others_2000.json")),
];

/// Pseudo-pure equations of blends: a second check on the mixture model, not the answer.
static PSEUDO_PURE: [(&str, &str); 4] = [
    ("R-404A", include_str!("../../data/equations/r-404a_lemmon_2003.json")),
    ("R-407C", include_str!("../../data/equations/r-407c_lemmon_2003.json")),
    ("R-410A", include_str!("../../data/equations/r-410a_lemmon_2003.json")),
    ("R-507A", include_str!("../../data/equations/r-507a_lemmon_2003.json")),
];

/// Binary parameters, the book that wins first.
static PAIR_BOOKS: [&str; 9] = [
    include_str!("../../data/mixtures/akasaka_2014.json"),
    include_str!("../../data/mixtures/bell_2022.json"),
    include_str!("../../data/mixtures/bell_2023.json"),
    include_str!("../../data/mixtures/bell_2025.json"),
    include_str!("../../data/mixtures/bell_lemmon_2016.json"),
    include_str!("../../data/mixtures/bell_mclinden_2020.json"),
    include_str!("../../data/mixtures/kunz_wagner_2012.json"),
    include_str!("../../data/mixtures/lemmon_jacobsen_2004.json"),
    include_str!("../../data/mixtures/mclinden_and_others_2025.json"),
];

/// Designations of all fluids that have an equation.
pub fn fluids() -> impl Iterator<Item = &'static str> {
    EQUATIONS.iter().map(|(name, _)| *name)
}

/// The equation of a pure fluid, or of air.
///
/// `None` where no equation is built in.
pub fn equation(fluid: &str) -> Option<Result<Arc<Equation>, DataError>> {
    static READ: [OnceLock<Arc<Equation>>; EQUATIONS.len()] = [const { OnceLock::new() }; EQUATIONS.len()];
    let index = EQUATIONS.iter().position(|(name, _)| *name == fluid)?;
    if let Some(read) = READ[index].get() {
        return Some(Ok(read.clone()));
    }
    let read = data_file::equation(EQUATIONS[index].1).map(Arc::new);
    Some(read.map(|equation| READ[index].get_or_init(|| equation).clone()))
}

/// The file of a pure fluid's equation.
pub fn equation_text(fluid: &str) -> Option<&'static str> {
    EQUATIONS.iter().find(|(name, _)| *name == fluid).map(|(_, text)| *text)
}

/// The files of the binary parameters.
pub fn pair_book_texts() -> &'static [&'static str] {
    &PAIR_BOOKS
}

/// The pseudo-pure equation of a blend, where Lemmon 2003 gives one.
pub fn pseudo_pure_equation(blend: &str) -> Option<Result<Equation, DataError>> {
    let (_, text) = PSEUDO_PURE.iter().find(|(name, _)| *name == blend)?;
    Some(data_file::equation(text))
}

/// All binary parameters.
pub fn pair_books() -> Result<&'static [PairBook], DataError> {
    static READ: OnceLock<Vec<PairBook>> = OnceLock::new();
    if let Some(read) = READ.get() {
        return Ok(read);
    }
    let books: Result<Vec<_>, _> = PAIR_BOOKS.iter().map(|text| data_file::pair_book(text)).collect();
    let books = books?;
    Ok(READ.get_or_init(|| books))
}
