//! The declarations of concentrations in rooms: against a stated edition, never a pass.

use dewline_lang::library::{
    Accepts, Arguments, Basic, Body, Failure, Function, Parameter, Returns, Value, field, maybe_field, parameter,
};
use uom::si::f64::{Length, Mass, MassDensity, Volume};

use super::declared::{charge, guarded};
use super::limits::{self, Governs};
use super::rooms::{Limits, measures, smallest};
use crate::parameters::of_refrigerant;
use crate::refusal::refrigerant;
use crate::seam::{given, part, quantity, texts};

const AS_STATED: &str = "as stated";
const EDITIONS: &[&str] = &["ASHRAE 34-2019", "EN 378-1:2016+A1:2020", AS_STATED];
const LIMITS_SOURCE: &str = "ASHRAE 34-2019, partly by a public mechanical code, partly from memory; EN 378-1:2016+A1:2020 by \
                             a transcription; or what you state with its source";

/// The functions of concentrations.
pub(super) fn functions() -> Vec<Function> {
    vec![concentration(), concentration_limit(), room_check(), mitigation()]
}

fn room_volume() -> Parameter {
    parameter("room_volume", Accepts::unit("m3"), "of the smallest room that a leak can collect in")
        .within("0.5 m3", "1000000 m3")
}

fn of_limit(function: Function) -> Function {
    function
        .takes(
            parameter("altitude", Accepts::unit("m"), "of the building; needed, for oxygen gets short")
                .within("-500 m", "5000 m"),
        )
        .takes(parameter("edition", Accepts::Choice(EDITIONS), "standard and edition; never mix them"))
        .takes(parameter(
            "occupancy",
            Accepts::Choice(&["general", "institutional"]),
            "institutional: people who cannot leave by themselves",
        ))
}

/// Optional ones come last, so that the others can be given by their order.
fn of_stated(function: Function) -> Function {
    function
        .takes(
            parameter("stated", Accepts::unit("kg/m3"), "limit of your own table, with `edition = \"as stated\"`")
                .within("0.0001 kg/m3", "10 kg/m3")
                .optional(),
        )
        .takes(parameter("source", Accepts::One(Basic::Text), "standard and edition of the stated limit").or("\"\""))
}

fn concentration() -> Function {
    guarded(
        "concentration",
        "mass of refrigerant in each volume of a room if all leaks",
        Returns::unit("g/m3 or lb/ft3"),
        Body::Values(|arguments| {
            let (mass, volume): (Mass, Volume) = (given(arguments, "mass")?, given(arguments, "room_volume")?);
            Ok((mass / volume).value.into())
        }),
    )
    .takes(charge())
    .takes(room_volume())
    .equation("m/V")
    .source("definition")
    .valid("mixed; near the floor or the leak it is more")
    .example("concentration(8 kg, 100 m3) as g/m3", "80 g/m3")
}

fn concentration_limit() -> Function {
    let fields = vec![
        field("limit", Basic::Unit("g/m3 or lb/ft3"), "greatest concentration allowed"),
        field("governs", Basic::OneOf(Governs::WORDS), "what governs it; the tabled limit is also what you stated"),
        field("edition", Basic::Text, "standard and edition that it stands in"),
    ];
    let function = guarded(
        "concentration_limit",
        "greatest concentration allowed where people are",
        Returns::Record(fields),
        Body::Values(|arguments| {
            let (limit, governs, edition) = limit(arguments)?;
            Ok(Value::Record(vec![part(limit.value), part(governs.name()), part(edition)]))
        }),
    )
    .takes(of_refrigerant());
    of_stated(of_limit(function))
        .equation(
            "ASHRAE 34: least of the tabled limit and the oxygen limit at the altitude; EN 378: practical limit; half for \
             institutional by ASHRAE 15 and for a stated limit",
        )
        .source(LIMITS_SOURCE)
        .valid("refrigerants with a built-in figure, or your own; where editions differ and none was seen there is no number")
        .example("concentration_limit(R-410A, 1800 m, \"ASHRAE 34-2019\", \"general\").limit as g/m3 to 1", "165 g/m3")
        .example(
            "concentration_limit(R-32, 0 m, \"EN 378-1:2016+A1:2020\", \"general\").limit as g/m3 to 1",
            "61 g/m3",
        )
        .example(
            "concentration_limit(R-454B, 0 m, \"as stated\", \"general\", stated = 49 g/m3, source = \"standard, year\").edition",
            "standard, year",
        )
}

