//! An invented outcome with a bit of everything, for the tests of reports.

use dewline_lang::outcome::*;

fn text(text: &str) -> Option<String> {
    Some(text.to_string())
}

fn cell(name: &str, stage: &str, role: Role, shown: Option<&str>) -> CellOutcome {
    let number = shown.and_then(|shown| shown.split(' ').next()?.parse().ok());
    let unit = shown.and_then(|shown| shown.split_once(' ')).map_or("", |(_, unit)| unit);
    CellOutcome {
        name: name.to_string(),
        stage: stage.to_string(),
        role,
        kind: Sort::Point,
        dimension: "kg/(m·s2)".to_string(),
        si: number,
        shown: shown.map(|text| Shown { number, unit: unit.to_string(), text: text.to_string() }),
        ucum: String::new(),
        uncertainty: None,
        pending: shown.is_none(),
        optional: false,
        broken: false,
        stated: Stated::default(),
        formula: String::new(),
        set: None,
    }
}

fn check(label: &str, stage: &str, row: Option<&str>, verdict: CheckVerdict) -> CheckOutcome {
    CheckOutcome {
        label: label.to_string(),
        stage: stage.to_string(),
        level: "require",
        condition: "superheat within 5 .. 15 F°".to_string(),
        table: row.map(|_| "indoor".to_string()),
        row: row.map(str::to_string),
        verdict,
        value: text("superheat = 3.8 F°"),
        limit: text("within 5 F° .. 15 F°"),
        bounds: Some(Bounds { of: "superheat".to_string(), unit: "F°".to_string(), low: Some(5.0), high: Some(15.0) }),
        margin: text("-1.2 F°"),
        margin_si: Some(-0.667),
        uncertainty: None,
        uncertainty_si: None,
        probability: None,
        guarded: false,
        reason: None,
        waiting_for: Vec::new(),
    }
}

fn column(name: &str, unit: &str, kind: Sort, role: Role, fields: &[&str]) -> ColumnOutcome {
    ColumnOutcome {
        name: name.to_string(),
        kind,
        dimension: String::new(),
        unit: unit.to_string(),
        ucum: String::new(),
        role,
        si: fields.iter().map(|field| field.parse().ok()).collect(),
        text: fields.iter().map(|field| (*field).to_string()).collect(),
        broken: Vec::new(),
        standard: Vec::new(),
        expanded: Vec::new(),
        expanded_text: Vec::new(),
        expanded_unit: String::new(),
        together: Vec::new(),
        spread: None,
        uncertainty: None,
        by: None,
        formula: String::new(),
    }
}

fn stage(name: &str, verdict: StageVerdict) -> StageOutcome {
    StageOutcome { name: name.to_string(), verdict, waiting_for: Vec::new(), blocked_by: Vec::new(), broken: false }
}

fn trials() -> TrialsOutcome {
    TrialsOutcome {
        count: 10_000,
        seed: 1,
        values: vec![TrialValue {
            name: "drift".to_string(),
            mean: -0.3,
            standard: 1.0,
            symmetric: [-2.2, 1.6],
            shortest: [-2.2, 1.6],
            broken: 0,
            estimate: -0.3,
            first_standard: 1.0,
            first: [-2.3, 1.7],
            tolerance: 0.05,
            agrees: false,
            wider: true,
            shown_mean: "-0.3".to_string(),
            shown_standard: "1.0 psi".to_string(),
            shown_interval: "-2.2 .. 1.6".to_string(),
            shown_first: "-2.3 .. 1.7".to_string(),
        }],
        checks: vec![TrialCheck {
            label: "holds pressure".to_string(),
            stage: "Pressure test".to_string(),
            level: "require",
            table: None,
            row: None,
            verdict: CheckVerdict::Close,
            passed: 5_020,
            failed: 4_980,
            not_asked: 0,
            broken: 0,
            share: 0.502,
        }],
        left_out: 0,
    }
}

