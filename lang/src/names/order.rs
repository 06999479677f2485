//! The order in which formulas can be computed, and the circles that forbid one.

use std::collections::BTreeMap;

use super::directory::{Directory, Entry, ItemKind};
use super::references::{Mentions, mentions_of_define};
use crate::diagnostic::{Diagnostic, names as codes};
use crate::source::Span;
use crate::syntax::tree::{Confirm, Expr, Fill, Table, TextPart};

/// One thing that has a kind and is computed at once.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Task {
    /// The item, an index into [`Directory::items`].
    pub item: usize,
    /// Which part of it.
    pub part: Part,
}

/// A part of an item.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Part {
    /// All of it; of a table its given rows.
    Whole,
    /// A column formula of a table.
    Column(usize),
    /// A check of a table.
    Check(usize),
}

/// All tasks of a sheet so that each stands after those it needs, as near the order of writing as that allows.
/// Tasks in a circle are reported with the way round and left out, as is what needs them.
pub fn order(directory: &Directory<'_>, diagnostics: &mut Vec<Diagnostic>) -> Vec<Task> {
    report_recursion(directory, diagnostics);
    let tasks = tasks(directory);
    let index: BTreeMap<Task, usize> = tasks.iter().enumerate().map(|(at, task)| (*task, at)).collect();
    let needs: Vec<Vec<usize>> = tasks
        .iter()
        .map(|task| {
            let mut needs: Vec<usize> =
                needs(directory, *task).into_iter().filter_map(|need| index.get(&need).copied()).collect();
            needs.sort_unstable();
            needs.dedup();
            needs
        })
        .collect();
    let mut sorted = Sorter { tasks: &tasks, needs: &needs, states: vec![State::New; tasks.len()], order: Vec::new() };
    for start in 0..tasks.len() {
        if let Some(circle) = sorted.visit(start) {
            diagnostics.push(circle_message(directory, &circle));
        }
    }
    sorted.order
}

#[derive(Clone, Copy, PartialEq)]
enum State {
    New,
    Open,
    Done,
    InCircle,
}

struct Sorter<'a> {
    tasks: &'a [Task],
    needs: &'a [Vec<usize>],
    states: Vec<State>,
    order: Vec<Task>,
}

impl Sorter<'_> {
    /// Depth first without recursion; gives the first circle met.
    fn visit(&mut self, start: usize) -> Option<Vec<Task>> {
        if self.states[start] != State::New {
            return None;
        }
        let mut circle = None;
        let mut way = vec![(start, 0)];
        self.states[start] = State::Open;
        while let Some((at, next)) = way.last_mut() {
            let at = *at;
            let Some(&need) = self.needs[at].get(*next) else {
                let spoiled = self.states[at] == State::InCircle
                    || self.needs[at].iter().any(|&need| self.states[need] == State::InCircle);
                if spoiled {
                    self.states[at] = State::InCircle;
                } else {
                    self.states[at] = State::Done;
                    self.order.push(self.tasks[at]);
                }
                way.pop();
                continue;
            };
            *next += 1;
            match self.states[need] {
                State::New => {
                    self.states[need] = State::Open;
                    way.push((need, 0));
                }
                State::Open => {
                    let from = way.iter().position(|(task, _)| *task == need).unwrap_or(0);
                    for (task, _) in &way[from..] {
                        self.states[*task] = State::InCircle;
                    }
                    circle.get_or_insert_with(|| way[from..].iter().map(|(task, _)| self.tasks[*task]).collect());
                }
                // A circle through a task already known to be in one is reported once.
                State::Done | State::InCircle => {}
            }
        }
        circle
    }
}

fn tasks(directory: &Directory<'_>) -> Vec<Task> {
    let mut tasks = Vec::new();
    for (item, entry) in directory.items.iter().enumerate() {
        tasks.push(Task { item, part: Part::Whole });
        if let ItemKind::Table(table) = entry.kind {
            tasks.extend((0..table.formulas.len()).map(|at| Task { item, part: Part::Column(at) }));
            tasks.extend((0..table.checks.len()).map(|at| Task { item, part: Part::Check(at) }));
        }
    }
    tasks
}