/// The limit, what governs it, and the edition it stands in.
fn limit(arguments: &Arguments<'_>) -> Result<(MassDensity, Governs, String), Failure> {
    let r = refrigerant(arguments.text("refrigerant")?)?;
    let edition = arguments.text("edition")?;
    let altitude: Length = given(arguments, "altitude")?;
    let institutional = arguments.text("occupancy")? == "institutional";
    let half = |limit: MassDensity| if institutional { limit / 2.0 } else { limit };
    if edition == AS_STATED {
        let source = arguments.text("source")?.trim();
        let stated = arguments.maybe_number("stated").ok_or_else(|| {
            Failure::of("edition", "an edition as stated needs its limit").with_mend("add `stated = … g/m3`")
        })?;
        if source.is_empty() {
            return Err(Failure::of("stated", "a stated limit needs its source")
                .with_mend("add `source = \"standard and edition\"`"));
        }
        let (limit, governs) = limits::with_oxygen(r, quantity(stated), altitude);
        return Ok((half(limit), governs, source.to_string()));
    }
    if arguments.maybe_number("stated").is_some() {
        return Err(Failure::of("stated", format!("a stated limit and that of {edition} would be mixed"))
            .with_mend("write `edition = \"as stated\"`"));
    }
    let named = limits::Edition::named(edition);
    let (found, governs) = limits::concentration_limit(r, altitude, named).ok_or_else(|| {
        Failure::of("refrigerant", format!("no limit of {} by {edition} is built in", r.designation()))
            .with_mend("take it from the edition in force: `edition = \"as stated\", stated = … g/m3, source = \"…\"`")
    })?;
    let limit = if named == limits::Edition::Ashrae34Of2019 { half(found) } else { found };
    Ok((limit, governs, edition.to_string()))
}

const WITHIN: &str = "within the stated limit";
const BEYOND: &str = "beyond the stated limit";
const TOO_CLOSE: &str = "too close to say";
const NOT_DECIDED: &str = "not decided here";

fn room_check() -> Function {
    let fields = vec![
        field(
            "verdict",
            Basic::OneOf(&[WITHIN, BEYOND, TOO_CLOSE, NOT_DECIDED]),
            "how the charge stands to the limit; never a pass. Not decided above 1000 m where the edition knows no altitude and \
             oxygen gets short",
        ),
        field("room", Basic::Text, "the room that governs: the smallest"),
        field("volume", Basic::Unit("m3 or ft3"), "its volume"),
        field("concentration", Basic::Unit("g/m3 or lb/ft3"), "if all leaks into this room"),
        field("limit", Basic::Unit("g/m3 or lb/ft3"), "by the edition named"),
        field("most", Basic::Unit("kg or lb"), "charge that reaches the limit"),
        field("margin", Basic::Unit("kg or lb"), "what is left of it; below nought beyond"),
        field("governs", Basic::OneOf(Governs::WORDS), "what governs the limit"),
        field("edition", Basic::Text, "standard and edition of the limit"),
    ];
    let function = guarded(
        "room_check",
        "concentration in the smallest room against the limit of an edition",
        Returns::Record(fields),
        Body::Values(checked),
    )
    .takes(of_refrigerant())
    .takes(charge())
    .takes(room_volume().optional());
    let volumes = parameter("volumes", Accepts::column("m3"), "of every room that a leak can collect in");
    of_stated(of_limit(function))
        .takes(volumes.within("0.5 m3", "1000000 m3").optional())
        .takes(texts("rooms", "names of the rooms of `volumes`").optional())
        .takes(
            texts(
                "connected",
                "rows of one name are rooms joined for good, by openings that your standard counts; blank: by itself",
            )
            .with_gaps()
            .optional(),
        )
        .takes(
            parameter("mass_uncertainty", Accepts::unit("kg"), "expanded uncertainty of the charge")
                .within("0 kg", "1000 kg")
                .or("0 kg"),
        )
        .one_of(&["room_volume", "volumes"])
        .equation("m ≤ limit·V of the smallest room; too close to say where the margin is less than the uncertainty")
        .source("ASHRAE 15 and EN 378-1, from memory; limits as `concentration_limit`")
        .valid("the whole system's charge; every room that can collect the leak, ducts and ceiling spaces by your standard")
        .example(
            "room_check(R-32, 3 kg, 50 m3, 0 m, \"EN 378-1:2016+A1:2020\", \"general\").most as kg to 0.01",
            "3.05 kg",
        )
        .example(
            r#"table house
  room      | volume | suite
  text      | m3     | text
  "Exam 1"  | 30     | ""
  "Office"  | 22     | "front"
  "Waiting" | 40     | "front"
end
answer = room_check(R-32, 1.5 kg, altitude = 0 m, edition = "EN 378-1:2016+A1:2020", occupancy = "general", volumes = house.volume, rooms = house.room, connected = house.suite).room"#,
            "Exam 1",
        )
}

