//! What a function may be handed and may answer, where that is one of certain words.

use super::{Accepts, Argument, Basic, ColumnView, Failure, Field, Function, Parameter, Returns, Value};

impl Function {
    /// A word of an answer that the declaration does not list. That is a fault of the library: a sheet compares with the
    /// words declared, so that a word beside them would pass where it must not.
    pub fn undeclared_word(&self, answer: &Value) -> Option<String> {
        match (&self.returns, answer) {
            (Returns::One(basic) | Returns::Column(basic), answer) => outside(*basic, answer),
            (Returns::Record(fields), Value::Record(values)) => in_record(fields, values),
            (Returns::Rows(fields), Value::Column(rows)) => rows.iter().flatten().find_map(|row| match row {
                Value::Record(values) => in_record(fields, values),
                _ => None,
            }),
            _ => None,
        }
    }
}

impl Parameter {
    /// Why a word that came from a text is none that this parameter takes. Written words are checked before anything runs.
    pub fn refuses_word(&self, function: &str, argument: &Argument<'_>) -> Option<Failure> {
        let words = match &self.accepts {
            Accepts::Choice(words) => words,
            Accepts::Column(inner) => match **inner {
                Accepts::Choice(words) => words,
                _ => return None,
            },
            _ => return None,
        };
        let is_other = |text: &&str| !words.contains(text);
        let other = match argument {
            Argument::Text(text) => Some(*text).filter(is_other),
            Argument::Column(ColumnView::Texts(texts)) => texts.iter().flatten().copied().find(is_other),
            _ => None,
        }?;
        let message = format!("`{}` of `{function}` is \"{other}\" here, which is none of its words", self.name);
        let all = words.iter().map(|word| format!("\"{word}\"")).collect::<Vec<_>>().join(", ");
        Some(Failure::of(self.name, message).with_mend(format!("it is one of {all}")))
    }
}

fn in_record(fields: &[Field], values: &[Result<Value, Failure>]) -> Option<String> {
    fields.iter().zip(values).find_map(|(field, value)| outside(field.kind, value.as_ref().ok()?))
}

fn outside(basic: Basic, answer: &Value) -> Option<String> {
    let Basic::OneOf(words) = basic else { return None };
    match answer {
        Value::Text(text) if !words.contains(&text.as_str()) => Some(text.clone()),
        Value::Column(rows) => rows.iter().flatten().find_map(|row| outside(basic, row)),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use crate::library::{Body, Failure, Function, Returns, Value, field, maybe_field};

    use super::*;

    const WORDS: Basic = Basic::OneOf(&["holds", "loses"]);

    fn function(returns: Returns) -> Function {
        Function::new("f", "test", "a word", returns, Body::Values(|_| Ok("holds".into())))
    }

    #[test]
    fn a_word_beside_those_declared_is_found_wherever_it_stands() {
        let text = |word: &str| Value::from(word);
        assert_eq!(function(Returns::One(WORDS)).undeclared_word(&text("holds")), None);
        assert_eq!(function(Returns::One(WORDS)).undeclared_word(&text("held")).as_deref(), Some("held"));
        let record = |word: &str| Value::Record(vec![Ok(1.0.into()), Ok(text(word)), Err(Failure::new("absent"))]);
        let fields = vec![field("a", Basic::Number, ""), field("verdict", WORDS, ""), maybe_field("other", WORDS, "")];
        let of_record = function(Returns::Record(fields.clone()));
        assert_eq!(of_record.undeclared_word(&record("loses")), None);
        assert_eq!(of_record.undeclared_word(&record("lost")).as_deref(), Some("lost"));
        let rows = Value::Column(vec![Ok(record("holds")), Err(Failure::new("broken")), Ok(record("lost"))]);
        assert_eq!(function(Returns::Rows(fields)).undeclared_word(&rows).as_deref(), Some("lost"));
        let column = Value::Column(vec![Ok(text("holds")), Ok(text("held"))]);
        assert_eq!(function(Returns::Column(WORDS)).undeclared_word(&column).as_deref(), Some("held"));
    }
}
