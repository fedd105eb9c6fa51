//! What the terminal shows of bench steps.

use study::{Answer, Bench, WorthBuild};
use units::{Role, Style};

use super::{say, tables};
use crate::table::wrap;
use crate::{prose, show};

/// The answer for a terminal of `width` characters.
pub(crate) fn terminal(answer: &Answer, found: &Bench, style: Style, width: usize) -> String {
    let paragraph = |text: &str| wrap(text, width).join("\n") + "\n";
    let range = found.distances.last().map_or(0.0, |distance| distance.si());
    let range = show::plain(Role::Range, range, style);
    let mut parts = vec![paragraph(&answer.title), paragraph(&say::headline(found, style))];
    for build in &found.builds {
        let of = of(found, build);
        parts.push(paragraph(&format!("Each step alone{of}, at {range}")));
        parts.push(tables::steps(found, build, style).lines(width));
        parts.push(paragraph(&format!("One after another{of}, at {range}")));
        parts.push(tables::chain(found, build, style).lines(width));
        if !build.front.is_empty() {
            parts.push(paragraph(&format!("Choices that no other beats{of}, at {range}")));
            parts.push(tables::front(found, build, style).lines(width));
        }
    }
    parts.push(paragraph(&format!("{} {} {}", say::GAIN, say::CHAIN, say::FRONT)));
    parts.extend(notes(found, style).iter().map(|note| paragraph(note)));
    parts.push(paragraph(prose::DUST));
    let flown =
        format!("{} flights flown, seed {}.", show::count(answer.flown as u64), answer.seed);
    parts.push(paragraph(&flown));
    parts.join("\n")
}

/// " of "name"" where there are several builds.
pub(super) fn of(found: &Bench, build: &WorthBuild) -> String {
    if found.builds.len() > 1 { format!(" of \"{}\"", build.name) } else { String::new() }
}

/// Every note of every build.
pub(super) fn notes(found: &Bench, style: Style) -> Vec<String> {
    let of = |build: &WorthBuild| -> Vec<String> {
        let notes = build.built.notes.iter();
        notes.map(|note| format!("{}: {}", build.name, note.text(style))).collect()
    };
    found.builds.iter().flat_map(of).collect()
}
