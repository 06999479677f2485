//! Calls of library functions: arguments handed over row by row, ranges checked, results taken back.

use std::sync::Arc;

use super::block::{Block, Data, Mark, States};
use super::call_doubt;
use super::doubt::Doubt;
use super::evaluate::{Sight, spent};
use super::fault::Fault;
use super::row_calls;
use crate::diagnostic::running as codes;
use crate::library::{
    Accepts, Argument, Arguments, Basic, Body, ColumnView, Context, Drawing, Draws, Failure, Function, Value,
};
use crate::limits;
use crate::moment::Moment;
use crate::plan::{Call, Given};
use crate::source::Span;
use crate::units::{self, show};

/// One parameter's value, worked out for all rows at hand.
pub(super) enum Ready {
    /// Nothing.
    Absent,
    /// A value.
    Value(Block),
    /// Two ends.
    Range(Block, Block),
    /// A column, and how well its rows are known.
    Column(OwnedColumn, Option<Box<Doubt>>),
}

/// A column as functions see it, owned here while they look at it.
#[derive(Clone)]
pub(super) enum OwnedColumn {
    /// Numbers; gaps are not numbers.
    Numbers(Vec<f64>),
    /// Texts.
    Texts(Vec<Option<Arc<str>>>),
    /// Flags.
    Flags(Vec<Option<bool>>),
    /// Times.
    Moments(Vec<Option<Moment>>),
}

impl OwnedColumn {
    /// How many rows.
    fn len(&self) -> usize {
        match self {
            OwnedColumn::Numbers(rows) => rows.len(),
            OwnedColumn::Texts(rows) => rows.len(),
            OwnedColumn::Flags(rows) => rows.len(),
            OwnedColumn::Moments(rows) => rows.len(),
        }
    }
}

/// A call for all rows at hand.
pub fn call(sight: &Sight<'_>, call: &Call, span: Span) -> Block {
    let mut columns = match columns(sight, call, span) {
        Ok(columns) => columns,
        Err(block) => return block,
    };
    let (ready, states, length) = ready(sight, call, &mut columns);
    let weight = weight(call, &ready);
    sight.spend(length.saturating_mul(weight));
    if sight.is_spent() {
        return spent(span);
    }
    let atmosphere = sight.site();
    match call.function.body {
        Body::Numbers(function) => return row_calls::plain(call, &ready, states, length, span, function),
        Body::Prepared(prepare) => {
            return row_calls::prepared(call, &ready, states, length, span, |at| {
                with_arguments(call, &ready, at, atmosphere, prepare)
            });
        }
        Body::Values(_) => {}
    }
    let doubtful = call_doubt::is_doubtful(&ready, sight.atmosphere);
    let rows: Vec<Block> = (0..length)
        .map(|at| {
            if states.mark(at) != Mark::Known {
                return Block { data: Data::Nothing(1), states: states.slice_one(at) };
            }
            match one(call, &ready, at, atmosphere) {
                Ok(value) => {
                    let block = if doubtful {
                        let block = block_of(value.clone(), span);
                        call_doubt::with_doubt(sight, call, &ready, at, &value, block)
                    } else {
                        block_of(value, span)
                    };
                    if call.gives_column { columns.spread_over(block) } else { block }
                }
                Err(failure) => Block::broken(fault_of(call, &failure, span)),
            }
        })
        .collect();
    match (call.gives_column, rows.len()) {
        (true, 1) => rows.into_iter().next().unwrap_or_else(|| Block::pending(1)),
        _ => Block::gather(rows),
    }
}

/// What a call for one row counts in elementary operations.
pub fn weight(call: &Call, ready: &[Ready]) -> usize {
    if !matches!(call.function.body, Body::Values(_)) {
        return 20;
    }
    let rows = |one: &Ready| if let Ready::Column(column, _) = one { column.len() } else { 0 };
    limits::CALL_WORK.saturating_add(ready.iter().map(rows).sum::<usize>().saturating_mul(limits::ROW_WORK))
}

