//! Labels and the batch sheet.

use print::{Label, Labels, Paper, Place, WorkColumn, WorkSheet};
use units::Role;
use workbench::{STAGES, Worked};

use super::readings::{LENGTH, MASS, RUN_OUT, Reading, SPINE, TIP};
use super::story::{JobStory, stage_word};
use crate::safety::Job;

/// What has a column on the batch sheet, and in which share of the width.
const COLUMNS: [(Reading, f64); 5] =
    [(SPINE, 1.3), (RUN_OUT, 1.3), (LENGTH, 1.4), (MASS, 1.3), (TIP, 1.4)];

/// Arrows that belong to the job.
fn own<'a>(story: &JobStory<'a>) -> impl Iterator<Item = &'a Worked> {
    let (job, arrows) = (story.job, story.arrows);
    arrows.iter().filter(move |arrow| job.has(&arrow.name))
}

pub(super) fn labels(story: &JobStory, paper: Paper) -> Labels {
    let job = story.job;
    let line = |arrow: &Worked| {
        let whom = if job.customer.is_empty() { &job.bow } else { &job.customer };
        let lines = [whom.clone(), job.batch.clone(), format!("{} of {}", arrow.name, job.arrows)];
        Label {
            number: arrow.name.clone(),
            lines: lines.into_iter().filter(|l| !l.is_empty()).collect(),
        }
    };
    Labels {
        title: "Labels".to_owned(),
        about: format!(
            "{} Cut along the lines, wrap round the shaft ahead of the nock and stick it to itself. \
             Take the label off before you shoot.",
            story.about()
        ),
        labels: own(story).filter(|arrow| arrow.out.is_none()).map(line).collect(),
        paper,
    }
}

/// What was remarked of an arrow, as much as the column holds.
fn remarks(arrow: &Worked) -> String {
    /// Chosen: letters that fit the column.
    const MOST: usize = 28;
    let all: Vec<&str> = arrow.remarks.iter().map(|(_, remark)| remark.as_str()).collect();
    let all = all.join("; ");
    if all.chars().count() <= MOST {
        return all;
    }
    all.chars().take(MOST - 3).collect::<String>() + "..."
}

pub(super) fn batch(story: &JobStory, paper: Paper) -> WorkSheet {
    let column =
        |word: &str, unit: &str, share| WorkColumn { word: word.into(), unit: unit.into(), share };
    let mut columns = vec![column("arrow", "", 0.9)];
    for stage in STAGES {
        columns.push(column(stage_word(stage), "", 0.95));
    }
    for (reading, share) in COLUMNS {
        columns.push(column(reading.word, reading.symbol(story.style), share));
    }
    columns.push(column("remarks", "", 3.2));
    let rows = own(story).map(|arrow| {
        let mut row = vec![Place::Text(arrow.name.clone())];
        if let Some(why) = &arrow.out {
            row.push(Place::Across(format!("OUT: {why}")));
            row.resize(STAGES.len() + COLUMNS.len() + 2, Place::Text(String::new()));
            return row;
        }
        for stage in STAGES {
            row.push(Place::Box(arrow.stages.iter().any(|noted| noted.stage == stage)));
        }
        let now = arrow.now();
        for (reading, _) in COLUMNS {
            let si = now.as_ref().and_then(reading.of);
            row.push(Place::Text(si.map_or(String::new(), |si| reading.number(si, story.style))));
        }
        row.push(Place::Text(remarks(arrow)));
        row
    });
    let length = story.job.length.map_or_else(String::new, |length| {
        format!(" Cut to {}.", Role::Part.text(length.si(), story.style))
    });
    WorkSheet {
        title: "Batch sheet".to_owned(),
        care: story.care(&[Job::Saw, Job::Bench]),
        about: format!(
            "{}{length} Ticked is what was noted. Readings of the stage ticked last; spine and run-out of the raw shaft carry on, and its mass for its length. \
             An empty place was not read: write it in here, then enter it.",
            story.about()
        ),
        columns,
        rows: rows.collect(),
        paper,
    }
}
