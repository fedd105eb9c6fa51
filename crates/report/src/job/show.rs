//! Where each arrow of a job stands.

use units::Role;
use workbench::{STAGES, Worked};

use super::readings::{READINGS, blanks};
use super::story::{JobStory, noun, stage_word};
use crate::document::{Cell, Kind, Part, head, note, say, table_of};
use crate::prose::row;
use crate::safety::Job;
use crate::{Document, ReportError, show};

/// Where each arrow stands.
///
/// # Errors
/// [`ReportError::NotFinite`] names the first bad number.
pub fn job(story: &JobStory) -> Result<Document, ReportError> {
    Ok(document(story)?.cautioned(story.minded(&[Job::Bench])))
}

fn document(story: &JobStory) -> Result<Document, ReportError> {
    let mut parts: Vec<Part> = doubts(story).into_iter().map(note).collect();
    parts.push(head("Every arrow"));
    let stage = |arrow: &Worked| match (&arrow.out, arrow.stage()) {
        (Some(_), _) => "out",
        (None, Some(stage)) => stage_word(stage),
        (None, None) => "nothing entered",
    };
    let table = table_of("arrows", story.arrows)
        .words("arrow", |arrow| arrow.name.as_str())
        .words("stands at", |arrow| stage(arrow))
        .each(READINGS, |table, reading| {
            let of = reading.of;
            let cell = move |arrow: &&Worked| {
                let si = arrow.now().and_then(|now| of(&now));
                si.map_or(Cell::None(""), |si| Cell::Quantity(reading.role, si))
            };
            table.cells(reading.word, Kind::Quantities(reading.role), cell)
        })
        .counts("entries corrected", "", |arrow| arrow.superseded as u64)
        .filed()
        .words("taken out", |arrow| arrow.out.as_deref().unwrap_or(""))
        .filed()
        .done();
    parts.push(Part::Table(table));
    parts.push(say(
        "Readings are those of the stage shown; spine and run-out carry on from the raw shaft, and \
         to the bench its mass for its length, so that no cut shaft need be weighed again. A dash \
         was not read.",
    ));
    Document::new("job", story.about(), lead(story), parts, story.style)
}

/// How many stand where, and what comes next.
fn lead(story: &JobStory) -> String {
    let inside = || story.arrows.iter().filter(|arrow| arrow.out.is_none());
    let mut counts: Vec<String> = Vec::new();
    for stage in STAGES.into_iter().rev() {
        let count = inside().filter(|arrow| arrow.stage() == Some(stage)).count();
        if count > 0 {
            counts.push(format!("{count} {}", at(stage_word(stage), count)));
        }
    }
    let blank = inside().filter(|arrow| arrow.stage().is_none()).count();
    if blank > 0 {
        counts.push(format!("{blank} with nothing entered"));
    }
    let out = story.arrows.iter().filter(|arrow| arrow.out.is_some()).count();
    if out > 0 {
        counts.push(format!("{out} taken out"));
    }
    let whole = story.job.arrows;
    let still = inside().count();
    let short = if out > 0 {
        format!(" {still} of {whole} {} are left.", noun(whole))
    } else {
        String::new()
    };
    format!("{}.{short} {}", row(counts.iter().map(String::as_str)), next(story))
}

fn at(word: &str, count: usize) -> String {
    if word == "raw shaft" && count > 1 { "raw shafts".to_owned() } else { word.to_owned() }
}

/// The step that the hindmost arrows wait for.
fn next(story: &JobStory) -> String {
    let inside = || story.arrows.iter().filter(|arrow| arrow.out.is_none());
    let Some(least) = inside().map(Worked::stage).min() else { return "None is left.".to_owned() };
    let names: Vec<&str> =
        inside().filter(|arrow| arrow.stage() == least).map(|arrow| arrow.name.as_str()).collect();
    let who = if names.len() == story.arrows.len() { "all".to_owned() } else { row(names) };
    let place = least.map_or(0, |least| 1 + STAGES.iter().position(|s| *s == least).unwrap_or(0));
    match STAGES.get(place) {
        Some(stage) => format!("Next: {} of {who}.", work(stage_word(*stage))),
        None => "All are shot.".to_owned(),
    }
}

fn work(stage: &'static str) -> &'static str {
    match stage {
        "raw shaft" => "the first readings",
        "cut" => "cutting",
        "squared" => "squaring",
        "built" => "building",
        _ => "shooting",
    }
}

fn doubts(story: &JobStory) -> Vec<String> {
    let mut out = Vec::new();
    for arrow in story.arrows.iter().filter(|arrow| arrow.out.is_some()) {
        let why = arrow.out.as_deref().unwrap_or("");
        out.push(format!("Arrow {} is out: {why}. It is on no card and in no set.", arrow.name));
    }
    for arrow in story.arrows {
        for (stage, remark) in &arrow.remarks {
            out.push(format!("Arrow {}, {}: {remark}.", arrow.name, stage_word(*stage)));
        }
    }
    for (words, names) in blanks(story.arrows) {
        out.push(format!(
            "Not read at their stage, though of others: {} of {}. A blank stays a blank.",
            row(words),
            row(names)
        ));
    }
    let strange: Vec<&str> = story
        .arrows
        .iter()
        .filter(|arrow| !story.job.has(&arrow.name))
        .map(|arrow| arrow.name.as_str())
        .collect();
    if !strange.is_empty() {
        out.push(format!(
            "Not of this job, which has arrows 1 to {}: {}.",
            story.job.arrows,
            row(strange)
        ));
    }
    if let Some(length) = story.job.length {
        let off: Vec<&str> = story
            .arrows
            .iter()
            .filter(|arrow| off_length(arrow, length.si()))
            .map(|arrow| arrow.name.as_str())
            .collect();
        if !off.is_empty() {
            out.push(format!(
                "Cut to another length than the {} of the job, by more than {}: {}.",
                Role::Part.text(length.si(), story.style),
                show::brief(Role::Part, OFF, story.style),
                row(off)
            ));
        }
    }
    out
}

/// A cut that far off is named, m. Chosen: a sixteenth of an inch, a step of the usual
/// stop.
const OFF: f64 = 0.001_587_5;

/// Whether a bare cut shaft has another length than wanted.
fn off_length(arrow: &Worked, wanted: f64) -> bool {
    let cut = |one: &&workbench::Measured| {
        one.stage != workbench::Stage::Raw && !one.stage.finished() && one.length.is_some()
    };
    let latest = arrow.stages.iter().rev().find(cut);
    latest.and_then(|one| one.length).is_some_and(|l| (l.si() - wanted).abs() > OFF * (1.0 + 1e-9))
}
