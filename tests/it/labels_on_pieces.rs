//! What is written on pieces: inside them, beside where they are folded in wear, large enough to be read, in words that
//! people say. Of every example, in its smallest and its largest size.

use crate::cutting_lines::{cut_all, example};
use crate::workbench::in_memory;
use fustian::compile;
use fustian::cutting::{CutPart, GuideKind};
use fustian::emit::drawing::{DrawnGroup, Group, Ink, Look, What, Words, draw_group, pieces};
use geo::{Contains, Intersects, Line, LineString, Polygon};
use std::fs;
use std::path::Path;

/// Noto Sans: capitals are 714 of the 1000 units of its body (the font's own OS/2 table).
const CAPITALS: f64 = 0.714;
/// The least nominal size of lettering in ISO 3098-1, in millimetres.
const LEAST: f64 = 1.8;

/// Calls back with every piece of every example: which example, what it is drawn of, and the drawing.
fn each_piece(mut look_at: impl FnMut(&str, &Group, &DrawnGroup)) {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let mut names: Vec<String> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .filter(|name| name.ends_with(".fus"))
        .collect();
    names.sort();
    assert!(names.len() > 30);
    for name in &names {
        let compiled = example(name);
        let cuts = cut_all(&compiled);
        if cuts.iter().all(|cut| cut.parts.is_empty()) {
            continue;
        }
        for cuts in [&cuts[..1], &cuts[cuts.len() - 1..]] {
            for group in pieces(&compiled.garment, cuts, &Look::printing()) {
                let drawn = draw_group(&compiled.garment, &group, &Look::printing(), false).unwrap();
                look_at(name, &group, &drawn);
            }
        }
    }
}

fn words(drawn: &DrawnGroup) -> impl Iterator<Item = &Words> {
    drawn.shapes.iter().filter_map(|shape| match &shape.what {
        What::Words(words) => Some(words),
        _ => None,
    })
}

/// The lines of its label: black, where names of lines and marks are grey, and not the sizes in broken lines.
fn label(drawn: &DrawnGroup) -> impl Iterator<Item = &Words> {
    words(drawn).filter(|words| !words.cleared && words.ink == Ink::Dark)
}

fn ground(words: &Words) -> Polygon {
    let corners = words.corners().map(|corner| (corner.x, corner.y));
    Polygon::new(corners.to_vec().into(), Vec::new())
}

fn members<'g>(group: &'g Group<'_>) -> impl Iterator<Item = &'g CutPart> {
    group.members.iter().map(AsRef::as_ref)
}

/// How wide the narrowest strip is between two lines that it is folded along, or between one and an edge: from the middle
/// of each to the nearest other. None of a piece that is not folded.
fn narrowest_strip(part: &CutPart) -> Option<f64> {
    let folds: Vec<_> = part.guides.iter().filter(|guide| guide.kind == GuideKind::Fold).collect();
    let from = |at: usize| {
        let middle = folds[at].path.point_at_length(folds[at].path.length() / 2.0);
        let others = folds.iter().enumerate().filter(|(other, _)| *other != at).map(|(_, fold)| &fold.path);
        others.chain(&part.stitching).map(|path| path.nearest(middle).distance).fold(f64::INFINITY, f64::min)
    };
    (0..folds.len()).map(from).reduce(f64::min)
}

/// A strip of less has no room for a title and one line under it that can be read, with white round them, by hand: of a
/// body of 1.8 / 0.714 x 2 = 5.04, 1.5 bodies at 1.32 from line to line are 9.98, and 0.6 bodies and twice 1.5 are white.
const LEAST_STRIP: f64 = 9.98 + 3.02 + 3.0;

/// No label of a piece that is folded in wear lies over the fold, where each part of it has room.
#[test]
fn no_label_lies_over_a_fold() {
    let mut folded = 0;
    let mut over = Vec::new();
    each_piece(|name, group, drawn| {
        for part in members(group) {
            if narrowest_strip(part).is_none_or(|strip| strip < LEAST_STRIP) {
                continue;
            }
            folded += 1;
            let folds = part.guides.iter().filter(|guide| guide.kind == GuideKind::Fold);
            let folds: Vec<Line> = folds
                .flat_map(|guide| {
                    let chords = guide.path.flatten(0.05);
                    let pairs =
                        chords.windows(2).map(|pair| ((pair[0].x, pair[0].y), (pair[1].x, pair[1].y)));
                    pairs.map(|(from, to)| Line::new(from, to)).collect::<Vec<_>>()
                })
                .collect();
            for words in label(drawn) {
                if folds.iter().any(|fold| ground(words).intersects(fold)) {
                    over.push(format!("{name}: {:?} on {}", words.text, drawn.title));
                }
            }
        }
    });
    assert!(folded > 40, "{folded} pieces are folded");
    assert!(over.is_empty(), "{} over a fold:\n{}", over.len(), over.join("\n"));
}

