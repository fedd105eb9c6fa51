//! A verdict in words.

use study::{Look, TwoGroups};

use study::Shots;
use target::{CentreVerdict, LookRule};
use units::{Role, Style};

use super::shift::{far_off, way};
use crate::show::{about, figures, plain, share};

/// The verdict on centre and width, the one that is told first.
pub(super) fn answer(judged: &TwoGroups, style: Style) -> String {
    let width = sentence(judged);
    let said = match &judged.centres {
        Some(centres) if centres.told => {
            format!("{} {width}", apart(judged, centres, style))
        }
        Some(centres) => format!("{width} {}", apart(judged, centres, style)),
        None => width,
    };
    far_off(judged, style).into_iter().chain([said]).collect::<Vec<_>>().join(" ")
}

/// Whether the groups have one centre.
pub(in crate::answers) fn apart(
    judged: &TwoGroups,
    centres: &CentreVerdict,
    style: Style,
) -> String {
    let [first, second] = [0, 1].map(|at| judged.groups[at].name.as_str());
    // Of centres that differ only what is shown: an axis whose interval holds zero may be none.
    let shown = |of: &target::Estimate| of.low > 0.0 || of.high < 0.0;
    let all = !centres.told || !(shown(&centres.left) || shown(&centres.up));
    let told = |of: &target::Estimate| if all || shown(of) { of.value } else { 0.0 };
    let hits = match way(told(&centres.left), told(&centres.up), style) {
        Some(way) => format!("\"{second}\" hits {way} of \"{first}\""),
        None => format!("between \"{first}\" and \"{second}\" there is no shift to see"),
    };
    if centres.told {
        let chance = chance(centres.chance);
        return format!(
            "The centres differ: {hits}. Had they one centre, centres this far apart would turn \
             up {chance}."
        );
    }
    match not_yet(judged, centres.chance) {
        Some(NotYet { look, found, asked }) => format!(
            "Whether the centres differ is not yet sure enough: so far {hits}. Had they one \
             centre, centres this far apart would turn up {found} of the time, and at {look} that \
             must be below {asked}."
        ),
        None => format!(
            "No difference of the centres is shown: {hits}, but had they one centre, centres this \
             far apart would turn up {}.",
            chance(centres.chance)
        ),
    }
}

/// What a look that does not tell, and is not the last, lacks.
struct NotYet {
    look: String,
    found: String,
    asked: String,
}

/// None but at a look before the last.
fn not_yet(judged: &TwoGroups, chance: f64) -> Option<NotYet> {
    let Look { at, of, .. } = judged.look.filter(|look| look.at < look.of)?;
    // Two figures: the first of three looks asks for less than 0.05 %.
    let percent = |share: f64| format!("{} %", figures(100.0 * share, 2));
    Some(NotYet {
        look: format!("look {at} of {of}"),
        found: percent(chance),
        asked: percent(1.0 - judged.power_test.confidence()),
    })
}

/// How well the shift is known, what it takes to know, and what it means for sight and
/// tuning.
pub(super) fn centre(judged: &TwoGroups, style: Style) -> Vec<String> {
    let [first, second] = [0, 1].map(|at| judged.groups[at].name.as_str());
    let Some(centres) = &judged.centres else {
        return vec![
            "Whether the centres differ cannot be judged: it takes the place of each shot of both \
             groups, measured from one point."
                .to_owned(),
        ];
    };
    // From the end nearer to none to the farther one.
    let ends = |of: &target::Estimate, [more, less]: [&str; 2]| {
        let (near, far) =
            if of.low.abs() < of.high.abs() { (of.low, of.high) } else { (of.high, of.low) };
        let end = |si: f64| Role::Impact.number(si.abs(), style);
        let word = |si: f64| if si < 0.0 { less } else { more };
        let (unit, to) = (Role::Impact.symbol(style), word(far));
        let from = if near * far < 0.0 { format!(" {unit} {}", word(near)) } else { String::new() };
        format!("{}{from} to {} {unit} {to}", end(near), end(far))
    };
    let mut said = vec![format!(
        "The shift may truly be {} and {} ({} sure of each).",
        ends(&centres.left, ["left", "right"]),
        ends(&centres.up, ["high", "low"]),
        share(judged.power_test.confidence()),
    )];
    if let Some(shots) = judged.centre_shots().filter(|_| !centres.told) {
        let [one, other] = [0, 1].map(|at| judged.groups[at].count);
        let more = match shots {
            Shots::Each(all) => format!(
                "about {} more of \"{first}\" and {} more of \"{second}\"",
                u64::from(all).saturating_sub(one as u64),
                u64::from(all).saturating_sub(other as u64)
            ),
            Shots::MoreThan(most) => format!("more than {most} of each, which no sane test spends"),
        };
        said.push(format!(
            "If the centres truly lie so far apart, it takes {more} to show it ({} power).",
            share(judged.power_test.power())
        ));
    }
    if centres.told {
        let angle = judged.distance.map(|at| {
            let turn = |si: f64| (si / at.si()).atan();
            format!(
                " At {} that is {} to the side and {} in height: on the sight, that angle times the \
                 distance from eye to pin.",
                plain(Role::Range, at.si(), style),
                Role::Angle.text(turn(centres.left.value.abs()), style),
                Role::Angle.text(turn(centres.up.value.abs()), style),
            )
        });
        let toward = |left: bool| if left { "left" } else { "right" };
        let left = centres.left.value > 0.0;
        // An axis whose interval holds zero says nothing of its own.
        let shown = |of: &target::Estimate| of.low > 0.0 || of.high < 0.0;
        let (side, height) = (shown(&centres.left), shown(&centres.up));
        let mut ways = Vec::new();
        if side || !height {
            ways.push(toward(left));
        }
        if height || !side {
            ways.push(if centres.up.value > 0.0 { "up" } else { "down" });
        }
        let rest = if side || !height {
            format!("moves the rest a little at a time, here to the {}", toward(!left))
        } else {
            "moves the nocking point a little at a time".to_owned()
        };
        said.push(format!(
            "To bring \"{second}\" alone to where \"{first}\" hits, move the pin the way it \
             missed, {}.{} To bring both together, as with broadheads against field points, \
             the trade leaves the sight and {rest} (common practice, no source; it holds for an arrow that flies well otherwise), and \
             shoots both groups again.",
            ways.join(" and "),
            angle.unwrap_or_default(),
        ));
    }
    said
}

