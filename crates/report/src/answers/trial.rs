//! A blind trial: how many arrows settle it, and what they say so far.

use study::{
    Claim, Expected, JudgedTrial, MOST_TRIAL_ARROWS, ReadBy, Shots, TrialAsk, TrialNext, TrialPlan,
    TrialSize,
};
use units::{Role, Style};

use super::common::care;
use super::verdict::{apart, far_off, groups, sentence, way};
use crate::ReportError;
use crate::document::{Cell, Document, Part, Table, facts, note, say};
use crate::safety::{CautionText, Job, cautions};
use crate::show::{about, count, figures, plain, share};

/// How many arrows a trial takes, or that no sane number does. `sigma` is that of the
/// groups in metres, where it is known: a shift is then said as a length.
///
/// # Errors
/// [`ReportError::NotFinite`] names the first bad number.
pub fn trial_size(
    ask: &TrialAsk,
    size: &TrialSize,
    expected: Option<&Expected>,
    sigma: Option<f64>,
    style: Style,
) -> Result<Document, ReportError> {
    let title = title(ask);
    let claimed = |claim| claimed(claim, sigma, style);
    let mut parts = Vec::new();
    parts.extend(expected.map(|of| say(computed(ask, of, style))));
    let lead = match size {
        TrialSize::Sane(plan) => {
            parts.extend(plan_words(plan).into_iter().map(say));
            shot(plan, &claimed(ask.claim), style)
        }
        TrialSize::Mad { each, shown } => {
            parts.push(say(instead(ask, &claimed(*shown))));
            no_sheet(ask, *each, &claimed(ask.claim), style)
        }
    };
    parts.push(Part::Page(care().to_vec()));
    parts.push(Part::Data(numbers(ask, size)));
    Ok(Document::new("trial", title, lead, parts, style)?.cautioned(minded(style)))
}

/// What a trial says so far.
///
/// # Errors
/// [`ReportError::NotFinite`] names the first bad number.
pub fn trial_judged(judged: &JudgedTrial, style: Style) -> Result<Document, ReportError> {
    let ask = &judged.plan.ask;
    let looks = ask.looks;
    let mut parts = Vec::new();
    let lead = match (&judged.last, judged.next) {
        (None, TrialNext::GoOn { ends }) => format!(
            "Go on: {} of {} ends are shot, and nothing is said before the first look, after {}.",
            judged.shot,
            judged.plan.ends,
            ends_of(ends)
        ),
        (Some(two), next) => {
            let look = two.look.map_or(0, |look| look.at);
            let what = if ask.claim.of_width() {
                sentence(two)
            } else {
                two.centres.as_ref().map_or_else(String::new, |c| apart(two, c, style))
            };
            let then = match next {
                TrialNext::Stop => "Stop: it is settled.".to_owned(),
                TrialNext::GoOn { ends } => format!(
                    "Go on: shoot {}, then look again; what shows between two looks counts \
                     for nothing.",
                    ends_of(ends)
                ),
                TrialNext::Over => "It is over: what difference there is, these arrows do not \
                     show. Shooting on until something shows would only fool you."
                    .to_owned(),
            };
            parts.push(say(format!(
                "That is look {look} of {looks}, with {} ends; at it a verdict must be {} sure, so \
                 that looking often misleads no more often than looking once.",
                judged.plan.ends_before(look),
                share(two.power_test.confidence())
            )));
            parts.extend(aside(judged, style).map(say));
            parts.push(Part::Table(groups(two)));
            let first = far_off(two, style).map_or_else(String::new, |said| format!("{said} "));
            format!("{first}{then} {what}")
        }
        (None, _) => String::new(),
    };
    if judged.next == TrialNext::Stop {
        parts.push(note(
            "It holds for these arrows, this archer, bow and day. Only now tell whoever shot which \
             arrow was which.",
        ));
    }
    parts.push(Part::Page(care().to_vec()));
    parts.push(Part::Data(found(judged)));
    Ok(Document::new("trial", title(ask), lead, parts, style)?.cautioned(minded(style)))
}

