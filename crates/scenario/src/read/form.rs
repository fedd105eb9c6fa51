//! The archer's form from what the archer shot: groups, a round, coordinates, or
//! a word.

use study::{StudyError, own_spread};
use target::{Estimate, Face, Group, Impact, Spread, TargetError, sigma_of_score};
use units::Length;

use super::Reader;
use crate::ScenarioError as E;
use crate::entry::{Entry, Layer, Origin, Value};
use crate::recipe::BuildRecipe;
use crate::said::{self, GROUP, ROUND};
use crate::schema::Id;
use crate::settle::Settled;
use crate::source::Place;
use crate::text::neat;

/// What says the form, and how it is told in the resolved scenario.
const SAID: [(Id, &str); 4] = [
    (Id::ArcherGroups, "from archer.groups, the arrows' own spread taken off"),
    (Id::ArcherScore, "from archer.score, the arrows' own spread taken off"),
    (Id::ArcherShots, "from archer.shots, the arrows' own spread taken off"),
    (Id::ArcherLevel, "from archer.level"),
];

/// Standard deviation of aim to each side by shooting level, degrees: usual, from, to.
/// Chosen; the third holds the 0.088 deg of 600 points in 72 arrows at 70 m
/// [park-tuning].
const LEVELS: [(&str, [f64; 3]); 4] = [
    ("beginner", [0.5, 0.3, 1.0]),
    ("club", [0.2, 0.12, 0.35]),
    ("tournament", [0.09, 0.06, 0.13]),
    ("top", [0.05, 0.035, 0.065]),
];

/// Seed of the flights that give the arrows' own spread. Chosen: any will do; not the
/// scenario's, so that its seed moves no input.
const SEED: u64 = 1;

/// The least share of the widest aim that is taken as the likeliest, where the arrows
/// alone explain the group, and of the likeliest as the narrowest. Chosen.
const LEAST: f64 = 0.1;

/// Why nothing is known of the form.
enum Untold {
    /// The words are not understood; how they are said.
    Words(&'static str),
    Shots(TargetError),
    Flights(StudyError),
    /// The arrows alone spread more: the group's sigma and theirs.
    Tighter(f64, f64),
}

impl Reader<'_> {
    /// Puts the form that is said into every build. Groups were shot with arrows as the
    /// first build has them.
    pub(super) fn form(&mut self, builds: &mut [Settled]) {
        let Some(first) = builds.first() else { return };
        let first = first.arrows_alone();
        for at in 0..builds.len() {
            let layer = &builds[at].layer;
            let said = SAID.iter().find_map(|(id, how)| Some((*id, *how, layer.entries.get(id)?)));
            let Some((id, how, entry)) = said else { continue };
            if let Some(done) = builds[..at].iter().find(|done| {
                done.layer.entries.get(&id) == Some(entry)
                    && done.layer.entries.get(&Id::ArcherShotsAt)
                        == layer.entries.get(&Id::ArcherShotsAt)
            }) {
                let form = done.layer.entries.get(&Id::ArcherForm).cloned();
                put(&mut builds[at], form);
                continue;
            }
            let place = entry.place();
            match told(id, layer, &first) {
                Ok(of) => {
                    let form = doubtful(&of, how);
                    put(&mut builds[at], Some(form));
                }
                Err(untold) => self.untold(id, place, untold),
            }
        }
    }

    fn untold(&mut self, id: Id, place: Option<Place>, untold: Untold) {
        let key = id.path();
        let why = match untold {
            Untold::Words(like) => format!("write it like \"{like}\""),
            Untold::Shots(error) => error.to_string(),
            Untold::Flights(error) => error.to_string(),
            Untold::Tighter(shot, own) => format!(
                "they are tighter than these arrows shoot alone (sigma {} in against {} in): \
                 lessen the faults, or check the group",
                neat(shot / 0.0254),
                neat(own / 0.0254)
            ),
        };
        self.problem(place, E::NoForm(key, why));
    }
}

fn put(build: &mut Settled, form: Option<Entry>) {
    let Some(form) = form else { return };
    build.layer.entries.insert(Id::ArcherForm, form);
    *build = Settled::of(build.name.clone(), std::mem::take(&mut build.layer));
}

fn doubtful(of: &Estimate, how: &'static str) -> Entry {
    let deg = |si: f64| format!("\"{} deg\"", neat(si.to_degrees()));
    let Estimate { value, low, high } = *of;
    let written = format!("{{ value = {}, low = {}, high = {} }}", deg(value), deg(low), deg(high));
    Entry { value: Value::Doubtful { value, low, high }, written, origin: Origin::Derived(how) }
}

