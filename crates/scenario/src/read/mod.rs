//! From files to layers, from layers to builds.

mod build;
mod change;
mod compare;
mod edit;
mod evidence;
mod form;
mod law;
mod line;
mod marks;
pub(crate) mod near;
mod question;
mod rows;
mod speed;
mod step;
mod tune;
mod value;
mod walk;

use std::io;
use std::path::{Path, PathBuf};

use toml::de::DeTable;
use units::Style;

use crate::entry::{Entry, Layer};
use crate::evidence::Clue;
use crate::measured::TableMistake;
use crate::report::Problems;
use crate::schema::Id;
use crate::source::{Place, Source, Sources};
use crate::step::Step;
use crate::{Problem, Report, Scenario, ScenarioError};

/// Reads the text of a file.
pub type Files<'a> = dyn Fn(&Path) -> Result<String, io::Error> + 'a;

/// Reads a scenario and its part files.
///
/// `files` opens them: this crate touches no disk. A part's path is taken
/// from the folder of the file that names it.
///
/// # Errors
/// A [`Report`] with every problem found, each with its place.
pub fn read(path: &Path, files: &Files<'_>) -> Result<Scenario, Report> {
    read_in(path, None, files)
}

/// The same for an answer in a family of units, whatever the file says of it: some
/// defaults are round in metres or in yards.
///
/// # Errors
/// As [`read`].
pub fn read_in(path: &Path, units: Option<Style>, files: &Files<'_>) -> Result<Scenario, Report> {
    let mut reader = Reader { units, ..Reader::new(files) };
    let text = files(path).unwrap_or_else(|error| {
        let reason = error.kind();
        reader
            .problem(None, ScenarioError::Unreadable { path: path.display().to_string(), reason });
        String::new()
    });
    let source = Source { path: path.to_owned(), text: text.clone(), named_at: None };
    let file = reader.sources.add(source);
    if like_table(&text) {
        let place = reader.sources.place(file, 0..text.lines().next().map_or(0, str::len));
        let path = path.display().to_string();
        let mistake = TableMistake::ForScenario(path);
        reader.problem(Some(place), ScenarioError::Table { at: None, mistake });
    }
    let scenario = if reader.problems.is_empty() { reader.scenario(file, &text) } else { None };
    reader.end(scenario)
}

/// One build's name and everything said of it.
pub(crate) struct Draft {
    /// The name, if builds are listed.
    name: Option<String>,
    layer: Layer,
}

struct Reader<'a> {
    files: &'a Files<'a>,
    sources: Sources,
    problems: Problems,
    /// Whether every file could be parsed, so that what is missing is known.
    whole: bool,
    /// The units asked for beside the file.
    units: Option<Style>,
}

/// Whether a text is a table: its first lines have several cells each, and neither a key
/// with a value nor a name in brackets, of which a scenario is made.
fn like_table(text: &str) -> bool {
    let said = |line: &&str| !line.is_empty() && !line.starts_with('#');
    let mut lines = text.trim_start_matches('\u{feff}').lines().map(str::trim).filter(said).take(2);
    let cells = |line: &str| {
        !line.contains('=') && !line.starts_with('[') && line.contains([',', ';', '\t'])
    };
    lines.next().is_some_and(cells) && lines.all(cells)
}

impl<'a> Reader<'a> {
    fn new(files: &'a Files<'a>) -> Self {
        let (sources, problems) = (Sources::default(), Problems::default());
        Self { files, sources, problems, whole: true, units: None }
    }

    /// The scenario, or everything that is wrong with it.
    fn end(self, scenario: Option<Scenario>) -> Result<Scenario, Report> {
        match scenario {
            Some(scenario) if self.problems.is_empty() => Ok(scenario),
            _ => Err(self.problems.report(self.sources)),
        }
    }
}

