//! The controls in their rooms: a few sliders first, all else folded below.

use maud::{Markup, html};
use scenario::{Control, Field, Part, Said, controls};
use study::MOST_BUILDS;
use units::Style;

use crate::builds::Ground;
use crate::spelled::in_style;
use crate::state::{LONGEST, LONGEST_NAME, LONGEST_WRITTEN, PageState, spelled};

/// Rooms in their order; the first stands open.
const ROOMS: [(Part, &str); 7] = [
    (Part::Arrow, "Arrow"),
    (Part::Faults, "Faults"),
    (Part::Bow, "Bow"),
    (Part::Archer, "Archer"),
    (Part::Place, "Wind and mark"),
    (Part::Sight, "Sight"),
    (Part::Asked, "Question"),
];

/// A list as it stands in a file.
const AS_WRITTEN: &str = "Kept as written in the file; change it as it would stand there.";

/// All rooms.
pub(crate) fn rooms(state: &PageState, ground: &Ground, style: Style) -> Markup {
    let part = |of: Part| controls().iter().filter(move |control| control.part() == of);
    html! {
        @for (of, title) in ROOMS {
            @let first = of == Part::Arrow;
            details.room name="room" open[first] {
                summary { (title) }
                @for control in part(of).filter(|control| control.leads()) {
                    (one(state, ground, control, style))
                }
                @let mut rest = part(of).filter(|control| !control.leads()).peekable();
                @if rest.peek().is_some() {
                    @if part(of).any(|control| control.slide(style).is_some()) {
                        details.more {
                            summary { "Everything else" }
                            @for control in rest { (one(state, ground, control, style)) }
                        }
                    } @else {
                        @for control in rest { (one(state, ground, control, style)) }
                    }
                }
            }
        }
    }
}

/// Which build the controls change, and the ways to have more or fewer of them.
pub(crate) fn choice(state: &PageState, ground: &Ground) -> Markup {
    let name = title(ground);
    html! {
        @if ground.builds.len() > 1 {
            div.control {
                label for="which" { "Change" }
                select #which name="build" data-anew aria-describedby="h-which" {
                    option value="" selected[ground.all] { "all builds" }
                    @for kept in &ground.builds {
                        option value=(kept.number) selected[state.build == Some(kept.number)] {
                            (kept.name.as_deref().unwrap_or_default())
                        }
                    }
                }
                p.hint #h-which {
                    "There are " (ground.builds.len()) " builds. "
                    @if ground.all {
                        "The controls show \"" (name) "\"; what all builds share changes in all, \
                         what differs in that one."
                    } @else {
                        "The controls show \"" (name) "\" and change it alone."
                    }
                }
            }
        }
    }
}

/// What the build that the controls show is called.
fn title(ground: &Ground) -> String {
    let name = ground.builds.get(ground.at).and_then(|kept| kept.name.clone());
    name.unwrap_or_else(|| "this build".to_owned())
}

/// The ways to have more or fewer builds.
pub(crate) fn more(ground: &Ground) -> Markup {
    let several = ground.builds.len() > 1;
    let name = title(ground);
    html! {
        details.more {
            summary { "Another build, beside this one" }
            @if several && !ground.all {
                div.control.wide {
                    label for="f-name" { "Name of this build" }
                    input.amount type="text" id="f-name" name=(ground.name_field()) value=(name)
                        aria-describedby="h-which" data-base=(ground.own_name()) data-anew maxlength=(LONGEST_NAME) spellcheck="false";
                }
            }
            @if ground.builds.len() < MOST_BUILDS {
                div.control.wide {
                    label for="copy" { "Copy \"" (name) "\" under the name" }
                    input #copy type="text" name="copy" maxlength=(LONGEST_NAME) spellcheck="false";
                }
                button type="submit" formaction="/copy" { "Add the copy" } " "
            } @else {
                p.hint { "Six builds are as many as can be told apart." }
            }
            @if several {
                button type="submit" formaction="/remove" { "Take \"" (name) "\" away" }
            }
        }
    }
}

