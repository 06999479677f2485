//! Statements.

use dewline_lang::library::Basic;

use super::expression::DEPTH;
use super::kind::{COMMON, Kind, alike, difference, first};
use super::{Author, Definition, Table};

impl Author<'_> {
    /// One statement, or a block with several.
    pub fn statement(&mut self) {
        match self.upto(15) {
            0..=4 => self.cell(),
            5 => self.given("input"),
            6 => self.given("reading"),
            7 | 8 => self.table(),
            9 => self.check(),
            10 => self.define(),
            11 => self.instrument(),
            12 => self.stage(),
            13 => self.record(),
            14 => self.said(),
            _ => self.top(),
        }
    }

    fn cell(&mut self) {
        let kind = self.choose(COMMON);
        let (name, formula) = (self.name("c"), self.expression(kind, DEPTH));
        let annotation = match kind {
            Basic::Unit(unit) if self.once_in(3) => format!(" : {}", first(unit)),
            _ => String::new(),
        };
        self.line(&format!("{name}{annotation} = {formula}"));
        self.values.push((name, kind));
    }

    /// A cell that holds a record.
    fn record(&mut self) {
        if let Some(call) = self.any_call() {
            let name = self.name("r");
            self.line(&format!("{name} = {call}"));
        }
    }

    fn given(&mut self, what: &str) {
        let kind = self.choose(COMMON);
        let name = self.name("g");
        let annotation = match kind {
            Basic::Unit(unit) => first(unit),
            Basic::Number => "number",
            Basic::Text | Basic::OneOf(_) => "text",
            Basic::Flag => "flag",
            Basic::Time => "time",
            Basic::Refrigerant => "refrigerant",
            Basic::Gas => "gas",
        };
        let value = match self.upto(4) {
            0 => String::new(),
            1 => " = ?".to_string(),
            2 if what == "reading" => format!(" = {}, {}", self.literal(kind), self.literal(kind)),
            _ => format!(" = {}", self.literal(kind)),
        };
        let mut line = format!("{what} {name} : {annotation}{value}");
        if let (Basic::Unit(_) | Basic::Number, true) = (kind, self.once_in(2)) {
            line.push_str(&self.doubt(kind));
        }
        line.push_str(self.choose(&["", "", " optional", " at 2026-03-14T07:40", " \"a note\""]));
        self.line(&line);
        self.values.push((name, kind));
    }

    fn doubt(&mut self, kind: Kind) -> String {
        let of = difference(kind).unwrap_or(kind);
        if let (true, Some(instrument)) = (self.once_in(2), self.instruments.last()) {
            return format!(" by {instrument}");
        }
        let half = match of {
            Basic::Unit(unit) => format!("{} {}", self.upto(20), first(unit)),
            _ => self.upto(20).to_string(),
        };
        let how = self.choose(&["", " standard", " coverage 2", " standard freedom 8", " + 1 % of reading"]);
        format!(" ± {half}{how}")
    }

    fn instrument(&mut self) {
        let name = self.name("i");
        let unit = self.choose(&["F°", "psi", "C°", "kPa"]);
        let accuracy = self.choose(&["1 % of reading", "0.5 % of 800 psi", ""]);
        self.line(&format!("instrument {name} \"an instrument\""));
        let accuracy = if accuracy.is_empty() { format!("{} {unit}", self.upto(9)) } else { accuracy.to_string() };
        self.line(&format!("  accuracy ± {accuracy}"));
        if self.once_in(2) {
            let tenths = self.upto(9);
            self.line(&format!("  repeats ± 0.{tenths} {unit}"));
        }
        self.instruments.push(name);
    }

    fn table(&mut self) {
        let (name, rows, width) = (self.name("t"), self.upto(6), 1 + self.upto(4));
        let key = self.choose(&[Basic::Text, Basic::Number, Basic::Unit("min")]);
        let mut columns = vec![(self.name("k"), key)];
        for _ in 0..width {
            let kind = self.choose(COMMON);
            columns.push((self.name("v"), kind));
        }
        let heads: Vec<&str> = columns.iter().map(|(name, _)| name.as_str()).collect();
        self.line(&format!("table {name}\n  {}", heads.join(" | ")));
        let kinds: Vec<String> = columns
            .iter()
            .map(|(_, kind)| match kind {
                Basic::Unit(unit) => first(unit).to_string(),
                Basic::Number => "-".to_string(),
                Basic::Text | Basic::OneOf(_) => "text".to_string(),
                Basic::Flag => "flag".to_string(),
                Basic::Time => "time".to_string(),
                Basic::Refrigerant => "refrigerant".to_string(),
                Basic::Gas => "gas".to_string(),
            })
            .collect();
        self.line(&format!("  {}", kinds.join(" | ")));
        for row in 0..rows {
            let mut fields = vec![if key == Basic::Text { format!("\"row {row}\"") } else { row.to_string() }];
            for (_, kind) in &columns[1..] {
                let field = match kind {
                    _ if self.once_in(12) => "?".to_string(),
                    Basic::Unit(_) | Basic::Number => self.number(),
                    _ => self.literal(*kind),
                };
                fields.push(field);
            }
            self.line(&format!("  {}", fields.join(" | ")));
        }
        self.tables.push(Table { name, columns, rows });
        let at = self.tables.len() - 1;
        self.row = Some(at);
        for _ in 0..self.upto(3) {
            let kind = self.choose(COMMON);
            let (column, formula) = (self.name("f"), self.expression(kind, 3));
            self.line(&format!("  {column} = {formula}"));
            self.tables[at].columns.push((column, kind));
        }
        if self.once_in(2) {
            let condition = self.flag(2);
            let only = if self.once_in(3) { format!(" where {}", self.flag(1)) } else { String::new() };
            self.line(&format!("  require each \"each {at}\" {condition}{only}"));
        }
        self.row = None;
        self.line("end");
    }

    fn check(&mut self) {
        let level = self.choose(&["require", "advise"]);
        let (label, condition) = (self.name("check "), self.flag(3));
        self.line(&format!("{level} \"{label}\" {condition}"));
        if self.once_in(6) {
            self.line(&format!("waive \"{label}\" reason \"as agreed\" by \"R. Alder\" at 2026-03-14"));
        }
    }

    fn define(&mut self) {
        let name = self.name("d");
        let parameters: Vec<Kind> = (0..1 + self.upto(2)).map(|_| self.choose(COMMON)).collect();
        let named: Vec<(String, Kind)> = parameters.iter().map(|kind| (self.name("p"), *kind)).collect();
        let gives = self.choose(COMMON);
        let outside = std::mem::replace(&mut self.values, named.clone());
        let tables = std::mem::take(&mut self.tables);
        let body = self.expression(gives, 3);
        self.values = outside;
        self.tables = tables;
        let heads: Vec<String> = named.into_iter().map(|(name, _)| name).collect();
        self.line(&format!("define {name}({}) = {body}", heads.join(", ")));
        self.definitions.push(Definition { name, parameters, gives });
    }

    fn stage(&mut self) {
        let label = self.name("Stage ");
        let after = if self.once_in(2) { " after \"Stage 1\"" } else { "" };
        self.line(&format!("stage \"{label}\"{after}"));
        for _ in 0..self.upto(3) {
            match self.upto(3) {
                0 => self.cell(),
                1 => self.check(),
                2 => self.given("reading"),
                _ => self.said(),
            }
        }
        self.line("end");
    }

    fn said(&mut self) {
        let label = self.name("done ");
        let answer = self.choose(&["", " yes", " no", " yes at 2026-03-14T07:40 by \"one\""]);
        match self.upto(2) {
            0 => self.line(&format!("confirm \"{label}\"{answer}")),
            1 => {
                let value = self.expression(Basic::Number, 2);
                self.line(&format!("note \"so it is: {{{value}}}\""));
            }
            _ => self.chart(),
        }
    }

    fn chart(&mut self) {
        let pair = self.tables.iter().find_map(|table| {
            let numbers = |(_, kind): &&(String, Kind)| matches!(kind, Basic::Number | Basic::Unit(_));
            let mut columns = table.columns.iter().filter(numbers);
            let (x, y) = (columns.next()?, columns.next()?);
            (table.rows > 0).then(|| format!("{0}.{1}, {0}.{2}", table.name, x.0, y.0))
        });
        if let Some(pair) = pair {
            let sort = self.choose(&["line", "bars"]);
            self.line(&format!("chart {sort} \"a chart\" {pair}"));
        }
    }

    /// What stands once in a sheet, or brings in others.
    fn top(&mut self) {
        const ONCE: &[&str] = &[
            "units IP",
            "units SI",
            "decide guarded",
            "decide guarded 95 %",
            "site altitude = 1280 ft",
            "site atmosphere = 12.93 psia ± 0.1 psi",
            "sheet \"A <b>title</b>\"",
        ];
        if self.once_in(2) {
            let line = self.choose(ONCE);
            let word = line.split(' ').next().unwrap_or(line);
            if !self.text.lines().any(|one| one.starts_with(word)) {
                self.line(line);
            }
            return;
        }
        let forms: Vec<&str> = dewline_stdlib::forms::FORMS.iter().map(|form| form.name).collect();
        let form = self.choose(&forms);
        let name = self.name("filled");
        // A form with nothing given is pending through and through, which is as good as any.
        self.line(&format!("fill \"forms/{form}.dew\" as {name} ()"));
        if let Some((value, _)) = self.values.iter().find(|(_, kind)| alike(*kind, Basic::Number)) {
            let line = format!("note \"{{{value}}}\"");
            self.line(&line);
        }
    }
}
