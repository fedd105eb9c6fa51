//! Numbers and words into the types of the other rooms.

use arrow::{
    Bend, Blades, Collar, Faults, Given, Insert, Lean, Nock, Outsert, Parts, Point, PointShape,
    Shaft, Shift, Straightness, VaneFault, Vanes, Wrap, cant_from_tip,
};
use flight::{AeroChoice, GivenAero, Site, Weather, Wind, WindProfile, standard_pressure};
use launch::{BowKind, DrawCurve, Form, GivenDeparture, RestKind, Side};
use study::{Refused, Setup, Sight};
use units::{Force, Length, Mass, Quantity, Speed};

use crate::bow::bow;
use crate::entry::Entry;
use crate::fit::middle;
use crate::recipe::Numbers;
use crate::schema::Id;
use crate::settle::Entries;
use crate::text::{own_unit, quantity};

/// The choices of a build, and what was read of its bow.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Words {
    pub(crate) bow: BowKind,
    pub(crate) rest: RestKind,
    pub(crate) side: Side,
    /// The force-draw curve, if read.
    pub(crate) curve: Option<DrawCurve>,
    /// The reading that stands for all chronograph readings, if several.
    pub(crate) read: Option<(Speed, Mass)>,
    /// Whether the speed comes from the stored energy.
    pub(crate) stored: bool,
    shape: PointShape,
    /// What a bend reading is.
    straightness: fn(Length) -> Straightness,
}

impl Words {
    pub(crate) fn of(entries: &Entries) -> Self {
        let word = |id: Id| entries.get(&id).and_then(Entry::text);
        let rows = |id: Id| entries.get(&id).and_then(Entry::rows);
        let point = |[draw, force]: &[f64; 2]| (Length::from_si(*draw), Force::from_si(*force));
        // The reader has checked the readings.
        let curve =
            |rows: &[[f64; 2]]| DrawCurve::new(&rows.iter().map(point).collect::<Vec<_>>()).ok();
        Self {
            bow: match word(Id::BowKind) {
                Some("recurve") => BowKind::Recurve,
                Some("longbow") => BowKind::Longbow,
                _ => BowKind::Compound,
            },
            rest: match word(Id::RestKind) {
                Some("containment") => RestKind::Containment,
                Some("side-point") => RestKind::SidePoint,
                Some("shelf") => RestKind::Shelf,
                _ => RestKind::DropAway,
            },
            side: if word(Id::RestSide) == Some("right") { Side::Right } else { Side::Left },
            curve: rows(Id::BowCurve).and_then(curve),
            read: rows(Id::BowReadings).map(middle),
            stored: word(Id::BowSpeedFrom).is_some(),
            shape: match word(Id::PointShape) {
                Some("streamlined") => PointShape::Streamlined,
                Some("bullet") => PointShape::Bullet,
                Some("blunt") => PointShape::Blunt,
                Some("fixed-blade") => PointShape::FixedBlade,
                Some("closed-blade") => PointShape::ClosedBlade,
                _ => PointShape::Field,
            },
            straightness: match word(Id::BendMeasure) {
                Some("plus-minus") => Straightness::PlusMinus,
                _ => Straightness::Total,
            },
        }
    }
}

impl Numbers<'_> {
    fn has(&self, id: Id) -> bool {
        self.used[id as usize]
    }

    pub(crate) fn at<Q: Quantity>(&self, id: Id) -> Q {
        debug_assert_eq!(id.number().map(|n| n.dimension), Some(Q::DIMENSION), "{}", id.path());
        Q::from_si(self.values[id as usize])
    }

    pub(crate) fn maybe<Q: Quantity>(&self, id: Id) -> Option<Q> {
        self.has(id).then(|| self.at(id))
    }

    /// A whole number; the range check has seen that it is small.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    fn count(&self, id: Id) -> u8 {
        self.values[id as usize] as u8
    }

    fn lean(&self, angle: Id, clock: Id) -> Lean {
        Lean { angle: self.at(angle), clock: self.at(clock) }
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
            aim_left: n.at(Id::AimLeft),
            aim_up: n.at(Id::AimUp),
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
        bend: n.maybe(Id::BendReading).map(|reading| Bend {
            bow: (words.straightness)(reading).bow(),
            span: n.at(Id::BendSpan),
            clock: n.at(Id::BendClock),
        }),
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
