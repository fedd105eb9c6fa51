//! What a message says beyond its first line: under the carets, and as help.

use crate::ScenarioError as E;
use crate::schema::{
    Fallback, Id, Named, find, inside, last, limits, plain_word, plain_word_of, plain_words,
};
use crate::text::{measure, neat};

/// The most names listed in one message.
const MOST_NAMES: usize = 24;

/// The most keys that are all named, and of more the nearest. Chosen: a line.
const FEW: usize = 12;
const NEAREST: usize = 5;

/// Longest word that is held against others, bytes. Chosen: twice the longest key.
const LONGEST: usize = 60;

/// Where every key stands.
const ALL_KEYS: &str = "`clothyard keys` lists all keys";

/// How like two names must be to be named together, 0 to 1. Chosen: the same letters in
/// the same order for the better part.
const LIKE: f64 = 0.65;

impl E {
    /// The key that is missing, where one is.
    pub fn missing(&self) -> Option<&'static str> {
        match self {
            Self::Missing { key, .. } => Some(key),
            _ => None,
        }
    }

    /// The words under the carets.
    pub fn label(&self) -> String {
        match self {
            E::Unreadable { .. } => "named here".into(),
            E::Syntax(_) => "here".into(),
            E::Slip(slip) => slip.label(),
            E::PartLoop(..) => "read again from here".into(),
            E::PartTooDeep { .. } => "one file too deep".into(),
            E::UnknownKey { near: Some(near), .. } => format!("did you mean {near}?"),
            E::UnknownKey { .. } => "not a key".into(),
            E::NotInBuild(_) => "only at the top of the file".into(),
            E::WrongType { wanted, .. } => format!("expected {wanted}"),
            E::BareNumber { like, .. } => format!("write {like}"),
            E::Quantity { meant: Some(unit), .. } => format!("did you mean {unit}?"),
            E::Quantity { .. } => "not understood".into(),
            E::OutOfRange { allowed, .. } | E::FittedOut { allowed, .. } => {
                format!("allowed: {allowed}")
            }
            E::UnknownChoice { near: Some(near), .. } => format!("did you mean \"{near}\"?"),
            E::UnknownChoice { .. } => "not one of the choices".into(),
            E::Missing { key, .. } => format!("no {} here", last(key)),
            E::NoSpeed { .. } => "no speed here".into(),
            E::NoMeasure => "total or plus/minus?".into(),
            E::Conflict { .. } => "given here".into(),
            E::Needs { other, .. } => format!("{other} is not given"),
            E::NotForKind { .. } | E::IdleWith { .. } => "not used".into(),
            E::Evidence(fault) => fault.label(),
            E::NoBlades { .. } => "blades given here".into(),
            E::EmptyList { .. } => "needs at least one entry".into(),
            E::NotRising { .. } => "not above the one before".into(),
            E::ReadingCount { least, most, .. } => format!("needs {least} to {most}"),
            E::ReadingLacks { name, .. } => format!("no {name} here"),
            E::OneMass => "needs a second mass".into(),
            E::NotSlower { .. } => "the heavier arrow".into(),
            E::NoChange => "nock_turn or bare?".into(),
            E::NoForm(..) => "no form in this".into(),
            E::NoMarks { .. } => "not beyond the first".into(),
            E::ManyMarks { most, .. } | E::ManySteps { most, .. } | E::TooMany { most, .. } => {
                format!("at most {most}")
            }
            E::NoTrend { .. } => "this trend".into(),
            E::NotALaw { found, .. } => format!("holds {}", listed(found)),
            E::NoSpread { .. } => "must be above zero".into(),
            E::LowNotBelow { .. } | E::OutsideDoubt { .. } => "ends out of order".into(),
            E::NotDrawn { .. } => "needs one fixed value".into(),
            E::NotASize { .. } => "would only ever be positive".into(),
            E::ManyBuilds { most, .. } => format!("at most {most} fit side by side"),
            E::Table { mistake, .. } => mistake.label(),
            E::Sweep(fault) => fault.label(),
            E::SameName { .. } | E::SameStep(..) => "named again here".into(),
            E::IdleStep { .. } => "no change here".into(),
            E::UnknownBuild { .. } => "no such build".into(),
            E::NotAnArrow { .. } => "this arrow".into(),
            E::NoDeparture { .. } => "this bow".into(),
            E::NoFlight { .. } => "in this air".into(),
        }
    }

    /// What to do about it.
    pub fn helps(&self) -> Vec<String> {
        let one = |text: &str| vec![text.to_owned()];
        match self {
            E::Unreadable { .. } => {
                one("a part's path is taken from the folder of the file that names it")
            }
            E::UnknownKey { key, near, elsewhere, allowed } => {
                let mut helps = Vec::new();
                if near.is_none() && !elsewhere.is_empty() {
                    helps.push(format!("there is {}", listed(elsewhere)));
                }
                helps.extend(of_the_trade(key).map(str::to_owned));
                let known = near.is_some() || !helps.is_empty();
                helps.push(nearest(key, allowed, known));
                helps
            }
            E::Slip(slip) => slip.helps(),
            E::Syntax(detail) if detail.contains("duplicate key") => one(
                "a key or a table stands once: beside [bow] write kind = \"recurve\" in it, not \
                     bow = \"recurve\" above; beside [wind] likewise speed",
            ),
            E::OutOfRange { key, value, .. } => match find(key) {
                Some(Named::Key(id)) => {
                    let doc = id.key().doc.to_owned();
                    meant(id, value).into_iter().chain([doc]).collect()
                }
                _ => Vec::new(),
            },
            E::NotInBuild(_) => {
                one("a build holds a name and any of bow, arrow, faults, archer, departure, \
                     air, wind, range, sight, aero")
            }
            E::BareNumber { dimension, .. } => {
                vec![format!("units of {dimension}: {}", dimension.written().join(", "))]
            }
            E::UnknownChoice { allowed, .. } => {
                vec![format!("choices: \"{}\"", allowed.join("\", \""))]
            }
            E::Missing { doc, example, .. } => vec![format!("{doc} Write, say, {example}")],
            E::NoSpeed { .. } => {
                one("give a chronograph reading, [bow] speed = \"285 ft/s\" and speed_mass = \
                 \"420 gr\", or several in readings = [...], or a rating, [bow.rating] speed = \
                 \"335 ft/s\"; for lack of any, speed_from = \"stored\"")
            }
            E::OneMass => {
                one("shoot a heavier or lighter arrow too, or give one reading as speed \
                 and speed_mass")
            }
            E::NotSlower { .. } => {
                one("one bow gives a heavier arrow less speed: look for readings \
                 mixed up, or read again with masses farther apart")
            }
            E::FittedOut { .. } => {
                one("no bow keeps so much or so little: read again with masses \
                 farther apart, or give one reading as speed and speed_mass")
            }
            E::NoChange => one("write nock_turn = \"120 deg\" for the same arrow with its nock \
                 turned, or bare = true for a bare shaft held against the fletched arrow"),
            E::NoMarks { .. } => one("swap marks.from and marks.to, or check their units"),
            E::ManyMarks { .. } => one("write a longer marks.step"),
            E::NoMeasure => one(
                "straightness is sold as plus/minus and as total indicator reading, a factor of \
                 two apart: write measure = \"total\" for what the needle swings, or \
                 measure = \"plus-minus\" for half of that",
            ),
            E::Conflict { reason, .. } => vec![format!("keep one: {reason}")],
            E::NoBlades { .. } => one("set the shape to \"fixed-blade\", or take the blades out"),
            E::NotALaw { .. } => one(
                "write { mean, sd }, { low, high } or { rayleigh }, each with an optional per = \
                 \"arrow\" or \"shot\"; sorted arrows { mean, sd, within } or { rayleigh, at_most \
                 }; or { value, low, high } for a value known only roughly",
            ),
            E::NotASize { .. } => one("use { mean, sd } or { low, high }"),
            E::Table { mistake, .. } => mistake.helps(),
            E::Sweep(fault) => fault.helps(),
            E::ManyBuilds { .. } => one("ask again with fewer: every two of them are compared"),
            E::IdleStep { .. } => {
                one("say what it changes, such as faults.point_end.angle = { rayleigh = \
                     \"0.05 deg\" }")
            }
            E::Evidence(fault) => fault.helps(),
            E::UnknownBuild { allowed, .. } => vec![format!("builds: {}", listed(allowed))],
            E::Quantity { cause: units::UnitError::NoNumber { .. }, .. } => {
                one("a quantity is a number and a unit in quotes, such as \"28.5 in\"")
            }
            _ => Vec::new(),
        }
    }
}

