//! Text to a typed tree. Parsing always returns a tree plus its mistakes; a damaged statement
//! costs only itself. Nothing is looked up here: a name is still only a word.

pub mod tree;
