//! The commands of this program, for the live page: what each takes, from the command
//! line's own description, and one run of it in a folder of its own.

mod folder;
mod workplace;

use std::collections::BTreeMap;
use std::ffi::OsString;
use std::io;
use std::path::PathBuf;

use clap::{Arg, ArgAction, Command, CommandFactory};
use page::{FieldKind, KEPT, Tool, ToolAnswer, ToolField, ToolOrder, Tools};

use crate::Stream;
use crate::cli::Cli;
use folder::{plain, tables};
use workplace::Workplace;

/// Commands without a page of their own, and why.
pub(crate) const APART: [(&str, &str); 7] = [
    ("page", "it is the page"),
    ("run", "the page answers it: every question, with its report to take along"),
    ("check", "the page says each mistake beside its field"),
    ("keys", "the page has a control for each"),
    ("schema", "for editors of files"),
    ("completions", "for a shell"),
    ("man", "for a shell"),
];

/// Options that the page decides itself.
const OURS: [&str; 6] = ["out", "replace", "json", "csv", "help", "as"];
/// Arguments that are scenarios; other files are tables.
const SCENARIOS: [&str; 3] = ["file", "of", "scenario"];
/// The command whose answer is kept, and where unless said.
const SHEET: &str = "trial sheet";
const TRIAL: &str = "trial";
/// A file that is written where it is asked for.
const EVIDENCE: &str = "evidence";

/// The commands, with the folder in which jobs and trials are kept.
pub(crate) struct Commands {
    root: PathBuf,
    run: RunCommand,
}

/// Runs a command line, as the program does.
pub(crate) type RunCommand = fn(Vec<OsString>, &mut Stream, &mut Stream) -> u8;

impl Tools for Commands {
    fn list(&self) -> Vec<Tool> {
        let mut all = Vec::new();
        leaves(&Cli::command(), "", &mut all);
        all.into_iter().map(|(name, command)| tool(name, &command)).collect()
    }

    fn tables(&self) -> Vec<String> {
        tables(&self.root)
    }

    fn run(
        &self,
        order: &ToolOrder,
        stopped: &(dyn Fn() -> bool + Sync),
    ) -> io::Result<ToolAnswer> {
        let mut all = Vec::new();
        leaves(&Cli::command(), "", &mut all);
        let found = all.into_iter().find(|(name, _)| *name == order.tool);
        let Some((name, command)) = found else { return Err(io::ErrorKind::NotFound.into()) };
        let own = Workplace::make()?;
        let wrong = |said: String| Ok(ToolAnswer { code: 2, err: said, ..ToolAnswer::default() });
        let words = match self.words(&name, &command, order, &own)? {
            Ok(words) => words,
            Err(said) => return wrong(said),
        };
        let (code, out, err) = study::apart(|| {
            let (mut out, mut err) = (Vec::new(), Vec::new());
            let mut said = Stream { stopped, ..Stream::plain(&mut out) };
            let mut erred = Stream { stopped, ..Stream::plain(&mut err) };
            let code = (self.run)(words, &mut said, &mut erred);
            (code, out, err)
        });
        let text = |bytes: Vec<u8>| own.without(&String::from_utf8_lossy(&bytes), &self.root);
        // A sheet lies beside the scenarios, and is printed from the page.
        let sheet = order.given.iter().find(|(id, _)| id == "out").map(|(_, name)| name.as_str());
        let sheet = (name == SHEET && code == 0).then(|| self.root.join(sheet.unwrap_or(TRIAL)));
        Ok(ToolAnswer { code, out: text(out), err: text(err), files: own.files(sheet)? })
    }
}

/// Names of the commands that the live page has a form for: all but those for a shell, an
/// editor, and what the page itself is.
pub fn on_the_page() -> Vec<String> {
    let mut all = Vec::new();
    leaves(&Cli::command(), "", &mut all);
    all.into_iter().map(|(name, _)| name).collect()
}

/// Every command that has no others below it, with its words.
fn leaves(command: &Command, before: &str, all: &mut Vec<(String, Command)>) {
    for below in command.get_subcommands().filter(|below| below.get_name() != "help") {
        let name = format!("{before}{}", below.get_name());
        if APART.iter().any(|(apart, _)| *apart == name) {
            continue;
        }
        if below.has_subcommands() {
            leaves(below, &format!("{name} "), all);
        } else {
            all.push((name, below.clone()));
        }
    }
}

