//! Cautions that more than one subject prints.

/// Printed with what is read on a running system.
pub const SETTLED: &str = "Read after it has settled; not in defrost or oil return. A limit here is common practice; the \
                           unit's own document comes first.";
