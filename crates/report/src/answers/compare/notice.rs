//! Whether the archer would notice: where a build lands with one sight setting, and the
//! size of its groups once that is set anew.

use study::{Compared, Found, OneSight, PairMark, Seen, Shots, Standing, Word};

use super::super::unknown;
use super::case::Case;
use super::pairs::{needs, one_hole, pair_of, stands, told};
use super::sight::{farthest, place};
use crate::show::{about, holds, share};

/// Whether the archer would notice something, and in what share of what is not known.
struct Notice {
    yes: bool,
    standing: Option<Standing>,
}

impl Notice {
    /// Where a build lands with one sight setting; none where it does not get there.
    fn centre(case: Case, mark: &PairMark) -> Option<Self> {
        let read = at_point(case, mark);
        let seen = move |found: &Found| {
            let at = found.compared().zip(read.as_ref()).and_then(|(of, read)| read(of)?.one_sight);
            at.is_some_and(|at| at.seen())
        };
        let standing = case.unknown.and_then(|joint| joint.standing(seen));
        Some(Self { yes: mark.one_sight?.seen(), standing })
    }

    /// The size of its groups.
    fn size(case: Case, mark: &PairMark) -> Self {
        if holds(&mark.gain, 0.0) {
            return Self { yes: false, standing: None };
        }
        let read = at_point(case, mark);
        let seen = move |found: &Found| {
            let at = found.compared().zip(read.as_ref()).and_then(|(of, read)| read(of));
            at.is_some_and(|at| at.seen == Seen::Archer)
        };
        let standing = case.unknown.and_then(|joint| joint.standing(seen));
        Self { yes: mark.seen == Seen::Archer, standing }
    }

    /// Yes or no, whatever the usual values say, where what is not known says it; none
    /// where it is open.
    fn told(&self) -> Option<bool> {
        match self.standing.map(|standing| standing.word()) {
            None => Some(self.yes),
            Some(Word::Everywhere | Word::Likely) => Some(true),
            Some(Word::Unlikely) => Some(false),
            Some(Word::Open) => None,
        }
    }

    /// "you would notice (in 97 % of what may be)".
    fn said(&self) -> String {
        let Some(Standing { share: of }) = self.standing else {
            return if self.yes { "you would notice" } else { "you would not notice" }.to_owned();
        };
        let no = Standing { share: 1.0 - of };
        let sure = |standing: Standing| standing.word() == Word::Everywhere;
        match self.told() {
            None => {
                format!("whether you would notice is open (yes in {} of what may be)", share(of))
            }
            Some(true) => {
                let most = if sure(Standing { share: of }) { "" } else { "most likely " };
                format!("you would {most}notice (in {} of what may be)", share(of))
            }
            Some(false) => {
                let most = if sure(no) { "" } else { "most likely " };
                format!("you would {most}not notice (in {} of what may be)", share(no.share))
            }
        }
    }
}

/// Where the build of a pair lands with one sight setting, a clause behind its name.
pub(super) fn lands(case: Case, mark: &PairMark) -> String {
    match (mark.one_sight, place(case, mark)) {
        (None, _) => String::new(),
        (_, Some(place)) => format!(" and with one sight setting lands {place}"),
        (_, None) => " and with one sight setting lands in the same place".to_owned(),
    }
}

/// Which of the two the archer would notice, a clause; empty where nobody shoots.
pub(super) fn noticed(case: Case, mark: &PairMark) -> String {
    const WHERE: &str = "where it lands";
    const SIZE: &str = "the size of the groups";
    if !case.shot() {
        return String::new();
    }
    let size = Notice::size(case, mark).told();
    let Some(centre) = Notice::centre(case, mark) else {
        return match size {
            Some(true) => ": you would notice that",
            Some(false) => ": you would not notice that",
            None => ": whether you would notice that is open",
        }
        .to_owned();
    };
    let said = match (centre.told(), size) {
        (Some(true), Some(true)) => "you would notice both".to_owned(),
        (Some(false), Some(false)) => "you would notice neither".to_owned(),
        (Some(true), Some(false)) => format!("you would notice {WHERE}, not {SIZE}"),
        (Some(false), Some(true)) => format!("you would notice {SIZE}, not {WHERE}"),
        (Some(true), None) => format!("you would notice {WHERE}; whether {SIZE} too is open"),
        (None, Some(true)) => format!("you would notice {SIZE}; whether {WHERE} too is open"),
        (Some(false), None) => format!("you would not notice {WHERE}; whether {SIZE} is open"),
        (None, Some(false)) => format!("you would not notice {SIZE}; whether {WHERE} is open"),
        (None, None) => "whether you would notice either is open".to_owned(),
    };
    format!(": {said}")
}

