use std::fmt;
use std::ops::Deref;

use annotate_snippets::{AnnotationKind, Group, Level, Renderer, Snippet};

use crate::ScenarioError;
use crate::alike::kind;
use crate::schema::{Id, in_a_word, last, plain_word, plain_word_of};
use crate::slip::{Slip, Slipped};
use crate::source::{Place, Sources};
use crate::written::quoted;

/// One thing wrong with a scenario, and where.
#[derive(Debug, Clone, PartialEq)]
pub struct Problem {
    /// What is wrong.
    pub error: ScenarioError,
    /// Where; none when the scenario file itself cannot be read.
    pub(crate) place: Option<Place>,
    /// A second place that matters, and what is there.
    pub(crate) also: Option<(Place, &'static str)>,
    /// Where the same mistake is made again.
    pub(crate) again: Vec<Place>,
}

/// Mistakes told of one reading. Chosen: two screens full.
const MOST_TOLD: usize = 40;

/// Lines named where a mistake is made again. Chosen: a dozen.
const LINES: usize = 12;

/// What is found wrong while reading. Beyond the most that are told, mistakes are
/// only counted, so that a file of nothing else is read in no more time than
/// another.
#[derive(Debug, Clone, Default)]
pub(crate) struct Problems {
    told: Vec<Problem>,
    more: usize,
}

impl Deref for Problems {
    type Target = [Problem];
    fn deref(&self) -> &[Problem] {
        &self.told
    }
}

impl Problems {
    /// Adds a mistake.
    pub(crate) fn push(&mut self, problem: Problem) {
        if self.full() {
            self.more += 1;
        } else {
            self.told.push(problem);
        }
    }

    /// Adds a mistake, or the place of one that is told already of the same column.
    pub(crate) fn push_alike(&mut self, problem: Problem) {
        let of = kind(&problem.error);
        let told = self.told.iter_mut().find(|told| of.is_some() && kind(&told.error) == of);
        match (told, problem.place) {
            (Some(told), Some(place)) => told.again.push(place),
            _ => self.push(problem),
        }
    }

    /// Takes back what is told of the cells of a column.
    pub(crate) fn forget(&mut self, column: &str) {
        self.told.retain(|told| kind(&told.error).is_none_or(|(.., of)| of != column));
    }

    /// Leaves out all but some.
    pub(crate) fn keep(&mut self, which: impl Fn(&Problem) -> bool) {
        self.told.retain(which);
    }

    /// Whether one more would only be counted.
    pub(crate) fn full(&self) -> bool {
        self.told.len() >= MOST_TOLD
    }

    /// Counts a mistake that is not told.
    pub(crate) fn count(&mut self) {
        self.more += 1;
    }

    /// The report, in the order of the files, not of the search; what is not written comes
    /// behind what is written wrong, which is often the reason.
    pub(crate) fn report(mut self, sources: Sources) -> Report {
        let unwritten = |error: &ScenarioError| {
            matches!(error, ScenarioError::Missing { .. } | ScenarioError::NoSpeed { .. })
        };
        self.told.sort_by_key(|problem| (unwritten(&problem.error), problem.place));
        Report { sources, problems: self.told, more: self.more }
    }
}

/// Everything wrong with a scenario.
#[derive(Debug, Clone)]
pub struct Report {
    pub(crate) sources: Sources,
    problems: Vec<Problem>,
    more: usize,
}

impl Report {
    /// The problems, in the order of reading.
    pub fn problems(&self) -> &[Problem] {
        &self.problems
    }

    /// How many more there are than are told.
    pub fn more(&self) -> usize {
        self.more
    }

    /// The same without some of the problems; none where nothing is left.
    pub(crate) fn without(mut self, left_out: impl Fn(&Problem) -> bool) -> Option<Self> {
        self.problems.retain(|problem| !left_out(problem));
        (!self.problems.is_empty()).then_some(self)
    }

    /// File, line and column of a problem.
    pub fn position(&self, problem: &Problem) -> Option<(String, usize, usize)> {
        let place = problem.place?;
        let (line, column) = self.sources.line_column(place);
        Some((self.sources.name(place), line, column))
    }

    /// The key that a problem belongs to, of those set by
    /// [`crate::Scenario::edited`].
    pub fn edited(&self, problem: &Problem) -> Option<&'static str> {
        let places = [problem.place, problem.also.map(|(place, _)| place)];
        let set = |place: Place| self.sources.1.iter().find(|(file, _)| *file == place.file);
        places.into_iter().flatten().find_map(set).map(|(_, key)| *key)
    }

    /// All problems as text to read, with colours for a terminal if asked.
    pub fn render(&self, colour: bool) -> String {
        let renderer = if colour { Renderer::styled() } else { Renderer::plain() };
        let mut out = String::new();
        for problem in &self.problems {
            out.push_str(&renderer.render(&[self.group(problem)]));
            out.push_str("\n\n");
        }
        if self.more > 0 {
            let title = format!("{} more mistakes are not shown", self.more);
            let group = Group::with_title(Level::ERROR.primary_title(title));
            out.push_str(&renderer.render(&[group]));
        }
        out.truncate(out.trim_end().len());
        out
    }

