//! Two groups side by side on one scale.

use units::{Role, Style};

use super::{ShotGroup, VerdictReport};
use crate::ReportError;
use crate::plots::Plot;
use crate::plots::verdict::{Disc, discs};

/// Draws each group about its own centre, with its mean radius.
pub(super) fn draw(report: &VerdictReport, style: Style) -> Result<Plot, ReportError> {
    let caption = format!(
        "Each group about its own centre, both on one scale. Ring: the mean radius, {}.",
        Role::Impact.symbol(style)
    );
    let disc = |group: &ShotGroup| Disc {
        name: format!("{}, {} shots", group.name, group.count),
        radius: group.mean_radius,
        label: Role::Impact.text(group.mean_radius, style),
        shots: group.shots.iter().map(|shot| (shot.left, shot.up)).collect(),
    };
    let [first, second] = &report.groups;
    let svg = discs(&caption, [&disc(first), &disc(second)])?;
    Ok(Plot { name: "verdict.svg".to_owned(), caption, svg })
}
