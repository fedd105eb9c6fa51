//! What a command says, in the words of the page: fields by their labels, other commands by
//! their questions, and nothing that only a shell takes.

use super::tool::ToolField;
use super::words::WORDS;

/// What a line of an answer begins with that is to be minded.
pub(super) const WARNED: &str = "! ";

/// What is said otherwise on a page, and how. A hint is replaced as a whole.
const PHRASES: [(&str, &str); 22] = [
    ("write marks like --marks '20 yd, 30 yd'", "write them like 20 yd, 30 yd"),
    ("add, say, --supports '2 in, 30 in'", "write it there, such as 2 in, 30 in"),
    ("write it like --spread '5 arrows 6 in'", "write it like 5 arrows 6 in"),
    ("--end '6 in, 4 1/2 in'", "6 in, 4 1/2 in"),
    ("write it like mass='425 gr'", "one a line, such as mass=425 gr"),
    (
        "write arrow=7, arrow=1-12 or arrow=1,3,5",
        "a line such as arrow=7, arrow=1-12 or arrow=1,3,5",
    ),
    ("name another place with --out, or allow it with --replace", "give the folder another name"),
    ("name another place with --out, or move it elsewhere", "give the folder another name"),
    ("name another place with --out", "give the folder another name"),
    (
        "each group is a file, or one --n with one --mean-radius, or one --n with one --spread",
        "give the shots of both groups, or for each how many arrows and how wide",
    ),
    (
        "name them, as in clothyard trial sheet old new --distance '30 yd' --times 1.3",
        "name both, one a line",
    ),
    ("name two of them before --of", "name two of them, one a line"),
    (
        "--times 1.3, how many times as wide one groups; or --apart '2 in' --spread '5 arrows 6 in'; \
         or --of a scenario with both builds",
        "fill in how many times as wide one groups, such as 1.3; or how far apart the centres are, \
         with a group you shoot; or take a scenario with both builds",
    ),
    (
        "say it in [archer], such as groups = \"5 arrows at 40 yd span 6 in\"",
        "say it on the scenario's own page, under Archer: your own groups, such as 5 arrows at 40 yd \
         span 6 in",
    ),
    (
        "call the columns as `clothyard bench columns batch` does, each with its unit, such as \
         mass [gr]",
        "say of each pasted column which it is, or head it with its unit, such as mass [gr]",
    ),
    (
        "put it right with `clothyard job note FOLDER --into job correction=yes` and what is to be \
         changed",
        "put it right with the form \u{201c}Note what was done to an arrow of a job\u{201d}: into the \
         file job, a line correction=yes and a line for each thing to change",
    ),
    (
        "to correct a row, add a new one with \"yes\" in a column \"correction\"",
        "to correct it, open the job's sheet of readings and write over the reading there",
    ),
    (
        "take it back with a row of its stage and correction=void",
        "take it back below the job's sheet of readings",
    ),
    (
        "this scenario has no [measured] table",
        "nothing is said of what you did to the arrow and what you saw",
    ),
    (
        "say there what was changed and how far the impact moved",
        "fill in what you measured, at the top of the form",
    ),
    ("this scenario has no [marks] table", "this scenario asks for no sight marks"),
    (
        "write [marks]; it may be empty, every key in it has a default",
        "say on its own page, under Sight, which marks the sight is to be set at",
    ),
];

/// A text of a command, as the page says it; `fields` are those of its form.
pub(super) fn on_page(text: &str, fields: &[ToolField]) -> String {
    let text = without_usage(text);
    let mut text = PHRASES.iter().fold(text, |text, (said, here)| text.replace(said, here));
    let mut fields: Vec<&ToolField> = fields.iter().collect();
    fields.sort_by_key(|field| std::cmp::Reverse(field.id.len()));
    for field in fields {
        let name = field.help.split([':', ';', ',']).next().unwrap_or_default();
        let label = format!("\u{201c}{name}\u{201d}");
        let option = format!("--{}", field.id.replace('_', "-"));
        // As a parser of command lines names what it takes.
        let form = &field.form;
        for said in [format!("{option} <{form}>"), format!("<{form}>"), option] {
            text = text.replace(&said, &label);
        }
    }
    plain(&commands(&text))
}

/// Without lines that tell how to call a program.
fn without_usage(text: &str) -> String {
    let shell = ["Usage: ", "For more information, try ", "  tip: "];
    let lines = text.lines().filter(|line| !shell.iter().any(|of| line.starts_with(of)));
    let mut out = lines.collect::<Vec<_>>().join("\n");
    while out.ends_with('\n') {
        out.pop();
    }
    out
}

/// Commands in backticks, or bare, called by the question of their form.
fn commands(text: &str) -> String {
    let mut text = text.to_owned();
    for words in &WORDS {
        let (name, form) = (words.name, format!("the form \u{201c}{}\u{201d}", words.question));
        let said = format!("`clothyard {name}");
        while let Some(at) = text.find(&said) {
            let end = text[at + 1..].find('`').map_or(text.len(), |end| at + end + 2);
            text.replace_range(at..end, &form);
        }
        text = text.replace(&format!("clothyard {name}"), &form);
    }
    text.replace("`clothyard run`", "the page").replace("`clothyard check`", "the page")
}

/// What is left of options, without their dashes.
fn plain(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(at) = rest.find("--") {
        let (before, after) = rest.split_at(at);
        let word: &str = &after[2..];
        let long = word.find(|c: char| !(c.is_ascii_alphanumeric() || c == '-'));
        let (word, left) = word.split_at(long.unwrap_or(word.len()));
        out.push_str(before);
        if word.is_empty() || before.ends_with('-') || word.starts_with('-') {
            out.push_str("--");
            out.push_str(word);
        } else {
            out.push('\u{201c}');
            out.push_str(&word.replace('-', " "));
            out.push('\u{201d}');
        }
        rest = left;
    }
    out.push_str(rest);
    out
}

#[cfg(test)]
mod tests {
    use super::super::tool::FieldKind;
    use super::*;

    fn field(id: &str, help: &str, form: &str) -> ToolField {
        ToolField {
            id: id.to_owned(),
            help: help.to_owned(),
            form: form.to_owned(),
            kind: FieldKind::Text,
            needed: false,
            many: false,
            usual: String::new(),
        }
    }

    #[test]
    fn exact_options_and_commands_are_called_as_on_the_page() {
        let fields = [field("most_rear", "The most off the nock end; none", "LENGTH")];
        let said = "error: --most-rear \"x\": no\n  hint: add --long, or use `clothyard fly`\n\
                    Usage: clothyard bench cut <LENGTH>\n";
        assert_eq!(
            on_page(said, &fields),
            "error: \u{201c}The most off the nock end\u{201d} \"x\": no\n  hint: add \u{201c}long\u{201d}, \
             or use the form \u{201c}Where is one arrow at each distance?\u{201d}"
        );
        // A rule of a drawn mistake is none.
        assert_eq!(
            on_page(" --> the new row:1:15\n  | ---- here", &[]),
            " --> the new row:1:15\n  | ---- here"
        );
    }
}
