//! What to mind before shooting or sawing, in words: the only place that has them.
//! Every medium shows them before its answer. Model card: docs/model/safety.md.

use study::{Caution, Danger, Far, FarAt, FarBy, Seat};
use units::{Role, Style};

use crate::show::{brief, figures, plain, share, significant};

/// Whose word goes first; it heads every list of cautions.
pub const FIRST: &str =
    "Before you shoot: your bow maker's limits, local law and licensed practice come first.";

/// The same in front of cautions none of which is a danger of this very arrow: one line,
/// so that a danger is seen where there is one.
pub(crate) const FIRST_SHORT: &str = "Bow maker's limits and law first.";

/// Carbon dust, common practice.
const DUST: &str = "Cutting and squaring carbon makes harmful dust: wear a mask, cut wet or with \
    suction, and wipe up wet.";

/// What goes without saying of any bow, common practice.
const STANDING: [&str; 7] = [
    "Your bow maker's limits on arrow weight, length and stiffness come before anything here. Too \
     light an arrow can wreck a bow.",
    "Carbon shafts crack. Inspect and flex every shaft, away from your face, before each shot; a \
     cracked one can break into the hand.",
    DUST,
    "Broadheads cut. Fit and remove them with a wrench and keep them covered.",
    "Shoot only with a sound backstop and a clear space behind it for an arrow that misses: a \
     miss flies far beyond the target.",
    "Take a group size as a reason to move closer, never as leave to shoot farther.",
    "Local law and range rules decide what may be shot, where, and with what.",
];

/// Builds named in a short caution before the rest are counted, and in a whole one. Chosen:
/// one line; as many builds as are compared.
const NAMED: usize = 2;
const MOST_NAMED: usize = study::MOST_BUILDS;

/// What a share of hits leaves out; never shown apart from it.
pub(crate) const NO_LICENCE: &str = "A share of hits is no licence to shoot. It is computed for a target that \
    keeps still: it leaves out what an animal does while the arrow flies, your own judgement of \
    the shot, and the law. Take it as a reason to move closer, never to shoot farther.";

/// Work that has a caution of its own, common practice.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Job {
    /// Shares of hits are told.
    Hits,
    /// Marks are handed out to be shot by.
    Marks,
    /// Steps at the bench are weighed, some of which cut or sand.
    Steps,
    /// Shafts are sawn.
    Saw,
    /// Arrows are worked on.
    Bench,
    /// Two builds are shot against each other.
    Trial,
}

/// A caution in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CautionText {
    /// All of it.
    pub full: String,
    /// The same in one line.
    pub short: String,
    /// Whether it is a danger of this very arrow, not what a job always asks.
    pub danger: bool,
}

/// Every caution that is due, as texts.
pub fn cautions(found: &[Caution], jobs: &[Job], style: Style) -> Vec<CautionText> {
    let (far, hurts): (Vec<&Caution>, Vec<&Caution>) =
        found.iter().partition(|caution| matches!(caution.danger, Danger::Far(_)));
    // What can hurt the shooter stands first.
    let dangers = hurts.into_iter().chain(far).map(|caution| danger(caution, style));
    dangers.chain(jobs.iter().map(|job| job.caution())).collect()
}

/// How many of them can hurt the shooter; those stand first among [`cautions`].
pub(crate) fn hurts(found: &[Caution]) -> usize {
    found.iter().filter(|caution| !matches!(caution.danger, Danger::Far(_))).count()
}

/// That shafts are set aside whose readings no sound one gives, each named with what it
/// reads.
pub(crate) fn set_aside(shafts: &str) -> CautionText {
    let said = format!(
        "Set aside shaft {shafts}: no sound shaft reads so. If it is no slip of the pen it is bent or \
         cracked"
    );
    CautionText {
        full: format!(
            "{said}; damaged carbon can break into the hand: do not flex, cut or shoot it; break it, \
             so that nobody does."
        ),
        short: format!("{said}, and may break into the hand: do not shoot it."),
        danger: true,
    }
}

