//! knowledge
