//! An invented hunting build whose values are named by hand, so that the
//! runner can be tested apart from scenario files.

use std::f64::consts::FRAC_PI_2;

use arrow::Bend;
use launch::{Form, GivenDeparture};
use study::{
    Build, Distribution, DrawnParameter, Owner, Per, Plan, Question, Recipe, Refused, Setup, Sight,
    Slot, Stated, TargetChoice, UncertainParameter,
};
use units::{Angle, Dimension, Force, Length, Mass, Ratio, Speed, Stiffness};

use crate::push;

/// A value of the build that can be drawn, swept or doubted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Value {
    /// Angle of the point-end face, rad.
    FaceAngle,
    /// Its clock position, rad.
    FaceClock,
    /// Cant of the nock, rad.
    NockAngle,
    /// Its clock position, rad.
    NockClock,
    /// Offset of the groove, m.
    Groove,
    /// Its clock position, rad.
    GrooveClock,
    /// Aim to the left, rad.
    AimLeft,
    /// Aim upward, rad.
    AimUp,
    /// Speed error, m/s.
    Speed,
    /// Nose left at the release, rad.
    ReleaseLeft,
    /// Mass of the point, kg; from 1 g to 50 g.
    PointMass,
    /// Drag coefficient of nock and rear end.
    NockDrag,
    /// Both restraints of the string.
    Restraint,
    /// Wind speed, m/s.
    Wind,
    /// Static spine of the shaft, m.
    Spine,
    /// Cut length of the shaft, m.
    Length,
    /// Peak draw force, N.
    DrawWeight,
    /// Stiffness of the rest, N/m.
    RestStiffness,
    /// Bow of the shaft over its span, m, at a quarter turn.
    Bow,
}

impl Value {
    /// Its slot.
    pub fn slot(self) -> Slot {
        Slot(self as usize)
    }

    /// The value of a setup, where it may be poorly known.
    fn get(self, setup: &Setup) -> f64 {
        match self {
            Self::NockDrag => setup.aero.nock_drag.si(),
            Self::Restraint => setup.bow.restraint.left.si(),
            Self::RestStiffness => setup.bow.rest.stiffness.si(),
            Self::Wind => setup.site.wind.speed.si(),
            _ => 0.0,
        }
    }

    fn put(self, setup: &mut Setup, value: f64) {
        let angle = Angle::from_si(value);
        match self {
            Self::FaceAngle => setup.faults.point_end.angle = angle,
            Self::FaceClock => setup.faults.point_end.clock = angle,
            Self::NockAngle => setup.faults.nock_cant.angle = angle,
            Self::NockClock => setup.faults.nock_cant.clock = angle,
            Self::Groove => setup.faults.groove_offset.offset = Length::from_si(value),
            Self::GrooveClock => setup.faults.groove_offset.clock = angle,
            Self::AimLeft => setup.form.aim_left = angle,
            Self::AimUp => setup.form.aim_up = angle,
            Self::Speed => setup.form.speed = Speed::from_si(value),
            Self::ReleaseLeft => setup.form.release_left = angle,
            Self::PointMass => setup.parts.point.mass = Mass::from_si(value),
            Self::NockDrag => setup.aero.nock_drag = Ratio::from_si(value),
            Self::Restraint => {
                setup.bow.restraint.left = Ratio::from_si(value);
                setup.bow.restraint.up = Ratio::from_si(value);
            }
            Self::Wind => setup.site.wind.speed = Speed::from_si(value),
            Self::Spine => setup.parts.shaft.spine = Length::from_si(value),
            Self::Length => setup.parts.shaft.length = Length::from_si(value),
            Self::DrawWeight => setup.bow.draw_weight = Force::from_si(value),
            Self::RestStiffness => setup.bow.rest.stiffness = Stiffness::from_si(value),
            Self::Bow => {
                setup.faults.bend = Some(Bend {
                    bow: Length::from_si(value),
                    span: Length::from_si(0.7),
                    clock: Angle::from_si(FRAC_PI_2),
                });
            }
        }
    }
}

const VALUES: [Value; 19] = [
    Value::FaceAngle,
    Value::FaceClock,
    Value::NockAngle,
    Value::NockClock,
    Value::Groove,
    Value::GrooveClock,
    Value::AimLeft,
    Value::AimUp,
    Value::Speed,
    Value::ReleaseLeft,
    Value::PointMass,
    Value::NockDrag,
    Value::Restraint,
    Value::Wind,
    Value::Spine,
    Value::Length,
    Value::DrawWeight,
    Value::RestStiffness,
    Value::Bow,
];

