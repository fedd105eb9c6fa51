//! Builds held side by side, in words, tables, CSV and JSON.

pub(crate) mod csv;
pub(crate) mod json;
pub(crate) mod say;
pub(crate) mod tables;

use study::{Answer, Measure, Sides, TargetChoice};
use units::{Role, Style};

use crate::ReportError;

/// How a measure is shown.
#[derive(Clone, Copy)]
pub(crate) struct Shown {
    pub(crate) of: Measure,
    pub(crate) role: Role,
    /// What a number is multiplied by before it is shown.
    factor: f64,
    /// Its name.
    pub(crate) name: &'static str,
}

impl Shown {
    /// How a measure of an answer is shown.
    pub(crate) fn of(of: Measure, answer: &Answer, style: Style) -> Self {
        let face = matches!(answer.target, TargetChoice::Face { .. });
        let (role, name) = match of {
            Measure::Drop => (Role::Impact, "drop"),
            Measure::Drift => (
                Role::Impact,
                match style {
                    Style::Archery => "drift, each mph of wind",
                    Style::Metric => "drift, each m/s of wind",
                },
            ),
            Measure::Time => (Role::Time, "time of flight"),
            Measure::Speed => (Role::Speed, "speed"),
            Measure::Energy => (Role::Energy, "energy"),
            Measure::Momentum => (Role::Momentum, "momentum"),
            Measure::R50 => (Role::Impact, "R50"),
            Measure::Hit => (Role::Percent, if face { "tens" } else { "hits" }),
            Measure::Score => (Role::Number, "score of an arrow"),
        };
        let factor = if of == Measure::Drift { Role::Wind.unit(style).0.to_si(1.0) } else { 1.0 };
        Self { of, role, factor, name }
    }

    /// The number that the role shows.
    pub(crate) fn si(self, value: f64) -> f64 {
        value * self.factor
    }

    /// An estimate as the role shows it.
    pub(crate) fn estimate(self, e: &target::Estimate) -> target::Estimate {
        target::Estimate { value: self.si(e.value), low: self.si(e.low), high: self.si(e.high) }
    }

    /// The unit of a difference: points, for a share.
    pub(crate) fn unit(self, style: Style) -> &'static str {
        if self.role == Role::Percent { "points" } else { self.role.symbol(style) }
    }

    /// Whether more of it is better; none where that is for the archer to say.
    pub(crate) fn more_is_better(self) -> bool {
        matches!(
            self.of,
            Measure::Speed | Measure::Energy | Measure::Momentum | Measure::Hit | Measure::Score
        )
    }
}

/// Refuses lists that do not fit the builds and distances.
pub(crate) fn check(
    answer: &Answer,
    sides: &Sides,
    fits: &dyn Fn(String, usize) -> Result<(), ReportError>,
) -> Result<(), ReportError> {
    let builds = answer.builds.len();
    if sides.builds.len() != builds {
        let (path, found) = ("sides.builds".to_owned(), sides.builds.len());
        return Err(ReportError::Builds { path, found, expected: builds });
    }
    for (at, side) in sides.builds.iter().enumerate() {
        fits(format!("sides.builds[{at}].marks"), side.marks.len())?;
    }
    for (at, pair) in sides.pairs.iter().enumerate() {
        fits(format!("sides.pairs[{at}].marks"), pair.marks.len())?;
        if let Some(&build) = [pair.one, pair.other].iter().find(|&&index| index >= builds) {
            return Err(ReportError::NoSuchBuild { pair: at, build, builds });
        }
    }
    Ok(())
}

/// What the shots of a zone or a face are called when they count.
pub(crate) fn hits(answer: &Answer) -> &'static str {
    match answer.target {
        TargetChoice::Face { .. } => "tens",
        TargetChoice::Zone { .. } | TargetChoice::Ellipse { .. } => "hits",
    }
}
