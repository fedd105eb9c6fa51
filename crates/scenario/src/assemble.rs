//! Numbers and words into the types of the other rooms.

use arrow::{
    Bend, Blades, Collar, Faults, Given, Insert, Lean, Nock, Outsert, Parts, Point, Shaft, Shift,
    VaneFault, Vanes, Wrap, cant_from_tip,
};
use flight::{
    AeroChoice, AeroFactors, GivenAero, Site, Weather, Wind, WindProfile, standard_pressure,
};
use launch::{Form, GivenDeparture};
use study::{Refused, Setup, Sight};
use units::{Angle, Length};

use crate::bow::bow;
use crate::numbers::Numbers;
use crate::schema::Id;
use crate::text::{own_unit, quantity};
use crate::words::Words;

impl Numbers<'_> {
    fn lean(&self, angle: Id, clock: Id) -> Lean {
        Lean { angle: self.at(angle), clock: self.at(clock) }
    }

    /// A drawn aim. Its law has the spread that archer.form says; where that is known
    /// only roughly and drawn itself, aim goes in proportion.
    fn aim(&self, id: Id) -> Angle {
        let drawn: Angle = self.at(id);
        if !self.has(Id::ArcherForm) {
            return drawn;
        }
        let at = Id::ArcherForm as usize;
        Angle::from_si(drawn.si() * (self.values[at] / self.unchanged[at]))
    }

    fn shift(&self, offset: Id, clock: Id) -> Shift {
        Shift { offset: self.at(offset), clock: self.at(clock) }
    }
}

/// Puts one shot together.
pub(crate) fn assemble(n: &Numbers<'_>, words: &Words) -> Result<Setup, Refused> {
    Ok(Setup {
        parts: parts(n, words),
        faults: faults(n, words)?,
        index: n.at(Id::ArrowIndex),
        bow: bow(n, words),
        form: Form {
            aim_left: n.aim(Id::AimLeft),
            aim_up: n.aim(Id::AimUp),
            speed: n.at(Id::FormSpeed),
            release_left: n.at(Id::ReleaseLeft),
            release_up: n.at(Id::ReleaseUp),
        },
        departure: GivenDeparture {
            speed: n.maybe(Id::DepartureSpeed),
            yaw: n.maybe(Id::DepartureYaw),
            pitch: n.maybe(Id::DeparturePitch),
            yaw_rate: n.maybe(Id::DepartureYawRate),
            pitch_rate: n.maybe(Id::DeparturePitchRate),
            spin: n.maybe(Id::DepartureSpin),
        },
        aero: AeroChoice {
            turbulence: n.at(Id::Turbulence),
            nock_drag: n.at(Id::NockDrag),
            cross_flow: n.at(Id::CrossFlow),
            trips_until: n.at(Id::TripsUntil),
            factors: AeroFactors {
                vane_slope: n.at(Id::VaneSlope),
                roll_level: n.at(Id::RollLevel),
                spin_ratio: n.at(Id::SpinRatio),
                head_slope: n.at(Id::HeadSlope),
                wake: n.at(Id::Wake),
                bend_lift: n.at(Id::BendLift),
                vane_cross_flow: n.at(Id::VaneCrossFlow),
            },
            given: GivenAero {
                drag: n.maybe(Id::GivenDrag),
                deceleration: n.maybe(Id::GivenDeceleration),
                normal_slope: n.maybe(Id::GivenNormalSlope),
                centre_of_pressure: n.maybe(Id::GivenCentre),
                pitch_damping: n.maybe(Id::GivenPitchDamping),
                roll_forcing: n.maybe(Id::GivenRollForcing),
                roll_damping: n.maybe(Id::GivenRollDamping),
            },
        },
        site: site(n)?,
        sight: Sight {
            zero: n.at(Id::SightZero),
            height: n.at(Id::SightHeight),
            radius: n.at(Id::SightRadius),
        },
    })
}

