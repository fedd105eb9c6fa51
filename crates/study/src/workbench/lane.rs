//! One bow, one aim: arrows shot from it with nothing drawn.

use launch::Form;
use target::{Group, Impact};
use units::Angle;

use crate::group::{Ground, Rig, nothing_drawn};
use crate::shoot::{Motion, Tag, loose, meet};
use crate::sightin::sight_in;
use crate::take::Take;
use crate::{Recipe, Setup, Slot, StudyError, Watch};

/// Flights from which the archer's own spread is taken. Chosen: a standard
/// deviation is then known to about 1.6 %.
const FORM_FLIGHTS: usize = 2_000;

/// The bow with its sight set for the scenario's faultless arrow.
pub(crate) struct Lane {
    /// The scenario's arrow with its fixed faults, shot by a machine.
    pub(crate) base: Setup,
    distances: Vec<f64>,
    pitch: f64,
    centres: Vec<Impact>,
}

impl Lane {
    pub(crate) fn new(
        recipe: &dyn Recipe,
        distances: &[f64],
        doubt: Option<(Slot, f64)>,
    ) -> Result<Self, StudyError> {
        let tag = Tag { build: "", flight: None };
        let nominal = nothing_drawn(recipe, Take::Nominal, doubt, None, tag)?;
        let sighted = sight_in(nominal, distances, Motion::Rigid, tag)?;
        let mut base = nothing_drawn(recipe, Take::Fixed, doubt, None, tag)?;
        base.form = Form::default();
        Ok(Self {
            base,
            distances: distances.to_vec(),
            pitch: sighted.launch_pitch,
            centres: sighted.centres,
        })
    }

    /// Where an arrow hits at each distance, left and up of the faultless one,
    /// m.
    pub(crate) fn land(&self, setup: &Setup) -> Result<Vec<[f64; 2]>, StudyError> {
        let tag = Tag { build: "", flight: None };
        let loosed = loose(setup, None, tag)?;
        let met = meet(setup, &loosed, self.pitch, &self.distances, Motion::Rigid, tag)?
            .map_err(|missed| missed.error(tag))?;
        let from = |(met, centre): (crate::shoot::Met, &Impact)| {
            [met.tip.left - centre.left, met.tip.up - centre.up]
        };
        Ok(met.into_iter().zip(&self.centres).map(from).collect())
    }

    /// Root mean square distance of impacts from their middle at each distance,
    /// m, of a setup made for each of `turns` evenly spread directions.
    pub(crate) fn ring(
        &self,
        turns: u32,
        make: impl Fn(Angle) -> Setup,
    ) -> Result<Vec<f64>, StudyError> {
        let mut hits = Vec::new();
        for k in 0..turns {
            let angle = std::f64::consts::TAU * f64::from(k) / f64::from(turns);
            hits.push(self.land(&make(Angle::from_si(angle)))?);
        }
        Ok((0..self.distances.len()).map(|at| spread(&hits, at).1).collect())
    }
}

/// Middle of the hits at one distance, and their root mean square distance
/// from it.
pub(crate) fn spread(hits: &[Vec<[f64; 2]>], at: usize) -> ([f64; 2], f64) {
    let count = hits.len() as f64;
    let mean = |side: usize| hits.iter().map(|hit| hit[at][side]).sum::<f64>() / count;
    let middle = [mean(0), mean(1)];
    let squares: f64 = hits
        .iter()
        .map(|hit| (hit[at][0] - middle[0]).powi(2) + (hit[at][1] - middle[1]).powi(2))
        .sum();
    (middle, (squares / count).sqrt())
}

/// The arrow after its nock was turned clockwise in the shaft, seen from
/// behind: the rest of the arrow rolls the other way under the string; the
/// nock's own cant and groove go with the nock.
pub(crate) fn rolled(mut setup: Setup, turn: Angle) -> Setup {
    let add = |clock: &mut Angle, by: f64| *clock = Angle::from_si(clock.si() + by);
    add(&mut setup.faults.nock_cant.clock, turn.si());
    add(&mut setup.faults.nock_offset.clock, turn.si());
    add(&mut setup.faults.groove_offset.clock, turn.si());
    add(&mut setup.index, -turn.si());
    setup
}

/// Standard deviation of the archer's own group in one direction at each
/// distance, m: form and weather, with faultless arrows.
pub(crate) fn form_sigma(
    recipe: &dyn Recipe,
    distances: &[f64],
    seed: u64,
    watch: &dyn Watch,
) -> Result<Vec<f64>, StudyError> {
    let rig = Rig::new("", recipe, None, None, distances)?;
    let ground = Ground { seed, arrows: None, distances, watch };
    watch.planned(FORM_FLIGHTS as u64);
    let columns = rig.fly(Take::Form, 0..FORM_FLIGHTS, &ground)?;
    columns.iter().map(|column| Ok(Group::of(column)?.sigma.value)).collect()
}
