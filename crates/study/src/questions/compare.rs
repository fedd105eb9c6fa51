//! Builds side by side.

use target::PowerTest;
use units::Length;

use crate::group_cache::{Columns, GroupCache};
use crate::paired::{Blocks, gain, sigma_ratio};
use crate::sample::Sample;
use crate::seen::{seen, shots};
use crate::{BuildAnswer, Pair, PairMark, SideBySide, StudyError};

/// Builds compared.
#[derive(Debug, Clone, PartialEq)]
pub struct Compared {
    /// The builds, in the order asked.
    pub builds: Vec<BuildAnswer>,
    /// Each further build against the first.
    pub pairs: Vec<Pair>,
    /// The builds held side by side.
    pub sides: SideBySide,
}

/// Each further build against the first.
pub(crate) fn pairs(
    range: &mut GroupCache,
    builds: &[BuildAnswer],
    power_test: &PowerTest,
) -> Result<Vec<Pair>, StudyError> {
    (1..builds.len()).map(|other| pair(range, builds, power_test, other)).collect()
}

/// The build that the others are held against.
const BASE: usize = 0;

fn pair(
    range: &mut GroupCache,
    builds: &[BuildAnswer],
    power_test: &PowerTest,
    other: usize,
) -> Result<Pair, StudyError> {
    let base = BASE;
    let flights = builds[base].flights;
    let mut columns = |case, take| range.group(case, take, flights).cloned();
    let full: [Columns; 2] = [columns(base, Sample::Full)?, columns(other, Sample::Full)?];
    let machine: [Columns; 2] = [columns(base, Sample::Machine)?, columns(other, Sample::Machine)?];
    let blocks = Blocks::new(flights, range.settings.arrows);
    let mut marks = Vec::with_capacity(range.settings.distances.len());
    for (place, &distance) in range.settings.distances.iter().enumerate() {
        let ratio =
            |groups: &[Columns; 2]| sigma_ratio(&groups[0][place], &groups[1][place], blocks);
        let (full_ratio, machine_ratio) = (ratio(&full)?, ratio(&machine)?);
        let r50 = |case: usize| builds[case].marks[place].full.stats.r50.value;
        let gained = r50(base) - r50(other);
        let (archer_shots, machine_shots) =
            (shots(full_ratio, power_test), shots(machine_ratio, power_test));
        marks.push(PairMark {
            distance: Length::from_si(distance),
            full_ratio,
            machine_ratio,
            gain: gain(gained, &full[0][place], &full[1][place], blocks)?,
            archer_shots,
            machine_shots,
            seen: seen(archer_shots, machine_shots),
        });
    }
    Ok(Pair { base, other, marks })
}
