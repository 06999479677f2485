//! D05: tables and their files.

use super::code::codes;

codes! { "tables and files";
    UNREADABLE_TABLE = "D0501", "a table's file cannot be read",
        "A table `from \"file.csv\"` takes its rows from a file in the sheet's folder or below it.";
    MISSING_COLUMN = "D0502", "a column is missing in the file",
        "Columns of the file are found by their names, case, spaces and `_` apart. Another header is named in the table's \
         first line: `pressure = \"CH 1 [micron]\"`. `dewline columns FILE` prints the two lines that fit.";
    DOUBLE_COLUMN = "D0503", "a column stands twice in the file",
        "The file has two columns with the name asked for; name one of them by its full header, or rename one in the file.";
    BAD_FIELD = "D0504", "a field cannot be read",
        "A field must be what its column's unit line says: a number (with that unit, another of the same kind, or none), a \
         text, `true` or `false`, a date or time. An empty field or `?` is a value not taken yet.";
    BAD_UNIT_IN_FILE = "D0505", "the file gives a column a unit of another kind",
        "The unit in the header's square brackets must be of the kind of the table's unit line: `psi` is no `psig`.";
    ROW_WIDTH = "D0506", "a row of the file is too short or too long",
        "Each row has as many fields as the header.";
    TOO_MANY_ROWS = "D0507", "a table has too many rows",
        "Split the log, or thin it.";
    TOO_MANY_COLUMNS = "D0508", "a table has too many columns",
        "Split the table.";
    UNKNOWN_KEY = "D0509", "no row has this key",
        "The first column of a table is its key: `indoor[\"Exam 1\"].superheat`.";
    DOUBLE_KEY = "D0510", "two rows have this key",
        "The first column is the key of a row. Keys that are texts, numbers or refrigerants stand once each, or a row pasted \
         twice would count twice. Where several rows may have one key, as pipes by their size, the first line says so, and \
         none is looked up by it:\n\n\
         table pipes from \"pipes.csv\" keys repeat";
    OUTSIDE_TABLE = "D0511", "a reading outside the table",
        "`interpolate` reads between the rows of a table, never beyond its ends.";
    NOT_STEADY = "D0512", "a column to read along goes up and down",
        "`interpolate` needs a first column that rises from row to row, or falls from row to row.";
    ROWS_TWICE = "D0513", "a table has rows of its own and a file",
        "A table takes its rows from the sheet or from a file (`from \"hold.csv\"`), never from both.";
    NO_KEY = "D0514", "a table whose rows cannot be told apart",
        "The first column of a table is the key of a row. A row with values and no key belongs to nothing; a table whose keys \
         repeat has no row to look up; and a table by time runs forward, so its keys do not repeat.";
    BACKWARDS = "D0515", "times that run backwards",
        "In a table with a time or a duration as its first column each row is later than the one before it: `first`, `last`, \
         `previous`, `elapsed`, `slope` and the tests of a hold read it so. Logs that put the newest row first are to be \
         turned round.";
    SAME_TIME = "D0516", "two rows at one time",
        "Two rows of a log have the same time and differ, so that one of them is wrong. Rows that are equal are counted once.";
}
