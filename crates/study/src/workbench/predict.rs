//! Where an arrow hits that was measured on the bench.

use std::f64::consts::FRAC_PI_2;

use arrow::{Bend, Lean, Shift, cant_from_tip, offset_from_run_out};
use rayon::prelude::*;
use units::{Angle, Length, LinearDensity};
use workbench::{FULL_SPAN, Measured, Place, Spun, Stage};

use super::aimed::{AimedBow, spread};
use super::blank::{Filled, filled};
use super::traits::{FAULTS, TRAITS, Trait, has, spun};
use crate::first::all_or_first;
use crate::nock::turned;
use crate::{Setup, StudyError, Watch};

/// Directions tried for a fault whose clock position was not noted.
const DIRECTIONS: u32 = 4;

/// The arrow with one reading as in a typical arrow of its batch; a fault is
/// taken away.
pub(crate) fn typical(arrow: &Measured, of: Trait, batch: &[Measured]) -> Measured {
    let mean = |read: fn(&Measured) -> Option<f64>| {
        let values: Vec<f64> = batch.iter().filter_map(read).collect();
        values.iter().sum::<f64>() / values.len().max(1) as f64
    };
    let mut other = arrow.clone();
    let length = |read: fn(&Measured) -> Option<f64>| Some(Length::from_si(mean(read)));
    match of {
        Trait::Mass => {
            other.mass = Some(units::Mass::from_si(mean(|m| m.mass.map(units::Mass::si))));
        }
        Trait::Balance => other.balance = length(|m| m.balance.map(Length::si)),
        Trait::Spine => other.spine = length(|m| m.spine.map(Length::si)),
        Trait::Length => other.length = length(|m| m.length.map(Length::si)),
        // The mean of directions means nothing: the scenario's own serves.
        Trait::Stiff => other.stiff = None,
        Trait::RunOut => other.run_out = None,
        Trait::Tip => other.tip = None,
        Trait::Groove => other.groove = None,
    }
    other
}

/// The scenario's arrow with what was measured in place of its own, faults of
/// unknown direction left out.
fn dressed(base: &Setup, arrow: &Measured) -> Result<Setup, StudyError> {
    let mut setup = base.clone();
    let parts = &mut setup.parts;
    parts.shaft.spine = arrow.spine.unwrap_or(parts.shaft.spine);
    parts.shaft.stiff_clock = arrow.stiff.unwrap_or(parts.shaft.stiff_clock);
    if arrow.stage.finished() {
        if let Some(length) = arrow.length {
            // Groove bottom to the shaft's rear end is not shaft.
            let behind = parts.nock.outside.si() - parts.nock.groove_depth.si();
            parts.shaft.length = Length::from_si(length.si() - behind);
        }
        parts.given.mass = arrow.mass.or(parts.given.mass);
        parts.given.balance = arrow.balance.or(parts.given.balance);
    } else {
        // A bare shaft weighs for its length; a raw one is still to be cut.
        if let (Stage::Cut | Stage::Squared, Some(length)) = (arrow.stage, arrow.length) {
            parts.shaft.length = length;
        }
        if let Some(length) = weighed_over(arrow, parts.shaft.length)
            && let Some(mass) = arrow.mass
        {
            parts.shaft.density = LinearDensity::from_si(mass.si() / length.si());
        } else if let Some(density) = arrow.density() {
            parts.shaft.density = density;
        }
    }
    for of in FAULTS {
        if let Some(Spun { total, high }) = spun(arrow, of) {
            let (total, clock) = high.map_or((Length::ZERO, Angle::ZERO), |clock| (total, clock));
            put(&mut setup, of, total, clock)?;
        }
    }
    Ok(setup)
}

/// The length of the bare shaft that was weighed; none where a raw one was not
/// measured.
fn weighed_over(arrow: &Measured, cut: Length) -> Option<Length> {
    match arrow.stage {
        Stage::Raw => arrow.length,
        _ => Some(arrow.length.unwrap_or(cut)),
    }
}

pub(super) fn put(
    setup: &mut Setup,
    of: Trait,
    total: Length,
    clock: Angle,
) -> Result<(), StudyError> {
    let offset = offset_from_run_out(total);
    match of {
        Trait::RunOut => setup.faults.bend = Some(Bend { bow: offset, span: FULL_SPAN, clock }),
        Trait::Tip => {
            let angle = cant_from_tip(total, setup.parts.point.length)
                .map_err(workbench::WorkbenchError::Arrow)?;
            setup.faults.point_cant = Lean { angle, clock };
        }
        _ => setup.faults.groove_offset = Shift { offset, clock },
    }
    Ok(())
}

/// Where a measured arrow hits with its nock turned by so much, at each
/// distance.
pub(crate) fn predict(
    lane: &AimedBow,
    arrow: &Filled,
    turn: Angle,
) -> Result<Vec<Place>, StudyError> {
    predict_changed(lane, arrow, &|setup| turned(setup, turn.si()))
}

