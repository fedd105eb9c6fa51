//! How a command can end badly, and what it then says.

use std::io;
use std::net::SocketAddr;
use std::path::PathBuf;

use scenario::ScenarioError;
use study::StudyError;

/// Why a command did not do what it was asked.
#[derive(Debug, thiserror::Error)]
pub(crate) enum Failure {
    #[error("the command line has mistakes")]
    Usage(clap::Error),
    #[error("a scenario or a measured table has mistakes")]
    Mistakes(scenario::Report),
    #[error(transparent)]
    Request(#[from] ScenarioError),
    #[error("--marks \"{text}\": {cause}\n  hint: write marks like --marks '20 yd, 30 yd'")]
    Mark { text: String, cause: units::UnitError },
    #[error("--marks: {given} does not lie beyond the mark before it; marks rise from above zero")]
    MarkOrder { given: String },
    #[error("--{option} \"{text}\": {cause}")]
    Quantity { option: &'static str, text: String, cause: units::UnitError },
    #[error(
        "--mark \"{given}\" is no mark\n  hint: write a distance and what the sight's scale \
         reads, \"20 yd = 31.5 mm\", or how far two marks lie apart, \
         \"20 yd to 60 yd = 19.9 mm\""
    )]
    ShotMark { given: String },
    #[error(
        "one reading of the scale, --mark \"{given}\", does not tell the arrow's speed\n  hint: \
         give a second --mark far from it"
    )]
    LoneMark { given: String },
    #[error("--{option} {given} is outside {allowed}")]
    Option { option: &'static str, given: String, allowed: String },
    #[error(
        "this run would fly {flights} arrows or more, and above {most} it has to be asked for\n  \
         hint: add --long, or ask for fewer flights"
    )]
    Costly { flights: u64, most: u64 },
    #[error("this scenario is a rigid body and asks no question\n  hint: use `clothyard fly`")]
    NoQuestion,
    #[error(
        "this scenario has no [measured] table\n  hint: say there what was changed and how far the impact moved"
    )]
    NothingMeasured,
    #[error(
        "this scenario has no [marks] table\n  hint: write [marks]; it may be empty, every key in it has a default"
    )]
    NoMarks,
    #[error("ended before anything was known; nothing was written")]
    Stopped,
    #[error(
        "ended before what is not known was; the earlier answer in {} stays as it was", path.display()
    )]
    EarlierStays { path: PathBuf },
    #[error("no restraint explains the measured shift, so no part file was written")]
    NotPinned,
    #[error("this scenario is a rigid body and holds no arrow\n  hint: use `clothyard fly`")]
    NoArrow,
    #[error("--{option} does not go with flight.model = \"rigid-body\"")]
    NotForRigidBody { option: &'static str },
    #[error(
        "{} is already there; nothing was written\n  hint: name another place with --out{}",
        path.display(),
        if *replace { ", or allow it with --replace" } else { "" }
    )]
    Exists { path: PathBuf, replace: bool },
    #[error(
        "{} is not as an earlier answer left it, so nothing was replaced or removed\n  hint: name \
         another place with --out, or move it elsewhere",
        path.display()
    )]
    NotOurs { path: PathBuf },
    #[error(
        "{} is read by this command and lies in {}, which is therefore not replaced; nothing was \
         written\n  hint: name another place with --out",
        input.display(),
        path.display()
    )]
    InputWithin { input: PathBuf, path: PathBuf },
    #[error(
        "another run is at work for {}; nothing was written\n  hint: wait for it, or name another \
         place with --out",
        path.display()
    )]
    InUse { path: PathBuf },
    #[error(
        "another program changed {} at the same time; nothing was written\n  hint: give the row again",
        path.display()
    )]
    Changed { path: PathBuf },
    #[error(
        "a verdict needs two groups: {files} files, {counts} times --n and {radii} times \
         --mean-radius or --spread are given\n  hint: each group is a file, or one --n with one \
         --mean-radius, or one --n with one --spread"
    )]
    TwoGroups { files: usize, counts: usize, radii: usize },
    #[error(
        "a trial needs two builds, each with a name of its own; {given} given\n  hint: name them, \
         as in clothyard trial sheet old new --distance '30 yd' --times 1.3"
    )]
    TrialBuilds { given: usize },
    #[error(
        "the builds asked for are not in the scenario, which has: {has}\n  hint: name two of \
         them before --of"
    )]
    TrialOf { has: String },
    #[error(
        "it is not said what the trial is to show\n  hint: --times 1.3, how many times as wide one \
         groups; or --apart '2 in' --spread '5 arrows 6 in'; or --of a scenario with both builds"
    )]
    TrialAsks,
    #[error("--spread \"{given}\" is no group\n  hint: write it like --spread '5 arrows 6 in'")]
    TrialGroup { given: String },
    #[error(
        "the scenario does not say who shoots, and without that no number of arrows can be \
         given\n  hint: say it at the top of the file, such as group = \"5 arrows at 40 yd span 6 in\""
    )]
    TrialNobody,
    #[error(
        "spreads say nothing of where a group lies, and nothing of a single arrow\n  hint: take \
         --by places, or ask for a width with two arrows or more of each build in an end"
    )]
    TrialSpreads,
    #[error(
        "this trial reads where each arrow hit, not spreads\n  hint: fill in shots.csv, or plan \
         another with --by spreads"
    )]
    TrialTyped,
    #[error("--end is given {given} times; this trial has {most} ends")]
    TrialEnds { given: usize, most: u32 },
    #[error(
        "--end \"{given}\" is no pair of spreads\n  hint: first build, then second: --end '6 in, \
         4 1/2 in'"
    )]
    TrialEnd { given: String },
    #[error(
        "there is no shift of the centres to write down: it takes places of the arrows, and the \
         first look"
    )]
    TrialNoEvidence,
    #[error(
        "the trial is not over, so that it is no evidence yet: ends to shoot until the next look: \
         {ends}\n  hint: judge it without --evidence to see what it says so far"
    )]
    TrialGoesOn { ends: u32 },
    #[error("--{option} \"{text}\": {cause}")]
    Size { option: &'static str, text: String, cause: units::UnitError },
    #[error("these groups cannot be judged: {0}")]
    Target(#[from] target::TargetError),
    #[error(transparent)]
    Bench(#[from] crate::bench::slip::Slip),
    #[error(transparent)]
    Study(#[from] StudyError),
    #[error(transparent)]
    Flight(#[from] flight::FlightError),
    #[error(transparent)]
    Report(#[from] report::ReportError),
    #[error("cannot read {}: {cause}", path.display())]
    Read { path: PathBuf, cause: io::Error },
    #[error("cannot write {}: {cause}", path.display())]
    Write { path: PathBuf, cause: io::Error },
    #[error("cannot answer at {address}: {cause}\n  hint: name another port with --port")]
    Listen { address: SocketAddr, cause: io::Error },
    #[error("cannot use the folder {}: {cause}", path.display())]
    Folder { path: PathBuf, cause: io::Error },
    #[error("cannot print: {0}")]
    Print(io::Error),
}

impl Failure {
    /// The system refused to write there.
    pub(crate) fn write(path: &std::path::Path) -> impl FnOnce(io::Error) -> Self + use<> {
        let path = path.to_owned();
        move |cause| Self::Write { path, cause }
    }

    pub(crate) fn code(&self) -> u8 {
        match self {
            // Shots that cannot be are wrong input.
            Self::Study(
                StudyError::Impossible { .. }
                | StudyError::FewShots { .. }
                | StudyError::NotTold { .. },
            )
            | Self::Usage(_)
            | Self::Mistakes(_)
            | Self::Request(_)
            | Self::Mark { .. }
            | Self::MarkOrder { .. }
            | Self::Quantity { .. }
            | Self::ShotMark { .. }
            | Self::LoneMark { .. }
            | Self::Option { .. }
            | Self::NoQuestion
            | Self::Costly { .. }
            | Self::Bench(_)
            | Self::NothingMeasured
            | Self::NoMarks
            | Self::NoArrow
            | Self::TwoGroups { .. }
            | Self::TrialBuilds { .. }
            | Self::TrialOf { .. }
            | Self::TrialAsks
            | Self::TrialGroup { .. }
            | Self::TrialNobody
            | Self::TrialSpreads
            | Self::TrialTyped
            | Self::TrialEnds { .. }
            | Self::TrialEnd { .. }
            | Self::TrialNoEvidence
            | Self::TrialGoesOn { .. }
            | Self::Size { .. }
            | Self::Target(_)
            | Self::NotForRigidBody { .. }
            | Self::Read { .. }
            | Self::Exists { .. }
            | Self::NotOurs { .. }
            | Self::InputWithin { .. }
            | Self::InUse { .. }
            | Self::Changed { .. } => 2,
            Self::Study(_)
            | Self::Flight(_)
            | Self::Report(_)
            | Self::NotPinned
            | Self::EarlierStays { .. }
            | Self::Stopped => 1,
            Self::Write { .. } | Self::Listen { .. } | Self::Folder { .. } | Self::Print(_) => 3,
        }
    }
}
