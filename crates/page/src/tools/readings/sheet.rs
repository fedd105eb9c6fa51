//! A job and a stage: its rows and columns, what stands there, and what is noted of it.

use std::path::Path;

use scenario::measured::{self, Kind, Standing};
use units::Style;

use super::super::folder;
use super::super::said::{WARNED, on_page};
use super::super::tool::ToolOrder;
use crate::app::App;
use crate::{PageError, Settings};

/// The command that takes a row.
pub(super) const NOTE: &str = "job note";
/// Stages of an arrow, and what is read at each, the most used first. Chosen.
pub(super) const STAGES: [(&str, &[&str]); 5] = [
    ("raw", &["mass", "length", "spine", "stiff side", "run-out", "run-out high"]),
    ("cut", &["length", "mass", "note"]),
    ("squared", &["length", "mass", "note"]),
    ("built", &["mass", "balance", "tip wobble", "tip high", "note"]),
    ("shot", &["out", "note"]),
];
/// Columns of words; all others are numbers.
pub(super) const WORDS: [&str; 2] = ["out", "note"];
/// Before the name of a field: what stood in the job when the sheet was drawn.
pub(super) const WAS: &str = "was.";
/// The field that takes an entry back.
pub(super) const BACK: &str = "back";
/// The column of a row that was looked at twice, and what its field says.
pub(super) const SURE: &str = "sure";
/// How the command says that a reading which is odd and right is noted, and how it is here.
const NOTE_AGAIN: &str =
    "note it again with correction=sure, that is with \"sure\" in a column \"correction\"";
const TICK: &str = "tick in its row that you looked twice";
/// What the command says behind a reading of before that is odd by now, and what is said here.
const PUT_RIGHT: &str = " Put it right with ";
const HERE: &str =
    " Write over it to put it right; if it is so, tick in its row that you looked twice.";
/// Most rows of a sheet. Chosen: more would not be filled in at one sitting.
const MOST: u32 = 144;

/// What a visitor sent, without the prefix.
pub(super) type Own = Vec<(String, String)>;

/// What came of a sheet.
#[derive(Default)]
pub(super) struct Noted {
    /// Rows that are in the job now.
    pub(super) rows: Vec<String>,
    /// Those of them that corrected something.
    pub(super) corrected: Vec<String>,
    /// Those of them that took something back.
    pub(super) blanked: Vec<String>,
    /// The arrow of which an entry was taken back.
    pub(super) back: Option<String>,
    /// What is to be minded of rows that are in the job.
    pub(super) minded: Vec<String>,
    /// What was said of the row at which it stopped.
    pub(super) wrong: Option<(String, String)>,
    /// Whether a reading is odd, and holds only where it was looked at twice.
    pub(super) doubted: bool,
}

/// The sheet of a job and a stage.
pub(super) struct Sheet {
    pub(super) folder: String,
    pub(super) stage: &'static str,
    /// Columns and their heads, which say the unit.
    pub(super) columns: Vec<(&'static str, String)>,
    pub(super) rows: Vec<String>,
    style: Style,
    /// What the job says of its arrows at this stage, as written.
    pub(super) standing: Vec<Standing>,
    /// Arrows that are out, at whatever stage that was noted, and why.
    out: Vec<(String, String)>,
}

pub(super) fn given<'a>(own: &'a Own, id: &str) -> &'a str {
    own.iter().find(|(name, _)| name == id).map_or("", |(_, value)| value.as_str())
}

/// What stood in a field of the sheet that was sent.
fn was<'a>(own: &'a Own, row: &str, column: &str) -> &'a str {
    given(own, &format!("{WAS}{row}.{column}")).trim()
}

/// The arrow of a row that says it is out, and why.
fn taken_out(of: &Standing) -> Option<(String, String)> {
    let (_, why) = of.cells.iter().find(|(name, _)| *name == "out")?;
    (!why.is_empty() && !why.eq_ignore_ascii_case("no")).then(|| (of.arrow.clone(), why.clone()))
}

/// Whether a row was looked at twice.
fn sure(own: &Own, row: &str) -> bool {
    given(own, &format!("{row}.{SURE}")) == SURE
}