/// The verdict.
pub(in crate::answers) fn sentence(judged: &TwoGroups) -> String {
    let verdict = &judged.verdict;
    let wide = usize::from(verdict.ratio.value < 1.0);
    let [wide, tight] = [wide, 1 - wide].map(|at| judged.groups[at].name.as_str());
    // The wider over the tighter.
    let (value, low, high) = if verdict.ratio.value < 1.0 {
        let ratio = verdict.ratio;
        (1.0 / ratio.value, 1.0 / ratio.high, 1.0 / ratio.low)
    } else {
        (verdict.ratio.value, verdict.ratio.low, verdict.ratio.high)
    };
    let interval = format!(
        "{} to {} times, {} sure",
        times(low),
        times(high),
        share(judged.power_test.confidence())
    );
    let chance = chance(verdict.chance);
    if verdict.told() {
        format!(
            "\"{tight}\" groups tighter: \"{wide}\" is {} times as wide (truly {interval}). \
             Were the two alike, groups this unlike would turn up {chance}.",
            times(value)
        )
    } else if let Some(NotYet { look, found, asked }) = not_yet(judged, verdict.chance) {
        format!(
            "Which groups tighter is not yet sure enough: so far \"{wide}\" is {} \
             times as wide as \"{tight}\" (truly {interval}). Were the two alike, groups this unlike would \
             turn up {found} of the time, and at {look} that must be below {asked}.",
            times(value)
        )
    } else {
        format!(
            "These shots do not show which groups tighter: \"{wide}\" is {} times as wide as \
             \"{tight}\", but may truly be {interval}. Were the two alike, groups this unlike \
             would turn up {chance}.",
            times(value)
        )
    }
}

fn times(ratio: f64) -> String {
    if ratio < 10.0 { format!("{ratio:.2}") } else { format!("{ratio:.1}") }
}

fn chance(chance: f64) -> String {
    let hundred = 100.0 * chance;
    match hundred {
        0.95.. => match hundred.round() {
            1.0 => "once in 100 times".to_owned(),
            many => format!("{many} times in 100"),
        },
        0.15.. => format!("{} times in 1000", (10.0 * hundred).round()),
        0.095.. => "once in 1000 times".to_owned(),
        _ => "less than once in 1000 times".to_owned(),
    }
}

/// What a look at a longer test says of going on.
fn look_of(judged: &TwoGroups, Look { at, of, rule }: Look) -> String {
    let rule = match rule {
        LookRule::OBrienFleming => "O'Brien and Fleming",
        LookRule::Pocock => "Pocock",
    };
    let told = judged.verdict.told() || judged.centres.is_some_and(|centres| centres.told);
    let then = match (told, at == of) {
        (true, _) => "It tells: stop here.",
        (false, false) => "It does not tell: shoot on to the next look.",
        (false, true) => {
            "It was the last and does not tell: what difference there is, these shots do not \
             show. Shooting on until something shows would only fool you."
        }
    };
    format!(
        "This is look {at} of {of} by the rule of {rule}: at each look a verdict must be surer, here \
         {}, so that looking often misleads no more often than looking once. {then}",
        share(judged.power_test.confidence())
    )
}

/// What it would take to be sure, and what the verdict rests on.
pub(super) fn further(judged: &TwoGroups) -> Vec<String> {
    let (confidence, power) =
        (share(judged.power_test.confidence()), share(judged.power_test.power()));
    let ratio = judged.verdict.ratio.value;
    let ratio = ratio.max(1.0 / ratio);
    let [first, second] = [0, 1].map(|at| judged.groups[at].count);
    let shots = format!("{} shots with each", about(judged.shots()));
    let sure = format!(
        "What it would take to be sure which is wider: if it truly is {} times as wide, {shots} \
         show it ({confidence} confidence, {power} power). With {first} and {second} shots only {} \
         times or more shows as surely.",
        times(ratio),
        times(judged.verdict.least),
    );
    let rests = "This is a verdict on these shots: one archer, bow and day. It takes the shots as \
        independent and the groups as round; a flyer left out, or groups picked because they look \
        different, spoil it.";
    let look = judged.look.map(|look| look_of(judged, look));
    look.into_iter().chain([sure, rests.to_owned()]).collect()
}
