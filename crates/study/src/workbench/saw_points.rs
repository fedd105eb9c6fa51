//! The same cuts at every outer point: another bow, and other shafts that read the
//! same.

use workbench::{Cut, CutPlan, Known, Population, Seats};

use super::chanced::{Throwing, hooked, normals};
use super::cut_answer::{BatchWay, CutAsk, CutShaft, Cutting, PLAIN, Way, WayKind};
use crate::{Banded, Joint, OUTER_POINTS, OuterPoint, Standing, StudyError};

/// Every way in which bow and shafts may be.
pub(super) struct Points<'a> {
    ask: &'a CutAsk<'a>,
    joint: Option<&'a Joint<Throwing>>,
    /// The bow at each, with its weight now and before anything was measured. To each bow
    /// there are several shafts, which vary more and cost less.
    bows: Vec<(&'a Throwing, [f64; 2])>,
    populations: Vec<Population>,
}

impl<'a> Points<'a> {
    /// Where the bow is known well, the shafts still vary: all points then have its own
    /// values.
    pub(super) fn new(
        bow: &'a Throwing,
        joint: Option<&'a Joint<Throwing>>,
        ask: &'a CutAsk<'a>,
    ) -> Self {
        let bows: Vec<(&Throwing, [f64; 2])> = match joint {
            Some(joint) => {
                let each = OUTER_POINTS / joint.points.len().clamp(1, OUTER_POINTS);
                let one = |of: &'a OuterPoint<Throwing>| (&of.answer, [of.weight, of.before]);
                let all = joint.points.iter().map(one);
                all.flat_map(|bow| std::iter::repeat_n(bow, each)).collect()
            }
            None => vec![(bow, [1.0; 2]); OUTER_POINTS],
        };
        let populations = (0..bows.len()).map(hooked(ask.seed, ask.population)).collect();
        Self { ask, joint, bows, populations }
    }

    /// A shaft as it may be at each point, cut as it was.
    pub(super) fn of(&self, main: &CutShaft, key: &str) -> Result<Vec<CutShaft>, StudyError> {
        let (job, stock) = (&self.ask.job, main.axis.stock());
        let seats = Seats { nock: job.nock, front: job.front };
        let mut normal = normals(self.ask.seed, key);
        let one = |((bow, _), population): (&(&Throwing, [f64; 2]), &Population)| {
            let known = Known::new(stock, main.shaft.read.sightings(), *population)?;
            let shaft = known.draw(&mut normal);
            let axis = known.axis_of(&shaft)?;
            let uncut = axis.straight(0.0, stock);
            let way = |way: &Way| {
                let rear = way.cut.rear;
                let (cut, length) = match way.kind {
                    WayKind::Uncut => {
                        (Cut { straight: uncut, within: uncut.total, ..way.cut }, stock)
                    }
                    _ => (job.cut(&axis, rear), job.wanted.si()),
                };
                let throws = bow.throws.iter();
                let ring: Vec<f64> = throws
                    .map(|throw| known.thrown(rear, length, &seats, throw).ring(&shaft))
                    .collect();
                let band = Banded::sure(ring.last().copied().unwrap_or_default());
                // All of the shaft is known here.
                let cut =
                    Cut { straight: workbench::Straight { error: 0.0, ..cut.straight }, ..cut };
                Way { kind: way.kind, cut, ring, band }
            };
            let ways = main.ways.iter().map(way).collect();
            let plan = CutPlan { uncut, ..main.plan.clone() };
            Ok(CutShaft { shaft: main.shaft.clone(), axis, plan, ways, ..*main })
        };
        self.bows.iter().zip(&self.populations).map(one).collect()
    }

    /// The answer with its bands; `others` are its shafts at each point.
    pub(super) fn whole(&self, mut found: Cutting, others: Vec<Vec<CutShaft>>) -> Cutting {
        let mut others: Vec<_> = others.into_iter().map(Vec::into_iter).collect();
        let point = |(at, (bow, [weight, before])): (usize, &(&Throwing, [f64; 2]))| {
            let shafts: Vec<CutShaft> = others.iter_mut().filter_map(Iterator::next).collect();
            let (batch, form) = (batch(&shafts), bow.form.clone());
            let chances = Vec::new();
            let answer = Cutting { shafts, batch, form, point: Some(at), ..found.clone() };
            OuterPoint { chances, weight: *weight, before: *before, answer }
        };
        let points: Vec<OuterPoint<Cutting>> = self.bows.iter().enumerate().map(point).collect();
        let joint = Joint {
            inputs: self.joint.map_or_else(Vec::new, |of| of.inputs.clone()),
            choices: self.joint.map_or_else(Vec::new, |of| of.choices.clone()),
            pairs: self.joint.map_or_else(Vec::new, |of| of.pairs.clone()),
            centre: found.clone(),
            points,
            without: self.joint.map_or(0, |of| of.without),
            why: self.joint.and_then(|of| of.why.clone()),
            told: self.joint.and_then(|of| of.told.clone()),
        };
        for (at, shaft) in found.shafts.iter_mut().enumerate() {
            for (way_at, way) in shaft.ways.iter_mut().enumerate() {
                let read = |of: &Cutting| Some(of.shafts.get(at)?.ways.get(way_at)?.band.value);
                way.band = joint.banded(way.band.value, read);
            }
        }
        for (at, way) in found.batch.iter_mut().enumerate() {
            way.ring = joint.banded(way.ring.value, |of| Some(of.batch.get(at)?.ring.value));
            way.gain = joint.banded(way.gain.value, |of| Some(of.batch.get(at)?.gain.value));
            let gains = |of: &Cutting| of.batch.get(at).is_some_and(|way| way.gain.value > 0.0);
            way.standing = joint.standing(gains).filter(|_| way.kind != WayKind::Listed);
        }
        found.unknown = Some(Box::new(joint));
        found
    }
}

/// What the ways make of the whole batch.
pub(super) fn batch(shafts: &[CutShaft]) -> Vec<BatchWay> {
    let count = shafts.len() as f64;
    let of = |kind: WayKind| -> Option<(f64, f64)> {
        let (mut reads, mut square) = (0.0, 0.0);
        for shaft in shafts {
            let way = shaft.ways.iter().find(|way| way.kind == kind)?;
            let straight = &way.cut.straight;
            // Two components, each with half of the squared error of a total.
            reads += (straight.total.powi(2) + 2.0 * straight.error.powi(2)) / count;
            square += way.band.value.powi(2) / count;
        }
        Some((reads.sqrt(), square.sqrt()))
    };
    let Some((_, best)) = of(WayKind::Listed) else { return Vec::new() };
    let one = |kind: WayKind| {
        let (reads, ring) = of(kind)?;
        let standing: Option<Standing> = None;
        let (ring, gain) = (Banded::sure(ring), Banded::sure(ring - best));
        Some(BatchWay { kind, reads, ring, gain, standing })
    };
    std::iter::once(WayKind::Listed).chain(PLAIN).filter_map(one).collect()
}