impl States {
    fn slice_one(&self, at: usize) -> States {
        let mut one = States::known();
        match (self.mark(at), self.fault(at)) {
            (Mark::Broken, Some(fault)) => one.break_at(0, fault.clone(), 1),
            (mark, _) => one.set(0, mark, 1),
        }
        one
    }
}

/// What a report can draw of a single call; nothing where one of its arguments is not known.
pub fn drawn(sight: &Sight<'_>, call: &Call, span: Span, draws: Draws) -> Option<Drawing> {
    let mut columns = columns(sight, call, span).ok()?;
    let (ready, states, length) = ready(sight, call, &mut columns);
    if length != 1 || states.mark(0) != Mark::Known {
        return None;
    }
    let atmosphere = sight.site();
    with_arguments(call, &ready, 0, atmosphere, |arguments| Ok(draws(arguments))).ok()?
}

/// The arguments for all rows at hand, with their states and how many rows there are.
fn ready(sight: &Sight<'_>, call: &Call, columns: &mut Columns) -> (Vec<Ready>, States, usize) {
    let mut ready = Vec::with_capacity(call.arguments.len());
    let mut states = States::known();
    let mut length = 1;
    let mut columns_left = std::mem::take(&mut columns.values).into_iter();
    for given in &call.arguments {
        let value = match given {
            Given::Absent => Ready::Absent,
            Given::Value(node) => Ready::Value(sight.eval(node)),
            Given::Atmosphere => Ready::Value(sight.atmosphere.clone()),
            Given::Range(low, high) => Ready::Range(sight.eval(low), sight.eval(high)),
            Given::Column(_) => {
                columns_left.next().map_or(Ready::Absent, |(column, doubt)| Ready::Column(column, doubt))
            }
        };
        let blocks: Vec<&Block> = match &value {
            Ready::Value(block) => vec![block],
            Ready::Range(low, high) => vec![low, high],
            Ready::Absent | Ready::Column(..) => Vec::new(),
        };
        for block in blocks {
            length = if length == 1 { block.len() } else { length };
            states = states.merge(&block.states, length);
        }
        ready.push(value);
    }
    (ready, states, length)
}

/// One row's call.
pub(super) fn one(call: &Call, ready: &[Ready], at: usize, atmosphere: f64) -> Result<Value, Failure> {
    match call.function.body {
        Body::Values(function) => {
            let answer = with_arguments(call, ready, at, atmosphere, function)?;
            match call.function.undeclared_word(&answer) {
                None => Ok(answer),
                Some(word) => {
                    let name = call.function.name;
                    Err(Failure::new(format!("`{name}` answered \"{word}\", a word that it does not declare"))
                        .with_mend("this is a fault of the library, not of the sheet: report it"))
                }
            }
        }
        Body::Numbers(_) | Body::Prepared(_) => Err(Failure::new("this function is called with numbers only")),
    }
}

