//! D04: kinds.

use super::code::codes;

codes! { "kinds: points, differences, dimensions";
    UNLIKE = "D0401", "two kinds do not go together",
        "Only like may be added, subtracted, compared or put in one `if`. The dearest mistakes of the trade are a gauge \
         pressure used as an absolute one and a temperature used as a difference, so these are told apart:\n\n    \
         point:       degF degC psig psia micron …   52 degF - 40 degF is 12 F°\n    \
         difference:  F° C° K psi kPa bar Pa …       40 degF + 12 F° is 52 degF\n    \
         from zero:   absolute(52 degF)              a size that can be multiplied and divided\n\n\
         Behind a pressure difference unit `absolute` or `gauge` makes a point of it, behind `K` and `degR` `absolute`: \
         `814 kPa absolute`, `300 K absolute`. Behind `micron`, `mTorr` and `Torr` `difference` says the other thing: \
         `20 micron difference`.";
    SCALED_POINT = "D0402", "a point on a scale is multiplied, divided, negated or raised",
        "Twice 40 °F is not 80 °F of anything, since the zero of the scale is not true zero. `absolute(…)` counts from \
         true zero; a difference of two points may be scaled.";
    WRONG_KIND = "D0403", "a value of one kind stands where another is wanted",
        "What stands after `:` or `as`, or what a function's parameter takes, settles the kind. A point never becomes a \
         difference, nor the other way.";
    NOT_A_CONDITION = "D0404", "a condition is no yes-or-no value",
        "After `if`, `and`, `or`, `not`, `where`, `require` and `advise` stands something that is true or false, such as a comparison.";
    VACUUM_ORDER = "D0405", "readings in inches of vacuum are put in order",
        "A deeper vacuum is a lower pressure but a larger number in inHgv, so `<` would say the opposite of what is meant. \
         Compare in `psia`, `inHga` or `micron`.";
    ENDS_REVERSED = "D0406", "a range has its ends the wrong way round",
        "The lesser end stands first: `5 .. 15 F°`. A range in inHgv may be written either way.";
    BAD_EXPONENT = "D0407", "the exponent of a quantity is not a written whole number or simple fraction",
        "The unit of a power must be known before any number is: write the exponent as a number, such as `^2` or `^(1/2)`.";
    NOT_A_COLUMN = "D0408", "a single value stands where a column is wanted",
        "`mean`, `max` and the other folds take one column, or two and more values.";
    COLUMN_AS_VALUE = "D0409", "a whole column stands where a single value is wanted",
        "A cell is never a column. Fold it (`mean(indoor.superheat)`), pick a row (`indoor[\"Exam 1\"].superheat`), or write \
         the formula inside the table, where it is done for each row.";
    MIXED_TABLES = "D0410", "columns of two tables are mixed",
        "Rows of two tables do not belong together. Pick a row by its key, or read one table at the other's values with `interpolate`.";
    POINT_SUM = "D0411", "points are summed",
        "The sum of temperatures or gauge pressures means nothing; `mean` of them does.";
    WRONG_ARGUMENTS = "D0412", "a call has the wrong arguments",
        "`dewline functions NAME` shows a function's arguments. They can be given in order, or by name in any order.";
    NO_KIND = "D0413", "an input or a reading has neither value nor kind",
        "Say what it will be: `reading end_pressure : psig`.";
    BAD_CHOICE = "D0414", "a text that is not one of the choices",
        "A function's verdict, a choice and what is declared `one of …` can be certain words and no others. A word outside \
         of them would never be equal: `!= \"beyond the limit\"` always holds of a verdict that says *beyond the stated \
         limit*. The set is kept by `if`, by `: text`, in a column and by what fills a form; `dewline functions NAME` lists \
         that of a function.\n\n\
         In files and in values set from outside neither case nor outer spaces count: PASS is read as pass.";
    RECORD_AS_VALUE = "D0415", "the whole result of a function stands where one value is wanted",
        "Functions with several results give a record; name the part after a dot, such as `tube(3/8 in, \"annealed\").bore`.";
    NOT_TAKEN_HERE = "D0416", "`?` stands inside a formula",
        "`?` is a value not taken yet; it stands alone as the value of an input, a reading or a table's cell.";
    WHERE_OUTSIDE = "D0417", "`where` stands outside a fold",
        "`where` says which rows are meant: inside the brackets of `mean`, `max`, `count` and their like, after `require each`, and in `solve`.";
    UNCERTAINTY_KIND = "D0418", "an uncertainty is not of the kind of its value",
        "An uncertainty is a difference: `52.3 degF ± 1 F°`, `550 psig ± 4 psi`, `312 micron ± 10 micron`.";
    GAUGE_SITE = "D0419", "the site's atmosphere is given as a gauge pressure",
        "The site's atmosphere is absolute: `12.93 psia`, `26.3 inHg`, `1013 hPa`. A gauge reads zero in it.";
    UNKNOWN_HIDES = "D0420", "the unknown of `solve` has the name of something else",
        "The unknown hides no name: choose another.";
    SOLVE_DEPTH = "D0421", "`solve` inside `solve` inside `solve`",
        "`solve` may stand inside `solve` once.";
    TOO_MANY_CALLS = "D0422", "definitions call each other too many times",
        "With every call written out this formula would make more than a million calls.";
    EACH_OUTSIDE = "D0423", "`require each` stands outside a table",
        "`each` judges row by row and stands inside its table, after the column formulas.";
    BAD_ROW_VALUE = "D0424", "a table's cell is not of its column's kind",
        "The unit line settles the kind of each column. A bare number takes the column's unit.";
    SHOWN_UNIT = "D0425", "a value cannot be shown in this unit",
        "`as` and `:` take a unit of the value's own dimension.";
    PIECES = "D0426", "a quantity in pieces mixes dimensions or does not fall",
        "A quantity in pieces names one dimension with falling units: `12 lb 4 oz`, `6 ft 4-1/2 in`, `1 h 30 min`.";
    TOO_DEEP_EXPRESSION = "D0428", "an expression with too many operations inside one another",
        "Give parts of it names of their own, or put the terms into a table and use `sum`.";
    UNCERTAINTY_SIZE = "D0429", "an uncertainty of an impossible size",
        "What stands after `±` is zero or more and goes both ways; a coverage factor is above zero; degrees of freedom are \
         1 or more.\n\n\
         reading pipe = 52.3 degF ± 1 F°\nreading block = 215 nm ± 15 nm coverage 3 freedom 18";
    UNSAID = "D0440", "of a product nothing says whether it counts from zero or is a difference",
        "`absolute(p1) * absolute(t2) / absolute(t1)` counts from zero, `3 psi * absolute(t2) / absolute(t1)` is a difference: \
         their factors say so. Of `n * r * absolute(t) / v`, or of a pressure from zero times a difference of temperatures, \
         they do not. Then an annotation says it, or `as`, or the parameter it is for:\n\n\
         p : psia = n * r * absolute(t) / v\n\
         rise : psi = absolute(p) * (t2 - t1) / absolute(t1)";
    BARE_SHARE = "D0441", "a number without a unit where per cent is shown",
        "`2` is 200 %. Where a value is shown in `%` or `ppm` a number says its unit: `2 %`, `0.5 %`. Only `0` needs none, \
         and in a column whose unit line says `%` bare numbers are per cent.";
    ATMOSPHERE_ADDED = "D0442", "the pressure of the air is added to a gauge pressure",
        "`118 psig + 14.7 psi` is 132.7 psig, not 132.7 psia. A gauge pressure is made absolute by `absolute(…)`, or shown \
         so by `as psia`, both with the site's own atmosphere. Who means a step of that size writes `14.7 psi difference`.";
    SITES_APART = "D0443", "the site's altitude and its atmosphere do not belong together",
        "Both may stand, and the atmosphere is what counts. If they are more than 5 % apart, one of them is of another place; \
         mostly the pressure is the weather service's, which is reduced to the sea.";
    NOT_LITERAL = "D0427", "a reading is no literal",
        "A reading is what an instrument showed: a number with its unit, or `?`. What is worked out from it is a cell.";
    FREE_TEXT = "D0440", "a check compares a text that may be anything",
        "`result != \"fail\"` holds of FAIL, of failed and of an empty field too, and nobody is told. State the words where \
         the text is given; then a word outside of them is an error, and so is comparing with one.\n\n\
         table tests\n  joint | result\n  text  | one of \"pass\", \"fail\"\n  …\n\
         input mode : one of \"cooling\", \"heating\" = \"cooling\"";
}
