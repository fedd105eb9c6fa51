//! `clothyard job`: a folder of notebooks from raw shaft to arrow, and its prints.

pub(crate) mod cli;
mod said;

use std::fs;
use std::path::Path;

use clap::ValueEnum;
use report::JobStory;
use scenario::measured::{self, Kind};
use units::Style;
use workbench::{Job, Worked};

use crate::bench::slip::Slip;
use crate::failure::Failure;
use crate::orders::paper;
use crate::shelf::{self, AnswerFolder};
use crate::{Stream, ask, notebook, tell};
use cli::{Book, JobOrder, JobWhat, NoteOrder, OpenOrder, PrintOrder, ShowOrder};

/// File of a job, and the kind of its rows.
const fn book(book: Book) -> (&'static str, Kind) {
    match book {
        Book::Arrows => ("arrows.csv", Kind::Batch),
        Book::Faces => ("faces.csv", Kind::Faces),
        Book::Profile => ("profile.csv", Kind::Profile),
        Book::Three => ("three.csv", Kind::Three),
        Book::Shots => ("shots.csv", Kind::Turns),
        Book::Parts => ("parts.csv", Kind::Parts),
        Book::Job => ("job.csv", Kind::Job),
    }
}

/// The word of a file of a job.
fn word(book: Book) -> String {
    let word = book.to_possible_value();
    word.map_or_else(String::new, |word| word.get_name().to_owned())
}

pub(crate) fn job(order: &JobOrder, out: &mut Stream, err: &mut Stream) -> Result<(), Failure> {
    match &order.what {
        JobWhat::Open(order) => open(order, out),
        JobWhat::Note(order) => note(order, out, err),
        JobWhat::Show(order) => show(order, out, err),
        JobWhat::Print(order) => print(order, out, err),
    }
}

fn open(order: &OpenOrder, out: &mut Stream) -> Result<(), Failure> {
    let (name, kind) = book(Book::Job);
    let file = order.folder.join(name);
    if file.exists() {
        return Err(Slip::JobThere { file }.into());
    }
    if order.folder.is_file() {
        return Err(Slip::FolderIsFile { folder: order.folder.clone() }.into());
    }
    let taken = fs::read_dir(&order.folder).is_ok_and(|mut inside| inside.next().is_some());
    if taken {
        return Err(Slip::FolderTaken { folder: order.folder.clone() }.into());
    }
    let said = [
        ("customer", order.whom.clone()),
        ("bow", order.bow.clone()),
        ("batch", order.batch.clone()),
        ("arrows", Some(order.arrows.to_string())),
        ("cut to", order.cut_to.clone()),
        ("date", order.date.clone()),
    ];
    let said = said.into_iter().filter_map(|(name, value)| Some((name.to_owned(), value?)));
    let row: notebook::Values = said.collect();
    // What is wrong is told before anything is made.
    let text = measured::with_row(kind, &file, None, &row, order.units.style());
    text.map_err(Failure::Mistakes)?;
    let made = !order.folder.exists();
    fs::create_dir_all(&order.folder)
        .map_err(|cause| Failure::Folder { path: order.folder.clone(), cause })?;
    if let Err(failed) = notebook::add(kind, &file, &[row], order.units.style()) {
        // A folder without a job is none, and stands in the way; one that holds anything stays.
        if made {
            let _ = fs::remove_dir(&order.folder);
        }
        return Err(failed);
    }
    out.print(&format!("Opened {}: arrows 1 to {}\n", order.folder.display(), order.arrows))
}

