//! Two groups that were really shot, typed or pasted, and what they say of each other.

use std::collections::BTreeMap;
use std::path::Path;

use maud::{DOCTYPE, Markup, PreEscaped, html};
use study::{ShotGroup, TwoGroups};
use target::PowerTest;
use units::{Dimension, Style};

use crate::head::head;
use crate::reading::told;
use crate::table::{self, Table};
use crate::view::wrong;
use crate::{PageError, Wrong};

/// Fields of the form.
const FIELDS: [&str; 10] = [
    "name1", "shots1", "count1", "spread1", "name2", "shots2", "count2", "spread2", "unit",
    "distance",
];
/// Units that bare pairs of numbers may be in, and the style of the answer in each.
const UNITS: [(&str, Style); 3] =
    [("in", Style::Archery), ("cm", Style::Metric), ("mm", Style::Metric)];
/// Longest text of one field. Chosen: several hundred shots, and both fit into a form.
const LONGEST: usize = 3_500;

/// A group that nobody shot.
const EXAMPLE: &str = "# Invented: six arrows that nobody shot.\nleft [in],up [in]\n-1.5,2.0\n0.5,-0.8\n2.1,0.4\n-0.6,-1.9\n1.2,1.1\n-2.4,0.3\n";

/// What was sent, by field.
type Sent = BTreeMap<&'static str, String>;

/// The form, and the answer to what was sent; nothing was sent at first.
pub(crate) fn sheet(fields: Vec<(String, String)>) -> Result<Markup, PageError> {
    let mut sent = Sent::new();
    for (field, value) in fields {
        let name = FIELDS.into_iter().find(|name| *name == field);
        let (Some(name), true) = (name, value.len() <= LONGEST) else {
            return Err(match name {
                None => PageError::Field { field },
                Some(_) => PageError::TooLong { length: value.len(), most: LONGEST },
            });
        };
        if sent.insert(name, value).is_some() {
            return Err(PageError::Field { field });
        }
    }
    let found = (!sent.is_empty()).then(|| judged(&sent));
    Ok(page(&sent, found.as_ref()))
}

/// The verdict on what was sent.
fn judged(sent: &Sent) -> Result<Markup, PageError> {
    let unit = text(sent, "unit");
    let style = UNITS.iter().find(|(name, _)| *name == unit).map(|(_, style)| *style);
    let value = unit.chars().take(20).collect();
    let allowed = "in, cm or mm";
    let style = style.ok_or(PageError::Value { field: "unit", value, allowed })?;
    let groups = [
        group(sent, "first group", ["name1", "shots1", "count1", "spread1"])?,
        group(sent, "second group", ["name2", "shots2", "count2", "spread2"])?,
    ];
    let judged = TwoGroups::of(groups, PowerTest::default()).map_err(|e| said("shots1", &e))?;
    let distance = text(sent, "distance");
    let distance = (!distance.is_empty()).then(|| units::parse(distance)).transpose();
    let judged = judged.at(distance.map_err(|error| said("distance", &error))?);
    let document = report::verdict(&judged, env!("CARGO_PKG_VERSION"), style)?;
    Ok(html! {
        (PreEscaped(document.fragment()?))
    })
}

