//! Clothyard on the command line: the only room that prints, opens files, and
//! reads the environment.
//!
//! [`command`] is the whole program but for its streams, so that tests can run
//! it and see what it prints, writes and returns.
//!
//! ```
//! use clothyard::Stream;
//!
//! let (mut said, mut erred) = (Vec::new(), Vec::new());
//! let mut out = Stream::plain(&mut said);
//! let mut err = Stream::plain(&mut erred);
//! let code = clothyard::command(["clothyard", "keys"].map(Into::into), &mut out, &mut err);
//! assert_eq!((code, erred.is_empty()), (0, true));
//! assert!(String::from_utf8_lossy(&said).contains("arrow.point.mass"));
//! ```

mod ask;
mod bench;
mod check;
mod cli;
mod failure;
mod fit;
mod fly;
mod interrupt;
mod job;
mod marks;
mod notebook;
mod orders;
mod page;
mod pin;
mod progress;
mod push;
mod rigid;
mod run;
mod serve;
mod shelf;
mod show;
mod source;
mod stream;
mod tape;
mod tell;
mod tools;
mod trial;
mod verdict;

use std::ffi::OsString;
use std::io::ErrorKind;
use std::net::IpAddr;
use std::path::Path;

use clap::{CommandFactory, Parser};
use cli::{Cli, Command};
use failure::Failure;
use scenario::ScenarioError;

pub use page::PageSite;
pub use stream::Stream;
pub use tools::on_the_page;

/// Takes from the environment what no answer depends on: `CLOTHYARD_LANES`, for
/// tests, is how many flights may go side by side in the processor.
pub fn from_environment() {
    let lanes = std::env::var("CLOTHYARD_LANES").ok().and_then(|word| word.parse().ok());
    if let Some(lanes) = lanes {
        flight::limit_width(lanes);
    }
}

/// Runs one command and gives its exit code: 0 done, 1 the computation failed,
/// 2 the input is wrong and nothing was written, 3 the system refused a file.
///
/// The first argument is the name of the program. Answers go to `out`; errors,
/// notes and the progress bar go to `err`.
pub fn command<A>(arguments: A, out: &mut Stream, err: &mut Stream) -> u8
where
    A: IntoIterator<Item = OsString>,
{
    let outcome = match Cli::try_parse_from(arguments) {
        Ok(cli) => work(cli.command.unwrap_or_default(), out, err),
        Err(said) if said.use_stderr() => Err(Failure::Usage(said)),
        Err(said) => out.styled(&said.render()),
    };
    match outcome {
        Ok(()) => 0,
        Err(failure) => {
            // Nothing is left to tell when even this cannot be printed.
            let _ = tell(&failure, err);
            failure.code()
        }
    }
}

/// Says what went wrong. A reader that went away needs no words.
fn tell(failure: &Failure, err: &mut Stream) -> Result<(), Failure> {
    match failure {
        Failure::Usage(said) => err.styled(&said.render()),
        Failure::Mistakes(report) => {
            let ended = |colour: bool| report.render(colour) + "\n";
            err.coloured(&ended(false), || ended(true))
        }
        Failure::Print(cause) if cause.kind() == ErrorKind::BrokenPipe => Ok(()),
        Failure::Request(cause) => {
            let hint = match cause {
                ScenarioError::OutOfRange { .. } => cause.label(),
                _ => cause.helps().join("; "),
            };
            err.print(&format!("error: {cause}\n  hint: {hint}\n"))
        }
        other => err.print(&format!("error: {other}\n")),
    }
}

fn work(command: Command, out: &mut Stream, err: &mut Stream) -> Result<(), Failure> {
    match command {
        Command::Page(order) => page::page(&order, self::command, out, err),
        Command::Run(order) => run::run(&order, out, err),
        Command::Fly(order) => fly::fly(&order, out, err),
        Command::Arrow(order) => show::arrow(&order, out),
        Command::Push(order) => push::push(&order, out),
        Command::Pin(order) => pin::pin(&order, out, err),
        Command::Marks(order) => marks::marks(&order, out, err),
        Command::Verdict(order) => verdict::verdict(&order, out, err),
        Command::Trial(order) => trial::trial(&order, out, err),
        Command::Fit(order) => fit::fit(&order, out, err),
        Command::Tape(order) => tape::tape(&order, out, err),
        Command::Bench(order) => bench::bench(&order, out, err),
        Command::Job(order) => job::job(&order, out, err),
        Command::Check(order) => check::check(&order, out, err),
        Command::Schema => out.print(&scenario::json_schema()),
        Command::Keys => out.print(&scenario::key_reference()),
        Command::Completions { shell } => {
            let mut text = Vec::new();
            clap_complete::generate(shell, &mut Cli::command(), "clothyard", &mut text);
            out.bytes(&text)
        }
        Command::Man => {
            let mut text = Vec::new();
            clap_mangen::Man::new(Cli::command()).render(&mut text).map_err(Failure::Print)?;
            out.bytes(&text)
        }
    }
}

impl PageSite {
    /// Opens a free port of the loopback address for a folder and the built-in
    /// scenario, or a file; none when that fails. For tests and benches.
    pub fn local(folder: &Path, file: Option<&Path>) -> Option<Self> {
        Self::open(folder, file, (IpAddr::from([127, 0, 0, 1]), 0), command).ok()
    }
}
