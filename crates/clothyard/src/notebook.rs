//! Rows for notebooks, as they are said on the command line, and what came of them.

use std::path::Path;

use scenario::measured::{self, Kind, Noted, Said};
use units::Style;

use crate::bench::slip::Slip;
use crate::failure::Failure;
use crate::shelf;

/// A row to note: columns and values.
pub(crate) type Values = Vec<(String, String)>;

/// `mass='425 gr'` as column and value.
pub(crate) fn values(said: &[String]) -> Result<Values, Slip> {
    let pair = |text: &String| match text.split_once('=') {
        // An arrow is put back in with nothing in "out".
        Some((name, value))
            if value.trim().is_empty() && !name.trim().eq_ignore_ascii_case("out") =>
        {
            Err(Slip::Nothing { name: name.trim().to_owned() })
        }
        Some((name, value)) => Ok((name.trim().to_owned(), value.trim().to_owned())),
        None => Err(Slip::Pair { text: text.clone() }),
    };
    let values: Values = said.iter().map(pair).collect::<Result<_, _>>()?;
    let twice = values.iter().enumerate().find(|(at, (name, _))| {
        values[..*at].iter().any(|(before, _)| before.eq_ignore_ascii_case(name))
    });
    match twice {
        Some((_, (name, _))) => Err(Slip::Twice { name: name.clone() }),
        None => Ok(values),
    }
}

/// Adds rows to a notebook, all or none, or begins it; says whether there was one, and what
/// each row changed.
pub(crate) fn add(
    kind: Kind,
    file: &Path,
    rows: &[Values],
    style: Style,
) -> Result<(bool, Vec<Noted>), Failure> {
    let mut all: Vec<Noted> = Vec::new();
    let there = shelf::add_to_book(file, |old| {
        all.clear();
        for row in rows {
            let before = all.last().map(|noted| noted.text.as_slice()).or(old);
            let more = measured::with_row(kind, file, before, row, style);
            all.push(more.map_err(Failure::Mistakes)?);
        }
        Ok(all.last().map(|noted| noted.text.clone()).unwrap_or_default())
    })?;
    Ok((there, all))
}

/// What rows changed, as it was understood: one line for all that changed alike. Then what
/// is odd of rows noted earlier.
pub(crate) fn told(noted: &[Noted], again: &str) -> String {
    let mut lines: Vec<(String, Vec<&str>, String)> = Vec::new();
    for one in noted {
        let (said, rest) = (changes(one, again), rest_of(&one.of));
        let name = one.of.first().map_or("", |(_, name)| name.as_str());
        let alike = lines
            .iter_mut()
            .find(|line| line.2 == said && line.0 == rest && said.lines().count() == 1);
        match alike {
            Some(line) => line.1.push(name),
            None => lines.push((rest, vec![name], said)),
        }
    }
    let column = noted.first().and_then(|one| one.of.first()).map_or("", |(column, _)| column);
    let word = if column == "part" { "" } else { column };
    let line = |(rest, names, said): &(String, Vec<&str>, String)| {
        let several = if names.len() > 1 { "s" } else { "" };
        let word = if word.is_empty() { String::new() } else { format!("{word}{several} ") };
        let who = format!("{word}{}{rest}", span(names));
        if who.is_empty() { format!("  {said}\n") } else { format!("  {who}: {said}\n") }
    };
    let doubts = noted.last().map_or(&[][..], |last| &last.doubts);
    let doubt = |odd: &measured::Doubt| {
        let key: Vec<String> = odd.of.iter().map(|(name, value)| pair(name, value)).collect();
        format!(
            "! {}{} says {} {}, noted earlier: {}. Put it right with {} {}=... correction=yes; if it \
             is so, say it again with correction=sure.\n",
            odd.of.first().map_or(String::new(), |(name, value)| format!("{name} {value}")),
            rest_of(&odd.of),
            odd.column,
            odd.said,
            odd.why,
            key.join(" "),
            odd.column,
        )
    };
    lines.iter().map(line).chain(doubts.iter().map(doubt)).collect()
}

/// Numbers that follow each other as a span: 1 to 12.
fn span(names: &[&str]) -> String {
    let numbers: Option<Vec<u32>> = names.iter().map(|name| name.parse().ok()).collect();
    match numbers.as_deref() {
        Some(all @ [first, .., last]) if all.windows(2).all(|two| two[1] == two[0] + 1) => {
            format!("{first} to {last}")
        }
        _ => names.join(", "),
    }
}

fn rest_of(of: &[(&'static str, String)]) -> String {
    of.iter().skip(1).flat_map(|(_, value)| [", ", value.as_str()]).collect()
}

fn changes(noted: &Noted, again: &str) -> String {
    let one = |said: &Said| match (&said.was, &said.now) {
        (Some((was, _)), Some(now)) if said.column == "out" && now.eq_ignore_ascii_case("no") => {
            format!("back in (it was out: {was})")
        }
        (Some((was, _)), Some(now)) => format!("{} {now} in place of {was}", said.column),
        (Some((was, _)), None) => format!("{} {was}", said.column),
        (None, now) => format!("{} {}", said.column, now.as_deref().unwrap_or_default()),
    };
    let said: Vec<String> = noted.said.iter().map(one).collect();
    if said.is_empty() {
        let nothing = if noted.new { "noted" } else { "nothing new, that stands already" };
        return if noted.void { "taken back" } else { nothing }.to_owned();
    }
    let text = said.join(", ");
    if noted.void {
        let key = noted.of.iter().map(|(name, value)| pair(name, value));
        let gone = noted
            .said
            .iter()
            .filter_map(|said| said.was.as_ref().map(|(_, written)| pair(said.column, written)));
        let words: Vec<String> = key.chain(gone).collect();
        return format!("taken back: {text}\n  bring it back with: {again} {}", words.join(" "));
    }
    text
}

/// A column and its value as a shell takes them.
fn pair(name: &str, value: &str) -> String {
    let plain = |text: &str| text.chars().all(|c| c.is_ascii_alphanumeric() || "._-".contains(c));
    let quoted = |text: &str| {
        if plain(text) { text.to_owned() } else { format!("'{}'", text.replace('\'', "'\\''")) }
    };
    format!("{}={}", quoted(name), quoted(value))
}
