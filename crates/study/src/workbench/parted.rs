//! An arrow as a sum of weighed parts. Model card: docs/model/pairing.md.

use units::{Length, LinearDensity, Mass};
use workbench::{LoosePart, Measured, PartKind, Share};

use crate::{Setup, StudyError};

/// An arrow with its parts.
pub(super) struct Made<'a> {
    pub(super) shaft: &'a Measured,
    /// Of its shaft, kg/m.
    pub(super) density: f64,
    pub(super) parts: Vec<&'a LoosePart>,
}

impl Made<'_> {
    pub(super) fn with_parts(&self, mut setup: Setup) -> Setup {
        setup.parts.shaft.density = LinearDensity::from_si(self.density);
        for part in &self.parts {
            put(&mut setup, part.kind, part.mass);
        }
        setup
    }
}

/// Gives an arrow a part of this mass; what was given for the whole arrow no longer holds.
fn put(setup: &mut Setup, kind: PartKind, mass: Option<Mass>) {
    let Some(mass) = mass else { return };
    let parts = &mut setup.parts;
    (parts.given.mass, parts.given.balance) = (None, None);
    match kind {
        PartKind::Point => parts.point.mass = mass,
        PartKind::Nock => parts.nock.mass = mass,
        PartKind::Insert => {
            if let Some(insert) = &mut parts.insert {
                insert.mass = mass;
            }
        }
    }
}

/// Where masses sit in the scenario's arrow: an arrow is a sum of masses and moments.
pub(super) struct Model {
    /// Mass of every shaft and part, by heap; the shafts first.
    masses: Vec<Vec<f64>>,
    /// Where the balance of each heap's kind sits, from the groove's bottom, m.
    sits: Vec<f64>,
    /// What is alike: mass, and moment about the groove's bottom.
    alike: [f64; 2],
    /// Bottom of the groove to the shaft's end, m.
    length: f64,
}

impl Model {
    pub(super) fn new(
        base: &Setup,
        shafts: &[f64],
        heaps: &[Vec<&LoosePart>],
        kinds: &[PartKind],
    ) -> Result<Self, StudyError> {
        let built = |setup: &Setup| {
            let built = arrow::build(&setup.parts, &setup.faults);
            let built = built.map_err(workbench::WorkbenchError::Arrow)?;
            let (mass, balance) = (built.mass.mass().si(), built.mass.balance().si());
            Ok::<_, StudyError>(([mass, mass * balance], built.layout.shaft_front.si()))
        };
        let mut setup = base.clone();
        (setup.parts.given.mass, setup.parts.given.balance) = (None, None);
        let (whole, length) = built(&setup)?;
        // A tenth more of a part shows where its mass sits.
        let mut sits = Vec::new();
        let mut alike = whole;
        let parts = &setup.parts;
        let shaft = parts.shaft.density.si() * parts.shaft.length.si();
        let own = |kind: &PartKind| match kind {
            PartKind::Point => parts.point.mass.si(),
            PartKind::Nock => parts.nock.mass.si(),
            PartKind::Insert => parts.insert.map_or(0.0, |insert| insert.mass.si()),
        };
        let owns = std::iter::once((None, shaft)).chain(kinds.iter().map(|k| (Some(*k), own(k))));
        for (kind, mass) in owns {
            let mut heavier = setup.clone();
            if let Some(kind) = kind {
                put(&mut heavier, kind, Some(Mass::from_si(1.1 * mass)));
            } else {
                let density = 1.1 * parts.shaft.density.si();
                heavier.parts.shaft.density = LinearDensity::from_si(density);
            }
            let more = built(&heavier)?.0;
            let at = (more[1] - whole[1]) / (more[0] - whole[0]);
            sits.push(at);
            alike = [alike[0] - mass, alike[1] - mass * at];
        }
        let weighed = |heap: &Vec<&LoosePart>| {
            heap.iter().filter_map(|part| part.mass.map(Mass::si)).collect::<Vec<f64>>()
        };
        let masses = std::iter::once(shafts.to_vec()).chain(heaps.iter().map(weighed)).collect();
        Ok(Self { masses, sits, alike, length })
    }

    /// Mass and balance of an arrow.
    pub(super) fn whole(&self, given: &[usize]) -> [f64; 2] {
        let parts = given.iter().zip(&self.masses).zip(&self.sits);
        let sum = parts.fold(self.alike, |sum, ((part, heap), at)| {
            [sum[0] + heap[*part], sum[1] + heap[*part] * at]
        });
        [sum[0], sum[1] / sum[0]]
    }

    /// Mass and balance that the heaps give on average.
    pub(super) fn mean(&self) -> (f64, f64) {
        let mut sum = self.alike;
        for (heap, at) in self.masses.iter().zip(&self.sits) {
            let mean = heap.iter().sum::<f64>() / heap.len().max(1) as f64;
            sum = [sum[0] + mean, sum[1] + mean * at];
        }
        (sum[0], sum[1] / sum[0])
    }

    pub(super) fn foc(&self, balance: f64) -> f64 {
        arrow::foc(Length::from_si(balance), Length::from_si(self.length)).si()
    }

    /// The balance at which an arrow has this front of centre.
    pub(super) fn balance(&self, foc: f64) -> f64 {
        (0.5 + foc) * self.length
    }

    pub(super) fn shares(&self, balance: f64) -> Vec<Vec<Share>> {
        let heap = |(heap, at): (&Vec<f64>, &f64)| {
            heap.iter().map(|mass| Share { mass: *mass, moment: mass * (at - balance) }).collect()
        };
        self.masses.iter().zip(&self.sits).map(heap).collect()
    }

    pub(super) fn alike(&self, mass: f64, balance: f64) -> Share {
        Share { mass: self.alike[0] - mass, moment: self.alike[1] - self.alike[0] * balance }
    }
}