fn tool(name: String, command: &Command) -> Tool {
    let said = |text: Option<&clap::builder::StyledStr>| text.map(ToString::to_string);
    let fields = arguments(command).map(|argument| field(&name, argument)).collect();
    Tool {
        about: said(command.get_about()).unwrap_or_default(),
        more: said(command.get_after_long_help()).unwrap_or_default(),
        fields,
        name,
    }
}

fn arguments(command: &Command) -> impl Iterator<Item = &Arg> {
    // The folder that a trial or a job is kept in is the visitor's to name.
    let kept = |argument: &Arg| argument.get_id() == "out" && command.get_name() == "sheet";
    command.get_arguments().filter(move |argument| {
        kept(argument) || !OURS.iter().any(|ours| argument.get_id() == ours)
    })
}

fn field(tool: &str, argument: &Arg) -> ToolField {
    let id = argument.get_id().to_string();
    let form = argument.get_value_names().and_then(|names| names.first());
    let form = form.map_or_else(|| id.to_uppercase(), ToString::to_string);
    let usual: Vec<String> =
        argument.get_default_values().iter().map(|value| value.display().to_string()).collect();
    let help = argument.get_help().map(ToString::to_string).unwrap_or_default();
    // What counts otherwise stands in brackets at the end of some help.
    let (help, otherwise) = help
        .split_once(" [default: ")
        .map_or((help.as_str(), None), |both| (both.0, Some(both.1.trim_end_matches(']'))));
    ToolField {
        kind: kind(tool, argument, &id),
        needed: argument.is_required_set(),
        many: matches!(argument.get_action(), ArgAction::Append)
            || argument.get_num_args().is_some_and(|count| count.max_values() > 1),
        usual: otherwise.map_or_else(|| usual.join(", "), str::to_owned),
        help: help.to_owned(),
        form,
        id,
    }
}

fn kind(tool: &str, argument: &Arg, id: &str) -> FieldKind {
    let of_paths = argument.get_value_parser().type_id() == std::any::TypeId::of::<PathBuf>();
    // Where it is written to is for the page to say.
    if matches!(argument.get_action(), ArgAction::SetTrue) || id == EVIDENCE {
        return FieldKind::Flag;
    }
    if of_paths {
        return match id {
            "folder" | "out" => FieldKind::Folder,
            "file" if tool == "bench note" => FieldKind::Table,
            _ if SCENARIOS.contains(&id) => FieldKind::Scenario,
            _ => FieldKind::Table,
        };
    }
    let all = argument.get_possible_values();
    if all.is_empty() {
        return FieldKind::Text;
    }
    let meaning = |word: &clap::builder::PossibleValue| {
        word.get_help().map(ToString::to_string).unwrap_or_default()
    };
    FieldKind::Choice(all.iter().map(|word| (word.get_name().to_owned(), meaning(word))).collect())
}

impl Commands {
    /// Those of a page that is started in a folder.
    pub(crate) fn new(root: PathBuf, run: RunCommand) -> Self {
        Workplace::sweep();
        Self { root, run }
    }