/// What was written into a sheet and is not noted: nothing of a field left as it stood, for
/// what stands may be another by now.
pub(super) fn unsent(own: &Own, noted: &Noted) -> Own {
    let left = |(name, value): &&(String, String)| {
        let Some((row, column)) = name.split_once('.') else { return true };
        !name.starts_with(WAS)
            && !noted.rows.iter().any(|done| done == row)
            && value.trim() != was(own, row, column)
    };
    own.iter().filter(left).cloned().collect()
}

pub(super) fn jobs(tables: &[String]) -> Vec<&str> {
    tables.iter().filter_map(|table| table.strip_suffix("/job.csv")).collect()
}

/// What a row says that the job does not, each cell under its column.
#[derive(Default)]
struct Changed {
    cells: Vec<(&'static str, String)>,
    /// Whether a cell stands over another of before.
    corrects: bool,
    /// What was made blank, as it was.
    gone: Vec<(&'static str, String)>,
}

impl Sheet {
    pub(super) fn of(settings: &Settings, own: &Own) -> Result<Self, PageError> {
        let tables = settings.tools.tables();
        let asked = given(own, "folder");
        let folder = if asked.is_empty() {
            jobs(&tables).first().copied().unwrap_or_default()
        } else {
            asked
        };
        let name = format!("{folder}/job.csv");
        let text = folder::read(settings, &name)?;
        let stage = given(own, "stage");
        let (stage, wanted) =
            STAGES.iter().find(|(of, _)| *of == stage).copied().unwrap_or(STAGES[0]);
        let metric = text
            .lines()
            .next()
            .is_some_and(|head| head.contains("cut to [") && !head.contains("[in]"));
        let style = if metric { Style::Metric } else { Style::Archery };
        let job = measured::job(Path::new(&name), Ok(text.into_bytes()))
            .map_err(|report| crate::reading::told(&report))?;
        let count = job.found.first().map_or(0, |job| job.arrows).clamp(1, MOST);
        // The heads of its book, or those that a new one gets.
        let book = format!("{folder}/arrows.csv");
        let (mut standing, mut out) = (Vec::new(), Vec::new());
        let heads: Vec<String> = if tables.contains(&book) {
            let text = folder::read(settings, &book)?;
            let read = measured::standing(Path::new(&book), Ok(text.clone().into_bytes()));
            standing = read.map_err(|report| crate::reading::told(&report))?.found;
            out = standing.iter().filter_map(taken_out).collect();
            standing.retain(|of| of.stage == stage);
            let head = text.lines().next().unwrap_or_default();
            head.split([',', ';', '\t'])
                .map(|cell| cell.trim().trim_matches('"').to_owned())
                .collect()
        } else {
            let told = Kind::Batch.told(style);
            told.lines()
                .filter_map(|line| Some(line.split(';').next()?.trim().to_owned()))
                .collect()
        };
        let called =
            |head: &String, name: &str| head.split(" [").next().is_some_and(|of| of == name);
        let columns = wanted.iter().filter_map(|name| {
            heads.iter().find(|head| called(head, name)).map(|head| (*name, head.clone()))
        });
        let mut rows: Vec<String> = (1..=count).map(|arrow| arrow.to_string()).collect();
        if count > 1 {
            rows.push(format!("1-{count}"));
        }
        Ok(Self {
            folder: folder.to_owned(),
            stage,
            columns: columns.collect(),
            rows,
            style,
            standing,
            out,
        })
    }

    /// Why an arrow is out; nothing where it is in.
    pub(super) fn out(&self, row: &str) -> Option<&str> {
        self.out.iter().find(|(arrow, _)| arrow == row).map(|(_, why)| why.as_str())
    }

    /// What the job says in a cell; nothing where it does not.
    pub(super) fn stands(&self, row: &str, column: &str) -> &str {
        let entry = self.standing.iter().find(|of| of.arrow == row);
        let cell = entry.and_then(|of| of.cells.iter().find(|(name, _)| *name == column));
        cell.map_or("", |(_, text)| text.as_str())
    }

    /// Notes row by row, and stops at the first that is wrong.
    pub(super) fn note(&self, app: &App, own: &Own) -> Result<Noted, PageError> {
        let mut noted = Noted::default();
        for row in &self.rows {
            let changed = match self.changed(row, own) {
                Ok(changed) if changed.cells.is_empty() && changed.gone.is_empty() => continue,
                Ok(changed) => changed,
                Err(why) => {
                    noted.wrong = Some((row.clone(), why));
                    break;
                }
            };
            let Changed { cells, corrects, gone } = changed;
            let how = |word: &str| [("correction", word.to_owned())];
            let sure = sure(own, row);
            let blanks = !gone.is_empty();
            let over = how(if sure { SURE } else { "yes" });
            let over = over.into_iter().filter(|_| corrects || sure);
            if !cells.is_empty()
                && !self.add(app, row, cells.into_iter().chain(over), &mut noted)?
            {
                break;
            }
            let void = how("void").into_iter();
            if !gone.is_empty() && !self.add(app, row, gone.into_iter().chain(void), &mut noted)? {
                break;
            }
            noted.rows.push(row.clone());
            if corrects {
                noted.corrected.push(row.clone());
            }
            if blanks {
                noted.blanked.push(row.clone());
            }
        }
        Ok(noted)
    }

    /// What a row says that the job does not; in words why it cannot be noted.
    fn changed(&self, row: &str, own: &Own) -> Result<Changed, String> {
        let mut changed = Changed::default();
        for (name, head) in &self.columns {
            let value = given(own, &format!("{row}.{name}")).trim();
            let was = was(own, row, name);
            let stands = self.stands(row, name);
            // What was looked at twice is said again.
            if (value == was || value == stands) && (value.is_empty() || !sure(own, row)) {
                continue;
            }
            if was != stands {
                let now = match stands {
                    "" => "no longer noted in the job: somebody took it back".to_owned(),
                    stands => format!("{stands} in the job by now: somebody noted it"),
                };
                return Err(format!(
                    "{name} is {now} since this sheet was opened. Send it again if yours is right."
                ));
            }
            if value.is_empty() {
                changed.gone.push((*name, was.to_owned()));
                continue;
            }
            if row.contains('-') {
                let read: Vec<&str> = self.rows.iter().map(String::as_str).collect();
                let read: Vec<&str> =
                    read.into_iter().filter(|one| !self.stands(one, name).is_empty()).collect();
                if !read.is_empty() {
                    return Err(format!(
                        "{head} is noted already of arrow {}. Correct it in the row of each arrow.",
                        read.join(", ")
                    ));
                }
            }
            changed.corrects |= !was.is_empty();
            changed.cells.push((*name, value.to_owned()));
        }
        Ok(changed)
    }

    /// Takes back what is noted of an arrow at this stage.
    pub(super) fn take_back(&self, app: &App, arrow: &str) -> Result<Noted, PageError> {
        let mut noted = Noted::default();
        if !self.standing.iter().any(|of| of.arrow == arrow) {
            let why = format!("nothing is noted of it at the stage {}", self.stage);
            noted.wrong = Some((arrow.chars().take(20).collect(), why));
        } else if self.add(app, arrow, [("correction", "void".to_owned())], &mut noted)? {
            noted.back = Some(arrow.to_owned());
        }
        Ok(noted)
    }

    /// Adds one row to the job; whether it is there.
    fn add(
        &self,
        app: &App,
        row: &str,
        cells: impl IntoIterator<Item = (&'static str, String)>,
        noted: &mut Noted,
    ) -> Result<bool, PageError> {
        let units = if self.style == Style::Metric { "metric" } else { "archery" };
        let mut given = vec![
            ("folder".to_owned(), self.folder.clone()),
            ("units".to_owned(), units.to_owned()),
        ];
        let first = [("arrow", row.to_owned()), ("stage", self.stage.to_owned())];
        let said = first.into_iter().chain(cells);
        given.extend(said.map(|(name, value)| ("values".to_owned(), format!("{name}={value}"))));
        let order = ToolOrder { tool: NOTE.to_owned(), given };
        let failed =
            |cause: std::io::Error| PageError::Write { name: NOTE.to_owned(), cause: cause.kind() };
        let answer = app.settings.tools.run(&order, &|| false).map_err(failed)?;
        if answer.code != 0 {
            let said = answer.err.trim().replace(NOTE_AGAIN, TICK);
            noted.doubted |= said.contains(TICK);
            noted.wrong = Some((row.to_owned(), on_page(&said, &[])));
            return Ok(false);
        }
        for line in answer.out.lines().filter(|line| line.starts_with(WARNED)) {
            let (said, how) =
                line.split_once(PUT_RIGHT).map_or((line, ""), |(said, _)| (said, HERE));
            noted.doubted |= !how.is_empty();
            noted.minded.push(on_page(said, &[]) + how);
        }
        Ok(true)
    }
}
