//! A job's readings at one stage, an arrow a row, as they are taken at the bench: each row
//! goes into the job as one `job note` would put it there.

mod sheet;

use std::sync::Arc;

use axum::extract::State;
use maud::{DOCTYPE, Markup, html};

use super::folder;
use super::order::split;
use super::tool::{PREFIX, Tool, ToolOrder};
use super::view::care;
use crate::app::{App, Link, Outcome, Sent, Shared, html as page, link, sent};
use crate::head::head;
use crate::{PageError, Settings};
use sheet::{BACK, NOTE, Noted, Own, STAGES, SURE, Sheet, WAS, WORDS, given, jobs, unsent};

/// The empty sheet of a job and a stage.
pub(crate) async fn blank(State(app): Shared, query: Link) -> Outcome {
    let (_, own) = split(link(query)?);
    let worker = Arc::clone(&app);
    app.jobs.aside(move || Ok(page(drawn(&worker, &own, None)?))).await
}

/// A sheet that was filled in: every row that says something new is noted, what differs from
/// what stood there as a correction.
pub(crate) async fn note(State(app): Shared, form: Sent) -> Outcome {
    let (_, own) = split(sent(form)?);
    let worker = Arc::clone(&app);
    let work = move || {
        let sheet = Sheet::of(&worker.settings, &own)?;
        let noted = match given(&own, BACK) {
            "" => sheet.note(&worker, &own)?,
            arrow => sheet.take_back(&worker, arrow)?,
        };
        let own = unsent(&own, &noted);
        Ok(page(drawn(&worker, &own, Some(&noted))?))
    };
    app.jobs.aside(work).await
}

/// The fields of a sheet, and where something is odd whether a row was looked at twice.
fn form(sheet: &Sheet, own: &Own, doubted: bool) -> Markup {
    html! {
        form.readings method="post" action="/tools/readings" autocomplete="off" {
            input type="hidden" name=(format!("{PREFIX}folder")) value=(sheet.folder);
            input type="hidden" name=(format!("{PREFIX}stage")) value=(sheet.stage);
            div.rows tabindex="0" role="region" aria-label="Readings" {
                table {
                    caption {
                        (sheet.folder) ", " (sheet.stage) ": a row is an arrow; leave blank what was not read. "
                        @if !sheet.standing.is_empty() {
                            "What is noted stands in its field: write over it to correct it."
                        }
                    }
                    thead { tr {
                        th scope="col" { "arrow" }
                        @for (_, head) in &sheet.columns { th scope="col" { (head) } }
                        @if doubted { th scope="col" { "looked twice" } }
                    } }
                    tbody {
                        @for row in &sheet.rows {
                            tr {
                                th scope="row" {
                                    (if row.contains('-') { "all" } else { row.as_str() })
                                    @if let Some(why) = sheet.out(row) { " out: " (why) }
                                }
                                @for (name, head) in &sheet.columns {
                                    td { (cell(sheet, row, name, head, own)) }
                                }
                                @if doubted {
                                    td {
                                        input type="checkbox" name=(format!("{PREFIX}{row}.{SURE}")) value=(SURE)
                                            aria-label=(format!("looked twice, arrow {row}"));
                                    }
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

fn cell(sheet: &Sheet, row: &str, name: &str, head: &str, own: &Own) -> Markup {
    let id = format!("{row}.{name}");
    let mode = if WORDS.contains(&name) { "text" } else { "decimal" };
    let stands = sheet.stands(row, name);
    let value = own.iter().find(|(of, _)| *of == id).map_or(stands, |(_, value)| value);
    html! {
        input type="text" name=(format!("{PREFIX}{id}")) value=(value) inputmode=(mode)
            enterkeyhint="next" maxlength="120" spellcheck="false"
            aria-label=(format!("{head}, arrow {row}"));
        @if !stands.is_empty() {
            input type="hidden" name=(format!("{PREFIX}{WAS}{id}")) value=(stands);
        }
    }
}

/// A form that takes back what is noted of one arrow.
fn back(sheet: &Sheet) -> Markup {
    html! {
        @if !sheet.standing.is_empty() {
            details.plain {
                summary { "Noted of the wrong arrow or stage?" }
                form.tool method="post" action="/tools/readings" autocomplete="off" {
                    input type="hidden" name=(format!("{PREFIX}folder")) value=(sheet.folder);
                    input type="hidden" name=(format!("{PREFIX}stage")) value=(sheet.stage);
                    div.control {
                        label for="f-back" { "Take back all that is noted here of arrow" }
                        select #f-back name=(format!("{PREFIX}{BACK}")) {
                            @for of in &sheet.standing { option { (of.arrow) } }
                        }
                        p.hint { "Its rows stay in the job's book, and no longer count." }
                    }
                    p.bar { button type="submit" { "Take it back" } }
                }
            }
        }
    }
}

/// Where each arrow of a job stands, as the command says it.
fn standing(settings: &Settings, folder: &str) -> Option<String> {
    let given = vec![("folder".to_owned(), folder.to_owned())];
    let answer =
        settings.tools.run(&ToolOrder { tool: "job show".to_owned(), given }, &|| false).ok()?;
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
                            (Some(_), None) => p {
                                "What is noted is never wiped out: a correction is written below it in the job's book, and the old reading stays there to be seen."
                            },
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
                        (form(sheet, own, noted.is_some_and(|noted| noted.doubted)))
                        (back(sheet))
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
        @if let Some((row, why)) = &noted.wrong {
            div.mistakes role="alert" {
                p { "Arrow " (row) " was not noted, nor any below it. What you wrote stands below." }
                pre.said { (why) }
            }
        }
        @for line in &noted.minded { p.mistakes { (line) } }
        @if let Some(arrow) = &noted.back {
            p { "Taken back: what was noted of arrow " (arrow) " at the stage " (sheet.stage) ". Its rows stay in the book." }
        } @else if noted.rows.is_empty() {
            p { "Nothing was noted." }
        } @else {
            p {
                "Noted in " (sheet.folder) ", " (sheet.stage) ": arrow " (noted.rows.join(", ")) "."
                @if !noted.corrected.is_empty() {
                    " Corrected: arrow " (noted.corrected.join(", ")) "; the old reading stays in the book."
                }
                @if !noted.blanked.is_empty() {
                    " Taken back: a reading of arrow " (noted.blanked.join(", ")) "; it stays in the book and no longer counts."
                }
            }
        }
        @if let Some(note) = note { (folder::next(note, &sheet.folder, tables)) }
    }
}
