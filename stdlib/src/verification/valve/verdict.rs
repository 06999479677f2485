//! What a unit can look like.

/// What a unit looks like.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// Nothing against it.
    Healthy,
    /// Rests, and nothing passes.
    Idle,
    /// No flow: valve shut, branch blocked, service valve.
    NoFlow,
    /// Too little flow at full opening.
    Starving,
    /// Too much flow at the least opening.
    Passing,
    /// Flow while it rests.
    LeaksIdle,
    /// The sensor on the gas pipe does not read the pipe.
    GasSensor,
    /// Both pipe sensors disagree with the air.
    PipeSensors,
    /// The two pipe sensors stand for one another.
    Swapped,
    /// Two units are crossed, or look so.
    Crossed,
    /// Little air.
    LittleAir,
    /// It runs the other way than the system is read in.
    OtherWay,
    /// The system is to be read and mended first.
    SystemFirst,
    /// Changed too short a time ago.
    NotSettled,
    /// Readings are lacking.
    NotTaken,
    /// One sign, or signs within their uncertainty.
    ConsistentWith(Suspect),
    /// Signs that fit nothing.
    Undecided,
}

/// What one sign alone is consistent with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Suspect {
    /// As [`Verdict::NoFlow`].
    NoFlow,
    /// As [`Verdict::Starving`].
    Starving,
    /// As [`Verdict::Passing`].
    Passing,
    /// As [`Verdict::LeaksIdle`].
    LeaksIdle,
}

impl Verdict {
    /// Whether it names a valve or its branch.
    pub fn names_valve(self) -> bool {
        matches!(self, Verdict::NoFlow | Verdict::Starving | Verdict::Passing | Verdict::LeaksIdle)
    }

    /// Whether its coil seems to lack liquid in cooling, or flow in heating.
    pub(super) fn lacks(self) -> bool {
        use Suspect as S;
        matches!(
            self,
            Verdict::NoFlow
                | Verdict::Starving
                | Verdict::ConsistentWith(S::NoFlow | S::Starving)
                | Verdict::PipeSensors
        )
    }

    /// Whether its coil seems to have too much.
    pub(super) fn has_too_much(self) -> bool {
        use Suspect as S;
        matches!(self, Verdict::Passing | Verdict::LeaksIdle | Verdict::ConsistentWith(S::Passing | S::LeaksIdle))
    }
}
