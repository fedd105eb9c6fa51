//! Builds side by side.

use target::{Impact, PowerTest, TargetError, centres_apart};
use units::Length;

use crate::group_cache::{Columns, GroupCache};
use crate::paired::{Blocks, gain, sigma_ratio};
use crate::questions::sides::{blown, shifted};
use crate::sample::Sample;
use crate::seen::{carried, seen, shots};
use crate::settled::settled;
use crate::{BuildAnswer, OneSight, Pair, PairMark, SideBySide, StudyError};

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
    let (sighted, rig) = (&range.rigs[base].sighted, &range.rigs[other]);
    let away = blown(&rig.sighted, rig.sighted.setup.site.wind, rig.variant.tag())
        .aimed(sighted.launch_pitch);
    let landed = settled(away.tips(range.settings.distances))?;
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
            one_sight: match &landed {
                Some(landed) => Some(one_sight(
                    (&sighted.centres[place], &landed[place]),
                    [&full[0][place], &full[1][place]],
                    power_test,
                )?),
                None => None,
            },
        });
    }
    Ok(Pair { base, other, marks })
}

/// Where the second of two groups lands with one sight setting, and how soon that shows.
/// Impacts of a group are from its own fault-free arrow, whose sight is set for it;
/// `from` is where both arrows meet the target with the setting of the first.
fn one_sight(
    from: (&Impact, &Impact),
    [one, other]: [&[Impact]; 2],
    power_test: &PowerTest,
) -> Result<OneSight, StudyError> {
    let between = Impact { left: from.1.left - from.0.left, up: from.1.up - from.0.up };
    let moved = shifted(other, between);
    let centre = |group: &[Impact]| {
        let mean =
            |read: fn(&Impact) -> f64| group.iter().map(read).sum::<f64>() / group.len() as f64;
        Impact { left: mean(|i| i.left), up: mean(|i| i.up) }
    };
    let (from, to) = (centre(one), centre(&moved));
    let shift = Impact { left: to.left - from.left, up: to.up - from.up };
    let apart = match centres_apart(one, &moved) {
        Err(TargetError::NoSpread) if shift.left.hypot(shift.up) > 0.0 => f64::INFINITY,
        Err(TargetError::NoSpread) => 0.0,
        found => found?,
    };
    Ok(OneSight::of(shift, apart, power_test))
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
            if let (Some(main), Some(centre), Some(at)) =
                (&main.one_sight, &centre.one_sight, &mut at.one_sight)
            {
                *at = at.carried(main, centre, power_test);
            }
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