/// What `function` makes of one row's arguments.
fn with_arguments<T>(
    call: &Call,
    ready: &[Ready],
    at: usize,
    atmosphere: f64,
    function: impl FnOnce(&Arguments<'_>) -> Result<T, Failure>,
) -> Result<T, Failure> {
    let texts: Vec<Option<Vec<Option<&str>>>> = ready
        .iter()
        .map(|value| match value {
            Ready::Column(OwnedColumn::Texts(texts), _) => Some(texts.iter().map(Option::as_deref).collect()),
            _ => None,
        })
        .collect();
    let mut values = Vec::with_capacity(ready.len());
    for (index, value) in ready.iter().enumerate() {
        values.push(match value {
            Ready::Absent => Argument::Absent,
            Ready::Value(block) => {
                check_range(call, index, block.number_at(at))?;
                argument(&call.function, index, block, at)
            }
            Ready::Range(low, high) => {
                check_range(call, index, low.number_at(at))?;
                check_range(call, index, high.number_at(at))?;
                match (low.number_at(at), high.number_at(at)) {
                    (Some(low), Some(high)) if low <= high => Argument::Range(low, high),
                    _ => {
                        let message = "the ends of this range are the wrong way round";
                        return Err(Failure::of(call.function.parameters[index].name, message));
                    }
                }
            }
            Ready::Column(column, _) => Argument::Column(match column {
                OwnedColumn::Numbers(numbers) => {
                    for number in numbers.iter().filter(|number| !number.is_nan()) {
                        check_range(call, index, Some(*number))?;
                    }
                    ColumnView::Numbers(numbers)
                }
                OwnedColumn::Texts(_) => ColumnView::Texts(texts[index].as_deref().unwrap_or(&[])),
                OwnedColumn::Flags(flags) => ColumnView::Flags(flags),
                OwnedColumn::Moments(moments) => ColumnView::Moments(moments),
            }),
        });
    }
    for (parameter, argument) in call.function.parameters.iter().zip(&values) {
        if let Some(refusal) = parameter.refuses_word(call.function.name, argument) {
            return Err(refusal);
        }
    }
    function(&Arguments {
        function: &call.function,
        values: &values,
        context: Context { atmosphere },
        chosen: &call.chosen,
    })
}

fn argument<'a>(function: &Function, index: usize, block: &'a Block, at: usize) -> Argument<'a> {
    let place = if block.len() == 1 { 0 } else { at };
    match &block.data {
        Data::Numbers(values) => values.get(place).map_or(Argument::Absent, |value| Argument::Number(*value)),
        Data::Flags(values) => values.get(place).map_or(Argument::Absent, |value| Argument::Flag(*value)),
        Data::Moments(values) => values.get(place).map_or(Argument::Absent, |value| Argument::Moment(*value)),
        Data::Texts(values) => match (values.get(place), function.parameters.get(index).map(|one| &one.accepts)) {
            (Some(text), Some(Accepts::One(Basic::Refrigerant))) => Argument::Refrigerant(text),
            (Some(text), Some(Accepts::One(Basic::Gas))) => Argument::Gas(text),
            (Some(text), _) => Argument::Text(text),
            (None, _) => Argument::Absent,
        },
        Data::Record(_) | Data::Nothing(_) => Argument::Absent,
    }
}

fn check_range(call: &Call, index: usize, value: Option<f64>) -> Result<(), Failure> {
    match (call.ranges[index], value) {
        (Some((low, high)), Some(value)) if !(value >= low && value <= high) => {
            Err(out_of_range(&call.function, index, value))
        }
        _ => Ok(()),
    }
}

/// The message that names the limit and the value, in the unit the declaration states its range in.
pub(super) fn out_of_range(function: &Function, index: usize, value: f64) -> Failure {
    let parameter = &function.parameters[index];
    let (low, high) = parameter.within.unwrap_or(("", ""));
    let unit = low.split_once(' ').and_then(|(_, unit)| units::parse(unit.trim()).ok());
    let shown = match unit {
        Some(unit) => show::quantity(value, &unit, crate::engine::SEA_LEVEL, None),
        None => show::number(value),
    };
    Failure::of(
        parameter.name,
        format!("`{}` of `{}` goes from {low} to {high}; here it is {shown}", parameter.name, function.name),
    )
}

pub(super) fn not_finite(function: &Function, span: Span) -> Fault {
    Fault::new(&codes::OVERFLOW, format!("`{}` has no finite value here", function.name), span)
}

/// A failure shown at the argument it is about.
pub(super) fn fault_of(call: &Call, failure: &Failure, span: Span) -> Fault {
    let place = failure.parameter.and_then(|name| {
        let index = call.function.parameters.iter().position(|parameter| parameter.name == name)?;
        match &call.arguments[index] {
            Given::Value(node) | Given::Column(node) => Some(node.span),
            Given::Range(low, high) => Some(low.span.to(high.span)),
            Given::Absent | Given::Atmosphere => None,
        }
    });
    Fault::of(failure, place.unwrap_or(span))
}

