//! A tuning answer in a few lines.

use study::{Found, Joint, Tuned, TunedBuild};
use units::{Role, Style};

use super::super::unknown;
use super::words::{direction, name, separation, size, value};
use super::{advice, headline};
use crate::document::{Part, Table, say, table_of};
use crate::show::{plain, share};

/// The short answer, of the first build: what to change, stiff or weak, where bare and
/// fletched land.
pub(super) fn short(tuned: &Tuned, joint: Option<&Joint<Found>>, style: Style) -> Vec<Part> {
    let Some(build) = tuned.builds.first() else { return Vec::new() };
    if separation(build).is_none() {
        return vec![say(headline::headline(tuned, joint, style))];
    }
    let mut parts = vec![say(first(build, joint, style)), say(advice::spine(build, style))];
    parts.extend(others(tuned, style).into_iter().map(say));
    let bands = unknown::bands(joint.is_some());
    parts.push(say(format!("The bare shaft against the fletched one{bands}:")));
    parts.push(Part::Table(apart(build)));
    parts.push(say(next(build, joint)));
    parts
}

/// What to change, first of all.
fn first(build: &TunedBuild, joint: Option<&Joint<Found>>, style: Style) -> String {
    let Some((change, trend)) = advice::advised(build, joint) else {
        if advice::blind(build) {
            return advice::cannot(style);
        }
        let why = if build.straight {
            " yet"
        } else if build.trends.is_empty() {
            ": none was tried"
        } else {
            ": none is sure enough to bring bare and fletched nearer"
        };
        return format!("To tune this build no change is advised{why}.");
    };
    let left = size(change.left_over, style).unwrap_or_else(|| "nothing".to_owned());
    format!(
        "To tune this build take the {} from {} to {}: bare and fletched then land {left} apart; \
         it helps in {} of what may be.",
        name(&trend.key),
        value(trend, trend.own),
        value(trend, change.value),
        share(advice::helped(build, change, joint))
    )
}

/// Where other builds land, shot with the first one's aim.
fn others(tuned: &Tuned, style: Style) -> Vec<String> {
    let Some(first) = tuned.builds.first() else { return Vec::new() };
    let other = |build: &TunedBuild| {
        let (at, offset) = super::words::farthest(&build.against)?;
        let range = plain(Role::Range, tuned.distances[at].si(), style);
        let place = direction([offset.left.value, offset.up.value], style)?;
        Some(format!(
            "With one aim \"{}\" lands {place} of \"{}\" at {range} (may be {} apart).",
            build.name,
            first.name,
            super::words::band(&offset.size, style)
        ))
    };
    tuned.builds.iter().skip(1).filter_map(other).collect()
}

/// Bare against fletched at each distance.
fn apart(build: &TunedBuild) -> Table {
    table_of("short", &build.bare)
        .quantity("distance", Role::Range, |mark| mark.distance.si())
        .banded("apart", Role::Impact, |mark| mark.apart.as_ref().map(|of| of.size))
        .banded("left", Role::Impact, |mark| mark.apart.as_ref().map(|of| of.left))
        .banded("up", Role::Impact, |mark| mark.apart.as_ref().map(|of| of.up))
        .quantity("bare lands left in", Role::Percent, |mark| mark.left_in)
        .decimals(0)
        .over_all()
        .done()
}

/// What to do next.
fn next(build: &TunedBuild, joint: Option<&Joint<Found>>) -> String {
    if advice::advised(build, joint).is_some() {
        "Next: make that one change, shoot bare and fletched again, and ask again.".to_owned()
    } else {
        "Next: shoot a bare shaft beside fletched ones, give what it shows ([measured] with bare = \
         true), and ask again."
            .to_owned()
    }
}
