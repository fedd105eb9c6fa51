use serde_json::Value;
use study::{ErrorsFrom, Fitted, Observed, Sought, What};

use super::say::kind;
use crate::ReportError;
use crate::tree::Node;

/// The fit as JSON in SI.
///
/// # Errors
/// [`ReportError::NotFinite`] names the first bad number.
pub fn fit_json(fitted: &Fitted) -> Result<Value, ReportError> {
    let values = Node::list(&fitted.values, |value| {
        let unit = unit(value.what);
        Node::Map(vec![
            ("name", Node::text(value.what.name())),
            ("scenario", Node::Number(value.before, unit)),
            ("value", Node::Number(value.value, unit)),
            ("error", Node::Number(value.error, unit)),
            ("low95", Node::Number(value.low, unit)),
            ("high95", Node::Number(value.high, unit)),
        ])
    });
    let shots = Node::list(&fitted.rows, |row| {
        let unit = read_in(&row.shot.what);
        let mut fields = shot(&row.shot);
        fields.extend([
            ("fitted", Node::Number(row.computed, unit)),
            ("error", Node::Number(row.shot.sigma(), unit)),
            ("off_over_error", row.studentized.map_or(Node::Null, |t| Node::Number(-t, "1"))),
            ("agrees", Node::Flag(row.agrees)),
        ]);
        Node::Map(fields)
    });
    let maybe = |value: Option<f64>, unit| value.map_or(Node::Null, |v| Node::Number(v, unit));
    let next = fitted.next.as_ref().map_or(Node::Null, |next| {
        let mut fields = shot(&next.shot);
        fields.push(("error_left", Node::Series(next.left.clone(), "1")));
        Node::Map(fields)
    });
    Node::Map(vec![
        ("values", values),
        ("correlations", Node::list(&fitted.correlations, |row| Node::Series(row.clone(), "1"))),
        ("scale_zero", maybe(fitted.scale_zero, "m")),
        ("scale_falls", Node::Flag(fitted.falling)),
        ("freedom", Node::size(fitted.freedom, "shots")),
        ("scatter", maybe(fitted.scatter, "1")),
        ("scatter_limit", maybe(fitted.scatter_limit, "1")),
        (
            "errors_from",
            Node::text(match fitted.spread {
                ErrorsFrom::Stated => "stated",
                ErrorsFrom::Residuals => "residuals",
                ErrorsFrom::Assumed => "assumed",
            }),
        ),
        ("shots", shots),
        ("next", next),
    ])
    .write()
}

fn shot(shot: &Observed) -> Vec<(&'static str, Node)> {
    let pin = match shot.what {
        What::Gap { pin, .. } | What::Impact { pin, .. } => Node::Number(pin.si(), "m"),
        What::Speed(_) | What::Mark(_) => Node::Null,
    };
    vec![
        ("line", Node::size(shot.line, "lines")),
        ("reading", Node::text(kind(&shot.what))),
        ("distance", Node::Number(shot.distance.si(), "m")),
        ("pin", pin),
        ("seen", Node::Number(shot.what.si(), read_in(&shot.what))),
    ]
}

fn unit(what: Sought) -> &'static str {
    match what {
        Sought::Speed => "m/s",
        Sought::Drag => "1",
        Sought::Radius | Sought::Height => "m",
    }
}

fn read_in(what: &What) -> &'static str {
    match what {
        What::Speed(_) => "m/s",
        What::Mark(_) | What::Gap { .. } | What::Impact { .. } => "m",
    }
}
