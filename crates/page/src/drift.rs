//! How far the wind carries the arrows off the mark.

use maud::{Markup, html};
use study::{Compared, DrawnParameter, Plan, Recipe, Refused, Setup, Slot, UncertainParameter};
use units::{Role, Speed, Style};

use crate::PageError;

/// A build in still air.
struct Calm<'a>(&'a dyn Recipe);

impl Recipe for Calm<'_> {
    fn draws(&self) -> &[DrawnParameter] {
        self.0.draws()
    }

    fn uncertain(&self) -> &[UncertainParameter] {
        self.0.uncertain()
    }

    fn setup(&self, changes: &[(Slot, f64)]) -> Result<Setup, Refused> {
        let mut setup = self.0.setup(changes)?;
        setup.site.wind.speed = Speed::ZERO;
        Ok(setup)
    }
}

/// How far to the left the wind carries the faultless arrow of each build to the distance
/// with this index, m, against still air.
pub(crate) fn drifts(plan: &Plan, found: &Compared, at: usize) -> Result<Vec<f64>, PageError> {
    let builds = plan.builds.iter().zip(&found.builds);
    let drift = |(build, flown): (&study::Build, &study::BuildAnswer)| {
        let recipe = build.recipe.as_ref();
        let still = recipe.setup(&[]).is_ok_and(|setup| setup.site.wind.speed == Speed::ZERO);
        let Some(mark) = flown.marks.get(at).filter(|_| !still) else { return Ok(0.0) };
        let calm = study::nominal(&Calm(recipe), &[mark.distance])?;
        Ok(mark.nominal.left - calm.marks[0].left)
    };
    builds.map(drift).collect()
}

/// What is said of it under the face; nothing in still air.
pub(crate) fn told(found: &Compared, drifts: &[f64], at: usize, style: Style) -> Markup {
    let place = found.builds.first().map(|build| build.marks[at].distance.si());
    let place = Role::Range.text(place.unwrap_or_default(), style);
    let far = |left: f64| {
        let side = if left < 0.0 { "to the right" } else { "to the left" };
        format!("{} {side}", Role::Impact.text(left.abs(), style))
    };
    let mut each: Vec<String> = drifts.iter().map(|left| far(*left)).collect();
    if each.iter().any(|one| *one != each[0]) {
        let named = each.iter().zip(&found.builds);
        each = named.map(|(far, build)| format!("{}: {far}", build.name)).collect();
    } else {
        each.truncate(1);
    }
    html! {
        @if drifts.iter().any(|left| *left != 0.0) {
            p.drift {
                "Sight held on the mark, wind carries the arrows " strong { (each.join(", ")) }
                " at " (place) ". Hits are counted as if you held off."
            }
        }
    }
}
