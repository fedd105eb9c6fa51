//! A job's readings at one stage, an arrow a row, as they are taken at the bench: each row
//! goes into the job as one `job note` would put it there.

use std::path::Path;
use std::sync::Arc;

use axum::extract::State;
use maud::{DOCTYPE, Markup, html};
use scenario::measured::{self, Kind};
use units::Style;

use super::folder;
use super::order::split;
use super::tool::{PREFIX, Tool, ToolAnswer, ToolOrder};
use super::view::care;
use crate::app::{App, Link, Outcome, Sent, Shared, html as page, link, sent};
use crate::head::head;
use crate::{PageError, Settings};

/// The command that takes a row.
const NOTE: &str = "job note";
/// Stages of an arrow, and what is read at each, the most used first. Chosen.
const STAGES: [(&str, &[&str]); 5] = [
    ("raw", &["mass", "spine", "stiff side", "run-out", "run-out high"]),
    ("cut", &["length", "mass", "note"]),
    ("squared", &["length", "mass", "note"]),
    ("built", &["mass", "balance", "tip wobble", "tip high", "note"]),
    ("shot", &["out", "note"]),
];
/// Columns of words; all others are numbers.
const WORDS: [&str; 2] = ["out", "note"];
/// Most rows of a sheet. Chosen: more would not be filled in at one sitting.
const MOST: u32 = 144;

/// What a visitor sent, without the prefix.
type Own = Vec<(String, String)>;

/// The empty sheet of a job and a stage.
pub(crate) async fn blank(State(app): Shared, query: Link) -> Outcome {
    let (_, own) = split(link(query)?);
    let worker = Arc::clone(&app);
    app.jobs.aside(move || Ok(page(drawn(&worker, &own, None)?))).await
}

/// A sheet that was filled in: every row that says something is noted.
pub(crate) async fn note(State(app): Shared, form: Sent) -> Outcome {
    let (_, own) = split(sent(form)?);
    let worker = Arc::clone(&app);
    let work = move || {
        let sheet = Sheet::of(&worker.settings, &own)?;
        let noted = sheet.note(&worker, &own)?;
        // What is in the job is off the sheet.
        let left = |(name, _): &(String, String)| {
            let row = name.split_once('.').map(|(row, _)| row);
            !row.is_some_and(|row| noted.rows.iter().any(|done| done == row))
        };
        let own: Own = own.iter().filter(|field| left(field)).cloned().collect();
        Ok(page(drawn(&worker, &own, Some(&noted))?))
    };
    app.jobs.aside(work).await
}

/// What came of a sheet.
struct Noted {
    /// Rows that are in the job now.
    rows: Vec<String>,
    /// What was said of the row at which it stopped.
    wrong: Option<(String, ToolAnswer)>,
}

/// The sheet of a job and a stage.
struct Sheet {
    folder: String,
    stage: &'static str,
    /// Columns and their heads, which say the unit.
    columns: Vec<(&'static str, String)>,
    rows: Vec<String>,
    style: Style,
}

fn given<'a>(own: &'a Own, id: &str) -> &'a str {
    own.iter().find(|(name, _)| name == id).map_or("", |(_, value)| value.as_str())
}

fn jobs(tables: &[String]) -> Vec<&str> {
    tables.iter().filter_map(|table| table.strip_suffix("/job.csv")).collect()
}

impl Sheet {
    fn of(settings: &Settings, own: &Own) -> Result<Self, PageError> {
        let tables = settings.tools.tables();
        let asked = given(own, "folder");
        let folder = if asked.is_empty() {
            jobs(&tables).first().copied().unwrap_or_default()
        } else {
            asked
        };
        let name = format!("{folder}/job.csv");
        let text = folder::read(settings, &name)?;
        let stage = given(own, "stage");
        let (stage, wanted) =
            STAGES.iter().find(|(of, _)| *of == stage).copied().unwrap_or(STAGES[0]);
        let metric = text
            .lines()
            .next()
            .is_some_and(|head| head.contains("cut to [") && !head.contains("[in]"));
        let style = if metric { Style::Metric } else { Style::Archery };
        let job = measured::job(Path::new(&name), Ok(text.into_bytes()))
            .map_err(|report| crate::reading::told(&report))?;
        let count = job.found.first().map_or(0, |job| job.arrows).clamp(1, MOST);
        // The heads of its book, or those that a new one gets.
        let book = format!("{folder}/arrows.csv");
        let heads: Vec<String> = if tables.contains(&book) {
            let text = folder::read(settings, &book)?;
            let head = text.lines().next().unwrap_or_default();
            head.split([',', ';', '\t'])
                .map(|cell| cell.trim().trim_matches('"').to_owned())
                .collect()
        } else {
            let told = Kind::Batch.told(style);
            told.lines()
                .filter_map(|line| Some(line.split(';').next()?.trim().to_owned()))
                .collect()
        };
        let called =
            |head: &String, name: &str| head.split(" [").next().is_some_and(|of| of == name);
        let columns = wanted.iter().filter_map(|name| {
            heads.iter().find(|head| called(head, name)).map(|head| (*name, head.clone()))
        });
        let mut rows: Vec<String> = (1..=count).map(|arrow| arrow.to_string()).collect();
        if count > 1 {
            rows.push(format!("1-{count}"));
        }
        Ok(Self { folder: folder.to_owned(), stage, columns: columns.collect(), rows, style })
    }

