//! What a maker prints of sizes in one another: the pages that her size needs, under the names that they have among all; and no
//! line along the frame at which a page is trimmed.

use crate::cutting_lines::{cut_all, example};
use crate::printing::{MARGIN, OVERLAP, places, strokes};
use crate::workbench::{err, folder_of, run};
use fustian::Compiled;
use fustian::emit::drawing::Look;
use fustian::emit::{Paper, pdf};
use lopdf::Document;
use std::collections::BTreeSet;
use std::path::Path;

/// An awning for the boarding ladder in three sizes, cut 2 cm larger on every side: 54, 84 and 114 cm long and 44 cm high.
const AWNING: &str = "garment \"Ladder awning\"\nunits cm\nsizes S, M, L\nbody { long 50, 80, 110 }\n\
    fabric canvas \"canvas\" { width 150 }\nlayer outer in canvas { body }\n\
    piece body \"Body\" { cut 1; outline rectangle long by 40 }\n\
    finish body.bottom, body.right, body.top, body.left  hem 2\n";

fn printed(folder: &Path, more: &[&str]) -> Document {
    let mut arguments = vec!["print", "awning.fus", "-o", "awning.pdf"];
    arguments.extend(more);
    let made = run(folder, &arguments);
    assert_eq!(made.status.code(), Some(0), "{}", err(&made));
    Document::load(folder.join("awning.pdf")).unwrap()
}

/// Rows and columns of all pages, counted from 1.
fn names(document: &Document) -> BTreeSet<(usize, usize)> {
    places(document).into_values().collect()
}

/// The parts of all lines that are as wide as cutting lines of sizes and those that they share, each once, where they
/// lie on the pages put together; A4.
fn cut_lines(document: &Document) -> Vec<Vec<(f64, f64)>> {
    let pages = document.get_pages();
    let mut found: Vec<Vec<(f64, f64)>> = Vec::new();
    for (page, (row, column)) in places(document) {
        let right = (column - 1) as f64 * (210.0 - 2.0 * MARGIN - OVERLAP);
        let down = (row - 1) as f64 * (297.0 - 2.0 * MARGIN - OVERLAP);
        for stroke in strokes(document, pages[&page]).into_iter().filter(|stroke| stroke.width > 0.48) {
            let mut points: Vec<(f64, f64)> =
                stroke.points.iter().map(|(x, y)| (x - MARGIN + right, 297.0 - MARGIN - y + down)).collect();
            if stroke.closed {
                points.push(points[0]);
            }
            if !found.iter().any(|known| is_same(known, &points)) {
                found.push(points);
            }
        }
    }
    found
}

fn is_same(one: &[(f64, f64)], other: &[(f64, f64)]) -> bool {
    let near = |(a, b): (&(f64, f64), &(f64, f64))| (a.0 - b.0).hypot(a.1 - b.1) < 0.05;
    one.len() == other.len() && one.iter().zip(other).all(near)
}

/// Width and height of all lines together, and how long they are.
fn measured(lines: &[Vec<(f64, f64)>]) -> (f64, f64, f64) {
    let all = || lines.iter().flatten();
    let side = |of: fn(&(f64, f64)) -> f64| {
        all().map(of).fold(f64::MIN, f64::max) - all().map(of).fold(f64::MAX, f64::min)
    };
    let pairs = lines.iter().flat_map(|line| line.windows(2));
    let long = pairs.map(|pair| (pair[0].0 - pair[1].0).hypot(pair[0].1 - pair[1].1)).sum();
    (side(|point| point.0), side(|point| point.1), long)
}

/// By hand: M is cut 84 cm by 44, all round 256 cm; L 114 by 44. The pages of A4 lie 174 mm apart, so that L, 300 mm
/// longer than M, needs at least one column more. What M does not need the map of the nest tells.
#[test]
fn a_size_is_printed_on_its_pages_of_the_nest() {
    let folder = folder_of(&[("awning.fus", AWNING)]);
    let nest = printed(folder.path(), &[]);
    let of_nest = printed(folder.path(), &["--nest", "--size", "M"]);
    let (all, own) = (names(&nest), names(&of_nest));
    assert!(own.len() < all.len() && own.is_subset(&all), "{own:?} of {all:?}");
    // "M: not 1-6, 2-6" stands beside the map; a long list may be parted.
    let cover = nest.extract_text(&[1]).unwrap().replace('\n', " ");
    let told = cover.split("Which pages to print for a size:").nth(1).expect("what each size needs");
    let of_m = told.split("M: not ").nth(1).expect("what M does not need");
    let without: BTreeSet<(usize, usize)> = of_m
        .split([',', ' '])
        .filter(|word| !word.is_empty())
        .map_while(|word| {
            let (row, column) = word.split_once('-')?;
            Some((row.parse().ok()?, column.parse().ok()?))
        })
        .collect();
    assert_eq!(&own | &without, all);
    assert!(own.is_disjoint(&without), "{own:?} and {without:?}");
    // Put together they give M's cutting line, all of it and nothing else.
    let (wide, high, long) = measured(&cut_lines(&of_nest));
    assert!((wide - 840.0).abs() < 0.05 && (high - 440.0).abs() < 0.05, "{wide} by {high}");
    assert!((long - 2560.0).abs() < 0.1, "{long}");
    // In the nest L is the longest, and M lies in it where it was printed by itself.
    let (wide, high, _) = measured(&cut_lines(&nest));
    assert!((wide - 1140.0).abs() < 0.05 && (high - 440.0).abs() < 0.05, "{wide} by {high}");
    let in_nest: Vec<Vec<(f64, f64)>> = cut_lines(&nest);
    for line in cut_lines(&of_nest) {
        assert!(in_nest.iter().any(|other| is_same(other, &line)), "{line:?}");
    }
    let cover = of_nest.extract_text(&[1]).unwrap().replace('\n', " ");
    let said = format!("{} of the {} pages of all sizes", own.len(), all.len());
    assert!(cover.contains(&said), "{said}: {cover}");
    assert!(cover.contains("cut M") && !cover.contains("cut L"), "{cover}");
}