/// A label lies inside its piece, and its smallest capitals are those of the least nominal size of lettering, on every piece
/// that is as wide and high as a hand and is not folded smaller.
#[test]
fn labels_lie_inside_and_can_be_read() {
    const HAND: f64 = 80.0;
    let (mut inside, mut small) = (0, Vec::new());
    each_piece(|name, group, drawn| {
        for part in members(group) {
            let whole =
                part.stitching.iter().map(|path| path.bounding_box()).reduce(|a, b| a.union(b)).unwrap();
            if whole.width().min(whole.height()) < HAND
                || narrowest_strip(part).is_some_and(|strip| strip < HAND / 2.0)
            {
                continue;
            }
            let ring: LineString = part
                .stitching
                .iter()
                .flat_map(|path| path.flatten(0.1))
                .map(|point| (point.x, point.y))
                .collect::<Vec<_>>()
                .into();
            let ring = Polygon::new(ring, Vec::new());
            for words in label(drawn) {
                if !ring.contains(&ground(words)) {
                    small.push(format!("{name}: {:?} outside {}", words.text, drawn.title));
                } else if words.size * CAPITALS < LEAST {
                    small.push(format!("{name}: {:?} on {}: {:.2}", words.text, drawn.title, words.size));
                }
                inside += 1;
            }
        }
    });
    assert!(inside > 800, "{inside}");
    assert!(small.is_empty(), "{} of {inside}:\n{}", small.len(), small.join("\n"));
}

/// Nothing says a name with the marks of the language in it: "slit.far" is a side of a slit.
#[test]
fn no_label_says_a_name_of_the_language() {
    let mut said = 0;
    each_piece(|name, _, drawn| {
        for words in words(drawn) {
            let letters: Vec<char> = words.text.chars().collect();
            let is_raw =
                |three: &[char]| three[1] == '.' && three[0].is_alphabetic() && three[2].is_alphabetic();
            assert!(
                !words.text.contains('_') && !letters.windows(3).any(is_raw),
                "{name}: {:?} on {}",
                words.text,
                drawn.title
            );
            said += usize::from(words.text.contains("both sides of"));
        }
    });
    assert!(said > 0, "the shirt's sleeve is slit");
}

/// A waistband that goes on beyond its closing, 4 cm deep and folded: its edges are parted into runs, and yet it is folded
/// from end to end, 4 cm from either edge.
#[test]
fn a_band_with_an_underlap_is_folded() {
    let text = r#"garment "Mess skirt with a wrapped waist"
units cm
allowance 1.5
sizes S, M
body { hip 75, 76 }
fabric wool "navy wool" { width 150; kind woven firm }
fabric stay "fusible" { width 90 }
layer outer in wool { front, back, waistband }
layer firm in stay fused { waistband }
piece front "Front" { cut 1 on fold left; outline rectangle 20 by 50 }
piece back "Back" { cut 2 mirrored; outline rectangle 20 by 50 }
seam side    front.right to back.right
seam centre  back.left to back.left
closure zip  back.left 20 from top_left to back.left 20 from top_left { zipper concealed 20 }
band waistband "Waistband" in outer 4 deep folded grain across along front.top + back.top opening at zip underlap 3 at left stiffened firm
finish front.bottom, back.bottom  hem 3 turned under 1
opening front.top + back.top  passes hip
"#;
    let compiled = compile(&in_memory(&[("skirt.fus", text)]), "skirt.fus");
    assert!(!compiled.has_mistakes(), "{:?}", compiled.diagnostics);
    let mut bands = 0;
    for part in
        cut_all(&compiled).iter().flat_map(|cut| &cut.parts).filter(|part| part.label.piece == "Waistband")
    {
        let folds: Vec<_> = part.guides.iter().filter(|guide| guide.kind == GuideKind::Fold).collect();
        assert_eq!(folds.len(), 1);
        let fold = folds[0].path.bounding_box();
        let whole = part.stitching.iter().map(|path| path.bounding_box()).reduce(|a, b| a.union(b)).unwrap();
        // The grain goes across: the band may lie either way.
        let (long, below, above) = match whole.width() > whole.height() {
            true => (fold.width() - whole.width(), fold.y0 - whole.y0, whole.y1 - fold.y1),
            false => (fold.height() - whole.height(), fold.x0 - whole.x0, whole.x1 - fold.x1),
        };
        assert!(long.abs() < 1e-6 && (below - 40.0).abs() < 1e-6 && (above - 40.0).abs() < 1e-6);
        bands += 1;
    }
    assert_eq!(bands, 4, "outside and fusing, in two sizes");
}

/// Where a tie is sewn on, a quarter along an edge, stands what it is called, and not how the place was said.
#[test]
fn a_place_of_a_strap_is_called_after_the_strap() {
    let text = r#"garment "Galley apron"
units cm
allowance 1
fabric canvas "apron canvas" { width 150 }
layer outer in canvas { apron }
piece apron "Apron" { cut 1; outline rectangle 70 by 90; mark pocket_corner = (20, 40) }
finish apron.left, apron.top, apron.right, apron.bottom  hem 2
strap tie "Apron tie" 40 by 1.5 in outer folded in four { from apron.top 25% from top_left to free }
"#;
    let compiled = compile(&in_memory(&[("apron.fus", text)]), "apron.fus");
    let cuts = cut_all(&compiled);
    let part = cuts[0].parts.iter().find(|part| part.label.piece == "Apron").unwrap();
    let names: Vec<&str> = part.marks.iter().map(|mark| &*mark.name).collect();
    assert_eq!(names, ["pocket corner", "Apron tie"], "{:?}", compiled.diagnostics);
}
