//! What a fit says in words.

use study::{ErrorsFrom, FitRow, Fitted, NextShot, Sought, What};
use units::{Role, Style};

use crate::show::{alike, plain, share};
use crate::words::listed;

/// What a fitted value is shown as.
pub(super) fn role(what: Sought) -> Role {
    match what {
        Sought::Speed => Role::Speed,
        Sought::Drag => Role::Number,
        Sought::Radius | Sought::Height => Role::Part,
    }
}

/// The kind of a reading.
pub(super) fn kind(what: &What) -> &'static str {
    match what {
        What::Speed(_) => "speed",
        What::Mark(_) => "mark",
        What::Gap { .. } => "gap",
        What::Impact { .. } => "up",
    }
}

/// How many of what was shot, in half a sentence.
pub fn fit_seen(fitted: &Fitted) -> String {
    let mut parts = Vec::new();
    for (name, one, many) in [
        ("speed", "speed", "speeds"),
        ("mark", "sight mark", "sight marks"),
        ("gap", "gap between pins", "gaps between pins"),
        ("up", "impact", "impacts"),
    ] {
        let count = fitted.rows.iter().filter(|row| kind(&row.shot.what) == name).count();
        match count {
            0 => {}
            1 => parts.push(format!("1 {one}")),
            count => parts.push(format!("{count} {many}")),
        }
    }
    listed(&parts, "and")
}

pub(super) fn headline(fitted: &Fitted, style: Style) -> String {
    let values: Vec<String> = fitted
        .values
        .iter()
        .map(|value| {
            let role = role(value.what);
            let [now, low, high] = alike(role, [value.value, value.low, value.high], style);
            let unit = match role.symbol(style) {
                "" => String::new(),
                symbol => format!(" {symbol}"),
            };
            format!("{} {now}{unit} ({low} to {high})", value.what.name())
        })
        .collect();
    let fit = format!("Fitted to {}: {}.", fit_seen(fitted), listed(&values, "and"));
    disagreement(fitted, style).map_or_else(|| fit.clone(), |first| format!("{first} {fit}"))
}

/// How far two speeds lie apart before that is told first, as a share. Chosen: drag that is
/// held a tenth wrong moves a speed from marks by less.
const APART: f64 = 0.03;

/// That the shots ask for another speed than the scenario's chronograph showed, and what
/// may have caused it, the likeliest first.
fn disagreement(fitted: &Fitted, style: Style) -> Option<String> {
    let speed = fitted.values.iter().find(|value| value.what == Sought::Speed)?;
    let near = (speed.value / speed.before - 1.0).abs() <= APART;
    if near || (speed.low..=speed.high).contains(&speed.before) {
        return None;
    }
    let has = |name: &str| fitted.rows.iter().any(|row| kind(&row.shot.what) == name);
    let [now, before] = [speed.value, speed.before].map(|si| Role::Speed.text(si, style));
    let sought = |what| fitted.values.iter().any(|value| value.what == what);
    let mut causes = Vec::new();
    if (has("mark") || has("gap")) && !sought(Sought::Radius) {
        causes.push("a sight radius that is not what the scenario says".to_owned());
    }
    if has("mark") {
        causes.push("a scale read in another unit".to_owned());
    }
    causes.push("a chronograph's arrow of another mass".to_owned());
    causes.push("a chronograph that is off".to_owned());
    Some(format!(
        "Your {} and the scenario's chronograph disagree: {now} against {before}. Likely causes: \
         {}. Find which before you use either.",
        if has("mark") { "marks" } else { "shots" },
        listed(&causes, "or")
    ))
}

pub(super) fn remarks(fitted: &Fitted, style: Style) -> Vec<String> {
    let mut out = vec![verdict(fitted), spread(fitted).to_owned()];
    if let Some(zero) = fitted.scale_zero {
        let way = if fitted.falling { "fall" } else { "rise" };
        out.push(format!(
            "The sight's scale reads {} with the pin level with the arrow; its numbers {way} with \
             distance.",
            Role::Sight.text(zero, style)
        ));
    }
    out.extend(tied(fitted));
    if let Some(next) = &fitted.next {
        out.push(advice(fitted, next, style));
    }
    out.push(
        "Everything else is held as the scenario has it. Of what is not known of that the intervals \
         count the sight radius, and leave out the rest. Shoot every mark before you trust it."
            .to_owned(),
    );
    out
}