/// How many arrows it takes to notice, first where a build lands, then the size of the
/// groups; `placed` where the sentence before has said where. None where nobody shoots
/// or one build stands alone.
pub(super) fn notice(case: Case, placed: bool) -> Option<String> {
    if !(case.shot() && case.several()) {
        return None;
    }
    Some(
        [centre(case, placed), Some(size(case))]
            .into_iter()
            .flatten()
            .collect::<Vec<_>>()
            .join(" "),
    )
}

/// Where the farthest build lands, and how many arrows it takes to notice.
fn centre(case: Case, placed: bool) -> Option<String> {
    let (name, mark) = farthest(case)?;
    let (said, shots) = (Notice::centre(case, mark)?.said(), centre_needs(case, mark));
    let place = place(case, mark);
    if placed {
        // The sentence before says that they land in one place.
        place?;
        return Some(format!("Where it lands {said}: that takes {shots} arrows with each."));
    }
    let base = &case.builds[0].name;
    Some(match place {
        Some(place) => format!(
            "With the sight set for \"{base}\" \"{name}\" lands {place}: {said}, which takes {shots} \
             arrows with each."
        ),
        None => "With one sight setting they land in the same place.".to_owned(),
    })
}

/// What is left once the sight is set anew.
fn size(case: Case) -> String {
    let Some((name, mark)) = told(case) else {
        return "Re-sighted, nothing is left to notice.".to_owned();
    };
    if holds(&mark.gain, 0.0) {
        return format!("Re-sighted, nothing is left to notice. {}", machine_alone(case, mark));
    }
    let whose = if case.builds.len() > 2 {
        format!("the groups of \"{name}\"")
    } else {
        "the groups".to_owned()
    };
    let archer = needs(case, mark, |mark| mark.archer_shots);
    let machine = needs(case, mark, |mark| mark.machine_shots);
    format!(
        "Re-sighted, {}: the size of {whose} takes {archer} arrows with each; a shooting machine \
         {machine}.{}",
        Notice::size(case, mark).said(),
        one_hole(case, mark)
    )
}

/// What a machine sees where the archer's groups show nothing.
fn machine_alone(case: Case, mark: &PairMark) -> String {
    if mark.machine_ratio.is_some_and(|ratio| holds(&ratio, 1.0)) {
        return "A shooting machine shows no difference in size either.".to_owned();
    }
    let told = match mark.machine_shots {
        Shots::Each(_) => "A shooting machine would see one in",
        Shots::MoreThan(_) => "Even a shooting machine would need",
    };
    let shots = needs(case, mark, |mark| mark.machine_shots);
    format!("{told} {shots} arrows with each.{}{}", one_hole(case, mark), stands(case, mark))
}

/// The same pair at an outer point.
fn at_point(case: Case, mark: &PairMark) -> Option<impl Fn(&Compared) -> Option<PairMark>> {
    let (index, _) = pair_of(case, mark)?;
    let at = case.skipped + case.middle();
    Some(move |of: &Compared| of.pairs.get(index)?.marks.get(at).cloned())
}

/// Shots until the archer tells where it lands, with their band.
fn centre_needs(case: Case, mark: &PairMark) -> String {
    let Some(OneSight { shots, .. }) = mark.one_sight else { return String::new() };
    let Some(read) = at_point(case, mark) else { return about(shots) };
    let own = unknown::endless(shots);
    let band = case.band(own, |of| Some(unknown::endless(read(of)?.one_sight?.shots)));
    unknown::needed(shots, band)
}
