//! What a document is made of.

use draw::Figure;
use units::Style;

use super::table::Table;
use crate::{CautionText, Provenance, ReportError};

/// A piece of a document.
#[derive(Debug, Clone)]
pub enum Part {
    /// Heads what follows.
    Head(String),
    /// Heads a part of what a [`Part::Head`] heads.
    Small(String),
    /// A paragraph.
    Say(String),
    /// A paragraph that must not be overlooked.
    Note(String),
    /// Short paragraphs of one kind.
    List(Vec<String>),
    /// What is said, what became of it, and why.
    Claim {
        /// What is said.
        claim: String,
        /// What the computation does with it.
        finding: String,
        /// The reason.
        why: String,
    },
    /// A table.
    Table(Table),
    /// A table too long to read; only files hold it.
    Data(Table),
    /// A picture.
    Figure(Figure),
    /// Parts that a page shows when asked.
    Fold(String, Vec<Part>),
    /// Parts for a page alone, not for a terminal.
    Page(Vec<Part>),
    /// A text as it is.
    Verbatim(String),
}

/// An answer as people and programs read it.
#[derive(Debug, Clone)]
pub struct Document {
    /// What was asked, in one word.
    pub(crate) kind: &'static str,
    /// Title.
    pub(crate) title: String,
    /// What to mind first, each a short paragraph.
    pub(crate) cautions: Vec<CautionText>,
    /// The answer in one or two sentences.
    pub(crate) lead: String,
    /// The same in a few lines, first the sentence that answers the title; empty where
    /// the whole is short.
    pub(crate) short: Vec<Part>,
    /// All else.
    pub(crate) parts: Vec<Part>,
    /// What the numbers come from, told at the end.
    pub(crate) origin: Option<Origin>,
    /// Units of the words, and of the numbers where they are read.
    pub(crate) style: Style,
}

/// Where an answer comes from.
#[derive(Debug, Clone, Default)]
pub(crate) struct Origin {
    /// Program, scenario and seed.
    pub(crate) provenance: Provenance,
    /// Flights flown; none where nothing was drawn by chance.
    pub(crate) flown: Option<usize>,
    /// Names and texts of other files that were read.
    pub(crate) read: Vec<(String, String)>,
}

/// How the short answer begins to say what its numbers rest on, and how it ends that.
const ASSUMED: &str = "Assumed: ";
const WRITE: &str = "; write them to narrow this.";

/// How the short answer begins to say what to do next.
const NEXT: &str = "Next: ";

impl Document {
    /// A document, all numbers of which are finite.
    ///
    /// # Errors
    /// [`ReportError::NotFinite`] names the first number that is not.
    pub(crate) fn new(
        kind: &'static str,
        title: impl Into<String>,
        lead: impl Into<String>,
        parts: Vec<Part>,
        style: Style,
    ) -> Result<Self, ReportError> {
        let (title, lead) = (title.into(), lead.into());
        let (cautions, short) = (Vec::new(), Vec::new());
        let new = Self { kind, title, cautions, lead, short, parts, origin: None, style };
        new.tables().into_iter().try_for_each(Table::check)?;
        Ok(new)
    }

    /// The same with its short answer; tables in it are shown, not filed.
    ///
    /// # Errors
    /// [`ReportError::NotFinite`] names the first number that is not.
    pub(crate) fn shortly(mut self, short: Vec<Part>) -> Result<Self, ReportError> {
        self.short = short;
        self.short_tables().into_iter().try_for_each(Table::check)?;
        Ok(self)
    }

    /// The same, its short answer the sentences it begins with and so much of its first
    /// table.
    pub(crate) fn briefly(mut self, rows: usize, columns: usize) -> Self {
        let table = self.parts.iter().find_map(|part| match part {
            Part::Table(table) => Some(table.clone()),
            _ => None,
        });
        self.short = vec![say(self.lead.clone())];
        self.short.extend(table.map(|of| Part::Table(of.at_most(rows).no_wider(columns))));
        self
    }

    /// The same with another sentence first.
    #[must_use]
    pub fn beginning(mut self, sentence: &str) -> Self {
        self.lead = format!("{sentence} {}", self.lead);
        if !self.short.is_empty() {
            self.short.insert(0, say(sentence));
        }
        self
    }

    /// What the short answer says to do next, without its first word; none where it says
    /// nothing.
    pub(crate) fn next(&self) -> Option<&str> {
        match self.short.last() {
            Some(Part::Say(last)) => last.strip_prefix(NEXT),
            _ => None,
        }
    }

    /// The same with something else to do next, where there is a short answer.
    pub(crate) fn and_next(mut self, next: &str) -> Self {
        if self.next().is_some() {
            self.short.pop();
        }
        if !self.short.is_empty() {
            self.short.push(say(format!("{NEXT}{next}")));
        }
        self
    }

    /// The same with one more sentence in its short answer, before what to do next.
    pub(crate) fn and_shortly(mut self, sentence: String) -> Self {
        if !self.short.is_empty() {
            let place = self.short.len() - usize::from(self.next().is_some());
            self.short.insert(place, say(sentence));
        }
        self
    }

