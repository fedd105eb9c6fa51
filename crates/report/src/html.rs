//! The page: one file, no network, no script.

use std::fmt::Write as _;

use crate::markup::{STYLE, bind, breakable, escape, set};
use crate::plots::Plot;
use crate::table::{Cell, Table};

/// A page in the making.
pub(crate) struct Page<'a> {
    pub(crate) out: String,
    plots: &'a [Plot],
}

impl<'a> Page<'a> {
    /// A page with its title and its sentence.
    pub(crate) fn open(title: &str, sentence: &str, plots: &'a [Plot]) -> Self {
        let (title, sentence) = (escape(title), set(sentence));
        let out = format!(
            "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
             <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
             <meta name=\"color-scheme\" content=\"light dark\">\n<title>{title}</title>\n\
             <style>\n{STYLE}</style>\n</head>\n<body>\n<main>\n<header>\n<h1>{title}</h1>\n\
             <p class=\"answer\">{sentence}</p>\n</header>\n"
        );
        Self { out, plots }
    }

    /// The finished page.
    pub(crate) fn close(mut self) -> String {
        self.out.push_str("</main>\n</body>\n</html>\n");
        self.out
    }

    pub(crate) fn head(&mut self, text: &str) {
        let _ = writeln!(self.out, "<h2>{}</h2>", set(text));
    }

    pub(crate) fn small_head(&mut self, text: &str) {
        let _ = writeln!(self.out, "<h3>{}</h3>", set(text));
    }

    pub(crate) fn say(&mut self, text: &str) {
        let _ = writeln!(self.out, "<p>{}</p>", set(text));
    }

    pub(crate) fn list(&mut self, items: &[&str]) {
        self.out.push_str("<ul>\n");
        for item in items {
            let _ = writeln!(self.out, "<li>{}</li>", set(item));
        }
        self.out.push_str("</ul>\n");
    }

    pub(crate) fn plot(&mut self, name: &str) {
        if let Some(plot) = self.plots.iter().find(|plot| plot.name == name) {
            let caption = set(&plot.caption);
            // The name space is only needed in a file of its own.
            let svg = plot.svg.replacen(" xmlns=\"http://www.w3.org/2000/svg\"", "", 1);
            let _ =
                writeln!(self.out, "<figure>\n{svg}<figcaption>{caption}</figcaption>\n</figure>");
        }
    }

    pub(crate) fn table(&mut self, table: &Table) {
        // A box that scrolls must be reachable by keyboard.
        self.out.push_str("<div class=\"wide\" tabindex=\"0\">\n<table>\n<thead><tr>");
        for column in &table.columns {
            let head = bind(&escape(&column.head));
            let unit = escape(&column.unit);
            let _ = write!(self.out, "<th scope=\"col\">{head}");
            if !unit.is_empty() {
                let _ = write!(self.out, " <span class=\"unit\">{unit}</span>");
            }
            self.out.push_str("</th>");
        }
        self.out.push_str("</tr></thead>\n<tbody>\n");
        for row in &table.rows {
            self.out.push_str("<tr>");
            for (at, cell) in row.iter().enumerate() {
                let tag = if at == 0 { "th scope=\"row\"" } else { "td" };
                let end = if at == 0 { "th" } else { "td" };
                let text = if at == 0 { breakable(&inside(cell)) } else { inside(cell) };
                let _ = write!(self.out, "<{tag}>{text}</{end}>");
            }
            self.out.push_str("</tr>\n");
        }
        self.out.push_str("</tbody>\n</table>\n</div>\n");
    }

    pub(crate) fn folded(&mut self, summary: &str, inside: impl FnOnce(&mut Self)) {
        let summary = set(summary);
        let _ = writeln!(self.out, "<details>\n<summary>{summary}</summary>");
        inside(self);
        self.out.push_str("</details>\n");
    }
}

fn inside(cell: &Cell) -> String {
    match cell {
        Cell::Text(text) => bind(&escape(text)),
        Cell::Interval { value, low, high } => {
            format!("{} <small>{} to {}</small>", escape(value), escape(low), escape(high))
        }
    }
}
