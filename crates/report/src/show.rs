//! Numbers as the words and the tables spell them.

use study::{Answer, BuildAnswer, MarkAnswer, PairMark, Shots};
use target::Estimate;
use units::{Dimension, Role, Style};

/// A share in whole per cent, or with one decimal below 1 %.
pub(crate) fn share(ratio: f64) -> String {
    let percent = 100.0 * ratio;
    if percent.abs() < 1.0 { format!("{percent:.1} %") } else { format!("{percent:.0} %") }
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

/// A number of shots, as tables show it.
pub(crate) fn shots(shots: Shots) -> String {
    match shots {
        Shots::Each(n) => count(n.into()),
        Shots::MoreThan(n) => format!(">{}", count(n.into())),
    }
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
    format!("{} to {}", role.number(estimate.low, style), role.text(estimate.high, style))
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

/// Arrow mass over draw weight, as the reader's trade writes it.
pub(crate) fn mass_per_force(si: f64, style: Style) -> String {
    let (mass, force, places) = match style {
        Style::Archery => ("gr", "lbf", 2),
        Style::Metric => ("g", "N", 4),
    };
    let factor = |dimension: Dimension, symbol| {
        dimension.unit(symbol).map_or(1.0, |unit: &units::Unit| unit.factor)
    };
    let value = si * factor(Dimension::Force, force) / factor(Dimension::Mass, mass);
    format!("{value:.places$} {mass}/{force}")
}

/// Index of the distance that the one sentence speaks of: the middle one.
pub(crate) fn middle(build: &BuildAnswer) -> usize {
    build.marks.len() / 2
}

/// The mark of every pair at a distance, with the other build's name.
pub(crate) fn others(answer: &Answer, at: usize) -> impl Iterator<Item = (&str, &PairMark)> {
    answer.pairs.iter().map(move |pair| (answer.builds[pair.other].name.as_str(), &pair.marks[at]))
}

/// A number of SI units of a dimension, in the unit the reader's trade uses
/// for a small part of that dimension.
pub(crate) fn of_dimension(dimension: Dimension, si: f64) -> String {
    let symbol = dimension.units()[0].symbol;
    let number = significant(si);
    if symbol.is_empty() { number } else { format!("{number} {symbol}") }
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

/// A number with four figures and no trailing zeros.
pub(crate) fn significant(value: f64) -> String {
    if value == 0.0 {
        return "0".to_owned();
    }
    let size = value.abs().log10().floor();
    if !(-4.0..6.0).contains(&size) {
        return format!("{value:.3e}");
    }
    let places = (0..=7).find(|&n| f64::from(n) + size >= 3.0).unwrap_or(7);
    let text = format!("{value:.prec$}", prec = usize::try_from(places).unwrap_or(0));
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text
    }
}
