use std::path::PathBuf;

use units::UnitError;

/// What is wrong with the words of a bench command.
#[derive(Debug, thiserror::Error)]
pub(crate) enum Slip {
    #[error("--{option} \"{text}\": {cause}")]
    Quantity { option: &'static str, text: String, cause: UnitError },
    #[error(
        "readings along a shaft say nothing without where it lay on its supports\n  hint: measure \
         from the nock end where the shaft rests and add, say, --supports '2 in, 30 in'; or read \
         each shaft at three places instead, --three"
    )]
    NoSupports,
    #[error("--supports \"{text}\" is not two places\n  hint: write them like '2 in, 30 in'")]
    Supports { text: String },
    #[error("--set \"{text}\" is not a name and a count\n  hint: write it like hunt=6")]
    Set { text: String },
    #[error("--set: the name \"{name}\" stands twice")]
    SetTwice { name: String },
    #[error(
        "shaft {name} has no length\n  hint: give the notebook a column \"stock\", or say --stock"
    )]
    NoStock { name: String },
    #[error(
        "nothing is known of the shafts\n  hint: give a notebook with --readings or --three, or \
         --grade, --measure and --stock"
    )]
    NothingRead,
    #[error(
        "{}: no arrow has a mass, spine, length, balance or wobble that is read, so there is \
         nothing to choose by\n  hint: call the columns as `clothyard bench columns batch` does, each \
         with its unit, such as mass [gr]", file.display()
    )]
    NothingKnown { file: PathBuf },
    #[error(
        "the sets need {wanted} arrows, and the notebook has {has}\n  hint: ask for smaller sets, \
         or measure more arrows"
    )]
    Sets { wanted: usize, has: usize },
    #[error(
        "{}: bare shafts ({bare}) and finished arrows ({finished}) are not one batch: what moves \
         the one is not what moves the other\n  hint: add --only bare or --only finished",
        file.display()
    )]
    Mixed { file: PathBuf, bare: String, finished: String },
    #[error(
        "{}: no finished arrow is in it, and a bare shaft has no nock to turn\n  hint: `clothyard \
         bench build` says where the nock of a shaft goes", file.display()
    )]
    NoNock { file: PathBuf },
    #[error("{}: no arrow of that kind is in it", file.display())]
    NoneOnly { file: PathBuf },
    #[error("\"{text}\" does not say a column and a value\n  hint: write it like mass='425 gr'")]
    Pair { text: String },
    #[error(
        "nothing is said of \"{name}\"\n  hint: leave it out where nothing was read; what stands is \
         taken back by naming it with correction=void"
    )]
    Nothing { name: String },
    #[error("\"{name}\" is said twice\n  hint: several arrows are arrow=1-12 or arrow=1,3,5")]
    Twice { name: String },
    #[error(
        "arrow={said} runs backwards\n  hint: write the lower number first: arrow={low}-{high}"
    )]
    Backwards { said: String, low: u32, high: u32 },
    #[error(
        "{} is there already, and a job is opened once\n  hint: put it right with `clothyard job note FOLDER \
         --into job correction=yes` and what is to be changed", file.display()
    )]
    JobThere { file: PathBuf },
    #[error(
        "{}: {what} {middle} in the middle, and the scenario says {own}: are they the same arrows?\n  \
         hint: look at the unit in the head of the column \"{column}\", or give the scenario of \
         these arrows", file.display()
    )]
    OtherArrows {
        file: PathBuf,
        what: &'static str,
        middle: String,
        own: String,
        column: &'static str,
    },
    #[error(
        "{} holds other files, and a job has a folder of its own\n  hint: name a folder that is \
         not there yet", folder.display()
    )]
    FolderTaken { folder: PathBuf },
    #[error(
        "{} is a file, and a job has a folder of its own\n  hint: name a folder that is not there \
         yet", folder.display()
    )]
    FolderIsFile { folder: PathBuf },
    #[error(
        "{} holds no job\n  hint: {}", folder.display(),
        if there.is_empty() {
            "begin one with `clothyard job open`".to_owned()
        } else {
            format!("jobs beside it: {}", there.join(", "))
        }
    )]
    NoJob { folder: PathBuf, there: Vec<String> },
    #[error("nothing says which arrow\n  hint: write arrow=7, arrow=1-12 or arrow=1,3,5")]
    NoArrowSaid,
    #[error("nothing says at which stage\n  hint: write stage=raw, cut, squared, built or shot")]
    NoStage,
    #[error("arrow {name} is not out, so there is nothing to put back in")]
    NotOut { name: String },
    #[error("\"{name}\" is no arrow of this job, which has arrows 1 to {arrows}")]
    NotInJob { name: String, arrows: u32 },
}
