//! Inputs, readings and the site: what is given from outside, and what is stated beside it.

use super::checker::Checker;
use super::site::{from_true_zero, shown_by_a_barometer};
use super::typed::{Scope, Typed};
use super::{Kind, Quantity, Stance};
use crate::diagnostic::{Diagnostic, kinds as codes};
use crate::outcome::{Role, Stated};
use crate::plan::{Datum, GivenPlan, SlotSource, Spread, Typing, Wish};
use crate::source::Span;
use crate::syntax::tree::{Annotation, AnnotationKind, ExprKind, Given, Tail};
use crate::units::Dimension;

impl Checker<'_, '_> {
    /// The kind, datum and shown unit that an annotation settles.
    pub(super) fn annotated(&mut self, annotation: &Annotation) -> Typing {
        let kind = match &annotation.kind {
            AnnotationKind::Units(units) => {
                let Some(unit) = units.first() else { return Typing::of(Kind::Unknown) };
                if units.iter().any(|other| other.dimension != unit.dimension) {
                    let message = "units to show a value in pieces must be of one dimension";
                    self.report(Diagnostic::error(&codes::PIECES, message, annotation.span, ""));
                    return Typing::of(Kind::Unknown);
                }
                let wish = Some(Wish { units: units.clone(), step: None, weak: false });
                return Typing { wish, ..Typing::of_unit(unit) };
            }
            AnnotationKind::Number => Kind::Number,
            AnnotationKind::Text => Kind::Text(None),
            AnnotationKind::Flag => Kind::Flag,
            AnnotationKind::Time => Kind::Time,
            AnnotationKind::Refrigerant => Kind::Refrigerant,
            AnnotationKind::Gas => Kind::Gas,
            AnnotationKind::OneOf(words) => self.stated_words(words),
        };
        Typing::of(kind)
    }

    /// A value settled by an annotation.
    pub(super) fn annotate(&mut self, typed: Typed, annotation: &Annotation) -> Typed {
        let wanted = self.annotated(annotation);
        let span = typed.span();
        let typed = self.chosen(typed, &wanted.kind);
        let own = typed.wish.clone();
        match self.settled(typed, &wanted, annotation.span) {
            Some(settled) => Typed { wish: shown_by_both(wanted.wish, own), ..settled },
            None => Typed { kind: wanted.kind, wish: wanted.wish, ..Typed::unknown(span) },
        }
    }

    /// An input, a reading, or the site.
    pub(super) fn given(&mut self, given: &Given, role: Role, item: usize, slot: usize) {
        let is_site = self.directory.site.is(item);
        let barometer = self.directory.site.atmosphere == Some(item);
        let mut typing = given.annotation.as_ref().map(|annotation| self.annotated(annotation));
        if barometer {
            typing = typing.map(from_true_zero);
        }
        let mut values = Vec::new();
        for expr in &given.values {
            if matches!(expr.kind, ExprKind::NotTaken) {
                continue;
            }
            if (role == Role::Reading || is_site)
                && !self.insist_literal(expr, if is_site { "the site" } else { "a reading" })
            {
                typing.get_or_insert_with(|| Typing::of(Kind::Unknown));
                continue;
            }
            let value = self.value(expr, &Scope::default());
            let value = self.one(value);
            let value = if barometer { shown_by_a_barometer(value) } else { value };
            let Some(value) = self.of_kind(value, &mut typing, given) else { continue };
            values.push(value);
        }
        let Some(typing) = typing else {
            if given.values.is_empty() {
                // The parser has said so.
                return;
            }
            self.report(
                Diagnostic::error(
                    &codes::NO_KIND,
                    format!("`{}` has neither a value nor a kind", given.name.text),
                    given.name.span,
                    "",
                )
                .with_mend(format!("say what it will be, such as `{} : psig`", given.name.text)),
            );
            return;
        };
        if is_site {
            self.check_site(&typing, self.directory.site.altitude == Some(item), given.name.span);
        }
        let (within, by, spread) = self.tail(&given.tail, &typing);
        let choices = match &typing.kind {
            Kind::Text(Some(words)) => Some(words.to_vec()),
            _ => None,
        };
        let stated = self.stated(&given.tail);
        let formula = match given.values.as_slice() {
            [one] if role == Role::Input && !one.kind.is_literal() => self.written(one.span),
            _ => String::new(),
        };
        let safety = values.iter().any(|value| value.safety);
        let plan = GivenPlan {
            values: values.into_iter().map(|value| value.held(typing.datum).node).collect(),
            within,
            optional: given.tail.optional.is_some(),
            at: given.tail.at.as_ref().map(|at| at.moment),
            by,
            spread,
            choices,
        };
        let slot = &mut self.plan.slots[slot];
        slot.typing = typing;
        slot.source = SlotSource::Given(plan);
        slot.stated = stated;
        slot.formula = formula;
        slot.safety = safety;
    }

