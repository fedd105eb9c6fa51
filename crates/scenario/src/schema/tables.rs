use super::Id;

/// One table of the file.
#[derive(Debug)]
pub(crate) struct Table {
    pub(crate) path: &'static str,
    /// Whether the thing exists only when the table is written.
    pub(crate) optional: bool,
    /// Whether a build may hold it.
    pub(crate) in_build: bool,
    pub(crate) doc: &'static str,
}

const fn plain(path: &'static str, doc: &'static str) -> Table {
    Table { path, optional: false, in_build: false, doc }
}

const fn built(path: &'static str, doc: &'static str) -> Table {
    Table { path, optional: false, in_build: true, doc }
}

const fn option(path: &'static str, doc: &'static str) -> Table {
    Table { path, optional: true, in_build: true, doc }
}

/// Every table but the top level and `[[build]]`.
pub(crate) static TABLES: &[Table] = &[
    plain("question", "What is asked."),
    built("bow", "The bow."),
    built("bow.rating", "A maker's speed rating, in place of a chronograph reading."),
    built("bow.string", "The bowstring."),
    built("bow.restraint", "How firmly the string holds the nock."),
    built("bow.release", "The sideways push that the nock gets as it is let go."),
    built("bow.path", "How far the nock's path bows out from a straight line halfway."),
    built("bow.rest", "The arrow rest."),
    built("arrow", "The arrow and its parts."),
    built("arrow.shaft", "The shaft, cut to length."),
    built("arrow.point", "The point, measured from the face it seats on."),
    built("arrow.point.blades", "The blades of a point whose shape is \"fixed-blade\"."),
    option("arrow.insert", "An insert glued into the shaft."),
    option("arrow.outsert", "A sleeve over or ahead of the shaft end that holds the point."),
    option("arrow.collar", "A ring around the shaft's front end."),
    built("arrow.nock", "The nock."),
    option("arrow.vanes", "Like vanes, evenly spaced; without this table the shaft is bare."),
    option("arrow.wrap", "A wrap around the rear of the shaft."),
    built("arrow.given", "Whole-arrow values that replace those built up from the parts."),
    built("faults", "What is wrong with each arrow; all zero unless written."),
    built("faults.point_end", "The shaft's front end face out of square."),
    built("faults.insert_face", "The insert's front face out of square."),
    built("faults.point_cant", "The point canted in its seat."),
    built("faults.tip_runout", "The point's cant as a spin test reads it, in place of point_cant."),
    built("faults.point_offset", "The point off centre in its seat."),
    built("faults.nock_end", "The shaft's rear end face out of square."),
    built("faults.nock_cant", "The nock canted in its seat."),
    built("faults.nock_offset", "The nock off centre in its seat."),
    built("faults.groove_offset", "The groove off centre in the nock."),
    built("faults.wall_offset", "The shaft's mass off its centre line (uneven wall)."),
    built("faults.bend", "The shaft bent, as a straightness gauge reads it."),
    built("faults.vane", "The vane at clock position zero out of place."),
    built("archer", "What the archer adds to a perfect shot."),
    built("departure", "Departure values that replace the computed ones."),
    built("air", "The air."),
    built("wind", "A steady wind."),
    built("range", "Slope, height and free fall."),
    built("sight", "The sight."),
    built("aero", "The air's grip on the arrow."),
    built("aero.given", "Coefficients that replace the built-up ones."),
    plain("flight", "How one arrow is flown by the flight command."),
    plain(
        "marks",
        "Sight marks and their tables, on level ground but for the slopes; may be empty.",
    ),
    plain(
        "measured",
        "A shift of impact, or the give of a nock, that was measured, to pin down the string's hold.",
    ),
    plain(
        "rigid_body",
        "A body that turns freely, or falls through air that damps it, for checks.",
    ),
];

/// A key on the left is used only with the key on its right.
pub(crate) static NEEDS: &[(Id, Id)] = &[
    (Id::BowSpeedMass, Id::BowSpeed),
    (Id::RatingMass, Id::RatingSpeed),
    (Id::RatingDrawWeight, Id::RatingSpeed),
    (Id::RatingDrawLength, Id::RatingSpeed),
    (Id::BendSpan, Id::BendReading),
    (Id::BendMeasure, Id::BendReading),
    (Id::BendClock, Id::BendReading),
    (Id::TipRunoutClock, Id::TipRunoutReading),
    (Id::WindRoughness, Id::WindProfileHeight),
    (Id::AtMost, Id::R90Within),
    (Id::Correlation, Id::Correlated),
    (Id::BodyGravity, Id::BodyAltitude),
    (Id::BodyMass, Id::BodyAltitude),
    (Id::BodySpan, Id::BodyAltitude),
    (Id::BodyChord, Id::BodyAltitude),
    (Id::BodyDrag, Id::BodyAltitude),
    (Id::BodyRollDamping, Id::BodyAltitude),
    (Id::BodyPitchDamping, Id::BodyAltitude),
    (Id::BodyYawDamping, Id::BodyAltitude),
    (Id::BodyWind, Id::BodyAltitude),
    (Id::InnerTen, Id::Face),
    (Id::Round, Id::Face),
    (Id::ArcherShotsAt, Id::ArcherShots),
];