fn checked(arguments: &Arguments<'_>) -> Result<Value, Failure> {
    let (limit, governs, edition) = limit(arguments)?;
    let mass: Mass = given(arguments, "mass")?;
    let (room, volume) = governing_room(arguments)?;
    let most: Mass = limit * volume;
    let margin = most - mass;
    let uncertainty = arguments.number("mass_uncertainty")?;
    let short_of_oxygen = || -> Result<bool, Failure> {
        let r = refrigerant(arguments.text("refrigerant")?)?;
        Ok((mass + quantity(uncertainty)) / volume > limits::oxygen_limit(r, given(arguments, "altitude")?))
    };
    let verdict = match margin.value {
        left if left >= uncertainty && governs == Governs::TableWithoutAltitude && short_of_oxygen()? => NOT_DECIDED,
        left if left.abs() < uncertainty => TOO_CLOSE,
        left if left >= 0.0 => WITHIN,
        _ => BEYOND,
    };
    Ok(Value::Record(vec![
        part(verdict),
        part(room),
        part(volume.value),
        part((mass / volume).value),
        part(limit.value),
        part(most.value),
        part(margin.value),
        part(governs.name()),
        part(edition),
    ]))
}

fn governing_room(arguments: &Arguments<'_>) -> Result<(String, Volume), Failure> {
    let Ok(volumes) = arguments.numbers("volumes") else {
        return Ok(("the room".to_string(), given(arguments, "room_volume")?));
    };
    let text = |parameter: &'static str, row: usize| {
        let column = arguments.texts(parameter).ok();
        column.and_then(|column| column.get(row)).copied().flatten().map_or("", str::trim)
    };
    let rooms: Vec<(&str, Volume, &str)> = volumes
        .iter()
        .enumerate()
        .map(|(row, volume)| (text("rooms", row), quantity(*volume), text("connected", row)))
        .collect();
    let space = smallest(&rooms).ok_or_else(|| Failure::of("volumes", "there is no room"))?;
    Ok((space.names.join(", "), space.volume))
}

/// What the alternative rule can ask for.
const MEASURES: &[&str] = &["no measure", "one measure", "two measures", "not allowed", "not by this rule"];