/// What to mind on the range.
pub(crate) fn minded(style: Style) -> Vec<CautionText> {
    cautions(&[], &[Job::Trial], style)
}

/// "Blind trial: old against new at 30 yd".
pub(crate) fn title(ask: &TrialAsk) -> String {
    let [first, second] = &ask.builds;
    format!("Blind trial: {first} against {second}")
}

/// A difference of widths that three figures do not show well.
const ALIKE: f64 = 0.01;

/// What is to be shown, as "groups 1.3 times as wide".
fn claimed(claim: Claim, sigma: Option<f64>, style: Style) -> String {
    match claim {
        Claim::Width { ratio } => {
            let ratio = ratio.max(1.0 / ratio);
            if ratio < 1.0 + ALIKE {
                return "one groups less than 1 % wider than the other".to_owned();
            }
            format!("one groups {} times as wide as the other", figures(ratio, 3))
        }
        Claim::Centre { sigmas } => {
            let of = format!("{} sigmas of your groups", figures(sigmas, 2));
            match sigma {
                Some(sigma) => {
                    let apart = Role::Impact.text(sigmas * sigma, style);
                    format!("their centres lie {apart} apart ({of})")
                }
                None => format!("their centres lie {of} apart"),
            }
        }
    }
}

fn shot(plan: &TrialPlan, claimed: &str, style: Style) -> String {
    let ask = &plan.ask;
    format!(
        "Shoot {} ends of {} arrows at {}, {} with each: if {}, that shows it {} of the time, and \
         if they are alike it says otherwise at most {} of the time.",
        plan.ends,
        2 * ask.arrows,
        plain(Role::Range, ask.distance.si(), style),
        count(plan.each().into()),
        claimed,
        share(ask.test.power()),
        share(1.0 - ask.test.confidence()),
    )
}

/// What to do with the sheets.
fn plan_words(plan: &TrialPlan) -> Vec<String> {
    let ask = &plan.ask;
    let mut said = Vec::new();
    if ask.looks > 1 {
        let each = match plan.ends / ask.looks {
            1 => "each end".to_owned(),
            ends => format!("every {ends} ends"),
        };
        said.push(format!(
            "It is looked at {} times, after {each}, and stops as soon as it tells: a larger \
             difference than asked for shows sooner. Never look between.",
            ask.looks
        ));
    }
    said.push(
        "A helper numbers the arrows by the key, covers small marks that tell them apart, and \
         keeps it; who shoots sees numbers only, and shoots them in the order of the sheet. \
         Sharp heads stay covered until they are shot and are never taped: a trial with them is \
         not blind to whoever shoots. \
         Everything else stays: bow, sight, form, point of aim."
            .to_owned(),
    );
    said.push(match ask.by {
        ReadBy::Places => "Measure left and up of every arrow from one point, the middle of the \
             face, with right and down negative. An arrow that missed or broke spoils its end: \
             shoot that end again."
            .to_owned(),
        ReadBy::Spreads => {
            "The helper measures in each end the widest distance between two arrows \
             of each build. An arrow that missed or broke spoils its end: shoot that end again."
                .to_owned()
        }
    });
    said
}

fn no_sheet(ask: &TrialAsk, each: Shots, claimed: &str, style: Style) -> String {
    let why = match (each, ask.claim) {
        (Shots::MoreThan(_), Claim::Width { .. }) => {
            "groups so nearly alike cannot be told apart by shooting"
        }
        (Shots::MoreThan(_), Claim::Centre { .. }) => {
            "centres so close cannot be told apart by shooting"
        }
        (Shots::Each(_), _) => "bow, archer and weather change more meanwhile than the builds do",
    };
    format!(
        "No sheet: if {}, it takes {} arrows with each at {} to show it {} of the time, and {why}. \
         What you cannot see in so many arrows you need not pay for.",
        claimed,
        about(each),
        plain(Role::Range, ask.distance.si(), style),
        share(ask.test.power()),
    )
}

