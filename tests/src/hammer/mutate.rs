//! Texts made from sound ones by chance.

use rand_chacha::ChaCha8Rng;
use rand_core::{Rng, SeedableRng};

/// Words that mean something to a reader, and some that must not.
const WORDS: [&str; 58] = [
    "[[build]]\n",
    "[[step]]\n",
    "[bow]\n",
    "[arrow.shaft]\n",
    "[question]\n",
    "name = ",
    "part = ",
    "\"a.toml\"",
    "\"none\"",
    "{ rayleigh = \"0.2 deg\" }",
    "{ mean = \"1 in\", sd = \"0.1 in\" }",
    "{ low = \"0\", high = \"1\" }",
    "kind = \"sweep\"\n",
    "kind = \"worth\"\n",
    "kind = \"tune\"\n",
    "kind = \"matters\"\n",
    "flights = 100\n",
    "= \"\"",
    "'''",
    "\"\"\"",
    "\\u0000",
    "\u{0}",
    "\u{1b}[2J",
    "\u{202e}",
    "\u{feff}",
    "\r\n",
    "\r",
    "\t",
    "\"",
    "''",
    ",",
    ";",
    "#",
    "=",
    "[",
    "]",
    "{",
    "}",
    "-0",
    "1e308",
    "-1e308",
    "1e-320",
    "9223372036854775807",
    "nan",
    "inf",
    "0x7f",
    "1_000",
    " in",
    " mm",
    " gr",
    " deg",
    " %",
    " lbf",
    " yd",
    " ft/s",
    "arrow,mass [gr]\n",
    "\u{1f3f9}",
    "1979-05-27T07:32:00Z",
];

/// A source of texts: the same numbers give the same text.
pub struct Mutator<'a> {
    seeds: &'a [Vec<u8>],
    seed: u64,
}

impl<'a> Mutator<'a> {
    /// From sound texts; none makes none.
    pub fn new(seeds: &'a [Vec<u8>], seed: u64) -> Self {
        Self { seeds, seed }
    }

    /// The text of this number.
    pub fn text(&self, number: u64) -> Vec<u8> {
        let mut random = ChaCha8Rng::seed_from_u64(self.seed);
        random.set_stream(number);
        let mut text = self.some(&mut random).to_vec();
        for _ in 0..=below(&mut random, 6) {
            self.change(&mut text, &mut random);
        }
        text
    }

    fn some(&self, random: &mut ChaCha8Rng) -> &'a [u8] {
        let at = below(random, self.seeds.len());
        self.seeds.get(at).map_or(&[], Vec::as_slice)
    }

    fn change(&self, text: &mut Vec<u8>, random: &mut ChaCha8Rng) {
        let from = below(random, text.len() + 1);
        let upto = (from + below(random, 24)).min(text.len());
        match below(random, 8) {
            // A word put in, or over something.
            0 => drop(text.splice(from..from, word(random).bytes())),
            1 => drop(text.splice(from..upto, word(random).bytes())),
            // Something left out, doubled, or swapped for a piece of another.
            2 => drop(text.drain(from..upto)),
            3 => {
                let piece = text[from..upto].to_vec();
                for _ in 0..1 << below(random, 5) {
                    text.splice(from..from, piece.iter().copied());
                }
            }
            4 => {
                let other = self.some(random);
                let start = below(random, other.len() + 1);
                let end = (start + below(random, 200)).min(other.len());
                text.splice(from..upto, other[start..end].iter().copied());
            }
            // A number made another.
            5 => {
                if let Some(at) = text[from..].iter().position(u8::is_ascii_digit) {
                    text[from + at] = b'0' + u8::try_from(below(random, 10)).unwrap_or(0);
                }
            }
            // A line put elsewhere.
            6 => {
                let lines: Vec<&[u8]> = text.split_inclusive(|byte| *byte == b'\n').collect();
                let (a, b) = (below(random, lines.len()), below(random, lines.len()));
                if let (Some(&line), Some(_)) = (lines.get(a), lines.get(b)) {
                    let mut all: Vec<&[u8]> = lines.clone();
                    all.insert(b, line);
                    *text = all.concat();
                }
            }
            // Any byte.
            _ => {
                if let Some(byte) = text.get_mut(from) {
                    *byte = random.next_u32().to_le_bytes()[0];
                }
            }
        }
    }
}

fn word(random: &mut ChaCha8Rng) -> &'static str {
    WORDS[below(random, WORDS.len())]
}

/// A number below another; zero below zero.
pub(super) fn below(random: &mut ChaCha8Rng, end: usize) -> usize {
    usize::try_from(random.next_u64() % end.max(1) as u64).unwrap_or(0)
}
