//! A file of shots: comma-separated values with units in the heads.

mod column;
mod mistake;

use std::path::Path;

use csv::{ReaderBuilder, StringRecord, Trim};
use study::{Observed, What};
use units::{Length, Speed};

use crate::source::{Place, Source, Sources};
use crate::{Files, Problem, Report, ScenarioError};
use column::{Column, Head, LEADS, head};

pub use mistake::ShotsError;

/// Reads a file of shots.
///
/// The first line heads the columns, each with its unit, such as
/// `distance [yd],mark [mm]`. Every further line is one shot: a distance and one
/// reading, its other cells empty. A line that begins with `#` says nothing.
///
/// # Errors
/// A [`Report`] with every line that cannot be read.
pub fn shots(path: &Path, files: &Files<'_>) -> Result<Vec<Observed>, Report> {
    let mut reader = Reader { sources: Sources::default(), problems: Vec::new() };
    match files(path) {
        Ok(text) => {
            reader.sources.add(Source { path: path.to_owned(), text, named_at: None });
            let shots = reader.read();
            if reader.problems.is_empty() {
                return Ok(shots);
            }
        }
        Err(error) => {
            let (path, reason) = (path.display().to_string(), error.kind());
            let error = ScenarioError::Unreadable { path, reason };
            reader.problems.push(Problem { error, place: None, also: None });
        }
    }
    Err(Report { sources: reader.sources, problems: reader.problems })
}

struct Reader {
    sources: Sources,
    problems: Vec<Problem>,
}

impl Reader {
    fn problem(&mut self, place: Place, error: ShotsError) {
        let error = ScenarioError::Shots(error);
        self.problems.push(Problem { error, place: Some(place), also: None });
    }

    fn read(&mut self) -> Vec<Observed> {
        let text = self.sources.0[0].text.clone();
        let mut reader = ReaderBuilder::new()
            .has_headers(false)
            .flexible(true)
            .trim(Trim::All)
            .comment(Some(b'#'))
            .from_reader(text.as_bytes());
        let mut heads: Option<Vec<Option<Head>>> = None;
        let mut shots = Vec::new();
        let mut count = 0;
        for record in reader.records() {
            let Ok(record) = record else { continue };
            let Some((place, line)) = self.place(&record, &text) else { continue };
            let Some(heads) = &heads else {
                heads = Some(self.heads(&record, place));
                continue;
            };
            count += 1;
            shots.extend(self.shot(&record, heads, place, line));
        }
        if count == 0 && self.problems.is_empty() {
            let place = self.sources.place(0, 0..text.find('\n').unwrap_or(text.len()));
            self.problem(place, ShotsError::Empty);
        }
        shots
    }

    /// Where a line is, without its end, and its number.
    fn place(&self, record: &StringRecord, text: &str) -> Option<(Place, usize)> {
        let at = record.position()?;
        let mut start = usize::try_from(at.byte()).ok()?;
        // The library counts blank lines and remarks before a line to it.
        loop {
            let line = text.get(start..)?.split('\n').next()?;
            if line.trim().is_empty() || line.starts_with('#') {
                start += line.len() + 1;
                continue;
            }
            let place = self.sources.place(0, start..start + line.trim_end().len());
            let number = self.sources.line_column(place).0;
            return Some((place, number));
        }
    }

    fn heads(&mut self, record: &StringRecord, place: Place) -> Vec<Option<Head>> {
        let mut heads: Vec<Option<Head>> = Vec::new();
        for text in record {
            match head(text) {
                Ok(found) => {
                    if heads.iter().flatten().any(|other| other.column == found.column) {
                        self.problem(place, ShotsError::Twice { name: found.column.name() });
                    }
                    heads.push(Some(found));
                }
                Err(error) => {
                    self.problem(place, error);
                    heads.push(None);
                }
            }
        }
        let has = |column| heads.iter().flatten().any(|head| head.column == column);
        let distance = has(Column::Distance);
        let reading = LEADS.into_iter().any(has);
        if self.problems.is_empty() {
            if !distance {
                self.problem(place, ShotsError::NoColumn { name: Column::Distance.name() });
            } else if !reading {
                self.problem(place, ShotsError::NoReadingColumn);
            }
        }
        heads
    }

    fn shot(
        &mut self,
        record: &StringRecord,
        heads: &[Option<Head>],
        place: Place,
        line: usize,
    ) -> Option<Observed> {
        let before = self.problems.len();
        if record.len() > heads.len() {
            let (found, heads) = (record.len(), heads.len());
            self.problem(place, ShotsError::Long { found, heads });
            return None;
        }
        let mut cells: Vec<(Column, f64)> = Vec::new();
        for (text, head) in record.iter().zip(heads) {
            let Some(head) = head else { continue };
            if text.is_empty() {
                continue;
            }
            match head.read(text) {
                Ok(si) => cells.push((head.column, si)),
                Err(error) => self.problem(place, error),
            }
        }
        // Where a head is not understood its cells are not either.
        if self.problems.len() > before || heads.iter().any(Option::is_none) {
            return None;
        }
        let shot = assemble(&cells, line);
        shot.map_err(|error| self.problem(place, error)).ok()
    }
}

/// One shot from the cells of a line.
fn assemble(cells: &[(Column, f64)], line: usize) -> Result<Observed, ShotsError> {
    let of = |column: Column| cells.iter().find(|cell| cell.0 == column).map(|cell| cell.1);
    let given: Vec<Column> = LEADS.into_iter().filter(|lead| of(*lead).is_some()).collect();
    let &[lead] = given.as_slice() else {
        let found = given.into_iter().map(Column::name).collect();
        return Err(ShotsError::Readings { found });
    };
    let name = lead.name();
    let distance = of(Column::Distance)
        .map(Length::from_si)
        .ok_or(ShotsError::NoCell { name: Column::Distance.name(), reading: name })?;
    let value = of(lead).unwrap_or_default();
    let pin = of(Column::Pin).map(Length::from_si);
    let needed = || ShotsError::NoCell { name: Column::Pin.name(), reading: name };
    let what = match lead {
        Column::Speed => What::Speed(Speed::from_si(value)),
        Column::Gap => What::Gap { pin: pin.ok_or_else(needed)?, gap: Length::from_si(value) },
        Column::Up => What::Impact { pin: pin.ok_or_else(needed)?, up: Length::from_si(value) },
        _ => What::Mark(Length::from_si(value)),
    };
    if distance == Length::ZERO && !matches!(what, What::Speed(_)) {
        return Err(ShotsError::AtBow { reading: name });
    }
    if pin.is_some() && matches!(what, What::Speed(_) | What::Mark(_)) {
        return Err(ShotsError::IdlePin { reading: name });
    }
    for other in LEADS.into_iter().filter(|other| *other != lead) {
        if let Some(error) = other.error().filter(|error| of(*error).is_some()) {
            return Err(ShotsError::IdleError { name: error.name(), reading: name });
        }
    }
    Ok(Observed { line, distance, what, error: lead.error().and_then(of) })
}
