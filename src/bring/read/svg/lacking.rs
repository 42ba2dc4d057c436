//! What is drawn on a piece in some of its sizes and lacks in others: what is drawn once stands for all, what is drawn in two or
//! more and not in the next was forgotten there.

use crate::bring::names::stem;
use crate::bring::traced::{TracedPiece, TracedSize};
use crate::report::listed;
use indexmap::IndexMap;

/// Sentences on what lacks.
pub fn lacking(piece: &TracedPiece) -> Vec<String> {
    // By what it is, the sizes that have it.
    let mut having: IndexMap<String, Vec<&str>> = IndexMap::new();
    // What has no size is told otherwise.
    let sized = || piece.sizes.iter().filter(|(size, _)| !size.is_empty());
    for (size, drawn) in sized() {
        for thing in things(drawn) {
            let sizes = having.entry(thing).or_default();
            if sizes.last() != Some(&size.as_str()) {
                sizes.push(size);
            }
        }
    }
    let told = having.into_iter().filter(|(_, sizes)| sizes.len() >= 2 && sizes.len() < sized().count());
    let each = told.map(|(thing, sizes)| {
        let names = sized().map(|(size, _)| size.as_str());
        let lack: Vec<&str> = names.filter(|size| !sizes.contains(size)).collect();
        format!("{} has {thing} in {}, and none in {}", piece.name, listed(&sizes), listed(&lack))
    });
    each.collect()
}

/// What lies on a piece in one size: marks and lines by their names. Notches and the grain are asked elsewhere.
fn things(drawn: &TracedSize) -> Vec<String> {
    let called = |what: &str, name: &str| match stem(name) {
        stem if stem.is_empty() => format!("a {what}"),
        stem => format!("the {what} “{stem}”"),
    };
    let marks = drawn.marks.iter().map(|mark| called("mark", &mark.name));
    let lines = drawn.lines.iter().map(|line| called("line", &line.name));
    marks.chain(lines).collect()
}
