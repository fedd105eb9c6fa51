//! The nominal arrow in another wind.

use flight::Wind;
use units::{Angle, Speed};

use crate::Setup;
use crate::shoot::{ArrowName, Motion, Shooter};
use crate::sightin::Sighted;

/// A sighted arrow in another wind.
pub(crate) fn blown<'a>(sighted: &Sighted, wind: Wind, tag: ArrowName<'a>) -> Shooter<'a> {
    let mut setup: Setup = sighted.setup.clone();
    setup.site.wind = wind;
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

/// No wind where there is one.
pub(super) fn calm(wind: Wind) -> Wind {
    Wind { speed: Speed::ZERO, ..wind }
}

/// A wind and a further one across from the right, m/s.
pub(super) fn crossed(wind: Wind, further: f64) -> Wind {
    let (sin, cos) = wind.from.si().sin_cos();
    let speed = wind.speed.si();
    let (ahead, left) = (-speed * cos, speed * sin + further);
    Wind {
        speed: Speed::from_si(ahead.hypot(left)),
        from: Angle::from_si(left.atan2(-ahead)),
        ..wind
    }
}
