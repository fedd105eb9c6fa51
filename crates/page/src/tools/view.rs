//! The index of commands, and the form of each with its answer.

use std::path::Path;

use maud::{DOCTYPE, Markup, html};

use super::said::on_page;
use super::tool::{FieldKind, KEPT, PREFIX, REPORT, Tool, ToolAnswer, ToolField};
use super::words::{self, BESIDE, ROOMS, WORDS};
use super::{folder, measured};
use crate::examples::EXAMPLES;
use crate::head::head;
use crate::state::PageState;
use crate::table;

/// Everything there is to ask.
pub(crate) fn index(tools: &[Tool], state: &PageState) -> Markup {
    // The arrow that a visitor comes with goes along.
    let own =
        if *state == PageState::default() { String::new() } else { format!("?{}", state.link()) };
    let there = |name: &str| tools.iter().find(|tool| tool.name == name);
    html! {
        (DOCTYPE)
        html lang="en" {
            head { (head("Clothyard: at the bench and on the range")) }
            body {
                a.skip href="#tools" { "To what there is" }
                main.door {
                    header {
                        h1 { "At the bench and on the range" }
                        nav { a href="/questions" { "All questions" } }
                    }
                    div #tools {
                        @for (room, title) in ROOMS {
                            h2 { (title) }
                            ul.questions {
                                @for (_, href, question, about) in BESIDE.iter().filter(|of| of.0 == room) {
                                    li { a href=(href) { strong { (question) } span { (about) } } }
                                }
                                @for (of, tool) in WORDS.iter().filter(|of| of.room == room)
                                    .filter_map(|of| Some((of, there(of.name)?))) {
                                    li { a href=(format!("/tools/{}{own}", tool.path())) {
                                        strong { (of.question) }
                                        span { (tool.about) "." }
                                    } }
                                }
                            }
                        }
                    }
                    (care())
                }
            }
        }
    }
}

pub(super) fn care() -> Markup {
    html! {
        section #care {
            h2 { "With any bow" }
            ul { @for caution in report::standing() { li { (caution) } } }
            p { "Results are computed, not measured." }
        }
    }
}

/// A command: its form, and what it said to what was sent.
pub(crate) struct Sheet<'a> {
    pub(crate) tool: &'a Tool,
    pub(crate) state: &'a PageState,
    /// The scenario that the page was started with.
    pub(crate) opened: Option<&'a str>,
    /// Files of the folder that a scenario may come from.
    pub(crate) files: &'a [String],
    /// Tables of its jobs and trials.
    pub(crate) tables: &'a [String],
    /// What was sent, without the prefix.
    pub(crate) sent: &'a [(String, String)],
    /// The answer, and the name its files are kept under.
    pub(crate) answer: Option<(&'a ToolAnswer, &'a str)>,
}

/// The page of a command.
pub(crate) fn sheet(sheet: &Sheet) -> Markup {
    let words = words::of(&sheet.tool.name);
    let question = words.map_or(sheet.tool.about.as_str(), |words| words.question);
    html! {
        (DOCTYPE)
        html lang="en" {
            head { (head(&format!("Clothyard: {question}"))) }
            body {
                a.skip href="#finding" { "To the answer" }
                main {
                    header {
                        h1 { (question) }
                        nav { a href="/tools" { "Bench and range" } " " a href="/questions" { "All questions" } }
                    }
                    section #finding aria-label="The answer" aria-live="polite" {
                        @match sheet.answer {
                            Some((answer, kept)) => (sheet.answered(answer, kept)),
                            None => {
                                p { (sheet.tool.about) "." }
                                (sheet.around())
                            }
                        }
                    }
                    (sheet.form(words))
                    @if !sheet.tool.more.is_empty() {
                        details { summary { "How it is done on a command line" } pre.said { (sheet.tool.more) } }
                    }
                    (care())
                }
            }
        }
    }
}

/// The list of files with their sums, which is for programs.
const SUMS: &str = "clothyard.sha256";

