//! The nominal arrow in another wind.

use flight::Wind;
use units::{Angle, Speed};

use crate::Setup;
use crate::shoot::{ArrowName, Motion, Shooter};
use crate::sightin::Sighted;

/// A sighted arrow with a further cross wind from the right, m/s, if any.
pub(crate) fn blown<'a>(sighted: &Sighted, wind: Option<f64>, tag: ArrowName<'a>) -> Shooter<'a> {
    let mut setup = sighted.setup.clone();
    if let Some(wind) = wind {
        setup.site.wind = crossed(&setup, wind);
    }
    // Wind does not change the push.
    Shooter {
        tag,
        setup,
        built: sighted.built.clone(),
        departure: sighted.departure,
        pitch: sighted.launch_pitch,
        motion: Motion::Rigid,
    }
}

fn crossed(setup: &Setup, further: f64) -> Wind {
    let wind = setup.site.wind;
    let (sin, cos) = wind.from.si().sin_cos();
    let speed = wind.speed.si();
    let (ahead, left) = (-speed * cos, speed * sin + further);
    Wind {
        speed: Speed::from_si(ahead.hypot(left)),
        from: Angle::from_si(left.atan2(-ahead)),
        ..wind
    }
}
