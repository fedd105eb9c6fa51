//! A job: for whom, which bow, which batch, how many arrows.

use std::path::Path;

use units::Dimension::Length;
use units::Length as L;
use workbench::Job;

use super::column::{Holds, PART, columns, may, words};
use super::settle::Rule;
use super::sheet::read;
use super::{Opened, Table, TableMistake};
use crate::Report;

/// Most arrows of a job. Chosen: some gross.
pub const MOST_ARROWS: u32 = 1000;
const YES: [(&str, bool); 1] = [("yes", true)];

/// One row of a job.
pub(super) const RULE: Rule = Rule { keys: &[], repeats: false };

columns! { Heading {
    Customer may("customer", &["name", "for", "whom", "client"], Holds::Text);
    Bow may("bow", &[], Holds::Text);
    Batch may("batch", &["lot"], Holds::Text);
    Arrows may("arrows", &["count", "how many"], Holds::Whole(MOST_ARROWS));
    Length may("cut to", &["length", "length wanted"], Holds::Amount(Length, 0.1, 2.0, PART));
    Date may("date", &["opened", "day"], Holds::Text);
    Correction may("correction", &["corrects"], Holds::Word(&words(&YES)));
} }

/// Reads what a job is. Its first row opens it; each further one is a correction, and
/// what it says holds in place of what stood before.
///
/// # Errors
/// Every mistake of the file.
pub fn job(path: &Path, bytes: Opened) -> Result<Table<Job>, Report> {
    read(path, bytes, 1, |sheet, rows| {
        let mut job = Job::default();
        let mut first: Option<usize> = None;
        for row in rows {
            let corrects = row.meaning(Heading::Correction, &YES).is_some();
            if let (Some(first), false) = (first, corrects) {
                sheet.tell_row(row, TableMistake::Once(first));
            }
            first = first.or(Some(row.line));
            let say = |old: &mut String, column| {
                if let Some(text) = row.text(column) {
                    text.clone_into(old);
                }
            };
            say(&mut job.customer, Heading::Customer);
            say(&mut job.bow, Heading::Bow);
            say(&mut job.batch, Heading::Batch);
            say(&mut job.date, Heading::Date);
            job.arrows = row.whole(Heading::Arrows).unwrap_or(job.arrows);
            job.length = row.get::<L>(Heading::Length).or(job.length);
            if row.whole(Heading::Arrows) == Some(0) {
                sheet.tell_cell(row, Heading::Arrows, TableMistake::NoArrows);
            }
        }
        if let (0, Some(row)) = (job.arrows, rows.first()) {
            sheet.need(row, Heading::Arrows, "the first row of a job");
        }
        vec![job]
    })
}
