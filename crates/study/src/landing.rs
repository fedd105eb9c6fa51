//! A shot on its way, and how finely shots are followed.

use body::State;
use flight::{Entry, Steps, pilot_steps};
use target::Impact;
use units::{Angle, AngularRate};

use crate::StudyError;
use crate::shoot::{ArrowName, Ready, Shooter};
use crate::sightin::Sighted;

/// One shot, ready to fly.
pub(crate) struct Landing<'a> {
    pub(crate) shooter: Shooter<'a>,
    ready: Ready,
    marks: Vec<f64>,
}

impl<'a> Landing<'a> {
    pub(crate) fn new(shooter: Shooter<'a>, distances: &[f64]) -> Result<Self, StudyError> {
        let marks = shooter.marks(distances)?;
        Ok(Self { ready: shooter.ready()?, shooter, marks })
    }

    pub(crate) fn entry(&self) -> Entry<'_> {
        Entry { model: &self.ready.model, start: &self.ready.start, marks: &self.marks }
    }

    /// Where it lands; an arrow that falls short, or nearly, is flown alone and
    /// tells.
    pub(crate) fn tips(
        &self,
        states: Option<Vec<State>>,
        distances: &[f64],
    ) -> Result<Vec<Impact>, StudyError> {
        match states {
            Some(states) => Ok(states.iter().map(|state| self.shooter.tip(state)).collect()),
            None => self.shooter.tips(distances),
        }
    }
}

/// Steps for flights of a sighted arrow: its pilot leaves untidily, turning at
/// 1 rad/s with its point canted by 0.3 degrees. Chosen: more than faults do.
pub(crate) fn steps(
    sighted: &Sighted,
    distances: &[f64],
    tag: ArrowName,
) -> Result<Steps, StudyError> {
    let mut setup = sighted.setup.clone();
    setup.faults.point_cant.angle = Angle::from_si(0.3_f64.to_radians());
    setup.departure.yaw_rate = Some(AngularRate::from_si(1.0));
    let pilot = Shooter::new(tag, setup)?.aimed(sighted.launch_pitch);
    Ok(pilot_steps(&Landing::new(pilot, distances)?.entry()))
}
