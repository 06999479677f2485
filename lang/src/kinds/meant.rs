//! What may have been meant: units with their numbers for a mend, shares without `%`, an atmosphere typed as a difference.

use super::algebra::Refusal;
use super::checker::Checker;
use super::typed::Typed;
use super::{Kind, Stance};
use crate::diagnostic::{Diagnostic, kinds as codes};
use crate::engine::{NEAR_THE_AIR, SEA_LEVEL};
use crate::plan::{Node, Op, SlotSource, Wish};
use crate::source::Span;
use crate::units::{self, Dimension, Meaning, Unit, show};

/// A sum with a literal this near to the atmosphere, as a share of it, is meant as a conversion.
const SURELY: f64 = 0.005;

impl Checker<'_, '_> {
    /// What to write for a literal that stands where another kind is wanted.
    pub(super) fn words_for(&self, literal: &Typed, wanted: &Kind) -> Option<String> {
        let (have, want) = (literal.kind.quantity()?, wanted.quantity()?);
        let unit = literal.unit().filter(|_| have.dimension == want.dimension)?;
        let number = show::number(unit.from_si(literal.literal()?, 0.0));
        match (have.stance, want.stance) {
            (Stance::Difference, Stance::Point | Stance::FromZero) => {
                let points: Vec<String> = units::points(unit).iter().map(|point| in_words(&number, point)).collect();
                (!points.is_empty()).then(|| format!("write {}", points.join(", ")))
            }
            (Stance::Point, Stance::Difference) => {
                let apart = units::difference(unit)?;
                Some(format!("if a difference is meant, write `{number} {}`", apart.text))
            }
            _ => None,
        }
    }

    /// What to write for a number typed without a unit beside a quantity.
    pub(super) fn unit_for(&self, number: &Typed, beside: &Typed) -> Option<String> {
        beside.kind.quantity()?;
        let number = number.literal().filter(|_| number.kind == Kind::Number)?;
        let unit = beside.unit()?;
        Some(format!("give the number its unit: `{} {}`", show::number(number), unit.text))
    }

    /// A bare number where per cent or parts of a million are shown could be meant a hundredfold.
    pub(super) fn share_is_said(&mut self, value: &Typed, wanted: Option<&Wish>) -> bool {
        let Some(unit) = wanted.filter(|wish| wish.is_share()).and_then(|wish| wish.units.first()) else { return true };
        if !value.is_bare() {
            return true;
        }
        let number = value.literal().unwrap_or_default();
        let (shown, of_hundred) = (show::number(number), show::number(unit.from_si(number, 0.0)));
        let text = &unit.text;
        self.report(
            Diagnostic::error(
                &codes::BARE_SHARE,
                format!("`{shown}` without a unit, where `{text}` is shown, would be {of_hundred} {text}"),
                value.span(),
                "a number without its unit",
            )
            .with_mend(format!("write `{shown} {text}`, or `{of_hundred} {text}` if that is meant")),
        );
        false
    }

    /// The same of two sides that are compared.
    pub(super) fn shares_are_said(&mut self, one: &Typed, other: &Typed) -> bool {
        let (a, b) = (one.wish.clone(), other.wish.clone());
        let of = |typed: &Typed, wish: Option<Wish>| wish.filter(|_| typed.kind == Kind::Number);
        self.share_is_said(one, of(other, b).as_ref()) && self.share_is_said(other, of(one, a).as_ref())
    }

    /// A product with a gauge reading can be meant in two ways: both are shown, with their numbers if they are known.
    pub(super) fn both_ways(&self, left: &Typed, right: &Typed, op: &Op, refusal: Refusal) -> Refusal {
        if let Some(mend) = [left, right].into_iter().find_map(|side| self.deep_difference(side)) {
            return Refusal::new(refusal.message, mend);
        }
        let (point, number) = match (left.kind.is_pressure_point(), &left.kind) {
            (true, _) => (left, right),
            (false, Kind::Number) if matches!(op, Op::Multiply(..)) => (right, left),
            _ => return refusal,
        };
        let unit = point.unit().filter(|unit| matches!(unit.meaning, Meaning::Gauge { .. }));
        let (Some(unit), Kind::Number, true) = (unit, &number.kind, point.kind.is_pressure_point()) else {
            return refusal;
        };
        let (p, k) = (self.written(point.span()), self.written(number.span()));
        let (sign, gauge) = (if matches!(op, Op::Multiply(..)) { "*" } else { "/" }, &unit.text);
        let known = point.literal().zip(number.literal()).filter(|(_, k)| *k != 0.0).map(|(si, k)| {
            let factor = if sign == "*" { k } else { 1.0 / k };
            let air = self.stated_atmosphere().unwrap_or(SEA_LEVEL);
            let shown = |si: f64| format!(" is {} {gauge}", show::number_to(unit.from_si(si, 0.0), 0.01));
            (shown((si + air) * factor - air), shown(si * factor))
        });
        let (of_absolute, of_gauge) = known.unwrap_or_default();
        Refusal::new(
            refusal.message,
            format!(
                "of the absolute pressure `absolute({p}) {sign} {k}`{of_absolute}; of the gauge reading `0 {gauge} + \
                 ({p} - 0 {gauge}) {sign} {k}`{of_gauge}"
            ),
        )
    }