/// Printed without the nest a size has pages of its own: by hand its 84 cm and 44 cm take at most 5 columns and 2 rows.
#[test]
fn a_size_by_itself_has_pages_of_its_own() {
    let folder = folder_of(&[("awning.fus", AWNING)]);
    let alone = printed(folder.path(), &["--size", "M"]);
    let columns = names(&alone).into_iter().map(|(_, column)| column).max();
    assert!(columns.is_some_and(|columns| columns <= 5), "{columns:?}");
    // All sizes of a nest are the nest; and without a size nothing can be left out.
    let every = printed(folder.path(), &["--nest", "--size", "S", "--size", "M", "--size", "L"]);
    assert_eq!(names(&every), names(&printed(folder.path(), &[])));
    for arguments in [
        &["print", "awning.fus", "--nest", "-o", "no.pdf"][..],
        &["print", "awning.fus", "--nest", "--size", "X", "-o", "no.pdf"],
    ] {
        let refused = run(folder.path(), arguments);
        assert_eq!(refused.status.code(), Some(2), "{}", err(&refused));
    }
    // On a wide page it lies where it lies among all.
    let made = run(
        folder.path(),
        &["print", "awning.fus", "--nest", "--size", "M", "--wide", "150cm", "-o", "wide.pdf"],
    );
    assert_eq!(made.status.code(), Some(0), "{}", err(&made));
}

/// Lines of pieces that lie along the left or the upper frame of a page: straight ones of 15 mm and more, within half a degree
/// of it and 1 mm off, twice what a cutting line is wide to one side. Where the frame is the dotted line of another page, that is the same line of the drawing.
fn along_frames(compiled: &Compiled, paper: Paper) -> Vec<String> {
    let bytes = pdf(&compiled.garment, &cut_all(compiled), paper, &Look::printing(), &mut |_, _| {}).unwrap();
    let document = Document::load_mem(&bytes).unwrap();
    let pages = document.get_pages();
    let (width, height) = paper.size();
    let field = |at: (f64, f64)| {
        (MARGIN - 1.5..=width - MARGIN).contains(&at.0) && (MARGIN..=height - MARGIN + 1.5).contains(&at.1)
    };
    let mut found = Vec::new();
    for (page, place) in places(&document) {
        let lines = strokes(&document, pages[&page]).into_iter().filter(|stroke| stroke.width > 0.28);
        for stroke in lines {
            let closing = stroke.closed.then(|| [stroke.points[stroke.points.len() - 1], stroke.points[0]]);
            for [a, b] in stroke.points.windows(2).map(|pair| [pair[0], pair[1]]).chain(closing) {
                let (across, up) = ((a.0 - b.0).abs(), (a.1 - b.1).abs());
                let upright = up >= 15.0 && across <= up * 0.0087 && (a.0 - MARGIN).abs() < 1.0;
                let level = across >= 15.0 && up <= across * 0.0087 && (a.1 - (height - MARGIN)).abs() < 1.0;
                // A line that goes through a page lies on it somewhere.
                let steps = (across + up).ceil().max(1.0) as usize;
                let is_here = (0..=steps).any(|step| {
                    let share = step as f64 / steps as f64;
                    field((a.0 + (b.0 - a.0) * share, a.1 + (b.1 - a.1) * share))
                });
                if (upright || level) && is_here {
                    found.push(format!("page {place:?}: {a:?} to {b:?}"));
                }
            }
        }
    }
    found
}

#[test]
fn no_line_lies_along_the_frame_of_any_example() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let mut names: Vec<String> = std::fs::read_dir(folder)
        .unwrap()
        .filter_map(|entry| entry.unwrap().file_name().into_string().ok())
        .filter(|name| name.ends_with(".fus"))
        .collect();
    names.sort();
    let mut tried = 0;
    for (at, name) in names.iter().enumerate() {
        let compiled = example(name);
        if compiled.has_mistakes()
            || compiled.sizes.iter().all(|size| size.cut(&compiled.garment).parts.is_empty())
        {
            continue;
        }
        let paper = [Paper::A4, Paper::Letter, Paper::A4, Paper::A3][at % 4];
        assert_eq!(along_frames(&compiled, paper), Vec::<String>::new(), "{name} on {paper:?}");
        tried += 1;
    }
    assert!(tried >= 25, "{tried}");
}