/// Standard deviation of aim to each side, rad.
fn told(id: Id, layer: &Layer, first: &Settled) -> Result<Estimate, Untold> {
    match id {
        Id::ArcherGroups => groups(layer, first),
        Id::ArcherScore => score(layer, first),
        Id::ArcherShots => shots(layer, first),
        _ => {
            let word = layer.entries.get(&id).and_then(Entry::text).unwrap_or_default();
            let (_, degrees) =
                LEVELS.iter().find(|(level, _)| *level == word).unwrap_or(&LEVELS[0]);
            let [value, low, high] = degrees.map(f64::to_radians);
            Ok(Estimate { value, low, high })
        }
    }
}

fn groups(layer: &Layer, first: &Settled) -> Result<Estimate, Untold> {
    let Some(Entry { value: Value::Names(said), .. }) = layer.entries.get(&Id::ArcherGroups) else {
        return Err(Untold::Words(GROUP));
    };
    let mut all = Vec::new();
    for (text, _) in said {
        let group = said::group(text).ok_or(Untold::Words(GROUP))?;
        let spread = Spread::of_extreme_spread(group.arrows, group.spread.si());
        all.push((spread.map_err(Untold::Shots)?, group.distance));
    }
    pooled(&all, first)
}

fn shots(layer: &Layer, first: &Settled) -> Result<Estimate, Untold> {
    let rows = layer.entries.get(&Id::ArcherShots).and_then(Entry::rows).unwrap_or_default();
    let impacts: Vec<Impact> =
        rows.iter().map(|[left, up]| Impact { left: *left, up: *up }).collect();
    let group = Group::of(&impacts).map_err(Untold::Shots)?;
    match layer.entries.get(&Id::ArcherShotsAt).map(|entry| &entry.value) {
        Some(Value::Fixed(at)) => {
            pooled(&[(Spread::of_group(&group), Length::from_si(*at))], first)
        }
        _ => Err(Untold::Words("shots_at = \"40 yd\" beside them")),
    }
}

/// Groups at their distances as one spread of aim. The variance of what else is drawn is
/// taken off each, in proportion from its interval too.
fn pooled(all: &[(Spread, Length)], first: &Settled) -> Result<Estimate, Untold> {
    let recipe = BuildRecipe::new(first, None);
    let mut seen = Vec::new();
    let mut own_squares = 0.0;
    for (spread, distance) in all {
        let own = own_spread(&recipe, *distance, SEED).map_err(Untold::Flights)?;
        let angle = spread.sigma / distance.si();
        own_squares += spread.freedom * (own / distance.si()).powi(2);
        seen.push(Spread { sigma: angle, freedom: spread.freedom });
    }
    let all_shots = Spread::pooled(&seen).ok_or(Untold::Words(GROUP))?;
    let own = (own_squares / all_shots.freedom).sqrt();
    let at = all.first().map_or(1.0, |(_, distance)| distance.si());
    less(&all_shots.estimate(), own).ok_or(Untold::Tighter(all_shots.sigma * at, own * at))
}

fn score(layer: &Layer, first: &Settled) -> Result<Estimate, Untold> {
    let text = layer.entries.get(&Id::ArcherScore).and_then(Entry::text).unwrap_or_default();
    let round = said::round(text).ok_or(Untold::Words(ROUND))?;
    let recipe = BuildRecipe::new(first, None);
    let shaft = Length::from_si(recipe.now(Id::ShaftOutside));
    let face = Face::ten_ring(round.face, false).map_err(Untold::Shots)?;
    let of = sigma_of_score(round.points, round.arrows, &face, shaft).map_err(Untold::Shots)?;
    let own = own_spread(&recipe, round.distance, SEED).map_err(Untold::Flights)?;
    let to = |sigma: f64| sigma / round.distance.si();
    let seen = Estimate { value: to(of.value), low: to(of.low), high: to(of.high) };
    less(&seen, to(own)).ok_or(Untold::Tighter(of.value, own))
}

