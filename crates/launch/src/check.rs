//! Allowed ranges. All are chosen: wide enough for every hand-held bow, narrow
//! enough that a slipped unit or decimal point is caught.

use arrow::{Built, Parts};
use body::Across;
use units::Angle;

use crate::stroke::power_stroke;
use crate::{Bow, BowKind, Form, GivenDeparture, LaunchError, Setting};

pub(crate) const MASS: (f64, f64) = (0.001, 0.5);
pub(crate) const SPEED: (f64, f64) = (1.0, 300.0);
pub(crate) const DRAW_WEIGHT: (f64, f64) = (1.0, 2000.0);
pub(crate) const DRAW_LENGTH: (f64, f64) = (0.2, 1.5);
pub(crate) const BRACE_HEIGHT: (f64, f64) = (0.02, 0.6);
pub(crate) const VIRTUAL_MASS: (f64, f64) = (0.0, 0.2);
pub(crate) const HYSTERESIS: (f64, f64) = (0.0, 0.9);
/// Full let-off would leave nothing to start the arrow.
pub(crate) const LET_OFF: (f64, f64) = (0.0, 0.95);
const LIMB_MASS: (f64, f64) = (0.001, 2.0);
const STRING_MASS: (f64, f64) = (0.0, 0.1);
const NOCKING_MASS: (f64, f64) = (0.0, 0.05);
const STRING_STIFFNESS: (f64, f64) = (5e3, 1e7);
const GRIP: (f64, f64) = (0.0, 200.0);
const GRAVITY: (f64, f64) = (0.0, 30.0);
const TIP_LINE: (f64, f64) = (0.005, 0.2);
const RESTRAINT: (f64, f64) = (0.0, 20.0);
const DELAY: (f64, f64) = (0.0, 1.0);
const REST_STIFFNESS: (f64, f64) = (0.0, 1e5);
const REST_DAMPING: (f64, f64) = (0.0, 100.0);
const REST_AHEAD: (f64, f64) = (0.0, 1.0);
const PRELOAD: (f64, f64) = (0.0, 100.0);
const SHARE: (f64, f64) = (0.0, 1.0);
const HALF_STRING: (f64, f64) = (0.1, 2.0);
const PATH: (f64, f64) = (-0.1, 0.1);
const IMPULSE: (f64, f64) = (-1.0, 1.0);
const STIFF_SIDE: (f64, f64) = (0.0, 0.5);
const SHAFT_DAMPING: (f64, f64) = (0.0, 0.5);
const BALANCE: (f64, f64) = (0.01, 2.0);
const OFFSET: (f64, f64) = (0.0, 0.02);
const TILT: (f64, f64) = (0.0, 0.2);
const FORM_ANGLE: (f64, f64) = (-0.5, 0.5);
const ATTITUDE: (f64, f64) = (-1.5, 1.5);
const RATE: (f64, f64) = (-1e4, 1e4);
const TURNS: (f64, f64) = (-1e6, 1e6);

/// Refuses a value outside its range; NaN is outside every range.
pub(crate) fn within(setting: Setting, value: f64, range: (f64, f64)) -> Result<(), LaunchError> {
    let (low, high) = range;
    if (low..=high).contains(&value) {
        Ok(())
    } else {
        Err(LaunchError::OutOfRange { setting, value, low, high })
    }
}

/// Checks what shapes the push along the stroke.
pub(crate) fn stroke(bow: &Bow) -> Result<(), LaunchError> {
    within(Setting::DrawLength, bow.draw_length.si(), DRAW_LENGTH)?;
    within(Setting::BraceHeight, bow.brace_height.si(), BRACE_HEIGHT)?;
    within(Setting::LetOff, bow.let_off.si(), LET_OFF)?;
    if bow.kind != BowKind::Compound && bow.let_off.si() > 0.0 {
        return Err(LaunchError::LetOffWithoutCams { let_off: bow.let_off.si() });
    }
    power_stroke(bow.draw_length, bow.brace_height).map(|_| ())
}