fn note(order: &NoteOrder, out: &mut Stream, err: &mut Stream) -> Result<(), Failure> {
    let values = notebook::values(&order.values)?;
    let (name, kind) = book(order.into);
    let file = order.folder.join(name);
    let job = head(&order.folder, err)?;
    let entered = arrows(&order.folder, err)?;
    let rows = if order.into == Book::Arrows {
        said::rows(&job, &entered, &values)?
    } else {
        said::known(&job, &values)?;
        vec![values]
    };
    let warned = said::of_out(&entered, &rows);
    let (there, noted) = notebook::add(kind, &file, &rows, order.units.style())?;
    let (done, count) = (if there { "Added to" } else { "Begun:" }, rows.len());
    let rows = if count == 1 { String::new() } else { format!(", {count} rows") };
    let into = if order.into == Book::Arrows {
        String::new()
    } else {
        format!(" --into {}", word(order.into))
    };
    let told =
        notebook::told(&noted, &format!("clothyard job note {}{into}", order.folder.display()));
    out.print(&format!("{done} {}{rows}\n{told}{warned}", file.display()))
}

/// What the job is.
fn head(folder: &Path, err: &mut Stream) -> Result<Job, Failure> {
    let file = folder.join(book(Book::Job).0);
    if !file.exists() {
        return Err(Slip::NoJob { folder: folder.to_owned(), there: beside(folder) }.into());
    }
    let table = shelf::table(&file, measured::job, err)?;
    Ok(table.found.into_iter().next().unwrap_or_default())
}

/// The jobs in the same place as a folder that holds none.
fn beside(folder: &Path) -> Vec<String> {
    /// Most that are named. Chosen: what is read at a glance.
    const MOST: usize = 12;
    let within = folder.parent().filter(|path| !path.as_os_str().is_empty());
    let Ok(entries) = fs::read_dir(within.unwrap_or(Path::new("."))) else { return Vec::new() };
    let jobs = entries.filter_map(|entry| Some(entry.ok()?.path()));
    let mut jobs: Vec<String> = jobs
        .filter(|path| path.join(book(Book::Job).0).is_file())
        .map(|path| path.strip_prefix("./").unwrap_or(&path).display().to_string())
        .collect();
    jobs.sort();
    jobs.truncate(MOST);
    jobs
}

/// What was entered of its arrows; nothing where there is no file yet.
fn arrows(folder: &Path, err: &mut Stream) -> Result<Vec<Worked>, Failure> {
    let file = folder.join(book(Book::Arrows).0);
    if !file.exists() {
        return Ok(Vec::new());
    }
    Ok(shelf::table(&file, measured::worked, err)?.found)
}

fn show(order: &ShowOrder, out: &mut Stream, err: &mut Stream) -> Result<(), Failure> {
    let job = head(&order.folder, err)?;
    let arrows = job.standing(&arrows(&order.folder, err)?);
    let story = JobStory { job: &job, arrows: &arrows, computed: None, style: order.units.style() };
    let document = report::job(&story)?;
    out.print(&if order.json { document.json()? } else { document.terminal(tell::WIDTH) + "\n" })
}

fn print(order: &PrintOrder, out: &mut Stream, err: &mut Stream) -> Result<(), Failure> {
    let job = head(&order.folder, err)?;
    let arrows = job.standing(&arrows(&order.folder, err)?);
    let computed = match &order.scenario {
        Some(file) => Some(ask::computed(&ask::scenario(file)?, job.length)?),
        None => None,
    };
    let style: Style = order.units.style();
    let story = JobStory { job: &job, arrows: &arrows, computed: computed.as_ref(), style };
    let usual = order.folder.join("print");
    let to = order.out.as_deref().unwrap_or(&usual);
    let read: Vec<_> = [Book::Job, Book::Arrows].map(|of| order.folder.join(book(of).0)).into();
    let inputs: Vec<&Path> =
        read.iter().map(std::path::PathBuf::as_path).chain(order.scenario.as_deref()).collect();
    let folder = AnswerFolder::claim(to, &inputs, order.replace)?;
    let written = folder.fill(&report::job_files(&story, paper(order.paper, style))?)?;
    out.print(&report::minded(report::job(&story)?.cautions(), tell::WIDTH))?;
    out.print(&format!(
        "\nWritten to {}: print labels.pdf, batch-sheet.pdf and customer-card.pdf at actual size, \
         100 %, and measure the rulers before you cut\n",
        written.display()
    ))
}