/// The same of an arrow with something about it changed.
pub(crate) fn predict_changed(
    lane: &AimedBow,
    arrow: &Filled,
    change: &dyn Fn(Setup) -> Setup,
) -> Result<Vec<Place>, StudyError> {
    let name = &arrow.arrow.name;
    let named = |source| StudyError::Bench { arrow: name.clone(), source: Box::new(source) };
    let mut places = place(lane, &arrow.arrow, change).map_err(named)?;
    for [low, high] in &arrow.doubts {
        let low = place(lane, low, change).map_err(named)?;
        let high = place(lane, high, change).map_err(named)?;
        for ((place, low), high) in places.iter_mut().zip(low).zip(high) {
            let apart = (low.left - high.left).hypot(low.up - high.up);
            place.blur = place.blur.hypot(apart / 2.0);
        }
    }
    Ok(places)
}

fn place(
    lane: &AimedBow,
    arrow: &Measured,
    change: &dyn Fn(Setup) -> Setup,
) -> Result<Vec<Place>, StudyError> {
    let setup = dressed(&lane.base, arrow)?;
    let home = lane.impacts_at(change(setup.clone()))?;
    let mut places: Vec<Place> =
        home.iter().map(|[left, up]| Place { left: *left, up: *up, blur: 0.0 }).collect();
    for of in FAULTS {
        let Some(Spun { total, high: None }) = spun(arrow, of) else { continue };
        let mut hits = Vec::new();
        for k in 0..DIRECTIONS {
            let mut one = setup.clone();
            put(&mut one, of, total, Angle::from_si(f64::from(k) * FRAC_PI_2))?;
            hits.push(lane.impacts_at(change(one))?);
        }
        for (at, place) in places.iter_mut().enumerate() {
            let (middle, blur) = spread(&hits, at);
            place.left += middle[0] - home[at][0];
            place.up += middle[1] - home[at][1];
            place.blur = place.blur.hypot(blur);
        }
    }
    Ok(places)
}

/// As [`predict`] for a whole batch, in order, on all cores.
pub(crate) fn predict_all(
    lane: &AimedBow,
    arrows: &[Measured],
    watch: &dyn Watch,
) -> Result<Vec<Vec<Place>>, StudyError> {
    let one = |arrow: &Measured| {
        if watch.cancelled() {
            return Err(StudyError::Cancelled);
        }
        let places = predict(lane, &filled(arrow, arrows), Angle::ZERO);
        watch.done(1);
        places
    };
    all_or_first(arrows.par_iter().map(one))
}

/// How far a trait of an arrow moves its impact at one distance from where a
/// typical arrow's would be, m.
pub(crate) fn due_to(
    lane: &AimedBow,
    arrow: &Measured,
    at: usize,
    batch: &[Measured],
) -> Result<Vec<(Trait, f64)>, StudyError> {
    let home = predict(lane, &filled(arrow, &[]), Angle::ZERO)?[at];
    let mut sizes = Vec::new();
    for of in TRAITS.into_iter().filter(|of| has(arrow, *of)) {
        sizes.push((of, size(lane, (arrow, &home), (of, at), batch)?));
    }
    sizes.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
    Ok(sizes)
}

fn size(
    lane: &AimedBow,
    (arrow, home): (&Measured, &Place),
    (of, at): (Trait, usize),
    batch: &[Measured],
) -> Result<f64, StudyError> {
    let other = predict(lane, &filled(&typical(arrow, of, batch), &[]), Angle::ZERO)?[at];
    let moved = (home.left - other.left).hypot(home.up - other.up);
    // A fault of unknown direction moves the impact by its blur.
    let blurred = (home.blur.powi(2) - other.blur.powi(2)).max(0.0).sqrt();
    Ok(moved.hypot(blurred))
}

/// The same for every arrow of a batch from another bow, in the order of `before`: small
/// faults act in proportion, so all of one kind change as that of the arrow does which it
/// moves most.
pub(crate) fn due_again(
    lane: &AimedBow,
    before: &[Vec<(Trait, f64)>],
    at: usize,
    batch: &[Measured],
) -> Result<Vec<Vec<(Trait, f64)>>, StudyError> {
    let of_trait = |of: Trait| -> Result<f64, StudyError> {
        let of_arrow = |causes: &Vec<(Trait, f64)>| causes.iter().find(|c| c.0 == of).map(|c| c.1);
        let all = before.iter().enumerate().filter_map(|(arrow, c)| Some((arrow, of_arrow(c)?)));
        match all.max_by(|a, b| a.1.total_cmp(&b.1)) {
            Some((arrow, largest)) if largest > 0.0 => {
                let arrow = &batch[arrow];
                let home = predict(lane, &filled(arrow, &[]), Angle::ZERO)?[at];
                Ok(size(lane, (arrow, &home), (of, at), batch)? / largest)
            }
            _ => Ok(1.0),
        }
    };
    let changes = all_or_first(TRAITS.into_par_iter().map(of_trait))?;
    let change = |of: &Trait| TRAITS.iter().position(|one| one == of).map_or(1.0, |at| changes[at]);
    let again = |causes: &Vec<(Trait, f64)>| -> Vec<(Trait, f64)> {
        causes.iter().map(|(of, size)| (*of, size * change(of))).collect()
    };
    Ok(before.iter().map(again).collect())
}
