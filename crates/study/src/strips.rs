//! Marks for a tape: of the arrow's own speed, or of several about it.

use rayon::prelude::*;
use units::Length;

use crate::first::all_or_first;
use crate::{FARTHEST, NEAREST, Recipe, Refit, SightedArrow, Sought, StudyError};

/// Halves of the unit between which a tape may begin. Chosen: at a fifth mark.
const FIRST: u32 = 10;

/// What strips are wanted.
#[derive(Debug, Clone, PartialEq)]
pub struct StripsPlan {
    /// Name of the build; empty when there is only one.
    pub build: String,
    /// Half of the unit of distance, m.
    pub half: f64,
    /// The first and the last mark, in halves of the unit.
    pub halves: (u32, u32),
    /// Speeds over the arrow's own, less one, rising.
    pub shares: Vec<f64>,
}

/// Speeds of a fan, and the share of the arrow's own from one to the next.
/// Chosen: 6 % either way holds what a wrong draw length or weight does to the
/// speed; between speeds 1 % apart a straight line strays from the curve by less
/// than 0.01 mm in 100 mm of travel (travel goes as speed to the minus two, so by
/// 6 x 100 mm x 0.01^2 / 8).
const FAN: (u32, f64) = (13, 0.01);

impl StripsPlan {
    /// The speeds of a fan about the arrow's own.
    pub fn fan(build: &str, distances: &[Length], unit: f64) -> Self {
        Self::even(build, distances, unit, FAN.0, FAN.1)
    }

    /// The arrow's own speed alone.
    pub fn one(build: &str, distances: &[Length], unit: f64) -> Self {
        Self::even(build, distances, unit, 1, 0.0)
    }

    /// Strips from the first to the last of some distances, in halves of `unit`
    /// (m), for `count` speeds, the arrow's own in the middle and `apart` (a
    /// share of it) from one to the next.
    fn even(build: &str, distances: &[Length], unit: f64, count: u32, apart: f64) -> Self {
        // What rounding may take from a whole number.
        const SLACK: f64 = 1e-6;
        let half = 0.5 * unit;
        let at = |distance: Option<&Length>| distance.map_or(0.0, |d| d.si() / half);
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "at most 438")]
        let whole = |halves: f64| halves as u32;
        let first = whole((at(distances.first()) - SLACK).ceil());
        let last = whole((at(distances.last()) + SLACK).floor());
        let middle = f64::from(count / 2);
        let shares = (0..count).map(|place| apart * (f64::from(place) - middle)).collect();
        Self { build: build.to_owned(), half, halves: (first, last), shares }
    }
}

/// The marks of one speed.
#[derive(Debug, Clone, PartialEq)]
pub struct StripMarks {
    /// The speed over the arrow's own, less one.
    pub share: f64,
    /// Departure speed, m/s.
    pub speed: f64,
    /// Distance in halves of the unit, and how far the pin lies below that of
    /// the first mark, m.
    pub marks: Vec<(u32, f64)>,
}

/// The marks of every half unit for each speed.
///
/// Nearer than the highest mark of a sight, marks turn back; the strips then
/// begin at the next fifth mark beyond it, all at the same.
///
/// # Errors
/// [`StudyError`]: distances outside [`NEAREST`] to [`FARTHEST`], a build out
/// of reach.
pub fn strips(recipe: &dyn Recipe, plan: &StripsPlan) -> Result<Vec<StripMarks>, StudyError> {
    let distance = |halves: u32| plan.half * f64::from(halves);
    for halves in [plan.halves.0, plan.halves.1] {
        let value = distance(halves);
        if !(NEAREST..=FARTHEST).contains(&value) {
            return Err(StudyError::MarkDistance { value, nearest: NEAREST, farthest: FARTHEST });
        }
    }
    let own = SightedArrow::new(recipe, &[], &plan.build)?.departure().speed;
    let sightings = all_or_first(plan.shares.par_iter().map(|share| {
        let speed = own * (1.0 + share);
        let changed = Refit::new(recipe, vec![(Sought::Speed, speed)]);
        let marker = SightedArrow::new(&changed, &[], &plan.build)?;
        Ok((*share, speed, marker.sighting(distance(plan.halves.1))?))
    }))?;
    let top = sightings.iter().map(|(_, _, sighting)| sighting.top()).fold(0.0, f64::max);
    let mut first = plan.halves.0;
    if distance(first) < top {
        first = first.next_multiple_of(FIRST);
        while distance(first) < top {
            first += FIRST;
        }
    }
    let strip = |(share, speed, sighting): (f64, f64, sight::Sighting)| {
        let mark = |halves| Ok((halves, sighting.travel(distance(first), distance(halves))?));
        let marks: Result<Vec<_>, StudyError> = (first..=plan.halves.1).map(mark).collect();
        Ok(StripMarks { share, speed, marks: marks? })
    };
    sightings.into_iter().map(strip).collect()
}
