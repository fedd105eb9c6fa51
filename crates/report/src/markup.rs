//! Text made ready for the page, and the page's looks.

use draw::escape;

/// The style sheet.
pub(crate) const STYLE: &str = include_str!("style.css");

/// A sentence set for the page: escaped, quotes turned, numbers bound.
pub(crate) fn set(text: &str) -> String {
    bind(&curly(&escape(text)))
}

/// Keeps a number and its short unit on one line.
pub(crate) fn bind(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut digit = false;
    for (at, letter) in text.char_indices() {
        let next = text[at..].trim_start().split(' ').next().unwrap_or_default();
        let unit = next.trim_end_matches([',', '.', ';', ')']);
        if letter == ' ' && digit && unit.chars().count() <= 3 {
            out.push('\u{A0}');
        } else {
            out.push(letter);
        }
        digit = letter.is_ascii_digit();
    }
    out
}

/// Escaped straight quotes turned into opening and closing ones by turns.
fn curly(escaped: &str) -> String {
    let mut out = String::new();
    for (at, piece) in escaped.split("&quot;").enumerate() {
        if at > 0 {
            out.push(if at % 2 == 1 { '\u{201C}' } else { '\u{201D}' });
        }
        out.push_str(piece);
    }
    out
}

/// Lets a dotted key break between its names.
pub(crate) fn breakable(text: &str) -> String {
    let mut out = String::new();
    let mut last = ' ';
    for letter in text.chars() {
        if last == '.' && letter.is_ascii_alphabetic() {
            out.push_str("<wbr/>");
        }
        out.push(letter);
        last = letter;
    }
    out
}