fn needs(directory: &Directory<'_>, task: Task) -> Vec<Task> {
    let mut finder = Finder { directory, row: None, found: Vec::new() };
    match (directory.items[task.item].kind, task.part) {
        (ItemKind::Given(given, _), _) => {
            given.values.iter().for_each(|value| finder.expr(value));
            if let Some((from, to)) = &given.tail.within {
                finder.expr(from);
                finder.expr(to);
            }
        }
        (ItemKind::Cell(cell), _) => finder.expr(&cell.value),
        (ItemKind::Table(_), Part::Whole) => {}
        (ItemKind::Table(table), part) => {
            finder.row = Some((task.item, table));
            finder.found.push(Task { item: task.item, part: Part::Whole });
            match part {
                Part::Column(at) => finder.expr(&table.formulas[at].value),
                Part::Check(at) => finder.check(&table.checks[at].condition, table.checks[at].asked.as_ref()),
                Part::Whole => {}
            }
        }
        (ItemKind::Fill(fill), _) => finder.fill(fill),
        (ItemKind::Check(check), _) => finder.check(&check.condition, check.asked.as_ref()),
        (ItemKind::Note(text), _) => {
            for part in &text.parts {
                if let TextPart::Filled(inner) = part {
                    finder.expr(inner);
                }
            }
        }
        (ItemKind::Chart(chart), _) => chart.columns.iter().for_each(|column| finder.expr(column)),
        (ItemKind::Confirm(confirm), _) => {
            // Which confirmation of a filled sheet it answers is known once that is read.
            if let Some((fillings, _)) = answered(directory, confirm) {
                finder.name(fillings, None);
            }
        }
        (ItemKind::Waive(_), _) => {}
    }
    finder.found
}

/// The filling, with those inside it behind dots, and the label there, if a confirmation answers one of a filled sheet:
/// `confirm "riser: soap at every joint" yes`.
pub fn answered<'a>(directory: &Directory<'_>, confirm: &'a Confirm) -> Option<(&'a str, &'a str)> {
    let (fillings, label) = confirm.label.text.split_once(": ")?;
    let first = fillings.split('.').next()?;
    matches!(directory.names.get(first), Some(Entry::Fill(_))).then_some((fillings, label))
}

struct Finder<'a, 'd> {
    directory: &'d Directory<'a>,
    row: Option<(usize, &'a Table)>,
    found: Vec<Task>,
}

impl<'a> Finder<'a, '_> {
    fn check(&mut self, condition: &Expr, asked: Option<&Expr>) {
        self.expr(condition);
        if let Some(asked) = asked {
            self.expr(asked);
        }
    }

    fn fill(&mut self, fill: &'a Fill) {
        if let Some(each) = &fill.each
            && let Some(Entry::Table(item)) = self.directory.names.get(&each.text)
            && let ItemKind::Table(table) = self.directory.items[*item].kind
        {
            self.row = Some((*item, table));
            self.found.push(Task { item: *item, part: Part::Whole });
        }
        fill.bindings.iter().for_each(|(_, value)| self.expr(value));
    }

    fn expr(&mut self, expr: &Expr) {
        for (name, field) in Mentions::of(expr).names {
            self.name(&name, field.as_deref());
        }
    }

    fn name(&mut self, name: &str, field: Option<&str>) {
        // `table.record.part` and `alias.table.column` are both two names and a field.
        let (first, second) = name.split_once('.').map_or((name, field), |(first, second)| (first, Some(second)));
        if let Some((item, table)) = self.row
            && let Some(at) = formula(table, first)
        {
            self.found.push(Task { item, part: Part::Column(at) });
            return;
        }
        match self.directory.names.get(first) {
            Some(Entry::Value(item) | Entry::Fill(item)) => self.found.push(Task { item: *item, part: Part::Whole }),
            Some(Entry::Table(item)) => {
                self.found.push(Task { item: *item, part: Part::Whole });
                if let ItemKind::Table(table) = self.directory.items[*item].kind {
                    match second {
                        Some(column) => {
                            if let Some(at) = formula(table, column) {
                                self.found.push(Task { item: *item, part: Part::Column(at) });
                            }
                        }
                        None => self
                            .found
                            .extend((0..table.formulas.len()).map(|at| Task { item: *item, part: Part::Column(at) })),
                    }
                }
            }
            _ => {}
        }
    }
}

