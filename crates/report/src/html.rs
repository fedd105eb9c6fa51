//! The page: one file, no network, no script.

use std::fmt::Write as _;

use study::{Answer, BuildAnswer, SidePair, Sides};
use units::{Role, Style};

use crate::markup::{STYLE, bind, breakable, escape, set};
use crate::plots::Plot;
use crate::sides::{say, tables as side_tables};
use crate::table::{Cell, Table};
use crate::{Provenance, ReportError, headline, prose, show, tables, text, trade, words};

/// The whole page.
pub(crate) fn page(
    answer: &Answer,
    provenance: &Provenance,
    plots: &[Plot],
    style: Style,
) -> Result<String, ReportError> {
    let mut page = Page::open(&answer.title, &headline(answer, style)?, plots);
    if answer.sweeps.is_empty() {
        compared(&mut page, answer, style);
    } else {
        swept(&mut page, answer, style);
    }
    claims(&mut page, answer, style);
    arrows(&mut page, answer, style);
    doubts(&mut page, answer, style);
    page.head("Before you shoot");
    page.list(&prose::CAUTIONS);
    origin(&mut page, answer, provenance);
    Ok(page.close())
}

/// A page in the making.
pub(crate) struct Page<'a> {
    pub(crate) out: String,
    plots: &'a [Plot],
}

impl<'a> Page<'a> {
    /// A page with its title and its sentence.
    pub(crate) fn open(title: &str, sentence: &str, plots: &'a [Plot]) -> Self {
        let (title, sentence) = (escape(title), set(sentence));
        let out = format!(
            "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
             <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
             <meta name=\"color-scheme\" content=\"light dark\">\n<title>{title}</title>\n\
             <style>\n{STYLE}</style>\n</head>\n<body>\n<main>\n<header>\n<h1>{title}</h1>\n\
             <p class=\"answer\">{sentence}</p>\n</header>\n"
        );
        Self { out, plots }
    }

    /// The finished page.
    pub(crate) fn close(mut self) -> String {
        self.out.push_str("</main>\n</body>\n</html>\n");
        self.out
    }

    pub(crate) fn head(&mut self, text: &str) {
        let _ = writeln!(self.out, "<h2>{}</h2>", set(text));
    }

    pub(crate) fn small_head(&mut self, text: &str) {
        let _ = writeln!(self.out, "<h3>{}</h3>", set(text));
    }

    pub(crate) fn say(&mut self, text: &str) {
        let _ = writeln!(self.out, "<p>{}</p>", set(text));
    }

    pub(crate) fn list(&mut self, items: &[&str]) {
        self.out.push_str("<ul>\n");
        for item in items {
            let _ = writeln!(self.out, "<li>{}</li>", set(item));
        }
        self.out.push_str("</ul>\n");
    }

    pub(crate) fn plot(&mut self, name: &str) {
        if let Some(plot) = self.plots.iter().find(|plot| plot.name == name) {
            let caption = set(&plot.caption);
            // The name space is only needed in a file of its own.
            let svg = plot.svg.replacen(" xmlns=\"http://www.w3.org/2000/svg\"", "", 1);
            let _ =
                writeln!(self.out, "<figure>\n{svg}<figcaption>{caption}</figcaption>\n</figure>");
        }
    }

    pub(crate) fn table(&mut self, table: &Table) {
        // A box that scrolls must be reachable by keyboard.
        self.out.push_str("<div class=\"wide\" tabindex=\"0\">\n<table>\n<thead><tr>");
        for column in &table.columns {
            let head = bind(&escape(&column.head));
            let unit = escape(&column.unit);
            let _ = write!(self.out, "<th scope=\"col\">{head}");
            if !unit.is_empty() {
                let _ = write!(self.out, " <span class=\"unit\">{unit}</span>");
            }
            self.out.push_str("</th>");
        }
        self.out.push_str("</tr></thead>\n<tbody>\n");
        for row in &table.rows {
            self.out.push_str("<tr>");
            for (at, cell) in row.iter().enumerate() {
                let tag = if at == 0 { "th scope=\"row\"" } else { "td" };
                let end = if at == 0 { "th" } else { "td" };
                let text = if at == 0 { breakable(&inside(cell)) } else { inside(cell) };
                let _ = write!(self.out, "<{tag}>{text}</{end}>");
            }
            self.out.push_str("</tr>\n");
        }
        self.out.push_str("</tbody>\n</table>\n</div>\n");
    }

