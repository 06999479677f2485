//! The statements that fill one line, and the first lines of those that go on to `end`.

use chumsky::prelude::*;

use super::annotation::annotation;
use super::expression::{Expressions, expressions};
use super::fault::Fault;
use super::literals::{amount, negated, same_unit, share};
use super::marks::{Rule, function, mark, name, place, token, word, words};
use super::tail::{at, instrument_name, tail, uncertainty};
use super::texts::text_literal;
use crate::diagnostic::{Diagnostic, statements};
use crate::syntax::lexeme::LexemeKind as Mark;
use crate::syntax::token::TokenKind;
use crate::syntax::tree::*;

/// The rules for lines, made once for a whole text.
pub struct Grammar<'t> {
    /// The rules for expressions.
    pub expressions: Expressions<'t>,
    /// `name : kind = expr "note"`
    pub cell: Rule<'t, Cell>,
    /// `require …`, `advise …`
    pub check: Rule<'t, Check>,
    /// `table …`
    pub table: Rule<'t, TableHead>,
    /// `stage …`
    pub stage: Rule<'t, (Words, Vec<After>)>,
    /// `define …`: a block if it has no formula.
    pub define: Rule<'t, Define>,
    /// Its head, whatever stands behind it.
    pub define_head: Rule<'t, DefineHead>,
    /// `instrument …`
    pub instrument: Rule<'t, Instrument>,
    /// The lines after it.
    pub instrument_line: Rule<'t, InstrumentLine>,
    /// Inputs, readings, the site; what may be set from outside.
    pub given: Rule<'t, (Option<Annotation>, Vec<Expr>, Tail)>,
    /// A literal set from outside, with its tail.
    pub literal: Rule<'t, (Vec<Expr>, Tail)>,
    /// The other statements of one line.
    pub single: Rule<'t, StatementKind>,
    /// The columns of a table: name and header in the file.
    pub header: Rule<'t, Vec<(Name, Option<Words>)>>,
    /// The cells of a unit line.
    pub unit_line: Rule<'t, Vec<UnitCell>>,
}

/// Name, parameters and kind of a definition.
pub type DefineHead = (Name, Vec<Parameter>, Option<Annotation>);

/// A line that tells more of an instrument.
pub enum InstrumentLine {
    /// `accuracy ± …`
    Accuracy(Uncertainty),
    /// `repeats ± …`
    Repeats(Uncertainty),
    /// `serial "…"`
    Serial(Words),
    /// `calibrated DATE due DATE`
    Calibrated(MomentLiteral, Option<MomentLiteral>),
}

/// A cell of a table's unit line.
#[derive(Default)]
pub struct UnitCell {
    /// The kind.
    pub annotation: Option<Annotation>,
    /// `± u`
    pub uncertainty: Option<Uncertainty>,
    /// `by instrument`
    pub by: Option<Name>,
    /// `optional`
    pub optional: bool,
}

/// The first line of a table.
pub struct TableHead {
    /// Its name.
    pub name: Name,
    /// `from "file.csv"`
    pub from: Option<Words>,
    /// `at time`
    pub at: Option<MomentLiteral>,
    /// What it says of its rows.
    pub traits: TableTraits,
}

impl<'t> Grammar<'t> {
    /// Makes all rules.
    pub fn new() -> Grammar<'t> {
        let expressions = expressions();
        let given = given(&expressions);
        let head = define_head(&expressions);
        Grammar {
            cell: cell(&expressions),
            check: check(&expressions),
            table: table(),
            stage: stage(),
            define: define(head.clone(), expressions.whole.clone()),
            define_head: head.then_ignore(any().repeated()).boxed(),
            instrument: instrument(),
            instrument_line: instrument_line(&expressions),
            literal: values(&expressions).then(tail(&expressions)).boxed(),
            single: single(&expressions),
            header: header(),
            unit_line: unit_line(&expressions),
            given,
            expressions,
        }
    }
}

fn note<'t>() -> Rule<'t, Option<Words>> {
    words().or_not().boxed()
}

fn cell<'t>(expressions: &Expressions<'t>) -> Rule<'t, Cell> {
    name()
        .then(annotation())
        .then_ignore(mark(Mark::Equals))
        .then(expressions.whole.clone())
        .then(note())
        .map(|(((name, annotation), value), note)| Cell { name, annotation, value, note })
        .boxed()
}

