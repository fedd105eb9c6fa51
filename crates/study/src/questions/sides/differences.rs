//! Two builds at one distance, measure by measure.

use target::{Estimate, Group, Impact};

use super::bare::MEASURES;
use super::flown::Flown;
use crate::paired::{Blocks, gain, mean_change};
use crate::score::Judge;
use crate::{BuildMeasure, Difference, StudyError};

/// The second less the first.
pub(super) fn differences(
    one: &Flown,
    other: &Flown,
    place: usize,
    judge: &Judge,
    arrows: Option<usize>,
) -> Result<Vec<Difference>, StudyError> {
    let mut found: Vec<Difference> = MEASURES
        .iter()
        .enumerate()
        .map(|(measure, &of)| {
            let value = other.bare.less(&one.bare, place, measure);
            Difference { of, value: Estimate { value, low: value, high: value } }
        })
        .collect();
    let (a, b) = (&one.full[place], &other.full[place]);
    let blocks = Blocks::new(a.len(), arrows);
    let r50 = |column: &[Impact]| Ok::<f64, StudyError>(Group::of(column)?.r50.value);
    let value = gain(r50(b)? - r50(a)?, b, a, blocks)?;
    found.push(Difference { of: BuildMeasure::R50, value });
    let change = |of: BuildMeasure, judged: &dyn Fn(&Flown, &Impact) -> f64| {
        let changes: Vec<f64> =
            a.iter().zip(b).map(|(a, b)| judged(other, b) - judged(one, a)).collect();
        Ok::<_, StudyError>(Difference { of, value: mean_change(&changes, blocks)? })
    };
    found.push(change(BuildMeasure::Hit, &|build, impact| {
        f64::from(u8::from(judge.hit(impact, build.shaft)))
    })?);
    if let Judge::Face(face) = judge {
        found.push(change(BuildMeasure::Score, &|build, impact| {
            f64::from(face.score(impact, build.shaft))
        })?);
    }
    Ok(found)
}
