//! Part files with fitted values in them.

use std::fmt::Write as _;

use study::{Fitted, FittedValue, Sought};
use units::{Dimension, Role, Style};

use crate::schema::{Id, limits};
use crate::text::{own_unit, quantity};
use crate::written::quoted;

/// A part file: the table it is for, and its text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FittedPart {
    /// The table that may name it, such as `sight`.
    pub table: &'static str,
    /// The keys it sets, dotted.
    pub keys: Vec<&'static str>,
    /// The file.
    pub text: String,
}

fn id(what: Sought) -> Id {
    match what {
        Sought::Speed => Id::DepartureSpeed,
        Sought::Drag => Id::GivenDrag,
        Sought::Radius => Id::SightRadius,
        Sought::Height => Id::SightHeight,
    }
}

/// The fitted values as part files, one for each table they stand in; `how`
/// tells in a line where they come from. Values that a scenario may not say
/// are left out, and named.
pub fn fitted_parts(how: &str, fitted: &Fitted) -> (Vec<FittedPart>, Vec<&'static str>) {
    let mut parts: Vec<FittedPart> = Vec::new();
    let mut left_out = Vec::new();
    for value in &fitted.values {
        let id = id(value.what);
        let (least, most) = limits(id);
        if !(least..=most).contains(&value.value) {
            left_out.push(id.path());
            continue;
        }
        let part = if let Some(at) = parts.iter().position(|part| part.table == id.table()) {
            &mut parts[at]
        } else {
            parts.push(FittedPart {
                table: id.table(),
                keys: Vec::new(),
                text: format!("# {how}\n# low and high are the ends of the 95 % interval.\n"),
            });
            let last = parts.len() - 1;
            &mut parts[last]
        };
        part.keys.push(id.path());
        part.text.push_str(&line(id, value));
    }
    (parts, left_out)
}

/// The fit as evidence: a file that any scenario of the same bow may name, since it says
/// what was read and not what this scenario's keys are; none where no speed was sought.
/// `how` tells in a line where it comes from.
pub fn fitted_evidence(how: &str, fitted: &Fitted) -> Option<String> {
    let speeds = &fitted.speeds;
    if speeds.speeds.is_empty() {
        return None;
    }
    let text = |si: f64, dimension: Dimension| quoted(&quantity(si, &dimension.units()[0]));
    let mut out = format!(
        "# {how}\n# What the fit knows of speed and drag, as readings that do not depend on each \
         other.\n# A scenario of this bow names it: evidence = \"PATH OF THIS FILE\"\n"
    );
    for one in &speeds.speeds {
        let near = one.distance.si() <= 0.0;
        let place = if near {
            "at the bow".to_owned()
        } else {
            format!("at {}", Role::Range.text(one.distance.si(), Style::Metric))
        };
        let _ = write!(
            out,
            "\n[[evidence]]\nkind = \"chronograph\"\nname = \"fitted speed {place}\"\nmass = {}\n",
            text(speeds.mass.si(), Dimension::Mass)
        );
        if !near {
            let _ = writeln!(out, "distance = {}", text(one.distance.si(), Dimension::Length));
        }
        let _ = writeln!(out, "speed = {}", text(one.speed.si(), Dimension::Speed));
        let _ = writeln!(out, "error = {}", text(one.error.si(), Dimension::Speed));
    }
    Some(out)
}

/// A key with its value and the interval as far as the key's range goes.
fn line(id: Id, fitted: &FittedValue) -> String {
    let name = id.path().rsplit('.').next().unwrap_or_default();
    let (least, most) = limits(id);
    let text = |si: f64| quoted(&quantity(si, own_unit(id)));
    let [value, low, high] = [fitted.value, fitted.low.max(least), fitted.high.min(most)].map(text);
    if low == high {
        format!("{name} = {value}\n")
    } else {
        format!("{name} = {{ value = {value}, low = {low}, high = {high} }}\n")
    }
}