    /// The same with more that its short answer rests on, in front of what it names
    /// already.
    #[must_use]
    pub fn assuming(mut self, assumed: &[String]) -> Self {
        if assumed.is_empty() || self.short.is_empty() {
            return self;
        }
        let new = assumed.join(", ");
        for part in &mut self.short {
            if let Part::Say(told) = part
                && let Some(rest) = told.strip_prefix(ASSUMED)
            {
                *told = format!("{ASSUMED}{new}, {rest}");
                return self;
            }
        }
        self.and_shortly(assumed_said(assumed))
    }

    /// The tables of the short answer.
    pub(super) fn short_tables(&self) -> Vec<&Table> {
        let mut found = Vec::new();
        for part in &self.short {
            if let Part::Table(table) = part {
                found.push(table);
            }
        }
        found
    }

    /// Every table, those of the short answer too.
    pub(super) fn every_table(&self) -> Vec<&Table> {
        [self.tables(), self.short_tables()].concat()
    }

    /// The same with one more part at its end.
    pub(crate) fn and(mut self, part: Part) -> Self {
        self.parts.push(part);
        self
    }

    /// The same with more to mind before its answer is read; what is said already is
    /// not said again.
    #[must_use]
    pub fn cautioned(mut self, cautions: Vec<CautionText>) -> Self {
        for (place, caution) in cautions.into_iter().enumerate() {
            if !self.cautions.contains(&caution) {
                self.cautions.insert(place.min(self.cautions.len()), caution);
            }
        }
        unsaid(&mut self.parts, &self.cautions);
        self
    }

    /// What to mind before the answer is read.
    pub fn cautions(&self) -> &[CautionText] {
        &self.cautions
    }

    /// The same with where it comes from.
    pub(crate) fn from(self, origin: Origin) -> Self {
        Self { origin: Some(origin), ..self }
    }

    /// The answer in one or two sentences.
    pub fn lead(&self) -> &str {
        &self.lead
    }

    /// The sentence that answers the title.
    pub fn verdict(&self) -> &str {
        match self.short.first() {
            Some(Part::Say(first)) => first,
            _ => &self.lead,
        }
    }

    /// Every table, in order.
    pub fn tables(&self) -> Vec<&Table> {
        let mut found = Vec::new();
        self.each(&mut |part| {
            if let Part::Table(table) | Part::Data(table) = part {
                found.push(table);
            }
        });
        found
    }

    /// Every table in turn, to be changed.
    pub(super) fn each_table(&mut self, visit: &mut dyn FnMut(&mut Table)) {
        fn walk(parts: &mut [Part], visit: &mut dyn FnMut(&mut Table)) {
            for part in parts {
                match part {
                    Part::Table(table) | Part::Data(table) => visit(table),
                    Part::Fold(_, inner) | Part::Page(inner) => walk(inner, visit),
                    _ => {}
                }
            }
        }
        walk(&mut self.parts, visit);
        walk(&mut self.short, visit);
    }

    /// Every figure, in order.
    pub(crate) fn figures(&self) -> Vec<&Figure> {
        let mut found = Vec::new();
        self.each(&mut |part| {
            if let Part::Figure(figure) = part {
                found.push(figure);
            }
        });
        found
    }

    /// Visits every part, those within others too.
    pub(super) fn each<'a>(&'a self, visit: &mut impl FnMut(&'a Part)) {
        fn walk<'a>(parts: &'a [Part], visit: &mut impl FnMut(&'a Part)) {
            for part in parts {
                visit(part);
                if let Part::Fold(_, inner) | Part::Page(inner) = part {
                    walk(inner, visit);
                }
            }
        }
        walk(&self.parts, visit);
    }
}

/// What an answer rests on, a sentence.
pub(crate) fn assumed_said(assumed: &[String]) -> String {
    format!("{ASSUMED}{}{WRITE}", assumed.join(", "))
}

/// Takes out of lists what is said among the cautions.
fn unsaid(parts: &mut [Part], said: &[CautionText]) {
    for part in parts {
        match part {
            Part::List(items) => items.retain(|item| said.iter().all(|of| of.full != *item)),
            Part::Fold(_, inner) | Part::Page(inner) => unsaid(inner, said),
            _ => {}
        }
    }
}

/// A heading.
pub(crate) fn head(text: impl Into<String>) -> Part {
    Part::Head(text.into())
}

/// A heading below a heading.
pub(crate) fn small(text: impl Into<String>) -> Part {
    Part::Small(text.into())
}

/// A paragraph.
pub(crate) fn say(text: impl Into<String>) -> Part {
    Part::Say(text.into())
}

/// A paragraph that must not be overlooked.
pub(crate) fn note(text: impl Into<String>) -> Part {
    Part::Note(text.into())
}

/// Short paragraphs.
pub(crate) fn list<T: AsRef<str>>(items: impl IntoIterator<Item = T>) -> Part {
    Part::List(items.into_iter().map(|item| item.as_ref().to_owned()).collect())
}

/// Parts shown when asked.
pub(crate) fn fold(summary: impl Into<String>, parts: Vec<Part>) -> Part {
    Part::Fold(summary.into(), parts)
}
