//! What a declaration says in the language's own words: kinds by units, defaults and ranges by literals.

use super::Kind;
use super::checker::Checker;
use super::literal::number_in;
use super::typed::Scope;
use crate::library::{Accepts, Basic, Default, Parameter};
use crate::plan::{Datum, Given, Typing, Wish};
use crate::source::{FileId, Span};
use crate::syntax::tree::{Expr, ExprKind};
use crate::units::{self, Unit};

impl Checker<'_, '_> {
    pub(super) fn default_of(&mut self, parameter: &Parameter, span: Span) -> Given {
        match parameter.default {
            None | Some(Default::Absent) => Given::Absent,
            Some(Default::SiteAtmosphere) => Given::Atmosphere,
            Some(Default::Literal(text)) => {
                self.declared_literal(text, &parameter.accepts, span).unwrap_or(Given::Absent)
            }
        }
    }

    /// A default written in the declaration, in the language itself.
    fn declared_literal(&mut self, text: &str, accepts: &Accepts, span: Span) -> Option<Given> {
        if let Accepts::Range(inner) = accepts {
            let (low, high) = text.split_once("..")?;
            let Some(Given::Value(low)) = self.declared_literal(low.trim(), inner, span) else { return None };
            let Some(Given::Value(high)) = self.declared_literal(high.trim(), inner, span) else { return None };
            return Some(Given::Range(low, high));
        }
        let (expr, _) = crate::syntax::parse_expression(FileId(u32::MAX), text);
        let mut node = self.expr(&expr?, &Scope::default()).absolute().node;
        node.span = span;
        Some(Given::Value(node))
    }

    /// The ends a declaration states, in SI; gauge ends are meant at sea level.
    pub(super) fn stated_range(&mut self, parameter: &Parameter) -> Option<(f64, f64)> {
        let (low, high) = parameter.within?;
        let end = |text: &str| -> Option<f64> {
            let (expr, _) = crate::syntax::parse_expression(FileId(u32::MAX), text);
            declared_number(&expr?)
        };
        Some((end(low)?, end(high)?))
    }
}

pub(super) fn kind_of(basic: Basic) -> Kind {
    match basic {
        Basic::Unit(_) => units_of(basic).first().map_or(Kind::Unknown, Kind::of_unit),
        Basic::Number => Kind::Number,
        Basic::Text => Kind::Text(None),
        Basic::OneOf(words) => {
            Kind::Text(Some(words.iter().map(|word| (*word).to_string()).collect::<Vec<_>>().into()))
        }
        Basic::Flag => Kind::Flag,
        Basic::Time => Kind::Time,
        Basic::Refrigerant => Kind::Refrigerant,
        Basic::Gas => Kind::Gas,
    }
}

pub(super) fn typing_of(basic: Basic) -> Typing {
    Typing { wish: wish_of(basic), ..Typing::of(kind_of(basic)) }
}

/// The unit a declaration names, or the two of `mm or in`: SI first, then inch–pound.
fn units_of(basic: Basic) -> Vec<Unit> {
    match basic {
        Basic::Unit(text) => text.split(" or ").filter_map(|text| units::parse(text).ok()).collect(),
        _ => Vec::new(),
    }
}

pub(super) fn wish_of(basic: Basic) -> Option<Wish> {
    let units = units_of(basic);
    (!units.is_empty()).then_some(Wish { units, step: None, weak: true })
}

fn declared_number(expr: &Expr) -> Option<f64> {
    const SEA_LEVEL: f64 = 101_325.0;
    match &expr.kind {
        ExprKind::Number(number) => Some(*number),
        ExprKind::Negate(inner) => declared_number(inner).map(|number| -number),
        ExprKind::Quantity(quantity) => quantity.pieces.iter().try_fold(0.0, |sum, piece| {
            let (si, datum) = number_in(&piece.unit, piece.number);
            Some(sum + si + if datum == Datum::Gauge { SEA_LEVEL } else { 0.0 })
        }),
        _ => None,
    }
}
