use std::fmt;

use annotate_snippets::{AnnotationKind, Group, Level, Renderer, Snippet};

use crate::ScenarioError;
use crate::source::{Place, Sources};

/// One thing wrong with a scenario, and where.
#[derive(Debug, Clone, PartialEq)]
pub struct Problem {
    /// What is wrong.
    pub error: ScenarioError,
    /// Where; none when the scenario file itself cannot be read.
    pub(crate) place: Option<Place>,
    /// A second place that matters, and what is there.
    pub(crate) also: Option<(Place, &'static str)>,
}

/// Everything wrong with a scenario.
#[derive(Debug, Clone)]
pub struct Report {
    pub(crate) sources: Sources,
    pub(crate) problems: Vec<Problem>,
}

impl Report {
    /// The problems, in the order of reading.
    pub fn problems(&self) -> &[Problem] {
        &self.problems
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
        out.truncate(out.trim_end().len());
        out
    }

    fn group<'a>(&'a self, problem: &Problem) -> Group<'a> {
        let title = Level::ERROR.primary_title(problem.error.to_string());
        let Some(place) = problem.place else {
            return Group::with_title(title);
        };
        let primary =
            AnnotationKind::Primary.span(place.start..place.end).label(problem.error.label());
        let source = &self.sources.0[place.file];
        let mut snippet = Snippet::source(source.text.as_str())
            .path(source.path.display().to_string())
            .annotation(primary);
        let mut notes = Vec::new();
        if let Some((other, what)) = problem.also {
            if other.file == place.file {
                let mark = AnnotationKind::Context.span(other.start..other.end).label(what);
                snippet = snippet.annotation(mark);
            } else {
                notes.push(format!("{what}: {}", self.sources.file_line(other)));
            }
        }
        if let Some(named_at) = source.named_at {
            notes.push(format!("this part is used at {}", self.sources.file_line(named_at)));
        }
        title
            .element(snippet)
            .elements(notes.into_iter().map(|note| Level::NOTE.message(note)))
            .elements(problem.error.helps().into_iter().map(|help| Level::HELP.message(help)))
    }
}

impl fmt::Display for Report {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.render(false))
    }
}

impl std::error::Error for Report {}
