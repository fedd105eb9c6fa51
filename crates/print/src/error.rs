/// Why a page cannot be printed.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum PrintError {
    /// A mark of a strip is infinite or not a number.
    #[error("{strip}, mark {mark} is {value}; a report holds finite numbers only")]
    NotFinite {
        /// The strip's name.
        strip: String,
        /// The mark, in the unit of the strip.
        mark: f64,
        /// Where it lies.
        value: f64,
    },
    /// A strip has too few marks.
    #[error("the strip {strip} has {marks} marks; at least 2 are needed")]
    StripEmpty {
        /// Its name.
        strip: String,
        /// Marks it has.
        marks: usize,
    },
    /// A strip's marks do not rise.
    #[error("on the strip {strip} the mark {after} does not lie beyond {before}")]
    StripOrder {
        /// Its name.
        strip: String,
        /// The mark before, in the unit of the strip.
        before: f64,
        /// The mark that does not lie beyond it.
        after: f64,
    },
    /// A strip is longer than the page has room for.
    #[error(
        "the strip {strip} is {needed:.1} mm long; the page has room for {room:.1} mm\n  hint: \
         print fewer distances, or on longer paper"
    )]
    StripTooLong {
        /// Its name.
        strip: String,
        /// Its length, mm.
        needed: f64,
        /// Room on the page, mm.
        room: f64,
    },
    /// No strip at all.
    #[error("a tape needs the marks of one speed at least; none were given")]
    NoStrip,
    /// A speed of a fan has other distances than the first.
    #[error("the speed {strip} has marks at other distances than the first of the fan")]
    FanUneven {
        /// Its name.
        strip: String,
    },
    /// More cards than fit on a page.
    #[error("the tables fill {cards} cards; {most} fit on the page")]
    Cards {
        /// Cards needed.
        cards: usize,
        /// How many fit.
        most: f64,
    },
    /// A row of a card has more or fewer cells than the card has columns.
    #[error("a row of the card {card} has {found} entries for {expected} distances")]
    Ragged {
        /// The card's title.
        card: String,
        /// Cells in the row.
        found: usize,
        /// Columns of the card.
        expected: usize,
    },
    /// No label at all.
    #[error("there is no label to print; a job has one arrow at least")]
    NoLabel,
    /// The words above a table leave no room for it.
    #[error("the page {title} has {room:.1} mm left below its words; a row takes {needed:.1} mm")]
    NoRoom {
        /// Title of the page.
        title: String,
        /// Room left, mm.
        room: f64,
        /// Height of a row, mm.
        needed: f64,
    },
    /// A shooting sheet without ends.
    #[error("a shooting sheet needs one end at least; none was given")]
    NoEnd,
    /// More arrows in an end than fit side by side.
    #[error(
        "an end of {arrows} arrows does not fit across the page\n  hint: shoot fewer in each end"
    )]
    CrowdedEnd {
        /// Arrows of the end.
        arrows: usize,
    },
}
