//! Readings: lists of small tables of two quantities each.

use toml::Spanned;
use toml::de::{DeArray, DeTable, DeValue};

use super::value::{Scale, Understood};
use super::{Reader, near};
use crate::ScenarioError as E;
use crate::entry::Value;
use crate::fit::fit;
use crate::schema::{Column, Id, Rows, limits};
use crate::source::Place;
use crate::text::{between, own_unit, quantity};

/// A quantity of a reading and where it stands.
type Cell = (Understood, Place);

impl Reader<'_> {
    pub(super) fn rows(
        &mut self,
        id: Id,
        rows: &Rows,
        place: Place,
        raw: &DeValue<'_>,
    ) -> Option<(Value, String)> {
        let path = id.path();
        let [a, b] = rows.columns.each_ref().map(|column| column.name);
        let Some(list) = raw.as_array() else {
            let wanted = format!("a list of readings, [{{ {a} = \"..\", {b} = \"..\" }}, ..]");
            return self.wrong(place, path, &wanted, raw);
        };
        let read = self.cells(id, rows, place.file, list);
        if !(rows.least..=rows.most).contains(&list.len()) {
            let (count, least, most) = (list.len(), rows.least, rows.most);
            self.problem(Some(place), E::ReadingCount { key: path, count, least, most });
            return None;
        }
        let risen = !rows.rising || self.rise(path, &read);
        let read: Vec<[Cell; 2]> = read.into_iter().collect::<Option<_>>()?;
        let good = risen && (id != Id::BowReadings || self.fits(place, &read));
        let written: Vec<String> = read
            .iter()
            .map(|[(x, _), (y, _)]| format!("{{ {a} = {}, {b} = {} }}", x.written, y.written))
            .collect();
        let values = read.iter().map(|row| row.each_ref().map(|(cell, _)| cell.si)).collect();
        good.then(|| (Value::Rows(values), format!("[{}]", written.join(", "))))
    }

    /// Every reading of the list; none where one is wrong, which is reported.
    fn cells(
        &mut self,
        id: Id,
        rows: &Rows,
        file: usize,
        list: &DeArray<'_>,
    ) -> Vec<Option<[Cell; 2]>> {
        let mut read = Vec::with_capacity(list.len());
        for (index, value) in list.iter().enumerate() {
            let place = self.sources.place(file, value.span());
            match value.get_ref() {
                DeValue::Table(table) => read.push(self.row(id, rows, (index, place), table)),
                other => {
                    self.wrong_type(place, id.path(), "a list of tables", other);
                    read.push(None);
                }
            }
        }
        read
    }

    fn row(
        &mut self,
        id: Id,
        rows: &Rows,
        (index, place): (usize, Place),
        table: &DeTable<'_>,
    ) -> Option<[Cell; 2]> {
        let names = rows.columns.each_ref().map(|column| column.name);
        let mut strange = false;
        for (key, _) in table {
            let name = key.get_ref().as_ref();
            if !names.contains(&name) {
                let at = self.sources.place(place.file, key.span());
                let near = near::name(name, names).map(str::to_owned);
                let key = format!("{}.{name}", id.path());
                let allowed = names.map(str::to_owned).to_vec();
                self.problem(Some(at), E::UnknownKey { key, near, elsewhere: vec![], allowed });
                strange = true;
            }
        }
        let [a, b] = rows.columns.each_ref().map(|column| {
            let found = table.iter().find(|(key, _)| key.get_ref() == column.name);
            let Some((_, value)) = found else {
                // A slip in the name is told once.
                if !strange {
                    let (key, row, name) = (id.path(), index + 1, column.name);
                    self.problem(Some(place), E::ReadingLacks { key, row, name });
                }
                return None;
            };
            self.cell(id, column, place.file, value)
        });
        if strange { None } else { a.zip(b).map(|(a, b)| [a, b]) }
    }

    fn cell(
        &mut self,
        id: Id,
        column: &Column,
        file: usize,
        value: &Spanned<DeValue<'_>>,
    ) -> Option<Cell> {
        let key = format!("{}.{}", id.path(), column.name);
        let place = self.sources.place(file, value.span());
        let scalar = self.scalar_at(&key, place, value.get_ref())?;
        let read = self.scaled(Scale::of_column(column), &key, &scalar)?;
        self.within(&key, place, &read, column.limits())?;
        Some((read, place))
    }

    /// Whether the first column rises, wrong readings left out.
    fn rise(&mut self, key: &'static str, read: &[Option<[Cell; 2]>]) -> bool {
        let first: Vec<&Cell> = read.iter().flatten().map(|[cell, _]| cell).collect();
        let mut good = true;
        for pair in first.windows(2) {
            let ((before, _), (value, place)) = (pair[0], pair[1]);
            if value.si <= before.si {
                let (before, value) = (before.written.clone(), value.written.clone());
                self.problem(Some(*place), E::NotRising { key, before, value });
                good = false;
            }
        }
        good
    }

    /// Whether chronograph readings give a virtual mass.
    fn fits(&mut self, place: Place, read: &[[Cell; 2]]) -> bool {
        let rows: Vec<[f64; 2]> =
            read.iter().map(|row| row.each_ref().map(|(cell, _)| cell.si)).collect();
        let Ok(fit) = fit(&rows) else {
            self.not_slower(place, read);
            return false;
        };
        let (low, high) = limits(Id::BowVirtualMass);
        let good = (low..=high).contains(&fit.virtual_mass);
        if !good {
            let unit = own_unit(Id::BowVirtualMass);
            let (value, allowed) = (quantity(fit.virtual_mass, unit), between((low, high), unit));
            self.problem(Some(place), E::FittedOut { value, allowed });
        }
        good
    }

    /// Says why readings give no virtual mass: all of one mass, or a heavier
    /// arrow that is no slower.
    fn not_slower(&mut self, place: Place, read: &[[Cell; 2]]) {
        let pairs = read.iter().flat_map(|heavy| read.iter().map(move |light| (heavy, light)));
        let wrong = |(heavy, light): &(&[Cell; 2], &[Cell; 2])| {
            heavy[0].0.si > light[0].0.si && heavy[1].0.si >= light[1].0.si
        };
        let Some((heavy, light)) = pairs.into_iter().find(wrong) else {
            return self.problem(Some(place), E::OneMass);
        };
        let [mass, lighter] = [heavy, light].map(|row| row[0].0.written.replace('"', ""));
        let also = (light[1].1, "the lighter arrow");
        self.problem_with(Some(heavy[1].1), Some(also), E::NotSlower { mass, lighter });
    }
}
