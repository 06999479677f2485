//! Messages as a technician sees them: the sheet and what is drawn, together. Each was read one by one with the question
//! whether someone on a roof would know what to do. After a change: `cargo insta review`, and read again.
#![allow(clippy::unwrap_used, clippy::panic)]

use dewline::{Paint, draw};
use dewline_lang::job::{self, Settings};
use dewline_tests::sheet::Shelf;

/// Name and sheet.
const SHEETS: &[(&str, &str)] = &[
    ("gauge plus atmosphere", "suction = 118 psig + 14.7 psia\n"),
    ("ratio of gauge pressures", "ratio = 380 psig / 118 psig\n"),
    ("twice a temperature", "hot = 2 * 95 degF\n"),
    ("power of a gauge pressure", "p = 118 psig\nx = p^2\n"),
    ("psi where psig is meant", "sh = superheat(R-32, 118 psi, 52 degF)\n"),
    (
        "degF where a difference is meant",
        "sh = superheat(R-32, 118 psig, 52 degF)\nrequire \"superheat\" sh within 5 .. 15 degF\n",
    ),
    ("difference where a temperature is meant", "t = dew_pressure(R-32, 40 F°)\n"),
    ("annotation of another kind", "drop : psi = 118 psig\n"),
    ("difference minus a value from zero", "p = 5 psi - absolute(20 psig)\n"),
    ("a gauge reading scaled", "p = 100 psig * 1.1\n"),
    ("the air added to a gauge reading", "p = 118 psig + 14.7 psi\n"),
    ("a product of which nothing says what it is", "p = 3 mol * 8.314 J/(mol·K) * absolute(60 degF) / 2 ft3\n"),
    ("a share without per cent", "residual : % = 0.1\n"),
    ("dimensions that do not add", "m = 0.6 oz/ft + 12 oz\n"),
    ("mass for force", "p : psi = 500 lb / (10 in2)\n"),
    ("energy for power", "capacity : Btu/h = 36_000 Btu\n"),
    ("a deeper vacuum", "v = 28.5 inHgv\nrequire \"deep\" v > 28 inHgv\n"),
    ("zero without a unit", "drop = 3 psi\nok = drop > 0\n"),
    ("chained comparison", "ok = 1 < 2 < 3\n"),
    ("range the wrong way round", "sh = 9 F°\nok = sh within 15 .. 5 F°\n"),
    ("tolerance without a centre", "p = 118 psig\nok = p within ± 3 psi\n"),
    ("gauge unit in a rate", "drop = 2 psig/min\n"),
    ("unit that does not exist", "p = 118 pisg\n"),
    ("feet mark", "len = 85'\n"),
    ("inch mark", "od = 3/8\"\n"),
    ("comma in a number", "altitude = 1,280 ft\n"),
    ("F for degrees", "t = 52 F\n"),
    ("unit after brackets", "p = (5 psi + 3 psi) psi\n"),
    ("unit with spaces", "v = 10 ft / min\n"),
    ("side by side", "x = 3\ny = 2 x\n"),
    ("impossible date", "t = 2026-02-30\n"),
    ("time with a space", "t = 2026-03-14 07:40\n"),
    ("tolerance in degF", "reading t = 52 degF ± 1 degF\n"),
    ("misspelt name", "suction_pressure = 118 psig\nt = dew_temperature(R-32, suction_presure)\n"),
    ("misspelt function", "sh = superheet(R-32, 118 psig, 52 degF)\n"),
    ("misspelt argument", "sh = superheat(R-32, suction_pressur = 118 psig, line_temperature = 52 degF)\n"),
    ("argument missing", "sh = superheat(R-32, 118 psig)\n"),
    ("arguments swapped", "sh = superheat(R-32, 52 degF, 118 psig)\n"),
    ("circle", "charge = factory + trim\ntrim = charge * 0.1\nfactory = 12 lb\n"),
    ("recursion", "define f(n) = if n < 1 then 0 else f(n - 1)\na = f(3)\n"),
    ("name given twice", "p = 1 psi\np = 2 psi\n"),
    ("bracket left open", "a = max(1, 2\nb = 3\n"),
    ("end missing", "stage \"One\"\n  a = 1\nstage \"Two\"\n  b = 2\nend\n"),
    ("short row", "table t\n  tag | liquid | gas\n  text | degF | degF\n  \"a\" | 44.1\nend\n"),
    ("unknown key", "table t\n  tag | p\n  text | psi\n  \"Exam 1\" | 5\nend\np = t[\"Exam 2\"].p\n"),
    ("cell made of a column", "table t\n  p\n  psi\n  5\nend\nq = t.p * 2\n"),
    ("sum of temperatures", "table t\n  air\n  degF\n  75\n  74\nend\ntotal = sum(t.air)\n"),
    ("outside its within", "reading p = 1180 psig within 60 .. 250 psig\n"),
    (
        "outside a curve",
        "table fan\n  flow | drop\n  cfm | inH2O\n  300 | 0.9\n  400 | 0.7\nend\ns = interpolate(450 cfm, fan.flow, fan.drop)\n",
    ),
    ("above critical", "p = dew_pressure(R-32, 180 degF)\n"),
    ("two phases as one", "s = refrigerant_state(R-32, dew_pressure(R-32, 0 degC), 0 degC)\n"),
    ("oxygen in a pressure test", "p = trapped_pressure(oxygen, 550 psig, 70 degF, 60 degF)\n"),
    (
        "stage that does not exist",
        "stage \"Pressure test\"\n  a = 1\nend\nstage \"Evacuation\" after \"Presure test\"\n  b = 1\nend\n",
    ),
    (
        "waiver without a failed check",
        "require \"label\" 2 > 1\nwaive \"label\" reason \"accepted in writing\" by \"R. Alder\" at 2026-03-14\n",
    ),
    ("division by zero", "rows = 0\nmean_of = 5 psi / rows\n"),
    ("below absolute zero", "p = 5 psig - 100 psi\n"),
    ("no root between the ends", "x = solve(t within 0 .. 10 where t * t == 400)\n"),
    ("file that is not there", "table hold from \"holds.csv\"\n  time | pressure\n  min | micron\nend\n"),
];

#[test]
fn messages_as_drawn() {
    let library = dewline_stdlib::library();
    assert!(SHEETS.len() >= 40);
    for (name, text) in SHEETS {
        let host = Shelf::default();
        let checked = job::check(&library, &host, "job.dew", text);
        let drawn = match checked.job {
            None => draw(&checked.sources, &checked.diagnostics, Paint::new(false)),
            Some(job) => {
                let run = job.run(&library, &host, &Settings { values: Vec::new() });
                draw(&run.sources, &run.diagnostics, Paint::new(false))
            }
        };
        assert!(!drawn.is_empty(), "no message: {name}");
        insta::with_settings!({ prepend_module_to_snapshot => false, omit_expression => true }, {
            insta::assert_snapshot!(name.replace(' ', "-"), format!("{text}\n{drawn}"));
        });
    }
}