fn instead(ask: &TrialAsk, shown: &str) -> String {
    let more = match ask.claim {
        Claim::Width { .. } => {
            "Ask for a larger difference, or take a change that makes one: a farther distance \
             changes nothing where the archer's own form grows with it."
        }
        Claim::Centre { .. } => {
            "Ask for a larger shift, shoot where it is larger against your groups, or with better \
             form."
        }
    };
    format!(
        "The most that a sheet is made for, {MOST_TRIAL_ARROWS} arrows of both together, shows it \
         as surely only if {shown}. {more}"
    )
}

fn computed(ask: &TrialAsk, of: &Expected, style: Style) -> String {
    let [first, second] = &ask.builds;
    let hits = match way(of.shift[0], of.shift[1], style) {
        Some(way) => {
            let sigmas = figures(of.sigmas, 2);
            format!("hits {way} of it with the same aim, {sigmas} sigmas")
        }
        None => "with the same aim there is no shift to see".to_owned(),
    };
    format!(
        "Computed for this archer: \"{second}\" groups {} as \"{first}\", and {hits}.",
        if (of.ratio.ln()).abs() < ALIKE {
            "as wide, within 1 %,".to_owned()
        } else {
            format!("{} times as wide", figures(of.ratio, 3))
        },
    )
}

/// The other thing the shots say, which the trial was not shot for.
fn aside(judged: &JudgedTrial, style: Style) -> Option<String> {
    let two = judged.last.as_ref()?;
    let said = if judged.plan.ask.claim.of_width() {
        apart(two, two.centres.as_ref()?, style)
    } else {
        sentence(two)
    };
    Some(format!("Beside it, not what this trial was shot for and so no reason to stop: {said}"))
}

fn ends_of(ends: u32) -> String {
    if ends == 1 { "1 more end".to_owned() } else { format!("{ends} more ends") }
}

fn numbers(ask: &TrialAsk, size: &TrialSize) -> Table {
    let number = |si: f64| Cell::Quantity(Role::Number, si);
    let share = |si| Cell::Quantity(Role::Percent, si);
    let (asked, value) = match ask.claim {
        Claim::Width { ratio } => ("ratio of widths to show", ratio),
        Claim::Centre { sigmas } => ("sigmas between centres to show", sigmas),
    };
    let mut rows = vec![
        ("distance", Cell::Quantity(Role::Range, ask.distance.si())),
        (asked, number(value)),
        ("confidence", share(ask.test.confidence())),
        ("power", share(ask.test.power())),
        ("looks", number(f64::from(ask.looks))),
        ("arrows of each build in each end", number(f64::from(ask.arrows))),
    ];
    match size {
        TrialSize::Sane(plan) => rows.extend([
            ("ends", number(f64::from(plan.ends))),
            ("arrows with each", Cell::Shots(Shots::Each(plan.each()))),
            #[expect(clippy::cast_precision_loss, reason = "a small number")]
            ("seed", number(ask.seed as f64)),
        ]),
        TrialSize::Mad { each, .. } => rows.push(("arrows with each", Cell::Shots(*each))),
    }
    facts("trial", ["of the trial", "value"], rows)
}

fn found(judged: &JudgedTrial) -> Table {
    let number = |si: f64| Cell::Quantity(Role::Number, si);
    let next = match judged.next {
        TrialNext::GoOn { .. } => "go on",
        TrialNext::Stop => "stop, it tells",
        TrialNext::Over => "over, it does not tell",
    };
    let mut rows = vec![
        ("next", Cell::from(next)),
        ("ends shot", number(f64::from(judged.shot))),
        ("ends planned", number(f64::from(judged.plan.ends))),
    ];
    if let Some(two) = &judged.last {
        rows.push(("look", number(two.look.map_or(0.0, |look| f64::from(look.at)))));
        rows.push(("ratio, first over second", Cell::Estimate(Role::Number, two.verdict.ratio)));
        if let Some(centres) = &two.centres {
            rows.push((
                "second centre left of the first",
                Cell::Estimate(Role::Impact, centres.left),
            ));
            rows.push(("second centre above the first", Cell::Estimate(Role::Impact, centres.up)));
        }
    }
    facts("found", ["of the trial", "value"], rows)
}
