//! Builds side by side.

use target::{Estimate, PowerTest};
use units::Length;

use crate::group_cache::{Columns, GroupCache};
use crate::paired::{Blocks, gain, sigma_ratio};
use crate::sample::Sample;
use crate::{BuildAnswer, SideBySide, StudyError};

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

/// A build against the base.
#[derive(Debug, Clone, PartialEq)]
pub struct Pair {
    /// Index of the base.
    pub base: usize,
    /// Index of the other.
    pub other: usize,
    /// By distance.
    pub marks: Vec<PairMark>,
}

/// A build against the base at one distance.
#[derive(Debug, Clone, PartialEq)]
pub struct PairMark {
    /// Distance.
    pub distance: Length,
    /// Sigma of the base over sigma of the other, archer and arrows; none
    /// when the other's group is a point and the base's is not.
    pub full_ratio: Option<Estimate>,
    /// The same from a machine.
    pub machine_ratio: Option<Estimate>,
    /// Gain in R50, base minus other, archer and arrows, m.
    pub gain: Estimate,
    /// Shots with each build until the archer can tell (80 % power, two-sided
    /// 5 %); 2, the fewest that show any spread, when one group is a point.
    pub archer_shots: Shots,
    /// The same for a machine.
    pub machine_shots: Shots,
    /// The verdict.
    pub seen: Seen,
}

/// How many shots with each build until a difference in group size shows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Shots {
    /// This many with each build.
    Each(u32),
    /// More than the search limit.
    MoreThan(u32),
}

/// Who would see a difference.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Seen {
    /// The archer, within `ARCHER_SHOTS` shots with each build.
    Archer,
    /// Only a machine, within that many shots.
    MachineOnly,
    /// Neither.
    Nobody,
}

/// Shots with each build that an archer would spend on a comparison. Chosen:
/// three dozen.
pub const ARCHER_SHOTS: u32 = 36;
/// Where the search for enough shots ends. Chosen: nobody shoots more with
/// each build.
pub const MOST_SHOTS: u32 = 10_000;

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

/// Shots until two groups with this ratio of sigmas are told apart; none
/// stands for a ratio to a point, which is beyond any number.
pub(crate) fn shots(ratio: Option<Estimate>, power_test: &PowerTest) -> Shots {
    let ratio = ratio.map_or(f64::INFINITY, |ratio| ratio.value);
    power_test.shots(ratio, MOST_SHOTS).map_or(Shots::MoreThan(MOST_SHOTS), Shots::Each)
}

pub(crate) fn seen(archer: Shots, machine: Shots) -> Seen {
    let few = |shots| matches!(shots, Shots::Each(count) if count <= ARCHER_SHOTS);
    if few(archer) {
        Seen::Archer
    } else if few(machine) {
        Seen::MachineOnly
    } else {
        Seen::Nobody
    }
}

/// A ratio of many flights, carried to a point by its change in few flights
/// with the same chances; its interval keeps its width as a ratio. None stands
/// for a ratio to a point.
pub(crate) fn carried(
    main: Option<Estimate>,
    centre: Option<Estimate>,
    at: Option<Estimate>,
) -> Option<Estimate> {
    let (Some(main), Some(centre), Some(at)) = (main, centre, at) else { return at };
    if !(centre.value > 0.0 && at.value > 0.0) {
        return Some(at);
    }
    let by = at.value / centre.value;
    Some(Estimate { value: main.value * by, low: main.low * by, high: main.high * by })
}

/// Ratios at a point carried over from the many flights of the answer, and what
/// follows from them.
pub(crate) fn retell(
    main: &Compared,
    centre: &Compared,
    at: &mut Compared,
    power_test: &PowerTest,
) {
    for ((main, centre), at) in main.pairs.iter().zip(&centre.pairs).zip(&mut at.pairs) {
        for ((main, centre), at) in main.marks.iter().zip(&centre.marks).zip(&mut at.marks) {
            at.full_ratio = carried(main.full_ratio, centre.full_ratio, at.full_ratio);
            at.machine_ratio = carried(main.machine_ratio, centre.machine_ratio, at.machine_ratio);
            at.archer_shots = shots(at.full_ratio, power_test);
            at.machine_shots = shots(at.machine_ratio, power_test);
            at.seen = seen(at.archer_shots, at.machine_shots);
        }
    }
    let pairs = main.sides.pairs.iter().zip(&centre.sides.pairs).zip(&mut at.sides.pairs);
    for ((main, centre), at) in pairs {
        for ((main, centre), at) in main.marks.iter().zip(&centre.marks).zip(&mut at.marks) {
            let rows = [
                (&main.archer, &centre.archer, &mut at.archer),
                (&main.machine, &centre.machine, &mut at.machine),
            ];
            for (main, centre, at) in rows {
                at.ratio = carried(main.ratio, centre.ratio, at.ratio);
                at.shots = shots(at.ratio, power_test);
            }
        }
    }
}
