//! The sheets of a blind trial, and the tables that are filled in.

use print::{KeyPage, Paper, SheetEnd, SheetReads, ShootingSheet};
use study::{Lot, REST, REST_AT_LOOK, ReadBy, TrialPlan};
use units::{Role, Style};

use crate::answers::{trial_minded, trial_title};
use crate::safety::FIRST;
use crate::show::plain;
use crate::{File, ReportError};

/// The shooting sheet as one PDF and an SVG for each page, the key as PDF and SVG.
///
/// # Errors
/// [`ReportError::Print`] for more arrows in an end than fit across the page.
pub fn trial_files(
    plan: &TrialPlan,
    lot: &Lot,
    paper: Paper,
    style: Style,
) -> Result<Vec<File>, ReportError> {
    let pages = sheet(plan, lot, paper, style).sheets()?;
    let mut files = vec![File { name: "sheet.pdf".into(), bytes: print::Sheet::pages(&pages) }];
    for (at, page) in pages.iter().enumerate() {
        files.push(File::new(format!("sheet-{}.svg", at + 1), page.svg()));
    }
    let key = key(plan, lot, paper).sheet();
    files.push(File { name: "key.pdf".into(), bytes: key.pdf() });
    files.push(File::new("key.svg", key.svg()));
    Ok(files)
}

fn sheet(plan: &TrialPlan, lot: &Lot, paper: Paper, style: Style) -> ShootingSheet {
    let ask = &plan.ask;
    let (unit, word) = match style {
        Style::Archery => (Role::Impact.symbol(style), "inches"),
        Style::Metric => (Role::Impact.symbol(style), "centimetres"),
    };
    let per_look = plan.ends / ask.looks;
    let end = |(at, order): (usize, &Vec<u32>)| {
        let (done, all) = (at + 1, plan.ends as usize);
        let look = done.is_multiple_of(per_look as usize);
        let after = match (look, done == all) {
            (true, true) => "That was the last end: measure, and look.".to_owned(),
            (true, false) => format!(
                "Measure, look (number {}), rest {REST_AT_LOOK} minutes. Shoot on only if it says so.",
                done / per_look as usize
            ),
            (false, _) => format!("then rest {REST} min"),
        };
        SheetEnd { order: order.clone(), after, look }
    };
    let reads = match ask.by {
        ReadBy::Places => SheetReads::Arrows(vec![format!("left, {unit}"), format!("up, {unit}")]),
        ReadBy::Spreads => SheetReads::Ends(ask.builds.iter().map(|b| short(b)).collect()),
    };
    let write = match ask.by {
        ReadBy::Places => format!(
            "Below each number write how far left and up its hole lies from the middle of the face, \
             in {word}; right and down with a minus."
        ),
        ReadBy::Spreads => format!(
            "The helper, with the key, writes the widest distance between two holes of each build \
             into its box, in {word}."
        ),
    };
    ShootingSheet {
        title: trial_title(ask),
        care: std::iter::once(FIRST.to_owned())
            .chain(trial_minded(style).into_iter().map(|caution| caution.full))
            .collect(),
        about: vec![
            format!(
                "{} ends at {}. In each end shoot every arrow once, from left to right. Aim every \
                 arrow at the same point, let nobody tell you which is which, and rest {REST} \
                 minutes after each end.",
                plan.ends,
                plain(Role::Range, ask.distance.si(), style)
            ),
            write,
            "An arrow that missed or broke spoils its end: strike the end out and shoot it again, \
             in the same order."
                .to_owned(),
        ],
        ends: lot.ends.iter().enumerate().map(end).collect(),
        reads,
        paper,
    }
}

fn key(plan: &TrialPlan, lot: &Lot, paper: Paper) -> KeyPage {
    let ask = &plan.ask;
    let arrows =
        lot.key.iter().zip(1..).map(|(build, number)| (number, short(&ask.builds[*build])));
    KeyPage {
        title: "Key: for the helper only".to_owned(),
        about: vec![
            format!("To \"{}\", seed {}.", trial_title(ask), ask.seed),
            "Mark the arrows with these numbers, all in the same way, and cover small marks that \
             tell the builds apart. Sharp heads stay covered until they are shot and are never \
             taped: a trial with them is not blind to whoever shoots. A broken arrow is replaced by one of the same build under the \
             same number."
                .to_owned(),
            "Then fold this page and keep it from whoever shoots until the trial is over.".to_owned(),
        ],
        arrows: arrows.collect(),
        paper,
    }
}

/// A name as long as its place on the page allows.
fn short(name: &str) -> String {
    const MOST: usize = 24;
    if name.chars().count() <= MOST {
        return name.to_owned();
    }
    name.chars().take(MOST - 2).chain("..".chars()).collect()
}
