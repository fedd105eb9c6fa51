//! What is not known, in words: bands, standings of verdicts, and what to
//! measure next.

use study::{Band, Joint, Narrowing, Shots, Standing, Word};
use units::{Role, Style};

use crate::document::{Cell, Kind, Part, Table, fold, head, say, table_of};
use crate::measure::{Measure, measure};
use crate::show::{about, alike, count, figures, share};
use crate::words::value;

/// Values named in the sentence on what to measure. Chosen: what fits an
/// evening.
const NAMED: usize = 3;
/// Least share of an answer's spread worth naming. Chosen: a twentieth.
const LEAST: f64 = 0.05;

/// A number that is asked about, and the verdict that rests on it.
pub(super) struct Asked<'a, T> {
    /// What it is, after "for".
    pub(super) what: String,
    /// The number.
    pub(super) read: &'a dyn Fn(&T) -> Option<f64>,
    /// Whether the verdict of the answer holds at a point.
    pub(super) verdict: &'a dyn Fn(&T) -> bool,
}

/// "2.39 in (may be 2.10 to 2.62 in)"; the number alone without a band. A number outside its own band is said to be that of the usual values.
pub(super) fn figure(role: Role, value: f64, band: Option<Band>, style: Style) -> String {
    format!("{}{}", role.text(value, style), bracket(role, value, band, style))
}

/// What a number may be, in brackets: `(may be 2.10 to 2.62 in)`. SI in, the reader's unit
/// out; nothing where both ends read as the number.
pub fn may_be(role: Role, value: f64, band: Band, style: Style) -> String {
    bracket(role, value, Some(band), style).trim_start().to_owned()
}

/// What stands behind the number in [`figure`].
pub(super) fn bracket(role: Role, value: f64, band: Option<Band>, style: Style) -> String {
    let told = ends(role, value, band, style);
    match band {
        Some(band) if !told.is_empty() => {
            format!(" ({}may be {told})", usual(value, band))
        }
        _ => String::new(),
    }
}

/// The ends of a band; empty where both read as the value.
pub(super) fn ends(role: Role, value: f64, band: Option<Band>, style: Style) -> String {
    let Some(band) = band else { return String::new() };
    let [low, high] = alike(role, [band.low, band.high], style);
    if [&low, &high].iter().all(|end| **end == role.number(value, style)) {
        return String::new();
    }
    format!("{low} to {high} {}", role.symbol(style)).trim_end().to_owned()
}

/// The same of a share.
pub(super) fn portion(value: f64, band: Option<Band>) -> String {
    let band = band.map_or_else(String::new, |band| {
        let [low, high] = [band.low, band.high].map(share);
        if [&low, &high].iter().all(|end| **end == share(value)) {
            return String::new();
        }
        format!(" ({}may be {low} to {high})", usual(value, band))
    });
    format!("{}{band}", share(value))
}

/// Behind what a table is of: how its bands read; empty where nothing is poorly known.
pub(super) fn bands(known_poorly: bool) -> &'static str {
    if known_poorly { " (in brackets what it may be)" } else { "" }
}

/// Says that a number which its own band does not hold is that of the usual
/// values.
fn usual(value: f64, band: Band) -> &'static str {
    if band.holds(value) { "" } else { "at the usual values; " }
}

/// A number of shots as bands know it: more than was looked for has no end.
pub(super) fn endless(shots: Shots) -> f64 {
    match shots {
        Shots::Each(n) => f64::from(n),
        Shots::MoreThan(_) => f64::INFINITY,
    }
}

/// "about 230 (may be 61 to more than 10,000)".
pub(super) fn needed(shots: Shots, band: Option<Band>) -> String {
    let end = |end: f64| {
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a count")]
        let whole = end.round() as u64;
        if end.is_finite() {
            count(whole)
        } else {
            format!("more than {}", count(study::MOST_SHOTS.into()))
        }
    };
    let band = match band {
        None => String::new(),
        Some(Band { low, high }) if end(low) == end(high) => String::new(),
        Some(band @ Band { low, high }) => {
            let usual = usual(endless(shots), band);
            format!(" ({usual}may be {} to {})", end(low), end(high))
        }
    };
    format!("{}{band}", about(shots))
}

