//! D06: what goes wrong with numbers. Such an error breaks its cell or row; the rest is computed.

use super::code::codes;

codes! { "running";
    BELOW_ZERO = "D0601", "a temperature or pressure at or below absolute zero",
        "No temperature lies at or below -459.67 °F (-273.15 °C), no absolute pressure at or below zero. Usually a unit or a \
         sign has slipped, or a gauge reading is deeper than the site's atmosphere allows.";
    DIVISION_BY_ZERO = "D0602", "a division by zero",
        "What stands under the fraction is zero.";
    OVERFLOW = "D0603", "a number too large to hold",
        "The result is beyond 1.8e308.";
    NOT_REAL = "D0604", "a root or logarithm of a number that has none",
        "A square root needs zero or more, a logarithm more than zero.";
    OUTSIDE_LIMITS = "D0605", "a function is asked outside its limits",
        "Every function states where it holds and never guesses beyond: the message names the limit and the value.";
    NO_ROOT = "D0606", "`solve` finds no root",
        "Between its two ends the two sides must change places once. The message gives the difference at both ends: if they \
         have the same sign, widen the range or look at the formula.";
    JUMP = "D0607", "`solve` finds a jump instead of a root",
        "The two sides change places without ever being equal, because one of them jumps.";
    TIME_OFFSETS = "D0608", "two times cannot be compared",
        "Two times can be subtracted or compared only if both have an offset (`+01:00`) or neither has.";
    EMPTY_COLUMN = "D0609", "a column has no rows to fold",
        "`mean`, `min`, `max` and their like need at least one row. `count` and `sum` of no rows are 0.";
    RUN_ENDS_REVERSED = "D0610", "a range has its ends the wrong way round",
        "The lesser end of a range stands first.";
    ABSENT_FIELD = "D0611", "a part of a result that is absent here",
        "Some results have parts that exist only in some cases, such as a quality inside the two-phase region.";
    NEGATIVE_TOLERANCE = "D0612", "a tolerance below zero",
        "What stands after `±` must be zero or more.";
    CHOICE_AT_RUN = "D0613", "a text that is not one of the choices",
        "The function takes one of the words it lists.";
    TEXT_TOO_LONG = "D0614", "a text grows too long",
        "A text made by a sheet may have a million characters.";
    OUTSIDE_WITHIN = "D0615", "a value outside its own limits: a typing mistake",
        "The value lies outside the `within` stated beside it, so it is refused as a slip of the hand. If it is right, \
         mend the limits.";
    TOO_MUCH_WORK = "D0616", "the run takes too many steps",
        "The sheet asks for more computing than a run may use: fewer rows, fewer calls, or a shorter `solve`.";
    NOT_EVEN = "D0617", "paired columns differ in length",
        "Columns handed to one function must come from the same rows.";
    TOO_MUCH_HELD = "D0618", "the run holds too much",
        "The tables of the run come to more values, or its texts to more bytes, than a run may hold: fewer rows, fewer column \
         formulas, shorter texts, or the data in parts.";
    LEFT_OUT = "D0619", "a check of a row that was left out",
        "`previous` has nothing for the first row, which is then left out. A check that judges each row passes it over; one \
         that judges this value alone would have asked for nothing, and cannot stand.";
}