/// A result as a block; numbers must be finite.
fn block_of(value: Value, span: Span) -> Block {
    match value {
        Value::Number(number) if number.is_finite() => Block::number(number),
        Value::Number(_) => Block::broken(Fault::new(&codes::OVERFLOW, "the function has no finite value here", span)),
        Value::Text(text) | Value::Refrigerant(text) | Value::Gas(text) => Block::text(Arc::from(text)),
        Value::Flag(flag) => Block::flags(vec![flag]),
        Value::Moment(moment) => Block::moment(moment),
        Value::Record(fields) => Block {
            data: Data::Record(
                fields
                    .into_iter()
                    .map(|field| match field {
                        Ok(value) => block_of(value, span),
                        Err(failure) => {
                            Block::broken(Fault { code: &codes::ABSENT_FIELD, ..Fault::of(&failure, span) })
                        }
                    })
                    .collect(),
            ),
            states: States::known(),
        },
        Value::Column(rows) => Block::gather(
            rows.into_iter()
                .map(|row| match row {
                    Ok(value) => block_of(value, span),
                    Err(failure) => Block::broken(Fault::of(&failure, span)),
                })
                .collect(),
        ),
    }
}

/// The column arguments of a call, all without the same rows.
struct Columns {
    values: Vec<(OwnedColumn, Option<Box<Doubt>>)>,
    /// Rows of the table that were kept.
    kept: Vec<usize>,
    rows: usize,
}

impl Columns {
    /// A result column put back to the rows it came from.
    fn spread_over(&self, block: Block) -> Block {
        if self.kept.len() == self.rows {
            return block;
        }
        let mut rows = vec![Block { data: Data::Nothing(1), states: States::all(Mark::LeftOut, 1) }; self.rows];
        for (at, row) in self.kept.iter().enumerate() {
            rows[*row] = block.row(at);
        }
        Block::gather(rows)
    }
}

fn columns(sight: &Sight<'_>, call: &Call, span: Span) -> Result<Columns, Block> {
    let none = Columns { values: Vec::new(), kept: Vec::new(), rows: 0 };
    let Some(table) = call.table else { return Ok(none) };
    let rows = match sight.tables.get(table) {
        Some(values) if !values.pending => values.rows,
        Some(_) => return Err(Block::pending(if call.gives_column { 0 } else { 1 })),
        None => return Ok(none),
    };
    let outside = sight.with(None, sight.locals.clone());
    let mut blocks = Vec::new();
    for (given, parameter) in call.arguments.iter().zip(&call.function.parameters) {
        if let Given::Column(node) = given {
            blocks.push((outside.eval(node).spread(rows), parameter.gaps));
        }
    }
    sight.spend(rows * blocks.len());
    let unknown = |mut block: Block| {
        if call.gives_column {
            block = block.spread(rows);
        }
        block
    };
    let mut kept = Vec::with_capacity(rows);
    for at in 0..rows {
        if blocks.iter().any(|(block, _)| block.mark(at) == Mark::LeftOut) {
            continue;
        }
        for (block, gaps) in &blocks {
            match block.mark(at) {
                Mark::Pending if !gaps => return Err(unknown(Block::pending(1))),
                Mark::Broken => {
                    let fault = block.states.fault(at).map(|fault| (**fault).clone());
                    let fault = fault.unwrap_or_else(|| Fault::new(&codes::OUTSIDE_LIMITS, "a row is broken", span));
                    return Err(unknown(Block::broken(fault)));
                }
                _ => {}
            }
        }
        kept.push(at);
    }
    let values = blocks.iter().map(|(block, _)| owned(block, &kept)).collect();
    Ok(Columns { values, kept, rows })
}

fn owned(block: &Block, kept: &[usize]) -> (OwnedColumn, Option<Box<Doubt>>) {
    let doubt = block.states.doubt().map(|all| {
        let mut some = Doubt::with_room(kept.len());
        kept.iter().for_each(|&at| some.push(all.row(at).iter().copied()));
        Box::new(some)
    });
    let column = match &block.data {
        Data::Texts(_) => OwnedColumn::Texts(kept.iter().map(|&at| block.text_at(at).cloned()).collect()),
        Data::Flags(_) => OwnedColumn::Flags(kept.iter().map(|&at| block.flag_at(at)).collect()),
        Data::Moments(_) => OwnedColumn::Moments(kept.iter().map(|&at| block.moment_at(at)).collect()),
        _ => OwnedColumn::Numbers(kept.iter().map(|&at| block.number_at(at).unwrap_or(f64::NAN)).collect()),
    };
    (column, doubt)
}
