//! The checker of one sheet: its directory, the plan it makes, and what it reports.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::Kind;
use super::algebra::Refusal;
use super::typed::{Shape, Typed};
use crate::diagnostic::{Code, Diagnostic, kinds as codes};
use crate::library::{Function, Library};
use crate::names::{Directory, Files};
use crate::plan::{Node, Op, Plan};
use crate::source::{Sources, Span};
use crate::units::UnitSystem;

/// What all sheets of a job share while they are checked.
pub(super) struct Compiler<'a> {
    pub files: &'a Files,
    pub sources: &'a Sources,
    pub library: &'a Library,
    pub diagnostics: Vec<Diagnostic>,
    /// Plans made so far, by file.
    pub plans: Vec<Option<Arc<Plan>>>,
    /// The unit system that the outermost sheet states.
    pub job_units: Option<UnitSystem>,
    functions: BTreeMap<&'static str, Arc<Function>>,
}

/// The checker of one sheet.
pub(super) struct Checker<'a, 'c> {
    pub shared: &'c mut Compiler<'a>,
    pub directory: Directory<'a>,
    pub plan: Plan,
    /// Slots of items.
    pub slots: BTreeMap<usize, usize>,
    /// Tables of items.
    pub tables: BTreeMap<usize, usize>,
    /// Tables of used sheets, by their place in the directory.
    pub used_tables: Vec<Option<usize>>,
    /// Fillings of items.
    pub fills: BTreeMap<usize, usize>,
    /// Definitions compiled so far.
    pub routines: Vec<super::defines::Compiled>,
    /// Definitions being compiled, outermost first.
    pub open_defines: Vec<String>,
    /// Calls of definitions in the formula at hand, all written out.
    pub calls: u64,
    /// The condition of a check is at hand.
    pub in_check: bool,
}

impl<'a> Compiler<'a> {
    pub fn new(files: &'a Files, sources: &'a Sources, library: &'a Library) -> Compiler<'a> {
        let plans = files.list.iter().map(|_| None).collect();
        let functions = BTreeMap::new();
        Compiler { files, sources, library, diagnostics: Vec::new(), plans, job_units: None, functions }
    }

    /// The function of this name, shared by all its calls.
    pub fn function(&mut self, name: &str) -> Option<Arc<Function>> {
        let function = self.library.function(name)?;
        Some(self.functions.entry(function.name).or_insert_with(|| Arc::new(function.clone())).clone())
    }
}

impl Checker<'_, '_> {
    pub fn report(&mut self, diagnostic: Diagnostic) {
        self.shared.diagnostics.push(diagnostic);
    }

    /// Reports a refusal of the algebra at a place, with the kinds of the parts.
    pub fn refuse(&mut self, code: &'static Code, refusal: Refusal, span: Span, parts: &[&Typed]) {
        let mut diagnostic = Diagnostic::error(code, refusal.message, span, "");
        if let [only] = parts {
            diagnostic.labels[0].text = format!("this is {}", only.kind.words());
        }
        if let [one, other] = parts {
            diagnostic.mend = self.words_for(one, &other.kind).or_else(|| self.words_for(other, &one.kind));
            if let Some(mend) = self.unit_for(one, other).or_else(|| self.unit_for(other, one)) {
                diagnostic.mend = Some(mend);
            }
        }
        if parts.len() > 1 {
            for part in parts {
                diagnostic = diagnostic.with_label(part.span(), format!("this is {}", part.kind.words()));
            }
        }
        diagnostic.mend = diagnostic.mend.or(refusal.mend);
        self.report(diagnostic);
    }

    /// One shape for the parts of an operation.
    pub fn join(&mut self, span: Span, parts: &[&Typed]) -> Shape {
        let mut shape = Shape::One;
        for part in parts {
            match (shape, part.shape) {
                (Shape::One, other) => shape = other,
                (Shape::Column(a), Shape::Column(b)) if a != b => {
                    let (one, other) = (self.plan.tables[a].name.clone(), self.plan.tables[b].name.clone());
                    self.report(
                        Diagnostic::error(
                            &codes::MIXED_TABLES,
                            format!("columns of `{one}` and `{other}` are mixed: their rows do not belong together"),
                            span,
                            "here",
                        )
                        .with_mend("pick a row by its key, or fold one of the columns to a single value"),
                    );
                    return shape;
                }
                _ => {}
            }
        }
        shape
    }

    /// Insists on one value that is no record.
    pub fn single(&mut self, typed: Typed) -> Typed {
        if let Kind::Record(record) = &typed.kind {
            let fields: Vec<&str> = record.fields.iter().map(|field| field.name).collect();
            let of = record.of;
            self.report(
                Diagnostic::error(
                    &codes::RECORD_AS_VALUE,
                    format!("`{of}` gives several values; name the one that is meant"),
                    typed.span(),
                    "the whole result stands here",
                )
                .with_mend(format!("write a dot and one of: {}", fields.join(", "))),
            );
            return Typed { kind: Kind::Unknown, ..typed };
        }
        typed
    }

    /// Insists on a value that is no column.
    pub fn one(&mut self, typed: Typed) -> Typed {
        if let Shape::Column(table) = typed.shape {
            let name = self.plan.tables[table].name.clone();
            self.report(
                Diagnostic::error(
                    &codes::COLUMN_AS_VALUE,
                    format!("a whole column of `{name}` stands where one value is wanted"),
                    typed.span(),
                    "a value a row",
                )
                .with_mend("fold it, such as `mean(…)` or `max(…)`, or pick a row: `table[\"key\"].column`"),
            );
            return Typed { kind: Kind::Unknown, shape: Shape::One, ..typed };
        }
        typed
    }

    /// Puts the check against absolute zero round a point or a value from zero that was computed.
    pub fn above_zero(typed: Typed) -> Typed {
        if typed.kind.is_bounded_by_zero() && typed.datum == crate::plan::Datum::Absolute {
            let node = Node { span: typed.node.span, op: Op::AboveZero(Box::new(typed.node)) };
            return Typed { node, ..typed };
        }
        typed
    }
}