fn parts(n: &Numbers<'_>, words: &Words) -> Parts {
    Parts {
        shaft: Shaft {
            outside: n.at(Id::ShaftOutside),
            inside: n.at(Id::ShaftInside),
            density: n.at(Id::ShaftDensity),
            spine: n.at(Id::ShaftSpine),
            length: n.at(Id::ShaftLength),
            stiff_side: n.at(Id::ShaftStiffSide),
            stiff_clock: n.at(Id::ShaftStiffClock),
            damping: n.at(Id::ShaftDamping),
        },
        point: Point {
            shape: words.shape,
            mass: n.at(Id::PointMass),
            length: n.at(Id::PointLength),
            balance: n.at(Id::PointBalance),
            diameter: n.at(Id::PointDiameter),
            shank: n.at(Id::PointShank),
            clearance: n.at(Id::PointClearance),
            blades: n.has(Id::BladesCount).then(|| Blades {
                count: n.count(Id::BladesCount),
                span: n.at(Id::BladesSpan),
                root: n.at(Id::BladesRoot),
                tip: n.at(Id::BladesTip),
                sweep: n.at(Id::BladesSweep),
                thickness: n.at(Id::BladesThickness),
                setback: n.at(Id::BladesSetback),
                clock: n.at(Id::BladesClock),
            }),
        },
        insert: n.has(Id::InsertMass).then(|| Insert {
            mass: n.at(Id::InsertMass),
            engaged: n.at(Id::InsertEngaged),
            shoulder: n.at(Id::InsertShoulder),
            clearance: n.at(Id::InsertClearance),
        }),
        outsert: n.has(Id::OutsertMass).then(|| Outsert {
            mass: n.at(Id::OutsertMass),
            engaged: n.at(Id::OutsertEngaged),
            outside: n.at(Id::OutsertOutside),
            clearance: n.at(Id::OutsertClearance),
        }),
        collar: n
            .has(Id::CollarMass)
            .then(|| Collar { mass: n.at(Id::CollarMass), length: n.at(Id::CollarLength) }),
        nock: Nock {
            mass: n.at(Id::NockMass),
            outside: n.at(Id::NockOutside),
            groove_depth: n.at(Id::NockGrooveDepth),
            engaged: n.at(Id::NockEngaged),
            clearance: n.at(Id::NockClearance),
        },
        vanes: n.has(Id::VanesCount).then(|| Vanes {
            count: n.count(Id::VanesCount),
            mass: n.at(Id::VanesMass),
            span: n.at(Id::VanesSpan),
            root: n.at(Id::VanesRoot),
            tip: n.at(Id::VanesTip),
            sweep: n.at(Id::VanesSweep),
            thickness: n.at(Id::VanesThickness),
            position: n.at(Id::VanesPosition),
            angle: n.at(Id::VanesAngle),
        }),
        wrap: n
            .has(Id::WrapMass)
            .then(|| Wrap { mass: n.at(Id::WrapMass), length: n.at(Id::WrapLength) }),
        given: Given {
            mass: n.maybe(Id::GivenMass),
            balance: n.maybe(Id::GivenBalance),
            transverse: n.maybe(Id::GivenTransverse),
            axial: n.maybe(Id::GivenAxial),
        },
    }
}

fn faults(n: &Numbers<'_>, words: &Words) -> Result<Faults, Refused> {
    let point_cant = match n.maybe::<Length>(Id::TipRunoutReading) {
        Some(reading) => Lean {
            angle: cant_from_tip(reading, n.at(Id::PointLength))
                .map_err(|error| refused(Id::TipRunoutReading, reading.si(), &error))?,
            clock: n.at(Id::TipRunoutClock),
        },
        None => n.lean(Id::PointCantAngle, Id::PointCantClock),
    };
    Ok(Faults {
        point_end: n.lean(Id::PointEndAngle, Id::PointEndClock),
        insert_face: n.lean(Id::InsertFaceAngle, Id::InsertFaceClock),
        point_cant,
        point_offset: n.shift(Id::PointOffsetOffset, Id::PointOffsetClock),
        nock_end: n.lean(Id::NockEndAngle, Id::NockEndClock),
        nock_cant: n.lean(Id::NockCantAngle, Id::NockCantClock),
        nock_offset: n.shift(Id::NockOffsetOffset, Id::NockOffsetClock),
        groove_offset: n.shift(Id::GrooveOffsetOffset, Id::GrooveOffsetClock),
        wall_offset: n.shift(Id::WallOffsetOffset, Id::WallOffsetClock),
        bend: match n.maybe(Id::BendReading) {
            Some(reading) => Some(Bend {
                bow: words.straightness(reading)?.bow(),
                span: n.at(Id::BendSpan),
                clock: n.at(Id::BendClock),
            }),
            None => None,
        },
        vane: VaneFault {
            angle: n.at(Id::VaneAngle),
            around: n.at(Id::VaneAround),
            forward: n.at(Id::VaneForward),
        },
    })
}

/// A value that another room does not take.
fn refused(id: Id, value: f64, error: &impl std::error::Error) -> Refused {
    Refused {
        key: id.path().to_owned(),
        value: quantity(value, own_unit(id)),
        allowed: error.to_string(),
    }
}

fn site(n: &Numbers<'_>) -> Result<Site, Refused> {
    let pressure = match n.maybe::<Length>(Id::AirAltitude) {
        Some(altitude) => standard_pressure(altitude)
            .map_err(|error| refused(Id::AirAltitude, altitude.si(), &error))?,
        None => n.at(Id::AirPressure),
    };
    Ok(Site {
        weather: Weather {
            temperature: n.at(Id::AirTemperature),
            pressure,
            humidity: n.at(Id::AirHumidity),
        },
        wind: Wind {
            speed: n.at(Id::WindSpeed),
            from: n.at(Id::WindFrom),
            profile: n
                .maybe(Id::WindProfileHeight)
                .map(|height| WindProfile { height, roughness: n.at(Id::WindRoughness) }),
        },
        shot_angle: n.at(Id::ShotAngle),
        release_height: n.at(Id::ReleaseHeight),
        gravity: n.at(Id::Gravity),
    })
}
