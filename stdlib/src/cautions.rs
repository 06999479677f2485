//! Cautions that more than one subject prints.

/// Printed with what names a cause.
pub const LIKELY: &str = "Likely, not certain: part names are given only on two signs that share no sensor.";

/// Printed with what is read on a running system.
pub const SETTLED: &str = "Read after it has settled; not in defrost or oil return. A limit here is common practice; the \
                           unit's own document comes first.";
