//! Whether a branch passes gas: by flow, never by the command that was sent.

use crate::said::said;

/// What is known of a branch.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Branch {
    /// Gas passes.
    Open,
    /// Gas does not pass.
    Blocked,
    /// Not told: counts as blocked.
    Undecided,
}

said! {
    Branch {
        Branch::Open => "open",
        Branch::Blocked => "blocked",
        Branch::Undecided => "undecided",
    }
}

/// Judges a branch by what goes in and what comes out: open from 70 % and three times what the meter can tell, blocked
/// below 10 %, else undecided; with other outlets open only *blocked* can be said.
///
/// Common practice, no source.
pub fn by_flow(inlet: f64, outlet: f64, resolution: f64, others_capped: bool) -> Branch {
    if inlet <= 3.0 * resolution {
        return Branch::Undecided;
    }
    if outlet < 0.1 * inlet && others_capped {
        return Branch::Blocked;
    }
    if others_capped && outlet >= 0.7 * inlet && outlet > 3.0 * resolution { Branch::Open } else { Branch::Undecided }
}

/// What an expansion valve is, as far as known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Valve {
    /// Open.
    Open,
    /// Shut.
    Shut,
    /// Counts as shut.
    Unknown,
}

said! {
    Valve {
        Valve::Open => "open",
        Valve::Shut => "shut",
        Valve::Unknown => "unknown",
    }
}

/// Never powered: as delivered. Powered: shut, unless held open *and* confirmed by flow; held but not confirmed is
/// unknown.
///
/// Common practice, no source.
pub fn valve(powered_ever: bool, held_open: bool, confirmed: bool, delivered_open: bool) -> Valve {
    match (powered_ever, held_open, confirmed) {
        (_, true, true) => Valve::Open,
        (true, true, false) => Valve::Unknown,
        (true, false, _) => Valve::Shut,
        (false, _, _) if delivered_open => Valve::Open,
        (false, _, _) => Valve::Shut,
    }
}

#[cfg(test)]
mod tests {
    use super::{Branch, Valve, by_flow, valve};

    #[test]
    fn flow_decides() {
        assert_eq!(by_flow(10.0, 8.0, 0.5, true), Branch::Open);
        assert_eq!(by_flow(10.0, 0.5, 0.5, true), Branch::Blocked);
        assert_eq!(by_flow(10.0, 4.0, 0.5, true), Branch::Undecided);
        assert_eq!(by_flow(10.0, 8.0, 0.5, false), Branch::Undecided);
        assert_eq!(by_flow(1.0, 1.0, 0.5, true), Branch::Undecided);
    }

    #[test]
    fn a_command_is_not_an_open_valve() {
        assert_eq!(valve(true, true, false, true), Valve::Unknown);
        assert_eq!(valve(true, true, true, false), Valve::Open);
        assert_eq!(valve(true, false, true, true), Valve::Shut);
        assert_eq!(valve(false, false, false, true), Valve::Open);
        assert_eq!(valve(false, false, false, false), Valve::Shut);
    }
}
