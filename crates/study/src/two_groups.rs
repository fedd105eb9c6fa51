//! Two groups that were shot, held against each other.

use target::{CentreVerdict, Group, Impact, LookRule, PowerTest, Spread, TargetError, Verdict};
use units::Length;

use crate::Shots;
use crate::seen::shots;

/// A shot farther from the median centre than so many times the median distance lies far
/// off the rest. Chosen: of a large round normal group the median distance is 1.18 sigma,
/// so that this is 5.9 sigma; of 4 or 5 shots one group in 30 is asked about for nothing,
/// of 12 one in 300.
const FAR_OFF: f64 = 5.0;
/// Fewest shots of a group of which one can lie far off the rest. Chosen: of three, two
/// that fell together by chance would make the third one.
const FEWEST_FOR_FAR_OFF: usize = 4;

/// A group that was shot.
#[derive(Debug, Clone, PartialEq)]
pub struct ShotGroup {
    /// Its name.
    pub name: String,
    /// Shots.
    pub count: usize,
    /// Mean distance from the group's own centre, m.
    pub mean_radius: f64,
    /// Its spread.
    pub spread: Spread,
    /// Where its shots lie about their own centre; empty where only their
    /// number and mean radius are known.
    pub shots: Vec<Impact>,
    /// Its own centre, where the places of its shots are known.
    pub centre: Option<Impact>,
}

impl ShotGroup {
    /// From the places of its shots.
    ///
    /// # Errors
    /// As for [`Group::of`].
    pub fn of(name: &str, impacts: &[Impact]) -> Result<Self, TargetError> {
        let group = Group::of(impacts)?;
        let centre = group.centre;
        let about = |i: &Impact| Impact { left: i.left - centre.left, up: i.up - centre.up };
        Ok(Self {
            name: name.to_owned(),
            count: group.count,
            mean_radius: group.mean_radius.value,
            spread: Spread::of_group(&group),
            shots: impacts.iter().map(about).collect(),
            centre: Some(centre),
        })
    }

    /// From a number of shots and their mean radius, m.
    ///
    /// # Errors
    /// As for [`Spread::of_mean_radius`].
    pub fn of_numbers(name: &str, shots: u32, mean_radius: f64) -> Result<Self, TargetError> {
        Ok(Self {
            name: name.to_owned(),
            count: shots as usize,
            mean_radius,
            spread: Spread::of_mean_radius(shots, mean_radius)?,
            shots: Vec::new(),
            centre: None,
        })
    }

    /// From a number of shots and the widest distance between two of them, m.
    ///
    /// # Errors
    /// As for [`Spread::of_extreme_spread`].
    pub fn of_extreme_spread(name: &str, shots: u32, widest: f64) -> Result<Self, TargetError> {
        let spread = Spread::of_extreme_spread(shots, widest)?;
        Ok(Self::of_spread(name, shots as usize, spread))
    }

    /// From a number of shots and what is known of their spread.
    pub(crate) fn of_spread(name: &str, count: usize, spread: Spread) -> Self {
        let own = std::f64::consts::FRAC_PI_2 * (1.0 - 1.0 / count as f64);
        // What a round group of this sigma is expected to show.
        let mean_radius = spread.sigma * own.sqrt();
        Self { name: name.to_owned(), count, mean_radius, spread, shots: vec![], centre: None }
    }

    /// How far from the median centre the shots lie that are far off the rest, m: slips of
    /// the pen, or flyers. Empty where the places of the shots are not known.
    pub fn far_off(&self) -> Vec<f64> {
        if self.shots.len() < FEWEST_FOR_FAR_OFF {
            return Vec::new();
        }
        let middle = |read: fn(&Impact) -> f64| median(self.shots.iter().map(read).collect());
        let (left, up) = (middle(|shot| shot.left), middle(|shot| shot.up));
        let far = |shot: &Impact| (shot.left - left).hypot(shot.up - up);
        let distances: Vec<f64> = self.shots.iter().map(far).collect();
        let usual = median(distances.clone());
        distances.into_iter().filter(|far| *far > FAR_OFF * usual).collect()
    }

