//! From rows to what the bench works with.

use study::workbench::{FaceReading, TurnShot, Where};
use units::{Angle, Length, Mass};
use workbench::{Dial, FULL_SPAN, Gauge, Measured, RunOut, Spun};

use super::book::Book;
use super::mistake::{NotebookMistake, NotebookReport};
use super::sheet::{Row, Sheet};

/// The column of this name.
fn of(book: Book, name: &str) -> usize {
    book.find(name).unwrap_or(0)
}

fn length(row: &Row, book: Book, name: &str) -> Option<Length> {
    row.number(of(book, name)).map(Length::from_si)
}

fn angle(row: &Row, book: Book, name: &str) -> Option<Angle> {
    row.number(of(book, name)).map(Angle::from_si)
}

/// Shafts or arrows that were measured.
///
/// # Errors
/// Every mistake of the file.
pub fn batch(file: &str, bytes: &[u8]) -> Result<Vec<Measured>, NotebookReport> {
    let book = Book::Batch;
    let mut sheet = Sheet::read(book, bytes);
    let (rows, mut found, mut seen) =
        (sheet.rows.clone(), Vec::new(), Vec::<(String, usize)>::new());
    for row in &rows {
        let Some(name) = row.text(of(book, "arrow")) else { continue };
        if let Some((_, line)) = seen.iter().find(|(known, _)| known == name) {
            let what = NotebookMistake::NameTwice { name: name.to_owned(), line: *line };
            sheet.tell_cell(row.line, of(book, "arrow"), what);
        }
        seen.push((name.to_owned(), row.line));
        let spun = |total: &str, high: &str| {
            length(row, book, total).map(|total| Spun { total, high: angle(row, book, high) })
        };
        // A constant curve over another span, carried over to 28 in.
        let carried = |spun: Spun| match length(row, book, "run-out span") {
            Some(span) => {
                let by = (FULL_SPAN.si() / span.si()).powi(2);
                Spun { total: Length::from_si(spun.total.si() * by), ..spun }
            }
            None => spun,
        };
        found.push(Measured {
            name: name.to_owned(),
            mass: row.number(of(book, "mass")).map(Mass::from_si),
            balance: length(row, book, "balance"),
            spine: length(row, book, "spine"),
            stiff: angle(row, book, "stiff side"),
            length: length(row, book, "length"),
            run_out: spun("run-out", "run-out high").map(carried),
            tip: spun("tip wobble", "tip high"),
            groove: spun("nock wobble", "nock high"),
        });
    }
    sheet.finish(file, found)
}

/// Readings of end faces.
///
/// # Errors
/// Every mistake of the file.
pub fn faces(file: &str, bytes: &[u8]) -> Result<Vec<FaceReading>, NotebookReport> {
    let book = Book::Faces;
    let mut sheet = Sheet::read(book, bytes);
    let (rows, mut found) = (sheet.rows.clone(), Vec::new());
    for row in &rows {
        let (Some(name), Some(place), Some(kind)) =
            (row.text(of(book, "arrow")), row.text(of(book, "where")), row.text(of(book, "gauge")))
        else {
            continue;
        };
        let at = match place {
            "front" => Where::Front,
            "insert" => Where::Insert,
            "rear" => Where::Rear,
            "point" => Where::Point,
            _ => Where::Nock,
        };
        let Some(gauge) = gauge(&mut sheet, row, kind) else { continue };
        let stage = row.text(of(book, "stage")).unwrap_or_default().to_owned();
        found.push(FaceReading { name: name.to_owned(), at, stage, gauge });
    }
    sheet.finish(file, found)
}

fn gauge(sheet: &mut Sheet, row: &Row, kind: &str) -> Option<Gauge> {
    let book = Book::Faces;
    let mut need = |name: &str| {
        let column = of(book, name);
        if row.blank(column) {
            let why = format!("a {kind} reading needs it");
            sheet.tell_cell(row.line, column, NotebookMistake::Blank { why });
        }
        row.number(column).map(Length::from_si)
    };
    match kind {
        "leaf" => {
            let (gap, step, across) = (need("reading"), need("step"), need("across"));
            Some(Gauge::Leaf { gap: gap?, step: step?, across: across? })
        }
        "light" => {
            let (refused, across) = (need("refused"), need("across"));
            let light = of(book, "light");
            if row.blank(light) {
                let why = "a light reading needs it, yes or no".to_owned();
                sheet.tell_cell(row.line, light, NotebookMistake::Blank { why });
            }
            let seen = row.text(light)? == "yes";
            Some(Gauge::Light { seen, refused: refused?, across: across? })
        }
        "dial" => {
            let (total, step, radius) = (need("reading"), need("step"), need("radius"));
            Some(Gauge::Dial { total: total?, step: step?, radius: radius? })
        }
        "wobble" => {
            let (total, step, ahead) = (need("reading"), need("step"), need("ahead"));
            Some(Gauge::Wobble { total: total?, step: step?, ahead: ahead? })
        }
        _ => {
            let (depth, depth_give, across) = (need("depth"), need("depth give"), need("across"));
            let count = of(book, "count");
            if row.blank(count) {
                let why = "a strokes reading needs it".to_owned();
                sheet.tell_cell(row.line, count, NotebookMistake::Blank { why });
            }
            // A whole number, checked to be small.
            #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
            let count = row.number(count)? as u32;
            Some(Gauge::Strokes { count, depth: depth?, depth_give: depth_give?, across: across? })
        }
    }
}