    /// Notes row by row, and stops at the first that is wrong.
    fn note(&self, app: &App, own: &Own) -> Result<Noted, PageError> {
        let mut noted = Noted { rows: Vec::new(), wrong: None };
        for row in &self.rows {
            let cells = self.columns.iter().filter_map(|(name, _)| {
                let value = given(own, &format!("{row}.{name}")).trim();
                (!value.is_empty()).then(|| ("values".to_owned(), format!("{name}={value}")))
            });
            let cells: Vec<_> = cells.collect();
            if cells.is_empty() {
                continue;
            }
            let first = [("arrow", row.as_str()), ("stage", self.stage)];
            let first = first.map(|(name, value)| ("values".to_owned(), format!("{name}={value}")));
            let units = if self.style == Style::Metric { "metric" } else { "archery" };
            let mut given = vec![
                ("folder".to_owned(), self.folder.clone()),
                ("units".to_owned(), units.to_owned()),
            ];
            given.extend(first.into_iter().chain(cells));
            let order = ToolOrder { tool: NOTE.to_owned(), given };
            let failed = |cause: std::io::Error| PageError::Write {
                name: NOTE.to_owned(),
                cause: cause.kind(),
            };
            let answer = app.settings.tools.run(&order, &|| false).map_err(failed)?;
            if answer.code != 0 {
                noted.wrong = Some((row.clone(), answer));
                break;
            }
            noted.rows.push(row.clone());
        }
        Ok(noted)
    }

    fn form(&self, own: &Own) -> Markup {
        html! {
            form.readings method="post" action="/tools/readings" autocomplete="off" {
                input type="hidden" name=(format!("{PREFIX}folder")) value=(self.folder);
                input type="hidden" name=(format!("{PREFIX}stage")) value=(self.stage);
                div.rows tabindex="0" role="region" aria-label="Readings" {
                    table {
                        caption { (self.folder) ", " (self.stage) ": a row is an arrow; leave blank what was not read" }
                        thead { tr {
                            th scope="col" { "arrow" }
                            @for (_, head) in &self.columns { th scope="col" { (head) } }
                        } }
                        tbody {
                            @for row in &self.rows {
                                tr {
                                    th scope="row" { (if row.contains('-') { "all" } else { row.as_str() }) }
                                    @for (name, head) in &self.columns {
                                        td { (Self::cell(row, name, head, own)) }
                                    }
                                }
                            }
                        }
                    }
                }
                p.bar { button type="submit" { "Put it into the job" } }
            }
        }
    }

    fn cell(row: &str, name: &str, head: &str, own: &Own) -> Markup {
        let id = format!("{row}.{name}");
        let mode = if WORDS.contains(&name) { "text" } else { "decimal" };
        html! {
            input type="text" name=(format!("{PREFIX}{id}")) value=(given(own, &id)) inputmode=(mode)
                enterkeyhint="next" maxlength="120" spellcheck="false"
                aria-label=(format!("{head}, arrow {row}"));
        }
    }
}

/// Where each arrow of a job stands, as the command says it.
fn standing(settings: &Settings, folder: &str) -> Option<String> {
    let given = vec![("folder".to_owned(), folder.to_owned())];
    let order = ToolOrder { tool: "job show".to_owned(), given };
    let answer = settings.tools.run(&order, &|| false).ok()?;
    (answer.code == 0).then_some(answer.out)
}

fn drawn(app: &App, own: &Own, noted: Option<&Noted>) -> Result<Markup, PageError> {
    let tables = app.settings.tools.tables();
    let jobs = jobs(&tables);
    let sheet = if jobs.is_empty() { None } else { Some(Sheet::of(&app.settings, own)?) };
    let tools = app.settings.tools.list();
    let note = tools.iter().find(|tool| tool.name == NOTE);
    Ok(html! {
        (DOCTYPE)
        html lang="en" {
            head { (head("Clothyard: readings, an arrow a row")) }
            body {
                a.skip href="#finding" { "To what was noted" }
                main {
                    header {
                        h1 { "Write down what each arrow reads" }
                        nav { a href="/tools" { "Bench and range" } " " a href="/questions" { "All questions" } }
                    }
                    section #finding aria-label="What was noted" aria-live="polite" {
                        @match (&sheet, noted) {
                            (None, _) => p { "Readings belong to a job, and no job is here yet. " a href="/tools/job-open" { "Open one" } "." },
                            (Some(sheet), Some(noted)) => (said(sheet, noted, note, &tables)),
                            (Some(_), None) => p { "Rows are only ever added to a job: nothing that is in it is changed." },
                        }
                    }
                    @if let Some(sheet) = &sheet {
                        form.tool method="get" action="/tools/readings" {
                            (folder::choice("f-folder", &format!("{PREFIX}folder"), "Job", &jobs, &sheet.folder))
                            div.control {
                                label for="f-stage" { "Stage" }
                                select #f-stage name=(format!("{PREFIX}stage")) {
                                    @for (stage, _) in STAGES { option selected[stage == sheet.stage] { (stage) } }
                                }
                            }
                            p.bar { button type="submit" { "Show its sheet" } }
                        }
                        (sheet.form(own))
                        @if let Some(text) = standing(&app.settings, &sheet.folder) {
                            h2 { "Where each arrow stands" }
                            pre.said tabindex="0" aria-label="Where each arrow stands" { (text.trim_end()) }
                        }
                    }
                    (care())
                }
            }
        }
    })
}

fn said(sheet: &Sheet, noted: &Noted, note: Option<&Tool>, tables: &[String]) -> Markup {
    html! {
        @if let Some((row, answer)) = &noted.wrong {
            div.mistakes role="alert" {
                p { "Arrow " (row) " was not noted, nor any below it. What you wrote stands below." }
                pre.said { (answer.err.trim()) }
            }
        }
        @if noted.rows.is_empty() {
            p { "Nothing was noted." }
        } @else {
            p { "Noted in " (sheet.folder) ", " (sheet.stage) ": arrow " (noted.rows.join(", ")) "." }
        }
        @if let Some(note) = note { (folder::next(note, &sheet.folder, tables)) }
    }
}
