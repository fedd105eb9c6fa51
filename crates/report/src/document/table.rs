use study::{Banded, Shots};
use target::Estimate;
use units::{Role, Style};

use super::cell::{Cell, CellStyle, Spelled};
use super::known::Known;
use crate::ReportError;

/// What every cell of a column holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// Words.
    Words,
    /// Counts of things, named.
    Counts(&'static str),
    /// Quantities of a role.
    Quantities(Role),
    /// Quantities with a 95 % interval.
    Estimates(Role),
    /// Quantities with a band.
    Bandeds(Role),
    /// Bands.
    Bands(Role),
    /// Numbers of shots.
    Shots,
    /// Quantities of whatever role, each with its own unit.
    Own,
}

/// A column.
#[derive(Debug, Clone, PartialEq)]
pub struct Column {
    /// Head, without a unit.
    pub head: String,
    /// What its cells hold.
    pub kind: Kind,
    pub(super) look: CellStyle,
    /// Whether it stands in files and JSON only.
    filed: bool,
    /// Whether it speaks of all that is not known already.
    pub(super) over_all: bool,
}

impl Column {
    fn new(head: impl Into<String>, kind: Kind) -> Self {
        let look = CellStyle { unit: kind == Kind::Own, ..CellStyle::default() };
        Self { head: head.into(), kind, look, filed: false, over_all: false }
    }

    /// The unit below the head; empty where there is none.
    pub(super) fn unit(&self, style: Style) -> &'static str {
        match self.kind {
            Kind::Words | Kind::Own => "",
            Kind::Counts("") => "count",
            Kind::Counts(unit) => unit,
            Kind::Shots => "shots",
            Kind::Quantities(role)
            | Kind::Estimates(role)
            | Kind::Bandeds(role)
            | Kind::Bands(role) => match (role, role.symbol(style)) {
                (Role::Points, _) => "points",
                (_, "") => "number",
                (_, symbol) => symbol,
            },
        }
    }
}

/// A table. The first column shown names the row.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    name: String,
    columns: Vec<Column>,
    rows: Vec<Vec<Cell>>,
    /// What each row is about; empty where the cells that begin it say so.
    about: Vec<String>,
    /// How many rows people read; files hold all.
    most: usize,
    /// How many columns people read.
    wide: usize,
    /// What is not known of each cell; empty where it was not asked.
    known: Vec<Vec<Known>>,
}

impl Table {
    /// Name of the file, without its ending; tables that share it make one
    /// file.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Columns as people read them: all but those that only files hold.
    pub fn columns(&self) -> Vec<&Column> {
        self.columns.iter().filter(|column| !column.filed).take(self.wide).collect()
    }

    /// Rows as people read them, each as long as [`Table::columns`].
    pub fn rows(&self) -> Vec<Vec<&Cell>> {
        let shown = self.rows.iter().take(self.most).map(|row| {
            let cells = self.columns.iter().zip(row).filter(|(column, _)| !column.filed);
            cells.map(|(_, cell)| cell).take(self.wide).collect()
        });
        shown.collect()
    }

    /// Columns as files hold them.
    pub fn all_columns(&self) -> &[Column] {
        &self.columns
    }

    /// Rows as files hold them.
    pub fn all_rows(&self) -> &[Vec<Cell>] {
        &self.rows
    }

    /// What a row is about, where the table says so itself.
    pub(super) fn about(&self, row: usize) -> Option<&str> {
        self.about.get(row).map(String::as_str)
    }

    /// What is not known of a cell, counted as files hold it.
    pub fn known(&self, row: usize, column: usize) -> Known {
        self.known.get(row).and_then(|row| row.get(column)).copied().unwrap_or_default()
    }

    /// Says what is not known of every cell.
    pub(super) fn know(&mut self, known: Vec<Vec<Known>>) {
        self.known = known;
    }

    /// Every row as people read it.
    pub(super) fn spelled(&self, style: Style) -> Vec<Vec<Spelled>> {
        let shown = self.columns.iter().enumerate().filter(|(_, column)| !column.filed);
        let shown: Vec<(usize, &Column)> = shown.take(self.wide).collect();
        let spell = |(at, row): (usize, &Vec<Cell>)| {
            let cell = |&(column, of): &(usize, &Column)| {
                let known = self.known(at, column);
                row[column].spell(of.look, style).with(known, &row[column], of.look, style)
            };
            shown.iter().map(cell).collect()
        };
        self.rows.iter().enumerate().take(self.most).map(spell).collect()
    }

