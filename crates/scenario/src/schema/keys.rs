//! Every key of a scenario file, one row each, in the order of the file.

use units::Dimension::{
    Acceleration, Angle, AngularRate, Damping, Force, Inertia, Length, LinearDensity, Mass,
    Momentum, PerLength, Pressure, Ratio, Speed, Stiffness, Temperature, Time,
};

use super::Fallback::{Absent, Required};
use super::chance::{
    ASKED, BOW, FORM, FRONT_END, FRONT_FAULT, LOOSE, NOCK_END, NOCK_FAULT, PLACE, SHAFT,
    SHAFT_FAULT, STANCE, VANE_FAULT, VANES, WEATHER, WEIGHTS,
};
use super::control::Form::{Among, Plain, Rayleigh, Side, Spread};
use super::control::Part::{Archer, Arrow, Bow, Faults, Place, Sight};
use super::control::{dial, slide};
use super::make::{about, clock, column, count, fixed, is, lean, num, number, shift, sure, unsure};
use super::{Key, Kind, Rows, by, handed, like};

const TRADE: &str = "common practice, no source";
const PERFECT: &str = "chosen: perfect unless stated";
const STEADY: &str = "chosen: a perfect archer unless stated";
const TOP: &str = "chosen: the index vane is the zero of the clock";
const GLUED: &str = "chosen: a slip fit with a film of adhesive";
const SCREWED: &str = "chosen: a shank that slides in behind its thread, or in a film of adhesive";
const FLETCHED: &str = "common practice, no source: small light vanes on a recurve's arrow, feathers on a longbow's; their masses from memory";
const SHAPES: &[&str] = &["streamlined", "field", "bullet", "blunt", "fixed-blade", "closed-blade"];

/// The words of `bow.kind`, in the order of `launch::BowKind`.
const BOWS: &[&str] = &["compound", "recurve", "longbow"];

/// The words of `bow.rest.kind`, in the order of `launch::RestKind`.
const RESTS: &[&str] = &["drop-away", "containment", "side-point", "shelf"];

/// A force-draw curve; as many readings as `launch::DrawCurve` takes.
static CURVE: Rows = Rows {
    columns: [column("draw", Length, "3 in", "40 in"), column("force", Force, "0 lbf", "150 lbf")],
    least: 3,
    most: launch::CURVE_POINTS,
    rising: true,
};

/// Twigs and edges on the way. Most chosen: more than anyone looks past.
static TWIGS: Rows = Rows {
    columns: [
        column("distance", Length, "2 m", "200 m"),
        column("height", Length, "-10 m", "10 m"),
    ],
    least: 1,
    most: 20,
    rising: false,
};

/// Shots of a group. Most chosen: more than anyone types in.
static SHOTS: Rows = Rows {
    columns: [column("left", Length, "-2 m", "2 m"), column("up", Length, "-2 m", "2 m")],
    least: 3,
    most: 200,
    rising: false,
};

/// The words of `archer.level`, in the order of their form.
const LEVELS: &[&str] = &["beginner", "club", "tournament", "top"];

/// Chronograph readings. Most chosen: more than anyone takes.
static READINGS: Rows = Rows {
    columns: [
        column("mass", Mass, "50 gr", "2500 gr"),
        column("speed", Speed, "50 ft/s", "600 ft/s"),
    ],
    least: 2,
    most: 100,
    rising: false,
};

macro_rules! keys {
    ($([$chance:expr] $(
        $id:ident $path:literal $kind:expr, $fallback:expr, $doc:literal
        $(, $with:ident($($what:expr),*))*;
    )*)*) => {
        /// Names a key.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub(crate) enum Id { $($($id,)*)* }

        /// The table, in the order of [`Id`].
        pub(crate) static KEYS: &[Key] = &[$($(
            Key::row(Id::$id, $path, $kind, $fallback, $doc).by($chance)$(.$with($($what),*))*,
        )*)*];

        /// The number of keys.
        pub(crate) const COUNT: usize = [$($(Id::$id,)*)*].len();
    };
}

