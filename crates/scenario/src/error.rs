use arrow::ArrowError;
use flight::FlightError;
use launch::LaunchError;
use units::{Dimension, UnitError};

use crate::evidence_fault::EvidenceFault;
use crate::measured::TableMistake;
use crate::plain::{in_build, plain};
use crate::slip::Slip;
use crate::sweep_fault::SweepFault;

/// Why a scenario is refused. Keys are dotted; values are as written.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum ScenarioError {
    /// More tables of a kind than are read.
    #[error("there are {count} [[{table}]] tables; at most {most} are read")]
    TooMany {
        /// The table's name.
        table: &'static str,
        /// How many there are.
        count: usize,
        /// How many there may be.
        most: usize,
    },
    /// A file cannot be read.
    #[error("cannot read {path}: {}", plain(*reason))]
    Unreadable {
        /// The file.
        path: String,
        /// What the system said.
        reason: std::io::ErrorKind,
    },
    /// A file is not well-formed TOML: what the parser said.
    #[error("not well-formed TOML: {0}")]
    Syntax(String),
    /// A slip of which it is known how the line was meant.
    #[error(transparent)]
    Slip(#[from] Slip),
    /// Part files that lead back to themselves: the file.
    #[error("{0} leads back to itself")]
    PartLoop(String),
    /// Part files inside part files beyond the limit.
    #[error("{path} lies more than {limit} part files deep")]
    PartTooDeep {
        /// The file.
        path: String,
        /// The limit.
        limit: usize,
    },
    /// A key that does not exist.
    #[error("unknown key {key}")]
    UnknownKey {
        /// The key.
        key: String,
        /// The nearest key in the same table.
        near: Option<String>,
        /// Keys of that name in other tables.
        elsewhere: Vec<String>,
        /// What may stand here.
        allowed: Vec<String>,
    },
    /// A key that a build cannot change: the key.
    #[error("{0} cannot differ between builds")]
    NotInBuild(String),
    /// A value of the wrong kind.
    #[error("{key} must be {wanted}, not {got}")]
    WrongType {
        /// The key.
        key: String,
        /// What it must be.
        wanted: String,
        /// What it is.
        got: &'static str,
    },
    /// A number where a quantity with a unit is needed.
    #[error("{key} = {number} has no unit")]
    BareNumber {
        /// The key.
        key: String,
        /// The number.
        number: String,
        /// What is measured.
        dimension: Dimension,
        /// The same number in the units its users would mean.
        like: String,
    },
    /// A text that is not a quantity of the wanted kind.
    #[error("{key}: {cause}")]
    Quantity {
        /// The key.
        key: String,
        /// What is wrong with it.
        cause: UnitError,
        /// The unit that was probably meant.
        meant: Option<&'static str>,
    },
    /// A value outside its range.
    #[error("{key} = {value} is out of range")]
    OutOfRange {
        /// The key.
        key: String,
        /// The value.
        value: String,
        /// The allowed range, in the unit of the value.
        allowed: String,
    },
    /// A word that is not one of the choices.
    #[error("{key} cannot be \"{value}\"")]
    UnknownChoice {
        /// The key.
        key: String,
        /// The word.
        value: String,
        /// The nearest choice.
        near: Option<&'static str>,
        /// The choices.
        allowed: Vec<&'static str>,
    },
    /// A required key is not written.
    #[error("{key} is missing{}", in_build(build.as_deref()))]
    Missing {
        /// The key.
        key: &'static str,
        /// The build that lacks it, if builds are listed.
        build: Option<String>,
        /// What the key means.
        doc: &'static str,
        /// How it might be written.
        example: String,
    },
    /// Nothing says how fast the arrow is.
    #[error("nothing says how fast the arrow leaves{}", in_build(build.as_deref()))]
    NoSpeed {
        /// The build that lacks it, if builds are listed.
        build: Option<String>,
    },
    /// A straightness reading that does not say how it was read.
    #[error("faults.bend.reading does not say how it was read")]
    NoMeasure,
    /// Two keys that say the same thing.
    #[error("{key} and {other} are both given")]
    Conflict {
        /// One key.
        key: &'static str,
        /// The other.
        other: &'static str,
        /// Why only one may be.
        reason: &'static str,
    },
    /// A key without the key that gives it meaning.
    #[error("{key} does nothing without {other}")]
    Needs {
        /// The key.
        key: &'static str,
        /// What it needs.
        other: &'static str,
    },
    /// A key of another kind of question.
    #[error("{key} does not belong to a {kind} question")]
    NotForKind {
        /// The key.
        key: &'static str,
        /// The kind of question.
        kind: &'static str,
    },
    /// Blades on a point that has none.
    #[error("arrow.point.blades needs shape = \"fixed-blade\", not \"{shape}\"")]
    NoBlades {
        /// The shape.
        shape: String,
    },
    /// A list without entries.
    #[error("{key} is empty")]
    EmptyList {
        /// The key.
        key: &'static str,
    },
    /// Lengths that do not rise.
    #[error("{key} must rise: {value} follows {before}")]
    NotRising {
        /// The key.
        key: &'static str,
        /// The earlier value.
        before: String,
        /// The later value.
        value: String,
    },
    /// Too few or too many readings.
    #[error("{key} holds {count} reading{}", if *count == 1 { "" } else { "s" })]
    ReadingCount {
        /// The key.
        key: &'static str,
        /// How many there are.
        count: usize,
        /// The fewest.
        least: usize,
        /// The most.
        most: usize,
    },
    /// A reading without one of its two quantities.
    #[error("{key}: reading {row} has no {name}")]
    ReadingLacks {
        /// The key.
        key: &'static str,
        /// Which reading, from one.
        row: usize,
        /// What it lacks.
        name: &'static str,
    },
    /// Chronograph readings of one arrow mass only.
    #[error("bow.readings are all of one arrow mass")]
    OneMass,
    /// Chronograph readings of which a heavier arrow is not slower.
    #[error("bow.readings: the arrow of {mass} is no slower than the one of {lighter}")]
    NotSlower {
        /// Mass of the heavier arrow.
        mass: String,
        /// Mass of the lighter arrow.
        lighter: String,
    },
    /// A fitted virtual mass outside its range.
    #[error("bow.readings give a virtual mass of {value}")]
    FittedOut {
        /// The virtual mass.
        value: String,
        /// The allowed range.
        allowed: String,
    },
    /// A key that does nothing with the present word of a choice.
    #[error("{key} does nothing with {other} = \"{word}\"")]
    IdleWith {
        /// The key.
        key: &'static str,
        /// The choice.
        other: &'static str,
        /// Its word.
        word: String,
    },
    /// Groups or a round that say nothing of the archer's form: the key, and why.
    #[error("{0} does not say how the archer shoots: {1}")]
    NoForm(&'static str, String),
    /// A measured shift that does not say what was changed.
    #[error("[measured] does not say what was changed")]
    NoChange,
    /// Marks that end where they begin, or before.
    #[error("marks.to = {to} does not lie beyond marks.from = {from}")]
    NoMarks {
        /// The first.
        from: String,
        /// The last.
        to: String,
    },
    /// More marks than anyone reads.
    #[error("{count} marks from marks.from to marks.to")]
    ManyMarks {
        /// How many.
        count: usize,
        /// The most.
        most: usize,
    },
    /// A value that cannot be varied by a share of itself.
    #[error("cannot vary {key}: {because}")]
    NoTrend {
        /// The key.
        key: &'static str,
        /// Why not.
        because: &'static str,
    },
    /// A table that is not one of the distributions.
    #[error("{key} is a table, but not a distribution")]
    NotALaw {
        /// The key.
        key: String,
        /// The keys found.
        found: Vec<String>,
    },
    /// A spread that is not above zero.
    #[error("{key} = {value} spreads nothing")]
    NoSpread {
        /// The key.
        key: String,
        /// The spread.
        value: String,
    },
    /// Ends in the wrong order.
    #[error("{key}: low = {low} is not below high = {high}")]
    LowNotBelow {
        /// The key.
        key: String,
        /// The low end.
        low: String,
        /// The high end.
        high: String,
    },
    /// The value of a doubt lies outside its own ends.
    #[error("{key}: value = {value} is not between low = {low} and high = {high}")]
    OutsideDoubt {
        /// The key.
        key: String,
        /// The value.
        value: String,
        /// The low end.
        low: String,
        /// The high end.
        high: String,
    },
    /// A distribution where only a fixed value makes sense.
    #[error("{key} cannot be drawn from a distribution")]
    NotDrawn {
        /// The key.
        key: String,
    },
    /// A Rayleigh law for something that is not the size of a fault.
    #[error("{key} is not the size of a fault, so it cannot be Rayleigh")]
    NotASize {
        /// The key.
        key: String,
    },
    /// A sweep that cannot be made.
    #[error(transparent)]
    Sweep(#[from] SweepFault),
    /// More builds than fit side by side.
    #[error("{count} builds are to be compared")]
    ManyBuilds {
        /// How many there are.
        count: usize,
        /// The most.
        most: usize,
    },
    /// A measured table that cannot be read.
    #[error("{}{mistake}", at.as_ref().map_or_else(String::new, |at| format!("{at}: ")))]
    Table {
        /// Its column, by letter and head, if it is about one.
        at: Option<String>,
        /// What is wrong.
        mistake: TableMistake,
    },
    /// Two builds of one name.
    #[error("two builds are named \"{name}\"")]
    SameName {
        /// The name.
        name: String,
    },
    /// Two bench steps of one name.
    #[error("two steps are named \"{0}\"")]
    SameStep(String),
    /// A bench step that changes nothing.
    #[error("step \"{name}\" changes nothing")]
    IdleStep {
        /// The name.
        name: String,
    },
    /// A measured thing that cannot be used.
    #[error(transparent)]
    Evidence(#[from] EvidenceFault),
    /// More bench steps than can be weighed.
    #[error("{count} steps are too many to weigh")]
    ManySteps {
        /// How many there are.
        count: usize,
        /// The most.
        most: usize,
    },
    /// A build that does not exist.
    #[error("there is no build named \"{name}\"")]
    UnknownBuild {
        /// The name asked for.
        name: String,
        /// The names there are.
        allowed: Vec<String>,
    },
    /// Parts that do not make an arrow.
    #[error("these parts do not make an arrow{}: {cause}", in_build(build.as_deref()))]
    NotAnArrow {
        /// The build, if builds are listed.
        build: Option<String>,
        /// What is wrong.
        cause: ArrowError,
    },
    /// Bow and arrow that do not make a shot.
    #[error("this bow cannot shoot this arrow{}: {cause}", in_build(build.as_deref()))]
    NoDeparture {
        /// The build, if builds are listed.
        build: Option<String>,
        /// What is wrong.
        cause: LaunchError,
    },
    /// An arrow that does not make a flight.
    #[error("this arrow cannot be flown{}: {cause}", in_build(build.as_deref()))]
    NoFlight {
        /// The build, if builds are listed.
        build: Option<String>,
        /// What is wrong.
        cause: FlightError,
    },
}
