//! water