/// `[: kind] [= values] tail`, behind the name.
fn given<'t>(expressions: &Expressions<'t>) -> Rule<'t, (Option<Annotation>, Vec<Expr>, Tail)> {
    let values = mark(Mark::Equals).ignore_then(values(expressions)).or_not().map(Option::unwrap_or_default);
    annotation().then(values).then(tail(expressions)).map(|((kind, values), tail)| (kind, values, tail)).boxed()
}

/// Values separated by commas; a bare number takes the unit of the last. `?` stands alone.
fn values<'t>(expressions: &Expressions<'t>) -> Rule<'t, Vec<Expr>> {
    let not_taken = mark(Mark::NotTaken).map(|span| vec![Expr { span, kind: ExprKind::NotTaken }]);
    let one = choice((conditional_or_sum(expressions), expressions.sum.clone())).map(|value| match value.kind {
        ExprKind::Negate(inner) => negated(Expr { span: value.span, kind: inner.kind }),
        kind => Expr { span: value.span, kind },
    });
    let several = one.separated_by(mark(Mark::Comma)).at_least(1).collect::<Vec<_>>().map(|values| {
        let last = values.last().cloned();
        match last {
            Some(last) if values.len() > 1 => values.into_iter().map(|value| same_unit(value, &last)).collect(),
            _ => values,
        }
    });
    choice((not_taken, several)).boxed()
}

/// An expression beginning with `if`: its comparisons do not meet the `within` of the tail.
fn conditional_or_sum<'t>(expressions: &Expressions<'t>) -> Rule<'t, Expr> {
    mark(Mark::If).rewind().ignore_then(expressions.whole.clone()).boxed()
}

fn check<'t>(expressions: &Expressions<'t>) -> Rule<'t, Check> {
    let level = choice((word("require").to(Level::Require), word("advise").to(Level::Advise)));
    level
        .then(word("each").or_not())
        .then(words().or_not())
        .then(expressions.whole.clone())
        .then(mark(Mark::Where).then(expressions.whole.clone()).or_not())
        .validate(|((((level, each), label), condition), asked), e, emitter| {
            if let (None, Some((span, _))) = (each, &asked) {
                let message = "`where` stands only after `require each` and inside a fold's brackets";
                let diagnostic = Diagnostic::error(&statements::WHERE_PLACE, message, *span, "");
                emitter.emit(Fault::said(diagnostic.with_mend("write `require each …` to ask row by row")));
            }
            Check {
                span: place(e.slice()),
                level,
                each: each.is_some(),
                label,
                condition,
                asked: asked.map(|(_, asked)| asked),
            }
        })
        .boxed()
}

fn table<'t>() -> Rule<'t, TableHead> {
    let from = || word("from").ignore_then(words());
    let either = choice((
        from().then(at().or_not()).map(|(from, at)| (Some(from), at)),
        at().then(from().or_not()).map(|(at, from)| (from, Some(at))),
    ));
    word("table")
        .ignore_then(name())
        .then(either.or_not())
        .then(table_traits())
        .map(|((name, either), traits)| {
            let (from, at) = either.unwrap_or_default();
            TableHead { name, from, at, traits }
        })
        .boxed()
}

/// `optional`, `may be empty`, `keys repeat`, in any order, each at most once.
fn table_traits<'t>() -> Rule<'t, TableTraits> {
    #[derive(Clone, Copy)]
    enum Trait {
        Optional,
        MayBeEmpty,
        KeysRepeat,
    }
    let one = choice((
        word("optional").to(Trait::Optional),
        word("may").then(word("be")).then(word("empty")).to(Trait::MayBeEmpty),
        word("keys").then(word("repeat")).to(Trait::KeysRepeat),
    ));
    one.map_with(|one, e| (one, place(e.slice())))
        .repeated()
        .collect::<Vec<_>>()
        .validate(|all, _, emitter| {
            let mut traits = TableTraits::default();
            for (one, span) in all {
                let said = match one {
                    Trait::Optional => &mut traits.optional,
                    Trait::MayBeEmpty => &mut traits.may_be_empty,
                    Trait::KeysRepeat => &mut traits.keys_repeat,
                };
                if std::mem::replace(said, true) {
                    let diagnostic = Diagnostic::error(&statements::TWICE, "this is said twice", span, "the second");
                    emitter.emit(Fault::said(diagnostic.with_mend("keep one of them")));
                }
            }
            traits
        })
        .boxed()
}

/// `optional`, or nothing.
fn optional<'t>() -> Rule<'t, bool> {
    word("optional").or_not().map(|word| word.is_some()).boxed()
}

