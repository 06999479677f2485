//! Calls of library functions: arguments matched with parameters, kinds with declarations.

use std::sync::Arc;

use super::algebra;
use super::checker::Checker;
use super::declared::{kind_of, typing_of, wish_of};
use super::defines::GivenArgument;
use super::general::is_general;
use super::typed::{Scope, Shape, Typed};
use super::words::quoted;
use super::{Kind, RecordField, RecordKind};
use crate::diagnostic::{Diagnostic, counted, kinds as codes, names as name_codes};
use crate::library::{Accepts, Default, Function, Parameter, Returns};
use crate::plan::{self, Given, Op, Typing, Wish};
use crate::source::Span;
use crate::suggest::{did_you_mean, word_meant};
use crate::syntax::tree::{self, Expr, ExprKind};

/// What the letters of a declaration stand for in one call.
type Letters = Vec<(char, Kind, Option<Wish>)>;

impl Checker<'_, '_> {
    /// A call: of a definition, a library function or a general one, looked for in that order.
    pub(super) fn call(&mut self, call: &tree::Call, span: Span, scope: &Scope) -> Typed {
        // What could not be read has its message; how many arguments were meant is not known either.
        if call.arguments.iter().any(|argument| matches!(argument.value.kind, ExprKind::Unreadable)) {
            return Typed::unknown(span);
        }
        let written = match &call.alias {
            Some(alias) => format!("{}.{}", alias.text, call.name.text),
            None => call.name.text.clone(),
        };
        let qualified = match (&scope.define, &call.alias) {
            (Some(Some(alias)), None) => format!("{alias}.{written}"),
            _ => written.clone(),
        };
        for name in [&qualified, &written] {
            if self.directory.defines.contains_key(name.as_str()) {
                if call.filter.is_some() {
                    self.where_outside(call.name.span);
                }
                let name = name.clone();
                return self.call_define(&name, call, span, scope);
            }
        }
        if call.alias.is_none() {
            if let Some(function) = self.shared.function(&call.name.text) {
                if call.filter.is_some() {
                    self.where_outside(call.name.span);
                }
                return self.call_function(function, call, span, scope);
            }
            if is_general(&call.name.text) {
                return self.general(call, span, scope);
            }
        }
        self.unknown_function(&written, call, scope);
        Typed::unknown(span)
    }

    /// Whether a function of this name can be called.
    pub(super) fn is_function(&self, name: &str) -> bool {
        self.directory.defines.contains_key(name) || self.shared.library.function(name).is_some() || is_general(name)
    }

    fn unknown_function(&mut self, name: &str, call: &tree::Call, scope: &Scope) {
        let near = {
            let candidates = self.directory.defines.keys().map(String::as_str);
            let library = self.shared.library.functions().map(|function| function.name);
            let general = super::general::GENERAL.iter().map(|general| general.name);
            did_you_mean(name, candidates.chain(library).chain(general)).map(str::to_string)
        };
        let mut diagnostic = Diagnostic::error(
            &name_codes::UNKNOWN_FUNCTION,
            format!("there is no function `{name}`"),
            call.name.span,
            "",
        );
        diagnostic.mend = Some(match near {
            Some(near) => format!("did you mean `{near}`?"),
            None => "`dewline functions` lists what there is".into(),
        });
        self.report(diagnostic);
        // Errors in its arguments are errors of their own.
        let inside = scope.with_columns();
        for argument in &call.arguments {
            if !matches!(argument.value.kind, ExprKind::Range(..)) {
                self.expr(&argument.value, &inside);
            }
        }
    }

