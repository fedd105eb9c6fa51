use std::fmt::Write as _;

use crate::schema::{
    EVIDENCE_KEYS, EVIDENCE_KINDS, EVIDENCE_TEXTS, EvidenceKey, Fallback, Id, KEYS, Key, Kind,
    STEP_COST, STEP_NAME, STEP_TIME, StepKey, TABLES, Usual, last,
};
use crate::text::{declared, ranges};

/// The reference of every key, as Markdown.
pub fn key_reference() -> String {
    let mut out = String::from(
        "# Scenario keys\n\nWritten by the program from its own table; a test keeps it current. \
         How to write a scenario is told in [scenario.md](scenario.md).\n\n\
         Ranges are shown in one unit; every unit of the kind may be written.\n",
    );
    section(&mut out, "Top level", "", "");
    for table in TABLES {
        let note = match (table.optional, table.in_build) {
            (true, _) => " Only there when written; `\"none\"` takes it away.",
            (false, true) => "",
            (false, false) => " Not in a build.",
        };
        let heading = format!("[{}]", table.path);
        section(&mut out, &heading, table.path, &format!("{}{note}\n\n", table.doc));
    }
    out.push_str(
        "\n## [[build]]\n\nA build holds a `name` and any of the tables above that are not marked \
         \"not in a build\", such as `[build.arrow.point]`; what it says goes over what stands \
         above it.\n",
    );
    let _ = write!(
        out,
        "\n## [[step]]\n\nA bench step of a worth question, done to a dozen arrows. It holds a \
         `{STEP_NAME}`, what a build may hold, such as `[step.faults.point_end]`, and:\n\n\
         | key | holds | default | meaning |\n|---|---|---|---|\n"
    );
    for StepKey { column, usual, source, doc } in [&STEP_TIME, &STEP_COST] {
        let (name, dimension) = (column.name, column.dimension);
        let (low, high) = (column.low, column.high);
        let _ = writeln!(
            out,
            "| `{name}` | fixed {dimension}, {low} to {high} | {usual}; {source} | {doc} |"
        );
    }
    evidence(&mut out);
    out
}

/// What `[[evidence]]` holds.
fn evidence(out: &mut String) {
    let kinds: Vec<String> =
        EVIDENCE_KINDS.iter().map(|(kind, doc)| format!("- `\"{kind}\"`: {doc}")).collect();
    let _ = write!(
        out,
        "\n## [[evidence]]\n\nSomething that was measured; every answer uses it. In place of the \
         list, `evidence = \"my-evidence.toml\"` names a file that holds it. Kinds:\n\n{}\n\nWhat \
         the arrow or the bow had otherwise when it was measured stands in it as in a build, such as \
         `[evidence.faults.nock_end]`. Beside that it holds:\n\n\
         | key | holds | with kinds | meaning |\n|---|---|---|---|\n",
        kinds.join("\n")
    );
    for (name, doc) in EVIDENCE_TEXTS {
        let _ = writeln!(out, "| `{name}` | text or quantity | | {doc} |");
    }
    for EvidenceKey { column, needs, may, doc, .. } in EVIDENCE_KEYS {
        let known: Vec<&str> = needs.iter().chain(*may).copied().collect();
        let (name, dimension) = (column.name, column.dimension);
        let (low, high) = (column.low, column.high);
        let kinds = known.join(", ");
        let _ =
            writeln!(out, "| `{name}` | fixed {dimension}, {low} to {high} | {kinds} | {doc} |");
    }
}

fn section(out: &mut String, heading: &str, table: &str, doc: &str) {
    let keys: Vec<&Key> = KEYS.iter().filter(|key| key.id.table() == table).collect();
    let _ = write!(out, "\n## {heading}\n\n{doc}");
    if keys.is_empty() {
        return;
    }
    out.push_str("| key | holds | default | meaning |\n|---|---|---|---|\n");
    for key in keys {
        let name = last(key.path);
        let _ = writeln!(out, "| `{name}` | {} | {} | {} |", holds(key), default(key), key.doc);
    }
}

fn holds(key: &Key) -> String {
    match &key.kind {
        Kind::Number(number) if number.whole => {
            format!("whole number, {} to {}", number.low, number.high)
        }
        Kind::Number(number) if number.turn => "clock position, or `\"any\"`".to_owned(),
        Kind::Number(number) => {
            format!("{}, {}", number.dimension, declared(key.id))
        }
        Kind::Quantity { dimension, .. } => {
            format!("fixed {dimension}, {}", declared(key.id))
        }
        Kind::Lengths { .. } => {
            format!("list of lengths, {}", declared(key.id))
        }
        Kind::Choice(words) => format!("`\"{}\"`", words.join("\"`, `\"")),
        Kind::Whole { low, high } => format!("whole number, {low} to {high}"),
        Kind::Flag => "`true` or `false`".to_owned(),
        Kind::Text => "text".to_owned(),
        Kind::SweepKey => "a dotted key".to_owned(),
        Kind::SweepValue => "a value of the swept key".to_owned(),
        Kind::SweepValues => "values of the swept key".to_owned(),
        Kind::SweepKeys => "a list of dotted keys".to_owned(),
        Kind::Texts => "a text, or a list of texts".to_owned(),
        Kind::Rows(rows) => {
            let [a, b] = &rows.columns;
            let (least, most) = (rows.least, rows.most);
            format!("list of {least} to {most} `{{ {}, {} }}`, {}", a.name, b.name, ranges(rows))
        }
    }
}

/// The default and its source.
pub(crate) fn default(key: &Key) -> String {
    let text = |usual: &Usual| match usual.doubt {
        Some((low, high)) => format!("{} (in doubt: {low} to {high})", usual.text),
        None => usual.text.to_owned(),
    };
    match &key.fallback {
        Fallback::Required => "required".to_owned(),
        Fallback::Absent => "none".to_owned(),
        Fallback::Is { usual, source } => format!("{}; {source}", text(usual)),
        Fallback::By { choice, cases, source } | Fallback::Handed { choice, cases, source } => {
            let cases: Vec<String> = cases
                .iter()
                .map(|(word, usual)| match *word {
                    "" => format!("otherwise {}", text(usual)),
                    word => format!("{word} {}", text(usual)),
                })
                .collect();
            let handed = match &key.fallback {
                Fallback::Handed { .. } => ", the other sign with the arrow right of the riser",
                _ => "",
            };
            format!("by {}: {}{handed}; {source}", choice.path(), cases.join(", "))
        }
        Fallback::Times { base, factor, source } => {
            let times = if same(*factor) { String::new() } else { format!("{factor} x ") };
            format!("{times}{}; {source}", Id::path(*base))
        }
    }
}

fn same(factor: f64) -> bool {
    (factor - 1.0).abs() < f64::EPSILON
}
