//! A command: what it takes and what it says.

/// Before the name of a field of a command; all other fields are the page's state.
pub(super) const PREFIX: &str = "t.";
/// Behind the name of a table: one of the folder, in place of one that is pasted.
pub const KEPT: &str = "kept";
/// The report of a command, which opens in the browser.
pub(super) const REPORT: &str = "report.html";

/// The commands of the program.
pub trait Tools: Send + Sync + 'static {
    /// Every command that a visitor may use.
    fn list(&self) -> Vec<Tool>;
    /// Tables of jobs and trials in the folder that the page was started in, by folder and
    /// name, such as `tansy/arrows.csv`.
    fn tables(&self) -> Vec<String>;
    /// Runs one, with what was given; it ends by itself, or soon after it is `stopped`.
    ///
    /// # Errors
    /// What the system says of the files that it needs for a while.
    fn run(
        &self,
        order: &ToolOrder,
        stopped: &(dyn Fn() -> bool + Sync),
    ) -> std::io::Result<ToolAnswer>;
}

/// A command.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Tool {
    /// Its words on a command line, such as `bench cut`.
    pub name: String,
    /// What it does, in a line.
    pub about: String,
    /// What else there is to say; may be empty.
    pub more: String,
    /// What may be given.
    pub fields: Vec<ToolField>,
}

/// What may be given to a command.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ToolField {
    /// Its name.
    pub id: String,
    /// What it is.
    pub help: String,
    /// How it looks when written, such as LENGTH; may be empty.
    pub form: String,
    /// What is given.
    pub kind: FieldKind,
    /// Whether it must be given.
    pub needed: bool,
    /// Whether several may be given, a line each.
    pub many: bool,
    /// What counts where nothing is given; may be empty.
    pub usual: String,
}

/// What a field takes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum FieldKind {
    /// A word or a quantity.
    Text,
    /// Yes, or nothing.
    Flag,
    /// One of these words, each with its meaning.
    Choice(Vec<(String, String)>),
    /// A table, as a spreadsheet would save it.
    Table,
    /// A scenario.
    Scenario,
    /// A folder of the visitor's that is kept, by its plain name.
    Folder,
}

/// What a command is run with.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ToolOrder {
    /// The command.
    pub tool: String,
    /// Names of fields and what was given, those of a table or a scenario as text; a table of
    /// the folder by its name there, under the field's with a dot and [`KEPT`] behind it.
    pub given: Vec<(String, String)>,
}

/// What a command said and wrote.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct ToolAnswer {
    /// 0 where it was done.
    pub code: u8,
    /// The answer.
    pub out: String,
    /// Mistakes and notes.
    pub err: String,
    /// Files that it wrote, by plain names.
    pub files: Vec<(String, Vec<u8>)>,
}

impl Tool {
    /// Its name in an address.
    pub(crate) fn path(&self) -> String {
        self.name.replace(' ', "-")
    }

    /// Whether it is asked of a scenario.
    pub(crate) fn of_scenario(&self) -> Option<&ToolField> {
        self.fields.iter().find(|field| field.kind == FieldKind::Scenario)
    }
}
