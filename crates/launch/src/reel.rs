//! A push and what follows it, for a moving picture: the whole arrow at every step,
//! the bow around it, and how the shaft swings on once it is free. Model cards:
//! docs/model/push.md, docs/model/flex.md and docs/model/bow.md.

use arrow::{Built, Parts};
use units::Angle;

use crate::flex::MODES;
use crate::frame::Frame;
use crate::machine::UpperHalf;
use crate::push::{Detail, History, nominal, watch};
use crate::trace::{PLACES, PushTrace, told};
use crate::{Bow, Form, GivenDeparture, LaunchError};

/// A push as a moving picture needs it, SI. Pairs are to the left and up from the
/// line along which the bow pushes.
#[derive(Debug, Clone, PartialEq)]
pub struct Reel {
    /// The push, told; its moments are the steps of this one.
    pub story: PushTrace,
    /// Places told of, m from the groove: the groove itself, the shaft from end to
    /// end, the tip.
    pub stations: Vec<f64>,
    /// The places' displacement at each step, m.
    pub steps: Vec<Vec<[f64; 2]>>,
    /// The upper half of the bow at each step.
    pub bow: Vec<UpperHalf>,
    /// Displacement of each place in each shape of the departure's flex, 1/sqrt(kg).
    pub swings: Vec<[f64; MODES]>,
    /// How far each place of the arrow at rest lies off its principal axis, rolled
    /// as it leaves, m.
    pub crooked: Vec<[f64; 2]>,
}

/// Follows the push of one arrow and keeps all of it.
///
/// # Errors
/// [`LaunchError`].
pub fn filmed(
    bow: &Bow,
    parts: &Parts,
    built: Built,
    index: Angle,
    form: &Form,
    given: &GivenDeparture,
) -> Result<Reel, LaunchError> {
    let history = watch(bow, parts, &built, index, form, Detail::default())?;
    let push = nominal(bow, &built, form, &GivenDeparture::default())?;
    let layout = &built.layout;
    let (rear, front) = (layout.shaft_rear.si(), layout.shaft_front.si());
    let share = |i: u32| f64::from(i) / f64::from(PLACES - 1);
    let along = (0..PLACES).map(|i| rear + share(i) * (front - rear));
    let stations: Vec<f64> = core::iter::once(0.0).chain(along).chain([layout.tip.si()]).collect();
    let crooked = crooked(&history, &built, index, &stations);
    let swings: Vec<[f64; MODES]> = stations.iter().map(|&at| history.swing_of(at)).collect();
    let lever = built.mass.balance().si();
    let off = |frame: &Frame| {
        let (place, angle, bending) = (frame.place(), frame.angle(), frame.bending());
        let one = |i: usize| {
            [0, 1].map(|p| {
                let bent: f64 = swings[i].iter().zip(&bending[p]).map(|(w, q)| w * q).sum();
                place[p] + (stations[i] - lever) * angle[p] + bent + crooked[i][p]
            })
        };
        (0..stations.len()).map(one).collect()
    };
    let steps = history.frames.iter().map(off).collect();
    let poses = history.frames.iter().map(|frame| push.upper_half(frame.time)).collect();
    let story = told(&history, bow, parts, built, index, given)?;
    Ok(Reel { story, stations, steps, bow: poses, swings, crooked })
}

/// How far each place lies off the principal axis: groove and tip have their own.
fn crooked(history: &History, built: &Built, index: Angle, stations: &[f64]) -> Vec<[f64; 2]> {
    let (left, up) = built.effects.tip_offset.left_up(index.si());
    let line = |&at: &f64| history.forcings.each_ref().map(|forcing| forcing.shaft(at).0);
    let mut all: Vec<[f64; 2]> = stations.iter().map(line).collect();
    if let [first, .., last] = &mut all[..] {
        *first = history.forcings.each_ref().map(|forcing| forcing.groove);
        *last = [left, up];
    }
    all
}
