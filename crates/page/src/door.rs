//! The front door: questions in the visitor's words.

use maud::{DOCTYPE, Markup, html};

use crate::examples::EXAMPLES;
use crate::head::head;

/// All questions, and files of the folder, to begin from.
pub(crate) fn door(files: &[String]) -> Markup {
    html! {
        (DOCTYPE)
        html lang="en" {
            head {
                (head("Clothyard: what would you like to know?"))
            }
            body {
                a.skip href="#questions" { "To the questions" }
                main.door {
                    header {
                        h1 { "Clothyard" }
                        p.purpose { "Change an arrow. See whether you would ever notice." }
                    }
                    h2 #questions { "What would you like to know?" }
                    ul.questions {
                        @for example in &EXAMPLES {
                            li {
                                a href=(format!("/?from={}", example.name)) {
                                    strong { (example.question) }
                                    span { (example.gives) }
                                }
                            }
                        }
                        li {
                            a href="/groups" {
                                strong { "Which of my two groups is better?" }
                                span { "Paste the shots, or say how far apart they lie: width, centre, and how many more to settle it." }
                            }
                        }
                        li {
                            a href="/tools" {
                                strong { "I am at the bench, or on the range" }
                                span { "Cut lists, square ends, sets, nock turns, labels; sight marks, tapes, blind sheets." }
                            }
                        }
                        li {
                            a href="/?" {
                                strong { "I just want to try an arrow" }
                                span { "One hunting build; move anything and watch the group." }
                            }
                        }
                    }
                    p { "Each opens an invented example. Change it into your own, then save or share it." }
                    @if !files.is_empty() {
                        h2 { "Your files in this folder" }
                        ul.files {
                            @for file in files {
                                li { a href=(format!("/?from={}", crate::state::encoded(file))) { (file) } }
                            }
                        }
                    }
                    section #care {
                        h2 { "With any bow" }
                        ul { @for caution in report::standing() { li { (caution) } } }
                        p { "Results are computed, not measured." }
                    }
                }
            }
        }
    }
}
