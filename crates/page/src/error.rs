use axum::http::StatusCode;

/// Why a request is refused.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum PageError {
    /// The Host header names neither this computer nor an address.
    #[error("this page answers to its own address only, not to the host \"{host}\"")]
    Host {
        /// What the request says.
        host: String,
    },
    /// A request that another site's page made.
    #[error("a page of another origin may not ask this one")]
    Origin,
    /// A link or a form that is too long.
    #[error("the request holds {length} bytes; at most {most} are taken")]
    TooLong {
        /// Its length.
        length: usize,
        /// The limit.
        most: usize,
    },
    /// A form that does not come to its end.
    #[error("the request did not arrive within {seconds} s")]
    TooSlow {
        /// The limit.
        seconds: u64,
    },
    /// A form that cannot be taken apart.
    #[error("the request is not a form: {reason}")]
    NotAForm {
        /// What the form reader says.
        reason: String,
    },
    /// A field that is not on the page, or stands twice.
    #[error("the field \"{field}\" is unknown or stands twice")]
    Field {
        /// Its name.
        field: String,
    },
    /// A word or number that does not fit its field.
    #[error("{field} = \"{value}\" is not understood; it may be {allowed}")]
    Value {
        /// The field.
        field: &'static str,
        /// The value.
        value: String,
        /// What may stand there.
        allowed: &'static str,
    },
    /// No such file in the folder of the page.
    #[error("there is no scenario {name} in the folder the page was started in")]
    NoFile {
        /// Its name.
        name: String,
    },
    /// A file name that may lead elsewhere.
    #[error(
        "\"{name}\" cannot be a file name here: letters, digits, space, dot, dash and underscore, beginning with a letter or digit, ending in .toml, and no name of a device such as con or nul"
    )]
    Name {
        /// The name.
        name: String,
    },
    /// A file of that name is there.
    #[error("{name} is already there and was left as it is; {free} is free")]
    Taken {
        /// The name.
        name: String,
        /// A name that is free.
        free: String,
    },
    /// The file could not be written.
    #[error("{name} could not be written: {cause}")]
    Write {
        /// Its name.
        name: String,
        /// What the system says.
        cause: std::io::ErrorKind,
    },
    /// No such page.
    #[error("there is nothing at {path}")]
    NoPage {
        /// The path.
        path: String,
    },
    /// Others are first.
    #[error("{}", told(*.before))]
    Queue {
        /// How many requests.
        before: usize,
    },
    /// More visitors wait than are served.
    #[error("too many requests wait; try again in a moment")]
    Busy,
    /// A later request of the same visitor took its place.
    #[error("a later request took the place of this one")]
    Overtaken,
    /// The scenario cannot be shown here.
    #[error("{reason}")]
    NotHere {
        /// Why.
        reason: &'static str,
    },
    /// The scenario has mistakes.
    #[error("the scenario has mistakes")]
    Wrong(Vec<Wrong>),
    /// The same, and its bow must not shoot its arrow.
    #[error("this bow must not shoot this arrow")]
    Barred(Vec<Wrong>),
    /// The flights failed.
    #[error(transparent)]
    Study(#[from] study::StudyError),
    /// The answer cannot be drawn.
    #[error(transparent)]
    Report(#[from] report::ReportError),
    /// The work ended without an answer.
    #[error("the work ended without an answer")]
    Lost,
}

/// How many are first, in words.
fn told(before: usize) -> String {
    let requests = if before == 1 { "request is" } else { "requests are" };
    format!("{before} {requests} before yours; it is answered when its turn comes")
}

/// A mistake and the field it belongs to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Wrong {
    /// The field, where one is to blame.
    pub field: Option<&'static str>,
    /// What is wrong, and what would be right.
    pub text: String,
}

impl PageError {
    /// How the answer says it to a program.
    pub fn status(&self) -> StatusCode {
        match self {
            Self::Host { .. } => StatusCode::MISDIRECTED_REQUEST,
            Self::Origin => StatusCode::FORBIDDEN,
            Self::TooLong { .. } => StatusCode::PAYLOAD_TOO_LARGE,
            Self::TooSlow { .. } => StatusCode::REQUEST_TIMEOUT,
            Self::NotAForm { .. } | Self::Field { .. } => StatusCode::BAD_REQUEST,
            Self::NoFile { .. } | Self::NoPage { .. } => StatusCode::NOT_FOUND,
            Self::Taken { .. } | Self::Overtaken => StatusCode::CONFLICT,
            Self::Value { .. }
            | Self::Name { .. }
            | Self::NotHere { .. }
            | Self::Wrong(_)
            | Self::Barred(_)
            | Self::Study(_) => StatusCode::UNPROCESSABLE_ENTITY,
            Self::Queue { .. } | Self::Busy => StatusCode::SERVICE_UNAVAILABLE,
            Self::Write { .. } | Self::Report(_) | Self::Lost => StatusCode::INTERNAL_SERVER_ERROR,
        }
    }
}
