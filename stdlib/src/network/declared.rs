//! The declarations of the network: what follows for each row, and for the whole.

use dewline_lang::library::{
    Accepts, Argument, Arguments, Basic, Body, Failure, Field, Function, Parameter, Returns, Value, field, maybe_field,
    parameter,
};

use super::derived::Derived;
use super::factor_declared::charge_factor;
use super::node::{Kind, Network, Node, Whole};
use super::rules::Wrong;
use super::system::{Greatest, System};
use crate::rows::{maybe_numbers, taken};
use crate::seam::{part, texts};
use crate::survey::said;

/// The functions of this subject.
pub fn functions() -> Vec<Function> {
    vec![pipe_network(), network(), charge_factor()]
}

fn of_rows(function: Function) -> Function {
    let length = |name, about| parameter(name, Accepts::column("m"), about);
    let od = |name, about| column(name, "m", about).within("3 mm", "150 mm").with_gaps().optional();
    function
        .takes(texts("node", "name of what stands at the end of each row's pipes"))
        .takes(texts("kind", "module, modules, joint, header, changeover box, valve, indoor or capped"))
        .takes(texts("fed_from", "name of the row before it; `outdoor` for the field main and for modules"))
        .takes(length("length", "of the row's pipes, as laid").within("0 m", "10000 m"))
        .takes(length("rise", "of its end above its beginning; below nought downwards").within("-1000 m", "1000 m"))
        .takes(column("capacity", "kW", "of an indoor unit or module; nought elsewhere").within("0 kW", "100000 kW"))
        .takes(
            length("added", "equivalent length of its elbows and of what stands at its end, from the unit's document")
                .within("0 m", "10000 m")
                .optional(),
        )
        .takes(numbers("pipes", "two pipes, or three where a hot gas pipe runs to changeover boxes"))
        .takes(numbers("port", "port of the changeover box that feeds the row"))
        .takes(od("liquid_od", "outside diameter of the liquid pipe"))
        .takes(od("gas_od", "of the gas pipe"))
        .takes(od("third_od", "of the third pipe"))
        .takes(
            parameter("outdoor_capacity", Accepts::unit("kW"), "of a single outdoor unit that has no module rows")
                .within("0.1 kW", "100000 kW")
                .optional(),
        )
        .takes(
            parameter("cooling_only", Accepts::One(Basic::Flag), "no unit heats: three pipes need no changeover box")
                .or("false"),
        )
        .source("geometry; the limits are the unit's own document's")
        .valid("one system, each node once; the outdoor unit has no row: it is where the field main begins")
}

fn column(name: &'static str, unit: &'static str, about: &'static str) -> Parameter {
    parameter(name, Accepts::column(unit), about)
}

fn numbers(name: &'static str, about: &'static str) -> Parameter {
    parameter(name, Accepts::column_of(Basic::Number), about).with_gaps().optional()
}

fn joined<'a>(arguments: &Arguments<'a>) -> Result<Network<'a>, Failure> {
    let (names, kinds, fed) = (arguments.texts("node")?, arguments.texts("kind")?, arguments.texts("fed_from")?);
    let (lengths, rises) = (arguments.numbers("length")?, arguments.numbers("rise")?);
    let capacities = arguments.numbers("capacity")?;
    let added = maybe_numbers(arguments, "added");
    let maybe = |name: &'static str, row: usize| taken(maybe_numbers(arguments, name), row);
    let mut nodes = Vec::with_capacity(names.len());
    for (row, name) in names.iter().enumerate() {
        let name = name.map(str::trim).unwrap_or("");
        let written = kinds.get(row).copied().flatten().unwrap_or("");
        let kind = Kind::named(written).ok_or_else(|| unknown_kind(name, written))?;
        let at = |values: &[f64]| values.get(row).copied().unwrap_or(0.0);
        nodes.push(Node {
            name,
            kind,
            length: at(lengths),
            added: added.map_or(0.0, at),
            rise: at(rises),
            capacity: at(capacities),
            pipes: maybe("pipes", row),
            port: maybe("port", row),
            ods: [maybe("liquid_od", row), maybe("gas_od", row), maybe("third_od", row)],
        });
    }
    let whole = Whole {
        outdoor_capacity: arguments.maybe_number("outdoor_capacity"),
        cooling_only: matches!(arguments.get("cooling_only"), Argument::Flag(true)),
    };
    Network::new(nodes, fed, whole).map_err(|wrong| match wrong {
        Wrong::Tree(error) => said("node", error),
        Wrong::Rules(faults) => Failure::of("node", faults.join("; ")),
    })
}

