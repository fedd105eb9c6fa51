//! Numbers as the words and the tables spell them.

use study::{BuildAnswer, MarkAnswer, Shots, TargetChoice};
use target::Estimate;
use units::{Length, Role, Style};

/// A spine as the trade says it: its deflection in thousandths of an inch.
pub(crate) fn spine_number(si: f64) -> String {
    format!("{:.0}", 1000.0 * Role::Spine.value(si, Style::Archery))
}

/// The same beside the deflection: 340 (0.340 in).
pub(crate) fn spine(si: f64) -> String {
    format!("{} ({})", spine_number(si), Role::Spine.text(si, Style::Archery))
}

/// A share in whole per cent, or with one decimal near nothing or all.
pub(crate) fn share(ratio: f64) -> String {
    let percent = 100.0 * ratio;
    let fine = percent.abs() < 1.0 || (99.0..100.0).contains(&percent);
    let text = if fine { format!("{percent:.1}") } else { format!("{percent:.0}") };
    // Nothing has no sign.
    format!("{} %", if text == "-0.0" { "0.0" } else { &text })
}

/// A count with a comma every three digits.
pub(crate) fn count(count: u64) -> String {
    let digits = count.to_string();
    let mut out = String::new();
    for (at, digit) in digits.chars().enumerate() {
        if at > 0 && (digits.len() - at).is_multiple_of(3) {
            out.push(',');
        }
        out.push(digit);
    }
    out
}

/// A number of shots rounded to two figures, as sentences say it.
pub(crate) fn about(shots: Shots) -> String {
    match shots {
        Shots::Each(n) if n < 100 => format!("about {n}"),
        Shots::Each(n) => {
            let step = 10_u64.pow(n.ilog10() - 1);
            format!("about {}", count((u64::from(n) + step / 2) / step * step))
        }
        Shots::MoreThan(n) => format!("more than {}", count(n.into())),
    }
}

/// An interval in words, its unit once at the end.
pub(crate) fn interval(role: Role, estimate: &Estimate, style: Style) -> String {
    let [_, low, high] = numbers(role, estimate, style);
    format!("{low} to {high} {}", role.symbol(style))
}

/// Value and ends of an interval, with the decimals of the largest.
pub(crate) fn numbers(role: Role, estimate: &Estimate, style: Style) -> [String; 3] {
    let all = [estimate.value, estimate.low, estimate.high];
    alike(role, all, style)
}

/// Numbers shown together, with the decimals of the largest.
pub(crate) fn alike<const N: usize>(role: Role, all: [f64; N], style: Style) -> [String; N] {
    let largest = all.iter().fold(0.0_f64, |most, value| most.max(value.abs()));
    let decimals = role.decimals(largest, style);
    all.map(|value| role.rounded(value, decimals, style))
}

/// Whether an interval holds a value.
pub(crate) fn holds(estimate: &Estimate, value: f64) -> bool {
    estimate.low <= value && value <= estimate.high
}

/// The archer's form as a share of the variance, form sigma squared over full
/// sigma squared; none for a group without spread.
pub(crate) fn form_share(mark: &MarkAnswer) -> Option<f64> {
    let full = mark.full.stats.sigma.value;
    (full > 0.0).then(|| (mark.form.stats.sigma.value / full).powi(2))
}

/// Index of the distance that the one sentence speaks of: the middle one.
pub(crate) fn middle(build: &BuildAnswer) -> usize {
    build.marks.len() / 2
}

/// Index of the distance that was asked to be spoken of, else of the middle one.
pub(crate) fn spoken_of(build: &BuildAnswer, headline: Option<Length>) -> usize {
    let same = |mark: &MarkAnswer| {
        headline.is_some_and(|headline| (mark.distance.si() - headline.si()).abs() < SAME)
    };
    build.marks.iter().position(same).unwrap_or_else(|| middle(build))
}

/// Distances closer than this are the same, m. Chosen: far less than anyone paces.
const SAME: f64 = 1e-3;

/// What is shown, after the name of its build where there are several.
pub(crate) fn titled(builds: &[BuildAnswer], at: usize, what: &str) -> String {
    if builds.len() > 1 { format!("{}, {what}", builds[at].name) } else { what.to_owned() }
}

/// How a key names a build.
pub(crate) fn label(builds: &[BuildAnswer], at: usize) -> String {
    if builds.len() > 1 { builds[at].name.clone() } else { "this build".to_owned() }
}

/// Which of two groups is a point, by the ratio of their sigmas.
pub(crate) fn point(ratio: Option<&Estimate>) -> Option<&'static str> {
    match ratio {
        None => Some("other"),
        Some(ratio) if ratio.value <= 0.0 => Some("base"),
        Some(_) => None,
    }
}

/// A number in the unit of a role with four figures at most, such as a round
/// distance or the width of a target.
pub(crate) fn plain_number(role: Role, si: f64, style: Style) -> String {
    significant(role.value(si, style))
}

/// The same with its unit.
pub(crate) fn plain(role: Role, si: f64, style: Style) -> String {
    format!("{} {}", plain_number(role, si, style), role.symbol(style))
}

/// How large a zone is, "8 in across" or "11 by 9 in"; none of a face.
pub(crate) fn across(target: TargetChoice, style: Style) -> Option<String> {
    let text = |length: units::Length| plain(Role::Impact, length.si(), style);
    match target {
        TargetChoice::Zone { diameter } => Some(format!("{} across", text(diameter))),
        TargetChoice::Ellipse { width, height } => {
            let width = plain_number(Role::Impact, width.si(), style);
            Some(format!("{width} by {}", text(height)))
        }
        TargetChoice::Face { .. } => None,
    }
}

/// The same with two figures.
pub(crate) fn brief(role: Role, si: f64, style: Style) -> String {
    format!("{} {}", figures(role.value(si, style), 2), role.symbol(style))
}

/// A number with four figures and no trailing zeros.
pub(crate) fn significant(value: f64) -> String {
    figures(value, 4)
}

/// A number with three figures, for what spans decades.
pub(crate) fn three(value: f64) -> String {
    if value == 0.0 {
        return significant(0.0);
    }
    let step = 10_f64.powf(value.abs().log10().floor() - 2.0);
    significant((value / step).round() * step)
}

/// A number with so many figures and no trailing zeros.
pub(crate) fn figures(value: f64, figures: u8) -> String {
    if value == 0.0 {
        return "0".to_owned();
    }
    let size = value.abs().log10().floor();
    if !(-7.0..6.0).contains(&size) {
        return format!("{value:.prec$e}", prec = usize::from(figures) - 1);
    }
    let enough = f64::from(figures) - 1.0;
    let places = (0..=10).find(|&n| f64::from(n) + size >= enough).unwrap_or(10);
    let text = format!("{value:.prec$}", prec = usize::try_from(places).unwrap_or(0));
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text
    }
}
