//! A whole outline that lies otherwise in one size than the others' growth has it; beside each a sound drawing of which nothing is
//! said.

use crate::bring_in_doubt::{only, told};
use crate::brought::in_mm;

/// A layer for each of these sizes, as it is drawn by its number.
pub fn layers(sizes: &[&str], drawn: impl Fn(&str, i32) -> String) -> String {
    let each =
        sizes.iter().zip(0..).map(|(size, step)| format!("<g id='{size}'>{}</g>\n", drawn(size, step)));
    in_mm(&each.collect::<String>())
}

/// A bib that grows 10 mm wider about its middle and 20 mm longer from size to size, with a rivet and an eye; in M it lies `by` mm to
/// the right of them.
fn bib(sizes: &[&str], by: i32) -> String {
    layers(sizes, |size, step| {
        let (wide, long) = (200 + 10 * step, 500 + 20 * step);
        let left = 100 - 5 * step + if size == "M" { by } else { 0 };
        format!(
            "<path id='bib' d='M{left} 100 h{wide} v{long} h-{wide} Z'/><circle id='rivet' cx='200' cy='130' r='3'/>\
             <circle id='eye' cx='{}' cy='300' r='3'/>",
            150 - step
        )
    })
}

#[test]
fn an_outline_shifted_beside_what_is_drawn_on_it_is_told() {
    for sizes in [&["S", "M", "L"][..], &["S", "M", "L", "XL", "XXL"]] {
        assert!(told("bib.svg", &bib(sizes, 0)).is_empty(), "{:?}", told("bib.svg", &bib(sizes, 0)));
        for by in [30_i32, 12, -9] {
            let way = if by > 0 { "to the right" } else { "to the left" };
            let words = format!(
                "the outline of M lies {} mm off ({} mm {way}) beside all that is drawn on it",
                by.abs(),
                by.abs()
            );
            only(&told("bib.svg", &bib(sizes, by)), &["bib (", &words]);
        }
    }
}

#[test]
fn one_mark_that_lies_elsewhere_is_told_as_that() {
    let drawn = |down: i32| {
        layers(&["S", "M", "L"], |size, step| {
            let (wide, long) = (200 + 10 * step, 500 + 20 * step);
            let at = if size == "M" { 130 + down } else { 130 };
            format!(
                "<path id='bib' d='M0 0 h{wide} v{long} h-{wide} Z'/><circle id='rivet' cx='100' cy='{at}' r='3'/>"
            )
        })
    };
    assert!(told("bib.svg", &drawn(0)).is_empty());
    only(&told("bib.svg", &drawn(60)), &["rivet lies elsewhere in M"]);
}

/// Half a smock's front; `turn` turns M about its corner.
#[test]
fn a_size_that_is_turned_a_little_is_told_without_a_grain_line_too() {
    let drawn = |turn: &str| {
        layers(&["S", "M", "L"], |size, step| {
            let (wide, long) = (200 + 20 * step, 400 + 10 * step);
            let turned = if size == "M" { turn } else { "" };
            format!(
                "<g transform='{turned}'><path id='front' d='M0 0 H{wide} V{} L{} {long} H0 Z'/></g>",
                long - 100,
                wide - 80
            )
        })
    };
    assert!(told("smock.svg", &drawn("")).is_empty(), "{:?}", told("smock.svg", &drawn("")));
    only(&told("smock.svg", &drawn("rotate(5)")), &["front (", "M is drawn turned by 5.0° beside S and L"]);
}

/// A pocket 140 by 160, 6 mm wider and 4 mm longer from size to size; in one size its outline lies `out` mm outside all round.
#[test]
fn a_size_that_holds_an_allowance_is_told() {
    let drawn = |odd: &str, out: i32| {
        layers(&["S", "M", "L"], |size, step| {
            let out = if size == odd { out } else { 0 };
            let (wide, long) = (140 + 6 * step + 2 * out, 160 + 4 * step + 2 * out);
            format!("<path id='pocket' d='M{} {} h{wide} v{long} h-{wide} Z'/>", 100 - out, 100 - out)
        })
    };
    assert!(told("pocket.svg", &drawn("", 0)).is_empty());
    let remarks = told("pocket.svg", &drawn("M", 10));
    let words = "M lies everywhere 10 mm outside of where the growth of S and L has it";
    assert!(remarks.iter().any(|one| one.contains(words)), "{remarks:?}");
}

/// A corner of a flap that is off by these in five sizes; the others grow evenly.
#[test]
fn a_corner_that_grows_by_leaps_is_told() {
    let drawn = |off: [i32; 5]| {
        layers(&["XS", "S", "M", "L", "XL"], |_, step| {
            let (wide, long) = (300 + 10 * step, 200 + 5 * step);
            let off = off[step as usize];
            format!(
                "<path id='flap' d='M0 0 H{wide} V{long} L{} {} L0 {long} Z'/>",
                wide / 2 + off,
                long + 60 + off
            )
        })
    };
    assert!(told("flap.svg", &drawn([0; 5])).is_empty(), "{:?}", told("flap.svg", &drawn([0; 5])));
    // Wherever a hand trembles by a millimetre or two nothing is said.
    assert!(told("flap.svg", &drawn([0, 1, -1, 2, 0])).is_empty());
    only(&told("flap.svg", &drawn([0, 15, 0, 15, 0])), &["flap (", "grows by leaps, "]);
}

#[test]
fn a_size_of_a_large_piece_that_was_not_graded_is_told() {
    let drawn = |of_m: i32| {
        layers(&["S", "M", "L"], |size, step| {
            let step = if size == "M" { of_m } else { step };
            format!("<path id='back' d='M0 0 H{} V{} H0 Z'/>", 250 + 10 * step, 560 + 8 * step)
        })
    };
    assert!(told("back.svg", &drawn(1)).is_empty());
    only(&told("back.svg", &drawn(0)), &["back (", "it is the same in S and M, point by point"]);
}

/// A corner of a front that does not move at all, and lies off in M alone: the more it does the surer it is told.
#[test]
fn a_corner_farther_off_is_told_no_less() {
    let drawn = |off: i32| {
        layers(&["S", "M", "L"], |size, step| {
            let (wide, long) = (240 + 10 * step, 470 + 6 * step);
            let off = if size == "M" { off } else { 0 };
            format!("<path id='front' d='M{off} 0 H{wide} V{long} L{} {} H0 Z'/>", wide - 90, long + 60)
        })
    };
    assert!(told("front.svg", &drawn(0)).is_empty());
    for off in [10, 12, 14, 18, 30] {
        let remarks = told("front.svg", &drawn(off));
        assert!(remarks.iter().any(|one| one.contains(&format!("{off} mm off in M"))), "{off}: {remarks:?}");
    }
}
