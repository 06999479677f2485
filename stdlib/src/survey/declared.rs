//! The declarations of the survey functions.

use dewline_lang::library::{
    Accepts, Arguments, Basic, Body, Failure, Function, Parameter, Returns, Value, field, maybe_field, parameter,
};

use super::tree::{NoTree, Tree};
use crate::seam::{all, part};

/// The functions of this subject.
pub fn functions() -> Vec<Function> {
    vec![downstream(), along(), farthest(), connected_ratio()]
}

fn of_rows(function: Function) -> Function {
    function.takes(parameter("segment", Accepts::column_of(Basic::Text), "name of each segment")).takes(
        parameter(
            "fed_from",
            Accepts::column_of(Basic::Text),
            "name of the segment before it; blank or the name of the outdoor unit for the first",
        )
        .with_gaps(),
    )
}

fn values(name: &'static str, about: &'static str) -> Parameter {
    parameter(name, Accepts::Column(Box::new(Accepts::Amount('a'))), about)
}

fn root(function: Function) -> Function {
    function.takes(
        parameter("root", Accepts::One(Basic::Text), "how the outdoor unit is called in `fed_from`").or("\"outdoor\""),
    )
}

fn tree(arguments: &Arguments<'_>) -> Result<Tree, Failure> {
    let (names, fed) = (arguments.texts("segment")?, arguments.texts("fed_from")?);
    Tree::new(names, fed, arguments.text("root")?).map_err(|error| said("segment", error))
}

/// What is wrong with the rows, by their names; `named` is the parameter that names them.
pub fn said(named: &'static str, error: NoTree) -> Failure {
    let quoted = |names: &[String]| names.iter().map(|name| format!("\"{name}\"")).collect::<Vec<_>>().join(", ");
    match error {
        NoTree::Empty => Failure::of(named, "there is no segment"),
        NoTree::Nameless(row) => Failure::of(named, format!("row {row} has no name")),
        NoTree::Double(name) => Failure::of(named, format!("two segments are called \"{name}\"")),
        NoTree::Unknown(rows) => {
            let rows: Vec<String> =
                rows.iter().take(5).map(|(name, from)| format!("\"{name}\" from \"{from}\"")).collect();
            Failure::of("fed_from", format!("fed from what is no segment: {}", rows.join(", ")))
                .with_mend("write the name of a segment; leave it blank for the one at the outdoor unit")
        }
        NoTree::Roots(rows) => {
            Failure::of("fed_from", format!("more than one segment is fed from the outdoor unit: {}", quoted(&rows)))
                .with_mend("one main for one table: keep liquid and gas side, and each system, apart")
        }
        NoTree::Ring(rows) => Failure::of("fed_from", format!("these feed one another in a ring: {}", quoted(&rows)))
            .with_mend("one of them is fed from elsewhere; the first segment's `fed_from` is blank"),
    }
}

fn column(values: Vec<f64>) -> Value {
    Value::Column(values.into_iter().map(part).collect())
}

fn downstream() -> Function {
    let function = Function::new(
        "downstream",
        "survey",
        "for each segment its own value and that of all behind it",
        Returns::ColumnLike('a'),
        Body::Values(|arguments| Ok(column(tree(arguments)?.downstream(arguments.numbers("value")?)))),
    );
    root(of_rows(function).takes(values("value", "what adds up, such as the capacity on a segment")))
        .equation("own value + Σ of the segments fed from it, and so on")
        .source("geometry")
        .valid("one tree: one segment at the outdoor unit, no ring, every name known; rows in any order")
        .example(EXAMPLE_DOWNSTREAM, "9.2 kW")
}

const EXAMPLE_DOWNSTREAM: &str = r#"table lines
  segment  | fed_from | capacity
  text     | text     | kW
  "main"   | ""       | 0
  "B1"     | "main"   | 2.8
  "ring"   | "main"   | 0
  "B2"     | "ring"   | 3.6
  "B3"     | "ring"   | 5.6
  behind : kW = downstream(lines.segment, lines.fed_from, lines.capacity)
end
answer = lines["ring"].behind"#;

fn along() -> Function {
    let function = Function::new(
        "along",
        "survey",
        "for each segment the sum from the outdoor unit up to its end",
        Returns::ColumnLike('a'),
        Body::Values(|arguments| Ok(column(tree(arguments)?.along(arguments.numbers("value")?)))),
    );
    root(of_rows(function).takes(values("value", "what adds up, such as length or rise")))
        .equation("value of the segment before it, and so on, + own value")
        .source("geometry")
        .valid("one tree, as `downstream`")
        .example(
            r#"table lines
  segment  | fed_from | length
  text     | text     | m
  "main"   | ""       | 20
  "ring"   | "main"   | 10
  "B3"     | "ring"   | 9
  run : m = along(lines.segment, lines.fed_from, lines.length)
end
answer = lines["B3"].run"#,
            "39 m",
        )
}