impl Reader<'_> {
    fn scenario(&mut self, file: usize, text: &str) -> Option<Scenario> {
        let table = self.parse(file, text)?;
        let (common, drafts) = self.top(file, &table);
        let steps = self.steps(file, &table);
        let clues = self.evidence(file, &table);
        let start = self.sources.place(file, 0..0);
        self.settle((common, drafts), (steps, clues), start)
    }

    /// Builds and question from what was said of them.
    fn settle(
        &mut self,
        (common, drafts): (Layer, Vec<Draft>),
        (steps, clues): (Vec<Step>, Vec<Clue>),
        start: Place,
    ) -> Option<Scenario> {
        let rigid = common.entries.get(&Id::Model).and_then(Entry::text) == Some("rigid-body");
        let mut top = self.settle_question(&common, start);
        let mut builds: Vec<_> = if rigid {
            Vec::new()
        } else {
            drafts.into_iter().map(|draft| self.settle_build(draft, start)).collect()
        };
        self.measured(&common, &builds);
        self.marks(&mut top, &common, &builds, start);
        self.correlated(&top, start);
        self.check_steps(&common, &steps, &builds, start);
        self.check_evidence(&clues, &builds);
        let question = self.question(&mut top, &builds, &steps, start);
        if self.problems.is_empty() {
            speed::of_own_arrow(&mut builds);
            self.form(&mut builds);
        }
        if !self.problems.is_empty() {
            return None;
        }
        let more = (steps, clues);
        let scenario = Scenario::new(self.sources.clone(), (common, top), builds, more, question?);
        for (build, step, error) in scenario.impossible() {
            let table = match error {
                ScenarioError::NotAnArrow { .. } => "arrow.shaft",
                ScenarioError::NoDeparture { .. } => "bow",
                _ => "air",
            };
            let curve = build.layer.entries.get(&Id::BowCurve).and_then(Entry::place);
            let short = matches!(
                error,
                ScenarioError::NoDeparture { cause: launch::LaunchError::CurveShort { .. }, .. }
            );
            let place = step
                .or(curve.filter(|_| short))
                .unwrap_or_else(|| near::nearest_table(&build.layer, table, start));
            self.problem(Some(place), error);
        }
        for (clue, fault) in scenario.unmeasurable() {
            let place = near::changed(&clue.layer, clue.place);
            self.problem(Some(place), fault.into());
        }
        Some(scenario)
    }

    /// Parses a file, reporting what is not TOML.
    fn parse<'t>(&mut self, file: usize, text: &'t str) -> Option<DeTable<'t>> {
        let (table, errors) = DeTable::parse_recoverable(text);
        if errors.is_empty() {
            return Some(table.into_inner());
        }
        self.whole = false;
        // What is known of a line is told once.
        let mut told = Vec::new();
        for error in errors {
            let place = self.sources.place(file, error.span().unwrap_or(0..0));
            let start = line::start(text, place.start);
            if told.contains(&start) {
                continue;
            }
            // One more would only be counted.
            if self.problems.full() {
                self.problems.count();
                continue;
            }
            if let Some((span, slip)) = line::slip(text, place.start) {
                told.push(start);
                self.problem(Some(self.sources.place(file, span)), slip.into());
            } else {
                let detail = error.message().trim().replace('\n', ", ");
                self.problem(Some(place), ScenarioError::Syntax(detail));
            }
        }
        None
    }

    fn problem(&mut self, place: Option<Place>, error: ScenarioError) {
        self.problem_with(place, None, error);
    }

    fn problem_with(
        &mut self,
        place: Option<Place>,
        also: Option<(Place, &'static str)>,
        error: ScenarioError,
    ) {
        let problem = Problem { error, place, also, again: Vec::new() };
        if !self.problems.contains(&problem) {
            self.problems.push(problem);
        }
    }

    /// Opens a part file, or finds it among those already read.
    fn open(&mut self, path: PathBuf, named_at: Place) -> Option<(usize, String)> {
        if let Some(file) = self.sources.find(&path) {
            return Some((file, self.sources.0[file].text.clone()));
        }
        match (self.files)(&path) {
            Ok(text) => {
                let source = Source { path, text: text.clone(), named_at: Some(named_at) };
                Some((self.sources.add(source), text))
            }
            Err(error) => {
                self.whole = false;
                let reason = error.kind();
                let path = path.display().to_string();
                self.problem(Some(named_at), ScenarioError::Unreadable { path, reason });
                None
            }
        }
    }
}
