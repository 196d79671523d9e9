//! Being laid out.