    /// The one place where a number is checked to be finite.
    pub(super) fn check(&self) -> Result<(), ReportError> {
        for (at, row) in self.rows.iter().enumerate() {
            for (column, cell) in self.columns.iter().zip(row) {
                for (end, value) in cell.numbers() {
                    if !value.is_finite() {
                        let path = format!("{}[{at}].{}{end}", self.name, column.head);
                        return Err(ReportError::NotFinite { path, value });
                    }
                }
            }
        }
        Ok(())
    }

    /// The same, of which people read the first rows alone.
    pub(crate) fn at_most(self, most: usize) -> Self {
        Self { most, ..self }
    }

    /// The same, of which people read the first columns alone.
    pub(crate) fn no_wider(self, wide: usize) -> Self {
        Self { wide, ..self }
    }

    /// The same, said of one thing, which the heading above it names.
    pub(crate) fn of(self, head: &str, name: impl Into<String>) -> Self {
        self.keyed(head, Kind::Words, &Cell::Word(name.into()))
    }

    /// The same, said of one quantity, such as a distance.
    pub(crate) fn at(self, head: &str, role: Role, si: f64) -> Self {
        self.keyed(head, Kind::Quantities(role), &Cell::Quantity(role, si))
    }

    /// The same, said of whatever a cell holds.
    pub(crate) fn with(self, head: &str, cell: &Cell) -> Self {
        self.keyed(head, Kind::Own, cell)
    }

    /// One column more that only files hold, behind those before the first
    /// that is shown.
    fn keyed(mut self, head: &str, kind: Kind, cell: &Cell) -> Self {
        let place = self.columns.iter().take_while(|column| column.filed).count();
        self.columns.insert(place, Column { filed: true, ..Column::new(head, kind) });
        self.rows.iter_mut().for_each(|row| row.insert(place, cell.clone()));
        let name = cell.named().unwrap_or_default();
        self.about.iter_mut().for_each(|about| *about = format!("{name}|{about}"));
        self
    }
}

/// A table in the making, one row for each thing.
pub(crate) struct Rows<T> {
    things: Vec<T>,
    table: Table,
}

/// Begins a table with one row for each of `things`; columns follow.
pub(crate) fn table_of<T>(name: impl Into<String>, things: impl IntoIterator<Item = T>) -> Rows<T> {
    let things: Vec<T> = things.into_iter().collect();
    let rows = things.iter().map(|_| Vec::new()).collect();
    let (columns, about, known) = (Vec::new(), Vec::new(), Vec::new());
    let (most, wide) = (usize::MAX, usize::MAX);
    Rows { things, table: Table { name: name.into(), columns, rows, about, most, wide, known } }
}

/// Begins a table whose rows are the cells themselves, for one that is turned
/// round: measures down, builds across.
pub(crate) fn table(
    name: impl Into<String>,
    columns: Vec<(String, Kind)>,
    rows: Vec<Vec<Cell>>,
) -> Table {
    Table {
        name: name.into(),
        columns: columns.into_iter().map(|(head, kind)| Column::new(head, kind)).collect(),
        rows,
        about: Vec::new(),
        most: usize::MAX,
        wide: usize::MAX,
        known: Vec::new(),
    }
}

/// A table of single values, each with its name and its own unit.
pub(crate) fn facts<N: Into<Cell>>(
    name: impl Into<String>,
    heads: [&str; 2],
    rows: impl IntoIterator<Item = (N, Cell)>,
) -> Table {
    let rows: Vec<Vec<Cell>> =
        rows.into_iter().map(|(name, cell)| vec![name.into(), cell]).collect();
    // The value may be a distance, which would be taken for a name.
    let about = rows.iter().map(|row| row[0].named().unwrap_or_default()).collect();
    let [what, value] = heads.map(str::to_owned);
    Table { about, ..table(name, vec![(what, Kind::Words), (value, Kind::Own)], rows) }
}

