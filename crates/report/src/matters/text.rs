//! What the terminal shows of shares.

use study::{Answer, Axis, Matters, MattersBuild};
use units::{Role, Style};

use super::{say, tables};
use crate::show;
use crate::table::wrap;

/// The answer for a terminal of `width` characters.
pub(crate) fn terminal(answer: &Answer, found: &Matters, style: Style, width: usize) -> String {
    let paragraph = |text: &str| wrap(text, width).join("\n") + "\n";
    let mut parts = vec![paragraph(&answer.title), paragraph(&say::headline(found, style))];
    for build in &found.builds {
        for (at, spread) in build.spreads().enumerate() {
            let of = format!("{}, {}", of(found, build), say::group(at == 1));
            parts.push(paragraph(&format!("Share of the group's spread{of}, by owner, alone")));
            parts.push(tables::owners(spread, style).lines(width));
            if let Some((mark, _)) = say::far(spread) {
                let range = show::plain(Role::Range, mark.distance.si(), style);
                parts.push(paragraph(&format!("By cause{of}, at {range}")));
                parts.push(tables::causes(spread, mark, style).lines(width));
            }
            parts.push(paragraph(&format!("All causes{of}")));
            parts.push(tables::sums(spread, Axis::Both, style).lines(width));
            parts.push(paragraph(&say::reached(found, spread)));
        }
    }
    parts.push(paragraph(&format!("{} {} {}", say::SHARE, say::AXES, say::SUM)));
    parts.extend(notes(found, style).iter().map(|note| paragraph(note)));
    let flown =
        format!("{} flights flown, seed {}.", show::count(answer.flown as u64), answer.seed);
    parts.push(paragraph(&flown));
    parts.join("\n")
}

/// " of "name"" where there are several builds.
pub(super) fn of(found: &Matters, build: &MattersBuild) -> String {
    if found.builds.len() > 1 { format!(" of \"{}\"", build.name) } else { String::new() }
}

/// Every note of every build.
pub(super) fn notes(found: &Matters, style: Style) -> Vec<String> {
    let of = |build: &MattersBuild| -> Vec<String> {
        let notes = build.built.notes.iter();
        notes.map(|note| format!("{}: {}", build.name, note.text(style))).collect()
    };
    found.builds.iter().flat_map(of).collect()
}
