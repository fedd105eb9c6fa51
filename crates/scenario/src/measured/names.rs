//! Heads of a table as names of columns and units.

use super::column::{Column, Holds};
use crate::read::near;

/// A name without case, hyphens and spare blanks.
fn plain(name: &str) -> String {
    let spaced = name.replace(['-', '_'], " ").to_lowercase();
    spaced.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Which column a name means, and whether it counts the other way.
pub(super) fn find(columns: &[Column], name: &str) -> Option<(usize, bool)> {
    let wanted = plain(name);
    let among = |names: &[&str]| names.iter().any(|name| plain(name) == wanted);
    columns.iter().enumerate().find_map(|(at, column)| {
        let against = among(column.against);
        (against || among(&[column.name]) || among(column.also)).then_some((at, against))
    })
}

/// What may stand behind the name of a column that is counted: `arrow #`, `arrow no.`.
const COUNTED: [&str; 4] = ["#", "no", "no.", "number"];

/// The column that a head means, as [`find`], and its unit. Beside the ways of
/// [`split_head`], a unit may follow the name (`weight gr`), and a count a text
/// (`arrow #`).
pub(super) fn named<'t>(
    columns: &[Column],
    text: &'t str,
) -> (Option<(usize, bool)>, Option<&'t str>) {
    let (name, unit) = split_head(text);
    let found = find(columns, name);
    let Some((before, last)) = name.rsplit_once(' ').filter(|_| found.is_none()) else {
        return (found, unit);
    };
    match find(columns, before).map(|found| (found, columns[found.0].holds)) {
        Some((found, Holds::Amount(dimension, ..)))
            if unit.is_none() && dimension.spelled(last).is_some() =>
        {
            (Some(found), Some(last))
        }
        Some((found, Holds::Text)) if COUNTED.contains(&last.to_lowercase().as_str()) => {
            (Some(found), unit)
        }
        _ => (None, unit),
    }
}

/// The name of a column that a wrong one is near to.
pub(super) fn nearest(columns: &[&'static Column], wrong: &str) -> Option<&'static str> {
    let names = columns
        .iter()
        .flat_map(|c| [c.name].iter().chain(c.also).chain(c.against).copied().collect::<Vec<_>>());
    near::name(&plain(wrong), names)
}

/// `mass [gr]`, `mass (gr)` or `mass, gr` as name and unit.
pub(super) fn split_head(text: &str) -> (&str, Option<&str>) {
    let found = text.split_once(['[', '(']).or_else(|| text.split_once(','));
    let (name, rest) = found.unwrap_or((text, ""));
    let unit = rest.split([']', ')']).next().unwrap_or(rest).trim();
    (name.trim(), Some(unit).filter(|unit| !unit.is_empty()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn exact_a_head_names_its_unit_in_three_ways() {
        for head in ["spine [mm]", "spine (mm)", "spine, mm", " spine  [ mm ] ", "spine [mm"] {
            assert_eq!(split_head(head), ("spine", Some("mm")), "{head}");
        }
        assert_eq!(split_head("spine []"), ("spine", None));
        assert_eq!(split_head("stiff side"), ("stiff side", None));
    }
}
