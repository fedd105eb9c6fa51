//! The push of one arrow, told: what moves, bends and pulls from release to
//! departure.

use arrow::Built;
use units::Angle;

use crate::{
    Bow, BowLaw, Budget, Departure, Detail, DrawCurve, ForceLaw, Form, Frame, GivenDeparture,
    History, LaunchError, MODES, RestKind, beam, budget, own_speed, power_stroke, push_forces,
    watch,
};

/// Instants at which the shaft's shape is kept.
pub const INSTANTS: usize = 10;
/// Places along the shaft at which a shape is kept. Chosen: some eight to each
/// half wave of the third mode.
pub(crate) const PLACES: u32 = 25;
/// Places along the stroke at which forces are kept. Chosen: a smooth curve on
/// any screen.
const STROKE_PLACES: u32 = 60;
/// Bending modes told: those that the push carries; its last shape is none.
const TRUE_MODES: usize = MODES - 1;

/// One push, told in numbers, SI. Pairs are to the left and up from the line
/// along which the bow pushes.
#[derive(Debug, Clone, PartialEq)]
pub struct PushTrace {
    /// The arrow.
    pub built: Built,
    /// Whether anything works on it sideways: a fault, the release, the nock's
    /// path, a rest that is pressed.
    pub sideways: bool,
    /// Whether the scenario gives departure values directly; the push shown
    /// here does not use them.
    pub given: bool,
    /// Where the stored energy goes.
    pub budget: Budget,
    /// The bow's own speed with this arrow, m/s.
    pub own_speed: f64,
    /// Distance over which the string pushes, m.
    pub stroke: f64,
    /// Forces along the stroke, from full draw to brace.
    pub forces: Vec<StrokePoint>,
    /// Bending modes of the free arrow, lowest first.
    pub modes: Vec<ModeShape>,
    /// How near the push comes to buckling the shaft.
    pub buckling: Buckling,
    /// Every step of the push.
    pub moments: Vec<Moment>,
    /// The shaft at ten instants, evenly spread in time.
    pub shapes: Vec<ShaftShape>,
    /// Where the rest stands, m ahead of the nock at full draw.
    pub rest_place: f64,
    /// Whether the rest holds the shaft all round; else it only pushes.
    pub rest_holds: bool,
    /// How long each hold of the rest worked, left and up; none where it never
    /// did.
    pub rest: [Option<Touch>; 2],
    /// The state at departure.
    pub departure: Departure,
    /// Energy of the bending at departure, J.
    pub flex_energy: f64,
}

/// How near the push comes to buckling the shaft.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Buckling {
    /// Acceleration at which the shaft would buckle statically, held sideways
    /// at both ends, m/s2.
    pub limit: f64,
    /// Greatest acceleration of the push, m/s2.
    pub peak: f64,
}

/// Forces at one place of the stroke.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StrokePoint {
    /// Way of the nock from full draw, m.
    pub travel: f64,
    /// Force with which the archer draws the string there, N.
    pub draw: f64,
    /// Force of the string on the arrow on its way back, N.
    pub push: f64,
}

/// One bending mode of the free arrow.
#[derive(Debug, Clone, PartialEq)]
pub struct ModeShape {
    /// Frequency, Hz.
    pub frequency: f64,
    /// Stations on the shaft that stand still, m from the groove.
    pub nodes: Vec<f64>,
    /// Station, m, and displacement over the largest one.
    pub shape: Vec<(f64, f64)>,
}

/// One step of the push.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Moment {
    /// Time since release, s.
    pub time: f64,
    /// Way of the nock from full draw, m.
    pub travel: f64,
    /// Speed along the push, m/s.
    pub speed: f64,
    /// Push on the nock, N.
    pub push: f64,
    /// Sideways force of the string on the nock, N.
    pub string: [f64; 2],
    /// Force of the rest on the shaft, N.
    pub rest: [f64; 2],
    /// Place of the nock groove, m.
    pub nock: [f64; 2],
    /// Place of the tip, m.
    pub tip: [f64; 2],
    /// Place of the balance point, m.
    pub balance: [f64; 2],
    /// Principal axis from the push line, rad.
    pub angle: [f64; 2],
}

/// The shaft's centre line at one instant.
#[derive(Debug, Clone, PartialEq)]
pub struct ShaftShape {
    /// Time since release, s.
    pub time: f64,
    /// Way of the nock from full draw, m.
    pub travel: f64,
    /// Its places from the rear end to the front end.
    pub places: Vec<ShaftPlace>,
}

/// A place of the shaft's centre line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShaftPlace {
    /// Station, m from the groove.
    pub station: f64,
    /// Displacement, m.
    pub off: [f64; 2],
}

/// How long a hold of the rest worked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Touch {
    /// Last time of contact, s.
    pub until: f64,
    /// Way of the nock by then, m.
    pub travel: f64,
    /// How often it took hold.
    pub times: usize,
}

/// Follows the push of one arrow and tells it. Values given directly for the
/// departure are only noted.
///
/// # Errors
/// [`LaunchError`].
pub fn story(
    bow: &Bow,
    parts: &arrow::Parts,
    built: Built,
    index: Angle,
    form: &Form,
    given: &GivenDeparture,
) -> Result<PushTrace, LaunchError> {
    let history = watch(bow, parts, &built, index, form, Detail::default())?;
    told(&history, bow, parts, built, index, given)
}

