//! One file for each question.

pub(crate) mod compare;
pub(crate) mod ends;
pub(crate) mod matters;
pub(crate) mod sides;
pub(crate) mod sweep;
pub(crate) mod tune;
pub(crate) mod worth;
