//! Words by which sheets see a verdict. The set that a function declares and the words that it can answer are one list, so
//! that neither can be without the other.

/// Gives an enum its words: `said! { Verdict { Verdict::Open => "open", … } }` makes `name` and, all of them, `WORDS`.
macro_rules! said {
    ($Type:ty { $($variant:pat => $word:literal),+ $(,)? }) => {
        impl $Type {
            /// All words that sheets may see.
            pub const WORDS: &'static [&'static str] = &[$($word),+];

            /// As sheets see it.
            pub const fn name(&self) -> &'static str {
                match self {
                    $($variant => $word),+
                }
            }
        }
    };
}
pub(crate) use said;