/// A key that is used only with some words of a choice.
pub(crate) static ONLY_WITH: &[(Id, Id, &[&str])] = &[
    (Id::RestPreload, Id::RestKind, &["side-point"]),
    (Id::BowTipLine, Id::BowKind, &["compound"]),
];

/// What says how fast the arrow leaves.
const CHRONOGRAPH: &[Id] = &[Id::BowSpeed, Id::BowSpeedMass];
const RATING: &[Id] =
    &[Id::RatingSpeed, Id::RatingMass, Id::RatingDrawWeight, Id::RatingDrawLength];
const READINGS: &[Id] = &[Id::BowReadings];
const STORED: &[Id] = &[Id::BowSpeedFrom];
const AIM: &[Id] = &[Id::AimLeft, Id::AimUp];
const FORM: &[Id] = &[Id::ArcherForm];
const GROUPS: &[Id] = &[Id::ArcherGroups];
const SCORE: &[Id] = &[Id::ArcherScore];
const SHOTS: &[Id] = &[Id::ArcherShots, Id::ArcherShotsAt];
const LEVEL: &[Id] = &[Id::ArcherLevel];
const ONE_FORM: &str = "each of them says how the archer shoots";
const ONE_SPEED: &str = "the readings in bow.readings already give the speed";
const NOT_STORED: &str = "the speed is either measured or taken from the stored energy";

/// Two ways to say one thing: only one side may be written, and a build's side
/// replaces the other side below it.
pub(crate) static EXCLUSIVE: &[(&[Id], &[Id], &str)] = &[
    (CHRONOGRAPH, RATING, "the speed comes either from a chronograph or from a rating"),
    (CHRONOGRAPH, READINGS, ONE_SPEED),
    (RATING, READINGS, ONE_SPEED),
    (CHRONOGRAPH, STORED, NOT_STORED),
    (RATING, STORED, NOT_STORED),
    (READINGS, STORED, NOT_STORED),
    (READINGS, &[Id::BowVirtualMass], "the virtual mass is fitted to the readings"),
    (
        &[Id::BowCurve],
        &[Id::BowDrawWeight, Id::BowLetOff],
        "the curve's own forces say how heavy the bow draws and lets off",
    ),
    (&[Id::MeasuredNockTurn], &[Id::MeasuredBare], "one thing was changed between the two groups"),
    (
        &[Id::MeasuredPush],
        &[Id::MeasuredNockTurn, Id::MeasuredBare, Id::MeasuredDistance],
        "the nock was pushed on the bow, or arrows were shot",
    ),
    (&[Id::AirPressure], &[Id::AirAltitude], "the altitude is only there to look the pressure up"),
    (
        &[Id::TipRunoutReading, Id::TipRunoutClock],
        &[Id::PointCantAngle, Id::PointCantClock],
        "a spin test reads the cant of the point, so both say the same thing",
    ),
    (
        &[Id::GivenDrag],
        &[Id::GivenDeceleration],
        "a deceleration replaces the drag coefficient altogether",
    ),
    (AIM, FORM, ONE_FORM),
    (AIM, GROUPS, ONE_FORM),
    (AIM, SCORE, ONE_FORM),
    (AIM, SHOTS, ONE_FORM),
    (AIM, LEVEL, ONE_FORM),
    (FORM, GROUPS, ONE_FORM),
    (FORM, SCORE, ONE_FORM),
    (FORM, SHOTS, ONE_FORM),
    (FORM, LEVEL, ONE_FORM),
    (GROUPS, SCORE, ONE_FORM),
    (GROUPS, SHOTS, ONE_FORM),
    (GROUPS, LEVEL, ONE_FORM),
    (SCORE, SHOTS, ONE_FORM),
    (SCORE, LEVEL, ONE_FORM),
    (SHOTS, LEVEL, ONE_FORM),
    (&[Id::Zone, Id::ZoneHeight], &[Id::Face, Id::InnerTen], "one thing is shot at"),
    (
        &[Id::SweepValues],
        &[Id::SweepFrom, Id::SweepTo, Id::SweepSteps],
        "the swept values are either a list or a range",
    ),
];
