//! A story told once, for the page and for the terminal.

use std::fmt::Write as _;

use super::BenchReport;
use crate::html::Page;
use crate::markup::escape;
use crate::plots::Plot;
use crate::prose;
use crate::table::{Table, wrap};

/// A piece of a story.
pub(super) enum Part {
    Head(&'static str),
    Say(String),
    Table(Table),
    /// A plot, on the page alone.
    Plot(String),
}

/// What was found, in order.
pub(super) struct Story {
    /// The answer in a sentence or two.
    pub(super) headline: String,
    pub(super) parts: Vec<Part>,
    /// What the numbers rest on.
    pub(super) sure: Vec<&'static str>,
    /// Whether carbon is cut or sanded for it.
    pub(super) saws: bool,
    /// Tables as CSV with their file names.
    pub(super) sheets: Vec<(&'static str, String)>,
}

/// Cautions of the bench, common practice; those of every report follow.
const CAUTIONS: [&str; 3] = [
    "Carbon splinters cut and its dust stays in the lungs: tape the shaft where the saw goes, turn \
     it as it is cut, sand the edge wet, and wear mask, glasses and gloves.",
    "Keep the saw's guard on and your fingers behind the fence; unplug it to change a wheel.",
    "Flex and inspect every carbon shaft after each cut and before each shot. On any doubt, a crack, a creak, a soft spot, \
     break it so that nobody shoots it.",
];

impl Story {
    /// Those that this story needs; the last is always due.
    fn cautions(&self) -> &'static [&'static str] {
        if self.saws { &CAUTIONS } else { &CAUTIONS[2..] }
    }

    pub(super) fn page(&self, report: &BenchReport, plots: &[Plot]) -> String {
        let mut page = Page::open(report.title, &self.headline, plots);
        for part in &self.parts {
            match part {
                Part::Head(text) => page.head(text),
                Part::Say(text) => page.say(text),
                Part::Table(table) => page.table(table),
                Part::Plot(name) => page.plot(name),
            }
        }
        page.head("How sure is this");
        page.list(&self.sure);
        page.head(if self.saws { "Before you cut and shoot" } else { "Before you shoot" });
        let cautions: Vec<&str> = self.cautions().iter().copied().chain(prose::CAUTIONS).collect();
        page.list(&cautions);
        origin(&mut page, report);
        page.close()
    }

    pub(super) fn lines(&self, title: &str, width: usize) -> String {
        let paragraph = |text: &str| wrap(text, width).join("\n") + "\n";
        let mut out = paragraph(title);
        out.push('\n');
        out.push_str(&paragraph(&self.headline));
        for part in &self.parts {
            match part {
                Part::Head(text) => {
                    let _ = write!(out, "\n{}\n", text.to_uppercase());
                }
                Part::Say(text) => {
                    let _ = write!(out, "\n{}", paragraph(text));
                }
                Part::Table(table) => {
                    let _ = write!(out, "\n{}", table.lines(width));
                }
                Part::Plot(_) => {}
            }
        }
        for text in self.cautions() {
            let _ = write!(out, "\n{}", paragraph(text));
        }
        out
    }
}

fn origin(page: &mut Page, report: &BenchReport) {
    let provenance = report.provenance;
    page.head("Where this comes from");
    let _ = writeln!(
        page.out,
        "<p>Clothyard {}, scenario <code>{}</code>, seed {}. The same files and version give the \
         same numbers.</p>",
        escape(&provenance.version),
        escape(&provenance.source_name),
        provenance.seed,
    );
    for (name, text) in report.notebooks {
        page.folded(&format!("The notebook {name} as it was read"), |page| {
            let _ = writeln!(page.out, "<pre tabindex=\"0\">{}</pre>", escape(text));
        });
    }
    let scenario = escape(&provenance.scenario);
    page.folded("The scenario as it was used, every default filled in", |page| {
        let _ = writeln!(page.out, "<pre tabindex=\"0\">{scenario}</pre>");
    });
}