/// What is left of a spread when another is taken off; none where nothing is.
fn less(of: &Estimate, own: f64) -> Option<Estimate> {
    let left = |seen: f64| (seen * seen - own * own).max(0.0).sqrt();
    let high = left(of.high);
    let value = left(of.value).max(LEAST * high);
    (high > 0.0).then(|| Estimate { value, low: left(of.low).max(LEAST * value), high })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn exact_a_spread_is_taken_off_as_a_square() {
        let of = Estimate { value: 5.0, low: 4.0, high: 13.0 };
        let left = less(&of, 3.0).map(|left| (left.value, left.low, left.high));
        assert_eq!(left, Some((4.0, 7.0_f64.sqrt(), 160.0_f64.sqrt())));
        assert!(less(&of, 6.0).is_some_and(|left| left.low > 0.0 && left.value > left.low));
        assert!(less(&of, 13.0).is_none());
    }

    const BOW: &str = "[bow]\ndraw_weight = \"60 lb\"\ndraw_length = \"29 in\"\nspeed = \"276 fps\"\n\
        speed_mass = \"425 gr\"\n[arrow.shaft]\noutside = \"0.246 in\"\ndensity = \"9.5 gpi\"\n\
        spine = 340\nlength = \"28 1/2 in\"\n[arrow.point]\nmass = \"100 gr\"\n[arrow.vanes]\n";

    fn form(archer: &str, more: &str) -> Result<[f64; 3], String> {
        let text = format!("{BOW}{more}\n[archer]\n{archer}\n");
        let scenario = crate::read(std::path::Path::new("a.toml"), &|_| Ok(text.clone()))
            .map_err(|report| report.to_string())?;
        let resolved = scenario.resolved();
        assert!(resolved.contains("# aim_left") && resolved.contains("as archer.form"));
        let again = crate::read(std::path::Path::new("a.toml"), &|_| Ok(resolved.clone()));
        let recipe = again.map_err(|report| report.to_string())?.recipe(None).expect("a build");
        let of = recipe.uncertain().iter().find(|of| of.key == "archer.form");
        let of = of.ok_or("no form")?;
        Ok([of.value, of.low, of.high])
    }

    /// Five arrows that span 6 in at 40 yd, shot perfectly but for the aim: sigma is the
    /// spread over 3.0659 (table of the extreme spread), a little more for the root
    /// of a mean square.
    #[test]
    fn published_a_group_says_its_form() {
        let [value, low, high] =
            form("groups = \"5 arrows at 40 yd span 6 in\"", "").expect("a form");
        let of = Spread::of_extreme_spread(5, 6.0 / 1440.0).expect("a spread");
        let plain = 6.0 / 1440.0 / 3.0659;
        assert!((value / plain - 1.0).abs() < 0.05, "{value} {plain}");
        let interval = of.estimate();
        for (got, want) in [(value, interval.value), (low, interval.low), (high, interval.high)] {
            assert!((got / want - 1.0).abs() < 1e-12, "{got} {want}");
        }
        // A second group like it narrows the interval.
        let two = "groups = [\"5 arrows at 40 yd span 6 in\", \"5 shots at 20 yd span 3 in\"]";
        let [other, narrow, _] = form(two, "").expect("a form");
        assert!((other / value - 1.0).abs() < 0.02 && narrow > low);
    }

    #[test]
    fn law_what_arrows_spread_alone_is_not_counted_twice() {
        let faults = "[faults.point_cant]\nangle = { rayleigh = \"0.3 deg\" }\n\
            [faults.vane]\nangle = { mean = \"0 deg\", sd = \"1 deg\" }";
        let groups = "groups = \"5 arrows at 40 yd span 6 in\"";
        let [perfect, ..] = form(groups, "").expect("a form");
        let [faulty, ..] = form(groups, faults).expect("a form");
        assert!(faulty < perfect, "{faulty} {perfect}");
        let tight = form("groups = \"5 arrows at 40 yd span 0.01 in\"", faults);
        assert!(tight.is_err_and(|words| words.contains("tighter than these arrows")));
    }

    #[test]
    fn law_every_way_to_say_the_form_gives_one() {
        for archer in [
            "score = \"265 points with 30 arrows on 40 cm at 20 yd\"",
            "shots = [{ left = \"1 in\", up = \"2 in\" }, { left = \"-1 in\", up = \"0 in\" }, \
             { left = \"0 in\", up = \"-2 in\" }]\nshots_at = \"40 yd\"",
            "level = \"club\"",
            "form = { value = \"2 in at 40 yd\", low = \"1 in at 40 yd\", high = \"3 in at 40 yd\" }",
        ] {
            let [value, low, high] = form(archer, "").unwrap_or_else(|e| panic!("{archer}: {e}"));
            assert!(low < value && value < high, "{archer}");
        }
        for archer in [
            "groups = \"tight\"",
            "score = \"300\"",
            "groups = \"5 arrows at 40 yd span 6 in\"\nlevel = \"club\"",
        ] {
            assert!(form(archer, "").is_err(), "{archer}");
        }
    }

    #[test]
    fn law_every_level_is_a_word_of_its_key() {
        let crate::schema::Kind::Choice(words) = Id::ArcherLevel.key().kind else { panic!() };
        assert_eq!(LEVELS.map(|(word, _)| word).as_slice(), words);
    }

    #[test]
    fn law_levels_do_not_leave_a_gap() {
        for pair in LEVELS.windows(2) {
            assert!(pair[0].1[1] <= pair[1].1[2], "{pair:?}");
        }
    }
}