    fn call_function(&mut self, function: Arc<Function>, call: &tree::Call, span: Span, scope: &Scope) -> Typed {
        let names: Vec<&str> = function.parameters.iter().map(|parameter| parameter.name).collect();
        let Some(matched) = self.matched(function.name, &names, call, span) else { return Typed::unknown(span) };
        if !self.all_given(&function, &matched, span) {
            return Typed::unknown(span);
        }
        let mut letters: Letters = Vec::new();
        let mut arguments = Vec::new();
        let mut chosen = vec![0; function.parameters.len()];
        let mut ranges = Vec::new();
        let mut typed_parts: Vec<(Typed, bool)> = Vec::new();
        let mut failed = false;
        for (at, parameter) in function.parameters.iter().enumerate() {
            ranges.push(self.stated_range(parameter));
            let Some(expr) = matched[at] else {
                arguments.push(self.default_of(parameter, span));
                continue;
            };
            match self.argument(&function, parameter, expr, &mut letters, &mut chosen[at], scope) {
                Some((given, parts)) => {
                    let is_column = matches!(given, Given::Column(_));
                    typed_parts.extend(parts.into_iter().map(|part| (part, is_column)));
                    arguments.push(given);
                }
                None => failed = true,
            }
        }
        if arguments.iter().any(|given| matches!(given, Given::Atmosphere)) {
            self.plan.uses_atmosphere = true;
        }
        for caution in &function.cautions {
            if !self.plan.cautions.contains(caution) {
                self.plan.cautions.push(caution);
            }
        }
        if !self.plan.functions.iter().any(|known| known.name == function.name) {
            self.plan.functions.push(function.clone());
        }
        if failed {
            return Typed { kind: self.returned(&function, &letters).0, ..Typed::unknown(span) };
        }
        let columns: Vec<&Typed> = typed_parts.iter().filter(|(_, column)| *column).map(|(part, _)| part).collect();
        let values: Vec<&Typed> = typed_parts.iter().filter(|(_, column)| !*column).map(|(part, _)| part).collect();
        let table = match self.join(span, &columns) {
            Shape::Column(table) => Some(table),
            Shape::One => None,
        };
        let mut shape = self.join(span, &values);
        let gives_column = function.returns.is_column();
        if gives_column {
            shape = table.map_or(Shape::One, Shape::Column);
        }
        let (kind, wish) = self.returned(&function, &letters);
        let parts: Vec<&Typed> = typed_parts.iter().map(|(part, _)| part).collect();
        let safety = function.safety;
        let op = Op::Call(Box::new(plan::Call { function, arguments, chosen, ranges, table, gives_column }));
        let mut typed = Typed { shape, wish, ..Typed::new(span, op, kind) }.marked_by(&parts);
        typed.safety |= safety;
        if gives_column { self.in_row(typed, scope) } else { typed }
    }

