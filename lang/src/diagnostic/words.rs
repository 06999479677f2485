//! D01: words, marks, numbers and units that cannot be read.

use super::code::codes;

codes! { "words and marks";
    STRANGE_CHARACTER = "D0101", "a character that the language does not use",
        "The sheet holds a character that stands for nothing in the language. It is often pasted in from \
         a document: a typographic quote for \", a long dash for -, or a currency sign.\n\n\
         Write the plain character of the keyboard:  \"\"  -  *  /  <=  >=";
    TEXT_OPEN = "D0102", "a text is not closed",
        "A text stands between two quotes on one line. The closing quote is missing.\n\n\
         note \"soap at every joint\n    should be\nnote \"soap at every joint\"\n\n\
         A quote inside a text is written twice: \"the \"\"blue\"\" gauge\".";
    BRACKETS = "D0103", "brackets that do not match",
        "Every ( needs its ), every [ its ]. A formula may go on in the next line only where the line ends in a \
         comma, an operator or an opening bracket, or the next begins with one; otherwise the formula ends with \
         its line, so that one forgotten bracket does not swallow the sheet.\n\n\
         x = max(a, b        is not closed\nx = max(a,\n        b)          is fine";
    TOO_DEEP = "D0104", "brackets or operators stand too deep inside one another",
        "A formula may hold a bracket inside a bracket, and so on, up to a fixed depth. Nobody can check a \
         deeper one by eye either. Give parts of it names of their own:\n\n\
         inner = …\nouter = 2 * inner + 1";
    NUMBER_FORM = "D0105", "a number that cannot be read",
        "A number begins with a digit: 0.5 psi, not .5 psi. A number too large to calculate with is refused too.\n\n\
         Numbers look like  12   1_280   0.5   3.2e-4   3/8 in   1-1/8 in";
    COMMA = "D0106", "a comma between digits",
        "A comma between two digits may be a decimal comma, may part thousands, or may stand between two values. So it \
         is refused wherever it stands: in a sheet, in a value set from outside, in a line typed, in a data file. \
         A number has a decimal point and nothing between its thousands; two values have a space behind their comma.\n\n\
         0,022 kg/m    should be    0.022 kg/m\n1,280 ft      should be    1280 ft    or    1_280 ft\n\
         max(1,2)      should be    max(1, 2)";
    LENGTH_MARK = "D0107", "a foot or inch mark after a number",
        "Feet and inches are written as units, because \" begins a text.\n\n\
         40'      should be    40 ft\n3/8\"     should be    3/8 in\n6' 4\"    should be    6 ft 4 in";
    BARE_DEGREE = "D0108", "degrees without saying which",
        "A temperature and a difference of temperatures are two kinds: 50 degF is a place on the scale, 50 F° are \
         fifty steps of it. A bare F, C or deg does not say which, and taking one for the other is the dearest \
         mistake of the trade.\n\n\
         suction at 50 degF     superheat of 10 F°     degC and C° likewise";
    FRACTION = "D0109", "a fraction that can be read in two ways",
        "A fraction before a unit is one number only if it is smaller than 1 and written without spaces: 3/8 in. \
         A whole number and a fraction are joined by a dash: 1-1/8 in.\n\n\
         100/5 min     should be    100 / 5 min (a division) \n5 1/8 in      should be    5-1/8 in";
    PIECES = "D0110", "quantities side by side that do not make one",
        "A quantity may be written in pieces whose units fall: 12 lb 4 oz, 6 ft 4-1/2 in, 1 h 30 min. Only the last \
         piece may have a point or a fraction. Two quantities of different things never stand side by side: an \
         operator or a comma is missing between them.";
    SIDE_BY_SIDE = "D0111", "two values side by side without an operator",
        "Nothing is multiplied by standing side by side, because the word after a number is its unit.\n\n\
         2 x      should be    2 * x";
    UNIT_OR_NAME = "D0112", "a word that may be a unit or a name of the sheet",
        "Behind / or · without spaces a unit goes on: 10 ft/s is a speed. The sheet also has a name spelled like \
         that unit, so the line can be read in two ways.\n\n\
         10 ft / s     divides by the cell s\nfor the unit, give the cell another name";
    UNIT_SPACED = "D0113", "spaces inside a unit",
        "A unit is written without spaces: 10 ft/min. With spaces, / is a division, and what it divides by must be a \
         number or a name.\n\n\
         10 ft / min    should be    10 ft/min";
    POWER_OF_QUANTITY = "D0114", "a power behind a quantity",
        "3 ft ^ 2 may mean three square feet or the square of three feet, which is nine square feet.\n\n\
         3 ft2        three square feet\n(3 ft)^2     the square of three feet";
    UNIT_AFTER_BRACKET = "D0115", "a unit after a bracket",
        "A unit stands directly after a number, after `as`, after `:` and in a table's unit line, nowhere else.\n\n\
         (a + b) psi         should be    (a + b) * 1 psi    if a and b are numbers\n\
         (p1 - p2) as psi    shows a difference of pressures in psi";
    MOMENT_FORM = "D0116", "a date or time in another form",
        "Dates are written year-month-day with two digits each, a time follows a T, an offset from universal time \
         may follow the time.\n\n\
         2026-03-14     2026-03-14T07:40     2026-03-14T07:40-05:00";
    MOMENT_IMPOSSIBLE = "D0117", "a date or time that does not exist",
        "Anything shaped like a date is one, and this day or hour does not exist, or has another number of digits. \
         Dates are written year-month-day: 2026-03-14.\n\n\
         To subtract numbers, put spaces round the minus: 2000 - 10 - 5.";
    REFRIGERANT = "D0118", "a word that begins like the designation of a refrigerant",
        "R-410A, R410A and R-1234ze(E) are refrigerants wherever they stand (ASHRAE 34, ISO 817), so that no name \
         may have that shape.";
    PLUS_MINUS_POINT = "D0119", "a temperature or gauge pressure after ±",
        "What stands after ± is a half-width, a difference; a point on a scale is none.\n\n\
         ± 1 degF      should be    ± 1 F°\n± 0.5 psig    should be    ± 0.5 psi";
    UNKNOWN_UNIT = "D0120", "a word that is no unit",
        "A word directly after a number, after `as`, after `:` or in a table's unit line is a unit, and this one is \
         not in the catalogue. `dewline units` lists them all. Volumes counted at standard conditions, such as scfm, \
         are masses: they have no unit here.\n\n\
         To multiply a number with a name write the operator: 2 * x.";
    UNIT_FORM = "D0121", "a unit that cannot be put together so",
        "Units are joined by · or * and one /, without spaces: Btu/(h·ft2·degF). Inside a compound a degree is a \
         difference, and gauge or absolute units do not stand there: psi/min, not psig/min.\n\n\
         A word may stand behind a unit and say from where its numbers count: `absolute` and `gauge` behind units of \
         pressure differences, `absolute` behind K and degR, `difference` behind micron, mTorr and Torr.";
    MISPLACED_MARK = "D0122", "a mark that has no meaning at this place",
        "Marks such as % ° ² belong directly to a number or a unit: 55 %, 10 F°, 3 m².";
    FILLING = "D0123", "a filling of a text that cannot be read",
        "Inside a text {expression as unit} is replaced by a value. The brace must be closed, and a quote inside it is \
         written twice, as everywhere in a text. For a plain { write {{, for a plain } write }}.\n\n\
         note \"drift {drift as psi} over the hold\"";
    MORE_MISTAKES = "D0124", "there are more mistakes than are shown",
        "Only the first hundred messages are shown. One mistake often makes many: mend those at the top and check again.";
}
