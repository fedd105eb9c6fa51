//! The values of a group's flights.

use std::sync::Arc;

use crate::draw::RandomStream;
use crate::sample::Sample;
use crate::{DrawnParameter, Per, Slot};

/// Chances in place of the streams': of a flight and of a drawn value, counted
/// as in [`BuildSampler::draws`].
pub(crate) type Chances = Arc<dyn Fn(usize, usize) -> f64 + Send + Sync>;

/// The changing values of a group.
#[derive(Clone)]
pub(crate) struct DrawnArrow {
    pub(crate) take: Sample,
    pub(crate) changes: Vec<(Slot, f64)>,
    /// Where in `changes` a value sits that the push depends on.
    pub(crate) varying: Vec<usize>,
    /// Where in `changes` a drawn value sits, its chances and its draw.
    pub(crate) moving: Vec<(usize, RandomStream, DrawnParameter)>,
    pub(crate) arrows: Option<usize>,
    pub(crate) chances: Option<Chances>,
}

impl DrawnArrow {
    /// Which arrow a flight is.
    pub(crate) fn arrow(&self, flight: usize) -> usize {
        self.arrows.map_or(flight, |arrows| flight % arrows)
    }

    /// Values that the push depends on.
    pub(crate) fn values(&self) -> Vec<f64> {
        self.varying.iter().map(|&at| self.changes[at].1).collect()
    }

    pub(crate) fn fill(&mut self, flight: usize) {
        if let Some(chances) = &self.chances {
            for (value, (at, _, draw)) in self.moving.iter().enumerate() {
                self.changes[*at].1 = draw.law.at(chances(flight, value));
            }
            return;
        }
        let arrow = self.arrow(flight);
        for (at, stream, draw) in &mut self.moving {
            let index = match draw.per {
                Per::Arrow => arrow,
                Per::Shot => flight,
            };
            self.changes[*at].1 = stream.value(&draw.law, index as u64);
        }
    }
}