fn stage<'t>() -> Rule<'t, (Words, Vec<After>)> {
    let before = choice((words().map(After::Stage), name().map(After::Fill)));
    let after = word("after").ignore_then(before.separated_by(mark(Mark::Comma)).at_least(1).collect::<Vec<_>>());
    word("stage").ignore_then(words()).then(after.or_not().map(Option::unwrap_or_default)).boxed()
}

fn define<'t>(head: Rule<'t, DefineHead>, whole: Rule<'t, Expr>) -> Rule<'t, Define> {
    head.then(mark(Mark::Equals).ignore_then(whole).or_not())
        .map(|((name, parameters, annotation), formula)| {
            let body = formula.map_or_else(|| DefineBody::Block(Vec::new()), DefineBody::Formula);
            Define { name, parameters, annotation, body }
        })
        .boxed()
}

fn define_head<'t>(expressions: &Expressions<'t>) -> Rule<'t, DefineHead> {
    let default = mark(Mark::Equals).ignore_then(expressions.whole.clone()).or_not();
    let parameter = name().then(annotation()).then(default).map(|((name, annotation), default)| Parameter {
        name,
        annotation,
        default,
    });
    let parameters = parameter
        .separated_by(mark(Mark::Comma))
        .collect::<Vec<_>>()
        .delimited_by(mark(Mark::OpenRound), mark(Mark::CloseRound));
    word("define")
        .ignore_then(choice((function(), name())))
        .then(parameters)
        .then(annotation())
        .map(|((name, parameters), annotation)| (name, parameters, annotation))
        .boxed()
}

fn instrument<'t>() -> Rule<'t, Instrument> {
    word("instrument")
        .ignore_then(name())
        .then(words().or_not())
        .map(|(name, description)| Instrument {
            name,
            description,
            accuracy: None,
            repeats: None,
            serial: None,
            calibrated: None,
        })
        .boxed()
}

fn instrument_line<'t>(expressions: &Expressions<'t>) -> Rule<'t, InstrumentLine> {
    let date = super::marks::moment;
    choice((
        word("accuracy").ignore_then(uncertainty(expressions)).map(InstrumentLine::Accuracy),
        word("repeats").ignore_then(uncertainty(expressions)).map(InstrumentLine::Repeats),
        word("serial").ignore_then(words()).map(InstrumentLine::Serial),
        word("calibrated")
            .ignore_then(date())
            .then(word("due").ignore_then(date()).or_not())
            .map(|(calibrated, due)| InstrumentLine::Calibrated(calibrated, due)),
    ))
    .boxed()
}

fn header<'t>() -> Rule<'t, Vec<(Name, Option<Words>)>> {
    name().then(mark(Mark::Equals).ignore_then(words()).or_not()).separated_by(mark(Mark::Bar)).collect().boxed()
}

fn unit_line<'t>(expressions: &Expressions<'t>) -> Rule<'t, Vec<UnitCell>> {
    let number = mark(Mark::Minus).map(|span| Some(Annotation { span, kind: AnnotationKind::Number }));
    let unreadable = token(|token| (token.kind == TokenKind::Unreadable).then_some(None));
    let kind = choice((super::annotation::kind().map(Some), number, unreadable)).or_not();
    let by = || word("by").ignore_then(instrument_name());
    let measured = choice((
        uncertainty(expressions).then(by().or_not()).map(|(uncertainty, by)| (Some(uncertainty), by)),
        by().then(uncertainty(expressions).or_not()).map(|(by, uncertainty)| (uncertainty, Some(by))),
    ));
    kind.then(measured.or_not())
        .then(optional())
        .map_with(|((kind, measured), optional), e| {
            let (uncertainty, by) = measured.unwrap_or_default();
            // A blank cell says that the column holds texts; one that could not be read says nothing.
            let blank =
                || e.slice().is_empty().then(|| Annotation { span: place(e.slice()), kind: AnnotationKind::Text });
            UnitCell { annotation: kind.unwrap_or_else(blank), uncertainty, by, optional }
        })
        .separated_by(mark(Mark::Bar))
        .collect()
        .boxed()
}

