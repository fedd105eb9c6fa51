//! The page.

use maud::{DOCTYPE, Markup, html};
use units::Style;

use crate::answer::Found;
use crate::base::Base;
use crate::builds::Ground;
use crate::examples::EXAMPLES;
use crate::head::head;
use crate::rooms::{choice, more, rooms};
use crate::state::{LONGEST, PageState};
use crate::{PageError, square, watch};

/// Everything the page needs.
pub(crate) struct Fragment<'a> {
    pub(crate) state: &'a PageState,
    pub(crate) base: &'a Base,
    /// What its controls stand on.
    pub(crate) ground: &'a Ground,
    pub(crate) style: Style,
    /// Name of the scenario the page was started with.
    pub(crate) start: &'a str,
    pub(crate) files: &'a [String],
    /// Whether its report tells groups, and has a table of them.
    pub(crate) grouped: bool,
    /// Whether it asks more than its builds side by side.
    pub(crate) asks: bool,
    pub(crate) found: Result<&'a Found, &'a PageError>,
}

impl Fragment<'_> {
    pub(crate) fn page(&self) -> Markup {
        html! {
            (DOCTYPE)
            html lang="en" {
                head {
                    (head(&format!("Clothyard: {}", self.base.scenario.title())))
                }
                body {
                    a.skip href="#finding" { "To the answer" }
                    main {
                        div.one {
                        header {
                            h1 {
                                (self.base.scenario.title())
                                span #changed hidden[!self.state.changes()] { ", with your changes" }
                            }
                            p.purpose { "Change an arrow. See whether you would ever notice." }
                            nav {
                                a href="/questions" { "Questions" } " "
                                a href="#watch" { "Watch" } " "
                                a href="#bench" { "Gauge" } " "
                                a.export data-path="/tools" href=(format!("/tools?{}", self.state.link())) { "Bench and range" } " "
                                a href="#keep" { "Save and open" }
                            }
                        }
                        section #side aria-label="The arrow" {
                            @if let Ok(found) = self.found { (found.side()) }
                        }
                        section #mind tabindex="0" aria-label="Before you shoot" aria-live="polite" {
                            @match self.found {
                                Ok(found) => (found.mind()),
                                Err(error) => @if let Some(barred) = barred(error) { (barred) },
                            }
                        }
                        div.desk {
                            section #shown aria-label="Where the arrows land"
                                data-scale=[self.found.ok().map(Found::scale)] {
                                @if let Ok(found) = self.found { (found.shown()) }
                            }
                            div.hand {
                            section #finding tabindex="0" aria-label="The answer" aria-live="polite" {
                                @match self.found {
                                    Ok(found) => (found.finding()),
                                    Err(error) => (wrong(error)),
                                }
                            }
                            form #build method="get" action="/" autocomplete="off"
                                data-first=(self.ground.first()) { (self.controls()) }
                            }
                            section #glance tabindex="0" aria-label="The answer in figures" {
                                @if let Ok(found) = self.found { (found.glance()) }
                            }
                        }
                        (watch::strip())
                        }
                        section #told aria-label="More of the answer" {
                            @if let Ok(found) = self.found { (found.told()) }
                        }
                        @if self.asks {
                            section #question {
                                h2 { "What this scenario asks" }
                                p #pace role="status" {}
                                div #asked { p { "With a script running, the answer comes here by itself; \
                                    the exported report holds it, too." } }
                            }
                        }
                        section #watch {
                            @let several = self.ground.builds.len() > 1 || self.state.pinned.is_some();
                            (watch::section(&self.state.link(), several))
                        }
                        section #bench { (bench()) }
                        section #keep { (self.keep()) }
                        section #care {
                            h2 { "With any bow" }
                            ul { @for caution in report::standing() { li { (caution) } } }
                            p { "Results are computed, not measured." }
                        }
                    }
                }
            }
        }
    }

    fn controls(&self) -> Markup {
        html! {
            @if let Some(from) = &self.state.from {
                input type="hidden" name="from" value=(from);
            }
            div.bar {
                label for="units" { "Units" }
                select #units name="units" {
                    option value="archery" selected[self.style == Style::Archery] { "archery" }
                    option value="metric" selected[self.style == Style::Metric] { "metric" }
                }
                button #undo type="button" hidden { "Undo" }
                button #fit type="button" hidden { "Fit the face" }
                button #pin type="button" hidden { "Pin this build" }
                button #unpin type="button" hidden[self.state.pinned.is_none()] { "Unpin" }
                button #fly type="submit" { "Compute" }
            }
            p #status role="status" {}
            (choice(self.state, self.ground))
            div #rooms { (rooms(self.state, self.ground, self.style)) }
            (more(self.ground))
            p #effect.hint hidden {}
            @let carried = self.ground.carried(self.state);
            @let (pins, rest): (Vec<_>, Vec<_>) =
                carried.into_iter().partition(|(name, _)| name == "pinned" || name.starts_with("p."));
            @for (id, list) in [("pins", pins), ("carried", rest)] {
                div id=(id) hidden {
                    @for (name, value) in list { input type="hidden" name=(name) value=(value); }
                }
            }
        }
    }

    /// Tape and cards, of every build where there are several.
    fn prints(&self) -> Markup {
        const PRINTS: [(&str, &str); 2] =
            [("/take/tape.pdf", "sight tape"), ("/take/card.pdf", "cards")];
        let several = self.ground.builds.len() > 1;
        html! {
            @for (path, text) in PRINTS {
                p.exports {
                    "Print, " (text) ": "
                    @for kept in self.ground.builds.iter().filter(|_| several) {
                        a.export data-path=(path) data-build=(kept.number)
                            href=(format!("{path}?{}", of_build(self.state, kept.number))) {
                            (kept.name.as_deref().unwrap_or_default())
                        }
                        " "
                    }
                    @if !several {
                        a.export data-path=(path) href=(format!("{path}?{}", self.state.link())) { (text) }
                    }
                }
            }
        }
    }

    fn keep(&self) -> Markup {
        let link = self.state.link();
        let take = |path: &str| format!("{path}?{link}");
        let name = self.base.name.strip_suffix(".toml").unwrap_or(&self.base.name);
        html! {
            h2 { "Save and open" }
            p { a #link href=(take("/")) { "Link to this state" } }
            form #save method="post" action="/save" {
                label for="name" { "File name, in the folder the page was started in" }
                input #name name="name" value=(format!("{name}-page.toml")) maxlength="100" spellcheck="false"
                    aria-describedby="saved";
                button type="submit" { "Save the scenario" }
                p #saved role="status" {}
            }
            form #open method="get" action="/" {
                label for="from" { "Start from" }
                select #from name="from" {
                    option value="" selected[self.state.from.is_none()] { (self.start) }
                    @for example in &EXAMPLES {
                        option value=(example.name) selected[self.state.from.as_deref() == Some(example.name)] {
                            (example.question) " (invented)"
                        }
                    }
                    @for file in self.files {
                        option value=(file) selected[self.state.from.as_ref() == Some(file)] { (file) }
                    }
                }
                button type="submit" { "Open" }
            }
            p.exports {
                "Export: "
                @for (path, text, _) in [
                    ("/scenario.toml", "scenario", false), ("/take/report.html", "report", false),
                    ("/take/groups.csv", "groups, CSV", true), ("/take/drop.csv", "drop, CSV", true),
                    ("/take/result.json", "everything, JSON", false),
                ].into_iter().filter(|(.., grouped)| self.grouped || !grouped) {
                    a.export data-path=(path) href=(take(path)) { (text) } " "
                }
            }
            (self.prints())
        }
    }
}

