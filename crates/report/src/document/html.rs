//! A document as a page: one file, no network, no script.

use std::fmt::Write as _;

use draw::escape;
use units::Style;

use super::{Document, Kind, Origin, Part, Table};
use crate::ReportError;
use crate::gate;
use crate::markup::{STYLE, bind, breakable, set};
use crate::safety::{CautionText, FIRST};
use crate::show::count;

/// The whole page.
pub(super) fn document(of: &Document) -> Result<String, ReportError> {
    let title = escape(&of.title);
    let mut out = format!(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
         <meta name=\"color-scheme\" content=\"light dark\">\n<title>{title}</title>\n\
         <style>\n{STYLE}</style>\n</head>\n<body>\n<main>\n<header>\n<h1>{title}</h1>\n"
    );
    out.push_str(&before(of)?);
    out.push_str("</header>\n");
    out.push_str(&after(of)?);
    if let Some(origin) = &of.origin {
        out.push_str(&from(origin));
    }
    out.push_str("</main>\n</body>\n</html>\n");
    Ok(gate::html(&out))
}

/// What stands within another page: all but title and origin.
pub(super) fn fragment(of: &Document) -> Result<String, ReportError> {
    Ok(gate::html(&(before(of)? + &after(of)?)))
}

/// What to mind, and the answer: the short one where there is one.
fn before(of: &Document) -> Result<String, ReportError> {
    let rest = match of.short.split_first() {
        Some((_, rest)) => parts(rest, of.style)?,
        None => String::new(),
    };
    let answer = set(of.verdict());
    Ok(format!("{}<p class=\"answer\">{answer}</p>\n{rest}", cautions(&of.cautions)))
}

/// All else.
fn after(of: &Document) -> Result<String, ReportError> {
    if of.short.is_empty() {
        parts(&of.parts, of.style)
    } else {
        folded(&of.lead, &of.parts, of.style)
    }
}

/// Parts behind a short answer: what stands before the first heading is seen, with the
/// long answer folded below it; then each heading folds what it heads.
fn folded(lead: &str, of: &[Part], style: Style) -> Result<String, ReportError> {
    let heads: Vec<usize> = (0..of.len()).filter(|&at| heading(&of[at]).is_some()).collect();
    let first = heads.first().copied().unwrap_or(of.len());
    let mut out = parts(&of[..first], style)?;
    section(&mut out, "The answer in full", &format!("<p>{}</p>\n", set(lead)));
    for (place, &at) in heads.iter().enumerate() {
        let end = heads.get(place + 1).copied().unwrap_or(of.len());
        let Some((summary, inner)) = heading(&of[at]) else { continue };
        let inside = parts(inner, style)? + &parts(&of[at + 1..end], style)?;
        section(&mut out, summary, &inside);
    }
    Ok(out)
}

/// What a part heads: a heading, or parts for a page that begin with one.
fn heading(part: &Part) -> Option<(&str, &[Part])> {
    match part {
        Part::Head(text) => Some((text, &[])),
        Part::Page(inner) => match inner.split_first() {
            Some((Part::Head(text), rest)) => Some((text, rest)),
            _ => None,
        },
        _ => None,
    }
}

fn section(out: &mut String, summary: &str, inside: &str) {
    let summary = set(summary);
    let _ = writeln!(
        out,
        "<details class=\"section\">\n<summary><h2>{summary}</h2></summary>\n{inside}</details>"
    );
}

/// What to mind, in a box; nothing where there is nothing.
pub(super) fn cautions(of: &[CautionText]) -> String {
    if of.is_empty() {
        return String::new();
    }
    let mut out = "<div class=\"caution\" role=\"note\">\n".to_owned();
    tag(&mut out, "p", &set(FIRST));
    out.push_str("<ul>\n");
    for caution in of {
        tag(&mut out, "li", &set(&caution.full));
    }
    out.push_str("</ul>\n</div>\n");
    out
}

