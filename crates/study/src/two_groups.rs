//! Two groups that were shot, held against each other.

use target::{Group, Impact, PowerTest, Spread, TargetError, Verdict};

use crate::Shots;
use crate::seen::shots;

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
        })
    }
}

/// Two groups and the verdict on them.
#[derive(Debug, Clone, PartialEq)]
pub struct TwoGroups {
    /// The groups.
    pub groups: [ShotGroup; 2],
    /// How sure the verdict must be.
    pub power_test: PowerTest,
    /// The verdict.
    pub verdict: Verdict,
}

impl TwoGroups {
    /// Judges two groups.
    ///
    /// # Errors
    /// [`TargetError::NoSpread`] when the shots of either share one point.
    pub fn of(groups: [ShotGroup; 2], power_test: PowerTest) -> Result<Self, TargetError> {
        let verdict = power_test.verdict(&groups[0].spread, &groups[1].spread)?;
        Ok(Self { groups, power_test, verdict })
    }

    /// Shots with each until a ratio as found would be told.
    pub fn shots(&self) -> Shots {
        shots(Some(self.verdict.ratio), &self.power_test)
    }
}