/// One control: its field, its slider where it has one, what it means, what is wrong.
fn one(state: &PageState, ground: &Ground, control: &Control, style: Style) -> Markup {
    let id = control.name();
    let said = ground.scenario.said(control, ground.at);
    let base = in_style(control, &said.value, style);
    let field = ground.field(control);
    let value = state.now.get(&field).unwrap_or(&base);
    let slide = control.slide(style);
    html! {
        @let law = value.starts_with(['{', '[']);
        div.control.wide[law || slide.is_none() && matches!(control.field(), Field::Text | Field::Written)] {
            label for=(format!("f-{id}")) { (control.label()) }
            (input(control, &spelled(field), value, &base, &said))
            p.wrong id=(format!("e-{id}")) {}
            @if let (Some(slide), Some(dimension)) = (slide, control.dimension()) {
                @let place = units::parse_si(dimension, value).ok().zip(dimension.unit(slide.unit));
                @let place = place.map(|(si, unit)| unit.of_si(si).clamp(slide.low, slide.high));
                // Where nothing is said, the slider stands at nothing.
                @let place = place.unwrap_or(slide.low.max(0.0).min(slide.high));
                input.slide type="range" data-for=(id) data-unit=(slide.unit)
                    aria-label=(format!("{}, slider, {}", control.label(), slide.unit))
                    aria-valuetext=(value)
                    min=(slide.low) max=(slide.high) step=(slide.step) value=(place.to_string());
            }
            p.hint id=(format!("h-{id}")) { (hint(control, &said, *value != base)) }
        }
    }
}

/// The field of a control.
fn input(control: &Control, name: &str, value: &str, base: &str, said: &Said) -> Markup {
    let id = control.name();
    let about = format!("h-{id} e-{id}");
    let usual = if said.usual.is_empty() { "not given" } else { &said.usual };
    // What changes how the page is built is asked for anew.
    let anew = control.part() == Part::Asked;
    let law = value.starts_with('{') || base.starts_with('{');
    let most = match control.field() {
        Field::Amount(_) if !law => LONGEST,
        Field::Words(_) | Field::Count(..) => LONGEST,
        _ => LONGEST_WRITTEN,
    };
    html! {
        @match control.field() {
            Field::Words(words) => select.amount id=(format!("f-{id}")) name=(name) data-base=(base)
                data-anew[anew] aria-describedby=(about) {
                // What is there or not is always one of the two.
                @if base.is_empty() || value.is_empty() || !said.usual.is_empty() {
                    option value="" selected[value.is_empty()] { "as usual: " (plain(usual)) }
                }
                @for word in words { option value=(word) selected[*word == value] { (plain(word)) } }
            },
            Field::Count(low, high) => input.amount type="number" inputmode="numeric" min=(low) max=(high)
                id=(format!("f-{id}")) name=(name) value=(value) data-base=(base) data-anew[anew]
                placeholder=(usual) aria-describedby=(about);,
            _ => input.amount type="text" id=(format!("f-{id}")) name=(name) value=(value)
                data-base=(base) data-anew[anew] placeholder=(usual) maxlength=(most)
                spellcheck="false" aria-describedby=(about);,
        }
    }
}

fn plain(word: &str) -> &str {
    match word {
        "true" => "yes",
        "false" => "no",
        _ => word,
    }
}

/// What a control means, what it may be, and why it may mean nothing.
fn hint(control: &Control, said: &Said, changed: bool) -> Markup {
    let range = control.range();
    html! {
        (control.hint())
        @if control.slide(Style::Archery).is_none() {
            @if !range.is_empty() { " From " (range) "." }
            @if control.field() == Field::Written || said.value.starts_with('{') { " " (AS_WRITTEN) }
        } @else if said.value.starts_with('{') {
            " " (AS_WRITTEN)
        }
        @if let (Some(why), false) = (&said.unused, changed) { " Not in use: " (in_words(why)) "." }
    }
}

/// Why a control means nothing, its keys by the names that they have here.
fn in_words(why: &str) -> String {
    let named = |key: &str| controls().iter().find(|control| control.sets(key)).map(Control::label);
    let table = why.strip_prefix("there is no [").and_then(|rest| rest.strip_suffix(']'));
    if let Some(label) = table.and_then(named) {
        return format!("there is none; say yes at \"{label}\"");
    }
    let key = why.split_once(' ').and_then(|(key, rest)| Some((named(key)?, rest)));
    key.map_or_else(|| why.to_owned(), |(label, rest)| format!("\"{label}\" {rest}"))
}
