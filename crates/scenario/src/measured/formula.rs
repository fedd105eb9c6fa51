//! Cells that a spreadsheet would take for a formula: guarded as they are written, as they
//! were said when they are read back.

/// What begins a formula; the wide ones are taken for it too.
const FORMULA: [char; 8] = ['=', '+', '-', '@', '\u{FF1D}', '\u{FF0B}', '\u{FF0D}', '\u{FF20}'];
const GUARD: char = '\'';

fn formula(text: &str) -> bool {
    text.trim_start().starts_with(FORMULA) && text.trim().parse::<f64>().is_err()
}

/// A text with an apostrophe in front where it would be taken for a formula.
pub(super) fn guarded(text: &str) -> String {
    if formula(text) { format!("{GUARD}{text}") } else { text.to_owned() }
}

/// The same as it was said.
pub(super) fn plainly(cell: &str) -> &str {
    cell.strip_prefix(GUARD).filter(|rest| formula(rest)).unwrap_or(cell)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn exact_what_is_guarded_reads_back_as_it_was() {
        for text in ["=1+1", "=HYPERLINK(\"x\")", "@x", "-2 clicks", " =1", "\u{FF1D}1"] {
            assert_eq!(guarded(text), format!("'{text}"), "{text}");
            assert_eq!(plainly(&guarded(text)), text);
        }
        for text in ["Tansy Creek", "-2.5", "", "'tis", "12-pack"] {
            assert_eq!((guarded(text).as_str(), plainly(text)), (text, text));
        }
    }
}
