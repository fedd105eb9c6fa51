//! The card that goes to the customer with finished arrows.

use print::{Card, Cards, Look, Paper};
use workbench::{Measured, STAGES, Stage, Worked};

use super::readings::{LENGTH, MASS, Reading, SPINE, TIP};
use super::story::{JobStory, noun, stage_word};
use crate::prose::row;
use crate::safety::Job;

/// What stands on every card.
const NOTE: &str = "inspect before each shot";

pub(super) fn cards(story: &JobStory, paper: Paper) -> Cards {
    let finished: Vec<(&Worked, Measured)> = story
        .arrows
        .iter()
        .filter(|arrow| arrow.out.is_none() && story.job.has(&arrow.name))
        .filter_map(|arrow| Some((arrow, arrow.now()?)))
        .filter(|(_, now)| now.stage.finished())
        .collect();
    let mut cards = vec![whole(story, &finished)];
    if !finished.is_empty() {
        cards.push(each(story, &finished));
    }
    let open = unfinished(story);
    let from = story.computed.map_or_else(
        || " No scenario was given.".to_owned(),
        |of| format!(" Scenario: {}.", of.scenario),
    );
    let title = if open.is_empty() { "Customer card" } else { "Customer card, job not finished" };
    Cards {
        title: title.to_owned(),
        care: story.care(&[Job::Bench]),
        about: format!(
            "{open}{}{from} Measured on the bench; a dash was not read of the arrow as it stands now.",
            story.about()
        ),
        cards,
        look: Look { paper, ..Look::default() },
    }
}

/// What is still to be done before the arrows go out, a sentence for each stage; nothing
/// where every arrow is built.
fn unfinished(story: &JobStory) -> String {
    let inside =
        || story.arrows.iter().filter(|arrow| arrow.out.is_none() && story.job.has(&arrow.name));
    let done = |stage: Option<Stage>| stage.is_some_and(Stage::finished);
    let mut said = Vec::new();
    for stage in std::iter::once(None).chain(STAGES.map(Some)).filter(|stage| !done(*stage)) {
        let names: Vec<&str> = inside()
            .filter(|arrow| arrow.stage() == stage)
            .map(|arrow| arrow.name.as_str())
            .collect();
        let count = u32::try_from(names.len()).unwrap_or(u32::MAX);
        let word = stage.map_or("nothing noted yet", stage_word);
        if count > 0 {
            said.push(format!("{} {} ({word})", noun(count), row(names)));
        }
    }
    if said.is_empty() { String::new() } else { format!("NOT FINISHED: {}. ", said.join(", ")) }
}

/// Least, mean and most of each reading; what was read of none has no column.
fn whole(story: &JobStory, finished: &[(&Worked, Measured)]) -> Card {
    let read = |reading: &Reading| -> Vec<f64> {
        finished.iter().filter_map(|(_, now)| (reading.of)(now)).collect()
    };
    let shown: Vec<(&Reading, Vec<f64>)> =
        SHOWN.iter().map(|r| (r, read(r))).filter(|(_, read)| !read.is_empty()).collect();
    let row = |word: &str, cell: &dyn Fn(&Reading, &[f64]) -> String| {
        let cells = shown.iter().map(|(reading, read)| cell(reading, read));
        std::iter::once(word.to_owned()).chain(cells).collect()
    };
    let of = |reading: &Reading, si: f64| reading.number(si, story.style);
    let rows = vec![
        row("least", &|r, read| of(r, read.iter().copied().fold(f64::INFINITY, f64::min))),
        row("mean", &|r, read| of(r, read.iter().sum::<f64>() / read.len() as f64)),
        row("most", &|r, read| of(r, read.iter().copied().fold(f64::NEG_INFINITY, f64::max))),
        row("read of", &|_, read| read.len().to_string()),
    ];
    let count = u32::try_from(finished.len()).unwrap_or(u32::MAX);
    let whom = &story.job.customer;
    let whom = if whom.is_empty() { String::new() } else { format!(", {whom}") };
    let empty = (String::new(), String::new());
    let all = story.arrows.iter().filter(|a| a.out.is_none() && story.job.has(&a.name)).count();
    let (title, note) = if finished.len() == all {
        (format!("{count} {}{whom}", noun(count)), NOTE.to_owned())
    } else {
        (format!("{count} of {all} built{whom}"), format!("job not finished; {NOTE}"))
    };
    Card {
        title,
        note,
        heads: std::iter::once(empty).chain(shown.iter().map(|(r, _)| head(r, story))).collect(),
        rows: if shown.is_empty() { Vec::new() } else { rows },
    }
}

/// What a card shows of an arrow.
const SHOWN: [Reading; 4] = [MASS, SPINE, LENGTH, TIP];

fn head(reading: &Reading, story: &JobStory) -> (String, String) {
    (reading.word.to_owned(), reading.symbol(story.style).to_owned())
}

/// The arrows one by one.
fn each(story: &JobStory, finished: &[(&Worked, Measured)]) -> Card {
    let units = SHOWN.iter().map(|reading| head(reading, story));
    let rows = finished.iter().map(|(arrow, now)| {
        let cell = |r: &Reading| (r.of)(now).map_or("-".to_owned(), |si| r.number(si, story.style));
        std::iter::once(arrow.name.clone()).chain(SHOWN.iter().map(cell)).collect()
    });
    Card {
        title: "Each arrow".to_owned(),
        note: NOTE.to_owned(),
        heads: std::iter::once(("arrow".to_owned(), String::new())).chain(units).collect(),
        rows: rows.collect(),
    }
}
