//! What the terminal shows of a tuning answer.

use study::{Answer, Tuned, TunedBuild};
use units::{Role, Style};

use super::say::{self, BANDS, NEUTRAL, NOCK, STILL, TEAR};
use super::tables;
use crate::show;
use crate::table::wrap;

/// The answer for a terminal of `width` characters.
pub(crate) fn terminal(answer: &Answer, tuned: &Tuned, style: Style, width: usize) -> String {
    let paragraph = |text: &str| wrap(text, width).join("\n") + "\n";
    let mut parts = vec![paragraph(&answer.title), paragraph(&say::headline(tuned, style))];
    let last = tuned.distances.len().saturating_sub(1);
    for build in &tuned.builds {
        let of = of(tuned, build);
        parts.push(paragraph(&format!("Bare against fletched{of}")));
        parts.push(tables::bare(build, style).lines(width));
        if !build.paper.is_empty() {
            parts.push(paragraph(&format!("Paper{of}")));
            parts.push(tables::paper(build, style).lines(width));
        }
        if let Some((found, _)) = say::separation(build)
            && !build.trends.is_empty()
        {
            let range = show::plain(Role::Range, build.bare[found.mark].distance.si(), style);
            parts.push(paragraph(&format!("One change at a time{of}, at {range}")));
            parts.push(tables::changes(build, found.mark, style).lines(width));
        }
        parts.push(paragraph(&format!("Vanes{of}")));
        parts.extend(say::clearance(&build.clearance, style).iter().map(|text| paragraph(text)));
        parts.push(paragraph(&format!("Nock{of}")));
        if turns_show(build, style) {
            parts.push(tables::nock(tuned, build, last..last + 1, style).lines(width));
        } else {
            parts.push(paragraph(STILL));
        }
        parts.extend(drawn(tuned, build, style).iter().map(|text| paragraph(text)));
        if !build.against.is_empty() {
            let first = &tuned.builds[0].name;
            parts.push(paragraph(&format!("\"{}\" less \"{first}\", same aim", build.name)));
            parts.push(tables::against(tuned, build, style).lines(width));
        }
    }
    parts.push(paragraph(&format!("{NEUTRAL} {BANDS} {TEAR} {NOCK}")));
    parts.extend(notes(tuned, style).iter().map(|note| paragraph(note)));
    let flown =
        format!("{} flights flown, seed {}.", show::count(answer.flown as u64), answer.seed);
    parts.push(paragraph(&flown));
    parts.join("\n")
}

/// " of "name"" where there are several builds.
pub(super) fn of(tuned: &Tuned, build: &TunedBuild) -> String {
    if tuned.builds.len() > 1 { format!(" of \"{}\"", build.name) } else { String::new() }
}

/// Whether any step of the nock moves an impact by something that shows.
pub(crate) fn turns_show(build: &TunedBuild, style: Style) -> bool {
    let moved = build.turns.steps.iter().flat_map(|turn| turn.moved.iter().flatten());
    moved.into_iter().any(|offset| say::size(offset.size.high, style).is_some())
}

/// What turning does to arrows as they are drawn.
pub(super) fn drawn(tuned: &Tuned, build: &TunedBuild, style: Style) -> Option<String> {
    let widest = *build.turns.drawn.as_ref()?.last()?;
    let range = show::plain(Role::Range, tuned.distances.last()?.si(), style);
    Some(format!(
        "Of arrows as the scenario scatters them, half land at least {} apart at {range} between \
         two of these nock positions.",
        Role::Impact.text(widest, style)
    ))
}

/// Every note of every build.
pub(super) fn notes(tuned: &Tuned, style: Style) -> Vec<String> {
    let of = |build: &TunedBuild| -> Vec<String> {
        let notes = build.built.notes.iter();
        notes.map(|note| format!("{}: {}", build.name, note.text(style))).collect()
    };
    tuned.builds.iter().flat_map(of).collect()
}
