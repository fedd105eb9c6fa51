//! All groups of a question: each flown once, grown as needed, shared between
//! builds where it must come out the same.

use target::Impact;

use crate::sample::Sample;
use crate::sampler::{BuildSampler, RunSettings};
use crate::{CausesAlone, StudyError};

/// How many drawn setups must agree, besides the undrawn one, before two
/// builds share a group. Chosen: one would do for any recipe that maps values
/// smoothly.
const PROBES: usize = 3;

/// Impacts by distance and flight.
pub(crate) type Columns = Vec<Vec<Impact>>;

/// The cases of a question and the groups flown with them.
pub(crate) struct GroupCache<'a> {
    pub(crate) settings: RunSettings<'a>,
    pub(crate) rigs: Vec<BuildSampler<'a>>,
    kept: Vec<(usize, Sample, Columns)>,
    pub(crate) flown: usize,
    pub(crate) alone: CausesAlone,
}

impl<'a> GroupCache<'a> {
    pub(crate) fn new(settings: RunSettings<'a>, rigs: Vec<BuildSampler<'a>>) -> Self {
        Self { settings, rigs, kept: Vec::new(), flown: 0, alone: CausesAlone::default() }
    }

    /// The first case whose group must come out the same: equal setups from
    /// equal draws.
    pub(crate) fn origin(&self, case: usize, take: Sample) -> Result<usize, StudyError> {
        for earlier in 0..case {
            if self.same(earlier, case, take)? {
                return Ok(earlier);
            }
        }
        Ok(case)
    }

    fn same(&self, a: usize, b: usize, take: Sample) -> Result<bool, StudyError> {
        let (a, b) = (&self.rigs[a], &self.rigs[b]);
        let same_nominal = a.sighted.setup == b.sighted.setup;
        if !same_nominal
            || !a.variant.draws(take).eq(b.variant.draws(take))
            || a.variant.undrawn(take)? != b.variant.undrawn(take)?
        {
            return Ok(false);
        }
        let (mut of_a, mut of_b) = (a.drawn(take, &self.settings), b.drawn(take, &self.settings));
        for flight in 0..PROBES {
            if a.setup(&mut of_a, flight)? != b.setup(&mut of_b, flight)? {
                return Ok(false);
            }
        }
        Ok(true)
    }

    /// The group of a case with at least this many flights, flown as far as it
    /// is not yet.
    pub(crate) fn group(
        &mut self,
        case: usize,
        take: Sample,
        flights: usize,
    ) -> Result<&Columns, StudyError> {
        let origin = self.origin(case, take)?;
        let take = self.alike(origin, take)?;
        let known = self.kept.iter().position(|(c, t, _)| (*c, *t) == (origin, take));
        let at = known.unwrap_or_else(|| {
            self.kept.push((origin, take, vec![Vec::new(); self.settings.distances.len()]));
            self.kept.len() - 1
        });
        let columns = &mut self.kept[at].2;
        let have = columns[0].len();
        if have < flights {
            let more = self.rigs[origin].fly(take, have..flights, &self.settings)?;
            if have == 0 {
                *columns = more;
            } else {
                for (column, more) in columns.iter_mut().zip(more) {
                    column.extend(more);
                }
            }
            self.flown += self.rigs[origin].distinct(take, flights - have);
        }
        Ok(&self.kept[at].2)
    }

    /// The group that a group must come out the same as: where no arrow has a fault, the
    /// archer's own is that of all together.
    fn alike(&self, case: usize, take: Sample) -> Result<Sample, StudyError> {
        let variant = &self.rigs[case].variant;
        let same = take == Sample::Form
            && variant.draws(Sample::Full).eq(variant.draws(take))
            && variant.undrawn(Sample::Full)? == variant.undrawn(take)?;
        Ok(if same { Sample::Full } else { take })
    }

    /// How many of these groups are flown on their own.
    pub(crate) fn distinct(&self, takes: &[Sample]) -> Result<usize, StudyError> {
        let mut count = 0;
        for case in 0..self.rigs.len() {
            for &take in takes {
                let own = self.origin(case, take)? == case && self.alike(case, take)? == take;
                count += usize::from(own);
            }
        }
        Ok(count)
    }
}