fn single<'t>(expressions: &Expressions<'t>) -> Rule<'t, StatementKind> {
    let title = word("sheet").ignore_then(words()).map(StatementKind::Title);
    let system = choice((word("IP").to(UnitSystem::Ip), word("SI").to(UnitSystem::Si)));
    let units = word("units").ignore_then(system).map(StatementKind::Units);
    let probability = amount().validate(|value, _, emitter| match share(&value) {
        Some(share) if share > 0.5 && share < 1.0 => share,
        _ => {
            let message = "the probability of a guarded decision lies above 50 % and below 100 %";
            let diagnostic = Diagnostic::error(&statements::FORM, message, value.span, "");
            emitter.emit(Fault::said(diagnostic.with_mend("write `decide guarded`, or `decide guarded 95 %`")));
            0.95
        }
    });
    let decide =
        word("decide").ignore_then(word("guarded")).ignore_then(probability.or_not()).map(StatementKind::DecideGuarded);
    let import = word("use")
        .ignore_then(words())
        .then(mark(Mark::As).ignore_then(name()).or_not())
        .map(|(path, alias)| StatementKind::Use(Use { path, alias }));
    let note = word("note").ignore_then(text_literal(expressions.whole.clone())).map(StatementKind::Note);
    choice((title, units, decide, import, fill(expressions), confirm(), waive(), note, chart(expressions))).boxed()
}

fn fill<'t>(expressions: &Expressions<'t>) -> Rule<'t, StatementKind> {
    let binding = name().then_ignore(mark(Mark::Equals)).then(expressions.whole.clone());
    let bindings = binding
        .separated_by(mark(Mark::Comma))
        .collect::<Vec<_>>()
        .delimited_by(mark(Mark::OpenRound), mark(Mark::CloseRound));
    // The name before the bracket may touch it.
    let named = || choice((name(), function()));
    word("fill")
        .ignore_then(words())
        .then_ignore(mark(Mark::As))
        .then(named())
        .then(word("each").ignore_then(named()).or_not())
        .then(bindings.or_not().map(Option::unwrap_or_default))
        .map(|(((path, name), each), bindings)| StatementKind::Fill(Fill { path, name, each, bindings }))
        .boxed()
}

fn confirm<'t>() -> Rule<'t, StatementKind> {
    let answer = choice((word("yes").to(true), word("no").to(false)));
    let by = || word("by").or_not().ignore_then(words());
    let when_and_who = choice((
        at().then(by().or_not()).map(|(at, by)| (Some(at), by)),
        by().then(at().or_not()).map(|(by, at)| (at, Some(by))),
    ));
    word("confirm")
        .ignore_then(words())
        .then(answer.or_not())
        .then(when_and_who.or_not())
        .map(|((label, answer), rest)| {
            let (at, by) = rest.unwrap_or_default();
            StatementKind::Confirm(Confirm { label, answer, at, by })
        })
        .boxed()
}

fn waive<'t>() -> Rule<'t, StatementKind> {
    let all = word("all").then(word("rows")).to(WaivedRows::All);
    let rows = word("for").ignore_then(choice((words().map(WaivedRows::One), all)));
    let by = || word("by").ignore_then(words());
    let who_and_when = choice((by().then(at()), at().then(by()).map(|(at, by)| (by, at))));
    word("waive")
        .ignore_then(words())
        .then(rows.or_not())
        .then(word("reason").ignore_then(words()))
        .then(who_and_when)
        .validate(|(((label, rows), reason), (by, at)), _, emitter| {
            // A dash or a full stop is no word.
            let words =
                |text: &str| text.split_whitespace().filter(|word| word.contains(char::is_alphanumeric)).count();
            let short = if words(&reason.text) < 2 {
                Some((
                    reason.span,
                    "a waiver gives its reason in more than a word",
                    "say what was found and why it is accepted",
                ))
            } else if words(&by.text) == 0 {
                Some((by.span, "a waiver names the person who accepts it", "write the name: `by \"M. Sato\"`"))
            } else {
                None
            };
            if let Some((span, message, mend)) = short {
                let diagnostic = Diagnostic::error(&statements::WAIVER_REASON, message, span, "");
                emitter.emit(Fault::said(diagnostic.with_mend(mend)));
            }
            StatementKind::Waive(Waive { label, rows, reason, by, at })
        })
        .boxed()
}

fn chart<'t>(expressions: &Expressions<'t>) -> Rule<'t, StatementKind> {
    let style = choice((word("line").to(ChartStyle::Line), word("bars").to(ChartStyle::Bars)));
    let columns = expressions.whole.clone().separated_by(mark(Mark::Comma)).at_least(2).collect::<Vec<_>>();
    word("chart")
        .ignore_then(style)
        .then(words())
        .then(columns)
        .map(|((style, title), columns)| StatementKind::Chart(Chart { style, title, columns }))
        .boxed()
}
