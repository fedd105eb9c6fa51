//! Would anyone see two groups differ, and how often would they be misled?

use target::{Group, Impact, PowerTest};

use crate::draw::RandomStream;
use crate::paired::{Blocks, sigma_ratio};
use crate::sampler::RunSettings;
use crate::seen::shots;
use crate::{After, PowerRow, StudyError};

/// Shots with each build that people usually fire before they judge (common
/// practice, no source).
pub const SHOTS: [u32; 4] = [3, 6, 12, 36];
/// Groups picked of each build. Chosen: a share is then known to 1.1 points
/// (one standard error), finer than anyone would act on.
const TRIALS: usize = 2000;
/// Shots picked for each trial: the most of [`SHOTS`].
const MOST: u64 = 36;

/// Two groups flown with the same chances.
pub(super) fn told(
    settings: &RunSettings,
    power_test: &PowerTest,
    who: &str,
    names: [&str; 2],
    groups: [&[Impact]; 2],
) -> Result<PowerRow, StudyError> {
    let blocks = Blocks::new(groups[0].len(), settings.arrows);
    let ratio = sigma_ratio(groups[0], groups[1], blocks)?;
    let picked = picked(settings.seed, power_test, who, names, groups)?;
    let true_ratio = ratio.map_or(f64::INFINITY, |ratio| ratio.value);
    let after = SHOTS.iter().zip(picked).map(|(&shots, (picked_wrong, picked_missed))| After {
        shots,
        odds: power_test.odds(true_ratio, shots),
        picked_wrong,
        picked_missed,
    });
    Ok(PowerRow { ratio, shots: shots(ratio, power_test), after: after.collect() })
}

/// For each number of shots: the share of trials in which the build with the
/// wider group shows the smaller one, and in which the test shows nothing. The
/// shots of each build are picked on their own, since an archer's are.
fn picked(
    seed: u64,
    power_test: &PowerTest,
    who: &str,
    names: [&str; 2],
    groups: [&[Impact]; 2],
) -> Result<[(f64, f64); SHOTS.len()], StudyError> {
    let sigma = |of: &[Impact]| Ok::<f64, StudyError>(Group::of(of)?.sigma.value);
    let wider = usize::from(sigma(groups[1])? > sigma(groups[0])?);
    let limits = SHOTS.map(|shots| power_test.limit(shots).powi(2));
    let mut streams = names.map(|name| RandomStream::new(seed, &format!("told.{who}.{name}")));
    let mut counts = [(0.0, 0.0); SHOTS.len()];
    // A small group says no more for being picked from more often.
    let trials = TRIALS.min(groups[0].len());
    for trial in 0..trials as u64 {
        let mut variances = [[0.0; SHOTS.len()]; 2];
        for (build, variances) in variances.iter_mut().enumerate() {
            *variances = picked_variances(&mut streams[build], groups[build], trial);
        }
        for (at, count) in counts.iter_mut().enumerate() {
            let (wide, tight) = (variances[wider][at], variances[1 - wider][at]);
            count.0 += if wide < tight { 1.0 } else { f64::from(u8::from(wide <= tight)) / 2.0 };
            let shown = wide > limits[at] * tight || tight > limits[at] * wide;
            count.1 += f64::from(u8::from(!shown));
        }
    }
    Ok(counts.map(|(wrong, missed)| (wrong / trials as f64, missed / trials as f64)))
}

/// Variances of the first shots of a trial, for each number of shots.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a chance below 1 of a length in memory"
)]
fn picked_variances(stream: &mut RandomStream, group: &[Impact], trial: u64) -> [f64; SHOTS.len()] {
    let (mut left, mut up, mut squares) = (0.0, 0.0, 0.0);
    let mut first = None;
    let mut found = [0.0; SHOTS.len()];
    for shot in 0..MOST {
        let chance = stream.chance(trial * MOST + shot);
        let impact = group[(chance * group.len() as f64) as usize];
        // From the first impact, so that equal impacts give an exact zero.
        let from = *first.get_or_insert(impact);
        let (x, y) = (impact.left - from.left, impact.up - from.up);
        (left, up, squares) = (left + x, up + y, squares + x * x + y * y);
        if let Some(at) = SHOTS.iter().position(|&shots| u64::from(shots) == shot + 1) {
            let n = (shot + 1) as f64;
            let about = squares - (left * left + up * up) / n;
            found[at] = about.max(0.0) / (2.0 * n - 2.0);
        }
    }
    found
}
