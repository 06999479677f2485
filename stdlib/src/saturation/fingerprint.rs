//! What a refrigerant's saturation lines were made from, in one number.

use crate::helmholtz::sources;

/// Raise this when the way that lines are made changes, so that all count as stale.
const METHOD: u64 = 1;

/// The fingerprint of a composition: of the shares, the components' coefficient files and, for a
/// blend, the books of binary parameters. FNV-1a of 64 bits.
pub fn fingerprint(composition: &[(&str, f64)]) -> u64 {
    let mut hash = 0xcbf2_9ce4_8422_2325;
    let mut add = |bytes: &[u8]| {
        for &byte in bytes {
            hash = (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3);
        }
    };
    add(&METHOD.to_le_bytes());
    for (name, share) in composition {
        add(name.as_bytes());
        add(&share.to_bits().to_le_bytes());
        add(sources::equation_text(name).unwrap_or_default().as_bytes());
    }
    if composition.len() > 1 {
        sources::pair_book_texts().iter().for_each(|text| add(text.as_bytes()));
    }
    hash
}