fn formula(table: &Table, name: &str) -> Option<usize> {
    table.formulas.iter().position(|formula| formula.name.text == name)
}

fn circle_message(directory: &Directory<'_>, circle: &[Task]) -> Diagnostic {
    let named: Vec<(String, Span)> = circle.iter().map(|task| name_of(directory, *task)).collect();
    let mut way: Vec<String> = named.iter().map(|(name, _)| format!("`{name}`")).collect();
    way.push(way[0].clone());
    let mut message = Diagnostic::error(
        &codes::CIRCLE,
        format!("these formulas need each other in a circle: {}", way.join(" → ")),
        named[0].1,
        "the circle starts here",
    )
    .with_mend("compute one of them from something else, or find it with `solve(x within … where left == right)`");
    for (name, span) in named.iter().skip(1).take(6) {
        message = message.with_label(*span, format!("`{name}` is in it"));
    }
    message
}

fn name_of(directory: &Directory<'_>, task: Task) -> (String, Span) {
    match (directory.items[task.item].kind, task.part) {
        (ItemKind::Given(given, _), _) => (given.name.text.clone(), given.name.span),
        (ItemKind::Cell(cell), _) => (cell.name.text.clone(), cell.name.span),
        (ItemKind::Table(table), Part::Column(at)) => {
            let name = &table.formulas[at].name;
            (format!("{}.{}", table.name.text, name.text), name.span)
        }
        (ItemKind::Table(table), _) => (table.name.text.clone(), table.name.span),
        (ItemKind::Fill(fill), _) => (fill.name.text.clone(), fill.name.span),
        _ => ("a check".into(), directory.items[task.item].span),
    }
}

/// A definition may not call itself, not even through others: every sheet ends.
fn report_recursion(directory: &Directory<'_>, diagnostics: &mut Vec<Diagnostic>) {
    let calls: BTreeMap<&str, Vec<String>> = directory
        .defines
        .iter()
        .map(|(name, (_, define))| {
            let prefix = name.rsplit_once('.').map(|(alias, _)| alias);
            let calls = mentions_of_define(define)
                .calls
                .into_iter()
                .map(|call| match prefix {
                    Some(alias) if directory.defines.contains_key(&format!("{alias}.{call}")) => {
                        format!("{alias}.{call}")
                    }
                    _ => call,
                })
                .filter(|call| directory.defines.contains_key(call))
                .collect();
            (name.as_str(), calls)
        })
        .collect();
    let mut done: BTreeMap<&str, bool> = BTreeMap::new();
    for start in calls.keys() {
        let mut way: Vec<(&str, usize)> = vec![(start, 0)];
        while let Some((at, next)) = way.last_mut() {
            let at = *at;
            let Some(call) = calls.get(at).and_then(|list| list.get(*next)) else {
                done.insert(at, true);
                way.pop();
                continue;
            };
            *next += 1;
            if let Some(from) = way.iter().position(|(name, _)| *name == call.as_str()) {
                let mut names: Vec<String> = way[from..].iter().map(|(name, _)| format!("`{name}`")).collect();
                names.push(names[0].clone());
                if let Some((_, define)) = directory.defines.get(call) {
                    diagnostics.push(
                        Diagnostic::error(
                            &codes::RECURSION,
                            format!("a definition may not come back to itself: {}", names.join(" → ")),
                            define.name.span,
                            "this definition",
                        )
                        .with_mend("every sheet must end: use a table with a row a step, or `solve`"),
                    );
                }
                done.insert(at, true);
                way.clear();
            } else if !done.contains_key(call.as_str())
                && let Some((name, _)) = calls.get_key_value(call.as_str())
            {
                way.push((name, 0));
            }
        }
    }
}