    /// Where else the same mistake is made.
    fn again(&self, problem: &Problem) -> Option<String> {
        let line = |place: &Place| self.sources.line_column(*place).0;
        let first = problem.place.as_ref().map(line);
        let mut lines: Vec<usize> = problem.again.iter().map(line).collect();
        lines.dedup();
        lines.retain(|line| Some(*line) != first);
        let lines: Vec<String> = lines.iter().map(usize::to_string).collect();
        let word = if lines.len() == 1 { "line" } else { "lines" };
        match lines.as_slice() {
            [] => None,
            few if few.len() <= LINES => Some(format!("the same in {word} {}", few.join(", "))),
            many => Some(format!(
                "the same in {} more lines: {} and on",
                many.len(),
                many[..LINES].join(", ")
            )),
        }
    }

    /// The message and its hints, in the ordinary word that the file says in place of the
    /// key.
    fn said(&self, problem: &Problem) -> (String, Vec<String>) {
        let (told, helps) = (problem.error.to_string(), problem.error.helps());
        let missing = match problem.error {
            ScenarioError::Missing { key, .. } => Some(key),
            _ => None,
        };
        let word = problem.place.and_then(|place| {
            // What is missing in the whole file is told at its very first place.
            let lines = self.above(place, missing.is_some() && place.start == 0);
            match missing {
                Some(key) => {
                    let ordinary = lines.iter().any(|line| ordinary(line).is_some());
                    plain_word_of(key).filter(|_| ordinary).map(|word| (word, key))
                }
                None => lines.last().and_then(|line| ordinary(line)).map(|(w, id)| (w, id.path())),
            }
        });
        let Some((word, path)) = word else { return (told, helps) };
        // A line that is shown whole says its word already.
        let line = |slip: &Slip| slip.what != Slipped::NotAList;
        if matches!(&problem.error, ScenarioError::Slip(slip) if line(slip)) {
            return (told.replacen(path, word, 1), helps);
        }
        let said = if word.contains(' ') { quoted(word) } else { word.to_owned() };
        let example = (format!("{} = ", last(path)), format!("{said} = "));
        let helps = helps.into_iter().map(|help| help.replacen(&example.0, &example.1, 1));
        (told.replacen(path, word, 1), helps.collect())
    }

    /// The lines of the top of a file, all or up to that of a place; none below the first
    /// table.
    fn above(&self, place: Place, all: bool) -> Vec<&str> {
        let text = &self.sources.0[place.file].text;
        let upto = if all { text.len() } else { place.start };
        let end = text[upto..].find('\n').map_or(text.len(), |end| upto + end);
        let table = |line: &&str| line.trim_start().starts_with('[');
        let lines: Vec<&str> = text[..end].lines().collect();
        if place.start > 0 && lines.iter().any(table) {
            return Vec::new();
        }
        lines.into_iter().take_while(|line| !table(line)).collect()
    }

    fn group<'a>(&'a self, problem: &Problem) -> Group<'a> {
        let (said, helps) = self.said(problem);
        let title = Level::ERROR.primary_title(said);
        let Some(place) = problem.place else {
            return Group::with_title(title);
        };
        let source = &self.sources.0[place.file];
        let also = problem.also.map(|(other, _)| other).filter(|other| other.file == place.file);
        // Only the lines in question, however long the file is.
        let from = place.start.min(also.map_or(place.start, |other| other.start));
        let upto = place.end.max(also.map_or(place.end, |other| other.end));
        let from = source.text[..from].rfind('\n').map_or(0, |end| end + 1);
        let upto = source.text[upto..].find('\n').map_or(source.text.len(), |end| upto + end);
        let before = source.text[..from].bytes().filter(|&byte| byte == b'\n').count();
        let span = |place: Place| place.start - from..place.end - from;
        let primary = AnnotationKind::Primary.span(span(place)).label(problem.error.label());
        let mut snippet = Snippet::source(&source.text[from..upto])
            .line_start(before + 1)
            .path(source.path.display().to_string())
            .annotation(primary);
        let mut notes = Vec::new();
        if let Some((other, what)) = problem.also {
            if other.file == place.file {
                let mark = AnnotationKind::Context.span(span(other)).label(what);
                snippet = snippet.annotation(mark);
            } else {
                notes.push(format!("{what}: {}", self.sources.file_line(other)));
            }
        }
        if let Some(named_at) = source.named_at {
            notes.push(format!("this part is used at {}", self.sources.file_line(named_at)));
        }
        notes.extend(self.again(problem));
        title
            .element(snippet)
            .elements(notes.into_iter().map(|note| Level::NOTE.message(note)))
            .elements(helps.into_iter().map(|help| Level::HELP.message(help)))
    }
}

/// The ordinary word that a line gives a value, and its key.
fn ordinary(line: &str) -> Option<(&str, Id)> {
    let word = line.split_once('=')?.0.trim().trim_matches(['"', '\'']);
    Some((word, plain_word(word).or_else(|| in_a_word(word))?))
}

impl fmt::Display for Report {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.render(false))
    }
}

impl std::error::Error for Report {}