/// The recipe.
#[derive(Debug, Clone)]
pub struct Simple {
    /// The setup before changes.
    pub base: Setup,
    /// What is drawn.
    pub draws: Vec<DrawnParameter>,
    /// What is doubted.
    pub uncertain: Vec<UncertainParameter>,
}

impl Simple {
    /// The hunting arrow and an invented compound, nothing drawn.
    pub fn new() -> Self {
        let base = Setup {
            parts: crate::hunter(),
            faults: arrow::Faults::default(),
            index: Angle::ZERO,
            bow: push::level(),
            form: Form::default(),
            departure: GivenDeparture::default(),
            aero: crate::choice(),
            site: crate::site(),
            sight: Sight {
                zero: Length::from_si(20.0),
                height: Length::from_si(0.1),
                radius: Length::from_si(0.8),
            },
        };
        Self { base, draws: Vec::new(), uncertain: Vec::new() }
    }

    /// The same with one more drawn value; it is zero when switched off.
    #[must_use]
    pub fn drawn(mut self, value: Value, owner: Owner, law: Distribution, per: Per) -> Self {
        let key = match value {
            Value::FaceAngle => "faults.point_end.angle".to_owned(),
            other => format!("{other:?}"),
        };
        self.draws.push(DrawnParameter { slot: value.slot(), key, owner, law, per, off: 0.0 });
        self
    }

    /// The same with faulty ends: a face out of square by this Rayleigh scale
    /// (rad), a canted nock by a quarter of it, both at random clocks.
    #[must_use]
    pub fn sawn(self, scale: f64) -> Self {
        let clock = Distribution::Uniform { low: 0.0, high: std::f64::consts::TAU };
        let (front, rear) =
            (Distribution::Rayleigh { scale }, Distribution::Rayleigh { scale: 0.25 * scale });
        self.drawn(Value::FaceAngle, Owner::FrontEnd, front, Per::Arrow)
            .drawn(Value::FaceClock, Owner::FrontEnd, clock, Per::Arrow)
            .drawn(Value::NockAngle, Owner::NockEnd, rear, Per::Arrow)
            .drawn(Value::NockClock, Owner::NockEnd, clock, Per::Arrow)
    }

    /// The same shot by an archer whose aim scatters by this much, rad.
    #[must_use]
    pub fn aimed(self, sd: f64) -> Self {
        let law = Distribution::Normal { mean: 0.0, sd };
        self.drawn(Value::AimLeft, Owner::Archer, law, Per::Shot).drawn(
            Value::AimUp,
            Owner::Archer,
            law,
            Per::Shot,
        )
    }

    /// The same with one more doubt.
    #[must_use]
    pub fn doubted(mut self, value: Value, low: f64, high: f64) -> Self {
        let (key, slot) = (format!("{value:?}"), value.slot());
        let dimension = Dimension::Ratio;
        let value = value.get(&self.base).clamp(low, high);
        self.uncertain.push(UncertainParameter { slot, key, dimension, value, low, high });
        self
    }

    /// As a build of this name.
    pub fn build(self, name: &str) -> Build {
        Build { name: name.to_owned(), recipe: std::sync::Arc::new(self) }
    }
}

impl Default for Simple {
    fn default() -> Self {
        Self::new()
    }
}

impl Recipe for Simple {
    fn draws(&self) -> &[DrawnParameter] {
        &self.draws
    }

    fn uncertain(&self) -> &[UncertainParameter] {
        &self.uncertain
    }

    fn setup(&self, changes: &[(Slot, f64)]) -> Result<Setup, Refused> {
        let mut setup = self.base.clone();
        for &(slot, value) in changes {
            let which = VALUES[slot.0];
            if which == Value::PointMass && !(1e-3..=50e-3).contains(&value) {
                return Err(Refused {
                    key: "PointMass".to_owned(),
                    value: format!("{value} kg"),
                    allowed: "0.001 kg to 0.05 kg".to_owned(),
                });
            }
            which.put(&mut setup, value);
        }
        Ok(setup)
    }
}

/// A comparison at 20 and 50 m on a 20 cm zone.
pub fn compare(builds: Vec<Build>, flights: usize) -> Plan {
    Plan {
        title: "invented".to_owned(),
        builds,
        question: Question::Compare { ends: false },
        distances: vec![Length::from_si(20.0), Length::from_si(50.0)],
        flights,
        stop: None,
        arrows: None,
        target: TargetChoice::Zone { diameter: Length::from_si(0.2) },
        stated: Stated::default(),
        points: study::QUICK_POINTS,
        alone: study::CausesAlone::Everywhere,
        evidence: Vec::new(),
        seed: 7,
    }
}