/// The same number in the unit that was probably meant: grains for grams, per
/// cent for a share.
fn meant(id: Id, value: &str) -> Option<String> {
    let (dimension, ..) = measure(id)?;
    let si = &dimension.units()[0];
    let read = units::read(dimension, value.trim_matches('"'), units::Bare::In(si)).ok()?;
    let other = if read.unit().symbol.is_empty() { "%" } else { read.unit().counterpart()? };
    let other = dimension.unit(other)?;
    let number = read.unit().of_si(read.si());
    let (low, high) = limits(id);
    let fits = !(low..=high).contains(&read.si()) && (low..=high).contains(&other.to_si(number));
    fits.then(|| format!("did you mean \"{} {}\"?", neat(number), other.symbol))
}

/// What is said of a word that archers know and that is no key.
fn of_the_trade(key: &str) -> Option<&'static str> {
    match key.to_lowercase().as_str() {
        "foc" => Some("FOC follows from the parts: `clothyard arrow` tells it"),
        "broadhead" => Some(
            "a broadhead is a point: write its mass as point = \"100 gr\" and, behind all other \
             lines, [arrow.point] with shape = \"fixed-blade\" in it",
        ),
        _ => None,
    }
}

/// The names that may stand where a key stands: all where they are few, else those most
/// like it, else those that are written most; none of many where the key is known.
fn nearest(key: &str, allowed: &[String], known: bool) -> String {
    let words = plain_words().map(|word| -> &str { word }).filter(|word| {
        let of = plain_word(word).map(Id::path);
        let may = |path: &str| allowed.iter().any(|name| inside(path, name));
        !key.contains('.') && of.is_some_and(|of| may(of) && plain_word_of(of) == Some(*word))
    });
    let names: Vec<&str> = words.chain(allowed.iter().map(String::as_str)).collect();
    if names.len() <= FEW {
        return format!("keys here: {}", names.join(", "));
    }
    if known {
        return ALL_KEYS.to_owned();
    }
    let wrong = last(key).to_lowercase();
    // Nothing that long is like a key.
    let among = if wrong.len() > LONGEST { &[] } else { &names[..] };
    let mut like: Vec<(f64, &str)> =
        among.iter().map(|name| (strsim::jaro_winkler(&wrong, name), *name)).collect();
    like.retain(|(alike, _)| *alike >= LIKE);
    like.sort_by(|a, b| b.0.total_cmp(&a.0));
    let near: Vec<&str> = like.iter().map(|(_, name)| *name).take(NEAREST).collect();
    let told = if near.is_empty() {
        // At the top, what no scenario does without.
        let needed = |name: &&str| {
            plain_word(name).is_some_and(|id| {
                id == Id::BowSpeed || matches!(id.key().fallback, Fallback::Required)
            })
        };
        let needed: Vec<&str> = names.iter().copied().filter(needed).collect();
        let usual = if needed.is_empty() { &names[..FEW] } else { &needed };
        format!("usual here: {}", usual.join(", "))
    } else {
        format!("near it: {}", near.join(", "))
    };
    format!("{told}; {ALL_KEYS}")
}

fn listed(names: &[String]) -> String {
    if names.len() > MOST_NAMES {
        format!("{}, and {} more", names[..MOST_NAMES].join(", "), names.len() - MOST_NAMES)
    } else {
        names.join(", ")
    }
}
