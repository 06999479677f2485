//! D03: who is who.

use super::code::codes;

codes! { "names";
    UNREADABLE_SHEET = "D0301", "a sheet that is used or filled cannot be read",
        "`use` and `fill` name another sheet by its path, from the folder of the sheet that names it. The path may not \
         leave that folder.\n\n    use \"limits.dew\"\n    fill \"forms/riser.dew\" as riser_b ( volume = 1.1 ft3 )";
    SHEET_CIRCLE = "D0302", "sheets name each other in a circle",
        "A sheet that fills or uses another may not be filled or used by it, not even through a third. Move what both \
         need into a sheet of its own and `use` it from both.";
    TOO_DEEP = "D0303", "sheets are filled too deep inside one another",
        "A filled sheet may fill others, at most sixteen deep.";
    GIVEN_TWICE = "D0304", "a name is given twice",
        "Names in a stage belong to the whole job: stages group, they do not hide. So a reading `pressure` in one stage \
         and another `pressure` in the next clash. Call them `start_pressure` and `end_pressure`.";
    SAID_TWICE = "D0305", "a statement that may stand once stands twice",
        "`sheet`, `units` and `site` may each be said once.";
    DOUBLE_STAGE = "D0306", "two stages have one name",
        "Stages are known by their names; give one of them another.";
    NOT_USABLE = "D0307", "a used sheet holds more than definitions",
        "`use` takes definitions, instruments and tables of literals from another sheet, nothing that would compute or \
         judge. To run another sheet inside this one, `fill` it.";
    CIRCLE = "D0308", "formulas need each other in a circle",
        "Cells are computed in the order their formulas need. If `a` needs `b` and `b` needs `a`, there is no such order. \
         Find the value that satisfies both with `solve`:\n\n    \
         t = solve(x within 32 .. 120 degF where heat_in(x) == heat_out(x))";
    RECURSION = "D0309", "a definition comes back to itself",
        "A definition may call others, but never itself, directly or through others. Every sheet must end.";
    TOO_MANY_CELLS = "D0310", "a sheet has too many named values",
        "Put repeated values into a table: a row each.";
    UNKNOWN_NAME = "D0311", "a name that nothing bears",
        "The name stands for no input, reading, cell, table, parameter or constant that can be seen here. Inside a table's \
         formula its own columns are seen first, then the names of the sheet. A definition sees its parameters, its own \
         cells, other definitions, constants and tables of literals, nothing else.";
    UNKNOWN_FUNCTION = "D0312", "a function that does not exist",
        "`dewline functions` lists what there is; `dewline functions WORD` shows one with its arguments.";
    UNKNOWN_FIELD = "D0313", "a part that the value does not have",
        "After a dot stands a column of a table, a field of a function's result, or a value of a filled sheet.";
    UNKNOWN_INSTRUMENT = "D0314", "an instrument that is not declared",
        "`by` names an instrument of this sheet or of a sheet it uses:\n\n    instrument clamp \"pipe clamp thermistor\"\n      \
         accuracy ± 1 F°\n    reading gas_pipe = 52.3 degF by clamp";
    UNKNOWN_STAGE = "D0315", "a stage that does not exist",
        "`after` names a stage of this sheet by its title, or a filled sheet by its name.";
    STAGE_CIRCLE = "D0316", "stages come after each other in a circle",
        "Each stage may come only after stages that can pass before it.";
    NOT_A_VALUE = "D0317", "a name that is no value stands where a value is wanted",
        "A table, a filled sheet or an instrument is no value by itself: name a column, a cell of it, or fold the column \
         with `mean(…)`, `max(…)` and their like.";
    UNKNOWN_BINDING = "D0318", "a filled sheet has no such input",
        "Between the brackets of `fill` stand inputs, readings and open tables of the sheet that is filled. Its confirmations \
         are answered beside it: `confirm \"riser: soap at every joint\" yes`.";
    HIDDEN_BY_DEFINITION = "D0319", "a definition cannot see this name",
        "A definition sees its parameters, its own cells, other definitions, constants and tables of literals. Hand it \
         what else it needs as an argument.";
    UNKNOWN_REFRIGERANT = "D0320", "a refrigerant that cannot be used",
        "`dewline refrigerants` lists what can be computed.";
    UNKNOWN_CHECK = "D0321", "a waiver that meets no check",
        "`waive` names a check of this sheet by its label, and a row by its key. A waiver that meets no failed check is \
         an error, so that none is left behind once the fault is mended.";
    WAIVED_SAFETY = "D0322", "a check of a safety function is waived",
        "Checks of safety functions (room concentration, charge of a flammable refrigerant and their like) cannot be waived.";
    WAIVES_SEVERAL = "D0323", "a waiver that meets several checks",
        "One waiver is for one check, so that each acceptance was thought of. Give each check a label of its own, and each \
         row a key.";
    WAIVED_ROWS = "D0324", "a waiver that does not say which row it is for",
        "A check of each row is waived for one row, or knowingly for all:\n\n\
         waive \"superheat\" for \"F-10\" reason \"sensor replaced 2 June\" by \"M. Sato\" at 2026-06-02\n\
         waive \"superheat\" for all rows reason \"read before the valves had settled\" by \"M. Sato\" at 2026-06-02\n\n\
         A check that does not judge rows is waived without `for`.";
}
