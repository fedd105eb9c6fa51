//! Lengths of text in the two sans-serif faces that every PDF viewer has.

/// Height of a figure in sizes of the type [afm-core14].
pub(crate) const FIGURE: f64 = 0.703;

/// Advance of the printable ASCII letters, thousandths of the size, usual
/// weight [afm-core14].
const PLAIN: [u16; 95] = [
    278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556,
    556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667,
    611, 778, 722, 278, 500, 667, 556, 833, 722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667,
    667, 611, 278, 278, 278, 469, 556, 333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500,
    222, 833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584,
];

/// The same, heavy [afm-core14].
const BOLD: [u16; 95] = [
    278, 333, 474, 556, 556, 889, 722, 238, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556,
    556, 556, 556, 556, 556, 556, 556, 333, 333, 584, 584, 584, 611, 975, 722, 722, 722, 722, 667,
    611, 778, 722, 278, 556, 722, 611, 833, 722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667,
    667, 611, 333, 278, 333, 584, 556, 333, 556, 611, 556, 611, 556, 333, 611, 611, 278, 278, 556,
    278, 889, 611, 611, 611, 611, 389, 556, 333, 611, 556, 778, 556, 556, 500, 389, 280, 389, 584,
];

/// Length of a text in sizes of the type. Letters beyond ASCII count as a
/// figure.
pub(crate) fn width(text: &str, bold: bool) -> f64 {
    let table = if bold { &BOLD } else { &PLAIN };
    let thousandths: u32 = text
        .chars()
        .map(|letter| {
            let place = u32::from(letter).checked_sub(32).and_then(|at| usize::try_from(at).ok());
            u32::from(place.and_then(|at| table.get(at)).copied().unwrap_or(556))
        })
        .sum();
    f64::from(thousandths) / 1000.0
}

/// A text in the encoding of the page: Latin-1, and a question mark for what
/// that does not hold.
pub(crate) fn encoded(text: &str) -> Vec<u8> {
    let shown = |byte: &u8| matches!(byte, 0x20..=0x7E | 0xA0..);
    let byte = |letter: char| u8::try_from(u32::from(letter)).ok().filter(shown).unwrap_or(b'?');
    text.chars().map(byte).collect()
}
