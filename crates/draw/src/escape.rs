use std::borrow::Cow;
use std::fmt::Write as _;

/// Text made safe for an element or an attribute of SVG or HTML.
#[must_use]
pub fn escape(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            _ => out.push(letter),
        }
    }
    out
}

/// Text in which every control letter but line ends and tabs, and every mark that
/// turns the direction of letters round, is spelled out as `\u001B`: as JSON,
/// TOML and people read it.
#[must_use]
pub fn visible(text: &str) -> Cow<'_, str> {
    if !text.contains(hidden) {
        return Cow::Borrowed(text);
    }
    let mut out = String::with_capacity(text.len());
    let mut letters = text.chars().peekable();
    while let Some(letter) = letters.next() {
        let line_end = letter == '\r' && letters.peek() == Some(&'\n');
        if hidden(letter) && !line_end {
            // Writing to a String cannot fail.
            let _ = write!(out, "\\u{:04X}", u32::from(letter));
        } else {
            out.push(letter);
        }
    }
    Cow::Owned(out)
}

/// None of these lies beyond four digits.
fn hidden(letter: char) -> bool {
    let turns = matches!(
        letter,
        '\u{061C}' | '\u{200E}' | '\u{200F}' | '\u{2028}'..='\u{202E}' | '\u{2066}'..='\u{2069}'
    );
    turns || (letter.is_control() && !matches!(letter, '\n' | '\t'))
}
