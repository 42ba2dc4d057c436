//! What explains more than itself is told first, and what only follows from it is not told besides.

use crate::bring_in_doubt::{only, told};
use crate::brought::{brought_with, in_mm};
use fustian::bring::BringOptions;

/// A front and a back in three sizes; in M they are called so.
fn smock(front: &str, back: &str) -> String {
    let sizes = ["S", "M", "L"].iter().zip(0..).map(|(size, step)| {
        let (wide, long) = (200 + 10 * step, 400 + 10 * step);
        let (front, back) = if *size == "M" { (front, back) } else { ("front", "back") };
        format!(
            "<g id='{size}'><path id='{front}' d='M0 0 H{wide} V{long} L0 {} Z'/><circle id='rivet' cx='90' cy='80' r='3'/>\
             <path id='{back}' d='M500 0 H{} V{} H500 Z'/></g>\n",
            long - 120,
            530 + 2 * wide,
            long - 60,
        )
    });
    in_mm(&sizes.collect::<String>())
}

#[test]
fn names_exchanged_in_one_size_are_told_and_nothing_else() {
    assert!(
        told("smock.svg", &smock("front", "back")).is_empty(),
        "{:?}",
        told("smock.svg", &smock("front", "back"))
    );
    let remarks = match brought_with("smock.svg", &smock("back", "front"), &BringOptions::default()) {
        Ok(brought) => brought.remarks,
        Err(why) => why.to_string().lines().map(str::to_owned).collect(),
    };
    assert!(
        remarks.iter().any(|one| one
            .contains("front and back are exchanged in M: each is drawn there as the other is in S and L")),
        "{remarks:?}"
    );
    assert!(!remarks.iter().any(|one| one.contains("lies") || one.contains("answer")), "{remarks:?}");
}

#[test]
fn two_layers_of_one_name_are_told_as_that() {
    let drawn = |third: &str| {
        let sizes = ["S", "M", third].into_iter().zip(0..).map(|(size, step)| {
            let wide = 200 + 10 * step;
            format!(
                "<g id='{size}'><path id='bib' d='M0 0 h{wide} v400 h-{wide} Z'/>\
                 <path id='flap' d='M500 0 h{wide} v90 h-{wide} Z'/></g>\n"
            )
        });
        in_mm(&sizes.collect::<String>())
    };
    assert!(told("bib.svg", &drawn("L")).is_empty());
    only(
        &told("bib.svg", &drawn("M")),
        &["two layers are called M", "line 2", "line 3", "is it another size?"],
    );
}

#[test]
fn sizes_that_nothing_tells_apart_are_told_once_with_their_layers() {
    let drawn = |layers: [&str; 3]| {
        let sizes = layers.into_iter().zip(0..).map(|(size, step)| {
            let wide = 200 + 10 * step;
            format!(
                "<g id='{size}'><path id='bib' d='M{0} {0} h{wide} v{1} h-{wide} Z'/></g>\n",
                50 - 5 * step,
                400 + 10 * step
            )
        });
        in_mm(&sizes.collect::<String>())
    };
    assert!(told("bib.svg", &drawn(["S", "M", "L"])).is_empty());
    only(
        &told("bib.svg", &drawn(["small one", "middle one", "large one"])),
        &[
            "bib is drawn in one another more than once",
            "small one, middle one, large one are sizes, `sizes-from` layers says so",
        ],
    );
}

/// Sizes that are mixed up explain how handles lie off; a corner that was dragged explains why a size is smaller.
#[test]
fn what_is_smaller_in_a_larger_size_is_told_with_its_cause() {
    let drawn = |off: i32, mixed: bool| {
        let sizes = ["S", "M", "L"].iter().zip(0..).map(|(size, step)| {
            let step = match (mixed, step) {
                (true, 0) => 1,
                (true, 1) => 0,
                (_, step) => step,
            };
            let (wide, long) = (200 + 10 * step, 400 + 10 * step);
            let off = if *size == "M" { off } else { 0 };
            format!(
                "<g id='{size}'><path id='bib' d='M0 0 H{wide} V{} C{wide} {long} {} {long} {} {long} H0 Z'/></g>\n",
                long - 100 - off,
                wide - 20,
                wide - 90 - off
            )
        });
        in_mm(&sizes.collect::<String>())
    };
    assert!(told("bib.svg", &drawn(0, false)).is_empty(), "{:?}", told("bib.svg", &drawn(0, false)));
    only(&told("bib.svg", &drawn(0, true)), &["the outline of size M is ", "are sizes mixed up"]);
}
