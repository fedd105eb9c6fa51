use crate::{DrawnParameter, Owner, Setup};

/// Which causes are at work in a group.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Sample {
    /// None: the nominal arrow, shot perfectly.
    Nominal,
    /// No drawn value, but the scenario's fixed faults and form.
    Fixed,
    /// Everything.
    Full,
    /// Everything but the archer.
    Machine,
    /// The archer and the weather, with perfect arrows.
    Form,
    /// One owner alone.
    Only(Owner),
    /// Both ends of the arrow alone.
    Ends,
}

impl Sample {
    /// Whether a drawn value is at work.
    pub(crate) fn draws(self, draw: &DrawnParameter) -> bool {
        match self {
            Self::Nominal | Self::Fixed => false,
            Self::Full => true,
            Self::Machine => draw.owner != Owner::Archer,
            Self::Form => matches!(draw.owner, Owner::Archer | Owner::Weather),
            Self::Only(owner) => draw.owner == owner,
            Self::Ends => matches!(draw.owner, Owner::FrontEnd | Owner::NockEnd),
        }
    }

    /// Clears the faults and the form error that the scenario fixes and this
    /// group leaves out.
    pub(crate) fn clear(self, setup: &mut Setup) {
        if matches!(self, Self::Nominal | Self::Form) {
            setup.faults = arrow::Faults::default();
        }
        if matches!(self, Self::Nominal | Self::Machine | Self::Only(_) | Self::Ends) {
            setup.form = launch::Form::default();
        }
    }
}
