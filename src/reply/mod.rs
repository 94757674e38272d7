//! Reply: an assessment to an ordered, worded answer. In: findings, ranges. Out: text, JSON, pictures. Computes nothing.

pub mod curve;
