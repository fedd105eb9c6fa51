//! Whose doing a drawn value is, and how often it is drawn: said once for a
//! group of rows, or in the row.

use study::{Owner, Per};

/// What is true of a value where it is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Chance {
    pub(crate) owner: Owner,
    /// How often it is drawn unless the file says.
    pub(crate) per: Per,
    /// Whether it is added to what is perfect, so that nothing is left of it
    /// when its cause is switched off.
    pub(crate) added: bool,
}

const fn arrow(owner: Owner) -> Chance {
    Chance { owner, per: Per::Arrow, added: false }
}

const fn shot(owner: Owner) -> Chance {
    Chance { owner, per: Per::Shot, added: false }
}

const fn added(mut chance: Chance) -> Chance {
    chance.added = true;
    chance
}

/// Rows of a question or a check, which are never drawn.
pub(super) const ASKED: Chance = PLACE;
pub(super) const BOW: Chance = arrow(Owner::Bow);
/// What the fingers do to the string.
pub(super) const LOOSE: Chance = shot(Owner::Archer);
pub(super) const SHAFT: Chance = arrow(Owner::Shaft);
pub(super) const FRONT_END: Chance = arrow(Owner::FrontEnd);
pub(super) const NOCK_END: Chance = arrow(Owner::NockEnd);
pub(super) const VANES: Chance = arrow(Owner::Vanes);
pub(super) const WEIGHTS: Chance = arrow(Owner::Weights);
pub(super) const FRONT_FAULT: Chance = added(FRONT_END);
pub(super) const NOCK_FAULT: Chance = added(NOCK_END);
pub(super) const SHAFT_FAULT: Chance = added(SHAFT);
pub(super) const VANE_FAULT: Chance = added(VANES);
/// What the archer adds to a perfect shot.
pub(super) const FORM: Chance = added(shot(Owner::Archer));
/// How the archer stands and sights.
pub(super) const STANCE: Chance = arrow(Owner::Archer);
pub(super) const WEATHER: Chance = shot(Owner::Weather);
/// Free fall, and the air's grip on the arrow.
pub(super) const PLACE: Chance = arrow(Owner::Weather);
