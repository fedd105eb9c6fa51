//! A shift between two centres, and shots that spoil it, in words.

use study::TwoGroups;
use units::{Role, Style};

/// "2.10 in left and 0.40 in low"; a side that rounds to nothing is left out, and none
/// where both do.
pub(in crate::answers) fn way(left: f64, up: f64, style: Style) -> Option<String> {
    let decimals = i32::try_from(Role::Impact.unit(style).1).unwrap_or(0);
    let half = 0.5 * 10.0_f64.powi(-decimals);
    let side = |si: f64, [more, less]: [&str; 2]| {
        let word = if si > 0.0 { more } else { less };
        let shows = Role::Impact.value(si.abs(), style) >= half;
        shows.then(|| format!("{} {word}", Role::Impact.text(si.abs(), style)))
    };
    match (side(left, ["left", "right"]), side(up, ["high", "low"])) {
        (Some(side), Some(height)) => Some(format!("{side} and {height}")),
        (one, other) => one.or(other),
    }
}

/// What lies so far off that it may be a slip of the pen; it is said first.
pub(in crate::answers) fn far_off(judged: &TwoGroups, style: Style) -> Option<String> {
    let said = judged.groups.iter().filter_map(|group| {
        let far = group.far_off();
        let farthest = Role::Impact.text(far.iter().copied().fold(0.0, f64::max), style);
        let name = &group.name;
        match far.len() {
            0 => None,
            1 => Some(format!(
                "One arrow of \"{name}\" lies {farthest} from the rest: was it typed right, or a \
                 flyer?"
            )),
            many => Some(format!(
                "{many} arrows of \"{name}\" lie far from the rest, up to {farthest}: were they \
                 typed right, or flyers?"
            )),
        }
    });
    let said: Vec<String> = said.collect();
    (!said.is_empty()).then(|| format!("{} What follows counts on it.", said.join(" ")))
}
