//! The site's statements: what a barometer shows counts from true zero, and two statements are of one place.

use super::Kind;
use super::checker::Checker;
use super::typed::Typed;
use crate::diagnostic::{Diagnostic, kinds as codes};
use crate::engine::standard_atmosphere_at;
use crate::names::ItemKind;
use crate::plan::{Typing, Wish};
use crate::source::Span;
use crate::syntax::tree::{Expr, ExprKind};
use crate::units::{Stance, Unit, parse, show};

/// How the slot of the site's atmosphere is called. No name of a sheet has a blank in it.
pub(super) const ATMOSPHERE: &str = "site atmosphere";

impl Checker<'_, '_> {
    /// The site's atmosphere as far as its statement tells it before anything runs, in pascals.
    pub(super) fn stated_atmosphere(&self) -> Option<f64> {
        let (altitude, air) = self.stated_site();
        air.or_else(|| altitude.map(standard_atmosphere_at))
    }

    /// Altitude and atmosphere of the site as they are written, in SI.
    fn stated_site(&self) -> (Option<f64>, Option<f64>) {
        let literal = |item: Option<usize>| match self.directory.items[item?].kind {
            ItemKind::Given(given, _) => written_in_si(given.values.first()?),
            _ => None,
        };
        (literal(self.directory.site.altitude), literal(self.directory.site.atmosphere))
    }

    /// Two statements of the site must be of one place: weather services give pressures as they would be at the sea.
    pub(super) fn site_agrees(&mut self, span: Span) {
        let (Some(altitude), Some(air)) = self.stated_site() else { return };
        let there = standard_atmosphere_at(altitude);
        if (air - there).abs() <= 0.05 * there {
            return;
        }
        let kilopascal =
            |si: f64| format!("{} kPa ({} psi)", show::number_to(si / 1e3, 0.1), show::number_to(si / 6_894.757, 0.01));
        self.report(
            Diagnostic::error(
                &codes::SITES_APART,
                format!(
                    "the air at this altitude has about {} absolute, and {} is stated",
                    kilopascal(there),
                    kilopascal(air)
                ),
                span,
                "",
            )
            .with_mend(
                "a weather service gives the pressure reduced to the sea: read a barometer at the site, or state the \
                 altitude alone",
            ),
        );
    }
}

/// A barometer's reading, whichever unit it is written in.
pub(super) fn shown_by_a_barometer(value: Typed) -> Typed {
    match value.unit().and_then(absolute) {
        Some(unit) => Typed { kind: Kind::of_unit(&unit), wish: Some(Wish::unit(unit)), ..value },
        None => value,
    }
}

/// The kind of a barometer's readings in the unit of an annotation.
pub(super) fn from_true_zero(typing: Typing) -> Typing {
    let unit = typing.wish.as_ref().and_then(|wish| wish.units.first()).and_then(absolute);
    unit.map_or(typing, |unit| Typing::of_unit(&unit))
}

/// The point unit of the same numbers, of a unit of differences.
fn absolute(unit: &Unit) -> Option<Unit> {
    let difference = unit.meaning.stance() == Stance::Difference && !unit.said;
    if difference { parse(&format!("{} absolute", unit.text)).ok() } else { None }
}

/// A literal quantity in SI, differences and points alike; gauges count from nought here.
fn written_in_si(expr: &Expr) -> Option<f64> {
    match &expr.kind {
        ExprKind::Quantity(quantity) => {
            Some(quantity.pieces.iter().map(|piece| piece.unit.to_si(piece.number, 0.0)).sum())
        }
        _ => None,
    }
}
