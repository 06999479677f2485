//! Twelve indoor units and four systems, each with a fault that a fitter would name: what the functions say of them.
//!
//! The readings are invented; saturation and discharge of the systems were worked with CoolProp 8.0.0.

#![allow(clippy::unwrap_used, clippy::panic)]

use dewline_lang::host::NoFiles;
use dewline_lang::job::{Settings, check};
use dewline_stdlib::library;

/// What the cells of a sheet are shown as.
fn shown(sheet: &str, names: &[&str]) -> Vec<String> {
    let library = library();
    let checked = check(&library, &NoFiles, "sheet", sheet);
    let problems: Vec<String> = checked.diagnostics.iter().map(|one| one.message.clone()).collect();
    let job = checked.job.unwrap_or_else(|| panic!("{}", problems.join("\n")));
    let run = job.run(&library, &NoFiles, &Settings::default());
    let problems: Vec<String> = run.diagnostics.iter().map(|one| one.message.clone()).collect();
    let of = |name: &&str| {
        let cell = run.outcome.cells.iter().find(|cell| cell.name == **name).unwrap();
        cell.shown.as_ref().map_or_else(|| problems.join("; "), |shown| shown.text.clone())
    };
    names.iter().map(of).collect()
}

const UNITS: &str = r#"table indoor
  tag  | calling | opening | liquid | gas  | air_in | air_out | since
  text | flag    | %       | degC   | degC | degC   | degC    | min
  "U01" | true  | 38  | 9.4  | 13.6 | 25.1 | 14.6 | 34
  "U02" | true  | 44  | 9.6  | 14.1 | 25.6 | 15.0 | 34
  "U03" | true  | 31  | 9.2  | 13.0 | 24.8 | 14.2 | 34
  "U04" | true  | 100 | 8.6  | 24.9 | 25.9 | 23.4 | 41
  "U05" | true  | 47  | 9.7  | 14.6 | 25.3 | 14.9 | 34
  "U06" | true  | 36  | 9.3  | 13.3 | 24.6 | 14.1 | 3
  "U07" | true  | 9   | 8.9  | 8.8  | 25.0 | 12.9 | 52
  "U08" | false | 0   | 23.8 | 24.1 | 24.3 | 24.2 | 90
  "U09" | true  | 6   | 19.8 | 8.6  | 25.4 | 20.7 | 38
  "U10" | true  | 92  | 9.3  | 22.7 | 24.9 | 13.1 | 34
  "U11" | false | 0   | 13.2 | 16.5 | 23.1 | 21.9 | 90
  "U12" | true  | 52  | 9.9  | 15.0 | 26.0 | ?    | 34
  found = valve_reading("cooling", "healthy", 8 degC, indoor.calling, indoor.opening, indoor.since, indoor.liquid, indoor.gas, indoor.air_in, indoor.air_out, mapped = MAPPED)
end
"#;

fn verdicts(mapped: bool, rows: &[&str]) -> Vec<String> {
    let cells: Vec<String> = rows.iter().map(|row| format!("{row} = indoor[\"{row}\"].found.verdict\n")).collect();
    let sheet = format!("{}{}", UNITS.replace("MAPPED", if mapped { "true" } else { "false" }), cells.concat());
    shown(&sheet, rows)
}

#[test]
fn each_unit_gets_its_answer() {
    let rows = ["U01", "U02", "U03", "U04", "U05", "U06", "U07", "U08", "U09", "U10", "U11", "U12"];
    let expected = [
        "healthy",
        "healthy",
        "healthy",
        "starving",
        "healthy",
        "not settled",
        "passing or stuck open",
        "idle",
        "pipe sensors swapped",
        "gas-pipe sensor off its pipe",
        "leaking when idle",
        "healthy",
    ];
    assert_eq!(verdicts(true, &rows), expected);
}

/// One unit that starves beside one that floods may be two units crossed: before each was run by itself, no valve is named.
#[test]
fn before_a_response_map_the_two_may_be_crossed() {
    assert_eq!(
        verdicts(false, &["U01", "U04", "U07"]),
        ["healthy", "crossed, or two faults", "crossed, or two faults"]
    );
}