/// In what share of what is not known a verdict, `what` as a clause, holds, a sentence
/// that follows it; `decider` is what would decide it. Empty where nothing is poorly known.
pub(super) fn stands(what: &str, standing: Option<Standing>, decider: Option<String>) -> String {
    let Some(standing) = standing else { return String::new() };
    let of = share(standing.share);
    match standing.word() {
        Word::Everywhere => {
            let nearly = if standing.share < 1.0 { "nearly " } else { "" };
            format!(" {what} holds {nearly}everywhere (in {of} of what may be).")
        }
        Word::Likely => format!(" {what} is most likely (in {of} of what may be)."),
        Word::Open => {
            let decider = decider.map_or_else(String::new, |d| format!("; {d} would decide most"));
            format!(" {what} is open (in {of} of what may be){decider}.")
        }
        Word::Unlikely => {
            format!(" {what} is unlikely (in only {of} of what may be).")
        }
    }
}

/// The poorly known value that decides most of a number or a verdict.
pub(super) fn decider<T>(joint: &Joint<T>, asked: &Asked<T>) -> Option<String> {
    let best = *joint.narrowings(asked.read, asked.verdict).first()?;
    (best.share >= LEAST).then(|| format!("the {}", value(&joint.inputs[best.input].key)))
}

/// The section on what is not known: how it was drawn, and what to measure
/// next for each thing asked about.
pub(super) fn section<T>(joint: Option<&Joint<T>>, asked: &[Asked<T>]) -> Vec<Part> {
    let Some(joint) = joint else { return Vec::new() };
    let mut parts = vec![head("What is not known"), say(drawn(joint)), say(choices(joint))];
    for one in asked {
        let ranked = joint.narrowings(one.read, one.verdict);
        parts.push(say(next(joint, one, &ranked)));
        let table = Part::Table(table(joint, &ranked).of("answer", &one.what));
        parts.push(fold(
            format!("What knowing each value would narrow, for {}", one.what),
            vec![table],
        ));
    }
    parts.push(fold("How the poorly known values were drawn", vec![Part::Table(laws(joint))]));
    parts
}

/// How they were drawn.
fn drawn<T>(joint: &Joint<T>) -> String {
    // Where much was measured, other points count than were drawn first.
    let points = joint.points.iter().filter(|point| point.before > 0.0).count() + joint.without;
    let more = joint.points.iter().filter(|point| point.before <= 0.0).count();
    let values = joint.inputs.len();
    let without = match joint.without {
        0 => String::new(),
        without => format!(
            " At {without} of them nothing could be shot ({}); they are left out.",
            joint.why.as_ref().map_or_else(String::new, ToString::to_string)
        ),
    };
    let drawn = match values {
        1 => format!("The one poorly known value was drawn {points} times"),
        _ => format!("All {values} poorly known values were drawn at once, {points} times"),
    };
    let further = match more {
        0 => String::new(),
        more => format!(
            " What was measured leaves so little of that that {more} more sets were drawn where it \
             is likely; only they count."
        ),
    };
    format!(
        "{drawn}, and the whole answer computed at each.{further}{without} A band \
         (may be a to b) holds nine tenths of what that gives; [a, b] is the 95 % interval of chance. A \
         verdict holds everywhere, or nearly (95 % and more), most likely (80 to 95 %), or is open (20 to \
         80 %)."
    )
}

/// Choices between models that no range covers, in words.
fn choices<T>(joint: &Joint<T>) -> String {
    let has = |start: &str| joint.inputs.iter().any(|input| input.key.starts_with(start));
    let told: Vec<&str> = UNRANGED
        .iter()
        .filter(|(keys, _)| keys.is_empty() || has(keys))
        .map(|(_, words)| *words)
        .collect();
    format!("In no band, because the model has no other way: {}.", told.join("; "))
}

/// Choices between models without a range, with how the keys begin that show the
/// model at work, and the card that tells more.
const UNRANGED: [(&str, &str); 4] = [
    ("bow.", "bow and archer stand still, and limbs do not twist (docs/model/bow.md)"),
    ("bow.restraint", "the string is one bar, held without play (docs/model/push.md)"),
    ("", "the arrow is stiff once it has left, in a wind without gusts (docs/model/six-dof.md)"),
    ("aero.wake", "blades shade vanes as if both stood still (docs/model/broadhead.md)"),
];

/// What to measure next, in words.
fn next<T>(joint: &Joint<T>, asked: &Asked<T>, ranked: &[Narrowing]) -> String {
    let named: Vec<String> = ranked
        .iter()
        .filter(|of| of.share >= LEAST)
        .take(NAMED)
        .map(|of| {
            let input = &joint.inputs[of.input];
            let turns = if of.turns >= LEAST {
                format!(", and would turn the verdict in {}", share(of.turns))
            } else {
                String::new()
            };
            let how = measure(&input.key).map_or_else(
                || "no simple way to measure it is known here".to_owned(),
                |m| format!("{} ({})", m.how, effort(m)),
            );
            format!("the {} ({} of it{turns}): {how}", value(&input.key), share(of.share))
        })
        .collect();
    if named.is_empty() {
        return format!(
            "For {} no single value stands out: what is not known moves it little, or only together.",
            asked.what
        );
    }
    format!("What to measure next, for {}: {}.", asked.what, named.join("; "))
}