fn farthest() -> Function {
    let fields = vec![
        field("segment", Basic::Text, "name of the segment that ends farthest from the outdoor unit"),
        field("length", Basic::Unit("m or ft"), "length to its end, as laid"),
        maybe_field("equivalent_length", Basic::Unit("m or ft"), "with its fittings"),
        maybe_field("lift", Basic::Unit("m or ft"), "how far its end is above the outdoor unit; below nought beneath"),
        maybe_field("highest", Basic::Unit("m or ft"), "the highest end of all, above the outdoor unit"),
        maybe_field("lowest", Basic::Unit("m or ft"), "the lowest end of all; below nought beneath the outdoor unit"),
        field("total", Basic::Unit("m or ft"), "length of all segments"),
    ];
    let function = Function::new(
        "farthest",
        "survey",
        "the segment that ends farthest from the outdoor unit, and how high and low the ends are",
        Returns::Record(fields),
        Body::Values(far),
    );
    let length = |name, about| parameter(name, Accepts::column("m"), about);
    root(
        of_rows(function)
            .takes(length("length", "of each segment, as laid").within("0 m", "10000 m"))
            .takes(
                length("equivalent", "equivalent length of each segment, fittings and all")
                    .within("0 m", "20000 m")
                    .optional(),
            )
            .takes(
                length("rise", "from its beginning to its end, upwards; below nought downwards")
                    .within("-1000 m", "1000 m")
                    .optional(),
            ),
    )
    .equation("greatest sum of equivalent length (of length if none is given) from the outdoor unit")
    .source("geometry; the limits are the unit's own document's")
    .valid("one tree, as `downstream`; of segments equally far the first")
    .example(EXAMPLE_FARTHEST, "B3")
}

const EXAMPLE_FARTHEST: &str = r#"table lines
  segment  | fed_from | length | rise
  text     | text     | m      | m
  "main"   | ""       | 20     | 8
  "B1"     | "main"   | 6      | 0
  "ring"   | "main"   | 10     | 1
  "B3"     | "ring"   | 9      | 3
end
answer = farthest(lines.segment, lines.fed_from, lines.length, rise = lines.rise).segment"#;

fn far(arguments: &Arguments<'_>) -> Result<Value, Failure> {
    let tree = tree(arguments)?;
    let lengths = arguments.numbers("length")?;
    let along = tree.along(lengths);
    let equivalent = arguments.numbers("equivalent").ok().map(|values| tree.along(values));
    let rises = arguments.numbers("rise").ok().map(|values| tree.along(values));
    let measure = equivalent.as_ref().unwrap_or(&along);
    let mut most = 0;
    for (row, value) in measure.iter().enumerate() {
        if measure.get(most).is_some_and(|far| value > far) {
            most = row;
        }
    }
    let name = arguments.texts("segment")?.get(most).copied().flatten().unwrap_or("");
    let at = |values: &Option<Vec<f64>>, parameter: &str| {
        values.as_ref().and_then(|values| values.get(most)).copied().map(Value::from).ok_or_else(|| lacks(parameter))
    };
    let end = |fold: fn(f64, f64) -> f64| {
        rises
            .as_ref()
            .and_then(|rises| rises.iter().copied().reduce(fold))
            .map(Value::from)
            .ok_or_else(|| lacks("rise"))
    };
    Ok(Value::Record(vec![
        part(name),
        part(along.get(most).copied().unwrap_or(0.0)),
        at(&equivalent, "equivalent"),
        at(&rises, "rise"),
        end(f64::max),
        end(f64::min),
        part(lengths.iter().sum::<f64>()),
    ]))
}

fn lacks(parameter: &str) -> Failure {
    Failure::new(format!("this part needs `{parameter}`"))
}

fn connected_ratio() -> Function {
    let capacity = |name, about| parameter(name, Accepts::unit("kW"), about).within("0.01 kW", "100000 kW");
    Function::new(
        "connected_ratio",
        "survey",
        "capacity of the indoor units as a share of the outdoor unit's",
        Returns::unit("%"),
        Body::Numbers(|numbers| {
            let [indoor, outdoor] = all(numbers)?;
            Ok(indoor / outdoor)
        }),
    )
    .takes(capacity("indoor_sum", "sum of the indoor units' capacities"))
    .takes(capacity("outdoor", "of the outdoor unit"))
    .equation("indoor / outdoor")
    .source("definition; the band is the unit's own document's (50 to 130 % is common practice, no source)")
    .valid("both by the same rating; capacity indexes as the unit's own document counts them")
    .example("connected_ratio(33.6 kW, 28 kW)", "120 %")
}