impl<T> Rows<T> {
    /// A column of cells of a kind.
    pub(crate) fn cells(
        mut self,
        head: impl Into<String>,
        kind: Kind,
        cell: impl Fn(&T) -> Cell,
    ) -> Self {
        self.table.columns.push(Column::new(head, kind));
        for (row, thing) in self.table.rows.iter_mut().zip(&self.things) {
            row.push(cell(thing));
        }
        self
    }

    /// What each row is about, so that it is found again at an outer point: for
    /// rows that begin with what was found.
    pub(crate) fn about<S: ToString>(mut self, name: impl Fn(&T) -> S) -> Self {
        self.table.about = self.things.iter().map(|thing| name(thing).to_string()).collect();
        self
    }

    /// Words.
    pub(crate) fn words<W: Into<Cell>>(
        self,
        head: impl Into<String>,
        read: impl Fn(&T) -> W,
    ) -> Self {
        self.cells(head, Kind::Words, |thing| read(thing).into())
    }

    /// Counts.
    pub(crate) fn counts(
        self,
        head: impl Into<String>,
        unit: &'static str,
        read: impl Fn(&T) -> u64,
    ) -> Self {
        self.cells(head, Kind::Counts(unit), |thing| Cell::Count(read(thing)))
    }

    /// Quantities. A place without one reads a dash.
    pub(crate) fn quantity<V: Into<Option<f64>>>(
        self,
        head: impl Into<String>,
        role: Role,
        read: impl Fn(&T) -> V,
    ) -> Self {
        self.cells(head, Kind::Quantities(role), |thing| {
            read(thing).into().map_or(Cell::None(""), |si| Cell::Quantity(role, si))
        })
    }

    /// Estimates.
    pub(crate) fn estimate<V: Into<Option<Estimate>>>(
        self,
        head: impl Into<String>,
        role: Role,
        read: impl Fn(&T) -> V,
    ) -> Self {
        self.cells(head, Kind::Estimates(role), |thing| {
            read(thing).into().map_or(Cell::None(""), |of| Cell::Estimate(role, of))
        })
    }

    /// Quantities with a band.
    pub(crate) fn banded<V: Into<Option<Banded>>>(
        self,
        head: impl Into<String>,
        role: Role,
        read: impl Fn(&T) -> V,
    ) -> Self {
        self.cells(head, Kind::Bandeds(role), |thing| {
            read(thing).into().map_or(Cell::None(""), |of| Cell::Banded(role, of))
        })
    }

    /// Numbers of shots.
    pub(crate) fn shots(self, head: impl Into<String>, read: impl Fn(&T) -> Shots) -> Self {
        self.cells(head, Kind::Shots, |thing| Cell::Shots(read(thing)))
    }

    /// Changes the column before.
    fn last(mut self, change: impl FnOnce(&mut Column)) -> Self {
        self.table.columns.last_mut().map(change);
        self
    }

    /// The column before is shown with so many decimals.
    pub(crate) fn decimals(self, decimals: usize) -> Self {
        self.last(|column| column.look.decimals = Some(decimals))
    }

    /// The column before is shown with so many figures at the most.
    pub(crate) fn figures(self, figures: u8) -> Self {
        self.last(|column| column.look.figures = Some(figures))
    }

    /// The column before is shown with its sign.
    pub(crate) fn signed(self) -> Self {
        self.last(|column| column.look.signed = true)
    }

    /// The column before stands in files and JSON, not before people.
    pub(crate) fn filed(self) -> Self {
        self.filed_if(true)
    }

    /// The same, only if `filed` holds.
    pub(crate) fn filed_if(self, filed: bool) -> Self {
        self.last(|column| column.filed = filed)
    }

    /// More columns, only if `when` holds.
    pub(crate) fn when(self, when: bool, more: impl FnOnce(Self) -> Self) -> Self {
        if when { more(self) } else { self }
    }

    /// More columns, some for each of `items`.
    pub(crate) fn each<I>(
        self,
        items: impl IntoIterator<Item = I>,
        more: impl Fn(Self, I) -> Self,
    ) -> Self {
        items.into_iter().fold(self, more)
    }

    /// The column before speaks of all that is not known already, and has no
    /// band.
    pub(crate) fn over_all(mut self) -> Self {
        if let Some(column) = self.table.columns.last_mut() {
            column.over_all = true;
        }
        self
    }

    /// The finished table.
    pub(crate) fn done(self) -> Table {
        self.table
    }
}