/// What goes without saying of any bow.
pub fn standing() -> &'static [&'static str] {
    &STANDING
}

impl Job {
    fn caution(self) -> CautionText {
        let short = match self {
            Self::Hits => "A share of hits, of a still target, is no licence: move closer.",
            Self::Marks => "Computed marks: sight in near, shoot each; none at an animal.",
            Self::Steps => "Carbon dust harms: wear a mask, cut wet or with suction.",
            Self::Saw => "Sawing carbon: mask, glasses, gloves; cut wet; mind your fingers.",
            Self::Bench => "Flex and inspect every carbon shaft; on any doubt break it.",
            Self::Trial => "A sound backstop, nobody forward; flex each carbon shaft each shot.",
        };
        CautionText { full: self.text().to_owned(), short: short.to_owned(), danger: false }
    }

    fn text(self) -> &'static str {
        match self {
            Self::Hits => NO_LICENCE,
            Self::Marks => {
                "Computed marks: sight in at short range first, with a safe backstop; shoot every \
                 mark before you trust it, and never shoot at an animal by a computed mark alone."
            }
            Self::Steps => DUST,
            Self::Saw => {
                "Sawing: carbon splinters cut and its dust stays in the lungs. Tape the shaft, turn \
                 it, cut wet or with suction, wear mask, glasses and gloves; guard on, fingers \
                 behind the fence, saw unplugged to change a wheel."
            }
            Self::Bench => {
                "Flex and inspect every carbon shaft after each cut and before each shot, away from \
                 your face. On any doubt break it, so that nobody shoots it."
            }
            Self::Trial => {
                "On the range: a sound backstop, one line, nobody forward until every arrow is shot. \
                 Taped or not, flex and inspect each carbon shaft before each shot, away from your \
                 face. Broadheads only into a butt that takes them. Stop when you are tired."
            }
        }
    }
}

/// A share of hits that lies below a limit, so that it reads below it.
fn below(hits: f64, least: f64) -> String {
    if share(hits) == share(least) {
        format!("{:.1} %", (1e3 * hits).floor() / 10.0)
    } else {
        share(hits)
    }
}

/// A danger: its name and what was found, and what may come of it.
fn danger(caution: &Caution, style: Style) -> CautionText {
    let (found, comes) = danger_words(caution, (MOST_NAMED, style));
    let (brief, _) = danger_words(caution, (NAMED, style));
    // Also where it is short it says what may come of it: the rest of its first sentence.
    let first = comes.split('.').next().unwrap_or_default();
    CautionText { full: format!("{found}{comes}"), short: format!("{brief}{first}."), danger: true }
}

