//! Literals: numbers in units become SI numbers with a kind and a datum.

use super::Kind;
use super::checker::Checker;
use super::typed::Typed;
use crate::diagnostic::{Code, Diagnostic, kinds as codes, running};
use crate::plan::{Datum, Op, Wish};
use crate::source::Span;
use crate::syntax::tree::Quantity;
use crate::units::{self, Meaning, Unit};

/// A number in a unit as SI, with how it is held: gauge units are kept above the site's atmosphere.
pub(crate) fn number_in(unit: &Unit, number: f64) -> (f64, Datum) {
    (unit.to_si(number, 0.0), datum_of(unit))
}

/// How values in this unit are held.
pub(crate) fn datum_of(unit: &Unit) -> Datum {
    match unit.meaning {
        Meaning::Gauge { .. } | Meaning::Vacuum { .. } => Datum::Gauge,
        _ => Datum::Absolute,
    }
}

/// Why an SI value of this unit cannot be held, with its code: it is too large, or it is below absolute zero in a unit
/// whose own zero lies at or above that.
pub(crate) fn unholdable(unit: &Unit, si: f64) -> Option<(&'static Code, &'static str)> {
    let bounded = matches!(unit.meaning, Meaning::Point { .. });
    if !si.is_finite() {
        Some((&running::OVERFLOW, "is too large to hold"))
    } else if bounded && si <= 0.0 {
        Some((&running::BELOW_ZERO, "is at or below absolute zero"))
    } else {
        None
    }
}

impl Checker<'_, '_> {
    pub(super) fn quantity(&mut self, quantity: &Quantity, span: Span) -> Typed {
        let Some(first) = quantity.pieces.first() else { return Typed::unknown(span) };
        let kind = Kind::of_unit(&first.unit);
        let mut si = 0.0;
        let mut datum = Datum::Absolute;
        let mut last_factor = f64::INFINITY;
        for piece in &quantity.pieces {
            let (value, held) = number_in(&piece.unit, piece.number);
            let factor = piece.unit.meaning.factor();
            let in_pieces = quantity.pieces.len() > 1;
            if in_pieces && (Kind::of_unit(&piece.unit) != kind || kind.is_point() || factor >= last_factor) {
                self.report(
                    Diagnostic::error(
                        &codes::PIECES,
                        "a quantity in pieces names one dimension, with units that fall",
                        span,
                        format!("`{}` does not go on from what stands before it", piece.unit.text),
                    )
                    .with_mend("write it in one unit, or largest unit first: `12 lb 4 oz`, `6 ft 4-1/2 in`"),
                );
                return Typed::unknown(span);
            }
            last_factor = factor;
            si += value;
            datum = held;
        }
        if let Some((code, why)) = unholdable(&first.unit, si) {
            let message = format!("{} {} {why}", units::show::number(first.number), first.unit.text);
            self.report(Diagnostic::error(code, message, span, "").with_mend("mend the number or its unit"));
            return Typed::unknown(span);
        }
        let units = quantity.pieces.iter().map(|piece| piece.unit.clone()).collect();
        let vacuum = matches!(first.unit.meaning, Meaning::Vacuum { .. });
        let wish = Some(Wish { units, step: None, weak: false });
        Typed { datum, vacuum, wish, ..Typed::new(span, Op::Number(si), kind) }
    }
}