/// One group, from its shots or from its width.
fn group(sent: &Sent, usual: &str, fields: [&'static str; 4]) -> Result<ShotGroup, PageError> {
    let [name, shots, count, spread] = fields.map(|field| text(sent, field));
    let name = if name.is_empty() { usual } else { name };
    if !shots.is_empty() {
        // Bare pairs have no head; it says what they are.
        let bare =
            shots.starts_with(|letter: char| letter.is_ascii_digit() || "+-.".contains(letter));
        let unit = text(sent, "unit");
        let lines = if shots.contains(',') || shots.contains(';') {
            shots.to_owned()
        } else {
            // Two numbers side by side on each line.
            let line = |line: &str| line.split_whitespace().collect::<Vec<_>>().join(",");
            shots.lines().map(line).collect::<Vec<_>>().join("\n")
        };
        let table =
            if bare { format!("left ({unit}),up ({unit})\n{lines}\n") } else { lines + "\n" };
        let read = scenario::measured::impacts(Path::new(name), Ok(table.into_bytes()));
        let read = read.map_err(|report| told(&report))?;
        return ShotGroup::of(name, &read.found).map_err(|error| said(fields[1], &error));
    }
    if count.is_empty() && spread.is_empty() {
        return Err(PageError::Wrong(vec![Wrong {
            field: Some(fields[1]),
            text: format!("{name}: paste its shots, or say how many arrows span how much"),
        }]));
    }
    let allowed = "a whole number of arrows, 2 or more";
    let value = count.chars().take(20).collect();
    let count: u32 =
        count.parse().map_err(|_| PageError::Value { field: fields[2], value, allowed })?;
    let widest = units::parse_si(Dimension::Length, spread).map_err(|e| said(fields[3], &e))?;
    ShotGroup::of_extreme_spread(name, count, widest).map_err(|error| said(fields[2], &error))
}

fn said(field: &'static str, error: &dyn std::error::Error) -> PageError {
    PageError::Wrong(vec![Wrong { field: Some(field), text: error.to_string() }])
}

fn text<'a>(sent: &'a Sent, field: &str) -> &'a str {
    sent.get(field).map_or("", |text| text.trim())
}

fn page(sent: &Sent, found: Option<&Result<Markup, PageError>>) -> Markup {
    let unit = if text(sent, "unit").is_empty() { "in" } else { text(sent, "unit") };
    html! {
        (DOCTYPE)
        html lang="en" {
            head {
                (head("Clothyard: which group is better?"))
            }
            body {
                a.skip href="#finding" { "To the answer" }
                main {
                    header {
                        h1 { "Which of two groups is better?" }
                        nav { a href="/questions" { "All questions" } }
                    }
                    section #finding aria-label="The answer" aria-live="polite" {
                        @match found {
                            Some(Ok(answer)) => (answer),
                            Some(Err(error)) => (wrong(error)),
                            None => p {
                                "Paste where each arrow hit, or say how many arrows span how much. \
                                 The answer says whether width or centre really differ, and how many \
                                 more arrows would settle it."
                            },
                        }
                    }
                    form.pair method="post" action="/groups" autocomplete="off" {
                        @for (at, title) in [(1, "First group"), (2, "Second group")] {
                            fieldset {
                                legend { (title) }
                                (field(sent, &format!("name{at}"), "Name", if at == 1 { "field points" } else { "broadheads" }))
                                (table::field(&format!("shots{at}"), "Shots: left and up of the aim", Table::Group,
                                    Some(EXAMPLE), text(sent, &format!("shots{at}"))))
                                p.hint { "Left is plus, right is minus. Or, without shots:" }
                                (field(sent, &format!("count{at}"), "Arrows", "5"))
                                (field(sent, &format!("spread{at}"), "Farthest two apart", "6 in"))
                            }
                        }
                        div.bar {
                            label for="f-unit" { "Shots are in" }
                            select #f-unit name="unit" {
                                @for (name, _) in UNITS { option selected[name == unit] { (name) } }
                            }
                            (field(sent, "distance", "Distance", "40 yd"))
                            button type="submit" { "Judge" }
                        }
                    }
                    section #care {
                        h2 { "With any bow" }
                        ul { @for caution in report::standing() { li { (caution) } } }
                    }
                }
            }
        }
    }
}

fn field(sent: &Sent, name: &str, label: &str, example: &str) -> Markup {
    html! {
        div.control {
            label for=(format!("f-{name}")) { (label) }
            input.amount type="text" id=(format!("f-{name}")) name=(name) maxlength="60"
                value=(sent.get(name).map_or("", String::as_str)) placeholder=(example) spellcheck="false";
        }
    }
}