fn unknown_kind(name: &str, written: &str) -> Failure {
    let known: Vec<&str> = Kind::ALL.iter().map(|(_, name)| *name).collect();
    Failure::of("kind", format!("\"{written}\" of {name} is no kind of node")).with_mend(known.join(", "))
}

fn length_field(name: &'static str, about: &'static str) -> Field {
    field(name, Basic::Unit("m or ft"), about)
}

fn maybe_length(name: &'static str, about: &'static str) -> Field {
    maybe_field(name, Basic::Unit("m or ft"), about)
}

fn pipe_network() -> Function {
    let fields = vec![
        field("side", Basic::OneOf(&["outdoor", "field"]), "`outdoor` for modules and their kit, else `field`"),
        length_field("actual", "pipe from the outdoor unit to the row's end"),
        length_field("equivalent", "the same with elbows, joints, headers and boxes"),
        length_field("level", "the row's end above the outdoor unit; below nought beneath"),
        field("behind", Basic::Unit("kW or Btu/h"), "capacity of the units behind it, its own with it"),
        maybe_length("from_first", "pipe from the first branch; none before it"),
        maybe_length("from_first_equivalent", "the same by equivalent length"),
        maybe_length("from_box", "pipe from the changeover box that feeds it"),
        field("grows", Basic::Flag, "a pipe of the row is wider than the same pipe before it"),
        field("behind_header", Basic::Flag, "it is a joint or header behind a header, which many documents forbid"),
    ];
    of_rows(Function::new(
        "pipe_network",
        "network",
        "for each row of a piping network its lengths and level from the outdoor unit and the capacity behind it",
        Returns::Rows(fields),
        Body::Values(|arguments| {
            let network = joined(arguments)?;
            let rows = Derived::of(&network);
            Ok(Value::Column((0..network.nodes.len()).map(|row| Ok(record_of(&network, &rows, row))).collect()))
        }),
    ))
    .equation("sums along the way from the outdoor unit; capacity summed over all units behind a row")
    .example(EXAMPLE_ROWS, "8.8 kW")
}

fn record_of(network: &Network<'_>, rows: &Derived, row: usize) -> Value {
    let number = |values: &[f64]| part(values.get(row).copied().unwrap_or(0.0));
    let flag = |values: &[bool]| part(values.get(row).copied().unwrap_or(false));
    let name = network.name(row);
    let from_first = rows.from_first.get(row).copied().flatten();
    let before = || Failure::new(format!("{name} is not behind the first branch"));
    let outdoor = network.nodes.get(row).is_some_and(|node| node.kind.is_outdoor());
    let from_box = rows.from_box.get(row).copied().flatten();
    Value::Record(vec![
        part(if outdoor { "outdoor" } else { "field" }),
        number(&rows.actual),
        number(&rows.equivalent),
        number(&rows.level),
        number(&rows.behind),
        from_first.map(|(actual, _)| actual.into()).ok_or_else(before),
        from_first.map(|(_, equivalent)| equivalent.into()).ok_or_else(before),
        from_box.map(Value::from).ok_or_else(|| Failure::new(format!("{name} hangs on no changeover box"))),
        flag(&rows.grows),
        flag(&rows.behind_header),
    ])
}

const EXAMPLE_ROWS: &str = r#"table net
  node | kind     | fed_from  | length | rise | capacity
  text | text     | text      | m      | m    | kW
  "J1" | "joint"  | "outdoor" | 20     | -6   | 0
  "U1" | "indoor" | "J1"      | 8      | 0.5  | 3.6
  "U2" | "indoor" | "J1"      | 12     | 0.5  | 5.2
  way = pipe_network(net.node, net.kind, net.fed_from, net.length, net.rise, net.capacity, outdoor_capacity = 8 kW)
end
answer = net["J1"].way.behind as kW"#;

const EXAMPLE: &str = r#"table net
  node | kind     | fed_from  | length | rise | capacity
  text | text     | text      | m      | m    | kW
  "J1" | "joint"  | "outdoor" | 20     | -6   | 0
  "U1" | "indoor" | "J1"      | 8      | 0.5  | 3.6
  "U2" | "indoor" | "J1"      | 12     | 0.5  | 5.2
end
answer = network(net.node, net.kind, net.fed_from, net.length, net.rise, net.capacity, outdoor_capacity = 8 kW).farthest"#;

