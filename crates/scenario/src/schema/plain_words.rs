//! Ordinary words at the top of a scenario, each for a key in its table.

use super::Id;

/// What a hunter writes, blanks and hyphens as underscores, and the key it means.
const PLAIN: &[(&str, Id)] = &[
    ("bow_kind", Id::BowKind),
    ("bow_type", Id::BowKind),
    ("kind", Id::BowKind),
    ("draw_weight", Id::BowDrawWeight),
    ("poundage", Id::BowDrawWeight),
    ("draw_length", Id::BowDrawLength),
    ("let_off", Id::BowLetOff),
    ("brace_height", Id::BowBraceHeight),
    ("speed", Id::BowSpeed),
    ("arrow_speed", Id::BowSpeed),
    ("spine", Id::ShaftSpine),
    ("arrow_length", Id::ShaftLength),
    ("shaft_length", Id::ShaftLength),
    ("shaft_diameter", Id::ShaftOutside),
    ("shaft_weight", Id::ShaftDensity),
    ("arrow_weight", Id::GivenMass),
    ("point", Id::PointMass),
    ("point_weight", Id::PointMass),
    ("tip_weight", Id::PointMass),
    ("group", Id::ArcherGroups),
    ("groups", Id::ArcherGroups),
    ("score", Id::ArcherScore),
    ("level", Id::ArcherLevel),
    ("distances", Id::Distances),
    ("distance", Id::Distances),
    ("zone", Id::Zone),
    ("face", Id::Face),
    ("wind_speed", Id::WindSpeed),
];

/// Tables that one word or quantity may stand for, the key it means, and how it is said:
/// `bow = "recurve"`.
const IN_A_WORD: &[(&str, Id, &str)] =
    &[("bow", Id::BowKind, "\"compound\""), ("wind", Id::WindSpeed, "\"10 mph from the left\"")];

/// Kinds of bow as archers name them. A barebow is a recurve to its arrow: what it lacks
/// is a sight, and what pushes is the same.
const BOWS: &[(&str, &str)] = &[
    ("barebow", "recurve"),
    ("olympic_recurve", "recurve"),
    ("flatbow", "longbow"),
    ("wheel", "compound"),
];

/// The key that a table means where it is written as one word or quantity.
pub(crate) fn in_a_word(table: &str) -> Option<Id> {
    IN_A_WORD.iter().find(|(name, ..)| *name == table).map(|(_, id, _)| *id)
}

/// How a key is said that a table means where it is written as one word.
pub(crate) fn said_so(id: Id) -> &'static str {
    IN_A_WORD.iter().find(|(_, of, _)| *of == id).map_or("a word", |(.., said)| said)
}

/// The word of a choice that was meant by an ordinary spelling of it.
pub(crate) fn plain_choice(
    id: Id,
    text: &str,
    words: &'static [&'static str],
) -> Option<&'static str> {
    let said = text.trim().to_lowercase().replace([' ', '-'], "_");
    let said = if id == Id::BowKind { said.trim_end_matches("_bow") } else { said.as_str() };
    let same = |word: &str| word.replace('-', "_") == said;
    let bow = || BOWS.iter().filter(|_| id == Id::BowKind).find(|(plain, _)| *plain == said);
    words.iter().copied().find(|word| same(word)).or_else(|| bow().map(|(_, kind)| *kind))
}

/// The key that an ordinary word means.
pub(crate) fn plain_word(word: &str) -> Option<Id> {
    let word = word.to_lowercase().replace([' ', '-'], "_");
    PLAIN.iter().find(|(plain, _)| *plain == word).map(|(_, id)| *id)
}

/// Every ordinary word.
pub(crate) fn plain_words() -> impl Iterator<Item = &'static str> {
    PLAIN.iter().map(|(word, _)| *word)
}

