//! D01: words, marks, numbers and units that cannot be read.

use super::code::codes;

codes! { "words and marks";
    STRANGE_CHARACTER = "D0101", "a character that the language does not use",
        "The sheet holds a character that stands for nothing in the language. It is often pasted in from \
         a document: a typographic quote for \", a long dash for -, or a currency sign.";
}