/// Parts, one after the other.
pub(super) fn parts(of: &[Part], style: Style) -> Result<String, ReportError> {
    let mut out = String::new();
    for part in of {
        match part {
            Part::Head(text) => tag(&mut out, "h2", &set(text)),
            Part::Small(text) => tag(&mut out, "h3", &set(text)),
            Part::Say(text) => tag(&mut out, "p", &set(text)),
            Part::Note(text) => {
                let _ = writeln!(out, "<p class=\"note\">{}</p>", set(text));
            }
            Part::List(items) => {
                out.push_str("<ul>\n");
                for item in items {
                    tag(&mut out, "li", &set(item));
                }
                out.push_str("</ul>\n");
            }
            Part::Claim { claim, finding, why } => {
                let (claim, why) = (set(claim), set(why));
                let found = format!("<b>The computation {finding}.</b> {why}");
                let _ = writeln!(out, "<dl>\n<dt>{claim}</dt>\n<dd>{found}</dd>\n</dl>");
            }
            Part::Table(of) => out.push_str(&table(of, style)),
            Part::Figure(figure) => {
                let svg = embedded(&figure.svg()?);
                let caption = set(&figure.caption);
                let _ =
                    writeln!(out, "<figure>\n{svg}<figcaption>{caption}</figcaption>\n</figure>");
            }
            Part::Fold(summary, inner) => fold(&mut out, summary, &parts(inner, style)?),
            Part::Page(inner) => out.push_str(&parts(inner, style)?),
            Part::Verbatim(text) => out.push_str(&verbatim(text)),
            Part::Data(_) => {}
        }
    }
    Ok(out)
}

/// A drawing to stand in a page: the name space is only needed in a file of
/// its own.
pub(crate) fn embedded(svg: &str) -> String {
    svg.replacen(" xmlns=\"http://www.w3.org/2000/svg\"", "", 1)
}

fn tag(out: &mut String, tag: &str, inside: &str) {
    let _ = writeln!(out, "<{tag}>{inside}</{tag}>");
}

fn fold(out: &mut String, summary: &str, inside: &str) {
    let summary = set(summary);
    let _ = writeln!(out, "<details>\n<summary>{summary}</summary>\n{inside}</details>");
}

fn verbatim(text: &str) -> String {
    format!("<pre tabindex=\"0\">{}</pre>\n", escape(text))
}

pub(super) fn table(of: &Table, style: Style) -> String {
    // A box that scrolls must be reachable by keyboard.
    let mut out = "<div class=\"wide\" tabindex=\"0\">\n<table>\n<thead><tr>".to_owned();
    for column in of.columns() {
        let head = bind(&escape(&column.head));
        // Its cells say their own units; those without one are pure numbers.
        let own = if column.kind == Kind::Own { " class=\"own\"" } else { "" };
        let _ = write!(out, "<th scope=\"col\"{own}>{head}");
        let unit = escape(column.unit(style));
        if !unit.is_empty() {
            let _ = write!(out, " <span class=\"unit\">{unit}</span>");
        }
        out.push_str("</th>");
    }
    out.push_str("</tr></thead>\n<tbody>\n");
    for row in of.spelled(style) {
        out.push_str("<tr>");
        for (at, cell) in row.into_iter().enumerate() {
            let mut text = bind(&escape(&cell.value));
            if let Some([low, high]) = &cell.ends {
                let _ = write!(text, " <small>[{}, {}]</small>", escape(low), escape(high));
            }
            if let Some([low, high]) = &cell.band {
                let _ = write!(text, " <small>{} to {}</small>", escape(low), escape(high));
            }
            text.push_str(&escape(&cell.unit));
            let _ = match at {
                0 => write!(out, "<th scope=\"row\">{}</th>", breakable(&text)),
                _ => write!(out, "<td>{text}</td>"),
            };
        }
        out.push_str("</tr>\n");
    }
    out.push_str("</tbody>\n</table>\n</div>\n");
    out
}

fn from(origin: &Origin) -> String {
    let provenance = &origin.provenance;
    let mut out = String::new();
    tag(&mut out, "h2", "Where this comes from");
    let chance = origin.flown.map_or_else(String::new, |flown| {
        let flown = count(flown as u64);
        format!(", seed {}, {flown} flights in six degrees of freedom", provenance.seed)
    });
    let _ = writeln!(
        out,
        "<p>Clothyard {}, scenario <code>{}</code>{chance}. The same files, seed and version give \
         the same numbers.</p>",
        escape(&provenance.version),
        escape(&provenance.source_name),
    );
    for (name, text) in &origin.read {
        fold(&mut out, &format!("The file {name} as it was read"), &verbatim(text));
    }
    let summary = "The scenario as it was used, every default filled in";
    fold(&mut out, summary, &verbatim(&provenance.scenario));
    out
}
