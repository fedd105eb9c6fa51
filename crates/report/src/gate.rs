//! Where text goes out: one gate for each medium. Names and titles come from
//! files of others, and none of them may do more than be read.

use draw::visible;

/// Text for a terminal: what would colour it, move about on it or turn letters
/// round is spelled out. JSON that goes through it says the same as before.
#[must_use]
pub fn terminal(text: &str) -> String {
    visible(text).into_owned()
}

/// A page or a part of one, its text escaped already.
#[must_use]
pub fn html(page: &str) -> String {
    visible(page).into_owned()
}

/// A text of JSON. A letter spelled out in it is the letter to whoever reads it.
pub(crate) fn json(text: &str) -> String {
    visible(text).into_owned()
}

/// A field of CSV, quoted where it must be. A spreadsheet takes a cell that begins
/// like a formula for one; an apostrophe in front makes it a text. Numbers stay
/// numbers.
pub(crate) fn csv(field: &str) -> String {
    const FORMULA: [char; 11] =
        ['=', '+', '-', '@', '\t', '\r', '\n', '\u{FF1D}', '\u{FF0B}', '\u{FF0D}', '\u{FF20}'];
    let formula = field.trim_start_matches(' ').starts_with(FORMULA);
    let field = visible(field);
    let field = if formula && field.parse::<f64>().is_err() {
        format!("'{field}")
    } else {
        field.into_owned()
    };
    if field.contains([',', '"', '\r', '\n', '\t']) {
        format!("\"{}\"", field.replace('"', "\"\""))
    } else {
        field
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn exact_each_medium_gets_its_own_harmless_spelling() {
        let evil = "\u{1b}]0;owned\u{7}\u{9b}31m\u{202e}x\r\u{7f}\ty\n";
        let spelled = "\\u001B]0;owned\\u0007\\u009B31m\\u202Ex\\u000D\\u007F\ty\n";
        assert_eq!(terminal(evil), spelled);
        assert_eq!(html(evil), spelled);
        let text = serde_json::to_string(evil).expect("a text");
        let read: String = serde_json::from_str(&json(&text)).expect("JSON still");
        assert_eq!(read, evil);
        assert!(!json(&text).contains(|letter: char| letter.is_control() || letter == '\u{202e}'));
    }

    #[test]
    fn exact_a_cell_is_no_formula_and_a_number_stays_one() {
        for (field, want) in [
            ("=cmd|'/c calc'!A1", "'=cmd|'/c calc'!A1"),
            ("@SUM(1,2)", "\"'@SUM(1,2)\""),
            ("  +1+1", "'  +1+1"),
            ("-1e-3", "-1e-3"),
            ("-", "'-"),
            ("\u{FF1D}1", "'\u{FF1D}1"),
            ("\rx", "'\\u000Dx"),
            ("left, \"mine\"", "\"left, \"\"mine\"\"\""),
            ("plain", "plain"),
        ] {
            assert_eq!(csv(field), want, "{field:?}");
        }
    }
}