pub(crate) fn outcome() -> Outcome {
    let mut taken = cell("start_pressure", "Pressure test", Role::Reading, Some("550.0 psig"));
    taken.stated = Stated {
        uncertainty: text("± 0.5 % of 800 psi"),
        by: text("test_gauge"),
        at: text("2026-03-14T07:40"),
        note: None,
    };
    let mut close = check("holds pressure", "Pressure test", None, CheckVerdict::Close);
    close.margin = text("0.3 psi");
    let mut waiting = stage("Pressure test", StageVerdict::Waiting);
    waiting.waiting_for = vec!["end_pressure".to_string(), "soap at every joint, at test pressure".to_string()];
    let mut blocked = stage("Hand-over with a name that is longer than most", StageVerdict::Blocked);
    blocked.blocked_by = vec!["Pressure test".to_string(), "Running".to_string()];
    let tags: [&str; 3] = ["Exam 1\u{1b}[31m", "Exam 2", "Store"];
    let numbers = |a: &'static str| -> [&'static str; 3] { [a, "61.0", ""] };
    let mut columns = vec![
        column("tag", "", Sort::Text, Role::Input, &tags),
        column("running", "", Sort::Flag, Role::Input, &["true", "true", "false"]),
        column("gas_pipe", "degF", Sort::Point, Role::Reading, &numbers("52.3")),
    ];
    for name in ["liquid_pipe", "air_in", "air_out", "opening", "superheat", "split", "state.temperature"] {
        columns.push(column(name, "F°", Sort::Difference, Role::Cell, &numbers("8.25")));
    }
    if let Some(last) = columns.last_mut() {
        last.broken.push(2);
        last.expanded = vec![Some(0.78), Some(1.2), None];
        last.expanded_text = ["1.4", "0.95", ""].map(str::to_string).to_vec();
        last.expanded_unit = "F°".to_string();
        last.together = ["8.2 ± 1.4", "61.00 ± 0.95", ""].map(str::to_string).to_vec();
    }
    Outcome {
        format: "dewline-outcome/1",
        sheet: SheetHead {
            title: "Riser B: pressure test and evacuation".to_string(),
            path: "examples/riser.dew".to_string(),
            sha256: "0".repeat(64),
        },
        verdict: JobVerdict::Failed,
        files: vec![FileOutcome { name: "indoor.csv".to_string(), sha256: "1".repeat(64) }],
        set: vec![SetOutcome {
            name: "evac.limit".to_string(),
            sheet: text("500 micron"),
            value: "700 micron".to_string(),
            from: "the command line".to_string(),
            limit: true,
        }],
        otherwise: vec![OtherwiseOutcome {
            name: "cooling.superheat_most".to_string(),
            form: "forms/cooling.dew".to_string(),
            default: "15 F°".to_string(),
            value: "24 F°".to_string(),
            limit: true,
        }],
        replaced: vec![ReplacedOutcome {
            what: "form",
            name: "forms/evacuation.dew".to_string(),
            by: "examples/forms/evacuation.dew".to_string(),
        }],
        assumptions: vec!["the site's atmosphere is taken as 101.325 kPa".to_string()],
        cells: vec![
            cell("volume", "Pressure test", Role::Input, Some("1.1 ft3")),
            taken,
            cell("end_pressure", "Pressure test", Role::Reading, None),
            cell("drift", "Pressure test", Role::Cell, None),
        ],
        tables: vec![TableOutcome {
            name: "indoor".to_string(),
            stage: "Running".to_string(),
            from: Some(FileOutcome { name: "indoor.csv".to_string(), sha256: "1".repeat(64) }),
            at: text("2026-03-20T14:10"),
            counted_once: Vec::new(),
            pending: false,
            columns,
        }],
        checks: vec![
            close,
            check("superheat in range", "Running", Some("Exam 1"), CheckVerdict::Passed),
            check("superheat in range", "Running", Some("Exam 2"), CheckVerdict::Failed),
            check("superheat in range", "Running", Some("Store"), CheckVerdict::NotAsked),
        ],
        confirmations: vec![ConfirmOutcome {
            label: "soap at every joint, at test pressure".to_string(),
            stage: "Pressure test".to_string(),
            verdict: CheckVerdict::Pending,
            at: None,
            by: None,
        }],
        stages: vec![waiting, stage("Running", StageVerdict::Failed), blocked],
        to_take: vec!["end_pressure".to_string(), "soap at every joint, at test pressure".to_string()],
        notes: vec![NoteOutcome { stage: "Running".to_string(), text: text("Outside 32 degC.") }],
        charts: vec![ChartOutcome {
            title: "rise".to_string(),
            stage: "Running".to_string(),
            style: "line",
            table: "rise".to_string(),
            columns: vec![
                column("time", "min", Sort::Quantity, Role::Reading, &["0", "5", "10"]),
                column("pressure", "micron", Sort::Point, Role::Reading, &["312", "341", "352"]),
            ],
        }],
        instruments: vec![InstrumentOutcome {
            name: "test_gauge".to_string(),
            description: "digital gauge, 0 to 800 psi".to_string(),
            accuracy: text("± 0.5 % of 800 psi"),
            repeats: None,
            serial: text("PG-0417"),
            calibrated: text("2026-01-12"),
            due: text("2027-01-12"),
        }],
        advice: vec!["test_gauge is out of calibration on 2027-02-01".to_string()],
        cautions: vec!["Nitrogen under pressure: stand clear, raise it in steps.".to_string()],
        trials: Some(trials()),
        functions: vec![FunctionOutcome {
            name: "superheat".to_string(),
            gives: "vapor temperature less dew temperature".to_string(),
            equation: "T − T_dew(p)".to_string(),
            source: "definition".to_string(),
            validity: "vapor".to_string(),
        }],
        refrigerants: vec!["R-32".to_string()],
        errors: vec![ErrorOutcome {
            code: "D0601",
            message: "R-32 has no liquid above 78.1 degC".to_string(),
            cell: "indoor.state".to_string(),
            row: text("Store"),
            place: "examples/riser.dew:31:11".to_string(),
        }],
        diagnostics: Vec::new(),
    }
}

