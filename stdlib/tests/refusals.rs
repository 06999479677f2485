//! What functions say outside their limits: the limit and the value, never a number.

#![allow(clippy::unwrap_used, clippy::panic)]

use dewline_lang::job::calculate;

#[test]
fn each_refusal_names_what_is_wrong() {
    let library = dewline_stdlib::library();
    let cases = [
        (
            "concentration_limit(R-454B, 0 m, \"ASHRAE 34-2019\", \"general\").limit",
            "no limit of R-454B by ASHRAE 34-2019",
        ),
        ("concentration_limit(R-32, 0 m, \"as stated\", \"general\").limit", "an edition as stated needs its limit"),
        ("concentration_limit(R-32, 0 m, \"as stated\", \"general\", stated = 77 g/m3).limit", "needs its source"),
        (
            "concentration_limit(R-32, 0 m, \"ASHRAE 34-2019\", \"general\", stated = 77 g/m3, source = \"x\").limit",
            "would be mixed",
        ),
        ("room_check(R-32, 3 kg, 0.1 m3, 0 m, \"ASHRAE 34-2019\", \"general\").most", "goes from 0.5 m3"),
        ("mitigation(R-22, 24 kg, 380 m3).verdict", "no limits of R-22"),
        ("a2l_floor_area(R-32, 20 kg, 1.8 m, \"IEC 60335-2-40 ed. 6\").area", "above m2"),
        ("a2l_floor_area(R-410A, 3 kg, 1.8 m, \"IEC 60335-2-40 ed. 6\").area", "of group A1"),
        ("a2l_charge_bounds(R-32, \"as stated\").m1", "needs its three steps"),
        ("a2l_charge_bounds(R-290, \"EN 378-1:2016\").m1", "for A2L only"),
        ("a3_charge_bounds(R-32, \"EN 378-1:2016\").m1", "for A2 and A3 only"),
        ("a3_charge_bounds(R-717, \"EN 378-1:2016\").m1", "for A2 and A3 only"),
        ("a3_charge_bounds(R-152a, \"EN 378-1:2016\").m1", "no lower flammability limit"),
        ("a3_floor_area(R-290, 1.0 kg, 1.8 m, \"EN 378-1:2016\").area", "above m2"),
        ("a3_floor_area(R-290, 0.15 kg, 1.8 m, \"EN 378-1:2016\").area", "not above m1"),
        ("volume_by_fill(70 kg, 69 kg, 0 barg, 40 barg, 20 degC, cylinder_after = 160 barg)", "would be mixed"),
        (
            "volume_by_fill(70 kg, start_pressure = 0 barg, end_pressure = 40 barg, temperature = 20 degC)",
            "the weight after filling is not given",
        ),
        (
            "volume_by_fill(start_pressure = 0 barg, end_pressure = 40 barg, temperature = 20 degC, cylinder_volume = 50 L, \
             cylinder_before = 200 barg, cylinder_after = 160 barg, warmth_before = 20 degC)",
            "`warmth_after` is needed too",
        ),
        (
            "volume_by_fill(start_pressure = 0 barg, end_pressure = 40 barg, temperature = 20 degC, cylinder_volume = 50 L, \
             cylinder_before = 160 barg, cylinder_after = 200 barg, warmth_before = 20 degC, warmth_after = 20 degC)",
            "lost no gas",
        ),
        ("winding_rise(1 ohm, 1.2 ohm, 20 degC, 20 degC, lead = 1 ohm).rise", "no more than its leads"),
        ("winding_rise(1 ohm, 3 ohm, 20 degC, 20 degC).rise", "the winding would be at"),
        ("platinum_tolerance(200 degC, \"AA\")", "class AA of film holds"),
        (
            "a2l_charge_bounds(R-32, \"as stated\", step_1 = 6 m3, step_2 = 5 m3, step_3 = 7 m3, source = \"x\").m1",
            "must rise",
        ),
        ("flammability_limit(R-410A)", "does not burn"),
        ("test_pressure(4150 kPaa, 100 kPaa, \"EN 378-2\").final", "goes from 150 kPaa"),
        ("recovery_level(R-32, 22 kg, stated = 80 kPaa).level", "needs its source"),
        ("expected_discharge(R-32, 8 degC, 44 degC, 5 C°, injection = true).lowest", "injected"),
        ("expected_discharge(R-32, 44 degC, 8 degC, 5 C°).lowest", "swapped?"),
        ("gas_cooler_cycle(R-744, -10 degC, 60 bara, 20 degC, 5 C°).work", "ask `vapor_cycle`"),
        ("riser_turndown(R-410A, 7/8 in, 10 kW, 45 degC, 5 degC, 8 C°, 5 C°).share", "swapped?"),
        ("insulation_needed(22.2 mm, 0.036 W/(m·K), 5 degC, 27 degC, 100 %)", "half a metre would not keep it dry"),
        (
            "largest_length(R-32, \"liquid\", 3/8 in, 100 kg/h, 2794.78 kPaa, 60 degC, viscosity = 100 uPa·s)",
            "and 2794.8 kPa absolute (405.3 psia) is vapor, not liquid",
        ),
        (
            "largest_length(R-32, \"liquid\", 3/8 in, 100 kg/h, 2794.78 kPaa, 40 degC, rise = 40 m, viscosity = 100 uPa·s)",
            "the rise alone costs more",
        ),
        ("liquid_full(R-32, 20 kg, 10 L)", "does not go into this volume, however cold"),
        ("liquid_full(R-32, 1 kg, 10 L)", "does not become liquid-full"),
        ("oil_return_velocity(R-410A, 7/8 in, 2000 kPaa, 13 degC)", "is liquid, not vapor"),
        ("line_drop(R-744, \"vapor\", 7/8 in, 30 m, 0.06 kg/s, 80 bara, 60 degC).drop", "is supercritical, not vapor"),
        ("dew_temperature(R-12, 5 bara)", "no refrigerant R-12 is built in"),
        ("state_ph(R-32, 813 kPaa, 2000 kJ/kg).density", "2000.0 kJ/kg (859.8 Btu/lb)"),
        ("nitrogen_usable(50 L, 42 barg, 40 barg).mass", "5 bar over the test"),
        ("scaled(2 mA, 4 mA .. 20 mA, 0 bar .. 50 bar)", "far below its ends"),
        ("scaled(23 mA, 4 mA .. 20 mA, 0 bar .. 50 bar)", "far above its ends"),
        ("heat_balance(0 kW, 0 kW, 0 kW).verdict", "neither side carries any heat"),
        ("volumetric_efficiency(0.2, 20, 1).drawn", "has no"),
        ("volumetric_efficiency(0.2, 20, 1)", "fills the whole stroke"),
        ("trapped_pressure(air, 550 psig, 70 degF, 60 degF)", "not a gas for pressure tests"),
        ("trapped_pressure(carbon_dioxide, 550 psig, 70 degF, 60 degF)", "condenses"),
        ("driest_provable(200 degC).pressure", "goes from -60 degC"),
        ("connected_ratio(30 kW, 0 kW)", "goes from 0.01 kW"),
        ("lines_charge(R-410A, 1, 2, 3).most", "column"),
        (
            "line_drop(R-32, \"vapor\", 7/8 in, 30 m, pressure = 900 kPaa, temperature = 13 degC, capacity = 10 kW).friction",
            "it also needs `evaporating`, `condensing`, `superheat`, `subcooling`",
        ),
        (
            "one_valve_reading(\"cooling\", \"healty\", 8 degC, true, 100 %, 41 min, 8.6 degC, 24.9 degC, 25.9 degC).next",
            "\"healty\" is no verdict on a system",
        ),
        ("sweep_purge(5 L, 5 L/min, time_flame = 10 min, time_cool = 5 min).flame", "cool before the flame is lit"),
        ("system_reading_heating(R-32, 45 degC, -5 degC, 7 degC, true).verdict", "swapped?"),
    ];
    let wrong: Vec<String> = cases
        .iter()
        .filter_map(|(expression, words)| {
            let calculated = calculate(&library, expression, None);
            let messages: Vec<String> = calculated
                .diagnostics
                .iter()
                .map(|one| format!("{} {}", one.message, one.mend.clone().unwrap_or_default()))
                .collect();
            let said = messages.join("; ");
            let answers: Vec<&str> = calculated.answers.iter().map(|(_, shown)| shown.as_str()).collect();
            (!said.contains(words)).then(|| format!("{expression}\n  says {said:?} {answers:?}, not {words:?}"))
        })
        .collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
