//! Speed from stored energy. Model card: docs/model/bow-energy.md.

use units::{Energy, Force, Length, Mass, Momentum, STANDARD_GRAVITY, Speed};

use crate::check::{self, within};
use crate::{Bow, BowLaw, DrawCurve, LaunchError, Law, Setting, SpeedSource};

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
    let moving = |mass: Mass| mass.si() + bow.virtual_mass.si();
    let (speed, mass, energy_ratio) = match bow.speed {
        SpeedSource::Stored => {
            let returned = stored_energy(bow)?.si() * (1.0 - bow.hysteresis.si());
            (Speed::from_si((2.0 * returned / moving(arrow_mass)).sqrt()), arrow_mass, 1.0)
        }
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
    let own = speed.si() * (energy_ratio * moving(mass) / moving(arrow_mass)).sqrt();
    within(Setting::Speed, own, check::SPEED)?;
    Ok(Speed::from_si(own))
}

/// The energy that drawing the bow stores: the force-draw curve from brace to
/// full draw, at its draw weight where it is built and as read where it is.
///
/// # Errors
/// [`LaunchError`] where a value is outside its allowed range.
pub fn stored_energy(bow: &Bow) -> Result<Energy, LaunchError> {
    check::stroke(bow)?;
    within(Setting::DrawWeight, bow.draw_weight.si(), check::DRAW_WEIGHT)?;
    within(Setting::Hysteresis, bow.hysteresis.si(), check::HYSTERESIS)?;
    let stroke = power_stroke(bow.draw_length, bow.brace_height)?.si();
    let peak = bow.curve.as_ref().map_or(bow.draw_weight.si(), DrawCurve::peak);
    Ok(Energy::from_si(peak * stroke * BowLaw::new(bow)?.mean(1.0)))
}

/// Where the stored energy goes, J.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Budget {
    /// Stored in the drawn bow.
    pub stored: f64,
    /// To the arrow.
    pub arrow: f64,
    /// To the moving parts of the bow, as the virtual mass counts them.
    pub parts: f64,
    /// Not returned; negative when the speed given asks for more than is
    /// stored, which says that a reading or the curve is off.
    pub lost: f64,
}

/// The energy budget of a shot with an arrow of this mass.
///
/// # Errors
/// [`LaunchError`] where a value is outside its allowed range.
pub fn budget(bow: &Bow, arrow_mass: Mass) -> Result<Budget, LaunchError> {
    let speed = own_speed(bow, arrow_mass)?;
    let stored = stored_energy(bow)?.si();
    let arrow = kinetic_energy(arrow_mass, speed).si();
    let parts = kinetic_energy(bow.virtual_mass, speed).si();
    Ok(Budget { stored, arrow, parts, lost: stored - arrow - parts })
}

/// Energy and virtual mass of a bow, fitted to chronograph readings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EnergyFit {
    /// Energy given to arrow and virtual mass together, J.
    pub energy: f64,
    /// Virtual mass, kg.
    pub virtual_mass: f64,
    /// Standard error of the virtual mass, kg; none for two readings.
    pub error: Option<f64>,
}

/// Fits energy and virtual mass to readings of arrow mass and speed, by least
/// squares on 1/v^2 = (m + mv)/(2 E), a straight line in m.
///
/// # Errors
/// [`LaunchError::Readings`] for fewer than two masses, or readings of which
/// the heavier arrows are not slower.
pub fn fit_virtual_mass(readings: &[(Mass, Speed)]) -> Result<EnergyFit, LaunchError> {
    let count = readings.len() as f64;
    let refused = LaunchError::Readings { count: readings.len() };
    for (mass, speed) in readings {
        within(Setting::ReadMass, mass.si(), check::MASS)?;
        within(Setting::ReadSpeed, speed.si(), check::SPEED)?;
    }
    let mean = |f: &dyn Fn(f64, f64) -> f64| {
        readings.iter().map(|(m, v)| f(m.si(), v.si().powi(-2))).sum::<f64>() / count
    };
    let (mass, slowness) = (mean(&|m, _| m), mean(&|_, y| y));
    let spread = mean(&|m, _| (m - mass).powi(2));
    let slope = mean(&|m, y| (m - mass) * (y - slowness)) / spread;
    if !(count >= 2.0 && spread > 0.0 && slope > 0.0) {
        return Err(refused);
    }
    let virtual_mass = slowness / slope - mass;
    let left = mean(&|m, y| (y - slowness - slope * (m - mass)).powi(2)) * count;
    // mv = ybar/slope - mbar: its error from those of mean and slope.
    let error = (readings.len() > 2).then(|| {
        let variance = left / (count - 2.0);
        let of_slope = variance / (spread * count);
        ((variance / count + (slowness / slope).powi(2) * of_slope) / slope.powi(2)).sqrt()
    });
    Ok(EnergyFit { energy: 0.5 / slope, virtual_mass, error })
}

/// Kinetic energy of an arrow in straight motion.
pub fn kinetic_energy(mass: Mass, speed: Speed) -> Energy {
    Energy::from_si(0.5 * mass.si() * speed.si() * speed.si())
}

/// Momentum of an arrow in straight motion.
pub fn momentum(mass: Mass, speed: Speed) -> Momentum {
    Momentum::from_si(mass.si() * speed.si())
}

#[cfg(test)]
mod tests {
    use units::Length;

    use super::{DRAW_BEYOND_PIVOT, LEAST_STROKE, power_stroke};

    #[test]
    fn exact_the_stroke_ends_at_brace() {
        let (draw, brace) = (Length::from_si(0.74), Length::from_si(0.17));
        let stroke = power_stroke(draw, brace);
        let by_hand = 0.74 - DRAW_BEYOND_PIVOT.si() - 0.17;
        assert!(stroke.is_ok_and(|stroke| (stroke.si() - by_hand).abs() < 1e-15));
        let most = Length::from_si(0.74 - DRAW_BEYOND_PIVOT.si() - 0.99 * LEAST_STROKE);
        assert!(power_stroke(draw, most).is_err());
    }
}
