//! One bow, one aim: arrows shot from it with nothing drawn.

use launch::Form;
use target::{Group, Impact};
use units::Angle;

use crate::sample::Sample;
use crate::sampler::{BuildSampler, RunSettings};
use crate::shoot::{ArrowName, Shooter};
use crate::variant::Variant;
use crate::{Recipe, Setup, StudyError, Watch};

/// Flights from which the archer's own spread is taken. Chosen: a standard
/// deviation is then known to about 1.6 %.
pub(super) const FORM_FLIGHTS: usize = 2_000;
/// The same at an outer point. Chosen: the change from point to point is taken with the
/// same chances, so few show it.
pub(super) const FORM_FLIGHTS_AT_POINTS: usize = 200;

/// The bow with its sight set for the scenario's faultless arrow.
pub(crate) struct AimedBow {
    /// The scenario's arrow with its fixed faults, shot by a machine.
    pub(crate) base: Setup,
    distances: Vec<f64>,
    pitch: f64,
    centres: Vec<Impact>,
}

impl AimedBow {
    pub(crate) fn new(recipe: &dyn Recipe, distances: &[f64]) -> Result<Self, StudyError> {
        let variant = Variant::new("", recipe);
        let nominal = variant.zeroed()?;
        let mut base = variant.undrawn(Sample::Fixed)?;
        base.form = Form::default();
        let (pitch, centres) = (nominal.pitch, nominal.tips(distances)?);
        Ok(Self { base, distances: distances.to_vec(), pitch, centres })
    }

    /// Where an arrow hits at each distance, left and up of the faultless one,
    /// m.
    pub(crate) fn impacts_at(&self, setup: Setup) -> Result<Vec<[f64; 2]>, StudyError> {
        let shooter = Shooter::new(ArrowName::of(""), setup)?.aimed(self.pitch);
        let tips = shooter.tips(&self.distances)?;
        let from = |(tip, centre): (Impact, &Impact)| [tip.left - centre.left, tip.up - centre.up];
        Ok(tips.into_iter().zip(&self.centres).map(from).collect())
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
            hits.push(self.impacts_at(make(Angle::from_si(angle)))?);
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

/// A group with arrows that spread by so much (root mean square radius), over
/// the archer's own; one where the archer has no spread.
pub(crate) fn growth(spread: f64, sigma: f64) -> f64 {
    if sigma > 0.0 { (1.0 + spread * spread / (2.0 * sigma * sigma)).sqrt() } else { 1.0 }
}

/// Standard deviation of the archer's own group in one direction at each
/// distance, m: form and weather, with faultless arrows.
pub(crate) fn form_sigma(
    recipe: &dyn Recipe,
    distances: &[f64],
    (seed, flights): (u64, usize),
    watch: &dyn Watch,
) -> Result<Vec<f64>, StudyError> {
    let sampler = BuildSampler::new(Variant::new("", recipe), distances)?;
    let settings = RunSettings { seed, arrows: None, distances, watch };
    watch.planned(flights as u64);
    let columns = sampler.fly(Sample::Form, 0..flights, &settings)?;
    columns.iter().map(|column| Ok(Group::of(column)?.sigma.value)).collect()
}
