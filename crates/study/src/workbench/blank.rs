//! What was not measured of an arrow, beside others of its batch that were.

use units::{Length, Mass};
use workbench::{Measured, Spun};

use super::traits::{Trait, has};

/// An arrow with its blanks.
pub(crate) struct Filled {
    /// The arrow; where others of its stage have a reading and it has none, it stands at
    /// their mean, and a fault at their root mean square in no known direction.
    pub(crate) arrow: Measured,
    /// The same one standard deviation of those others below and above, for each such
    /// reading: a blank is a blur, not a value.
    pub(crate) doubts: Vec<[Measured; 2]>,
}

/// What is not told by a fault's direction.
const PLAIN: [Trait; 4] = [Trait::Mass, Trait::Balance, Trait::Spine, Trait::Length];

fn number(arrow: &Measured, of: Trait) -> Option<f64> {
    match of {
        Trait::Mass => arrow.mass.map(Mass::si),
        Trait::Balance => arrow.balance.map(Length::si),
        Trait::Spine => arrow.spine.map(Length::si),
        Trait::Length => arrow.length.map(Length::si),
        Trait::RunOut => arrow.run_out.map(|of| of.total.si()),
        Trait::Tip => arrow.tip.map(|of| of.total.si()),
        Trait::Groove => arrow.groove.map(|of| of.total.si()),
        Trait::Stiff => None,
    }
}

fn with(arrow: &Measured, of: Trait, si: f64) -> Measured {
    let mut other = arrow.clone();
    let length = Some(Length::from_si(si));
    let spun = Some(Spun { total: Length::from_si(si), high: None });
    match of {
        Trait::Mass => other.mass = Some(Mass::from_si(si)),
        Trait::Balance => other.balance = length,
        Trait::Spine => other.spine = length,
        Trait::Length => other.length = length,
        Trait::RunOut => other.run_out = spun,
        Trait::Tip => other.tip = spun,
        Trait::Groove => other.groove = spun,
        Trait::Stiff => {}
    }
    other
}

/// Readings that an arrow lacks though others of its stage have them.
pub(crate) fn blanks(arrow: &Measured, batch: &[Measured]) -> Vec<Trait> {
    let others = |of: Trait| batch.iter().any(|o| o.stage == arrow.stage && has(o, of));
    let all = PLAIN.into_iter().chain([Trait::RunOut, Trait::Tip, Trait::Groove]);
    // What a shaft weighs for its length is no blank.
    let known = |of: Trait| {
        has(arrow, of) || of == Trait::Mass && arrow.mass.is_none() && arrow.density().is_some()
    };
    all.filter(|of| !known(*of) && others(*of)).collect()
}

/// An arrow with its blanks as its batch has them.
pub(crate) fn filled(arrow: &Measured, batch: &[Measured]) -> Filled {
    let (mut whole, mut doubts) = (arrow.clone(), Vec::new());
    for of in blanks(arrow, batch) {
        let read = batch.iter().filter(|other| other.stage == arrow.stage);
        let values: Vec<f64> = read.filter_map(|other| number(other, of)).collect();
        let count = values.len() as f64;
        let mean = values.iter().sum::<f64>() / count;
        let square = values.iter().map(|v| v * v).sum::<f64>() / count;
        if !PLAIN.contains(&of) {
            whole = with(&whole, of, square.sqrt());
            continue;
        }
        let scatter = (square - mean * mean).max(0.0).sqrt();
        whole = with(&whole, of, mean);
        doubts.push((of, [mean - scatter, mean + scatter]));
    }
    let doubts = doubts.into_iter().map(|(of, ends)| ends.map(|si| with(&whole, of, si)));
    Filled { doubts: doubts.collect(), arrow: whole }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn arrow(name: &str, mass: Option<f64>) -> Measured {
        Measured { name: name.into(), mass: mass.map(Mass::from_si), ..Measured::default() }
    }

    #[test]
    fn law_a_blank_is_a_mean_with_a_scatter_and_never_the_scenario() {
        let batch = [arrow("1", Some(0.027)), arrow("2", Some(0.029)), arrow("3", None)];
        let found = filled(&batch[2], &batch);
        assert_eq!(found.arrow.mass, Some(Mass::from_si(0.028)));
        let ends: Vec<f64> = found.doubts[0].iter().filter_map(|m| m.mass).map(Mass::si).collect();
        assert!((ends[0] - 0.027).abs() < 1e-12 && (ends[1] - 0.029).abs() < 1e-12);
        assert_eq!(blanks(&batch[2], &batch), [Trait::Mass]);
        // What nobody measured stays as it is: alike in all.
        assert!(filled(&batch[0], &batch).doubts.is_empty());
    }
}
