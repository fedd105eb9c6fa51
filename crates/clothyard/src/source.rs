//! What most commands take: a scenario file, units, words or JSON.

use std::path::PathBuf;

use clap::{Args, ValueEnum};
use units::Style;

/// Units on output.
#[derive(Debug, Clone, Copy, ValueEnum)]
pub(crate) enum Family {
    /// Yards, inches, grains, pounds, feet per second
    Archery,
    /// Metres, centimetres, grams, newtons, metres per second
    Metric,
}

impl Family {
    pub(crate) fn style(self) -> Style {
        match self {
            Self::Archery => Style::Archery,
            Self::Metric => Style::Metric,
        }
    }
}

#[derive(Debug, Args)]
pub(crate) struct Source {
    /// The scenario file
    pub(crate) file: PathBuf,
    /// Units on output; the scenario's own choice otherwise, else archery
    #[arg(long, value_name = "FAMILY")]
    pub(crate) units: Option<Family>,
    #[command(flatten)]
    pub(crate) told: Told,
}

/// How an answer is told on standard output.
#[derive(Debug, Clone, Copy, Args)]
pub(crate) struct Told {
    /// Answer as JSON on standard output, every number in SI with its unit
    #[arg(long)]
    pub(crate) json: bool,
    /// Tell the whole answer, not its first 25 lines
    #[arg(long, conflicts_with = "json")]
    pub(crate) full: bool,
}

/// A scenario and one of its builds.
#[derive(Debug, Args)]
pub(crate) struct OneBuild {
    #[command(flatten)]
    pub(crate) source: Source,
    /// Which build of the scenario [default: the first]
    #[arg(long, value_name = "NAME")]
    pub(crate) build: Option<String>,
}