/// The same with so many builds named.
fn danger_words(caution: &Caution, (most, style): (usize, Style)) -> (String, &'static str) {
    let of = names(&caution.of, most);
    let part = |si: f64| brief(Role::Part, si, style);
    match caution.danger {
        Danger::Light { mass_per_force, least } => (
            format!(
                "Too light{of}: {} of draw weight, under {}",
                Role::MassPerForce.text(mass_per_force, style),
                plain(Role::MassPerForce, least, style)
            ),
            "; the bow may break, as if shot without an arrow.",
        ),
        Danger::Buckles { times, most } => (
            format!(
                "Shaft too weak{of}: the push peaks at {} times what buckles it, over {}",
                two(times),
                significant(most)
            ),
            "; it may break into the hand. Take a stiffer one.",
        ),
        Danger::Weak { times, usual } => (
            format!(
                "Weak shaft{of}: the push peaks at {} times what buckles it; shafts shot from such \
                 bows end at {}",
                two(times),
                significant(usual)
            ),
            ": ask the shaft maker's chart before you shoot it.",
        ),
        Danger::Bends { strain, bow, .. } => (
            format!(
                "Shaft bent too far{of}: {} off straight in the push, {} of strain at its surface",
                part(bow),
                share(strain)
            ),
            "; it may break into the hand. Take a stiffer one.",
        ),
        Danger::NearRest { ahead, least } => (
            format!(
                "Arrow too short{of}: at full draw the shaft ends {} ahead of the rest, under {}",
                part(ahead),
                part(least)
            ),
            "; drawn a little farther it drops onto the hand.",
        ),
        Danger::ShortSeat { seat, engaged, least } => {
            let seat = match seat {
                Seat::Insert => "the insert sits",
                Seat::Outsert => "the outsert reaches",
                Seat::Shank => "the point's shank sits",
            };
            (
                format!(
                    "Point held too short{of}: {seat} {} on the shaft, under {}",
                    part(engaged),
                    part(least)
                ),
                "; it may split the shaft or come off as it hits.",
            )
        }
        Danger::OverStored { leaves, stored } => (
            format!(
                "Energy does not fit{of}: {} leaves a bow that stores {}",
                Role::Energy.text(leaves, style),
                Role::Energy.text(stored, style)
            ),
            ". Check draw weight, speed and the arrow it was read with before you trust anything \
             here.",
        ),
        Danger::BareBlades => (
            format!("Never shoot it bare{of}: without vanes fixed blades turn an arrow over"),
            ", and it may go anywhere. Its bare shaft here is computed only; on the range take a \
             field point of the same mass.",
        ),
        Danger::Far(far) => (too_far(&far, &of, style), MOVE_CLOSER),
    }
}

/// What follows from a distance that is, or may be, too far.
const MOVE_CLOSER: &str = ". Move closer; never shoot an animal from farther away.";

/// From where on too few hit, or may, and up to where enough do.
fn too_far(far: &Far, of: &str, style: Style) -> String {
    let at = |of: &FarAt| plain(Role::Range, of.distance, style);
    let (least, surely) = (share(far.least), far.surely.as_ref());
    let found = match (surely, &far.maybe) {
        (Some(sure), maybe) => {
            let said = format!(
                "Too far for an animal{of}: at {} only about {} hit the zone, under {least}",
                at(sure),
                below(sure.share, far.least)
            );
            let maybe = maybe.as_ref().map_or_else(String::new, |maybe| {
                format!(
                    "; at {} {} do, but {} {AGAINST}",
                    at(maybe),
                    share(maybe.share),
                    below(maybe.low, far.least)
                )
            });
            format!("{said}{maybe}")
        }
        (None, Some(maybe)) => format!(
            "May be too far for an animal{of}: at {} about {} hit the zone, but {} {AGAINST}, under \
             {least}",
            at(maybe),
            share(maybe.share),
            below(maybe.low, far.least)
        ),
        (None, None) => format!("May be too far for an animal{of}"),
    };
    match far.holds {
        Some(holds) => {
            let holds = plain(Role::Range, holds, style);
            let how = match far.by {
                FarBy::Aim => "by aim alone",
                FarBy::Usual => "at the usual values",
                FarBy::All => "with nothing misjudged",
            };
            format!("{found}; up to {holds} it holds {how}")
        }
        None => format!("{found}; at no distance asked about does it hold"),
    }
}

/// Where a share stands at the low end of its band.
const AGAINST: &str = "if what is poorly known goes against you";

/// A number with two figures.
fn two(value: f64) -> String {
    figures(value, 2)
}

/// " (light, heavy and 2 more)"; nothing where it holds for all.
fn names(of: &[String], most: usize) -> String {
    if of.is_empty() {
        return String::new();
    }
    let named: Vec<&str> = of.iter().take(most).map(String::as_str).collect();
    let more = of.len() - named.len();
    let more = if more > 0 { format!(" and {more} more") } else { String::new() };
    format!(" ({}{more})", named.join(", "))
}
