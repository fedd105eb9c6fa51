//! Speed and where the stored energy goes. Model card: docs/model/bow-energy.md.

use units::{Energy, Force, Length, Mass, Momentum, STANDARD_GRAVITY, Speed};

use crate::check::{self, within};
use crate::machine::Machine;
use crate::nominal::NominalPush;
use crate::shape::stored_energy;
use crate::stroke::power_stroke;
use crate::{Bow, LaunchError, Setting, SpeedSource};

/// Draw weight of the trade's rating velocity at most, 70 lbf. Defined
/// [astm-f1544].
pub const RATING_DRAW_WEIGHT: Force = Force::from_si(70.0 * 0.453_592_37 * STANDARD_GRAVITY);

/// Draw length of the trade's rating velocity, 30 in. Defined [astm-f1544].
pub const RATING_DRAW_LENGTH: Length = Length::from_si(30.0 * 0.0254);

/// Arrow mass of the trade's rating velocity at 70 lbf: 350 gr, which is 5 gr
/// per lbf. Defined [astm-f1544].
pub const RATING_MASS: Mass = Mass::from_si(350.0 * 0.453_592_37 / 7000.0);

/// The bow's own speed with an arrow of this mass, before any form error.
///
/// From the nominal push: what the moving parts of the bow keep follows from
/// them, unless a virtual mass is stated, which then gives any arrow and itself
/// together the same energy. A rating is carried over by draw weight times
/// power stroke.
///
/// # Errors
/// [`LaunchError`] where a value is outside its allowed range.
pub fn own_speed(bow: &Bow, arrow_mass: Mass) -> Result<Speed, LaunchError> {
    own_push(bow, arrow_mass).map(|push| Speed::from_si(push.speed()))
}

/// Least share of the default moving mass that a fast reading may ask for.
/// Chosen: below a third there is no limb left.
const LIGHTEST: f64 = 0.3;

/// The nominal push of an arrow of this mass at the bow's own speed.
pub(crate) fn own_push(bow: &Bow, arrow_mass: Mass) -> Result<NominalPush, LaunchError> {
    Reading::new(bow, arrow_mass.si())?.push(arrow_mass.si())
}

/// A bow with what a reading of its speed says of it.
///
/// A reading sets what is lost: the run with no loss but the stated hysteresis
/// is slowed to it. Where the reading is faster than that, the moving mass of
/// limbs or cams was taken too large, and is made so small that it fits; what a
/// third of it does not explain is left as a negative loss.
pub(crate) struct Reading {
    bow: Bow,
    machine: Machine,
    /// Speed read, and the run of the arrow it was read with.
    read: Option<(f64, NominalPush)>,
}

impl Reading {
    /// The bow; a stated virtual mass turns a reading into one of the arrow of
    /// this mass (kg), so that it is good for this mass alone.
    pub(crate) fn new(bow: &Bow, mass: f64) -> Result<Self, LaunchError> {
        check::stroke(bow)?;
        within(Setting::ArrowMass, mass, check::MASS)?;
        within(Setting::Hysteresis, bow.hysteresis.si(), check::HYSTERESIS)?;
        let known = match measured(bow)? {
            Some((speed, read)) => match bow.virtual_mass.map(Mass::si) {
                Some(parts) => {
                    within(Setting::VirtualMass, parts, check::VIRTUAL_MASS)?;
                    Some((speed * ((read + parts) / (mass + parts)).sqrt(), mass))
                }
                None => Some((speed, read)),
            },
            None => None,
        };
        let mut machine = Machine::new(bow)?;
        let grip = bow.string.grip.si();
        let Some((speed, read)) = known else {
            return Ok(Self { bow: *bow, machine, read: None });
        };
        within(Setting::Speed, speed, check::SPEED)?;
        let run = |factor: f64| NominalPush::new(&machine.lighter(factor), read, grip);
        let mut at_reading = NominalPush::new(&machine, read, grip)?;
        let mut factor = 1.0;
        let wanted = speed / Self::kept(bow);
        if wanted > at_reading.speed() {
            // 1/v^2 is all but a straight line in the moving mass.
            let slow = |push: &NominalPush| push.speed().powi(-2);
            let (mut from, mut to) = ((1.0, slow(&at_reading)), (LIGHTEST, slow(&run(LIGHTEST)?)));
            for _ in 0..2 {
                let slope = (to.1 - from.1) / (to.0 - from.0);
                factor = (to.0 + (wanted.powi(-2) - to.1) / slope).clamp(LIGHTEST, 1.0);
                at_reading = run(factor)?;
                (from, to) = (to, (factor, slow(&at_reading)));
                if factor.total_cmp(&from.0).is_eq() {
                    break;
                }
            }
        }
        machine = machine.lighter(factor);
        Ok(Self { bow: *bow, machine, read: Some((speed, at_reading)) })
    }

    /// Whether it is good for arrows of any mass.
    pub(crate) fn of_any_mass(&self) -> bool {
        self.bow.virtual_mass.is_none() || self.read.is_none()
    }

