use arrow::Built;
use body::Across;
use units::{Angle, AngularRate};

use crate::check::{self, within};
use crate::energy::{own_speed, power_stroke};
use crate::ride::{Guide, STEPS, Stick, ride};
use crate::{Bow, Departure, Form, GivenDeparture, LaunchError, PushShape, Setting};

/// Largest nose angle of the rigid push, rad. Chosen: sine and angle differ by
/// 0.7 % there.
const FARTHEST: f64 = 0.2;

/// The state in which the arrow leaves the string, relative to the line along
/// which the bow pushes.
///
/// `index` is the roll of the index vane from straight up. Order: the bow's
/// own speed, or the given one; form's speed error on top; the rigid push at
/// that speed; given angles (from the line of motion) and rates in place of the
/// computed ones; form's release angles on top. Aim is not applied here.
///
/// # Errors
/// [`LaunchError`] where a value is outside its allowed range, where bow and
/// arrow do not fit, or where the push leaves small angles.
pub fn depart(
    bow: &Bow,
    built: &Built,
    index: Angle,
    form: &Form,
    given: &GivenDeparture,
) -> Result<Departure, LaunchError> {
    check::stroke(bow)?;
    check::guide(bow, built.layout.shaft_front.si())?;
    check::arrow(built, index)?;
    check::shot(form, given)?;
    let own = given.speed.map_or_else(|| own_speed(bow, built.mass.mass()), Ok)?;
    let speed = own.si() + form.speed.si();
    within(Setting::Speed, speed, check::SPEED)?;

    let shape = PushShape::new(bow.kind, bow.let_off)?;
    let stroke = power_stroke(bow.draw_length, bow.brace_height)?.si();
    let end = ride(&shape, &guide(bow, stroke, speed), &stick(built, index), STEPS)?;

    let [yaw, pitch] = end.angle;
    let angle = yaw.abs().max(pitch.abs());
    if angle > FARTHEST {
        return Err(LaunchError::TooFar { angle, limit: FARTHEST });
    }
    let [velocity_left, velocity_up] = end.velocity;
    let from_motion = |given: Option<Angle>, own: f64, sideways: f64| {
        given.map_or(own, |angle| angle.si() + sideways / speed)
    };
    Ok(Departure {
        speed,
        velocity_left,
        velocity_up,
        yaw: from_motion(given.yaw, yaw, velocity_left) + form.release_left.si(),
        pitch: from_motion(given.pitch, pitch, velocity_up) + form.release_up.si(),
        yaw_rate: given.yaw_rate.map_or(end.rate[0], AngularRate::si),
        pitch_rate: given.pitch_rate.map_or(end.rate[1], AngularRate::si),
        spin: given.spin.map_or(0.0, AngularRate::si),
        roll: index.si(),
        left: end.place[0],
        up: end.place[1],
    })
}

fn guide(bow: &Bow, stroke: f64, speed: f64) -> Guide {
    Guide {
        stroke,
        speed,
        restraint: bow.restraint.si(),
        tip_line: bow.tip_line.si(),
        rest_stiffness: bow.rest.stiffness.si(),
        rest_damping: bow.rest.damping.si(),
        rest_share: bow.rest.share.si(),
        rest_ahead: bow.rest.ahead.si(),
    }
}

fn stick(built: &Built, index: Angle) -> Stick {
    let rolled = |v: Across| {
        let (left, up) = v.left_up(index.si());
        [left, up]
    };
    Stick {
        mass: built.mass.mass().si(),
        inertia: built.mass.transverse().si(),
        lever: built.mass.balance().si(),
        groove: rolled(built.effects.groove_offset),
        balance: rolled(built.effects.balance_offset),
        tilt: rolled(built.effects.shaft_tilt),
    }
}
