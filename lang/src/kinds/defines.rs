//! Definitions: compiled once for each set of argument kinds they are called with.

use super::Kind;
use super::algebra::Made;
use super::checker::Checker;
use super::typed::{LocalName, Scope, Shape, Typed};
use crate::diagnostic::{Diagnostic, kinds as codes};
use crate::limits;
use crate::plan::{Node, Op, Routine};
use crate::source::Span;
use crate::syntax::tree::{Define, DefineBody};

/// An argument of a definition's call.
pub(super) enum GivenArgument {
    Typed(Typed),
    Default,
}

/// What a definition is compiled for: kind, factors and shape of an argument.
type Argument = (Made, Shape);

/// A definition compiled for certain argument kinds.
pub(super) struct Compiled {
    name: String,
    arguments: Vec<Option<Argument>>,
    routine: usize,
    result: Typed,
    calls: u64,
}

impl Checker<'_, '_> {
    /// A call of the definition of this name.
    pub(super) fn routine(&mut self, name: &str, given: Vec<GivenArgument>, span: Span, scope: &Scope) -> Typed {
        let Some(&(_, define)) = self.directory.defines.get(name) else { return Typed::unknown(span) };
        // A circle has been reported with its way round; here it only must not be followed.
        if self.open_defines.iter().any(|open| open == name) {
            return Typed::unknown(span);
        }
        let mut arguments = Vec::new();
        let mut mapped = Vec::new();
        for (parameter, given) in define.parameters.iter().zip(given) {
            match given {
                GivenArgument::Default => arguments.push(None),
                GivenArgument::Typed(typed) => {
                    let typed = match &parameter.annotation {
                        Some(annotation) => {
                            let wanted = self.annotated(annotation);
                            match self.settled(typed, &wanted, annotation.span) {
                                Some(settled) => {
                                    mapped.push(settled.clone());
                                    // Taken one by one: inside it is a single value.
                                    Typed { wish: wanted.wish.or(settled.wish.clone()), ..settled }
                                }
                                None => return Typed::unknown(span),
                            }
                        }
                        None => typed,
                    };
                    if typed.kind == Kind::Unknown {
                        return Typed::unknown(span);
                    }
                    arguments.push(Some((typed.absolute(), parameter.annotation.is_some())));
                }
            }
        }
        let key: Vec<Option<Argument>> = arguments
            .iter()
            .map(|argument| {
                argument.as_ref().map(|(typed, single)| (typed.made(), if *single { Shape::One } else { typed.shape }))
            })
            .collect();
        let known = self.routines.iter().position(|known| known.name == name && known.arguments == key);
        let at = match known {
            Some(at) => at,
            None => match self.compile(name, define, &arguments, &key, span) {
                Some(at) => at,
                None => return Typed::unknown(span),
            },
        };
        self.count_calls(self.routines[at].calls, span);
        let compiled = &self.routines[at];
        let (result, routine) = (compiled.result.clone(), compiled.routine);
        let parts: Vec<&Typed> = arguments.iter().flatten().map(|(typed, _)| typed).collect();
        let parts_of_map: Vec<&Typed> = mapped.iter().collect();
        let shape = match (self.join(span, &parts_of_map), result.shape) {
            (Shape::One, own) => own,
            (column, _) => column,
        };
        let nodes: Vec<Node> = arguments
            .iter()
            .map(|argument| match argument {
                Some((typed, _)) => typed.node.clone(),
                // The routine knows its default; the local is set by it.
                None => Node { span, op: Op::NotTaken },
            })
            .collect();
        let typed = Typed {
            shape,
            wish: result.wish.clone(),
            factors: result.factors,
            safety: result.safety,
            ..Typed::new(span, Op::Routine(routine, nodes), result.kind.clone())
        };
        let typed = typed.marked_by(&parts);
        if scope.columns { typed } else { self.one(typed) }
    }

