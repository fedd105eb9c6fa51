//! How far is too far for a shot at an animal, by the group.

use arrow::PointShape;
use launch::BowKind;
use target::Impact;
use units::Length;

use super::ask::{Looked, SafetyAsk};
use super::danger::{Danger, Far, FarAt, FarBy};
use crate::sample::Sample;
use crate::score::Judge;
use crate::{
    Answer, Distribution, DrawnParameter, Found, MarkAnswer, Owner, Slot, StudyError, TargetChoice,
};

/// Least share of arrows in the zone for a shot at an animal. Chosen: nine in ten, as
/// hunters are taught to know their distance by (common practice, no source).
const LEAST_HITS: f64 = 0.9;
/// Chances of aim to each side. Chosen: a share comes out within half a per cent.
const CHANCES: u32 = 64;

/// From where on too few arrows hit of those distances that are asked about, or may where
/// what is poorly known goes against the archer. Only what [`hunts`] is told. The groups that were found say it, with the bands of their hits, or, before
/// any are flown, the archer's aim alone, which lets no group be smaller; without an
/// archer nothing says it.
pub(super) fn too_far(
    one: &Looked,
    ask: &SafetyAsk,
    answer: Option<&Answer>,
) -> Result<Option<Danger>, StudyError> {
    if !hunts(one, ask) {
        return Ok(None);
    }
    let flown = answer.and_then(|answer| Some((answer, answer.found.build(one.at)?)));
    let all: Vec<FarAt> = if let Some((answer, build)) = flown {
        let marks = build.marks.iter().enumerate();
        marks.map(|(at, mark)| of_groups(mark, answer, (one.at, at))).collect()
    } else {
        let judge = Judge::new(&ask.plan.target).ok();
        let (Some(judge), Some(aim)) = (judge, Aim::of(one)?) else { return Ok(None) };
        let distances = ask.distances.unwrap_or(&ask.plan.distances);
        let hits = |distance: f64, wider: f64| aim.hits(&judge, distance, wider, one);
        let at = |d: &Length| FarAt {
            distance: d.si(),
            share: hits(d.si(), 1.0),
            low: hits(d.si(), aim.wider),
        };
        distances.iter().map(at).collect()
    };
    let by = match flown {
        None => FarBy::Aim,
        Some((answer, _))
            if answer.unknown.is_none() && one.variant.uncertain().next().is_some() =>
        {
            FarBy::Usual
        }
        Some(_) => FarBy::All,
    };
    Ok(Far::of(&all, LEAST_HITS, by).map(Danger::Far))
}

/// Whether an animal is spoken of: where a zone was asked for, the head has blades, or a
/// compound is shot at no face. A recurve or longbow with field points, whose zone is a
/// default, is shot at a target.
fn hunts(one: &Looked, ask: &SafetyAsk) -> bool {
    if let TargetChoice::Face { .. } = ask.plan.target {
        return false;
    }
    let shape = one.setup.parts.point.shape;
    let blades = matches!(shape, PointShape::FixedBlade | PointShape::ClosedBlade);
    ask.plan.stated.zone || blades || one.setup.bow.kind == BowKind::Compound
}

/// What a group hits, with the lower end of its band.
fn of_groups(mark: &MarkAnswer, answer: &Answer, (build, at): (usize, usize)) -> FarAt {
    let share = mark.hit.value;
    let read = |found: &Found| Some(found.build(build)?.marks.get(at)?.hit.value);
    let band = answer.unknown.as_ref().and_then(|joint| joint.band(share, read));
    FarAt { distance: mark.distance.si(), share, low: band.map_or(share, |band| band.low) }
}

/// How the archer's aim is drawn.
struct Aim<'a> {
    left: Option<&'a Distribution>,
    up: Option<&'a Distribution>,
    /// How many times as wide it is where what is poorly known of it goes against the
    /// archer.
    wider: f64,
}

impl<'a> Aim<'a> {
    fn of(one: &Looked<'a>) -> Result<Option<Self>, StudyError> {
        let law = |name: &str| {
            let mut draws = one.variant.recipe.draws().iter();
            draws.find(|draw| draw.owner == Owner::Archer && draw.key.ends_with(name))
        };
        let (left, up) = (law("aim_left"), law("aim_up"));
        let Some(drawn) = left.or(up) else { return Ok(None) };
        let wider = wider(one, drawn)?;
        let law = |draw: Option<&'a DrawnParameter>| draw.map(|draw| &draw.law);
        Ok(Some(Self { left: law(left), up: law(up), wider }))
    }

    /// Share of hits at a distance, m, were aim all that spreads, so many times as wide as
    /// its laws say.
    fn hits(&self, judge: &Judge, distance: f64, wider: f64, one: &Looked) -> f64 {
        let at = |law: Option<&Distribution>, place: u32| {
            let chance = (f64::from(place) + 0.5) / f64::from(CHANCES);
            distance * (wider * law.map_or(0.0, |law| law.at(chance) - law.median())).tan()
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

/// A drawn aim that is followed, rad. Chosen: small; aim goes in proportion.
const TRIED: f64 = 1e-3;
/// Where the archer's spread is worst but for one case in twenty, as a band ends.
const AGAINST: f64 = 0.95;

/// How many times as wide a drawn aim becomes where the one poorly known value that widens
/// it most goes against the archer.
fn wider(one: &Looked, aim: &DrawnParameter) -> Result<f64, StudyError> {
    let size = |change: Option<(Slot, f64)>| -> Result<f64, StudyError> {
        let changes: Vec<(Slot, f64)> =
            one.variant.changes().into_iter().chain([(aim.slot, TRIED)]).chain(change).collect();
        let form = one.variant.made(Sample::Full, &changes, &one.variant.tag())?.form;
        Ok(form.aim_left.si().abs().max(form.aim_up.si().abs()))
    };
    let own = size(None)?;
    let mut most = own;
    for doubt in one.variant.uncertain() {
        most = most.max(size(Some((doubt.slot, doubt.at(AGAINST))))?);
    }
    Ok(if own > 0.0 { most / own } else { 1.0 })
}