/// A link to the same state with another build shown.
fn of_build(state: &PageState, number: usize) -> String {
    PageState { build: Some(number), ..state.clone() }.link()
}

fn bench() -> Markup {
    let fields = [
        ("gap", "Gap under the square", "0.002 in"),
        ("across", "Across the face", "0.246 in"),
        ("keep", "As is, up to", square::KEEP),
        ("reject", "Reject, above", square::REJECT),
    ];
    html! {
        h2 { "At the bench" }
        p { "Stand the cut end on a square, put a feeler under the highest side." }
        form #gauge method="post" action="/gauge" autocomplete="off" {
            @for (id, label, value) in fields {
                div.control {
                    label for=(format!("f-{id}")) { (label) }
                    input.amount type="text" id=(format!("f-{id}")) name=(id) value=(value)
                        maxlength=(LONGEST) spellcheck="false" aria-describedby=(format!("e-{id}"));
                    p.wrong id=(format!("e-{id}")) {}
                }
            }
            button type="submit" { "Judge" }
        }
        div #verdict role="status" {}
        p.bar {
            button.carry type="button" data-to="front" hidden { "Use as point end" }
            button.carry type="button" data-to="rear" hidden { "Use as nock end" }
        }
    }
}

/// A page of its own for what went wrong.
pub(crate) fn refusal(error: &PageError) -> Markup {
    html! {
        (DOCTYPE)
        html lang="en" {
            head {
                (head("Clothyard"))
            }
            body { main { h1 { "This cannot be shown" } (wrong(error)) p { a href="/questions" { "To the questions" } } } }
        }
    }
}

/// What is wrong, each mistake with its field.
pub(crate) fn wrong(error: &PageError) -> Markup {
    let free = match error {
        PageError::Taken { free, .. } => Some(free),
        _ => None,
    };
    html! {
        div.mistakes role="alert" data-free=[free] {
            @if let PageError::Wrong(all) | PageError::Barred(all) = error {
                ul {
                    @for one in all {
                        li data-field=[one.field] {
                            @if let Some(c) = one.field.and_then(scenario::control) { (c.label()) ": " }
                            (one.text)
                        }
                    }
                }
            } @else {
                p { (error) }
            }
            // For the page that shows another answer still.
            @if let Some(barred) = barred(error) { template { (barred) } }
        }
    }
}

/// What bars an arrow from being shot at all, in the place of the cautions; none where nothing
/// does.
pub(crate) fn barred(error: &PageError) -> Option<Markup> {
    let PageError::Barred(all) = error else { return None };
    Some(html! {
        div.caution.danger role="note" {
            p { (report::FIRST) }
            ul { @for one in all { li.hurts { "Do not draw or shoot it: " (one.text) "." } } }
        }
    })
}