/// Tells a push that was followed.
pub(crate) fn told(
    history: &History,
    bow: &Bow,
    parts: &arrow::Parts,
    built: Built,
    index: Angle,
    given: &GivenDeparture,
) -> Result<PushTrace, LaunchError> {
    let mass = built.mass.mass();
    let stroke = power_stroke(bow.draw_length, bow.brace_height)?.si();
    let moments: Vec<Moment> =
        history.frames.iter().map(|frame| moment(history, frame, &built, index, stroke)).collect();
    let peak = moments.iter().map(|m| m.push).fold(0.0, f64::max) / mass.si();
    let beam = beam(parts, &built);
    let limit = beam.buckling_acceleration()?;
    let modes = beam.modes::<TRUE_MODES>()?;
    let tip = built.layout.tip.si();
    let still = |m: &Moment| [m.nock, m.tip, m.string, m.rest].iter().flatten().all(|v| *v == 0.0);
    Ok(PushTrace {
        sideways: !moments.iter().all(still),
        given: *given != GivenDeparture::default(),
        budget: budget(bow, mass)?,
        own_speed: own_speed(bow, mass)?.si(),
        stroke,
        forces: along_the_stroke(bow, &built, stroke)?,
        modes: (0..TRUE_MODES)
            .map(|mode| {
                let at = |i: u32| f64::from(i) / f64::from(4 * PLACES) * tip;
                let shape = (0..=4 * PLACES).map(|i| (at(i), modes.at(at(i)).0[mode]));
                let shape: Vec<(f64, f64)> = shape.collect();
                let most = shape.iter().map(|p| p.1.abs()).fold(0.0, f64::max);
                ModeShape {
                    frequency: modes.frequency[mode] / std::f64::consts::TAU,
                    nodes: modes.nodes(mode),
                    shape: shape.into_iter().map(|(x, y)| (x, y / most)).collect(),
                }
            })
            .collect(),
        buckling: Buckling { limit, peak },
        rest_place: stroke + bow.rest.ahead.si(),
        rest_holds: holds(bow),
        shapes: shapes(history, &built, stroke),
        rest: [0, 1].map(|plane| touch(bow, &moments, history.let_go, plane)),
        departure: history.departure,
        flex_energy: history.departure.flex.energy(),
        moments,
        built,
    })
}

fn moment(history: &History, frame: &Frame, built: &Built, index: Angle, stroke: f64) -> Moment {
    let (place, angle) = (frame.place(), frame.angle());
    let ahead = built.layout.tip.si() - built.mass.balance().si();
    let (left, up) = built.effects.tip_offset.left_up(index.si());
    let forcing = [left, up];
    let bent = frame.bending().map(|bending| {
        bending.iter().zip(history.departure.flex.tip).map(|(q, w)| q * w).sum::<f64>()
    });
    Moment {
        time: frame.time,
        travel: frame.travelled * stroke,
        speed: frame.speed,
        push: frame.push,
        string: frame.string,
        rest: frame.rest,
        nock: history.nock(frame),
        tip: [0, 1].map(|p| place[p] + ahead * angle[p] + bent[p] + forcing[p]),
        balance: place,
        angle,
    }
}

fn along_the_stroke(
    bow: &Bow,
    built: &Built,
    stroke: f64,
) -> Result<Vec<StrokePoint>, LaunchError> {
    let law = BowLaw::new(bow)?;
    let peak = bow.curve.as_ref().map_or(bow.draw_weight.si(), DrawCurve::peak);
    let shares: Vec<f64> =
        (0..=STROKE_PLACES).map(|i| f64::from(i) / f64::from(STROKE_PLACES)).collect();
    let pushes = push_forces(bow, built.mass.mass(), &shares)?;
    let point = |(share, push): (f64, f64)| StrokePoint {
        travel: share * stroke,
        draw: peak * law.force(share),
        push,
    };
    Ok(shares.into_iter().zip(pushes).map(point).collect())
}

/// The shaft at instants spread evenly over time, each at the nearest step.
fn shapes(history: &History, built: &Built, stroke: f64) -> Vec<ShaftShape> {
    let end = history.frames.last().map_or(0.0, |frame| frame.time);
    let (rear, front) = (built.layout.shaft_rear.si(), built.layout.shaft_front.si());
    let at = |instant: usize| {
        let time = end * instant as f64 / (INSTANTS - 1) as f64;
        let after = history.frames.partition_point(|frame| frame.time < time);
        let near = history.frames[after.saturating_sub(1)..].iter().take(2);
        near.min_by(|a, b| (a.time - time).abs().total_cmp(&(b.time - time).abs()))
    };
    let shape = |frame: &Frame| ShaftShape {
        time: frame.time,
        travel: frame.travelled * stroke,
        places: (0..PLACES)
            .map(|i| {
                let share = f64::from(i) / f64::from(PLACES - 1);
                let station = rear + share * (front - rear);
                ShaftPlace { station, off: history.shaft(frame, station) }
            })
            .collect(),
    };
    (0..INSTANTS).filter_map(at).map(shape).collect()
}

/// Whether the rest holds the shaft all round.
fn holds(bow: &Bow) -> bool {
    matches!(bow.rest.kind, RestKind::DropAway | RestKind::Containment)
}

/// How long a hold works: one that holds both ways to the end of its share,
/// one that only pushes as long as it is pressed.
fn touch(bow: &Bow, moments: &[Moment], let_go: f64, plane: usize) -> Option<Touch> {
    let holds = holds(bow);
    // A step ends there but for rounding.
    let let_go = let_go * (1.0 - 1e-9);
    let worked = |m: &Moment| {
        if holds { m.time < let_go } else { m.rest[plane] != 0.0 }
    };
    let last = moments.iter().rposition(worked)?;
    // What works at one step has let go at the next.
    let end = moments.get(last + 1).unwrap_or(&moments[last]);
    let starts = moments.windows(2).filter(|pair| !worked(&pair[0]) && worked(&pair[1])).count();
    let times = starts + usize::from(moments.first().is_some_and(worked));
    Some(Touch { until: end.time, travel: end.travel, times })
}