fn network() -> Function {
    let fields = vec![
        length_field("total", "all field pipe, one way"),
        length_field("total_with_modules", "the same with the pipes that join modules"),
        field("farthest", Basic::Text, "the indoor unit with the longest pipe"),
        length_field("farthest_actual", "its pipe from the outdoor unit"),
        field("farthest_by_equivalent", Basic::Text, "the indoor unit with the greatest equivalent length"),
        length_field("farthest_equivalent", "that equivalent length"),
        maybe_field("first_branch", Basic::Text, "the first node that feeds two or more"),
        maybe_length("after_first", "longest pipe from there to an indoor unit"),
        maybe_length("after_first_equivalent", "the same by equivalent length"),
        maybe_length("after_first_difference", "longest less shortest pipe from there to an indoor unit"),
        length_field("outdoor_above", "highest module above the lowest indoor unit, or nought"),
        length_field("outdoor_below", "highest indoor unit above the lowest module, or nought"),
        length_field("between_indoors", "highest less lowest indoor unit"),
        maybe_length("between_modules", "highest less lowest module"),
        maybe_length("module_pipe", "longest pipe to a module"),
        maybe_length("box_to_unit", "longest pipe from a changeover box to its unit"),
        maybe_length("box_to_box", "highest less lowest changeover box"),
        maybe_length("levels_at_box", "highest less lowest unit behind one changeover box"),
        maybe_field("ports_used", Basic::Number, "greatest number of a port"),
        maybe_field("units_at_port", Basic::Number, "most units behind one port, which run in one mode"),
        maybe_field("units_at_port_of", Basic::Text, "the changeover box of that port"),
        maybe_field("capacity_at_port", Basic::Unit("kW or Btu/h"), "greatest capacity behind one port"),
        maybe_field("capacity_at_box", Basic::Unit("kW or Btu/h"), "greatest capacity behind one changeover box"),
        maybe_field("fullest_box", Basic::Text, "that changeover box"),
        field("connected", Basic::Unit("%"), "capacity of the indoor units over that of the outdoor unit"),
        field("units", Basic::Number, "indoor units"),
    ];
    of_rows(Function::new(
        "network",
        "network",
        "the figures of a piping network that a unit's document limits: lengths, levels, branches, boxes, capacity",
        Returns::Record(fields),
        Body::Values(|arguments| {
            let network = joined(arguments)?;
            let rows = Derived::of(&network);
            let system = System::of(&network, &rows).ok_or_else(|| Failure::of("kind", "there is no indoor unit"))?;
            Ok(record(&system))
        }),
    ))
    .equation(
        "greatest and least of the sums along the ways; joints of the modules' kit, valves and reducers are no branch",
    )
    .example(EXAMPLE, "U2")
}

fn record(system: &System<'_>) -> Value {
    let no_branch = || Failure::new("the main does not branch");
    let no_module = || Failure::new("there are no module rows");
    let no_box = || Failure::new("no indoor unit hangs on a changeover box");
    let after = system.after_first.ok_or_else(no_branch);
    let modules = system.modules.ok_or_else(no_module);
    let boxes = system.boxes.as_ref().ok_or_else(no_box);
    let figure = |found: Result<f64, Failure>| found.map(Value::from);
    let name = |found: Result<Greatest<'_>, Failure>| found.map(|(_, name)| Value::from(name));
    Value::Record(vec![
        part(system.total),
        part(system.total_with_modules),
        part(system.farthest.1),
        part(system.farthest.0),
        part(system.farthest_equivalent.1),
        part(system.farthest_equivalent.0),
        system.first_branch.map(Value::from).ok_or_else(no_branch),
        figure(after.clone().map(|((actual, _), _, _)| actual)),
        figure(after.clone().map(|(_, equivalent, _)| equivalent)),
        figure(after.map(|(_, _, difference)| difference)),
        part(system.outdoor_above),
        part(system.outdoor_below),
        part(system.between_indoors),
        figure(modules.clone().map(|(apart, _)| apart)),
        figure(modules.map(|(_, (pipe, _))| pipe)),
        figure(boxes.clone().map(|boxes| boxes.to_unit.0)),
        figure(boxes.clone().map(|boxes| boxes.apart)),
        figure(boxes.clone().map(|boxes| boxes.levels.0)),
        figure(boxes.clone().map(|boxes| boxes.ports_used.0)),
        figure(boxes.clone().map(|boxes| boxes.units_at_port.0)),
        name(boxes.clone().map(|boxes| boxes.units_at_port)),
        figure(boxes.clone().map(|boxes| boxes.capacity_at_port.0)),
        figure(boxes.clone().map(|boxes| boxes.capacity.0)),
        name(boxes.map(|boxes| boxes.capacity)),
        part(system.connected),
        part(system.units as f64),
    ])
}