    /// What a literal in a vacuum gauge's unit is written as where a difference is meant.
    fn deep_difference(&self, typed: &Typed) -> Option<String> {
        let unit = typed.unit().filter(|unit| units::in_differences(unit) != **unit)?;
        let number = show::number(unit.from_si(typed.literal()?, 0.0));
        let text = &unit.text;
        Some(format!("if a difference is meant, write `{number} {text} difference`, else `absolute({number} {text})`"))
    }

    /// `118 psig + 14.7 psi` is meant as an absolute pressure, and is none.
    pub(super) fn refuse_atmosphere(&mut self, left: &Typed, right: &Typed, span: Span, plus: bool) {
        let on_a_gauge =
            |typed: &Typed| typed.kind.is_pressure_point() && typed.unit().is_none_or(Unit::needs_atmosphere);
        let (point, step) = match (on_a_gauge(left), on_a_gauge(right)) {
            (true, false) => (left, right),
            (false, true) => (right, left),
            _ => return,
        };
        if !plus || step.unit().is_some_and(|unit| unit.said) {
            return;
        }
        let literals = self.literals_of(step);
        if let (Op::Slot(slot), true) = (&step.node.op, literals.iter().all(|si| !NEAR_THE_AIR.contains(si)))
            && !self.plan.added_to_gauges.contains(slot)
        {
            self.plan.added_to_gauges.push(*slot);
        }
        let air: Vec<f64> = std::iter::once(SEA_LEVEL).chain(self.stated_atmosphere()).collect();
        let surely = |si: &f64| air.iter().any(|air| (si - air).abs() <= SURELY * air);
        let gauge = self.written(point.span());
        let said = self.written(step.span());
        if literals.iter().any(surely) {
            let message = "the air's own pressure added to a gauge pressure makes no absolute one: it is a greater gauge pressure";
            self.report(
                Diagnostic::error(&codes::ATMOSPHERE_ADDED, message, span, "")
                    .with_label(step.span(), "about the pressure of the air")
                    .with_mend(format!(
                        "write `absolute({gauge})`, or `{gauge} as psia`; if so great a step is meant, put `difference` \
                         behind its unit"
                    )),
            );
        } else if literals.iter().any(|si| NEAR_THE_AIR.contains(si)) {
            self.report(
                Diagnostic::advice(
                    &codes::ATMOSPHERE_ADDED,
                    format!("`{said}` is near the pressure of the air: added to a gauge pressure it makes no absolute one"),
                    span,
                    "still a gauge pressure",
                )
                .with_mend(format!(
                    "for the absolute pressure write `absolute({gauge})`; if the step is meant, put `difference` behind \
                     its unit"
                )),
            );
        }
    }

    /// The literals that a value is written as, here or where its name is given, in SI.
    fn literals_of(&self, typed: &Typed) -> Vec<f64> {
        let number = |node: &Node| Typed::new(node.span, node.op.clone(), Kind::Number).literal();
        match typed.node.op {
            Op::Slot(slot) => match &self.plan.slots[slot].source {
                SlotSource::Given(given) => given.values.iter().filter_map(number).collect(),
                SlotSource::Formula(node) => number(node).into_iter().collect(),
            },
            _ => typed.literal().into_iter().collect(),
        }
    }
}

fn in_words(number: &str, point: &Unit) -> String {
    let text = &point.text;
    match point.meaning {
        Meaning::Gauge { .. } => format!("`{number} {text}` if it was read on a gauge"),
        Meaning::Vacuum { .. } => format!("`{number} {text}` if it is that far below the atmosphere"),
        _ if point.dimension == Dimension::PRESSURE => {
            let text = match text.strip_suffix('a') {
                Some(plain) if units::parse(plain).is_ok() => format!("{plain} absolute"),
                _ => text.clone(),
            };
            format!("`{number} {text}` if it counts from true zero")
        }
        _ => format!("`{number} {text}` if a temperature is meant"),
    }
}