/// What was read along one shaft.
#[derive(Debug, Clone, PartialEq)]
pub enum Stations {
    /// Single readings at clock positions.
    Dial(Vec<Dial>),
    /// Total readings with their high sides.
    RunOut(Vec<RunOut>),
}

/// One shaft of a profile notebook.
#[derive(Debug, Clone, PartialEq)]
pub struct ShaftReadings {
    /// Its name.
    pub name: String,
    /// Its length, where the notebook tells.
    pub stock: Option<Length>,
    /// The readings.
    pub stations: Stations,
    stock_line: usize,
}

/// Run-out along shafts, in the order in which the shafts first appear.
///
/// # Errors
/// Every mistake of the file.
pub fn profiles(file: &str, bytes: &[u8]) -> Result<Vec<ShaftReadings>, NotebookReport> {
    let book = Book::Profile;
    let mut sheet = Sheet::read(book, bytes);
    let (rows, mut found) = (sheet.rows.clone(), Vec::<ShaftReadings>::new());
    let (reading, run_out) = (of(book, "reading"), of(book, "run-out"));
    for row in &rows {
        let dial = !row.blank(reading);
        if dial != row.blank(run_out) {
            let what = NotebookMistake::OneOf { one: "a reading", other: "a run-out" };
            sheet.tell(row.line, None, what);
            continue;
        }
        let clock = of(book, if dial { "clock" } else { "high" });
        if row.blank(clock) {
            let why = if dial { "a reading needs it" } else { "a run-out needs it" }.to_owned();
            sheet.tell_cell(row.line, clock, NotebookMistake::Blank { why });
        }
        let (Some(name), Some(station), Some(at)) = (
            row.text(of(book, "shaft")),
            length(row, book, "station"),
            row.number(clock).map(Angle::from_si),
        ) else {
            continue;
        };
        let known = found.iter().position(|shaft| shaft.name == name);
        let shaft = known.unwrap_or_else(|| {
            let stations =
                if dial { Stations::Dial(Vec::new()) } else { Stations::RunOut(Vec::new()) };
            found.push(ShaftReadings {
                name: name.to_owned(),
                stock: None,
                stations,
                stock_line: 0,
            });
            found.len() - 1
        });
        let shaft = &mut found[shaft];
        if let Some(stock) = length(row, book, "stock") {
            match shaft.stock {
                Some(before) if before != stock => {
                    let text = |l: Length| units::Role::Part.text(l.si(), units::Style::Archery);
                    let what = NotebookMistake::Differs {
                        what: "the length of the shaft",
                        value: text(stock),
                        before: text(before),
                        line: shaft.stock_line,
                    };
                    sheet.tell_cell(row.line, of(book, "stock"), what);
                }
                _ => (shaft.stock, shaft.stock_line) = (Some(stock), row.line),
            }
        }
        let value = |column: usize| row.number(column).map(Length::from_si);
        match &mut shaft.stations {
            Stations::Dial(list) if dial => {
                list.extend(value(reading).map(|reading| Dial { station, clock: at, reading }));
            }
            Stations::RunOut(list) if !dial => {
                list.extend(value(run_out).map(|total| RunOut { station, total, high: at }));
            }
            _ => {
                let what = NotebookMistake::Differs {
                    what: "what was read of this shaft",
                    value: if dial { "a reading" } else { "a run-out" }.to_owned(),
                    before: if dial { "a run-out" } else { "a reading" }.to_owned(),
                    line: first_line(&rows, name),
                };
                sheet.tell(row.line, None, what);
            }
        }
    }
    sheet.finish(file, found)
}

fn first_line(rows: &[Row], name: &str) -> usize {
    let shaft = of(Book::Profile, "shaft");
    rows.iter().find(|row| row.text(shaft) == Some(name)).map_or(1, |row| row.line)
}

/// Shots with nocks turned.
///
/// # Errors
/// Every mistake of the file.
pub fn turn_shots(file: &str, bytes: &[u8]) -> Result<Vec<TurnShot>, NotebookReport> {
    let book = Book::Shots;
    let sheet = Sheet::read(book, bytes);
    let one = |row: &Row| {
        Some(TurnShot {
            arrow: row.text(of(book, "arrow"))?.to_owned(),
            turn: angle(row, book, "turn")?,
            hit: [row.number(of(book, "left"))?, row.number(of(book, "up"))?],
        })
    };
    let found = sheet.rows.iter().filter_map(one).collect();
    sheet.finish(file, found)
}