    /// Arguments by parameter; wrong counts and names are reported.
    pub(super) fn matched<'e>(
        &mut self,
        function: &str,
        names: &[&str],
        call: &'e tree::Call,
        span: Span,
    ) -> Option<Vec<Option<&'e Expr>>> {
        let mut matched: Vec<Option<&Expr>> = vec![None; names.len()];
        let mut next = 0;
        let mut named_before = false;
        for argument in &call.arguments {
            let at = match &argument.name {
                None if named_before => {
                    self.report(
                        Diagnostic::error(
                            &codes::WRONG_ARGUMENTS,
                            "an argument without a name stands after one with a name",
                            argument.value.span,
                            "",
                        )
                        .with_mend("put it before the named ones, or name it too"),
                    );
                    return None;
                }
                None => {
                    next += 1;
                    next - 1
                }
                Some(name) => {
                    named_before = true;
                    match names.iter().position(|parameter| *parameter == name.text) {
                        Some(at) => at,
                        None => {
                            let near = did_you_mean(&name.text, names.iter().copied());
                            let mend = match near {
                                Some(near) => format!("did you mean `{near}`?"),
                                None => format!("it takes {}", names.join(", ")),
                            };
                            let message = format!("`{function}` has no argument `{}`", name.text);
                            self.report(
                                Diagnostic::error(&codes::WRONG_ARGUMENTS, message, name.span, "").with_mend(mend),
                            );
                            return None;
                        }
                    }
                }
            };
            match matched.get_mut(at) {
                None => {
                    let takes = counted(names.len(), "argument");
                    let message = format!("`{function}` takes {takes}, not {}", call.arguments.len());
                    let mend = if names.is_empty() {
                        "it takes none".into()
                    } else {
                        format!("it takes {}", names.join(", "))
                    };
                    self.report(Diagnostic::error(&codes::WRONG_ARGUMENTS, message, span, "").with_mend(mend));
                    return None;
                }
                Some(Some(_)) => {
                    let message = format!("the argument `{}` of `{function}` is given twice", names[at]);
                    self.report(Diagnostic::error(&codes::WRONG_ARGUMENTS, message, argument.value.span, "again here"));
                    return None;
                }
                Some(empty) => *empty = Some(&argument.value),
            }
        }
        Some(matched)
    }

    fn all_given(&mut self, function: &Function, matched: &[Option<&Expr>], span: Span) -> bool {
        let missing: Vec<&str> = function
            .parameters
            .iter()
            .zip(matched)
            .filter(|(parameter, given)| given.is_none() && parameter.default.is_none())
            .map(|(parameter, _)| parameter.name)
            .collect();
        if !missing.is_empty() {
            let message = format!("`{}` still needs {}", function.name, named(&missing));
            let mend = format!("write `{}`", signature(function));
            self.report(Diagnostic::error(&codes::WRONG_ARGUMENTS, message, span, "").with_mend(mend));
            return false;
        }
        for group in &function.groups {
            let given: Vec<&str> = function
                .parameters
                .iter()
                .zip(matched)
                .filter(|(parameter, given)| given.is_some() && group.parameters.contains(&parameter.name))
                .map(|(parameter, _)| parameter.name)
                .collect();
            if given.len() != 1 {
                let message = match given.len() {
                    0 => format!("`{}` needs one of {}", function.name, named(group.parameters)),
                    _ => format!("`{}` takes only one of {}", function.name, named(&given)),
                };
                self.report(
                    Diagnostic::error(&codes::WRONG_ARGUMENTS, message, span, "")
                        .with_mend(format!("name it: `{} = …`", group.parameters[0])),
                );
                return false;
            }
        }
        true
    }

    /// One argument against its parameter.
    fn argument(
        &mut self,
        function: &Function,
        parameter: &Parameter,
        expr: &Expr,
        letters: &mut Letters,
        chosen: &mut u8,
        scope: &Scope,
    ) -> Option<(Given, Vec<Typed>)> {
        match &parameter.accepts {
            Accepts::Range(inner) => {
                let ExprKind::Range(from, to) = &expr.kind else {
                    let message = format!("`{}` of `{}` is a range", parameter.name, function.name);
                    self.report(
                        Diagnostic::error(&codes::WRONG_ARGUMENTS, message, expr.span, "")
                            .with_mend("write its two ends: `a .. b`"),
                    );
                    return None;
                };
                let (low, high) = self.ends(from, to, scope);
                let low = self.accepted(function, parameter, inner, low, letters, chosen)?;
                let high = self.accepted(function, parameter, inner, high, letters, chosen)?;
                Some((Given::Range(low.node.clone(), high.node.clone()), vec![low, high]))
            }
            Accepts::Column(inner) => {
                let typed = self.factor(expr, &scope.of_columns());
                if typed.kind == Kind::Unknown {
                    return None;
                }
                if typed.shape == Shape::One {
                    self.not_a_column(function.name, &typed, scope);
                    return None;
                }
                let typed = self.accepted(function, parameter, inner, typed, letters, chosen)?;
                // A column is worked out whole, whatever row stands around.
                let part = Typed { local: typed.local && scope.table.is_none(), ..typed };
                Some((Given::Column(part.node.clone()), vec![part]))
            }
            accepts => {
                let typed = self.factor(expr, scope);
                let typed = self.accepted(function, parameter, accepts, typed, letters, chosen)?;
                Some((Given::Value(typed.node.clone()), vec![typed]))
            }
        }
    }

    /// A value against what a parameter accepts: its kind settled, held absolute.
    fn accepted(
        &mut self,
        function: &Function,
        parameter: &Parameter,
        accepts: &Accepts,
        typed: Typed,
        letters: &mut Letters,
        chosen: &mut u8,
    ) -> Option<Typed> {
        if typed.kind == Kind::Unknown {
            return None;
        }
        let wanted: Vec<Typing> = match accepts {
            Accepts::One(basic) => vec![typing_of(*basic)],
            Accepts::AnyOf(basics) => basics.iter().map(|basic| typing_of(*basic)).collect(),
            Accepts::Choice(words) => {
                if let Op::Text(word) = &typed.node.op
                    && typed.kind == Kind::Text(None)
                    && !words.contains(&&**word)
                {
                    let message = format!("`{}` of `{}` is one of {}", parameter.name, function.name, quoted(words));
                    let near = word_meant(word, words.iter().copied());
                    let mut diagnostic = Diagnostic::error(&codes::BAD_CHOICE, message, typed.span(), "");
                    diagnostic.mend = near.map(|near| format!("did you mean \"{near}\"?"));
                    self.report(diagnostic);
                    return None;
                }
                if let Kind::Text(Some(own)) = &typed.kind
                    && !own.iter().any(|word| words.contains(&word.as_str()))
                {
                    let message = format!("`{}` of `{}` is one of {}", parameter.name, function.name, quoted(words));
                    let diagnostic = Diagnostic::error(&codes::BAD_CHOICE, message, typed.span(), "");
                    self.report(diagnostic.with_mend(format!("this is {}, and none of them is", typed.kind.words())));
                    return None;
                }
                vec![Typing::of(Kind::Text(None))]
            }
            Accepts::Variable(letter) | Accepts::Amount(letter) => {
                let adds_up = matches!(accepts, Accepts::Amount(_));
                if !typed.kind.is_numeric() || (adds_up && typed.kind.is_point()) {
                    let wanted = if adds_up { "a number or a quantity that adds up" } else { "a number or a quantity" };
                    self.wrong_argument(function, parameter, &typed, format!("{wanted} is wanted"), None);
                    return None;
                }
                match letters.iter().find(|(known, ..)| known == letter) {
                    Some((_, kind, _)) => vec![Typing::of(kind.clone())],
                    None => {
                        letters.push((*letter, typed.kind.clone(), typed.wish.clone()));
                        vec![Typing::of(typed.kind.clone())]
                    }
                }
            }
            Accepts::DifferenceOf(letter) => {
                let kind = letters.iter().find(|(known, ..)| known == letter).map(|(_, kind, _)| kind.clone());
                match kind {
                    Some(kind) => vec![Typing::of(algebra::subtract(&kind, &kind).unwrap_or(Kind::Unknown))],
                    None => vec![Typing::of(typed.kind.clone())],
                }
            }
            Accepts::Range(_) | Accepts::Column(_) => return None,
        };
        let place = typed.span();
        if let Some(at) = wanted.iter().position(|kind| algebra::fits(&typed.kind, &kind.kind).is_ok()) {
            *chosen = at as u8;
            return self.settled(typed, &wanted[at], place).map(Typed::absolute);
        }
        let refusal = wanted.first().and_then(|kind| algebra::fits(&typed.kind, &kind.kind).err());
        let words: Vec<String> = wanted.iter().map(|one| one.kind.words()).collect();
        let own = wanted.first().and_then(|one| self.words_for(&typed, &one.kind));
        let mend = own.or(refusal.and_then(|refusal| refusal.mend));
        self.wrong_argument(function, parameter, &typed, format!("{} is wanted", words.join(", or ")), mend);
        None
    }

    fn wrong_argument(
        &mut self,
        function: &Function,
        parameter: &Parameter,
        typed: &Typed,
        wanted: String,
        mend: Option<String>,
    ) {
        let message =
            format!("`{}` of `{}`: {wanted}, and this is {}", parameter.name, function.name, typed.kind.words());
        let mut diagnostic = Diagnostic::error(&codes::WRONG_KIND, message, typed.span(), "");
        diagnostic.mend = mend;
        self.report(diagnostic);
    }

    /// The kind a call gives, and how it is shown if nothing else says so.
    fn returned(&mut self, function: &Function, letters: &Letters) -> (Kind, Option<Wish>) {
        let letter = |wanted: char| letters.iter().find(|(known, ..)| *known == wanted);
        match &function.returns {
            Returns::One(basic) | Returns::Column(basic) => (kind_of(*basic), wish_of(*basic)),
            Returns::Like(wanted) | Returns::ColumnLike(wanted) => match letter(*wanted) {
                Some((_, kind, wish)) => (kind.clone(), wish.clone()),
                None => (Kind::Unknown, None),
            },
            Returns::DifferenceOf(wanted) => match letter(*wanted) {
                Some((_, kind, _)) => (algebra::subtract(kind, kind).unwrap_or(Kind::Unknown), None),
                None => (Kind::Unknown, None),
            },
            Returns::Record(fields) | Returns::Rows(fields) => {
                let fields = fields
                    .iter()
                    .map(|field| RecordField { name: field.name, kind: kind_of(field.kind), wish: wish_of(field.kind) })
                    .collect();
                (Kind::Record(Arc::new(RecordKind { of: function.name, fields })), None)
            }
        }
    }

    /// A call of a definition with its arguments typed; see [`super::defines`].
    fn call_define(&mut self, name: &str, call: &tree::Call, span: Span, scope: &Scope) -> Typed {
        let Some(&(_, define)) = self.directory.defines.get(name) else { return Typed::unknown(span) };
        let names: Vec<&str> = define.parameters.iter().map(|parameter| parameter.name.text.as_str()).collect();
        let Some(matched) = self.matched(name, &names, call, span) else { return Typed::unknown(span) };
        let mut arguments = Vec::new();
        for (parameter, given) in define.parameters.iter().zip(matched) {
            match given {
                Some(expr) => {
                    let typed = self.value(expr, &scope.with_columns());
                    arguments.push(GivenArgument::Typed(typed));
                }
                None if parameter.default.is_some() => arguments.push(GivenArgument::Default),
                None => {
                    let message = format!("`{name}` still needs `{}`", parameter.name.text);
                    let mend = format!("write `{name}({})`", names.join(", "));
                    self.report(Diagnostic::error(&codes::WRONG_ARGUMENTS, message, span, "").with_mend(mend));
                    return Typed::unknown(span);
                }
            }
        }
        self.routine(name, arguments, span, scope)
    }
}

/// `f(a, b, named = default)` as help and messages show it.
pub fn signature(function: &Function) -> String {
    let parameters: Vec<String> = function
        .parameters
        .iter()
        .map(|parameter| match parameter.default {
            None => parameter.name.to_string(),
            Some(Default::Literal(text)) => format!("{} = {text}", parameter.name),
            Some(Default::SiteAtmosphere) => format!("{} = the site's", parameter.name),
            Some(Default::Absent) => format!("{}?", parameter.name),
        })
        .collect();
    format!("{}({})", function.name, parameters.join(", "))
}

fn named(names: &[&str]) -> String {
    names.iter().map(|name| format!("`{name}`")).collect::<Vec<_>>().join(", ")
}
