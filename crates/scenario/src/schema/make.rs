//! What the rows are made with.

use units::Dimension::{self, Angle, Length, Ratio};

use super::{Column, Fallback, Kind, Number, Usual};

pub(super) const fn num(dimension: Dimension, low: &'static str, high: &'static str) -> Number {
    Number { dimension, low, high, whole: false, turn: false, size: false }
}

impl Number {
    pub(super) const fn size(mut self) -> Self {
        self.size = true;
        self
    }

    pub(super) const fn key(self) -> Kind {
        Kind::Number(self)
    }
}

pub(super) const fn number(dimension: Dimension, low: &'static str, high: &'static str) -> Kind {
    num(dimension, low, high).key()
}

pub(super) const fn count(low: &'static str, high: &'static str) -> Kind {
    let mut number = num(Ratio, low, high);
    number.whole = true;
    number.key()
}

pub(super) const fn clock() -> Kind {
    let mut number = num(Angle, "-1 turn", "1 turn");
    number.turn = true;
    number.key()
}

pub(super) const fn lean() -> Kind {
    num(Angle, "-10 deg", "10 deg").size().key()
}

pub(super) const fn shift() -> Kind {
    num(Length, "-5 mm", "5 mm").size().key()
}

pub(super) const fn fixed(dimension: Dimension, low: &'static str, high: &'static str) -> Kind {
    Kind::Quantity { dimension, low, high }
}

pub(super) const fn sure(text: &'static str) -> Usual {
    Usual { text, doubt: None }
}

pub(super) const fn unsure(text: &'static str, low: &'static str, high: &'static str) -> Usual {
    Usual { text, doubt: Some((low, high)) }
}

pub(super) const fn is(text: &'static str, source: &'static str) -> Fallback {
    Fallback::Is { usual: sure(text), source }
}

pub(super) const fn about(usual: Usual, source: &'static str) -> Fallback {
    Fallback::Is { usual, source }
}

pub(crate) const fn column(
    name: &'static str,
    dimension: Dimension,
    low: &'static str,
    high: &'static str,
) -> Column {
    Column { name, dimension, low, high }
}
