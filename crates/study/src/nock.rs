//! A nock turned in its shaft.

use units::Angle;

use crate::Setup;

/// The nock turned clockwise in the shaft, seen from behind.
///
/// The string holds the groove as before, so the nock stays as it was against
/// the bow and the rest of the arrow turns the other way under it. Of the
/// faults the nock's own cant and the groove's offset go with the nock; the
/// shaft's rear face stays with the shaft.
pub(crate) fn turned(mut setup: Setup, angle: f64) -> Setup {
    let add = |clock: &mut Angle, by: f64| *clock = Angle::from_si(clock.si() + by);
    add(&mut setup.faults.nock_cant.clock, angle);
    add(&mut setup.faults.nock_offset.clock, angle);
    add(&mut setup.faults.groove_offset.clock, angle);
    add(&mut setup.index, -angle);
    setup
}