/// System by its saturation, discharge and liquid temperatures, °C.
fn system(evaporating: f64, condensing: f64, discharge: f64, liquid: f64, wide: bool, more: &str) -> String {
    let opening = if wide { 95 } else { 45 };
    let gas = if wide { 18.0 } else { 12.0 };
    let row =
        |tag: usize| format!("  \"U{tag}\" | true | {opening} | {} | {}\n", evaporating + 1.0, evaporating + gas - 7.0);
    let rows: String = (0..6).map(row).collect();
    let sheet = format!(
        "table indoor\n  tag | calling | opening | liquid | gas\n  text | flag | % | degC | degC\n{rows}end\n\
         answer = system_reading(R-32, {evaporating} degC, {condensing} degC, 32 degC, {liquid} degC, true, \
         target_evaporating = 8 degC, discharge = {discharge} degC, calling = indoor.calling, opening = indoor.opening, \
         liquid_pipe = indoor.liquid, gas_pipe = indoor.gas{more}).verdict\n"
    );
    shown(&sheet, &["answer"]).remove(0)
}

#[test]
fn each_system_gets_its_answer() {
    assert_eq!(system(8.0, 44.0, 90.0, 38.5, false, ""), "healthy");
    assert_eq!(system(3.5, 41.0, 102.0, 40.2, true, ""), "short of liquid");
    assert_eq!(system(8.4, 44.0, 68.0, 38.0, false, ""), "suction side");
    // Much subcooling and a hot condenser come from one pressure: a gauge and the rest test decide.
    assert_eq!(system(8.0, 52.5, 107.0, 40.5, false, ""), "undecided");
    let tested = ", pressures_checked = true, rest = \"gas that does not condense\"";
    assert_eq!(system(8.0, 52.5, 107.0, 40.5, false, tested), "gas that does not condense");
    let full = ", pressures_checked = true, rest = \"none seen\"";
    assert_eq!(system(8.0, 52.5, 107.0, 40.5, false, full), "overfilled");
    assert_eq!(system(8.0, 55.0, 118.0, 49.0, false, ""), "stop");
}

/// 40 % of the volume on a roof that warms by 25 K, the rest by 2 K: 41.5 bar gauge becomes 43.21 (Span and others 2000 by
/// CoolProp 8.0.0); by the thermometer indoors it should be 41.82, so 1.39 bar seem gained.
#[test]
fn zones_take_the_sun_out_of_a_standing_test() {
    let sheet = |zones: &str| {
        format!(
            "table log\n  time | pressure | rooms | roof\n  h | barg | degC | degC\n  0 | 41.5 | 20 | 20\n  1 | 41.5 | 20 | 20\n  \
             6 | 43.21 | 22 | 45\nend\nfound = standing_test(log.time, log.pressure, log.rooms, limit = 0.2 bar{zones})\n\
             verdict = found.verdict\nresidual = found.residual as bar to 0.01\n"
        )
    };
    let with = ", second_temperatures = log.roof, second_share = 0.4";
    assert_eq!(shown(&sheet(with), &["verdict"]), ["holds"]);
    assert_eq!(shown(&sheet(""), &["residual"]), ["1.39 bar"]);
}

/// A barometer that falls by 23.25 hPa raises a gauge's reading by 2.33 kPa: nothing was gained.
#[test]
fn a_falling_barometer_raises_a_gauge() {
    let sheet = |barometer: &str| {
        format!(
            "site atmosphere = 101.325 kPaa\ntable log\n  time | pressure | gas | barometer\n  h | kPag | degC | kPaa\n  \
             0 | 4000 | 20 | 101.325\n  1 | 4000 | 20 | 101.325\n  24 | 4002.325 | 20 | 99\nend\n\
             found = standing_test(log.time, log.pressure, log.gas, limit = 20 kPa{barometer})\n\
             residual = found.residual as kPa to 0.001\n"
        )
    };
    assert_eq!(shown(&sheet(", atmosphere = log.barometer"), &["residual"]), ["0.000 kPa"]);
    assert_eq!(shown(&sheet(""), &["residual"]), ["2.325 kPa"]);
}

/// Errors of a segment table name their rows.
#[test]
fn a_ring_of_segments_is_named() {
    let sheet = "table lines\n  segment | fed_from | length\n  text | text | m\n  \"main\" | \"\" | 20\n  \"A\" | \"B\" | 5\n  \
                 \"B\" | \"A\" | 6\n  run : m = along(lines.segment, lines.fed_from, lines.length)\nend\n\
                 answer = max(lines.run)\n";
    let said = shown(sheet, &["answer"]).remove(0);
    assert!(said.contains("ring") && said.contains("\"A\"") && said.contains("\"B\""), "{said}");
}