    pub(crate) fn folded(&mut self, summary: &str, inside: impl FnOnce(&mut Self)) {
        let summary = set(summary);
        let _ = writeln!(self.out, "<details>\n<summary>{summary}</summary>");
        inside(self);
        self.out.push_str("</details>\n");
    }
}

fn inside(cell: &Cell) -> String {
    match cell {
        Cell::Text(text) => bind(&escape(text)),
        Cell::Interval { value, low, high } => {
            format!("{} <small>{} to {}</small>", escape(value), escape(low), escape(high))
        }
    }
}

fn compared(page: &mut Page, answer: &Answer, style: Style) {
    page.plot("faces.svg");
    page.head("By distance");
    page.table(&tables::distances(answer, style));
    page.say(text::READ);
    page.say(&text::read_more(answer));
    if let Some(sides) = &answer.sides {
        side_by_side(page, answer, sides, style);
    }
    page.plot("groups.svg");
    page.plot("drop.svg");
    for build in &answer.builds {
        let of = show::of(answer, &build.name);
        page.folded(&format!("Groups and flight{of}"), |page| {
            page.small_head("Groups");
            page.table(&tables::groups(build, style));
            page.small_head("Flight of the fault-free arrow");
            page.table(&tables::drop(build, style));
        });
    }
    if !answer.pairs.is_empty() {
        page.head("Who would see it");
        if let Some(sides) = &answer.sides {
            would_see(page, answer, sides, style);
        }
        page.say(&prose::seen(answer));
    }
    for pair in &answer.pairs {
        let (base, other) = (&answer.builds[pair.base].name, &answer.builds[pair.other].name);
        page.small_head(&format!("\"{other}\" against \"{base}\""));
        page.table(&tables::pair(pair, style));
    }
    if answer.builds.iter().any(|build| !build.causes.is_empty()) {
        page.head("Which faults matter");
        page.plot("causes.svg");
        for build in &answer.builds {
            let of = show::of(answer, &build.name);
            page.folded(&format!("Faults{of} at every distance"), |page| {
                page.table(&tables::causes(build, style));
            });
        }
    }
}

/// Every build at each distance, the middle one open.
fn side_by_side(page: &mut Page, answer: &Answer, sides: &Sides, style: Style) {
    page.head("Side by side");
    if let Some(sentence) = say::best(answer, sides, style) {
        page.say(&sentence);
    }
    for pair in sides.pairs.iter().filter(|pair| pair.one == 0) {
        if let Some(sentence) = say::duel(answer, pair, style) {
            page.say(&sentence);
        }
    }
    let reach = say::reach(answer, sides, style);
    if !reach.is_empty() {
        page.plot("hits.svg");
        for sentence in &reach {
            page.say(sentence);
        }
        let _ = writeln!(page.out, "<p class=\"note\">{}</p>", set(say::NO_LICENCE));
    }
    let first: Vec<&SidePair> = sides.pairs.iter().filter(|pair| pair.one == 0).collect();
    let others: Vec<&SidePair> = sides.pairs.iter().filter(|pair| pair.one != 0).collect();
    let middle = show::middle(&answer.builds[0]);
    let tables = |page: &mut Page, at: usize| {
        page.table(&side_tables::builds(answer, sides, at, style));
        if !first.is_empty() {
            page.table(&side_tables::differences(answer, &first, at, style));
        }
        if !others.is_empty() {
            page.folded("The other pairs", |page| {
                page.table(&side_tables::differences(answer, &others, at, style));
            });
        }
    };
    page.small_head(&side_tables::at(answer, middle, style));
    tables(page, middle);
    page.say(prose::DIFFERENCES);
    for at in (0..answer.builds[0].marks.len()).filter(|&at| at != middle) {
        page.folded(&side_tables::at(answer, at, style), |page| tables(page, at));
    }
}

/// How many shots a difference takes, and how often fewer mislead.
fn would_see(page: &mut Page, answer: &Answer, sides: &Sides, style: Style) {
    let middle = show::middle(&answer.builds[0]);
    for pair in sides.pairs.iter().filter(|pair| pair.one == 0) {
        page.say(&say::told(answer, sides, pair, style));
    }
    page.plot("power.svg");
    for pair in &sides.pairs {
        let (one, other) = (&answer.builds[pair.one].name, &answer.builds[pair.other].name);
        let at = side_tables::at(answer, middle, style);
        page.folded(
            &format!("{at}, \"{other}\" against \"{one}\": how often a few shots mislead"),
            |page| {
                if pair.one != 0 {
                    page.say(&say::told(answer, sides, pair, style));
                }
                page.table(&side_tables::after(pair, middle, style));
            },
        );
    }
    page.say(prose::MISLED);
}

