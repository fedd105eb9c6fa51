//! How far is too far for a shot at an animal, by the group.

use target::Impact;

use super::ask::{Looked, SafetyAsk};
use super::danger::Danger;
use crate::score::Judge;
use crate::{Distribution, Found, Owner, TargetChoice};

/// Least share of arrows in the zone for a shot at an animal. Chosen: nine in ten, as
/// hunters are taught to know their distance by (common practice, no source).
const LEAST_HITS: f64 = 0.9;
/// Chances of aim to each side. Chosen: a share comes out within half a per cent.
const CHANCES: u32 = 64;

/// The nearest distance asked about at which too few arrows hit. Only a zone stands
/// for an animal, a face is a face. The groups that were found say it, or, before any
/// are flown, the archer's aim alone, which lets no group be smaller; without an archer
/// nothing says it.
pub(super) fn too_far(one: &Looked, ask: &SafetyAsk, found: Option<&Found>) -> Option<Danger> {
    if let TargetChoice::Face { .. } = ask.plan.target {
        return None;
    }
    let flown = found.and_then(|found| found.build(one.at));
    let shares: Vec<(f64, f64)> = if let Some(build) = flown {
        build.marks.iter().map(|mark| (mark.distance.si(), mark.hit.value)).collect()
    } else {
        let judge = Judge::new(&ask.plan.target).ok()?;
        let aim = Aim::of(one)?;
        let distances = ask.distances.unwrap_or(&ask.plan.distances);
        distances.iter().map(|d| (d.si(), aim.hits(&judge, d.si(), one))).collect()
    };
    let (from, share) = shares.into_iter().find(|(_, share)| *share < LEAST_HITS)?;
    Some(Danger::Far { from, share, least: LEAST_HITS })
}

/// How the archer's aim is drawn.
struct Aim<'a> {
    left: Option<&'a Distribution>,
    up: Option<&'a Distribution>,
}

impl<'a> Aim<'a> {
    fn of(one: &Looked<'a>) -> Option<Self> {
        let law = |name: &str| {
            let mut draws = one.variant.recipe.draws().iter();
            let aim = draws.find(|draw| draw.owner == Owner::Archer && draw.key.ends_with(name));
            aim.map(|draw| &draw.law)
        };
        let (left, up) = (law("aim_left"), law("aim_up"));
        if left.is_none() && up.is_none() { None } else { Some(Self { left, up }) }
    }

    /// Share of hits at a distance, m, were aim all that spreads.
    fn hits(&self, judge: &Judge, distance: f64, one: &Looked) -> f64 {
        let at = |law: Option<&Distribution>, place: u32| {
            let chance = (f64::from(place) + 0.5) / f64::from(CHANCES);
            distance * law.map_or(0.0, |law| law.at(chance) - law.median()).tan()
        };
        let shaft = one.setup.parts.shaft.outside;
        let hit = |left: u32, up: u32| {
            judge.hit(&Impact { left: at(self.left, left), up: at(self.up, up) }, shaft)
        };
        let hits = (0..CHANCES).flat_map(|left| (0..CHANCES).map(move |up| (left, up)));
        let hits = hits.filter(|(left, up)| hit(*left, *up)).count();
        hits as f64 / f64::from(CHANCES * CHANCES)
    }
}