    /// Where its shots lie from one origin.
    fn impacts(&self) -> Option<Vec<Impact>> {
        let centre = self.centre?;
        let from = |i: &Impact| Impact { left: i.left + centre.left, up: i.up + centre.up };
        Some(self.shots.iter().map(from).collect())
    }
}

/// The middle of some values, of an even number the mean of the middle two.
fn median(mut of: Vec<f64>) -> f64 {
    of.sort_by(f64::total_cmp);
    let half = of.len() / 2;
    if of.len().is_multiple_of(2) { 0.5 * (of[half - 1] + of[half]) } else { of[half] }
}

/// Two groups and the verdict on them.
#[derive(Debug, Clone, PartialEq)]
pub struct TwoGroups {
    /// The groups.
    pub groups: [ShotGroup; 2],
    /// How sure the verdict must be.
    pub power_test: PowerTest,
    /// The verdict on their widths.
    pub verdict: Verdict,
    /// The verdict on their centres; none where places are not known, or all shots lie
    /// on a line.
    pub centres: Option<CentreVerdict>,
    /// The distance they were shot at, if it was said.
    pub distance: Option<Length>,
    /// Which look at a longer test this is, if it is one.
    pub look: Option<Look>,
}

/// A look at a test that goes on unless it tells.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Look {
    /// Which look, from one.
    pub at: u32,
    /// How many there are.
    pub of: u32,
    /// How strict the early ones are.
    pub rule: LookRule,
}

impl TwoGroups {
    /// Judges two groups.
    ///
    /// # Errors
    /// [`TargetError::NoSpread`] when the shots of either share one point.
    pub fn of(groups: [ShotGroup; 2], power_test: PowerTest) -> Result<Self, TargetError> {
        let verdict = power_test.verdict(&groups[0].spread, &groups[1].spread)?;
        let both = groups[0].impacts().zip(groups[1].impacts());
        let centres = both.and_then(|(one, other)| power_test.centres(&one, &other).ok());
        Ok(Self { groups, power_test, verdict, centres, distance: None, look: None })
    }

    /// The same, shot at this distance.
    #[must_use]
    pub fn at(self, distance: Option<Length>) -> Self {
        Self { distance, ..self }
    }

    /// Judges two groups at one look of a longer test, which all looks together leave
    /// wrong no more often than one test would be.
    ///
    /// # Errors
    /// As for [`Self::of`]; [`TargetError::Look`] for a look that is none.
    pub fn at_look(
        groups: [ShotGroup; 2],
        power_test: PowerTest,
        look: Look,
    ) -> Result<Self, TargetError> {
        let judged = Self::of(groups, power_test.at_look(look.rule, look.at, look.of)?)?;
        Ok(Self { look: Some(look), ..judged })
    }

    /// Shots with each until centres as far apart as found would be told.
    pub fn centre_shots(&self) -> Option<Shots> {
        let shots = self.power_test.shots_for_centres(self.centres?.apart);
        Some(shots.map_or(Shots::MoreThan(target::MOST_FOR_CENTRES), Shots::Each))
    }

    /// Shots with each until a ratio as found would be told.
    pub fn shots(&self) -> Shots {
        shots(Some(self.verdict.ratio), &self.power_test)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn group(places: &[(f64, f64)]) -> ShotGroup {
        let places: Vec<_> = places.iter().map(|&(left, up)| Impact { left, up }).collect();
        ShotGroup::of("old", &places).expect("a group")
    }

    /// The median centre of these is (0, 0.5), the median distance 1.5: a shot counts as
    /// far off from 7.5 on, and of three none does.
    #[test]
    fn exact_a_shot_far_off_the_rest_is_named() {
        let rest = [(0.0, 2.0), (0.0, -1.0), (-1.5, 0.5), (1.5, 0.5)];
        let with = |far: f64| group(&[&rest[..], &[(0.0, 0.5 + far)]].concat()).far_off();
        assert!(with(7.4).is_empty());
        let found = with(28.0);
        assert_eq!(found.len(), 1);
        assert!((found[0] - 28.0).abs() < 1e-12, "{found:?}");
        assert!(group(&[(0.0, 0.0), (0.0, 0.1), (28.0, 0.0)]).far_off().is_empty());
    }
}