/// The ordinary word for a key, as README and documentation have it.
pub(crate) fn plain_word_of(path: &str) -> Option<&'static str> {
    let table = IN_A_WORD.iter().find(|(_, id, _)| id.path() == path).map(|(name, ..)| *name);
    table.or_else(|| PLAIN.iter().find(|(_, id)| id.path() == path).map(|(word, _)| *word))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::schema::find;

    /// The first scenario of somebody who shoots but has read nothing.
    const NEWCOMER: &str = "draw_weight = \"60 lbs\"\ndraw_length = \"29 in\"\n\
        speed = \"285 fps\"\narrow_length = \"28 1/2 in\"\nspine = 340\npoint = \"100 grains\"\n";

    fn resolved(text: &str) -> Result<String, String> {
        let read = crate::read(std::path::Path::new("a.toml"), &|_| Ok(text.to_owned()));
        read.map(|scenario| scenario.resolved()).map_err(|report| report.to_string())
    }

    #[test]
    fn exact_six_lines_in_ordinary_words_are_a_scenario() {
        assert_eq!(NEWCOMER.lines().count(), 6);
        let told = resolved(NEWCOMER).expect("a scenario");
        for line in [
            "draw_weight = \"60 lbf\"",
            "speed = \"285 ft/s\"",
            "the first build's own arrow",
            "spine = \"0.34 in\"",
            "[arrow.vanes]",
            "low = \"0.2 in\", high = \"0.3 in\" }",
        ] {
            assert!(told.contains(line), "{line}\n{told}");
        }
        // What is told reads back to the same.
        assert_eq!(resolved(&told).expect("a scenario").lines().count(), told.lines().count());
        let more = format!(
            "{NEWCOMER}group = \"5 arrows at 40 yd span 6 in\"\n\"distance\" = \"40 yards\"\n"
        );
        assert!(resolved(&more).expect("a scenario").contains("distances = [\"40 yd\"]"));
    }

    #[test]
    fn exact_a_slip_is_told_by_the_word_that_was_written() {
        let slips = [
            ("\"100 grains\"", "\"100 grians\"", "point: \"grians\" is not a unit"),
            ("\"100 grains\"", "\"5 lb\"", "point = \"5 lb\" is out of range"),
            ("spine = 340", "spine = 34", "spine: \"34\" is not clear"),
            ("point = ", "piont = ", "did you mean point?"),
            ("point = ", "piont = ", "clothyard keys"),
            ("point = ", "insert = ", "[arrow.insert]"),
            ("speed = ", "sped = ", "did you mean speed?"),
            ("point = \"100 grains\"\n", "", "Write, say, point = \"100 gr\""),
        ];
        for (right, wrong, said) in slips {
            let told = resolved(&NEWCOMER.replace(right, wrong)).expect_err("a slip");
            assert!(told.contains(said), "{said}\n{told}");
            assert!(!told.contains("error: arrow.") && !told.contains("error: bow."), "{told}");
        }
    }

    #[test]
    fn regress_a_misspelt_word_is_told_once_and_first() {
        // It was told as missing first, and as unknown only then.
        for (word, slip) in [
            ("draw_weight", "draw_wieght"),
            ("draw_length", "draw_lenght"),
            ("speed", "sped"),
            ("arrow_length", "arow_length"),
            ("spine", "spien"),
            ("point", "piont"),
        ] {
            let from = format!("{word} = ");
            let told = resolved(&NEWCOMER.replacen(&from, &format!("{slip} = "), 1));
            let told = told.expect_err("a slip");
            assert!(told.starts_with(&format!("error: unknown key {slip}")), "{told}");
            assert_eq!(told.matches("error: ").count(), 1, "{told}");
            assert!(told.contains(&format!("did you mean {word}?")), "{told}");
            assert!(told.contains("clothyard keys"), "{told}");
        }
        let told = resolved(&NEWCOMER.replace("spine = 340\npoint", "piont")).expect_err("two");
        assert!(told.find("unknown key piont") < told.find("spine is missing"), "{told}");
        let trade = resolved(&format!("{NEWCOMER}[bow]\npoundage = \"60 lb\"\n"));
        assert!(trade.expect_err("a slip").contains("did you mean draw_weight?"));
    }

    #[test]
    fn exact_an_ordinary_word_beside_its_key_is_refused() {
        let both = format!("{NEWCOMER}[bow]\ndraw_weight = \"60 lb\"\n");
        assert!(resolved(&both).is_err_and(|words| words.contains("both given")));
        let unquoted = NEWCOMER.replace("\"60 lbs\"", "60 lbs");
        assert!(resolved(&unquoted).is_err_and(|words| words.contains("draw_weight = \"60 lbs\"")));
    }

    #[test]
    fn exact_the_kind_of_bow_is_one_word() {
        for kind in [
            "bow = \"recurve\"",
            "kind = \"recurve\"",
            "bow_kind = \"Recurve\"",
            "bow = \"barebow\"",
            "bow = \"Recurve bow\"",
            "bow.kind = \"recurve\"",
        ] {
            let told = resolved(&format!("{kind}\n{NEWCOMER}")).expect("a scenario");
            // Of its kind, and named: fingers, a rest, vanes, a shaft.
            for line in [
                "kind = \"recurve\"",
                "release_by = \"fingers\"",
                "kind = \"side-point\"",
                "root = \"1.75 in\"",
                "mass = \"1.5 gr\"",
                "density = { value = \"6.5 gr/in\", low = \"5 gr/in\", high = \"8.5 gr/in\" }",
            ] {
                assert!(told.contains(line), "{kind}: {line}\n{told}");
            }
        }
        let slip = resolved(&format!("bow = \"recurv\"\n{NEWCOMER}")).expect_err("a slip");
        assert!(slip.contains("did you mean \"recurve\"?"), "{slip}");
        let twice = format!("bow = \"recurve\"\n{NEWCOMER}[bow]\nlet_off = 0\n");
        let twice = resolved(&twice).expect_err("twice");
        assert!(twice.contains("write kind = \"recurve\" in it"), "{twice}");
        let none = resolved(&format!("bow = 3\n{NEWCOMER}")).expect_err("no word");
        assert!(
            none.contains("bow must be a text in quotes, such as \"compound\", or a table"),
            "{none}"
        );
    }

    #[test]
    fn exact_face_zone_and_wind_are_said_in_one_line() {
        let said = |more: &str| resolved(&format!("{more}\n{NEWCOMER}"));
        assert!(said("face = \"122 cm\"").expect("read").contains("face = \"122 cm\""));
        assert!(said("zone = \"10 in\"").expect("read").contains("zone = \"10 in\""));
        let windy = said("wind = \"10 mph\"").expect("read");
        assert!(windy.contains("speed = \"10 mph\"") && windy.contains("from = \"90 deg\""));
    }

    #[test]
    fn law_no_ordinary_word_hides_a_key() {
        for (word, _) in PLAIN {
            assert!(find(word).is_none(), "{word}");
        }
        assert_eq!(plain_word("Draw weight"), Some(Id::BowDrawWeight));
        assert_eq!(plain_word("title"), None);
    }
}