    fn kept(bow: &Bow) -> f64 {
        (1.0 - bow.hysteresis.si()).sqrt()
    }

    /// The push of an arrow of this mass (kg).
    pub(crate) fn push(&self, mass: f64) -> Result<NominalPush, LaunchError> {
        within(Setting::ArrowMass, mass, check::MASS)?;
        let grip = self.bow.string.grip.si();
        let Some((speed, at_reading)) = &self.read else {
            let push = NominalPush::new(&self.machine, mass, grip)?;
            let own = match self.bow.virtual_mass.map(Mass::si) {
                Some(parts) => {
                    within(Setting::VirtualMass, parts, check::VIRTUAL_MASS)?;
                    let kept = Self::kept(&self.bow);
                    let returned = kept * kept * stored_energy(&self.bow)?.si();
                    (2.0 * returned / (mass + parts)).sqrt()
                }
                None => Self::kept(&self.bow) * push.speed(),
            };
            return settled(push, own, grip);
        };
        if at_reading.mass().to_bits() == mass.to_bits() {
            return settled(at_reading.clone(), *speed, grip);
        }
        let push = NominalPush::new(&self.machine, mass, grip)?;
        let own = speed * push.speed() / at_reading.speed();
        settled(push, own, grip)
    }
}

fn settled(push: NominalPush, own: f64, grip: f64) -> Result<NominalPush, LaunchError> {
    within(Setting::Speed, own, check::SPEED)?;
    push.leaving_at(own, grip)
}

/// The speed that a reading or rating says of this bow, and of which arrow.
fn measured(bow: &Bow) -> Result<Option<(f64, f64)>, LaunchError> {
    Ok(match bow.speed {
        SpeedSource::Stored => None,
        SpeedSource::Chronograph { speed, mass } => {
            within(Setting::ReadSpeed, speed.si(), check::SPEED)?;
            within(Setting::ReadMass, mass.si(), check::MASS)?;
            Some((speed.si(), mass.si()))
        }
        SpeedSource::Rating { speed, mass, draw_weight, draw_length } => {
            within(Setting::RatedSpeed, speed.si(), check::SPEED)?;
            within(Setting::RatedMass, mass.si(), check::MASS)?;
            within(Setting::RatedDrawWeight, draw_weight.si(), check::DRAW_WEIGHT)?;
            within(Setting::RatedDrawLength, draw_length.si(), check::DRAW_LENGTH)?;
            within(Setting::DrawWeight, bow.draw_weight.si(), check::DRAW_WEIGHT)?;
            let rated = draw_weight.si() * power_stroke(draw_length, bow.brace_height)?.si();
            let own = bow.draw_weight.si() * power_stroke(bow.draw_length, bow.brace_height)?.si();
            Some((speed.si() * (own / rated).sqrt(), mass.si()))
        }
    })
}

/// Where the stored energy goes, J.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Budget {
    /// Stored in the drawn bow.
    pub stored: f64,
    /// To the arrow.
    pub arrow: f64,
    /// Moving with the string as it lets go.
    pub string: f64,
    /// In limbs and cams as the string lets go: moving, and bent beyond brace,
    /// the stretch of string and cables counted.
    pub limbs: f64,
    /// Not returned; negative when the speed given asks for more than is
    /// stored, which says that a reading or the curve is off.
    pub lost: f64,
}

impl Budget {
    /// The mass that, moving with an arrow of this mass (kg), would hold what
    /// the bow's parts keep, kg.
    pub fn virtual_mass(&self, arrow_mass: f64) -> f64 {
        arrow_mass * (self.string + self.limbs) / self.arrow
    }
}

/// The energy budget of a shot with an arrow of this mass.
///
/// # Errors
/// [`LaunchError`] where a value is outside its allowed range.
pub fn budget(bow: &Bow, arrow_mass: Mass) -> Result<Budget, LaunchError> {
    let push = own_push(bow, arrow_mass)?;
    let stored = stored_energy(bow)?.si();
    let arrow = kinetic_energy(arrow_mass, Speed::from_si(push.speed())).si();
    let [string, limbs, bent] = push.kept();
    let limbs = limbs + bent;
    Ok(Budget { stored, arrow, string, limbs, lost: stored - arrow - string - limbs })
}

/// The push on an arrow of this mass, N, at shares of the power stroke travelled,
/// 0 at full draw to 1 at brace.
///
/// It is the force on the arrow, not the draw force: what string and limbs take
/// on the way, and give back, is taken off.
///
/// # Errors
/// [`LaunchError`] where a value is outside its allowed range.
pub fn push_forces(
    bow: &Bow,
    arrow_mass: Mass,
    travelled: &[f64],
) -> Result<Vec<f64>, LaunchError> {
    let push = own_push(bow, arrow_mass)?;
    let force = |share: &f64| {
        within(Setting::Travel, *share, (0.0, 1.0))?;
        Ok(arrow_mass.si() * push.at(push.reaches(*share)).acceleration)
    };
    travelled.iter().map(force).collect()
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