impl Sheet<'_> {
    /// What else there is to do with the job or trial that the form begins with.
    fn around(&self) -> Markup {
        let all = folder::folders(self.tool, self.tables).unwrap_or_default();
        let given = self.given("folder");
        let folder = if given.is_empty() { all.first().copied() } else { Some(given) };
        html! { @if let Some(folder) = folder { (folder::next(self.tool, folder, self.tables)) } }
    }

    /// What is said, in the words of the page.
    fn said(&self, text: &str) -> String {
        on_page(text, &self.tool.fields)
    }

    fn answered(&self, answer: &ToolAnswer, kept: &str) -> Markup {
        let link = |name: &str| format!("/tools/files/{kept}/{}", crate::state::encoded(name));
        let pictures = answer
            .files
            .iter()
            .filter(|(name, _)| Path::new(name).extension().is_some_and(|of| of == "svg"));
        html! {
            @if answer.code != 0 {
                div.mistakes role="alert" { pre.said { (self.said(answer.err.trim())) } }
            }
            @if !answer.out.trim().is_empty() {
                pre.said tabindex="0" aria-label="What it says" { (self.said(answer.out.trim_end())) }
            }
            @if answer.code == 0 && !answer.err.trim().is_empty() {
                pre.said { (self.said(answer.err.trim())) }
            }
            @if answer.code == 0 {
                @for folder in self.tool.fields.iter().filter(|field| field.kind == FieldKind::Folder) {
                    (folder::next(self.tool, self.given(&folder.id), self.tables))
                }
            }
            @if !answer.files.is_empty() {
                p.files {
                    @if answer.files.iter().any(|(name, _)| name == REPORT) {
                        a href=(link(REPORT)) target="_blank" rel="noopener" { strong { "Open the report" } } " "
                    }
                    "Files: "
                    @for (name, _) in answer.files.iter().filter(|(name, _)| name != SUMS) { a href=(link(name)) download=(name) { (name) } " " }
                }
                div.pictures {
                    @for (name, _) in pictures {
                        figure {
                            img src=(link(name)) alt=(format!("The picture {name}; its numbers stand in the tables"));
                            figcaption { (name) }
                        }
                    }
                }
            }
        }
    }

    fn form(&self, words: Option<&words::Words>) -> Markup {
        let (first, more): (Vec<&ToolField>, Vec<&ToolField>) =
            self.tool.fields.iter().partition(|field| {
                let kind = matches!(field.kind, FieldKind::Table | FieldKind::Scenario);
                field.needed || kind || words::first(&self.tool.name).contains(&field.id.as_str())
            });
        let first = words.map_or(first.clone(), |words| words.in_order(first));
        html! {
            form.tool method="post" autocomplete="off"
                action=(format!("/tools/{}?{}", self.tool.path(), self.state.link())) {
                @if measured::asked(self.tool) { (measured::fields(self.sent)) }
                @for field in first { (self.field(field, words)) }
                @if !more.is_empty() {
                    details open[more.iter().any(|field| !self.given(&field.id).is_empty())] {
                        summary { "More to choose" }
                        @for field in more { (self.field(field, words)) }
                    }
                }
                p.bar { button type="submit" { "Answer" } }
            }
        }
    }

    /// What was sent for a field.
    fn given(&self, id: &str) -> &str {
        let found = self.sent.iter().find(|(name, _)| name == id);
        found.map_or("", |(_, value)| value.as_str())
    }

    fn field(&self, field: &ToolField, words: Option<&words::Words>) -> Markup {
        let name = format!("{PREFIX}{}", field.id);
        let id = format!("f-{}", field.id);
        let hint = match (field.usual.is_empty(), field.needed) {
            (false, _) => format!("{} unless given", field.usual),
            (true, true) => "needed".to_owned(),
            (true, false) => String::new(),
        };
        let form = words::example(&field.id).unwrap_or(&field.form);
        let known = words.and_then(|w| w.tables.iter().find(|(of, ..)| *of == field.id));
        match &field.kind {
            FieldKind::Scenario => self.scenario(field, words),
            FieldKind::Table => {
                let all = if field.many { 2 } else { 1 };
                html! {
                    @for at in 1..=all {
                        @let (name, id, key) = if at == 1 { (name.clone(), id.clone(), field.id.clone()) }
                            else { (format!("{name}.{at}"), format!("{id}-{at}"), format!("{}.{at}", field.id)) };
                        @let label = if all > 1 { format!("{}, {at}", field.help) } else { field.help.clone() };
                        @match known {
                            Some((_, table, example)) => (table::field(&name, &label, *table, *example, self.given(&key))),
                            None => {
                                label for=(id) { (label) }
                                textarea.table id=(id) name=(name) rows="7" spellcheck="false"
                                    placeholder="Paste it from a spreadsheet, heads and all" {
                                    "\n" (self.given(&key))
                                }
                            }
                        }
                        p.hint { (hint) }
                    }
                    (folder::kept(field, self.tables, self.given(&format!("{}.kept", field.id))))
                }
            }
            FieldKind::Folder
                if folder::folders(self.tool, self.tables).is_some_and(|all| !all.is_empty()) =>
            {
                let all = folder::folders(self.tool, self.tables).unwrap_or_default();
                folder::choice(&id, &name, &field.help, &all, self.given(&field.id))
            }
            FieldKind::Flag => html! {
                label.check for=(id) {
                    input type="checkbox" id=(id) name=(name) value="yes" checked[self.given(&field.id) == "yes"];
                    " " (field.help)
                }
            },
            FieldKind::Choice(all) => html! {
                div.control {
                    label for=(id) { (self.said(&field.help)) }
                    select id=(id) name=(name) {
                        @if !field.needed { option value="" { @if hint.is_empty() { "not said" } @else { (hint) } } }
                        @for (word, meaning) in all {
                            option value=(word) selected[self.given(&field.id) == word] {
                                (word) @if !meaning.is_empty() { ": " (meaning) }
                            }
                        }
                    }
                }
            },
            FieldKind::Text | FieldKind::Folder if field.many => html! {
                label for=(id) { (self.said(&field.help)) ", one a line" }
                textarea id=(id) name=(name) rows="3" spellcheck="false" placeholder=(form) { (self.given(&field.id)) }
            },
            FieldKind::Text | FieldKind::Folder => html! {
                div.control {
                    label for=(id) { (self.said(&field.help)) }
                    input.amount type="text" id=(id) name=(name) value=(self.given(&field.id))
                        data-form=(field.form) data-usual=(field.usual)
                        placeholder=(if field.usual.is_empty() { form } else { field.usual.as_str() })
                        maxlength="200" spellcheck="false" aria-describedby=(format!("h-{}", field.id));
                    p.hint id=(format!("h-{}", field.id)) { (hint) }
                }
            },
        }
    }

    /// Which arrow it is asked of.
    fn scenario(&self, field: &ToolField, words: Option<&words::Words>) -> Markup {
        let usual = words.map_or("", |words| words.from);
        let changed = self.state.now.len();
        // Without a name it is the one that the page itself opens with.
        let own = self.state.from.is_none() && (changed > 0 || self.opened.is_some());
        // Arrows of a job are the visitor's own, and so is a scenario that was saved.
        let job = self.sent.iter().any(|(name, value)| name.ends_with(KEPT) && !value.is_empty());
        let kept = self.files.first().map(String::as_str).filter(|_| job);
        let unsaid = if own { "" } else { kept.unwrap_or(usual) };
        let chosen = self.state.from.as_deref().unwrap_or(unsaid);
        html! {
            div.control {
                label for="f-from" { "Of which arrow" }
                select #f-from name="from" {
                    @if own { option value="" selected { (self.opened.unwrap_or("the arrow on the page")) } }
                    @for example in &EXAMPLES {
                        option value=(example.name) selected[chosen == example.name] { (example.title()) }
                    }
                    @for file in self.files { option value=(file) selected[chosen == file] { (file) } }
                }
                @if changed > 0 {
                    p.hint { "With what you changed on its page." }
                } @else if EXAMPLES.iter().any(|example| example.name == chosen) {
                    p.hint { "Examples are invented. Set up your own arrow on the page and save it: then it stands here." }
                }
            }
            @if !field.needed {
                label.check for=(format!("f-{}", field.id)) {
                    input type="checkbox" id=(format!("f-{}", field.id)) name=(format!("{PREFIX}{}", field.id)) value="yes"
                        checked[self.given(&field.id) == "yes"];
                    " " (field.help)
                }
            }
        }
    }
}
