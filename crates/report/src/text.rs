//! What the terminal shows.

use std::collections::BTreeSet;

use study::{Answer, BuildAnswer, Sides};
use units::{Role, Style};

use crate::json::check;
use crate::show::middle;
use crate::sides::{say, tables as side_tables};
use crate::table::wrap;
use crate::{ReportError, headline, matters, prose, show, tables, trade, tune, words, worth};

/// The answer for a terminal of `width` characters: the sentence first, then
/// a table, what the trade says, and any caution.
///
/// # Errors
/// As [`crate::json`].
pub fn terminal(answer: &Answer, style: Style, width: usize) -> Result<String, ReportError> {
    if let Some(tuned) = &answer.tuned {
        check(answer)?;
        return Ok(tune::terminal(answer, tuned, style, width));
    }
    if let Some(found) = &answer.matters {
        check(answer)?;
        return Ok(matters::terminal(answer, found, style, width));
    }
    if let Some(found) = &answer.worth {
        check(answer)?;
        return Ok(worth::terminal(answer, found, style, width));
    }
    let mut out = paragraph(&answer.title, width);
    out.push('\n');
    out.push_str(&paragraph(&headline(answer, style)?, width));
    for sweep in &answer.sweeps {
        let Some(first) = sweep.points.first() else { continue };
        let at = middle(&first.build);
        let range = show::plain(Role::Range, first.build.marks[at].distance.si(), style);
        out.push('\n');
        let build = show::of(answer, &sweep.build);
        let heading = format!("The {}{build} at {range}", words::value(&sweep.key));
        out.push_str(&paragraph(&heading, width));
        out.push('\n');
        out.push_str(&tables::sweep(sweep, at, style).lines(width));
    }
    if answer.sweeps.is_empty() {
        out.push('\n');
        out.push_str(&tables::distances(answer, style).lines(width));
        out.push('\n');
        out.push_str(&paragraph(&format!("{READ} {}", read_more(answer)), width));
    }
    if let Some(sides) = &answer.sides {
        side_by_side(&mut out, answer, sides, style, width);
    }
    for verdict in trade::verdicts(answer, style) {
        let text = format!(
            "The trade says: {} The computation {}. {}",
            verdict.claim, verdict.finding, verdict.why
        );
        out.push('\n');
        out.push_str(&paragraph(&text, width));
        if let Some(table) = verdict.table {
            out.push('\n');
            out.push_str(&table.lines(width));
        }
    }
    for note in notes(answer, style) {
        out.push('\n');
        out.push_str(&paragraph(&note, width));
    }
    let flown =
        format!("{} flights flown, seed {}.", show::count(answer.flown as u64), answer.seed);
    out.push('\n');
    out.push_str(&paragraph(&flown, width));
    Ok(out)
}

/// Builds side by side at the middle distance, and who would see it.
fn side_by_side(out: &mut String, answer: &Answer, sides: &Sides, style: Style, width: usize) {
    let at = middle(&answer.builds[0]);
    out.push('\n');
    let sentence = say::best(answer, sides, style);
    let heading = side_tables::at(answer, at, style);
    out.push_str(&paragraph(&sentence.unwrap_or(heading), width));
    out.push('\n');
    out.push_str(&side_tables::builds(answer, sides, at, style).lines(width));
    for pair in sides.pairs.iter().filter(|pair| pair.one == 0) {
        if let Some(sentence) = say::duel(answer, pair, style) {
            out.push('\n');
            out.push_str(&paragraph(&sentence, width));
        }
    }
    let reach = say::reach(answer, sides, style);
    if !reach.is_empty() {
        out.push('\n');
        for sentence in &reach {
            out.push_str(&paragraph(sentence, width));
        }
        out.push_str(&paragraph(say::NO_LICENCE, width));
    }
    for pair in sides.pairs.iter().filter(|pair| pair.one == 0) {
        out.push('\n');
        out.push_str(&paragraph(&say::told(answer, sides, pair, style), width));
    }
}

/// How to read R50 and drop.
pub(crate) const READ: &str = "R50: half of all arrows land within this distance of their centre, \
    with its 95 % interval. Drop: below the line of departure.";

/// How to read the rest of the table of distances.
pub(crate) fn read_more(answer: &Answer) -> String {
    let (doubt, power) = prose::asked(answer);
    format!(
        "Form's share: of the variance, form sigma squared over full sigma squared, of the first \
         build. Tells: shots with each build to tell them apart ({power} power, two-sided \
         {doubt})."
    )
}

/// Every note of every build, each once, with the builds it holds for.
pub(crate) fn notes(answer: &Answer, style: Style) -> Vec<String> {
    let mut seen = BTreeSet::new();
    let mut notes = Vec::new();
    for build in all_builds(answer) {
        for note in &build.built.notes {
            let alone = answer.builds.len() == 1;
            let name = if alone { "Note" } else { &build.name };
            let text = format!("{name}: {}", note.text(style));
            if seen.insert(text.clone()) {
                notes.push(text);
            }
        }
    }
    notes
}

/// The builds and those of every sweep point.
pub(crate) fn all_builds(answer: &Answer) -> impl Iterator<Item = &BuildAnswer> {
    let points = answer.sweeps.iter().flat_map(|sweep| &sweep.points);
    answer.builds.iter().chain(points.map(|point| &point.build))
}

fn paragraph(text: &str, width: usize) -> String {
    let mut lines = wrap(text, width).join("\n");
    lines.push('\n');
    lines
}