/// What of that is to be acted on.
pub(super) fn briefly(fitted: &Fitted, style: Style) -> Vec<String> {
    let next = fitted.next.as_ref().map(|next| advice(fitted, next, style));
    std::iter::once(verdict(fitted)).chain(next).collect()
}

/// Where the errors come from, in a sentence.
fn spread(fitted: &Fitted) -> &'static str {
    match fitted.spread {
        ErrorsFrom::Stated => "The intervals rest on the errors stated in the file.",
        ErrorsFrom::Residuals => "The intervals rest on how the shots scatter about the fit.",
        ErrorsFrom::Assumed => {
            "The shots are too few to show their own scatter, so the intervals rest on usual \
             errors: 0.5 % of a speed, 0.25 mm of a sight mark, 0.5 mm at every metre of an \
             impact. State your own in error columns, or shoot more."
        }
    }
}

/// Which shots disagree.
fn verdict(fitted: &Fitted) -> String {
    let odd: Vec<&FitRow> = fitted.rows.iter().filter(|row| !row.agrees).collect();
    let lines: Vec<String> = odd.iter().map(|row| row.shot.line.to_string()).collect();
    let scattered = match (fitted.scatter, fitted.scatter_limit) {
        (Some(scatter), Some(limit)) => scatter > limit,
        _ => false,
    };
    let fair = fitted.spread != ErrorsFrom::Residuals;
    match lines.as_slice() {
        [] if fitted.freedom == 0 => {
            "There are as many values as shots, so the fit goes through every one and none can be \
             checked against the others. Shoot one more."
                .to_owned()
        }
        [] if scattered && fair => {
            "No shot stands out, but together they lie farther off than their errors allow. Look \
             at the distances, at what is held fixed, and at the errors."
                .to_owned()
        }
        [] => "Every shot agrees with the others.".to_owned(),
        [line] => format!(
            "The shot of line {line} disagrees with the others. Shoot it again before you use this \
             fit."
        ),
        lines => format!(
            "The shots of lines {} disagree with the others. Shoot them again before you use this \
             fit.",
            listed(lines, "and")
        ),
    }
}

/// Correlation beyond which two values are said to hang together. Chosen.
const TIED: f64 = 0.95;

fn tied(fitted: &Fitted) -> Vec<String> {
    let mut out = Vec::new();
    for (a, row) in fitted.correlations.iter().enumerate() {
        for (b, value) in row.iter().enumerate().skip(a + 1) {
            if value.abs() > TIED {
                out.push(format!(
                    "These shots hardly tell the {} from the {} (correlation {value:.3}): the two \
                     together are surer than either.",
                    fitted.values[a].what.name(),
                    fitted.values[b].what.name()
                ));
            }
        }
    }
    out
}

/// A shot in words: what, and where.
fn seen(what: &What, distance: f64, style: Style) -> String {
    let at = plain(Role::Range, distance, style);
    match what {
        What::Speed(_) if distance == 0.0 => "a chronograph reading at the bow".to_owned(),
        What::Speed(_) => format!("a chronograph reading at {at}"),
        What::Mark(_) => format!("a sight mark at {at}"),
        What::Gap { pin, .. } => {
            format!("the gap between the pins for {} and {at}", plain(Role::Range, pin.si(), style))
        }
        What::Impact { pin, .. } => {
            format!("an impact at {at} with the pin for {}", plain(Role::Range, pin.si(), style))
        }
    }
}

fn advice(fitted: &Fitted, next: &NextShot, style: Style) -> String {
    let left: Vec<String> = fitted
        .values
        .iter()
        .zip(&next.left)
        .map(|(value, left)| format!("{} of the error of the {}", share(*left), value.what.name()))
        .collect();
    format!(
        "One more shot would tell most as {}: it would leave {}.",
        seen(&next.shot.what, next.shot.distance.si(), style),
        listed(&left, "and")
    )
}
