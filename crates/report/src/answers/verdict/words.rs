//! A verdict in words.

use study::TwoGroups;

use crate::show::{about, share};

/// The verdict.
pub(super) fn sentence(judged: &TwoGroups) -> String {
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
        "{} interval {} to {}",
        share(judged.power_test.confidence()),
        times(low),
        times(high)
    );
    let chance = chance(verdict.chance);
    if verdict.told() {
        format!(
            "\"{tight}\" groups tighter: the spread of \"{wide}\" is {} times its own ({interval}). \
             Were the two alike, groups this unlike would turn up {chance}.",
            times(value)
        )
    } else {
        format!(
            "These shots do not show which groups tighter: the spread of \"{wide}\" is {} times \
             that of \"{tight}\", but its {interval} holds 1. Were the two alike, groups this \
             unlike would turn up {chance}.",
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
        0.095.. => format!("{} times in 1000", (10.0 * hundred).round()),
        _ => "less than once in 1000 times".to_owned(),
    }
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
        "What it would take to be sure: if {} were the true ratio, {shots} would show it ({confidence} \
         confidence, {power} power, two-sided). With {first} and {second} shots a true ratio of {} \
         or more shows as surely.",
        times(ratio),
        times(judged.verdict.least),
    );
    let rests = "This is a verdict on these shots: one archer, bow and day. It takes the shots as \
        independent and the groups as round; a flyer left out, or groups picked because they look \
        different, spoil it.";
    vec![sure, rests.to_owned()]
}