    /// A value against the kind known so far; the first settles it if no annotation does.
    fn of_kind(&mut self, value: Typed, typing: &mut Option<Typing>, given: &Given) -> Option<Typed> {
        match typing {
            None => {
                *typing = Some(value.typing());
                (value.kind != Kind::Unknown).then_some(value)
            }
            Some(known) => {
                let wanted = known.clone();
                let value = self.chosen(value, &wanted.kind);
                let place = given.annotation.as_ref().map_or(given.name.span, |annotation| annotation.span);
                let settled = self.settled(value, &wanted, place)?;
                (settled.kind != Kind::Unknown).then_some(settled)
            }
        }
    }

    fn check_site(&mut self, typing: &Typing, altitude: bool, span: Span) {
        let quantity = typing.kind.quantity();
        let fits = match quantity {
            Some(Quantity { dimension, .. }) if altitude => dimension == Dimension::LENGTH,
            Some(Quantity { dimension, stance }) => dimension == Dimension::PRESSURE && stance == Stance::Point,
            None => typing.kind == Kind::Unknown,
        };
        if !fits {
            let (wanted, mend) = if altitude {
                ("a height above sea level", "write it in `ft` or `m`")
            } else {
                ("an absolute pressure", "write it in `psia`, `kPa`, `hPa` or `inHg`")
            };
            let message = format!("the site needs {wanted}, and this is {}", typing.kind.words());
            self.report(Diagnostic::error(&codes::WRONG_KIND, message, span, "").with_mend(mend));
        } else if typing.datum == Datum::Gauge {
            self.report(
                Diagnostic::error(
                    &codes::GAUGE_SITE,
                    "the site's atmosphere cannot be a gauge pressure: a gauge reads zero in it",
                    span,
                    "",
                )
                .with_mend("write the barometer's absolute reading in `psia`, `kPa`, `hPa` or `inHg`"),
            );
        } else if !altitude {
            self.site_agrees(span);
        }
    }

    pub(super) fn stated(&self, tail: &Tail) -> Stated {
        Stated {
            uncertainty: tail.uncertainty.as_ref().map(|one| self.written(one.span)),
            by: tail.by.as_ref().map(|name| name.text.clone()),
            at: tail.at.as_ref().map(|at| self.written(at.span)),
            note: tail.note.as_ref().map(|note| note.text.clone()),
        }
    }

    /// Checks what stands behind a value; gives its limits, its instrument and its own uncertainty.
    fn tail(
        &mut self,
        tail: &Tail,
        typing: &Typing,
    ) -> (Option<(crate::plan::Node, crate::plan::Node)>, Option<usize>, Option<Spread>) {
        let spread = tail.uncertainty.as_ref().and_then(|one| self.uncertainty(one, &typing.kind));
        let by = tail.by.as_ref().and_then(|name| {
            let at = self.instrument_named(name)?;
            self.instrument_fits(at, name.span, &typing.kind);
            Some(at)
        });
        let within = tail.within.as_ref().and_then(|(from, to)| {
            let (low, high) = self.ends(from, to, &Scope::default());
            let place = from.span.to(to.span);
            let low = self.settled(low, typing, place)?;
            let high = self.settled(high, typing, place)?;
            if !typing.kind.is_numeric() && typing.kind != Kind::Time {
                return None;
            }
            Some((low.held(typing.datum).node, high.held(typing.datum).node))
        });
        (within, by, spread)
    }
}

/// The unit of an annotation, with the step that the formula gives for that unit: `x : F° = … as F° to 0.1`.
fn shown_by_both(annotated: Option<Wish>, own: Option<Wish>) -> Option<Wish> {
    match (annotated, own) {
        (Some(said), Some(own)) if said.units == own.units && !own.weak => {
            Some(Wish { step: said.step.or(own.step), ..said })
        }
        (Some(said), _) => Some(said),
        (None, own) => own,
    }
}