    fn compile(
        &mut self,
        name: &str,
        define: &Define,
        arguments: &[Option<(Typed, bool)>],
        key: &[Option<Argument>],
        span: Span,
    ) -> Option<usize> {
        if self.open_defines.len() >= limits::DEFINE_DEPTH {
            self.report(
                Diagnostic::error(
                    &codes::TOO_MANY_CALLS,
                    format!("definitions call one another more than {} deep", limits::DEFINE_DEPTH),
                    span,
                    "",
                )
                .with_mend("compute part of it in a cell"),
            );
            return None;
        }
        let alias = name.rsplit_once('.').map(|(alias, _)| alias.to_string());
        let mut scope = Scope { define: Some(alias), columns: true, ..Scope::default() };
        let outer_calls = std::mem::replace(&mut self.calls, 1);
        self.open_defines.push(name.to_string());
        let mut failed = false;
        let mut defaults = Vec::new();
        for (at, parameter) in define.parameters.iter().enumerate() {
            let (typed, shape) = match &arguments[at] {
                Some((typed, single)) => {
                    let shape = if *single { Shape::One } else { typed.shape };
                    (typed.clone(), shape)
                }
                None => {
                    let Some(default) = &parameter.default else { continue };
                    let mut typed = self.value(default, &scope);
                    if let Some(annotation) = &parameter.annotation {
                        let wanted = self.annotated(annotation);
                        match self.settled(typed.clone(), &wanted, annotation.span) {
                            Some(settled) => typed = settled,
                            None => failed = true,
                        }
                    }
                    let typed = typed.absolute();
                    defaults.push((at, typed.node.clone()));
                    (typed, Shape::One)
                }
            };
            scope.locals.push(LocalName::of(&parameter.name.text, &typed, shape));
        }
        let mut cells = Vec::new();
        let result = match &define.body {
            DefineBody::Formula(expr) => self.factor(expr, &scope),
            DefineBody::Block(block) => {
                let mut result = None;
                for cell in block {
                    let mut typed = self.expr(&cell.value, &scope);
                    typed = match &cell.annotation {
                        Some(annotation) => self.annotate(typed, annotation),
                        None => self.said(typed),
                    };
                    let typed = typed.absolute();
                    if scope.locals.iter().any(|local| local.name == cell.name.text) {
                        self.report(
                            Diagnostic::error(
                                &crate::diagnostic::names::GIVEN_TWICE,
                                format!("the name `{}` is given twice in this definition", cell.name.text),
                                cell.name.span,
                                "again here",
                            )
                            .with_mend("give one of them another name"),
                        );
                        failed = true;
                    }
                    cells.push(typed.node.clone());
                    scope.locals.push(LocalName::of(&cell.name.text, &typed, typed.shape));
                    if cell.name.text == "result" {
                        let local = scope.locals.len() - 1;
                        result = Some(Typed { node: Node { span: typed.node.span, op: Op::Local(local) }, ..typed });
                    }
                }
                match result {
                    Some(result) => self.single(result),
                    None => {
                        self.report(
                            Diagnostic::error(
                                &crate::diagnostic::names::UNKNOWN_NAME,
                                format!("the block of `{}` has no cell `result`", define.name.text),
                                define.name.span,
                                "its value is the cell called `result`",
                            )
                            .with_mend("call the last cell `result`"),
                        );
                        Typed::unknown(span)
                    }
                }
            }
        };
        let result = match &define.annotation {
            Some(annotation) => self.annotate(result, annotation),
            None => self.said(result),
        };
        self.open_defines.pop();
        let calls = std::mem::replace(&mut self.calls, outer_calls);
        if failed || result.kind == Kind::Unknown {
            // Remembered, so that its errors are reported once however often it is called.
            let unknown = Typed::unknown(span);
            self.routines.push(Compiled {
                name: name.to_string(),
                arguments: key.to_vec(),
                routine: 0,
                result: unknown,
                calls: 1,
            });
            return None;
        }
        let result = result.absolute();
        self.plan.routines.push(Routine {
            name: name.to_string(),
            single: define.parameters.iter().map(|parameter| parameter.annotation.is_some()).collect(),
            defaults,
            cells,
            result: result.node.clone(),
        });
        self.routines.push(Compiled {
            name: name.to_string(),
            arguments: key.to_vec(),
            routine: self.plan.routines.len() - 1,
            result,
            calls,
        });
        Some(self.routines.len() - 1)
    }

    /// A definition that nothing calls is still read: its names must exist, its kinds go together as far as they are
    /// known without a call.
    pub(super) fn check_uncalled_definitions(&mut self) {
        let called: Vec<String> = self.routines.iter().map(|compiled| compiled.name.clone()).collect();
        let uncalled: Vec<String> =
            self.directory.defines.keys().filter(|name| !called.contains(name)).cloned().collect();
        for name in uncalled {
            let Some(&(_, define)) = self.directory.defines.get(&name) else { continue };
            let span = define.name.span;
            let arguments: Vec<Option<(Typed, bool)>> = define
                .parameters
                .iter()
                .map(|parameter| {
                    let kind = parameter.annotation.as_ref().map_or(Kind::Unknown, |one| self.annotated(one).kind);
                    let typed = Typed { kind, ..Typed::unknown(parameter.name.span) };
                    Some((typed, parameter.annotation.is_some()))
                })
                .collect();
            self.compile(&name, define, &arguments, &[], span);
        }
    }

    fn count_calls(&mut self, more: u64, span: Span) {
        let before = self.calls;
        self.calls = before.saturating_add(more);
        if before <= limits::CALLS && self.calls > limits::CALLS {
            self.report(
                Diagnostic::error(
                    &codes::TOO_MANY_CALLS,
                    format!("with every call written out this makes more than {} calls", limits::CALLS),
                    span,
                    "one call too many",
                )
                .with_mend("give what is called again and again a cell or a block cell of its own"),
            );
        }
    }
}
