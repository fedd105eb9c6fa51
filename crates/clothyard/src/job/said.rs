//! What is said of several arrows, as rows.

use workbench::{Job, Stage, Worked};

use crate::bench::slip::Slip;
use crate::notebook::Values;

/// One row for each arrow named; every one belongs to the job, and every reading to a
/// stage.
pub(super) fn rows(job: &Job, entered: &[Worked], values: &Values) -> Result<Vec<Values>, Slip> {
    let says = |name: &str| values.iter().find(|(said, _)| said.eq_ignore_ascii_case(name));
    let (_, arrows) = says("arrow").ok_or(Slip::NoArrowSaid)?;
    let staged = says("stage").is_some();
    let back = back(values);
    if !staged && says("out").is_none() && !back {
        return Err(Slip::NoStage);
    }
    let one = |name: String| {
        if !job.has(&name) {
            return Err(Slip::NotInJob { name, arrows: job.arrows });
        }
        let known = entered.iter().find(|arrow| arrow.name == name);
        let mut row: Values = values.clone();
        for (said, value) in &mut row {
            if said.eq_ignore_ascii_case("arrow") {
                value.clone_from(&name);
            }
        }
        // What is taken out is so where it stands, and put back in where that was noted.
        let out = known.and_then(|arrow| arrow.out_at);
        if back {
            let Some(at) = out else { return Err(Slip::NotOut { name }) };
            row.retain(|(said, _)| {
                !["out", "stage", "correction"].iter().any(|own| said.eq_ignore_ascii_case(own))
            });
            let own = [("stage", word(at)), ("out", "no"), ("correction", "yes")];
            row.extend(own.map(|(said, value)| (said.to_owned(), value.to_owned())));
        } else if !staged {
            let stage = known.and_then(Worked::stage).unwrap_or(Stage::Raw);
            row.push(("stage".to_owned(), word(stage).to_owned()));
        }
        Ok(row)
    };
    numbers(arrows)?.into_iter().map(one).collect()
}

/// Refuses a row of another notebook whose arrow the job does not have.
pub(super) fn known(job: &Job, values: &Values) -> Result<(), Slip> {
    let arrow = |(said, name): &&(String, String)| {
        ["arrow", "shaft"].iter().any(|of| said.eq_ignore_ascii_case(of)) && !job.has(name)
    };
    match values.iter().find(arrow) {
        Some((_, name)) => Err(Slip::NotInJob { name: name.clone(), arrows: job.arrows }),
        None => Ok(()),
    }
}

/// Whether a row says no more than that its arrow is in again: out=no, out with nothing, or
/// a correction=void of no stage.
fn back(values: &Values) -> bool {
    let says = |name: &str| {
        let found = values.iter().find(|(said, _)| said.eq_ignore_ascii_case(name));
        found.map(|(_, value)| value.as_str())
    };
    let more = |(said, _): &(String, String)| {
        !["arrow", "stage", "out", "correction", "note"]
            .iter()
            .any(|own| said.eq_ignore_ascii_case(own))
    };
    let void = says("correction").is_some_and(|how| how.eq_ignore_ascii_case("void"));
    let in_again = match says("out") {
        Some(why) => {
            why.is_empty() || why.eq_ignore_ascii_case("no") || void && says("stage").is_none()
        }
        None => void && says("stage").is_none(),
    };
    in_again && !values.iter().any(more)
}

/// A warning for each arrow that was out already, unless the row takes that up.
pub(super) fn of_out(entered: &[Worked], rows: &[Values]) -> String {
    let says = |row: &Values, names: &[&str]| {
        let found = row.iter().find(|(said, _)| names.iter().any(|n| said.eq_ignore_ascii_case(n)));
        found.map(|(_, value)| value.clone())
    };
    let one = |row: &Values| {
        let name = says(row, &["arrow", "shaft"])?;
        let known = entered.iter().find(|arrow| arrow.name == name)?;
        let why = known.out.as_ref().filter(|_| says(row, &["out", "correction"]).is_none())?;
        Some(format!(
            "! Arrow {name} is out: {why}. It stays out, and on no card and in no set. Was that \
             entry wrong, put it back in with arrow={name} out=no.\n"
        ))
    };
    rows.iter().filter_map(one).collect()
}

/// `1-3,7` as 1, 2, 3 and 7; anything else as it is.
fn numbers(said: &str) -> Result<Vec<String>, Slip> {
    let mut all = Vec::new();
    for part in said.split(',').map(str::trim) {
        let ends = part.split_once('-');
        let ends = ends.and_then(|(from, to)| {
            Some((from.trim().parse::<u32>().ok()?, to.trim().parse::<u32>().ok()?))
        });
        match ends {
            // Backwards it would name no arrow, and nothing be noted of what was said.
            Some((high, low)) if high > low => {
                return Err(Slip::Backwards { said: part.to_owned(), low, high });
            }
            Some((low, high)) if high - low < scenario::measured::MOST_ARROWS => {
                all.extend((low..=high).map(|number| number.to_string()));
            }
            _ => all.push(part.to_owned()),
        }
    }
    Ok(all)
}

fn word(stage: Stage) -> &'static str {
    match stage {
        Stage::Raw => "raw",
        Stage::Cut => "cut",
        Stage::Squared => "squared",
        Stage::Built => "built",
        Stage::Shot => "shot",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn law_a_row_for_each_arrow_and_none_of_another_job() -> Result<(), Slip> {
        let job = Job { arrows: 12, ..Job::default() };
        let say = |arrow: &str, more: &str| -> Values {
            vec![("Arrow".into(), arrow.into()), (more.into(), "cut".into())]
        };
        let names = |rows: Vec<Values>| -> Vec<String> {
            rows.into_iter().map(|row| row[0].1.clone()).collect()
        };
        assert_eq!(names(rows(&job, &[], &say("1-3, 7", "stage"))?), ["1", "2", "3", "7"]);
        for strange in ["13", "0", "3-1", "1-", "x", "", "1-4000000000"] {
            let refused = rows(&job, &[], &say(strange, "stage"));
            assert!(matches!(refused, Err(Slip::NotInJob { .. })) || strange == "3-1", "{strange}");
        }
        assert!(matches!(rows(&job, &[], &say("1", "mass")), Err(Slip::NoStage)));
        // Put back in where it was taken out, and nowhere else.
        let entered = [Worked {
            name: "2".into(),
            out: Some("cracked".into()),
            out_at: Some(Stage::Cut),
            ..Worked::default()
        }];
        for (column, value) in [("out", ""), ("out", "no"), ("correction", "void")] {
            let said: Values = vec![("arrow".into(), "2".into()), (column.into(), value.into())];
            let row = &rows(&job, &entered, &said)?[0];
            let own = [("arrow", "2"), ("stage", "cut"), ("out", "no"), ("correction", "yes")];
            assert_eq!(*row, own.map(|(name, value)| (name.to_owned(), value.to_owned())));
            assert!(matches!(rows(&job, &[], &said), Err(Slip::NotOut { .. })));
        }
        // Taken out where it stands.
        let out = rows(&job, &[], &say("1", "out"))?;
        assert_eq!(out[0][2], ("stage".to_owned(), "raw".to_owned()));
        Ok(())
    }
}