/// Texts that mean something to a browser, a spreadsheet, a Markdown reader or a terminal.
pub(crate) const HOSTILE: [&str; 8] = [
    "<script>alert(1)</script>",
    "\"><img src=x onerror=alert(1)>",
    "=1+1",
    "@SUM(A1:A9)",
    "+1|cmd",
    "-2+3",
    "a\u{202e}b\u{1b}[31mc\0d\re\nf\tg",
    "| `x` **y** [z](javascript:alert(1)) &amp; ]]> --> ' ",
];

/// An outcome with such texts in every place that a sheet, a file or a keystroke can fill.
pub(crate) fn hostile() -> Outcome {
    let mut next = 0;
    let mut text = || {
        next += 1;
        HOSTILE[next % HOSTILE.len()].to_string()
    };
    let mut outcome = outcome();
    // One stage name throughout, so that everything still stands in a section.
    let stages: Vec<(String, String)> = outcome.stages.iter().map(|stage| (stage.name.clone(), text())).collect();
    let renamed =
        |stage: &str| stages.iter().find(|(was, _)| was == stage).map_or_else(String::new, |(_, now)| now.clone());
    outcome.sheet.title = text();
    outcome.sheet.path = text();
    for stage in &mut outcome.stages {
        stage.name = renamed(&stage.name);
        stage.waiting_for = vec![text(), text()];
        stage.blocked_by = vec![text()];
    }
    for cell in &mut outcome.cells {
        cell.stage = renamed(&cell.stage);
        cell.name = text();
        cell.formula = text();
        cell.ucum = text();
        cell.shown = Some(Shown { number: None, unit: String::new(), text: text() });
        cell.stated = Stated { uncertainty: Some(text()), by: Some(text()), at: Some(text()), note: Some(text()) };
    }
    for table in &mut outcome.tables {
        table.stage = renamed(&table.stage);
        table.from = Some(FileOutcome { name: text(), sha256: text() });
        table.at = Some(text());
        for column in &mut table.columns {
            column.name = text();
            column.unit = text();
            column.formula = text();
            column.by = Some(text());
            column.uncertainty = Some(text());
            if column.kind == Sort::Text {
                column.text = HOSTILE.iter().map(|text| (*text).to_string()).collect();
                column.si = vec![None; HOSTILE.len()];
            }
        }
    }
    for check in &mut outcome.checks {
        check.stage = renamed(&check.stage);
        check.label = text();
        check.row = check.row.as_ref().map(|_| text());
        (check.value, check.limit, check.margin) = (Some(text()), Some(text()), Some(text()));
        check.condition = text();
        check.reason = Some(text());
    }
    for one in &mut outcome.confirmations {
        one.stage = renamed(&one.stage);
        one.label = text();
        (one.by, one.at) = (Some(text()), Some(text()));
    }
    for note in &mut outcome.notes {
        note.stage = renamed(&note.stage);
        note.text = Some(HOSTILE.join(" "));
    }
    for chart in &mut outcome.charts {
        chart.stage = renamed(&chart.stage);
        chart.title = HOSTILE.join(" ");
        for column in &mut chart.columns {
            column.name = text();
            column.unit = text();
        }
    }
    for one in &mut outcome.instruments {
        one.name = text();
        one.description = text();
        (one.accuracy, one.repeats, one.serial) = (Some(text()), Some(text()), Some(text()));
    }
    for list in [&mut outcome.to_take, &mut outcome.advice, &mut outcome.assumptions, &mut outcome.cautions] {
        *list = HOSTILE.iter().map(|text| (*text).to_string()).collect();
    }
    if let Some(trials) = &mut outcome.trials {
        for value in &mut trials.values {
            (value.name, value.shown_mean, value.shown_standard) = (text(), text(), text());
        }
        for check in &mut trials.checks {
            check.stage = renamed(&check.stage);
            check.label = text();
        }
    }
    for one in &mut outcome.files {
        (one.name, one.sha256) = (text(), text());
    }
    for one in &mut outcome.set {
        (one.name, one.value, one.from, one.sheet) = (text(), text(), text(), Some(text()));
    }
    for one in &mut outcome.otherwise {
        (one.name, one.form, one.default, one.value) = (text(), text(), text(), text());
    }
    for one in &mut outcome.replaced {
        (one.name, one.by) = (text(), text());
    }
    for error in &mut outcome.errors {
        error.message = text();
        error.cell = text();
        error.row = Some(text());
        error.place = text();
    }
    outcome
}