    /// The words of a command line; in words what is wrong with what was given.
    fn words(
        &self,
        name: &str,
        command: &Command,
        order: &ToolOrder,
        own: &Workplace,
    ) -> io::Result<Result<Vec<OsString>, String>> {
        let mut words: Vec<OsString> =
            std::iter::once("clothyard").chain(name.split(' ')).map(Into::into).collect();
        let mut places: BTreeMap<usize, Vec<OsString>> = BTreeMap::new();
        let positional: Vec<&Arg> = command.get_positionals().collect();
        for (at, (id, value)) in order.given.iter().enumerate() {
            let (id, kept) = match id.split_once('.') {
                Some((id, KEPT)) => (id, true),
                _ => (id.as_str(), false),
            };
            let Some(argument) = arguments(command).find(|of| of.get_id() == id) else {
                continue;
            };
            let value: OsString = match kind(name, argument, id) {
                FieldKind::Table if kept && tables(&self.root).contains(value) => {
                    self.root.join(value).into()
                }
                FieldKind::Table => own.write(&format!("{id}-{at}.csv"), value)?.into(),
                FieldKind::Scenario => own.write("scenario.toml", value)?.into(),
                FieldKind::Folder => match plain(&self.root, value) {
                    Ok(path) => path.into(),
                    Err(said) => return Ok(Err(said)),
                },
                _ => value.into(),
            };
            match argument.get_long() {
                Some(long) if id == EVIDENCE => {
                    let mut word = OsString::from(format!("--{long}="));
                    word.push(own.at("evidence.toml"));
                    words.push(word);
                }
                Some(long) if matches!(argument.get_action(), ArgAction::SetTrue) => {
                    words.push(format!("--{long}").into());
                }
                Some(long) => {
                    let mut word = OsString::from(format!("--{long}="));
                    word.push(value);
                    words.push(word);
                }
                None => {
                    let place = positional.iter().position(|of| of.get_id() == argument.get_id());
                    places.entry(place.unwrap_or_default()).or_default().push(value);
                }
            }
        }
        // A notebook that is begun has a file of its own, too.
        let begun = positional.iter().position(|of| {
            kind(name, of, of.get_id().as_str()) == FieldKind::Table && of.is_required_set()
        });
        if let Some(place) = begun {
            places.entry(place).or_insert_with(|| vec![own.at("notebook.csv").into()]);
        }
        let writes = |id: &str| command.get_arguments().any(|of| of.get_id() == id);
        let given = |id: &str| order.given.iter().any(|(of, _)| of == id);
        if writes("out") && !given("out") && name != "fly" {
            let mut word = OsString::from("--out=");
            word.push(match name {
                SHEET => self.root.join(TRIAL),
                "pin" => own.at("restraints.toml"),
                _ => own.at("out"),
            });
            words.push(word);
        }
        words.push("--".into());
        words.extend(places.into_values().flatten());
        Ok(Ok(words))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn law_every_command_has_a_form_or_a_reason() {
        let mut names = Vec::new();
        every(&Cli::command(), "", &mut names);
        let there = on_the_page();
        for name in &names {
            let apart = APART.iter().any(|(of, _)| of == name);
            assert!(apart != there.contains(name), "{name}");
        }
        // And the list of those apart names nothing that is gone.
        for (name, why) in APART {
            assert!(names.iter().any(|of| of == name) && !why.is_empty(), "{name}");
        }
    }

    /// Whoever leaves a form or stops it ends its work, and nothing is written.
    #[test]
    fn law_a_command_ends_when_it_is_stopped() {
        let commands = Commands::new(std::env::temp_dir(), crate::command);
        let shipped = |name: &str| {
            let all = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../scenarios");
            let read = crate::ask::scenario(&all.join(name));
            read.map_or_else(|_| panic!("{name} is no scenario"), |read| read.resolved())
        };
        let (scenario, builds) = (&*shipped("square-ends.toml"), &*shipped("three-builds.toml"));
        let faces = include_str!("../../../../scenarios/bench/faces.csv");
        let profile = include_str!("../../../../scenarios/bench/profile.csv");
        let dozen = include_str!("../../../../scenarios/bench/dozen.csv");
        let shafts = include_str!("../../../../scenarios/bench/shafts.csv");
        let parts = include_str!("../../../../scenarios/bench/parts.csv");
        let bare = format!(
            "{scenario}\n[measured]\nbare = true\nleft = \"2.5 in\"\nup = \"0.3 in\"\n\
             distance = \"20 yd\"\n"
        );
        let orders: [(&str, &[(&str, &str)]); 7] = [
            ("bench square", &[("file", scenario), ("readings", faces)]),
            (
                "bench cut",
                &[("file", scenario), ("readings", profile), ("supports", "2 in, 30 in")],
            ),
            ("bench sort", &[("file", scenario), ("batch", dozen), ("sets", "hunt=6")]),
            ("bench index", &[("file", scenario), ("batch", dozen)]),
            ("bench build", &[("file", scenario), ("shafts", shafts), ("parts", parts)]),
            ("pin", &[("file", &bare)]),
            (
                "trial sheet",
                &[
                    ("of", builds),
                    ("builds", "light, field point"),
                    ("builds", "heavy, fixed blades"),
                    ("distance", "30 yd"),
                    ("out", "stopped-trial"),
                ],
            ),
        ];
        for (tool, given) in orders {
            let own = |(name, value): &(&str, &str)| ((*name).to_owned(), (*value).to_owned());
            let order = ToolOrder { tool: tool.to_owned(), given: given.iter().map(own).collect() };
            let answer = commands.run(&order, &|| true).expect("a folder");
            let told = (answer.code, answer.out.as_str(), answer.files.len());
            assert_eq!(told, (1, "", 0), "{tool}: {}", answer.err);
            assert!(answer.err.contains("cancelled"), "{tool}: {}", answer.err);
        }
    }

    fn every(command: &Command, before: &str, names: &mut Vec<String>) {
        for below in command.get_subcommands().filter(|below| below.get_name() != "help") {
            let name = format!("{before}{}", below.get_name());
            if below.has_subcommands() {
                every(below, &format!("{name} "), names);
            } else {
                names.push(name);
            }
        }
    }
}
