//! D08: values set from outside.

use super::code::codes;

codes! { "values set from outside";
    UNKNOWN_SETTING = "D0801", "no input of this name",
        "`--set name=value` names an input, a reading, an open table or a confirmation of the sheet; those of a filled sheet \
         have its name before them: `--set riser_b.end_pressure=\"556 psig\"`.";
    BAD_SETTING = "D0802", "a value set from outside cannot be used",
        "The value is written as in a sheet: a number with its unit, a text in quotes or bare, `true`, a time, a refrigerant.";
    SET_A_CELL = "D0803", "a cell is computed and cannot be set",
        "Only inputs, readings, open tables and confirmations can be set.";
    SET_TWICE = "D0804", "a value is set twice from outside",
        "Of two values of one name only one can hold, and nobody would see which. Leave one of them away.\n\n\
         What a file of settings says for all its rows may be set otherwise on the command line; the report then names both.";
}