// `[WHO]` says of the rows below it who answers for what is drawn, and how
// often it is drawn. A row may add `by(WHO)` for itself, `control(..)` for its
// control on the page, or `along(Id::..)` where another row's control moves it.
keys! {
[ASKED]
Title "title" Kind::Text, is("untitled", "chosen: nothing better is known"), "What the scenario is called.";
Note "note" Kind::Text, Absent, "Anything worth saying.";
Seed "seed" Kind::Whole { low: 0, high: 9_007_199_254_740_991 }, is("1", "chosen: any will do"), "Seed of all chances.";
Units "units" Kind::Choice(&["archery", "metric"]), Absent, "Family of units on output.";

QuestionKind "question.kind" Kind::Choice(&["compare", "sweep", "tune", "matters", "worth"]), is("compare", "chosen: builds side by side"), "Builds side by side, one value swept, how well arrow and bow are tuned to each other, what makes the group's spread, or what bench steps are worth.";
Ends "question.ends" Kind::Flag, is("false", "chosen: only where ends differ"), "Also hold the answer against what the trade says of square ends.";
Distances "question.distances" Kind::Lengths { low: "1 m", high: "200 m" }, by(Id::Units, &[("metric", sure("20 m, 30 m, 50 m, 70 m")), ("", sure("20 yd, 30 yd, 40 yd, 50 yd, 60 yd"))], "chosen: the usual marks, of a field range in metres or of a bowhunter in yards"), "Shooting distances, rising.", control(dial("at", 14, Place, Among, "Distance", "", [slide("yd", 5.0, 100.0, 1.0), slide("m", 5.0, 90.0, 1.0)]));
Headline "question.headline" fixed(Length, "1 m", "200 m"), Absent, "The distance that the first sentence speaks of, one of question.distances; the middle one if not written.";
Flights "question.flights" Kind::Whole { low: 100, high: 10_000_000 }, by(Id::QuestionKind, &[("matters", sure("2000000")), ("", sure("10000"))], "chosen: groups known to about one per cent; in a matters question enough for shares within 3 %"), "Flights for each build, or the first batch with a stop rule; in a matters question the most for each build, in a worth question those of each group.";
Arrows "question.arrows" Kind::Whole { low: 1, high: 1_000_000 }, Absent, "Arrows the flights are shared among; a new arrow each flight unless written.";
R90Within "question.r90_within" fixed(Ratio, "0.1 %", "50 %"), Absent, "Go on until the interval of R90 is within this share of it at every distance.";
AtMost "question.at_most" Kind::Whole { low: 100, high: 10_000_000 }, is("100000", "chosen: about a minute on two cores"), "With r90_within: never fly more than this many.";
Zone "question.zone" fixed(Length, "1 cm", "2 m"), is("8 in", "common practice, no source"), "Diameter of a round zone to hit.", control(dial("zone", 15, Place, Plain, "Zone across", "The round place to hit.", [slide("in", 1.0, 20.0, 0.5), slide("cm", 2.0, 50.0, 1.0)]));
ZoneHeight "question.zone_height" fixed(Length, "1 cm", "2 m"), Absent, "Height of an elliptical zone, whose width is question.zone.";
Face "question.face" fixed(Length, "10 cm", "2 m"), Absent, "Diameter of a ten-ring face, in place of a zone.";
InnerTen "question.inner_ten" Kind::Flag, is("false", "chosen: the outdoor ten"), "Score ten only in the compound inner ten of the face.";
Round "question.round" Kind::Whole { low: 1, high: 288 }, is("72", "defined: the outdoor round of 72 arrows; from memory"), "In a compare question: arrows in a round on the face.";
HitShare "question.hit_share" fixed(Ratio, "1 %", "99.9 %"), Absent, "In a compare question: also look for the farthest distance, among those asked, up to which this share of arrows hits. No licence to shoot.";
RangeError "question.range_error" fixed(Length, "0.1 m", "50 m"), Absent, "In a compare question: also tell what happens when the distance is misjudged by this much.";
WindError "question.wind_error" fixed(Speed, "0.1 mph", "50 mph"), Absent, "In a compare question: also tell what happens when a cross wind of this speed goes unnoticed.";
Confidence "question.confidence" fixed(Ratio, "50 %", "99.9 %"), is("95 %", "chosen: the usual convention"), "In a compare question: how sure a verdict on two groups must be.";
Power "question.power" fixed(Ratio, "50 %", "99.9 %"), is("80 %", "chosen: the usual convention"), "In a compare question: how often a difference that is there must be seen.";
Within "question.within" fixed(Ratio, "0.2 %", "20 %"), is("3 %", "chosen: finer than anyone acts on"), "In a matters question: go on until every share's interval reaches no farther than this from it.";
SweepKey "question.key" Kind::SweepKey, Absent, "The dotted key of the value to sweep.";
SweepValues "question.values" Kind::SweepValues, Absent, "The values of the swept key.";
SweepFrom "question.from" Kind::SweepValue, Absent, "First value of the swept key.";
SweepTo "question.to" Kind::SweepValue, Absent, "Last value of the swept key.";
SweepSteps "question.steps" Kind::Whole { low: 2, high: 200 }, Absent, "How many values, both ends counted.";
Paper "question.paper" Kind::Lengths { low: "0.5 m", high: "50 m" }, is("2 yd, 4 yd, 8 yd", "common practice, no source"), "In a tune question: where sheets of paper stand that show how the arrow flies, rising.";
Trends "question.trends" Kind::SweepKeys, is("arrow.shaft.spine, arrow.point.mass, arrow.shaft.length, bow.draw_weight", "chosen: what a builder can change; those that are drawn or not in use are left out"), "In a tune question: dotted keys to vary by up to 15 % about their own values, a spine by up to 35 %.";
Correlated "question.correlated" Kind::SweepKeys, Absent, "Dotted keys of poorly known values that go together, each with each of the others.";
Correlation "question.correlation" fixed(Ratio, "-0.99", "0.99"), is("0.5", "chosen: of two parts that make each doubt one is shared"), "With correlated: how closely they go together, below zero if one is high where the others are low.";

[BOW]
BowKind "bow.kind" Kind::Choice(BOWS), is("compound", "chosen: the usual hunting bow"), "Kind of bow; it shapes the push along the stroke.";
BowDrawWeight "bow.draw_weight" number(Force, "5 lbf", "150 lbf"), Required, "Peak draw force; with bow.curve, its greatest force.", control(dial("weight", 9, Bow, Plain, "Draw weight", "A speed that was read by a chronograph stays as read.", [slide("lbf", 20.0, 90.0, 1.0), slide("lbf", 20.0, 90.0, 1.0)]));
BowDrawLength "bow.draw_length" number(Length, "15 in", "36 in"), Required, "Trade draw length: pivot to string at full draw plus 1.75 in.", control(dial("draw", 16, Bow, Plain, "Draw length", "", [slide("in", 20.0, 34.0, 0.25), slide("mm", 510.0, 860.0, 5.0)]));
BowBraceHeight "bow.brace_height" number(Length, "3 in", "14 in"), by(Id::BowKind, &[("compound", sure("6.5 in")), ("recurve", sure("8.5 in")), ("longbow", sure("7 in"))], TRADE), "Pivot to string at rest.";
BowLetOff "bow.let_off" number(Ratio, "0", "0.95"), by(Id::BowKind, &[("compound", unsure("0.8", "0.75", "0.85")), ("recurve", sure("0")), ("longbow", sure("0"))], TRADE), "Let-off at full draw.";
BowSpeed "bow.speed" number(Speed, "50 ft/s", "600 ft/s"), Absent, "Arrow speed from a chronograph.", control(dial("speed", 17, Bow, Plain, "Speed, as measured", "By a chronograph, with this arrow; if with another, give its mass below.", [slide("ft/s", 120.0, 360.0, 1.0), slide("m/s", 36.0, 110.0, 0.5)]));
BowSpeedMass "bow.speed_mass" number(Mass, "50 gr", "2500 gr"), Absent, "Mass of the arrow shot through the chronograph; the first build's own arrow unless written.";
BowVirtualMass "bow.virtual_mass" number(Mass, "0 g", "100 g"), Absent, "Mass that, moving with the arrow, would hold the energy the bow keeps, where it is known; without it, it follows from string and limbs.";
BowReadings "bow.readings" Kind::Rows(&READINGS), Absent, "Chronograph readings with arrows of two or more masses; they give the speed and the virtual mass.";
BowSpeedFrom "bow.speed_from" Kind::Choice(&["stored"]), Absent, "Write \"stored\" for lack of any speed reading: the stored energy less hysteresis drives arrow, string and limbs.";
BowCurve "bow.curve" Kind::Rows(&CURVE), Absent, "Your own force-draw readings up to full draw; draw as in draw_length. Without them the curve is drawn from kind, draw weight and let-off.";
BowHysteresis "bow.hysteresis" number(Ratio, "0", "0.9"), by(Id::BowKind, &[("compound", unsure("0.02", "0.005", "0.06")), ("recurve", unsure("0.006", "0.002", "0.01")), ("", unsure("0.02", "0.005", "0.06"))], "sourced for a recurve, whose static loss is 0.2 to 1 %: [tuijn-kooi-1992]; chosen for others: cables and bearings, or wood; from memory"), "Share of the stored energy that does not come back when the bow is let down; it moves the speed only with speed_from.";
BowLimbMass "bow.limb_mass" number(Mass, "1 g", "2 kg"), by(Id::BowKind, &[("compound", unsure("0.18 kg", "0.1 kg", "0.26 kg")), ("recurve", unsure("28 g", "15 g", "40 g")), ("longbow", unsure("31 g", "18 g", "45 g"))], "chosen: a cam with its axle and limb tips; a third of a limb's working part"), "Moving mass of one limb as if all of it were at its tip; of a compound, what moves with an axle.";
BowHalfString "bow.half_string" number(Length, "10 cm", "2 m"), by(Id::BowKind, &[("compound", unsure("0.41 m", "0.36 m", "0.48 m")), ("recurve", unsure("0.83 m", "0.78 m", "0.88 m")), ("longbow", unsure("0.86 m", "0.8 m", "0.92 m"))], "chosen: half of a string of the trade's usual bow lengths, or half of 28 to 38 in from axle to axle"), "Half the length of the string between the limb tips at brace; of a compound, half the distance between the axles.";
BowTipLine "bow.tip_line" number(Length, "5 mm", "20 cm"), about(unsure("55 mm", "35 mm", "70 mm"), "chosen: a cam's radius"), "How far behind the axles the string of a compound stands at brace: the radius of the cam where the string leaves it.";
ReleaseBy "bow.release_by" Kind::Choice(&["aid", "fingers"]), by(Id::BowKind, &[("compound", sure("aid")), ("", sure("fingers"))], TRADE), "What lets the string go; it sets the default of bow.release.left.";
RatingSpeed "bow.rating.speed" number(Speed, "50 ft/s", "600 ft/s"), Absent, "Rated arrow speed.";
RatingMass "bow.rating.mass" number(Mass, "50 gr", "2500 gr"), is("350 gr", "sourced: [astm-f1544]"), "Arrow mass of the rating.";
RatingDrawWeight "bow.rating.draw_weight" number(Force, "5 lbf", "150 lbf"), is("70 lbf", "sourced: [astm-f1544]"), "Draw weight of the rating.";
RatingDrawLength "bow.rating.draw_length" number(Length, "15 in", "36 in"), is("30 in", "sourced: [astm-f1544]"), "Draw length of the rating.";
StringMass "bow.string.mass" number(Mass, "0.5 g", "100 g"), by(Id::BowKind, &[("compound", sure("9 g")), ("recurve", sure("6.5 g")), ("longbow", sure("10 g"))], "chosen: strings of the usual length and strands, servings counted; the restraints' range covers the doubt"), "Mass of the whole string.";
StringNocking "bow.string.nocking" number(Mass, "0 g", "20 g"), by(Id::BowKind, &[("compound", sure("1.2 g")), ("", sure("0.6 g"))], "chosen: a loop, or nocking points"), "Mass fixed to the string at the nock.";
StringStiffness "bow.string.stiffness" number(Force, "5000 N", "10000000 N"), by(Id::BowKind, &[("compound", sure("200000 N")), ("recurve", sure("150000 N")), ("longbow", sure("60000 N"))], "chosen: strands of modern fibre, or of polyester on a longbow; the restraints' range covers the doubt"), "Force on the string over its strain.";
StringGrip "bow.string.grip" number(Force, "0 N", "100 N"), by(Id::BowKind, &[("compound", unsure("10 N", "2 N", "40 N")), ("", unsure("5 N", "1 N", "20 N"))], "chosen: a nock that holds the arrow's weight with room comes off with a light tap"), "Force with which a nock comes off the string, as a pull with a spring scale shows.";
RestraintLeft "bow.restraint.left" number(Ratio, "0", "20"), about(unsure("1", "0.6", "1.4"), "chosen: tension and string mass of bows drawn over their unknown parts spread so far; limbs that twist soften it"), "How firmly the string holds the nock sideways, over what its tension and length say.";
RestraintUp "bow.restraint.up" number(Ratio, "0", "20"), by(Id::BowKind, &[("compound", unsure("1", "0.3", "3")), ("", unsure("1", "0.5", "2"))], "chosen: cams not tied to each other at one end, a nock all but pinned at the other; limbs and strings are better known"), "How firmly the string holds the nock up and down, over what string, limbs or cams say.";
[LOOSE]
ImpulseLeft "bow.release.left" number(Momentum, "-100 mN s", "100 mN s"), handed(Id::ReleaseBy, &[("fingers", unsure("10 mN s", "3 mN s", "20 mN s")), ("", sure("0 mN s"))], "chosen: a nock end of some grams flicked off the fingers at 1 to 3 m/s, away from the riser"), "Sideways impulse on the nock as the string leaves the fingers, to the left positive.";
ImpulseUp "bow.release.up" number(Momentum, "-100 mN s", "100 mN s"), is("0 mN s", "chosen: fingers push sideways, an aid not at all"), "Upward impulse on the nock at release.";
[BOW]
PathLeft "bow.path.left" number(Length, "-50 mm", "50 mm"), about(unsure("0 mm", "-1 mm", "1 mm"), "chosen: straight as far as an eye along it can tell"), "How far the nock runs out to the left halfway, by cam lean.";
PathUp "bow.path.up" number(Length, "-50 mm", "50 mm"), about(unsure("0 mm", "-1 mm", "1 mm"), "chosen: straight as far as an eye along it can tell"), "How far the nock runs out upward halfway, by tiller, nocking point or cam timing.";
RestKind "bow.rest.kind" Kind::Choice(RESTS), by(Id::BowKind, &[("compound", sure("drop-away")), ("recurve", sure("side-point")), ("longbow", sure("shelf"))], TRADE), "How the rest holds: a launcher that carries the shaft in its fork until it falls away, all round to the end, a spring-loaded point at the side and an arm below, or the riser's own shelf; the last two can only push, and a launcher only up.";
RestSide "bow.rest.side" Kind::Choice(&["left", "right"]), is("left", "chosen: an archer who draws with the right hand"), "On which side of the riser the arrow lies, as the archer sees it.";
RestStiffness "bow.rest.stiffness" number(Stiffness, "0 N/m", "100000 N/m"), by(Id::RestKind, &[("shelf", unsure("5000 N/m", "1000 N/m", "20000 N/m")), ("", unsure("1000 N/m", "200 N/m", "5000 N/m"))], "chosen: the arrow's weight moves a light arm or spring 0.2 mm; a padded shelf is several times stiffer"), "Stiffness of the hold, the same up-down and sideways.";
RestDamping "bow.rest.damping" number(Damping, "0 N s/m", "100 N s/m"), about(unsure("0.7 N s/m", "0 N s/m", "3 N s/m"), "chosen: a tenth of critical"), "Damping of the hold.";
RestPreload "bow.rest.preload" number(Force, "0 N", "50 N"), about(unsure("2 N", "0.5 N", "5 N"), "chosen: a spring that a finger moves with ease"), "Force at which the spring of a side point begins to give.";
RestShare "bow.rest.share" number(Ratio, "0", "1"), by(Id::RestKind, &[("drop-away", unsure("0.4", "0.1", "0.8")), ("", sure("1"))], "common practice, no source: a drop-away falls during the push, others stay"), "Share of the power stroke after which the rest falls away; at 1 it stays until the shaft has passed.";
RestDelay "bow.rest.delay" number(Time, "0 ms", "50 ms"), is("0 ms", "chosen: the doubt about the share is wider"), "How long after that it is out of the shaft's reach.";
RestAhead "bow.rest.ahead" number(Length, "0 in", "15 in"), like(Id::BowBraceHeight, 1.0, "common practice, no source: the rest stands over the pivot"), "How far ahead of the string at brace the rest stands.";
RestRiserGap "bow.rest.riser_gap" number(Length, "0 mm", "150 mm"), by(Id::RestKind, &[("shelf", sure("4 mm")), ("", sure("22 mm"))], "chosen: the reach of a common rest; on a shelf the shaft lies against the riser"), "From the shaft's centre line to the riser beside it.";
RestDrop "bow.rest.drop" number(Length, "0 mm", "150 mm"), by(Id::RestKind, &[("shelf", sure("4 mm")), ("", sure("15 mm"))], "chosen: the fall of a common drop-away, or of an arm that folds when touched; a shelf stays under the shaft"), "How far below the shaft's centre line the rest lies once it has let go.";

[NOCK_END]
ArrowIndex "arrow.index" clock(), is("0 deg", "chosen: index vane straight up"), "Roll of the index vane at departure, clockwise from straight up.";
[SHAFT]
ShaftOutside "arrow.shaft.outside" number(Length, "0.1 in", "0.6 in"), by(Id::BowKind, &[("recurve", unsure("0.22 in", "0.19 in", "0.28 in")), ("", unsure("0.245 in", "0.2 in", "0.3 in"))], "chosen: a common target shaft for a recurve, else a common hunting shaft; measure yours"), "Outside diameter.";
ShaftInside "arrow.shaft.inside" number(Length, "0 in", "0.55 in"), like(Id::ShaftOutside, 0.8, "chosen: a wall of a tenth of the outside diameter"), "Inside diameter; zero for a solid shaft.";
ShaftDensity "arrow.shaft.density" number(LinearDensity, "1 gr/in", "60 gr/in"), by(Id::BowKind, &[("recurve", unsure("6.5 gr/in", "5 gr/in", "8.5 gr/in")), ("", unsure("8.5 gr/in", "7 gr/in", "10.5 gr/in"))], "chosen: a common target shaft for a recurve, else a common hunting shaft; weigh yours"), "Mass per length.", by(WEIGHTS);
ShaftSpine "arrow.shaft.spine" number(Length, "0.05 in", "3 in"), Required, "Static spine: deflection in the middle of a 28 in span under 1.94 lb.", control(dial("spine", 4, Arrow, Plain, "Spine", "Deflection of a 28 in span under 1.94 lb; less is stiffer.", [slide("in", 0.2, 1.0, 0.01), slide("mm", 5.0, 25.0, 0.25)]));
ShaftLength "arrow.shaft.length" number(Length, "12 in", "40 in"), Required, "Cut length, end face to end face.", control(dial("length", 3, Arrow, Plain, "Shaft, cut length", "", [slide("in", 22.0, 34.0, 0.25), slide("mm", 560.0, 860.0, 5.0)]));
ShaftStiffSide "arrow.shaft.stiff_side" number(Ratio, "0", "0.5"), is("0", PERFECT), "Stiffness of the stiff side over the mean of both, less one.";
ShaftStiffClock "arrow.shaft.stiff_clock" clock(), is("0 deg", TOP), "Clock position of the stiff side.";
ShaftDamping "arrow.shaft.damping" number(Ratio, "0", "0.5"), is("0.02", "chosen: the swing falls to a tenth in about twenty flexes; from memory"), "Damping of the shaft's bending, as a share of critical.";
[FRONT_END]
PointShape "arrow.point.shape" Kind::Choice(SHAPES), is("field", "chosen: what most arrows are tuned with"), "Shape, as far as the air and the fit care.";
PointMass "arrow.point.mass" number(Mass, "10 gr", "1000 gr"), Required, "Mass, shank included.", by(WEIGHTS), control(dial("point", 1, Arrow, Plain, "Point", "", [slide("gr", 50.0, 300.0, 5.0), slide("gr", 50.0, 300.0, 5.0)]));
PointLength "arrow.point.length" number(Length, "0.02 in", "6 in"), by(Id::PointShape, &[("streamlined", sure("1 in")), ("field", sure("0.95 in")), ("bullet", sure("0.75 in")), ("blunt", sure("0.6 in")), ("fixed-blade", sure("1.6 in")), ("closed-blade", sure("1.9 in"))], TRADE), "Seat to tip.";
PointBalance "arrow.point.balance" number(Length, "-4 in", "6 in"), like(Id::PointLength, 0.2, "chosen: the shank pulls the balance back toward the seat"), "Seat to the point's own balance, forward positive.";
PointDiameter "arrow.point.diameter" number(Length, "0.1 in", "2 in"), like(Id::ShaftOutside, 1.0, "chosen: flush with the shaft"), "Largest body diameter, blades left out.";
PointShank "arrow.point.shank" number(Length, "0 in", "4 in"), is("0.75 in", TRADE), "Length of shank that engages the insert or the shaft.";
PointClearance "arrow.point.clearance" number(Length, "0 mm", "2 mm"), about(unsure("0.05 mm", "0.02 mm", "0.15 mm"), SCREWED), "Diametral clearance of the shank in its bore.";
BladesCount "arrow.point.blades.count" count("2", "6"), is("3", TRADE), "How many blades.";
BladesSpan "arrow.point.blades.span" number(Length, "0.02 in", "2 in"), is("0.42 in", TRADE), "Ferrule surface to blade edge, across the shaft.";
BladesRoot "arrow.point.blades.root" number(Length, "0.05 in", "4 in"), is("1.1 in", TRADE), "Chord along the ferrule.";
BladesTip "arrow.point.blades.tip" number(Length, "0 in", "4 in"), is("0 in", "chosen: a pointed blade"), "Chord at the outer edge.";
BladesSweep "arrow.point.blades.sweep" number(Length, "0 in", "4 in"), like(Id::BladesRoot, 1.0, "chosen: the edge runs back to the rear of the blade"), "How far the outer edge's front lies behind the root's front.";
BladesThickness "arrow.point.blades.thickness" number(Length, "0.1 mm", "5 mm"), is("0.03 in", TRADE), "Blade thickness.";
BladesSetback "arrow.point.blades.setback" number(Length, "0 in", "4 in"), is("0.3 in", TRADE), "Tip of the point back to the front of the blade root.";
BladesClock "arrow.point.blades.clock" clock(), is("0 deg", TOP), "Clock position of the first blade. It matters with two blades; how more blades stand to the vanes is covered by aero.wake.";
InsertMass "arrow.insert.mass" number(Mass, "1 gr", "500 gr"), is("12 gr", TRADE), "Mass.", by(WEIGHTS), control(dial("insert", 2, Arrow, Plain, "Insert", "", [slide("gr", 5.0, 150.0, 5.0), slide("gr", 5.0, 150.0, 5.0)]));
InsertEngaged "arrow.insert.engaged" number(Length, "0.05 in", "6 in"), is("0.9 in", TRADE), "Length inside the shaft.";
InsertShoulder "arrow.insert.shoulder" number(Length, "0 in", "1 in"), is("0.03 in", TRADE), "Thickness of the shoulder outside the shaft.";
InsertClearance "arrow.insert.clearance" number(Length, "0 mm", "2 mm"), about(unsure("0.05 mm", "0.02 mm", "0.10 mm"), GLUED), "Diametral clearance in the shaft.";
OutsertMass "arrow.outsert.mass" number(Mass, "1 gr", "500 gr"), is("40 gr", TRADE), "Mass.", by(WEIGHTS);
OutsertEngaged "arrow.outsert.engaged" number(Length, "0.05 in", "6 in"), is("0.75 in", TRADE), "Length engaged with the shaft.";
OutsertOutside "arrow.outsert.outside" number(Length, "0 in", "4 in"), is("0.5 in", TRADE), "Length ahead of the shaft's end.";
OutsertClearance "arrow.outsert.clearance" number(Length, "0 mm", "2 mm"), about(unsure("0.05 mm", "0.02 mm", "0.10 mm"), GLUED), "Diametral clearance on the shaft.";
CollarMass "arrow.collar.mass" number(Mass, "0.1 gr", "200 gr"), is("8 gr", TRADE), "Mass.", by(WEIGHTS);
CollarLength "arrow.collar.length" number(Length, "0.01 in", "4 in"), is("0.3 in", TRADE), "Length along the shaft.";
[NOCK_END]
NockMass "arrow.nock.mass" number(Mass, "0.5 gr", "100 gr"), is("9 gr", TRADE), "Mass.", by(WEIGHTS);
NockOutside "arrow.nock.outside" number(Length, "0.05 in", "3 in"), is("0.6 in", TRADE), "Length behind the shaft's end face.";
NockGrooveDepth "arrow.nock.groove_depth" number(Length, "0.02 in", "1 in"), is("0.2 in", TRADE), "Depth of the groove, rear lip to bottom.";
NockEngaged "arrow.nock.engaged" number(Length, "0.05 in", "3 in"), is("0.5 in", TRADE), "Length inside the shaft.";
NockClearance "arrow.nock.clearance" number(Length, "0 mm", "2 mm"), about(unsure("0.0275 mm", "0.005 mm", "0.05 mm"), "chosen: a press fit, the middle of what such fits are"), "Diametral clearance in the shaft.";
[VANES]
VanesCount "arrow.vanes.count" count("2", "6"), is("3", TRADE), "How many vanes.";
VanesMass "arrow.vanes.mass" number(Mass, "0.1 gr", "100 gr"), by(Id::BowKind, &[("recurve", sure("1.5 gr")), ("longbow", sure("3 gr")), ("", sure("6 gr"))], FLETCHED), "Mass of one vane, glue included.", by(WEIGHTS);
VanesSpan "arrow.vanes.span" number(Length, "0.05 in", "3 in"), by(Id::BowKind, &[("recurve", sure("0.3 in")), ("", sure("0.5 in"))], FLETCHED), "Height above the shaft.";
VanesRoot "arrow.vanes.root" number(Length, "0.1 in", "10 in"), by(Id::BowKind, &[("recurve", sure("1.75 in")), ("longbow", sure("4 in")), ("", sure("2 in"))], FLETCHED), "Chord along the shaft.";
VanesTip "arrow.vanes.tip" number(Length, "0 in", "10 in"), by(Id::BowKind, &[("longbow", sure("1.5 in")), ("", sure("0.6 in"))], FLETCHED), "Chord at the outer edge.";
VanesSweep "arrow.vanes.sweep" number(Length, "0 in", "10 in"), by(Id::BowKind, &[("longbow", sure("2.4 in")), ("", sure("1.2 in"))], FLETCHED), "How far the outer edge's front lies behind the root's front.";
VanesThickness "arrow.vanes.thickness" number(Length, "0.02 mm", "5 mm"), by(Id::BowKind, &[("recurve", sure("0.012 in")), ("", sure("0.03 in"))], FLETCHED), "Mean thickness.";
VanesPosition "arrow.vanes.position" number(Length, "0 in", "20 in"), is("1.2 in", TRADE), "Bottom of the nock groove to the rear of the vane's root.";
VanesAngle "arrow.vanes.angle" number(Angle, "-15 deg", "15 deg"), is("1 deg", TRADE), "Mean angle to the shaft; positive turns the arrow clockwise seen from the nock.", control(dial("vane", 5, Arrow, Plain, "Vanes, angle", "Mean angle to the shaft.", [slide("deg", 0.0, 6.0, 0.1), slide("deg", 0.0, 6.0, 0.1)]));
[WEIGHTS]
WrapMass "arrow.wrap.mass" number(Mass, "0.1 gr", "100 gr"), is("6 gr", TRADE), "Mass.";
WrapLength "arrow.wrap.length" number(Length, "0.1 in", "20 in"), is("4 in", TRADE), "Length, from the shaft's rear end forward.";
GivenMass "arrow.given.mass" number(Mass, "50 gr", "3000 gr"), Absent, "Total mass.";
GivenBalance "arrow.given.balance" number(Length, "1 in", "40 in"), Absent, "Balance point from the bottom of the nock groove.";
GivenTransverse "arrow.given.transverse" number(Inertia, "1e-6 kg m2", "1 kg m2"), Absent, "Inertia across the shaft about the balance point.";
GivenAxial "arrow.given.axial" number(Inertia, "1e-9 kg m2", "0.1 kg m2"), Absent, "Inertia about the shaft.";

[FRONT_FAULT]
PointEndAngle "faults.point_end.angle" lean(), is("0 deg", PERFECT), "How far the face leans.", control(dial("front", 6, Faults, Rayleigh, "Point end out of square", "Typical angle of the face, from arrow to arrow.", [slide("deg", 0.0, 1.0, 0.01), slide("deg", 0.0, 1.0, 0.01)]));
PointEndClock "faults.point_end.clock" clock(), is("0 deg", TOP), "Clock position of the high side.";
InsertFaceAngle "faults.insert_face.angle" lean(), is("0 deg", PERFECT), "How far the face leans.";
InsertFaceClock "faults.insert_face.clock" clock(), is("0 deg", TOP), "Clock position of the high side.";
PointCantAngle "faults.point_cant.angle" lean(), is("0 deg", PERFECT), "How far the point leans.";
PointCantClock "faults.point_cant.clock" clock(), is("0 deg", TOP), "Clock position toward which the tip leans.";
TipRunoutReading "faults.tip_runout.reading" num(Length, "0 mm", "5 mm").size().key(), Absent, "Total indicator reading at the tip in a spin test.", control(dial("runout", 8, Faults, Rayleigh, "Run-out at the tip", "Total indicator reading in a spin test, typical.", [slide("in", 0.0, 0.03, 0.0005), slide("mm", 0.0, 0.8, 0.01)]));
TipRunoutClock "faults.tip_runout.clock" clock(), is("0 deg", TOP), "Clock position toward which the tip leans.";
PointOffsetOffset "faults.point_offset.offset" shift(), is("0 mm", PERFECT), "How far the point sits off centre.";
PointOffsetClock "faults.point_offset.clock" clock(), is("0 deg", TOP), "Toward which clock position.";
[NOCK_FAULT]
NockEndAngle "faults.nock_end.angle" lean(), is("0 deg", PERFECT), "How far the face leans.", control(dial("rear", 7, Faults, Rayleigh, "Nock end out of square", "Typical angle of the face, from arrow to arrow.", [slide("deg", 0.0, 1.0, 0.01), slide("deg", 0.0, 1.0, 0.01)]));
NockEndClock "faults.nock_end.clock" clock(), is("0 deg", TOP), "Clock position of the high side.";
NockCantAngle "faults.nock_cant.angle" lean(), is("0 deg", PERFECT), "How far the nock leans.", control(dial("nock", 22, Faults, Rayleigh, "Nock canted in its seat", "Typical angle, from arrow to arrow.", [slide("deg", 0.0, 1.0, 0.01), slide("deg", 0.0, 1.0, 0.01)]));
NockCantClock "faults.nock_cant.clock" clock(), is("0 deg", TOP), "Clock position toward which the nock's free end leans.";
NockOffsetOffset "faults.nock_offset.offset" shift(), is("0 mm", PERFECT), "How far the nock sits off centre; a fit leaves at most half its clearance.";
NockOffsetClock "faults.nock_offset.clock" clock(), is("0 deg", TOP), "Toward which clock position.";
GrooveOffsetOffset "faults.groove_offset.offset" shift(), is("0 mm", PERFECT), "How far the groove sits off centre.";
GrooveOffsetClock "faults.groove_offset.clock" clock(), is("0 deg", TOP), "Toward which clock position.";
[SHAFT_FAULT]
WallOffsetOffset "faults.wall_offset.offset" shift(), is("0 mm", PERFECT), "How far the shaft's mass sits off its centre line.";
WallOffsetClock "faults.wall_offset.clock" clock(), is("0 deg", TOP), "Toward which clock position.";
BendReading "faults.bend.reading" num(Length, "0 in", "0.5 in").size().key(), Absent, "Straightness as read or as sold.";
BendMeasure "faults.bend.measure" Kind::Choice(&["total", "plus-minus"]), Required, "Whether the reading is the total indicator reading or plus/minus.";
BendSpan "faults.bend.span" number(Length, "1 in", "40 in"), is("28 in", "sourced: [ata-arr-203]"), "Span over which it was read.";
BendClock "faults.bend.clock" clock(), is("0 deg", TOP), "Clock position toward which the middle bows out.";
[VANE_FAULT]
VaneAngle "faults.vane.angle" number(Angle, "-10 deg", "10 deg"), is("0 deg", PERFECT), "Angle beyond that of the other vanes.";
VaneAround "faults.vane.around" number(Angle, "-60 deg", "60 deg"), is("0 deg", PERFECT), "How far round the shaft it sits from its place, clockwise.";
VaneForward "faults.vane.forward" number(Length, "-2 in", "2 in"), is("0 mm", PERFECT), "How far forward it sits from its place.";

[FORM]
ArcherGroups "archer.groups" Kind::Texts, Absent, "Groups you shot, such as \"5 arrows at 40 yd span 6 in\", one or several: the archer's form follows, with the arrows' own spread (of the first build) taken off.", first();
ArcherScore "archer.score" Kind::Text, Absent, "A round you shot, such as \"265 points with 30 arrows on 40 cm at 20 yd\", the sight set well.";
ArcherShots "archer.shots" Kind::Rows(&SHOTS), Absent, "Where the arrows of one group hit.";
ArcherShotsAt "archer.shots_at" fixed(Length, "1 m", "200 m"), Absent, "The distance of that group.";
ArcherLevel "archer.level" Kind::Choice(LEVELS), Absent, "A word for lack of any group: beginner 0.3 to 1 deg of aim to each side, club 0.12 to 0.35, tournament 0.06 to 0.13, top 0.035 to 0.065 deg. Chosen.";
ArcherForm "archer.form" number(Angle, "0.001 deg", "10 deg"), Absent, "One standard deviation of aim to each side, such as \"2 in at 40 yd\".";
AimLeft "archer.aim_left" number(Angle, "-10 deg", "10 deg"), is("0 deg", STEADY), "Line of aim left of the mark.", control(dial("aim", 10, Archer, Spread, "Aim, spread", "One standard deviation to each side.", [slide("deg", 0.0, 0.5, 0.01), slide("deg", 0.0, 0.5, 0.01)]));
AimUp "archer.aim_up" number(Angle, "-10 deg", "10 deg"), is("0 deg", STEADY), "Line of aim above the mark.", along(Id::AimLeft);
FormSpeed "archer.speed" number(Speed, "-50 ft/s", "50 ft/s"), is("0 ft/s", STEADY), "Departure speed beyond the bow's own.", control(dial("pace", 18, Archer, Spread, "Speed, spread", "One standard deviation from shot to shot.", [slide("ft/s", 0.0, 5.0, 0.05), slide("m/s", 0.0, 1.5, 0.01)]));
ReleaseLeft "archer.release_left" number(Angle, "-10 deg", "10 deg"), is("0 deg", STEADY), "Nose left of the line of motion at departure.", control(dial("loose", 19, Archer, Spread, "Nose at release, spread", "How far the nose strays from the line of motion to each side, one standard deviation.", [slide("deg", 0.0, 0.5, 0.01), slide("deg", 0.0, 0.5, 0.01)]));
LooseLeft "archer.loose_left" number(Momentum, "-50 mN s", "50 mN s"), is("0 mN s", STEADY), "Sideways impulse on the nock beyond bow.release.left: how unlike the fingers let go. Chosen, from memory: fingers 0.5 to 3 mN s from shot to shot, a tenth to a third of the whole.";
ReleaseUp "archer.release_up" number(Angle, "-10 deg", "10 deg"), is("0 deg", STEADY), "Nose above the line of motion at departure.", along(Id::ReleaseLeft);

[BOW]
DepartureSpeed "departure.speed" number(Speed, "10 m/s", "200 m/s"), Absent, "Departure speed.";
DepartureYaw "departure.yaw" number(Angle, "-30 deg", "30 deg"), Absent, "Nose left of the line of motion.";
DeparturePitch "departure.pitch" number(Angle, "-30 deg", "30 deg"), Absent, "Nose above the line of motion.";
DepartureYawRate "departure.yaw_rate" number(AngularRate, "-6000 deg/s", "6000 deg/s"), Absent, "Rate of yaw, nose going left.";
DeparturePitchRate "departure.pitch_rate" number(AngularRate, "-6000 deg/s", "6000 deg/s"), Absent, "Rate of pitch, nose going up.";
DepartureSpin "departure.spin" number(AngularRate, "-300 turn/s", "300 turn/s"), Absent, "Spin, clockwise seen from the nock.";

[WEATHER]
AirTemperature "air.temperature" number(Temperature, "-40 degC", "50 degC"), is("15 degC", "sourced: [ussa1976]"), "Air temperature.", control(dial("warmth", 12, Place, Plain, "Air temperature", "", [slide("degF", -20.0, 110.0, 1.0), slide("degC", -30.0, 45.0, 1.0)]));
AirPressure "air.pressure" number(Pressure, "500 hPa", "1100 hPa"), is("1013.25 hPa", "sourced: [ussa1976]"), "Station pressure, not reduced to sea level.";
AirAltitude "air.altitude" number(Length, "-430 m", "5600 m"), Absent, "Altitude above the sea; gives the pressure of the standard atmosphere.", control(dial("height", 13, Place, Plain, "Altitude", "", [slide("ft", 0.0, 12000.0, 250.0), slide("m", 0.0, 4000.0, 50.0)]));
AirHumidity "air.humidity" number(Ratio, "0 %", "100 %"), is("50 %", "chosen: the middle; it moves the density by less than 1 %"), "Relative humidity.";

WindSpeed "wind.speed" number(Speed, "0 m/s", "30 m/s"), is("0 mph", "chosen: calm unless stated"), "Wind speed; in words, such as \"10 mph from the left\" or \"headwind 5 mph\", it says wind.from too.", control(dial("wind", 11, Place, Side, "Wind", "From the right above zero, from the left below; or \"10 mph from the left\".", [slide("mph", -30.0, 30.0, 1.0), slide("m/s", -13.0, 13.0, 0.5)]));
WindFrom "wind.from" clock(), is("90 deg", "chosen: a wind from the side, where it matters most"), "Where it comes from, clockwise seen from above: 0 a headwind, 90 deg from the right; or \"from the left\", \"9 o'clock\".";
WindProfileHeight "wind.profile_height" number(Length, "0.5 m", "100 m"), Absent, "Height at which the speed holds, for a log profile; the same wind everywhere unless written.";
WindRoughness "wind.roughness" number(Length, "0.0002 m", "0.4 m"), is("0.03 m", "sourced: [davenport1960]"), "Roughness length of the ground, for a log profile.";

[STANCE]
ShotAngle "range.shot_angle" number(Angle, "-60 deg", "60 deg"), is("0 deg", "chosen: level ground unless stated"), "Line to the target above the horizontal.";
ReleaseHeight "range.release_height" number(Length, "1 ft", "100 ft"), is("5 ft", "chosen: a standing archer"), "Nock above the ground at departure.";
[PLACE]
Gravity "range.gravity" number(Acceleration, "0 m/s2", "20 m/s2"), is("9.80665 m/s2", "defined: standard free fall"), "Free fall; zero for checks without it.";

[STANCE]
SightZero "sight.zero" number(Length, "1 yd", "200 yd"), is("20 yd", TRADE), "Distance at which line of sight and arrow meet.", control(dial("sighted", 20, Sight, Plain, "Sighted in at", "", [slide("yd", 5.0, 80.0, 1.0), slide("m", 5.0, 75.0, 1.0)]));
SightHeight "sight.height" number(Length, "0 in", "12 in"), is("5 in", TRADE), "Line of sight above the arrow at the bow.", control(dial("above", 21, Sight, Plain, "Sight above the arrow", "At the bow.", [slide("in", 1.0, 10.0, 0.25), slide("mm", 20.0, 250.0, 5.0)]));
SightRadius "sight.radius" number(Length, "5 in", "60 in"), like(Id::BowDrawLength, 1.15, "chosen: the pin stands some 4 in ahead of where draw length is measured to; measure yours"), "Eye (peep, or eye at the anchor) to pin along the arrow; sight marks grow with it.";
SightPins "sight.pins" Kind::Lengths { low: "2 m", high: "200 m" }, Absent, "Distances for which fixed pins are set, rising; a sight with one moving pin unless written.";
SightClick "sight.click" fixed(Length, "0.01 mm", "5 mm"), Absent, "How far one click moves the pin.";

[PLACE]
Turbulence "aero.turbulence" number(Ratio, "0", "1"), by(Id::PointShape, &[("streamlined", unsure("0", "0", "1")), ("", unsure("1", "0", "1"))], "sourced: [mukaiyama2011]: a streamlined point leaves the layer laminar, others trip it. A layer is one or the other, so the default is no middle; in doubt is which"), "Share of turbulent friction on the shaft, 0 laminar to 1 turbulent.";
NockDrag "aero.nock_drag" number(Ratio, "0", "3"), about(unsure("0.45", "0.3", "0.6"), "chosen beside wind-tunnel values of whole arrows, as the middle of what a smooth shaft lacks: an input, no check"), "Drag coefficient of nock and rear end on the frontal area.";
CrossFlow "aero.cross_flow" number(Ratio, "0", "3"), about(unsure("1.1", "1", "1.2"), "sourced: [jorgensen1977]; middle of its range"), "Cross-flow drag coefficient of the shaft.";
TripsUntil "aero.trips_until" number(Length, "0 m", "200 m"), by(Id::PointShape, &[("streamlined", unsure("0 m", "0 m", "20 m")), ("", sure("0 m"))], "chosen: no change in flight. Free flight shows one [ortiz2020]; when it comes is not known"), "How far from the bow a layer tripped at departure stays turbulent, where aero.turbulence is below 1.";
VaneSlope "aero.vane_slope" number(Ratio, "0", "3"), about(unsure("1", "0.88", "1.12"), "chosen: the formula; half of what the shaft's slow layer takes is in doubt"), "Lift slope of the vanes over its formula.";
VaneCrossFlow "aero.vane_cross_flow" number(Ratio, "0", "3"), about(unsure("1", "0", "1.2"), "sourced: [own-lattice]; from none, as vanes bend, to a fifth more"), "Cross-flow lift of the vanes over its formula.";
RollLevel "aero.roll_level" number(Ratio, "0.1", "5"), about(unsure("1", "0.85", "1.15"), "sourced: [own-lattice]; the range chosen beside its fit and the layer"), "Forcing and damping of the vanes in roll, both over their formulas; it sets how soon the spin is up.";
SpinRatio "aero.spin_ratio" number(Ratio, "0.1", "5"), about(unsure("1", "0.94", "1.06"), "sourced: [own-lattice]; the range chosen beside its spread"), "Spin at which forcing and damping balance, over its formula.";
HeadSlope "aero.head_slope" number(Ratio, "0", "3"), about(unsure("1", "0.85", "1.05"), "chosen: the formula is for whole, thin blades; vents and thickness take some off"), "Lift slope of a fixed-blade head over its formula.";
Wake "aero.wake" number(Ratio, "0", "2"), about(unsure("1", "0.6", "1.2"), "sourced: [own-lattice]; the range chosen, as no one has measured the wake of a head over vanes, and for how blades and vanes stand to each other"), "What the wake of a head's blades takes off the vanes, over its formula.";
BendLift "aero.bend_lift" number(Ratio, "0", "2"), about(unsure("1", "0.5", "1"), "defined: slender-body theory; the range chosen, for layer and separation"), "Lift of a bent shaft by its own curve, over slender-body theory.";
GivenDrag "aero.given.drag" number(Ratio, "0", "20"), Absent, "Drag coefficient on the frontal area, the same at every speed.";
GivenDeceleration "aero.given.deceleration" number(PerLength, "0 1/m", "0.1 1/m"), Absent, "Drag deceleration over speed squared, in place of drag.";
GivenNormalSlope "aero.given.normal_slope" number(Ratio, "0", "2000"), Absent, "Slope of the normal force coefficient, per rad.";
GivenCentre "aero.given.centre_of_pressure" number(Length, "0 in", "45 in"), Absent, "Centre of pressure from the bottom of the nock groove.";
GivenPitchDamping "aero.given.pitch_damping" number(Ratio, "-1e8", "1e6"), Absent, "Pitch damping coefficient Cmq, usually negative.";
GivenRollForcing "aero.given.roll_forcing" number(Ratio, "-1e5", "1e5"), Absent, "Roll forcing coefficient of the vane set.";
GivenRollDamping "aero.given.roll_damping" number(Ratio, "-1e7", "1e5"), Absent, "Roll damping coefficient Clp, usually negative.";

[ASKED]
Model "flight.model" Kind::Choice(&["six-dof", "point-mass", "rigid-body"]), is("six-dof", "chosen: the full model"), "Which equations fly one arrow.";

MarksFrom "marks.from" fixed(Length, "2 m", "200 m"), is("10 yd", "chosen: nearer, marks turn back"), "First distance of the marks.";
MarksTo "marks.to" fixed(Length, "2 m", "200 m"), is("60 yd", "chosen: the usual bowhunting marks"), "Last distance of the marks.";
MarksStep "marks.step" fixed(Length, "1 ft", "100 m"), is("5 yd", "chosen: marks between are read off"), "From one mark to the next.";
MarksPlaces "marks.places" Kind::Lengths { low: "2 m", high: "200 m" }, is("20 yd, 40 yd, 60 yd", "chosen: near, middle and far"), "Distances of the tables of slopes, changes and twigs, and of the arcs, rising.";
MarksSteepest "marks.steepest" fixed(Angle, "1 deg", "60 deg"), is("40 deg", "chosen: about as steep as people stand"), "Steepest slope, shot up and down.";
MarksSlopeStep "marks.slope_step" fixed(Angle, "1 deg", "60 deg"), is("10 deg", "chosen: as finely as a slope is judged by eye"), "From one slope to the next, beginning at the level.";
MarksChanges "marks.changes" Kind::SweepKeys, is("air.temperature, air.altitude, arrow.point.mass, bow.draw_weight", "chosen: what differs between the sighting-in and the shot; those drawn or not in use are left out"), "Dotted keys of values to change, one at a time, with the sight left as it is.";
MarksTwigs "marks.twigs" Kind::Rows(&TWIGS), Absent, "Twigs and window edges on the way: distance, and height above the line of sight.";

MeasuredDistance "measured.distance" fixed(Length, "1 m", "200 m"), Absent, "Distance at which the shift was seen; a push on the nock needs none.";
MeasuredLeft "measured.left" fixed(Length, "-2 m", "2 m"), Required, "How far to the left the changed arrow hit from the unchanged one, or how far the nock gave way when pushed to the left.";
MeasuredUp "measured.up" fixed(Length, "-2 m", "2 m"), Required, "How far above the unchanged arrow it hit, or how far the nock gave way when pushed up.";
MeasuredError "measured.error" fixed(Length, "0.001 mm", "1 m"), Absent, "Standard error of left and of up: for a group, its spread to one side over the root of its shots; with two groups, that of both. Without it an impact counts as known to 0.1 mm, a push as exact.";
MeasuredNockTurn "measured.nock_turn" fixed(Angle, "-1 turn", "1 turn"), Absent, "The change: the same arrow, its nock turned by this, clockwise seen from the nock.";
MeasuredBare "measured.bare" Kind::Flag, Absent, "The change, if true: a bare shaft, held against the fletched arrow.";
MeasuredPush "measured.push" fixed(Force, "0.1 N", "200 N"), Absent, "In place of a change: the force that pushed the nock of the bow at brace, without an arrow, once to the left and once up.";

InertiaRoll "rigid_body.inertia_roll" fixed(Inertia, "1e-12 kg m2", "1000 kg m2"), Required, "Moment of inertia about the roll axis.";
InertiaPitch "rigid_body.inertia_pitch" fixed(Inertia, "1e-12 kg m2", "1000 kg m2"), Required, "Moment of inertia about the pitch axis.";
InertiaYaw "rigid_body.inertia_yaw" fixed(Inertia, "1e-12 kg m2", "1000 kg m2"), Required, "Moment of inertia about the yaw axis.";
RollRate "rigid_body.roll_rate" fixed(AngularRate, "-500 turn/s", "500 turn/s"), is("0 deg/s", "chosen: at rest unless stated"), "Rate of roll at the start.";
PitchRate "rigid_body.pitch_rate" fixed(AngularRate, "-500 turn/s", "500 turn/s"), is("0 deg/s", "chosen: at rest unless stated"), "Rate of pitch at the start.";
YawRate "rigid_body.yaw_rate" fixed(AngularRate, "-500 turn/s", "500 turn/s"), is("0 deg/s", "chosen: at rest unless stated"), "Rate of yaw at the start.";
BodyAltitude "rigid_body.altitude" fixed(Length, "0 m", "11000 m"), Absent, "It falls from rest at this altitude through the standard atmosphere; without it there is neither air nor weight.";
BodyGravity "rigid_body.gravity" fixed(Acceleration, "0 m/s2", "20 m/s2"), is("9.80665 m/s2", "defined: standard free fall"), "Free fall at that altitude; it grows toward the Earth.";
BodyMass "rigid_body.mass" fixed(Mass, "0.001 kg", "1000 kg"), is("1 kg", "chosen: it matters with drag only"), "Mass.";
BodySpan "rigid_body.span" fixed(Length, "1 mm", "10 m"), is("1 m", "chosen: the coefficients refer to it"), "Length of roll and yaw damping; span times chord is the area of drag and damping.";
BodyChord "rigid_body.chord" fixed(Length, "1 mm", "10 m"), is("1 m", "chosen: the coefficients refer to it"), "Length of pitch damping.";
BodyDrag "rigid_body.drag" fixed(Ratio, "0", "10"), is("0", "chosen: none unless stated"), "Drag coefficient.";
BodyRollDamping "rigid_body.roll_damping" fixed(Ratio, "-1000", "0"), is("0", "chosen: none unless stated"), "Damping in roll, Clp by p b / 2 V.";
BodyPitchDamping "rigid_body.pitch_damping" fixed(Ratio, "-1000", "0"), is("0", "chosen: none unless stated"), "Damping in pitch, Cmq by q c / 2 V.";
BodyYawDamping "rigid_body.yaw_damping" fixed(Ratio, "-1000", "0"), is("0", "chosen: none unless stated"), "Damping in yaw, Cnr by r b / 2 V.";
BodyWind "rigid_body.wind" fixed(Speed, "-100 m/s", "100 m/s"), is("0 m/s", "chosen: calm unless stated"), "Steady wind across the fall.";
Duration "rigid_body.duration" fixed(Time, "0.001 s", "10000 s"), is("30 s", "chosen: the length of a published check"), "How long to run.";
BodySteps "rigid_body.steps" Kind::Whole { low: 1, high: 100_000 }, is("30", "chosen: one row a second"), "Rows to report, evenly spaced.";
}