fn swept(page: &mut Page, answer: &Answer, style: Style) {
    for (at, sweep) in answer.sweeps.iter().enumerate() {
        let Some(first) = sweep.points.first() else { continue };
        let name = words::value(&sweep.key);
        page.head(&format!("The {name}{}", show::of(answer, &sweep.build)));
        page.plot(&format!("sweep-{}-groups.svg", at + 1));
        page.plot(&format!("sweep-{}-drop.svg", at + 1));
        let middle = show::middle(&first.build);
        for (at, mark) in first.build.marks.iter().enumerate() {
            let range = show::plain(Role::Range, mark.distance.si(), style);
            if at == middle {
                page.small_head(&format!("At {range}"));
                page.table(&tables::sweep(sweep, at, style));
            } else {
                page.folded(&format!("At {range}"), |page| {
                    page.table(&tables::sweep(sweep, at, style));
                });
            }
        }
    }
    page.say(text::READ);
}

fn claims(page: &mut Page, answer: &Answer, style: Style) {
    let verdicts = trade::verdicts(answer, style);
    if verdicts.is_empty() {
        return;
    }
    page.head("What the trade says");
    page.say("Common practice, no source. Nothing here was assumed; each was computed.");
    page.out.push_str("<dl>\n");
    for verdict in verdicts {
        let _ = writeln!(
            page.out,
            "<dt>{}</dt>\n<dd><b>The computation {}.</b> {}",
            set(verdict.claim),
            verdict.finding,
            set(&verdict.why)
        );
        if let Some(table) = &verdict.table {
            page.table(table);
        }
        page.out.push_str("</dd>\n");
    }
    page.out.push_str("</dl>\n");
}

fn arrows(page: &mut Page, answer: &Answer, style: Style) {
    page.head("The arrows");
    if answer.sweeps.is_empty() {
        let alone = answer.builds.len() == 1;
        let named: Vec<(&str, &BuildAnswer)> = answer
            .builds
            .iter()
            .map(|build| (if alone { "as built" } else { build.name.as_str() }, build))
            .collect();
        page.table(&tables::card(&named, style));
    }
    for sweep in &answer.sweeps {
        let named: Vec<(&str, &BuildAnswer)> =
            sweep.points.iter().map(|point| (point.label.as_str(), &point.build)).collect();
        let of = show::of(answer, &sweep.build);
        page.small_head(&format!("By {}{of}", words::value(&sweep.key)));
        page.table(&tables::card(&named, style));
    }
    for note in text::notes(answer, style) {
        let _ = writeln!(page.out, "<p class=\"note\">{}</p>", set(&note));
    }
}

fn doubts(page: &mut Page, answer: &Answer, style: Style) {
    page.head("How sure is this");
    page.list(&prose::SURE);
    if answer.builds.iter().all(|build| build.doubts.is_empty()) {
        return;
    }
    page.folded("The poorly known values and what they do", |page| {
        page.table(&tables::doubts(&answer.builds, style));
        if answer.sweeps.is_empty() {
            for build in &answer.builds {
                page.small_head(&format!("Bands{}", show::of(answer, &build.name)));
                page.table(&tables::build_bands(build, style));
            }
        }
        for sweep in &answer.sweeps {
            let Some(first) = sweep.points.first() else { continue };
            let at = show::middle(&first.build);
            let range = show::plain(Role::Range, first.build.marks[at].distance.si(), style);
            page.small_head(&format!("Bands{} at {range}", show::of(answer, &sweep.build)));
            page.table(&tables::sweep_bands(sweep, at, style));
        }
    });
}

pub(crate) fn origin(page: &mut Page, answer: &Answer, provenance: &Provenance) {
    page.head("Where this comes from");
    let _ = writeln!(
        page.out,
        "<p>Clothyard {}, scenario <code>{}</code>, seed {}, {} flights in six degrees of \
         freedom. The same scenario, seed and version give the same numbers.</p>",
        escape(&provenance.version),
        escape(&provenance.source_name),
        provenance.seed,
        show::count(answer.flown as u64)
    );
    let scenario = escape(&provenance.scenario);
    page.folded("The scenario as it was used, every default filled in", |page| {
        let _ = writeln!(page.out, "<pre tabindex=\"0\">{scenario}</pre>");
    });
}
