//! Questions with a ready, invented example each, which a visitor turns into their own.

use std::io;
use std::path::Path;

use scenario::Scenario;

use crate::PageError;
use crate::reading::read;

/// A question and the scenario that asks it.
pub(crate) struct Example {
    /// Its name in a link.
    pub(crate) name: &'static str,
    /// As a visitor would ask.
    pub(crate) question: &'static str,
    /// What one gets.
    pub(crate) gives: &'static str,
    text: &'static str,
}

macro_rules! shipped {
    ($file:literal) => {
        include_str!(concat!("../../../scenarios/", $file, ".toml"))
    };
}

/// All of them, in the order in which they are offered.
pub(crate) const EXAMPLES: [Example; 10] = [
    Example {
        name: "squaring",
        question: "Is squaring my shaft ends worth it?",
        gives: "A sawn dozen beside a squared one: what changes on the target, and who would see it.",
        text: shipped!("square-ends"),
    },
    Example {
        name: "builds",
        question: "Which of these builds should I shoot?",
        gives: "Three hunting arrows on one target: group, drop, drift, energy, and the price of each.",
        text: shipped!("three-builds"),
    },
    Example {
        name: "front",
        question: "Does a heavier front help?",
        gives: "Point mass and FOC from light to heavy, and where more stops paying.",
        text: shipped!("foc-sweep"),
    },
    Example {
        name: "matters",
        question: "What matters most in my arrows?",
        gives: "Every fault of an economy dozen and your own form on one scale.",
        text: shipped!("economy-dozen"),
    },
    Example {
        name: "evening",
        question: "What is an evening at the bench worth?",
        gives: "Each step with its minutes and what it gains, the best first.",
        text: shipped!("bench-evening"),
    },
    Example {
        name: "tuned",
        question: "Are my arrow and bow tuned to each other?",
        gives: "Stiff or weak, what a tear or a bare shaft would show, and what can be undone first.",
        text: shipped!("tune-hunter"),
    },
    Example {
        name: "broadheads",
        question: "Will my broadheads fly like my field points?",
        gives: "Fixed blades with sawn and with squared ends, in still air and in wind.",
        text: shipped!("broadhead-ends"),
    },
    Example {
        name: "marks",
        question: "Where do my sight marks go?",
        gives: "Drop, marks, a tape and cards to print at true scale.",
        text: shipped!("sight-marks"),
    },
    Example {
        name: "score",
        question: "What would other arrows score?",
        gives: "A round at 70 m with two sets of arrows, and the score of each.",
        text: shipped!("target-70"),
    },
    Example {
        name: "fingers",
        question: "I shoot fingers: does spine show?",
        gives: "A recurve off the fingers with a side point, from stiff to weak.",
        text: shipped!("finger-recurve"),
    },
];

/// Parts that the examples share.
const PARTS: [(&str, &str); 6] = [
    ("parts/archer-on-a-rest.toml", shipped!("parts/archer-on-a-rest")),
    ("parts/archer-steady.toml", shipped!("parts/archer-steady")),
    ("parts/bow-60.toml", shipped!("parts/bow-60")),
    ("parts/faults-economy.toml", shipped!("parts/faults-economy")),
    ("parts/shaft-340.toml", shipped!("parts/shaft-340")),
    ("parts/vanes-helical.toml", shipped!("parts/vanes-helical")),
];

/// The example of a name in a link; none for any other name.
pub(crate) fn example(name: &str) -> Option<&'static Example> {
    EXAMPLES.iter().find(|example| example.name == name)
}

impl Example {
    /// What it is, as its file says.
    pub(crate) fn title(&self) -> &'static str {
        let title = self.text.lines().find_map(|line| line.strip_prefix("title = \""));
        title.map_or(self.question, |title| title.trim_end_matches('"'))
    }

    /// Reads it, with the parts it names.
    pub(crate) fn scenario(&self) -> Result<Scenario, PageError> {
        let name = format!("{}.toml", self.name);
        read(Path::new(&name), &|path| {
            if path == Path::new(&name) {
                return Ok(self.text.to_owned());
            }
            let part = PARTS.iter().find(|(part, _)| Path::new(part) == path);
            part.map(|(_, text)| (*text).to_owned()).ok_or(io::ErrorKind::NotFound.into())
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn law_every_example_reads_asks_and_has_a_name_of_its_own() {
        for (at, example) in EXAMPLES.iter().enumerate() {
            let read = example.scenario();
            assert!(read.is_ok_and(|read| read.plan().is_some()), "{}", example.name);
            assert!(EXAMPLES[..at].iter().all(|other| other.name != example.name));
            assert!(example.title().ends_with("(invented)"), "{}", example.name);
        }
    }
}
