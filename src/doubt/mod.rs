//! doubt