/// "10 min, 12 arrows".
fn effort(of: &Measure) -> String {
    match of.arrows {
        0 => format!("{} min", of.minutes),
        arrows => format!("{} min, {arrows} shots", of.minutes),
    }
}

/// The poorly known values that move a number most, each with its range.
pub(super) fn assumed<T>(joint: &Joint<T>, asked: &Asked<T>, style: Style) -> Vec<String> {
    let ranked = joint.narrowings(asked.read, asked.verdict);
    let most = ranked.iter().filter(|of| of.share >= LEAST).take(NAMED);
    most.map(|of| {
        let input = &joint.inputs[of.input];
        let role = Role::of(input.dimension);
        let end = |si: f64| figures(role.value(si, style), 3);
        let symbol = role.symbol(style);
        let told = format!("{} {} to {} {symbol}", input.key, end(input.low), end(input.high));
        told.trim_end().to_owned()
    })
    .collect()
}

/// What to measure first of what would turn the verdict, which is called so; none where
/// nothing would.
pub(super) fn turning<T>(joint: &Joint<T>, asked: &Asked<T>, verdict: &str) -> Option<String> {
    let ranked = joint.narrowings(asked.read, asked.verdict);
    let turns = ranked.iter().filter(|of| of.share >= LEAST && of.turns >= LEAST);
    turns.into_iter().find_map(|of| {
        let input = &joint.inputs[of.input];
        let how = measure(&input.key)?;
        Some(format!(
            "measure the {}, which would turn {verdict} in {}: {} ({})",
            value(&input.key),
            share(of.turns),
            how.how,
            effort(how)
        ))
    })
}

/// Every poorly known value by what knowing it would narrow.
fn table<T>(joint: &Joint<T>, ranked: &[Narrowing]) -> Table {
    let input = |of: &Narrowing| &joint.inputs[of.input];
    table_of("measure-next", ranked.iter().copied())
        .words("value", |of| input(of).key.clone())
        .quantity("share of what is open", Role::Percent, |of| of.share)
        .quantity("fair share", Role::Percent, |of| of.fair)
        .filed()
        .quantity("verdict turns", Role::Percent, |of| of.turns)
        .words("how", |of| measure(&input(of).key).map_or("", |m| m.how))
        .cells("minutes", Kind::Counts("min"), |of| {
            measure(&input(of).key).map_or(Cell::None(""), |m| Cell::Count(m.minutes.into()))
        })
        .cells("shots", Kind::Counts(""), |of| {
            measure(&input(of).key).map_or(Cell::None(""), |m| Cell::Count(m.arrows.into()))
        })
        .done()
}

/// How each was drawn.
fn laws<T>(joint: &Joint<T>) -> Table {
    table_of("unknown", &joint.inputs)
        .words("value", |of| of.key.clone())
        .cells("own", Kind::Own, |of| Cell::Quantity(Role::of(of.dimension), of.value))
        .figures(3)
        .cells("from", Kind::Own, |of| Cell::Quantity(Role::of(of.dimension), of.low))
        .figures(3)
        .cells("to", Kind::Own, |of| Cell::Quantity(Role::of(of.dimension), of.high))
        .figures(3)
        .words("even in", |of| match (joint.choices.contains(&of.slot), of.is_scale()) {
            (true, _) => "nothing: one end or the other",
            (_, true) => "its logarithm",
            _ => "the value",
        })
        .words("half of all draws", |of| match (joint.choices.contains(&of.slot), of.is_inside()) {
            (true, _) => "and half of the rest are its own value",
            (_, true) => "lie below its own value",
            _ => "are its own value, an end",
        })
        .words("goes with", |of| {
            let place = joint.inputs.iter().position(|input| input.slot == of.slot);
            let with = |(both, by): &([usize; 2], f64)| {
                let at = both.iter().position(|at| Some(*at) == place)?;
                Some(format!("{} ({by})", joint.inputs[both[1 - at]].key))
            };
            joint.pairs.iter().filter_map(with).collect::<Vec<_>>().join(", ")
        })
        .done()
}