/// Checks what moves in the bow.
pub(crate) fn machine(bow: &Bow) -> Result<(), LaunchError> {
    stroke(bow)?;
    within(Setting::DrawWeight, bow.draw_weight.si(), DRAW_WEIGHT)?;
    within(Setting::LimbMass, bow.limb_mass.si(), LIMB_MASS)?;
    within(Setting::StringMass, bow.string.mass.si(), STRING_MASS)?;
    within(Setting::NockingMass, bow.string.nocking.si(), NOCKING_MASS)?;
    within(Setting::StringStiffness, bow.string.stiffness.si(), STRING_STIFFNESS)?;
    within(Setting::Grip, bow.string.grip.si(), GRIP)?;
    within(Setting::HalfString, bow.half_string.si(), HALF_STRING)?;
    within(Setting::TipLine, bow.tip_line.si(), TIP_LINE)?;
    let half_string = bow.half_string.si();
    // Hinged limbs turn; cams pay out string, so theirs need reach to brace alone.
    let behind = match bow.kind {
        BowKind::Compound => bow.tip_line.si(),
        BowKind::Recurve | BowKind::Longbow => {
            bow.brace_height.si() + power_stroke(bow.draw_length, bow.brace_height)?.si()
        }
    };
    if half_string > behind {
        Ok(())
    } else {
        Err(LaunchError::StringShort { half_string, behind })
    }
}

/// Checks what holds the arrow sideways in the push.
pub(crate) fn guide(bow: &Bow, shaft_front: f64) -> Result<(), LaunchError> {
    within(Setting::RestraintLeft, bow.restraint.left.si(), RESTRAINT)?;
    within(Setting::RestraintUp, bow.restraint.up.si(), RESTRAINT)?;
    within(Setting::Gravity, bow.gravity.si(), GRAVITY)?;
    within(Setting::RestStiffness, bow.rest.stiffness.si(), REST_STIFFNESS)?;
    within(Setting::RestDamping, bow.rest.damping.si(), REST_DAMPING)?;
    within(Setting::RestShare, bow.rest.share.si(), SHARE)?;
    within(Setting::RestAhead, bow.rest.ahead.si(), REST_AHEAD)?;
    within(Setting::Preload, bow.rest.preload.si(), PRELOAD)?;
    within(Setting::RestDelay, bow.rest.delay.si(), DELAY)?;
    within(Setting::PathLeft, bow.path.left.si(), PATH)?;
    within(Setting::PathUp, bow.path.up.si(), PATH)?;
    within(Setting::ImpulseLeft, bow.release.left.si(), IMPULSE)?;
    within(Setting::ImpulseUp, bow.release.up.si(), IMPULSE)?;
    let stroke = power_stroke(bow.draw_length, bow.brace_height)?.si();
    let rest = bow.rest.ahead.si() + stroke;
    if rest <= shaft_front {
        Ok(())
    } else {
        Err(LaunchError::OffRest { rest, shaft: shaft_front })
    }
}

/// Checks the arrow as far as the push uses it.
pub(crate) fn arrow(parts: &Parts, built: &Built, index: Angle) -> Result<(), LaunchError> {
    within(Setting::StiffSide, parts.shaft.stiff_side.si(), STIFF_SIDE)?;
    within(Setting::ShaftDamping, parts.shaft.damping.si(), SHAFT_DAMPING)?;
    within(Setting::ArrowMass, built.mass.mass().si(), MASS)?;
    within(Setting::Balance, built.mass.balance().si(), BALANCE)?;
    let size = |v: Across| v.size();
    within(Setting::GrooveOffset, size(built.effects.groove_offset), OFFSET)?;
    within(Setting::BalanceOffset, size(built.effects.balance_offset), OFFSET)?;
    within(Setting::ShaftTilt, size(built.effects.shaft_tilt), TILT)?;
    within(Setting::Index, index.si(), TURNS)
}

/// Checks the archer's part and the values given directly.
pub(crate) fn shot(form: &Form, given: &GivenDeparture) -> Result<(), LaunchError> {
    within(Setting::FormSpeed, form.speed.si(), (-SPEED.1, SPEED.1))?;
    within(Setting::ReleaseLeft, form.release_left.si(), FORM_ANGLE)?;
    within(Setting::ReleaseUp, form.release_up.si(), FORM_ANGLE)?;
    for (setting, value, range) in [
        (Setting::Speed, given.speed.map(units::Speed::si), SPEED),
        (Setting::GivenYaw, given.yaw.map(Angle::si), ATTITUDE),
        (Setting::GivenPitch, given.pitch.map(Angle::si), ATTITUDE),
        (Setting::GivenYawRate, given.yaw_rate.map(units::AngularRate::si), RATE),
        (Setting::GivenPitchRate, given.pitch_rate.map(units::AngularRate::si), RATE),
        (Setting::GivenSpin, given.spin.map(units::AngularRate::si), RATE),
    ] {
        if let Some(value) = value {
            within(setting, value, range)?;
        }
    }
    Ok(())
}
