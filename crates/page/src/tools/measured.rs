//! What was measured on the bow, where a command asks for it: a part of the scenario that
//! belongs to no arrow and has no control.

use std::fmt::Write as _;

use maud::{Markup, html};

use super::tool::{PREFIX, Tool};

/// The name of its part of a scenario, which its fields have in front.
pub(super) const FIELD: &str = "measured";
/// The one that is a yes or nothing.
const BARE: &str = "bare";

/// Keys of that part, what they are called on the page, and how a value looks.
const KEYS: [(&str, &str, &str); 7] = [
    ("push", "Nock pushed at brace, without an arrow: the force", "10 N"),
    (BARE, "Or a bare shaft, held against the fletched arrow", ""),
    ("nock_turn", "Or the same arrow, its nock turned clockwise by", "120 deg"),
    ("left", "How far left it hit, or the nock gave way (right is minus)", "2.5 mm"),
    ("up", "How far up (down is minus)", "0.3 mm"),
    ("distance", "Shot at", "20 yd"),
    ("error", "Standard error of both", "0.5 in"),
];

/// Whether a command asks for it.
pub(super) fn asked(tool: &Tool) -> bool {
    tool.name == "pin"
}

/// Its fields.
pub(super) fn fields(sent: &[(String, String)]) -> Markup {
    let given = |key: &str| {
        let name = format!("{FIELD}.{key}");
        sent.iter().find(|(of, _)| *of == name).map_or("", |(_, value)| value.as_str())
    };
    html! {
        fieldset {
            legend { "What you did, and what you saw" }
            @for (key, label, example) in KEYS {
                @let (id, name) = (format!("f-{FIELD}-{key}"), format!("{PREFIX}{FIELD}.{key}"));
                @if key == BARE {
                    label.check for=(id) {
                        input type="checkbox" id=(id) name=(name) value="true" checked[given(key) == "true"];
                        " " (label)
                    }
                } @else {
                    div.control {
                        label for=(id) { (label) }
                        input.amount type="text" id=(id) name=(name) value=(given(key))
                            placeholder=(example) maxlength="60" spellcheck="false";
                    }
                }
            }
        }
    }
}

/// A scenario with what the form says was measured, in place of what the file says.
pub(super) fn with(scenario: String, own: &[(String, String)]) -> String {
    let mut said = String::new();
    for (key, ..) in KEYS {
        let name = format!("{FIELD}.{key}");
        let value = own.iter().find(|(of, _)| *of == name).map_or("", |(_, value)| value.trim());
        if key == BARE && value == "true" {
            let _ = writeln!(said, "{key} = true");
        } else if key != BARE && !value.is_empty() {
            let _ = writeln!(said, "{key} = {}", quoted(value));
        }
    }
    if said.is_empty() {
        return scenario;
    }
    let mut inside = false;
    let kept = scenario.lines().filter(|line| {
        if line.starts_with('[') {
            inside = line.trim_end() == format!("[{FIELD}]");
        }
        !inside
    });
    let kept: Vec<&str> = kept.collect();
    format!("{}\n\n[{FIELD}]\n{said}", kept.join("\n").trim_end())
}

/// A text as a scenario holds it: one line, nothing in it ends it.
fn quoted(value: &str) -> String {
    let mut text = String::from("\"");
    for letter in value.chars() {
        match letter {
            '"' | '\\' => text.extend(['\\', letter]),
            letter if letter.is_control() => text.push(' '),
            letter => text.push(letter),
        }
    }
    text + "\""
}

#[cfg(test)]
mod tests {
    use super::*;

    fn own(fields: &[(&str, &str)]) -> Vec<(String, String)> {
        fields.iter().map(|(key, value)| (format!("{FIELD}.{key}"), (*value).to_owned())).collect()
    }

    #[test]
    fn law_the_form_asks_for_every_measured_key() {
        let all = scenario::key_reference();
        let rows = all.split("\n## ").find(|part| part.starts_with("[measured]"));
        let names = |rows: &str| -> Vec<String> {
            let rows = rows.lines().filter_map(|line| line.strip_prefix("| `"));
            rows.filter_map(|row| Some(row.split_once('`')?.0.to_owned())).collect()
        };
        let mut wanted = rows.map(names).unwrap_or_default();
        let mut there: Vec<String> = KEYS.iter().map(|(key, ..)| (*key).to_owned()).collect();
        wanted.sort();
        there.sort();
        assert_eq!(there, wanted);
    }

    #[test]
    fn exact_what_is_measured_takes_the_place_of_what_the_file_says() {
        let file = "[arrow]\na = 1\n[measured]\nleft = \"9 in\"\n[bow]\nb = 2\n".to_owned();
        assert_eq!(with(file.clone(), &[]), file);
        let said = with(file, &own(&[("left", "6\" \\ \n[x]"), ("bare", "true"), ("up", " ")]));
        assert_eq!(
            said,
            "[arrow]\na = 1\n[bow]\nb = 2\n\n[measured]\nbare = true\nleft = \"6\\\" \\\\  [x]\"\n"
        );
    }
}
