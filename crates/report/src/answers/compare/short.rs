//! A comparison in a few lines: the verdict, who would notice, what it costs elsewhere,
//! what to do next.

use study::{Compared, Found, Misjudged, Misjudgement};
use units::Role;

use super::super::common::NOBODY_SHORT;
use super::super::unknown::{self, Asked, bands, stands};
use super::case::{Case, asking};
use super::costs::{by_distance, costs, worst};
use super::far::how_far;
use super::notice::{lands, notice, noticed};
use super::pairs::told;
use super::words;
use crate::document::{Part, assumed_said, note, say};
use crate::show::{holds, plain, share};
use crate::words::listed;

/// Share of hits by which one build must lead every other when something is misjudged, for
/// that to be what is told first. Chosen: one standard error of the hits that the arrows
/// of a comparison show where nine in ten hit, sqrt(0.9 x 0.1 / 36): less than that is no
/// more than luck on the range. More than that is not asked for, since what an arrow
/// misses is an animal and one build is there to be chosen.
const DECIDES: f64 = 0.05;

/// The share of hits at which a loss is weighed: what a shot at an animal asks for
/// (docs/model/safety.md).
const HITS: f64 = 0.9;

/// Most builds named in one sentence. Chosen: two lines.
const LISTED: usize = 4;

/// The short answer.
pub(in super::super) fn short(case: Case) -> Vec<Part> {
    let (told, placed) = verdict(case);
    // Where a share is asked for, one build's answer is how far it holds.
    let at = if case.several() { told.len() } else { 0 };
    let mut parts: Vec<Part> = told.into_iter().map(say).collect();
    parts.splice(at..at, how_far(case).map(say));
    if !case.shot() {
        parts.push(note(NOBODY_SHORT));
    }
    parts.extend(assumed(case).map(say));
    parts.extend(notice(case, placed).map(say));
    let bands = bands(case.unknown.is_some());
    let at = case.range(case.middle());
    let zone = case.zone().filter(|_| case.shot());
    let zone = zone.map_or_else(String::new, |zone| format!(", {zone}"));
    let wind = if case.shot() && words::blown(case, |_| true) { ", wind held off" } else { "" };
    parts.push(say(if case.several() {
        format!("What each does at {at}, sighted in{wind}{zone}{bands}:")
    } else {
        format!("At each distance, drop below the line of departure{wind}{bands}:")
    }));
    parts.push(Part::Table(if case.several() { costs(case) } else { by_distance(case) }));
    parts.extend(words::blades_in_wind(case).map(say));
    parts.push(say(next(case)));
    parts
}

/// The assumed values that one build's drop rests on most; none where several are
/// compared, which share them.
fn assumed(case: Case) -> Option<String> {
    let joint = case.unknown.filter(|_| !case.several())?;
    let at = case.skipped + case.middle();
    let read = |found: &Found| Some(found.compared()?.builds.first()?.marks.get(at)?.nominal.drop);
    let asked = Asked { what: String::new(), read: &read, verdict: &|_| true };
    let told = unknown::assumed(joint, &asked, case.style);
    (!told.is_empty()).then(|| assumed_said(&told))
}

/// The sentence that answers the title, and how it stands; and whether it says where a
/// build lands with one sight setting.
fn verdict(case: Case) -> (Vec<String>, bool) {
    let range = case.range(case.middle());
    let counted = || round(case, &range).or_else(|| hits(case, &range));
    let (mut said, placed, already) = match misjudged(case, &range) {
        Some(said) => (said, false, true),
        None => match counted() {
            Some(said) => (vec![said], false, false),
            None => (vec![groups(case, &range)], case.builds.len() == 2, false),
        },
    };
    // What leads with the misjudged tells the losses already.
    if !already {
        said.extend(loses(case));
    }
    if let (Some(barred), Some(first)) = (case.barred(), said.first_mut()) {
        *first = format!("{barred} {first}");
    }
    (said, placed)
}

/// Which builds lose many hits beside the best when something is misjudged, where several
/// share the first place: so many that the archer would notice, within the arrows and by
/// the test that judge groups too.
fn loses(case: Case) -> Option<String> {
    if !case.shot() || !case.several() || case.face() {
        return None;
    }
    let all: Option<Vec<&Misjudged>> = (0..case.builds.len()).map(|b| worst(case, b)).collect();
    let (all, choices) = (all?, case.choices());
    let hit_of = |a: &usize, b: &usize| all[*a].hit.value.total_cmp(&all[*b].hit.value);
    let best = choices.iter().copied().max_by(hit_of)?;
    let least = case.sides.stated.power_test.least_hits_apart(HITS, study::ARCHER_SHOTS);
    let mut behind: Vec<usize> = choices
        .into_iter()
        .filter(|&other| {
            all[best].hit.low > all[other].hit.high
                && all[best].hit.value - all[other].hit.value >= least
        })
        .collect();
    behind.sort_by(|&a, &b| all[a].hit.value.total_cmp(&all[b].hit.value));
    let more = behind.len().saturating_sub(LISTED);
    let hit = |build: usize| format!("{} of \"{}\"", share(all[build].hit.value), case.name(build));
    let mut told: Vec<String> = behind.iter().take(LISTED).map(|&build| hit(build)).collect();
    if told.is_empty() {
        return None;
    }
    if more > 0 {
        told.push(format!("no more of {more} others"));
    }
    Some(format!(
        "Misjudged the worst way only {} still hit, but {}.",
        listed(&told, "and"),
        hit(best)
    ))
}