fn mitigation() -> Function {
    let fields = vec![
        field("verdict", Basic::OneOf(MEASURES), "what the rule asks for"),
        maybe_field("measures", Basic::Number, "how many"),
        field("concentration", Basic::Unit("g/m3 or lb/ft3"), "if all leaks into this room"),
        field("minimum", Basic::Unit("g/m3 or lb/ft3"), "limit with minimum ventilation (QLMV)"),
        field("additional", Basic::Unit("g/m3 or lb/ft3"), "limit with additional ventilation (QLAV)"),
        field("most", Basic::Unit("kg or lb"), "the greatest charge that the rule is for"),
        field("edition", Basic::Text, "standard and edition"),
    ];
    let own =
        |name, about| parameter(name, Accepts::unit("kg/m3"), about).within("0.0001 kg/m3", "10 kg/m3").optional();
    guarded(
        "mitigation",
        "how many measures a charge in a room asks for by the alternative rule",
        Returns::Record(fields),
        Body::Values(mitigated),
    )
    .takes(of_refrigerant())
    .takes(charge())
    .takes(room_volume())
    .takes(parameter("lowest_underground", Accepts::One(Basic::Flag), "true: the lowest floor below ground").or("false"))
    .takes(own("stated_limit", "concentration limit (RCL) of your own table"))
    .takes(own("stated_minimum", "QLMV of your own table"))
    .takes(own("stated_additional", "QLAV of your own table"))
    .takes(parameter("source", Accepts::One(Basic::Text), "standard and edition of the stated limits").or("\"\""))
    .equation("m/V up to QLMV none, up to QLAV one, above two; lowest underground: up to RCL none, QLMV one, QLAV two, above not allowed; up to 150 kg, and for A2L up to 195 m3·LFL")
    .source("EN 378-1:2016+A1:2020, C.3: limits by a transcription, the rule from memory: check the edition in force")
    .valid("systems and rooms that the clause is for; measures are ventilation, shut-off valves or alarm, as it says")
    .example("mitigation(R-32, 24 kg, 380 m3).verdict", "one measure")
    .example("mitigation(R-32, 500 kg, 10000 m3).verdict", "not by this rule")
}

fn mitigated(arguments: &Arguments<'_>) -> Result<Value, Failure> {
    let r = refrigerant(arguments.text("refrigerant")?)?;
    let own = ["stated_limit", "stated_minimum", "stated_additional"].map(|name| arguments.maybe_number(name));
    let source = arguments.text("source")?.trim();
    let (limits, edition) = match own {
        [Some(concentration), Some(minimum), Some(additional)] if !source.is_empty() => {
            let [concentration, minimum, additional] = [concentration, minimum, additional].map(quantity);
            (Limits { concentration, minimum, additional }, source)
        }
        [None, None, None] => {
            let found = limits::alternative(r).ok_or_else(|| {
                Failure::of("refrigerant", format!("no limits of {} for this rule are built in", r.designation()))
                    .with_mend("give `stated_limit`, `stated_minimum`, `stated_additional` and `source`")
            })?;
            (found, "EN 378-1:2016+A1:2020, C.3")
        }
        _ => {
            return Err(Failure::new("stated limits go all three together, with their source")
                .with_mend("give `stated_limit`, `stated_minimum`, `stated_additional` and `source`"));
        }
    };
    if !(limits.concentration <= limits.minimum && limits.minimum <= limits.additional) {
        return Err(Failure::of("stated_minimum", "the three limits must rise")
            .with_mend("`stated_limit` is the least, `stated_minimum` the next, `stated_additional` the greatest"));
    }
    let (mass, volume): (Mass, Volume) = (given(arguments, "mass")?, given(arguments, "room_volume")?);
    let cap = limits::alternative_cap(r);
    let found = measures(mass, volume, &limits, arguments.flag("lowest_underground")?).filter(|_| mass <= cap);
    let verdict = match found {
        _ if mass > cap => "not by this rule",
        Some(0) => "no measure",
        Some(1) => "one measure",
        Some(_) => "two measures",
        None => "not allowed",
    };
    Ok(Value::Record(vec![
        part(verdict),
        found.map(|count| f64::from(count).into()).ok_or_else(|| Failure::new("no number of measures allows it")),
        part((mass / volume).value),
        part(limits.minimum.value),
        part(limits.additional.value),
        part(cap.value),
        part(edition),
    ]))
}
