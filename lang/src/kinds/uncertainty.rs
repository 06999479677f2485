//! Stated uncertainties and accuracies: of the kind of what they belong to, and none below zero.

use super::Kind;
use super::algebra;
use super::checker::Checker;
use super::typed::Scope;
use crate::diagnostic::{Diagnostic, kinds as codes};
use crate::plan::{Node, Op, Spread};
use crate::source::Span;
use crate::syntax::tree::{Expr, ExprKind, Uncertainty, UncertaintyStyle, UncertaintyTerm};
use crate::units::Dimension;

impl Checker<'_, '_> {
    /// An uncertainty against the kind of the value it belongs to.
    pub(super) fn uncertainty(&mut self, uncertainty: &Uncertainty, kind: &Kind) -> Option<Spread> {
        let before = self.shared.diagnostics.len();
        self.uncertainty_fits(uncertainty, kind);
        if self.shared.diagnostics.len() > before { None } else { self.spread(uncertainty) }
    }

    fn uncertainty_fits(&mut self, uncertainty: &Uncertainty, kind: &Kind) {
        // Doubt is carried by numbers; a time's would be lost on the way.
        let distance = algebra::subtract(kind, kind).ok().filter(|_| *kind != Kind::Time);
        let Some(distance) = distance else {
            if *kind != Kind::Unknown {
                let message = format!("{} has no uncertainty", kind.words());
                self.report(Diagnostic::error(&codes::UNCERTAINTY_KIND, message, uncertainty.span, ""));
            }
            return;
        };
        for term in &uncertainty.terms {
            let (UncertaintyTerm::Amount(expr) | UncertaintyTerm::Of(_, expr)) = term else { continue };
            let amount = self.value(expr, &Scope::default());
            let is_amount = matches!(term, UncertaintyTerm::Amount(_));
            let same_dimension = amount.kind.dimension() == distance.dimension();
            let wrong = if is_amount {
                amount.kind.is_point() || algebra::unify(&amount.kind, &distance).is_err()
            } else {
                !same_dimension
            };
            if wrong && amount.kind != Kind::Unknown && distance != Kind::Unknown {
                let mend = match (same_dimension, distance.dimension()) {
                    (true, Some(Dimension::TEMPERATURE)) => "write it in `F°` or `C°`".to_string(),
                    (true, Some(Dimension::PRESSURE)) => "write it in `psi`, `kPa` or `micron`".to_string(),
                    _ if is_amount && is_share(expr) => self.share_of_what(expr),
                    _ => "write it in a unit of the value's own kind".to_string(),
                };
                let message = format!("an uncertainty of {} cannot be {}", kind.words(), amount.kind.words());
                self.report(Diagnostic::error(&codes::UNCERTAINTY_KIND, message, expr.span, "").with_mend(mend));
            }
        }
    }

    /// A stated uncertainty with its terms added up.
    pub(super) fn spread(&mut self, uncertainty: &Uncertainty) -> Option<Spread> {
        let mut spread = Spread {
            constant: 0.0,
            share: 0.0,
            style: uncertainty.style,
            freedom: uncertainty.freedom.map(|one| one.0),
        };
        for term in &uncertainty.terms {
            match term {
                UncertaintyTerm::Amount(expr) => spread.constant += self.amount(expr)?,
                UncertaintyTerm::OfReading(share, span) => spread.share += self.not_negative(*share, *span)?,
                UncertaintyTerm::Of(share, expr) => {
                    let share = self.not_negative(*share, expr.span)?;
                    spread.constant += share * self.amount(expr)?;
                }
            }
        }
        let wrong = match (uncertainty.style, uncertainty.freedom) {
            (UncertaintyStyle::Coverage(k), _) if !(k > 0.0 && k.is_finite()) => {
                Some(("a coverage factor is above zero", uncertainty.span, "mostly it is 2"))
            }
            (_, Some((freedom, span))) if !(freedom >= 1.0 && freedom.is_finite()) => {
                Some(("degrees of freedom are 1 or more", span, "of repeated readings, one less than there are"))
            }
            _ => None,
        };
        if let Some((message, span, mend)) = wrong {
            self.report(Diagnostic::error(&codes::UNCERTAINTY_SIZE, message, span, "").with_mend(mend));
            return None;
        }
        Some(spread)
    }

    /// A literal of zero or more, in SI.
    fn amount(&mut self, expr: &Expr) -> Option<f64> {
        if !self.insist_literal(expr, "an uncertainty") {
            return None;
        }
        let amount = self.value(expr, &Scope::default());
        self.not_negative(number_of(&amount.node)?, expr.span)
    }

    fn not_negative(&mut self, amount: f64, span: Span) -> Option<f64> {
        if amount < 0.0 {
            self.report(
                Diagnostic::error(&codes::UNCERTAINTY_SIZE, "an uncertainty is zero or more", span, "below zero")
                    .with_mend("± goes both ways: write it without the minus"),
            );
            return None;
        }
        Some(amount)
    }

    /// How to say of what a share is one.
    fn share_of_what(&self, share: &Expr) -> String {
        let written = self.written(share.span);
        format!("write `± {written} of reading`, or of the range, such as `± {written} of 800 psi`")
    }

    /// An instrument's accuracy must be of the kind of what it reads.
    pub(super) fn instrument_fits(&mut self, at: usize, place: Span, kind: &Kind) {
        let instrument = self.directory.instruments[at];
        let before = self.shared.diagnostics.len();
        for uncertainty in [&instrument.accuracy, &instrument.repeats].into_iter().flatten() {
            self.uncertainty_fits(uncertainty, kind);
        }
        if self.shared.diagnostics.len() > before {
            self.shared.diagnostics.truncate(before);
            let lines = [&instrument.accuracy, &instrument.repeats].into_iter().flatten();
            let share = lines.flat_map(|line| &line.terms).find_map(|term| match term {
                UncertaintyTerm::Amount(expr) if is_share(expr) => Some(expr),
                _ => None,
            });
            if let (Some(share), false) = (share, *kind == Kind::Number) {
                let message = format!("`{}` states a share, and does not say of what", instrument.name.text);
                let diagnostic = Diagnostic::error(&codes::UNCERTAINTY_KIND, message, share.span, "of what?");
                let mend = self.share_of_what(share);
                self.report(diagnostic.with_label(place, "named here").with_mend(mend));
                return;
            }
            let message = format!("`{}` does not read {}", instrument.name.text, kind.words());
            let stated = instrument.accuracy.as_ref().or(instrument.repeats.as_ref()).map(|one| one.span);
            let mut diagnostic = Diagnostic::error(&codes::UNCERTAINTY_KIND, message, place, "named here");
            if let Some(span) = stated {
                diagnostic = diagnostic.with_label(span, "its accuracy is of another kind");
            }
            self.report(diagnostic.with_mend("name the instrument that took this reading"));
        }
    }
}

/// `0.5 %` by itself: of what it is a share is not said.
fn is_share(expr: &Expr) -> bool {
    matches!(&expr.kind, ExprKind::Quantity(one) if one.pieces.iter().all(|piece| piece.unit.text == "%"))
}

/// The number of a literal.
fn number_of(node: &Node) -> Option<f64> {
    match &node.op {
        Op::Number(number) => Some(*number),
        Op::Negate(inner) => number_of(inner).map(|number| -number),
        _ => None,
    }
}