/// Scores of a round, the most first.
fn round(case: Case, range: &str) -> Option<String> {
    let at = case.middle();
    let all: Option<Vec<_>> = case.sides.builds.iter().map(|build| build.marks[at].round).collect();
    let rounds = all.filter(|_| case.shot())?;
    let arrows = rounds.first()?.arrows;
    let points = |build: usize| format!("{:.0} points", rounds[build].mean.value);
    if !case.several() {
        return Some(format!("A round of {arrows} arrows at {range} scores about {}.", points(0)));
    }
    let mut order = case.choices();
    if order.is_empty() {
        return None;
    }
    order.sort_by(|&a, &b| rounds[b].mean.value.total_cmp(&rounds[a].mean.value));
    let told: Vec<String> = order
        .iter()
        .map(|&build| format!("{} with \"{}\"", points(build), case.name(build)))
        .collect();
    Some(format!(
        "A round of {arrows} arrows at {range} scores about {}.{}",
        listed(&told, "and"),
        duel(case).unwrap_or_default()
    ))
}

/// How often the better of two wins.
fn duel(case: Case) -> Option<String> {
    let [pair] = &case.sides.pairs[..] else { return None };
    if case.choices().len() < 2 {
        return None;
    }
    let duel = pair.marks[case.middle()].duel?;
    let (wins, name) = if duel.first >= duel.second {
        (duel.first, case.name(pair.one))
    } else {
        (duel.second, case.name(pair.other))
    };
    Some(format!(" Of 100 rounds with each, \"{name}\" wins {:.0}.", 100.0 * wins))
}

/// Hits of more than two builds, the most first.
fn hits(case: Case, range: &str) -> Option<String> {
    let mut order = case.choices();
    if !case.shot() || case.face() || case.builds.len() < 3 || order.len() < 2 {
        return None;
    }
    let hit = |build: usize| case.builds[build].marks[case.middle()].hit.value;
    order.sort_by(|&a, &b| hit(b).total_cmp(&hit(a)));
    let told: Vec<String> = order
        .iter()
        .map(|&build| format!("{:.0} with \"{}\"", 100.0 * hit(build), case.name(build)))
        .collect();
    let (best, least) = (*order.first()?, *order.last()?);
    Some(if told.len() <= LISTED {
        format!("Of 100 arrows at {range} these hit: {}.", listed(&told, "and"))
    } else {
        format!(
            "At {range} \"{}\" hits most, {:.0} arrows of 100, and \"{}\" least, {:.0}.",
            case.name(best),
            100.0 * hit(best),
            case.name(least),
            100.0 * hit(least)
        )
    })
}

