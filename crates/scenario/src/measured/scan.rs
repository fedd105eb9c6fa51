//! From text to rows of cells, each with its place.

use std::borrow::Cow;
use std::ops::Range;

/// A cell without its quotes and outer blanks, and where it stands.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Cell<'t> {
    pub(super) text: Cow<'t, str>,
    pub(super) span: Range<usize>,
    /// Whether its quote is never closed, so that it runs to the end.
    pub(super) open: bool,
}

/// The cells of one row.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Record<'t> {
    /// The line on which it begins, from 1.
    pub(super) line: usize,
    pub(super) span: Range<usize>,
    pub(super) cells: Vec<Cell<'t>>,
}

/// Every row that says something: blank rows and lines that begin with `#` are
/// passed over. A quoted cell may hold separators, line ends and, doubled,
/// quotes, as RFC 4180 has it.
pub(super) fn rows(text: &str, separator: char) -> Vec<Record<'_>> {
    let mut found = Vec::new();
    let (mut at, mut line) = (0, 1);
    while at < text.len() {
        let start = at;
        if text[at..].trim_start_matches(' ').starts_with('#') {
            at = end_of_line(text, at);
        } else {
            let mut cells = Vec::new();
            loop {
                let (cell, end) = cell(text, at, separator);
                cells.push(cell);
                at = end;
                if !text[at..].starts_with(separator) {
                    break;
                }
                at += separator.len_utf8();
            }
            if cells.iter().any(|cell| !cell.text.is_empty()) {
                let end = start + text[start..at].trim_end_matches([' ', '\t']).len();
                found.push(Record { line, span: start..end.max(start), cells });
            }
        }
        if let Some(end) = text[at..].chars().next() {
            at += end.len_utf8();
            at += usize::from(end == '\r' && text[at..].starts_with('\n'));
        }
        line += text[start..at].matches('\n').count();
    }
    found
}

fn end_of_line(text: &str, from: usize) -> usize {
    text[from..].find(['\n', '\r']).map_or(text.len(), |end| from + end)
}

/// The cell that begins at a byte, and where it ends.
fn cell(text: &str, from: usize, separator: char) -> (Cell<'_>, usize) {
    let blank = |c: char| c != separator && matches!(c, ' ' | '\t');
    let start = from + text[from..].find(|c| !blank(c)).unwrap_or(text.len() - from);
    let mut inside = start;
    let mut open = false;
    if text[start..].starts_with('"') {
        inside += 1;
        loop {
            let Some(quote) = text[inside..].find('"') else {
                (inside, open) = (text.len(), true);
                break;
            };
            inside += quote + 1;
            if !text[inside..].starts_with('"') {
                break;
            }
            inside += 1;
        }
    }
    let ends = |c: char| c == separator || matches!(c, '\n' | '\r');
    let end = inside + text[inside..].find(ends).unwrap_or(text.len() - inside);
    let bare = &text[inside..end];
    let said = if inside == start {
        Cow::Borrowed(bare.trim())
    } else {
        let quoted = text[start + 1..inside].strip_suffix('"').unwrap_or(&text[start + 1..inside]);
        Cow::Owned(format!("{}{}", quoted.replace("\"\"", "\""), bare.trim()).trim().to_owned())
    };
    let last = start + text[start..end].trim_end().len();
    (Cell { text: said, span: start..last.max(start), open }, end)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn texts(text: &str, separator: char) -> Vec<Vec<String>> {
        let one = |row: Record| row.cells.into_iter().map(|cell| cell.text.into_owned()).collect();
        rows(text, separator).into_iter().map(one).collect()
    }

    #[test]
    fn exact_a_row_is_told_with_its_line_and_its_cells_with_their_places() {
        let text = "# own\n\n a ;\"b;\n\"\"c\"\"\" \r\n;;\n;d";
        let found = rows(text, ';');
        assert_eq!(texts(text, ';'), [vec!["a", "b;\n\"c\""], vec!["", "d"]]);
        assert_eq!(found.iter().map(|row| row.line).collect::<Vec<_>>(), [3, 6]);
        assert_eq!(&text[found[0].cells[0].span.clone()], "a");
        assert_eq!(&text[found[0].cells[1].span.clone()], "\"b;\n\"\"c\"\"\"");
        assert!(rows("a,\"b\nc", ',')[0].cells[1].open);
    }

    /// Every short text of the marks that matter reads as the `csv` library
    /// reads it. Apart are quotes that are never closed, which that library
    /// takes as they are, and old line ends (`\r` alone), which end no remark
    /// of its.
    #[test]
    fn exact_cells_are_those_of_the_csv_library() {
        const MARKS: [char; 6] = ['a', ',', '"', '\n', '\r', '#'];
        let mut compared = 0;
        for code in 0..6_usize.pow(6) {
            let digits = (0..6).map(|place| MARKS[code / 6_usize.pow(place) % 6]);
            let text: String = digits.collect();
            let open = rows(&text, ',').iter().flat_map(|row| &row.cells).any(|cell| cell.open);
            if open || (text.contains('#') && text.replace("\r\n", "").contains('\r')) {
                continue;
            }
            let mut library = csv::ReaderBuilder::new()
                .has_headers(false)
                .flexible(true)
                .comment(Some(b'#'))
                .trim(csv::Trim::All)
                .from_reader(text.as_bytes());
            let theirs: Vec<Vec<String>> = library
                .records()
                .map(|record| record.expect("text is text").iter().map(str::to_owned).collect())
                .filter(|cells: &Vec<String>| cells.iter().any(|cell| !cell.is_empty()))
                .collect();
            assert_eq!(texts(&text, ','), theirs, "{text:?}");
            compared += 1;
        }
        assert!(compared > 20_000, "{compared}");
    }
}
