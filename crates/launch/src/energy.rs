//! Speed from stored energy. Model card: docs/model/bow-energy.md.

use units::{Energy, Force, Length, Mass, Momentum, STANDARD_GRAVITY, Speed};

use crate::check::{self, within};
use crate::{Bow, LaunchError, Setting, SpeedSource};

/// Trade draw length beyond the distance from pivot to string: 1.75 in.
/// Defined [ata-draw].
pub const DRAW_BEYOND_PIVOT: Length = Length::from_si(1.75 * 0.0254);

/// Draw weight of the trade's rating velocity at most, 70 lbf. Defined
/// [astm-f1544].
pub const RATING_DRAW_WEIGHT: Force = Force::from_si(70.0 * 0.453_592_37 * STANDARD_GRAVITY);

/// Draw length of the trade's rating velocity, 30 in. Defined [astm-f1544].
pub const RATING_DRAW_LENGTH: Length = Length::from_si(30.0 * 0.0254);

/// Arrow mass of the trade's rating velocity at 70 lbf: 350 gr, which is 5 gr
/// per lbf. Defined [astm-f1544].
pub const RATING_MASS: Mass = Mass::from_si(350.0 * 0.453_592_37 / 7000.0);

/// Least power stroke, m. Chosen: one inch; below it the trade's draw length
/// is surely mistyped.
const LEAST_STROKE: f64 = 0.0254;

/// Distance over which the string pushes: from the nock at full draw to the
/// nock at brace.
///
/// # Errors
/// [`LaunchError::NoStroke`] when the string would hardly move.
pub fn power_stroke(draw_length: Length, brace_height: Length) -> Result<Length, LaunchError> {
    let stroke = draw_length.si() - DRAW_BEYOND_PIVOT.si() - brace_height.si();
    if stroke >= LEAST_STROKE {
        Ok(Length::from_si(stroke))
    } else {
        Err(LaunchError::NoStroke {
            draw_length: draw_length.si(),
            brace_height: brace_height.si(),
            stroke,
            least: LEAST_STROKE,
        })
    }
}

/// The bow's own speed with an arrow of this mass, before any form error.
///
/// The bow gives the same energy to any arrow and its virtual mass together.
/// A rating is carried over by draw weight times power stroke.
///
/// # Errors
/// [`LaunchError`] where a value is outside its allowed range.
pub fn own_speed(bow: &Bow, arrow_mass: Mass) -> Result<Speed, LaunchError> {
    check::stroke(bow)?;
    within(Setting::ArrowMass, arrow_mass.si(), check::MASS)?;
    within(Setting::VirtualMass, bow.virtual_mass.si(), check::VIRTUAL_MASS)?;
    let (speed, mass, energy_ratio) = match bow.speed {
        SpeedSource::Chronograph { speed, mass } => {
            within(Setting::ReadSpeed, speed.si(), check::SPEED)?;
            within(Setting::ReadMass, mass.si(), check::MASS)?;
            (speed, mass, 1.0)
        }
        SpeedSource::Rating { speed, mass, draw_weight, draw_length } => {
            within(Setting::RatedSpeed, speed.si(), check::SPEED)?;
            within(Setting::RatedMass, mass.si(), check::MASS)?;
            within(Setting::RatedDrawWeight, draw_weight.si(), check::DRAW_WEIGHT)?;
            within(Setting::RatedDrawLength, draw_length.si(), check::DRAW_LENGTH)?;
            within(Setting::DrawWeight, bow.draw_weight.si(), check::DRAW_WEIGHT)?;
            let rated = draw_weight.si() * power_stroke(draw_length, bow.brace_height)?.si();
            let own = bow.draw_weight.si() * power_stroke(bow.draw_length, bow.brace_height)?.si();
            (speed, mass, own / rated)
        }
    };
    let moving = |mass: Mass| mass.si() + bow.virtual_mass.si();
    let own = speed.si() * (energy_ratio * moving(mass) / moving(arrow_mass)).sqrt();
    within(Setting::Speed, own, check::SPEED)?;
    Ok(Speed::from_si(own))
}

/// Kinetic energy of an arrow in straight motion.
pub fn kinetic_energy(mass: Mass, speed: Speed) -> Energy {
    Energy::from_si(0.5 * mass.si() * speed.si() * speed.si())
}

/// Momentum of an arrow in straight motion.
pub fn momentum(mass: Mass, speed: Speed) -> Momentum {
    Momentum::from_si(mass.si() * speed.si())
}
