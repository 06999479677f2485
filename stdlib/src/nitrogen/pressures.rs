//! How high a pressure test goes, and in which steps.

use crate::said::said;
use uom::si::f64::Pressure;
use uom::si::pressure::{kilopascal, pascal};

/// Whose rule the test follows; never mixed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Route {
    /// ASHRAE 15: not less than the lower of design pressure and relief setting.
    Ashrae15,
    /// EN 378-2: piping made on site.
    En378,
    /// ISO 5149-2: the same.
    Iso5149,
    /// ASME B31.5, pneumatic.
    B315,
}

/// No part of a system sees more than this share of its own design pressure: ASME B31.5, 538.4.2.
pub const MOST_OF_DESIGN: f64 = 1.3;

impl Route {
    /// As sheets name them.
    pub const NAMES: &'static [&'static str] = &["ASHRAE 15", "EN 378-2", "ISO 5149-2", "ASME B31.5"];

    /// The route of a name of [`Self::NAMES`].
    pub fn named(name: &str) -> Route {
        match name {
            "EN 378-2" => Route::En378,
            "ISO 5149-2" => Route::Iso5149,
            "ASME B31.5" => Route::B315,
            _ => Route::Ashrae15,
        }
    }

    /// Least test pressure as a share of the design pressure: from memory.
    pub fn factor(self) -> f64 {
        match self {
            Route::Ashrae15 => 1.0,
            Route::En378 | Route::Iso5149 | Route::B315 => 1.1,
        }
    }
}

/// What bounds a test; all above the atmosphere.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bounds {
    /// Design pressure of the side.
    pub design: Pressure,
    /// Share of it that is aimed at.
    pub factor: f64,
    /// Rating of the weakest part that stays connected.
    pub weakest: Pressure,
    /// Setting of the relief device on the charging line, if there is one.
    pub relief: Option<Pressure>,
    /// The least design pressure of any part that stays connected.
    pub least_design: Pressure,
}

/// What governs the final pressure.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Governs {
    /// The pressure aimed at.
    Aim,
    /// The weakest part.
    Weakest,
    /// The relief device.
    Relief,
    /// 1.3 times a part's design pressure.
    PartsDesign,
}

said! {
    Governs {
        Governs::Aim => "factor times design pressure",
        Governs::Weakest => "rating of the weakest part",
        Governs::Relief => "setting of the relief device",
        Governs::PartsDesign => "1.3 times the design pressure of a part",
    }
}

/// The final pressure above the atmosphere, and what governs it.
pub fn final_pressure(bounds: &Bounds) -> (Pressure, Governs) {
    let mut found = (bounds.design * bounds.factor, Governs::Aim);
    let others = [
        (Some(bounds.weakest), Governs::Weakest),
        (bounds.relief, Governs::Relief),
        (Some(bounds.least_design * MOST_OF_DESIGN), Governs::PartsDesign),
    ];
    for (limit, governs) in others {
        if let Some(limit) = limit.filter(|limit| *limit < found.0) {
            found = (limit, governs);
        }
    }
    found
}

/// The most that what stays connected may see, above the atmosphere.
pub fn most(bounds: &Bounds) -> Pressure {
    let others = [Some(bounds.weakest), bounds.relief].into_iter().flatten();
    others.fold(bounds.least_design * MOST_OF_DESIGN, |least, limit| if limit < least { limit } else { least })
}

/// The least that a route asks for, above the atmosphere.
pub fn least_asked(route: Route, bounds: &Bounds) -> Pressure {
    let least = bounds.design * route.factor();
    match (route, bounds.relief) {
        (Route::Ashrae15, Some(relief)) if relief < least => relief,
        _ => least,
    }
}

/// Two stops on the way, above the atmosphere: about 0.5 and 1.5 MPa, for as long as the final pressure is above them.
///
/// Common practice, no source.
pub fn stops(last: Pressure) -> [Pressure; 2] {
    [500.0, 1_500.0].map(|kilopascals| {
        let stop = Pressure::new::<kilopascal>(kilopascals);
        if stop < last { stop } else { last }
    })
}

/// Steps from 690 kPa (100 psi) on in some guide specifications: a tenth of the final pressure each.
pub fn tenths(last: Pressure) -> (Pressure, f64) {
    let from = Pressure::new::<pascal>(689_475.729_316_836);
    let step = last / 10.0;
    let left = (last - from).value / step.value;
    (step, (left - 1e-9).ceil().max(0.0))
}

#[cfg(test)]
mod tests {
    use super::{Bounds, Governs, Route, final_pressure, least_asked, most, stops, tenths};
    use uom::si::f64::Pressure;
    use uom::si::pressure::bar;

    fn p(bars: f64) -> Pressure {
        Pressure::new::<bar>(bars)
    }

    /// R-410A at 63 °C: 40.01 bar, times 1.1 is 44.01 bar (EN 378-2 table, from memory; the rest worked by hand).
    #[test]
    fn the_least_limit_governs() {
        let bounds = Bounds { design: p(40.01), factor: 1.1, weakest: p(60.0), relief: None, least_design: p(40.01) };
        let (found, governs) = final_pressure(&bounds);
        assert!((found.get::<bar>() - 44.011).abs() < 1e-9 && governs == Governs::Aim);
        let weak = Bounds { weakest: p(42.0), ..bounds };
        assert_eq!(final_pressure(&weak), (p(42.0), Governs::Weakest));
        let relieved = Bounds { relief: Some(p(41.5)), ..weak };
        assert_eq!(final_pressure(&relieved), (p(41.5), Governs::Relief));
        let soft = Bounds { least_design: p(30.0), ..relieved };
        assert_eq!(final_pressure(&soft), (p(30.0) * 1.3, Governs::PartsDesign));
        assert_eq!([&bounds, &weak, &relieved, &soft].map(most), [p(40.01) * 1.3, p(42.0), p(41.5), p(30.0) * 1.3]);
        assert!((least_asked(Route::En378, &bounds).get::<bar>() - 44.011).abs() < 1e-9);
        assert_eq!(least_asked(Route::Ashrae15, &bounds), p(40.01));
        assert_eq!(least_asked(Route::Ashrae15, &Bounds { relief: Some(p(38.0)), ..bounds }), p(38.0));
    }

    #[test]
    fn steps_lead_to_the_final_pressure() {
        assert_eq!(stops(p(41.5)), [p(5.0), p(15.0)]);
        assert_eq!(stops(p(10.0)), [p(5.0), p(10.0)]);
        let (step, count) = tenths(p(41.5));
        assert!((step.get::<bar>() - 4.15).abs() < 1e-12);
        // From 6.9 to 41.5 bar in steps of 4.15.
        assert!((count - 9.0).abs() < 1e-12);
    }
}
