use units::{Length, Role};

use crate::axis::span;
use crate::error::range;
use crate::{Axis, Straight, WorkbenchError};

/// What is to be cut.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SawJob {
    /// Length wanted, end face to end face.
    pub wanted: Length,
    /// Width of the saw's cut: the least that can come off an end.
    pub kerf: Length,
    /// How far the stop of the saw may stand wrong, either way.
    pub tolerance: Length,
    /// What the nock engages.
    pub nock: Length,
    /// What the insert, outsert or point engages.
    pub front: Length,
    /// The most that may come off the nock end; none for no limit.
    pub most_rear: Option<Length>,
    /// The most that may come off the point end.
    pub most_front: Option<Length>,
}

/// One way to cut.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cut {
    /// What comes off the nock end, m, kerf included.
    pub rear: f64,
    /// What comes off the point end, m.
    pub front: f64,
    /// How straight the piece is.
    pub straight: Straight,
    /// The largest total reading, carried over to 28 in, with the stop wrong by
    /// up to the tolerance, m.
    pub within: f64,
}

/// Where to cut, and the plain ways beside it; none where the shaft or the
/// saw does not allow one.
#[derive(Debug, Clone, PartialEq)]
pub struct CutPlan {
    /// The straightest.
    pub best: Cut,
    /// All off the point end.
    pub front_only: Option<Cut>,
    /// All off the nock end.
    pub rear_only: Option<Cut>,
    /// Half off each.
    pub halves: Option<Cut>,
    /// The shaft as it is.
    pub uncut: Straight,
    /// The stretches of allowed cuts at the nock end, m, rising.
    pub windows: Vec<(f64, f64)>,
}

/// Two cuts nearer than this are one, m.
const SAME: f64 = 1e-9;

/// Finds where to cut so that the piece is straightest by the trade's measure.
///
/// Exact: between stations the middle of the span moves off its chord along a
/// straight line as the cut moves, so the least is looked up in each stretch.
///
/// # Errors
/// [`WorkbenchError`] with the numbers, when the shaft cannot give the piece.
pub fn plan(axis: &Axis, job: &SawJob) -> Result<CutPlan, WorkbenchError> {
    let windows = windows(axis.stock(), job)?;
    let waste = axis.stock() - job.wanted.si();
    let mut best: Option<(f64, f64)> = None;
    for &(low, high) in &windows {
        let mut stops = stops(axis, job.wanted.si(), low, high);
        stops.dedup_by(|a, b| (*a - *b).abs() < SAME);
        for rear in
            stops.windows(2).map(|pair| least(axis, job, pair[0], pair[1])).chain([low, high])
        {
            let total = axis.straight(rear, job.wanted.si()).total;
            if best.is_none_or(|(_, least)| total < least - 1e-15) {
                best = Some((rear, total));
            }
        }
    }
    let allowed = |rear: f64| windows.iter().any(|w| (w.0 - SAME..=w.1 + SAME).contains(&rear));
    let way = |rear: f64| allowed(rear).then(|| cut(axis, job, rear));
    let Some((rear, _)) = best else { return Err(no_cut(axis.stock(), job)) };
    Ok(CutPlan {
        best: cut(axis, job, rear),
        front_only: way(0.0),
        rear_only: way(waste),
        halves: way(waste / 2.0),
        uncut: axis.straight(0.0, axis.stock()),
        windows,
    })
}

impl SawJob {
    /// The cut that takes this much off the nock end, m.
    pub fn cut(&self, axis: &Axis, rear: f64) -> Cut {
        cut(axis, self, rear)
    }
}

