//! D02: statements that cannot be read.

use super::code::codes;

codes! { "statements";
    UNKNOWN = "D0201", "a line that is no statement",
        "Every line begins with the word of a statement, or with a name that is given a value:\n\n\
         input volume = 1.1 ft3\ndrift : psi = end_pressure - expected\nrequire \"holds\" drift within ± 8 psi\n\n\
         A row of values stands only between `table` and its `end`.";
    FORM = "D0202", "a statement that is written otherwise",
        "The line begins as a statement and goes on in a way that the statement does not. The message shows how the \
         statement is written; each statement stands on a line of its own.";
    VALUE_MISSING = "D0203", "an operator without a value",
        "Behind an operator, a comma or an opening bracket a value is missing.\n\n\
         x = a +        should be    x = a + b";
    CHAINED = "D0204", "two comparisons in a row",
        "A comparison compares two values and gives true or false, so that a third cannot follow.\n\n\
         1 < x < 5      should be    1 < x and x < 5     or    x within 1 .. 5";
    EQUALS = "D0205", "= where == is meant",
        "A single = gives a name its value. Two values are compared with ==.\n\n\
         require hold.verdict = \"levels off\"     should be    require hold.verdict == \"levels off\"";
    END_MISSING = "D0206", "a block without its end",
        "A stage, a table and a definition of several lines go on up to a line with nothing but `end`. It was not found \
         before something that cannot stand inside.\n\n\
         stage \"Pressure test\"\n  …\nend";
    END_STRAY = "D0207", "an end that ends nothing",
        "An `end` closes the stage, table or definition that is open; here none is. Often the line that should have \
         opened it could not be read, or an `end` stands twice.";
    TABLE_HEAD = "D0208", "the two head lines of a table",
        "A table begins with two lines: the names of the columns, then the unit of each. A column of plain numbers has \
         `-` or `number`, one of words `text`, others `flag`, `time`, `refrigerant`, `gas`.\n\n\
         table rise\n  time | pressure\n  min  | micron\n  0    | 312\nend";
    ROW_LENGTH = "D0209", "a row with too few or too many values",
        "Each row has a value for every column, separated by |. What is not taken yet is written ?.";
    ROW_VALUE = "D0210", "a row with something else than values",
        "A row holds numbers, quantities, texts, flags, times, refrigerants or ?. What is computed stands below the rows \
         as a formula of the column:\n\n\
         split : F° = air_in - air_out";
    ROW_AFTER_FORMULA = "D0211", "a row below a formula",
        "In a table first all rows stand, then the formulas and checks. Move the row up.";
    TWICE = "D0212", "something given twice",
        "What stands after a value (±, by, at, within, optional, a note) and the lines of an instrument stand once each.";
    NOT_TAKEN_PLACE = "D0213", "? inside a formula",
        "? says that a value is not taken yet. It is the whole value of an input, a reading or a table's cell; a formula \
         uses the name, and waits by itself while the value is not taken.\n\n\
         reading end_pressure : psig\ndrift = end_pressure - expected";
    ELSE_MISSING = "D0214", "if without else",
        "A formula has a value whether the condition holds or not.\n\n\
         x = if running then flow else 0 ft3/min";
    WHERE_PLACE = "D0215", "where at a place where it cannot stand",
        "`where` says which rows are asked about. It stands after `require each …`, inside the brackets of a fold, and in \
         `solve`.\n\n\
         require each \"in range\" superheat within 5 .. 15 F° where running\nmean(indoor.superheat where indoor.running)";
    NAME = "D0216", "a word that cannot be a name",
        "A name is a letter, then letters, digits and _. The words if then else and or not as within where true false are \
         kept for the language, and what has the shape of a refrigerant (R-32, R410A) is one.";
    INSTRUMENT_LINE = "D0217", "a line of an instrument without its instrument",
        "accuracy, repeats, serial and calibrated stand right below the line of their instrument.\n\n\
         instrument test_gauge \"digital gauge, 0 to 800 psi\"\n  accuracy ± 0.5 % of 800 psi\n  repeats ± 0.4 psi";
    READING_FORMULA = "D0218", "a formula in a reading",
        "A reading is what an instrument showed or somebody saw. What is computed from readings is a cell; what comes from \
         a drawing or a decision is an input and may be computed.\n\n\
         reading p = 118 psig by gauge\np_absolute = absolute(p)";
    NOTHING_GIVEN = "D0219", "an input or reading with neither value nor kind",
        "To be checked before the values are known, an input or reading says at least what kind of value it will be.\n\n\
         reading end_pressure : psig by test_gauge";
    TOO_LARGE = "D0220", "a sheet or table that is too large",
        "A sheet has an upper size. Large data belongs in a CSV file that a table reads:\n\n\
         table hold from \"hold.csv\"\n  time | pressure\n  min  | micron\nend";
    WAIVER_REASON = "D0221", "a waiver without a reason or a person",
        "A waiver is read by whoever answers for the plant later. It says in a few words what was found and why that is \
         accepted, who accepted it, and when. It is for one check, and of a check of each row for one row, or for all rows.\n\n\
         waive \"superheat\" for \"F-10\" reason \"sensor replaced 2 June\" by \"M. Sato\" at 2026-06-02\n\
         waive \"holds\" reason \"old riser, letter of 14 March\" by \"R. Alder\" at 2026-03-14";
}
