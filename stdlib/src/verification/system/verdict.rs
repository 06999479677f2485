//! What a system can look like.

/// The rest test of the outdoor coil.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Rest {
    /// Not made, or undecided.
    Unknown,
    /// Gas that does not condense.
    Gas,
    /// None seen.
    None,
}

/// What a system looks like.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// No sign against it.
    Healthy,
    /// Short of liquid: charge, or what holds it back.
    Short,
    /// Liquid stands in the indoor coils and the outdoor coil lacks it (heating).
    HeldBack,
    /// More charge than it can hold.
    Overfilled,
    /// Gas that does not condense.
    Gas,
    /// The outdoor coil gets too little air, or air that is not the ambient's.
    OutdoorAirflow,
    /// Low suction with all else fair, or liquid that returns.
    SuctionSide,
    /// Too hot to go on.
    Stop,
    /// Not settled.
    NotSettled,
    /// Signs within their uncertainty, or too few.
    Undecided,
}

impl Verdict {
    /// All of them.
    pub const ALL: [Verdict; 10] = [
        Verdict::Healthy,
        Verdict::Short,
        Verdict::HeldBack,
        Verdict::Overfilled,
        Verdict::Gas,
        Verdict::OutdoorAirflow,
        Verdict::SuctionSide,
        Verdict::Stop,
        Verdict::NotSettled,
        Verdict::Undecided,
    ];

    /// What much subcooling with nothing lacking is: gas and overfilling look the same on a gauge, which settles them only
    /// together with the rest test.
    pub(super) fn by_rest(rest: Rest, pressures_checked: bool) -> Verdict {
        match rest {
            Rest::Gas if pressures_checked => Verdict::Gas,
            Rest::None if pressures_checked => Verdict::Overfilled,
            _ => Verdict::Undecided,
        }
    }
}