fn cut(axis: &Axis, job: &SawJob, rear: f64) -> Cut {
    let wanted = job.wanted.si();
    let (give, most) = (job.tolerance.si(), axis.stock() - wanted);
    // The square of the distance from the chord is convex between stations.
    let (low, high) = ((rear - give).max(0.0), (rear + give).min(most.max(0.0)).max(rear));
    let places = stops(axis, wanted, low, high);
    let within = places.into_iter().map(|r| axis.straight(r, wanted).total).fold(0.0, f64::max);
    Cut { rear, front: axis.stock() - wanted - rear, straight: axis.straight(rear, wanted), within }
}

/// Both ends of a stretch of cuts and every cut between at which an end or the
/// middle of the span passes a station.
fn stops(axis: &Axis, wanted: f64, low: f64, high: f64) -> Vec<f64> {
    let (_, places) = span(0.0, wanted);
    let mut stops = vec![low, high];
    for station in axis.stations() {
        stops.extend(places.iter().map(|p| station - p).filter(|r| (low..=high).contains(r)));
    }
    stops.sort_by(f64::total_cmp);
    stops
}

/// The straightest cut between two stops: the point of a straight line nearest
/// to zero.
fn least(axis: &Axis, job: &SawJob, low: f64, high: f64) -> f64 {
    let mid = |rear: f64| {
        let (_, [a, m, b]) = span(rear, job.wanted.si());
        axis.at(m) - (axis.at(a) + axis.at(b)) * 0.5
    };
    let (from, to) = (mid(low), mid(high));
    let along = to - from;
    let square = along.at0 * along.at0 + along.at90 * along.at90;
    if square <= 0.0 {
        return low;
    }
    let share = -(from.at0 * along.at0 + from.at90 * along.at90) / square;
    low + share.clamp(0.0, 1.0) * (high - low)
}

/// Where the cut at the nock end may lie.
fn windows(stock: f64, job: &SawJob) -> Result<Vec<(f64, f64)>, WorkbenchError> {
    let wanted = range("length wanted", Role::Part, job.wanted.si(), 0.05, 2.0)?;
    let least = range("saw's kerf", Role::Part, job.kerf.si(), 0.0, 0.02)?;
    let give = range("tolerance", Role::Part, job.tolerance.si(), 0.0, 0.02)?;
    let nock = range("length the nock engages", Role::Part, job.nock.si(), 0.0, 0.2)?;
    let front = range("length the front end engages", Role::Part, job.front.si(), 0.0, 0.3)?;
    for most in [job.most_rear, job.most_front].into_iter().flatten() {
        range("most to come off an end", Role::Part, most.si(), 0.0, 2.0)?;
    }
    if nock + front > wanted {
        return Err(WorkbenchError::NoRoom { nock, front, wanted });
    }
    let waste = stock - wanted;
    if waste < -give - SAME {
        return Err(WorkbenchError::TooShort { stock, wanted });
    }
    if waste <= give {
        // Near enough as it is: nothing to saw.
        return Ok(vec![(0.0, 0.0)]);
    }
    let most_rear = job.most_rear.map_or(waste, Length::si).min(waste);
    let most_front = job.most_front.map_or(waste, Length::si).min(waste);
    let low = waste - most_front;
    let mut windows = Vec::new();
    // All off the front; both; all off the rear. A cut takes a kerf or nothing.
    if low <= SAME && waste >= least {
        windows.push((0.0, 0.0));
    }
    let both = (low.max(least), most_rear.min(waste - least));
    if both.0 <= both.1 + SAME {
        windows.push((both.0, both.1.max(both.0)));
    }
    if most_rear >= waste - SAME && waste >= least && both.1 < waste - SAME {
        windows.push((waste, waste));
    }
    if windows.is_empty() { Err(no_cut(stock, job)) } else { Ok(windows) }
}

fn no_cut(stock: f64, job: &SawJob) -> WorkbenchError {
    let waste = stock - job.wanted.si();
    WorkbenchError::NoCut {
        waste,
        least: job.kerf.si(),
        most_rear: job.most_rear.map_or(waste, Length::si),
        most_front: job.most_front.map_or(waste, Length::si),
    }
}