/// Which build hits most when wind or distance is misjudged, where that decides.
fn misjudged(case: Case, range: &str) -> Option<Vec<String>> {
    if !case.shot() || !case.several() || case.face() {
        return None;
    }
    let all: Option<Vec<&Misjudged>> = (0..case.builds.len()).map(|b| worst(case, b)).collect();
    let (all, choices) = (all?, case.choices());
    let hit_of = |a: &usize, b: &usize| all[*a].hit.value.total_cmp(&all[*b].hit.value);
    let best = choices.iter().copied().max_by(hit_of).filter(|_| choices.len() > 1)?;
    let decides = choices.iter().copied().filter(|&other| other != best).all(|other| {
        all[best].hit.low > all[other].hit.high
            && all[best].hit.value - all[other].hit.value >= DECIDES
    });
    if !decides {
        return None;
    }
    let least = choices.iter().map(|&build| all[build]);
    let least = least.min_by(|a, b| a.hit.value.total_cmp(&b.hit.value))?;
    let hit = |build: usize| {
        let marks = &case.sides.builds[build].marks[case.middle()].misjudged;
        marks.iter().find(|of| of.what == least.what).map(|of| of.hit.value)
    };
    let others: Vec<String> = choices
        .iter()
        .copied()
        .filter(|&other| other != best)
        .filter_map(|other| Some(format!("{} of \"{}\"", share(hit(other)?), case.name(other))))
        .collect();
    let lead = |found: &Compared| {
        let at = case.skipped + case.middle();
        let hit = |build: &study::BuildSide| {
            build.marks.get(at).map_or(0.0, |mark| {
                mark.misjudged.iter().map(|of| of.hit.value).fold(1.0, f64::min)
            })
        };
        let hits: Vec<f64> = found.sides.builds.iter().map(hit).collect();
        choices.iter().all(|&other| hits[best] >= hits[other])
    };
    let standing = case
        .unknown
        .and_then(|joint| joint.standing(|found: &Found| found.compared().is_some_and(lead)));
    let name = case.name(best);
    let wrong = words::wrong(least.what, &case.sides.stated, case.style);
    let wrong = match least.what {
        Misjudgement::WindFromLeft | Misjudgement::WindFromRight => format!("a wind of {wrong}"),
        Misjudgement::TooFar | Misjudgement::TooNear => format!("the sight {wrong}"),
    };
    let first = format!(
        "At {range} \"{name}\" hits most when you misjudge: with {wrong} {} of its arrows still hit, \
         {}.",
        share(hit(best)?),
        listed(&others, "and")
    );
    let stands = stands(&format!("That \"{name}\" leads"), standing, None);
    let told = [first, stands.trim_start().to_owned()];
    Some(told.into_iter().filter(|text| !text.is_empty()).collect())
}

/// Sizes of groups, and of two builds where the second lands.
fn groups(case: Case, range: &str) -> String {
    let (at, style) = (case.middle(), case.style);
    let base = &case.builds[0];
    let r50 = base.marks[at].full.stats.r50.value;
    let inches = |si: f64| Role::Impact.text(si, style);
    let Some((name, mark)) = told(case) else {
        if case.several() {
            return format!(
                "At {range} no difference in group size shows between the {} builds: half of the \
                 arrows land within {} of the middle.",
                case.builds.len(),
                inches(r50)
            );
        }
        if r50 <= 0.0 {
            return format!(
                "At {range} the arrow has dropped {} and flies at {}.",
                inches(base.marks[at].nominal.drop),
                Role::Speed.text(base.marks[at].nominal.speed, style)
            );
        }
        let place = case.skipped + at;
        let size =
            |found: &Compared| Some(found.builds.first()?.marks.get(place)?.full.stats.r50.value);
        let within = unknown::figure(Role::Impact, r50, case.band(r50, size), style);
        let zone = if case.shot() {
            let what = case.zone().map_or("are tens".to_owned(), |zone| format!("hit a {zone}"));
            let hit = base.marks[at].hit.value;
            let mark = |found: &Compared| Some(found.builds.first()?.marks.get(place)?.hit.value);
            format!(", and {} {what}", unknown::portion(hit, case.band(hit, mark)))
        } else {
            String::new()
        };
        return format!(
            "At {range} half of your arrows land within {within} of the middle of the group{zone}."
        );
    };
    let two = case.builds.len() == 2;
    let (lands, noticed) =
        if two { (lands(case, mark), noticed(case, mark)) } else { (String::new(), String::new()) };
    if holds(&mark.gain, 0.0) {
        return format!(
            "At {range} \"{name}\" groups no tighter or wider than \"{}\"{lands}{noticed}.",
            base.name
        );
    }
    let (size, way) =
        (mark.gain.value.abs(), if mark.gain.value > 0.0 { "tighter" } else { "wider" });
    let part = if r50 > 0.0 { format!(" ({})", share(size / r50)) } else { String::new() };
    format!(
        "At {range} \"{name}\" groups {}{part} {way} than \"{}\"{lands}{noticed}.",
        inches(size),
        base.name
    )
}

/// What to do next: measure what would turn the verdict, or choose.
fn next(case: Case) -> String {
    let verdict = match case.pairs.first() {
        Some(_) => "who sees a difference",
        None => "this verdict",
    };
    let turning = |asked: &Asked<Found>| unknown::turning(case.unknown?, asked, verdict);
    let measure = asking(case, &mut |asked| turning(asked));
    let plain = |zone: f64| plain(Role::Range, zone, case.style);
    match measure {
        Some(measure) => format!("Next: {measure}."),
        None if case.several() => {
            "Next: nothing in the ranges given here turns this; choose by what the table shows, \
             then shoot both: bare shafts and groups show what no range covers."
                .to_owned()
        }
        None => {
            let at = plain(case.builds[0].marks[case.middle()].distance.si());
            // Who shoots is said already by a group, a score or a level.
            if case.shot() {
                format!("Next: shoot it at {at}; what it does otherwise, write as [[evidence]].")
            } else {
                format!("Next: shoot it at {at}; a group of your own is the best evidence.")
            }
        }
    }
}
