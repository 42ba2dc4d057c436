//! Every example, exported as DXF and read again: outlines, stitching lines, sizes, notches, grain, fold, names, copies
//! and marks are what they were.

use crate::brought::{compiled as compiled_text, outline};
use crate::cutting_lines::{cut_all, example};
use fustian::bring::read::dxf::read;
use fustian::bring::traced::{TracedCut, TracedPath, TracedPoint};
use fustian::bring::{BringOptions, ReadOptions, bring};
use fustian::cutting::{CutPart, CutSlit};
use fustian::emit::dxf as write;
use fustian::garment::CutHow;
use fustian::shape::Point;
use fustian::shape::outline::{is_on, signed_area};
use fustian::shape::path::Path;
use kurbo::ParamCurve;

/// Every file of the examples.
pub(crate) fn all_examples() -> Vec<String> {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let names = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().file_name());
    let mut names: Vec<String> =
        names.filter_map(|name| name.into_string().ok()).filter(|name| name.ends_with(".fus")).collect();
    names.sort();
    names
}

fn as_path(path: &TracedPath) -> Vec<Path> {
    path.segments.iter().filter_map(|segment| Path::from_segments([segment.course]).ok()).collect()
}

/// Each lies within 0.05 mm of the other, both ways; the sides of slits, which are one line, are cut-outs.
fn are_alike(read: &TracedPath, slits: &[Path], drawn: &[Path], whose: &str) {
    let read = as_path(read);
    for at in drawn.iter().flat_map(|path| path.flatten(0.001)) {
        assert!(is_on(&read, at, 0.05) || is_on(slits, at, 0.05), "{whose}: {at:?} is not on what was read");
    }
    for at in
        read.iter().flat_map(|path| [path.start(), path.position_at(path.length() / 2.0).into_point(path)])
    {
        assert!(is_on(drawn, at, 0.05), "{whose}: {at:?} is not on what was drawn");
    }
}

trait IntoPoint {
    fn into_point(self, path: &Path) -> Point;
}

impl IntoPoint for fustian::shape::path::Position {
    fn into_point(self, path: &Path) -> Point {
        path.segments()[self.segment].eval(self.t)
    }
}

/// The same points, in any order; DXF rounds to 0.001 mm.
fn are_same(mut read: Vec<Point>, mut drawn: Vec<Point>, whose: &str) {
    let key = |at: &Point| ((at.x * 100.0).round() as i64, (at.y * 100.0).round() as i64);
    read.sort_by_key(key);
    drawn.sort_by_key(key);
    assert_eq!(read.len(), drawn.len(), "{whose}: {read:?} {drawn:?}");
    for at in &drawn {
        assert!(read.iter().any(|other| other.distance(*at) < 2e-3), "{whose}: {at:?} in {read:?}");
    }
}

fn is_same_line(read: Option<(Point, Point)>, drawn: Option<(Point, Point)>, whose: &str) {
    match (read, drawn) {
        (Some(read), Some(drawn)) => {
            assert!(read.0.distance(drawn.0) < 2e-3 && read.1.distance(drawn.1) < 2e-3, "{whose}");
        }
        (read, drawn) => assert_eq!(read.is_some(), drawn.is_some(), "{whose}"),
    }
}

fn length_of(paths: &[Path]) -> f64 {
    paths.iter().map(Path::length).sum()
}

fn straight(lines: impl Iterator<Item = (Point, Point)>) -> f64 {
    lines.map(|(from, to)| from.distance(to)).sum()
}

/// The length of all that is drawn inside a part.
fn inner_length(part: &CutPart) -> f64 {
    let lines: f64 = part.lines.iter().map(|line| line.path.length()).sum();
    let guides: f64 = part.guides.iter().map(|guide| guide.path.length()).sum();
    let take_ups: f64 = part
        .take_ups
        .iter()
        .map(|one| straight(one.fold.iter().chain(&one.placement).chain(&one.legs).copied()))
        .sum();
    let slits: f64 = part.slits.iter().map(|slit| straight(slit.cuts.iter().copied())).sum();
    lines + guides + take_ups + slits + length_of(&part.rows)
}

/// Once round the window of a slit inside a piece: through the four corners that its cuts come to, which are its
/// outermost points.
fn around(slit: &CutSlit) -> f64 {
    let ends = slit.cuts.iter().flat_map(|&(from, to)| [from, to]);
    let (mut low, mut high) = (Point::new(f64::MAX, f64::MAX), Point::new(f64::MIN, f64::MIN));
    for end in ends {
        low = Point::new(low.x.min(end.x), low.y.min(end.y));
        high = Point::new(high.x.max(end.x), high.y.max(end.y));
    }
    2.0 * (high.x - low.x + high.y - low.y)
}

#[test]
fn every_example_comes_back_from_its_dxf() {
    let (mut parts, mut sizes) = (0, 0);
    for file in all_examples() {
        let compiled = example(&file);
        let garment = &compiled.garment;
        let cuts = cut_all(&compiled);
        let bytes = write(garment, &cuts);
        let traced = match read(&bytes, &file, &ReadOptions::default()) {
            Ok(traced) => traced,
            // A library of fabrics and measures draws nothing.
            Err(_) if cuts.iter().all(|cut| cut.parts.is_empty()) => continue,
            Err(error) => panic!("{error}"),
        };
        assert_eq!(traced.remarks, [""; 0], "{file}");
        assert!(!traced.in_inches);
        let mut read_sizes = 0;
        for (size, cut) in cuts.iter().enumerate() {
            for part in &cut.parts {
                let name = part.name(garment);
                let whose = format!("{file}, {name}, {}", part.label.size);
                let own = traced.pieces.iter().find(|piece| piece.name == name);
                let piece = own.unwrap_or_else(|| panic!("{whose} is not there"));
                let read =
                    piece.sizes.get(&part.label.size).unwrap_or_else(|| panic!("{whose}: no such size"));
                read_sizes += 1;
                parts += 1;
                let ring = part.cutting_ring();
                let cut_outs = read.lines.iter().filter(|line| line.name == "cut-out");
                let cut_outs: Vec<Path> = cut_outs.flat_map(|line| as_path(&line.path)).collect();
                are_alike(&read.outline, &[], &ring, &format!("outline of {whose}"));
                are_alike(
                    read.sew_line.as_ref().unwrap_or(&read.outline),
                    &cut_outs,
                    &part.stitching,
                    &format!("stitching line of {whose}"),
                );
                for path in ring.iter().filter(|path| path.length() > 0.1) {
                    let corner = read.outline.segments.iter().any(|segment| {
                        segment.ends_at == TracedPoint::Corner
                            && segment.course.end().distance(path.start()) < 2e-3
                    });
                    assert!(corner, "{whose}: no corner at {:?}", path.start());
                }
                let snips = part.notches.iter().flat_map(|notch| &notch.snips);
                let snips = snips.chain(part.take_ups.iter().flat_map(|one| &one.snips)).map(|(top, _)| *top);
                are_same(read.notches.iter().map(|notch| notch.at).collect(), snips.collect(), &whose);
                let holes = part.marks.iter().map(|mark| mark.at);
                let holes = holes.chain(part.fasteners.iter().map(|one| one.at));
                let holes = holes.chain(part.take_ups.iter().flat_map(|one| one.points.iter().copied()));
                are_same(read.marks.iter().map(|mark| mark.at).collect(), holes.collect(), &whose);
                is_same_line(read.grain, part.grain_line, &whose);
                let fold = part.fold_path().map(|fold| (fold.start(), fold.end()));
                is_same_line(read.fold, fold, &whose);
                // The stitching line goes round a slit inside the piece besides, once round its window.
                let round: f64 = part.slits.iter().filter(|slit| slit.start.is_some()).map(around).sum();
                let inner: f64 = read.lines.iter().map(|line| length_of(&as_path(&line.path))).sum();
                let expected = inner_length(part) + round;
                assert!((inner - expected).abs() < 0.5, "{whose}: {inner} {expected}");
                let mirrored = part.how == CutHow::Mirrored && !part.label.cut.contains("whole");
                assert_eq!(piece.cut, Some(TracedCut { count: part.copies, mirrored }), "{whose}");
                assert_eq!(piece.material.as_deref(), Some(&*part.label.cloth), "{whose}");
                assert!(read.texts.contains(&part.label.piece), "{whose}: {:?}", read.texts);
            }
            sizes = sizes.max(size + 1);
        }
        let all: usize = traced.pieces.iter().map(|piece| piece.sizes.len()).sum();
        assert_eq!(all, read_sizes, "{file}: more pieces and sizes came back than were exported");
    }
    assert!(parts > 500 && sizes > 3, "{parts} parts, {sizes} sizes");
}

/// And as the text of a garment: none is refused, and every piece has the area in every size that is sewn round, within a
/// thousandth.
#[test]
fn every_example_comes_in_as_a_draft() {
    let options = BringOptions::default();
    let mut parts = 0;
    for file in all_examples() {
        let original = example(&file);
        let cuts = cut_all(&original);
        if cuts.iter().all(|cut| cut.parts.is_empty()) {
            continue;
        }
        let bytes = write(&original.garment, &cuts);
        let brought = bring(&[("drawn.dxf", &bytes)], &options).unwrap_or_else(|why| panic!("{file}: {why}"));
        let back = compiled_text(&brought.text);
        for (size, cut) in cuts.iter().enumerate() {
            for part in &cut.parts {
                let name = part.name(&original.garment);
                let size = size.min(back.sizes.len() - 1);
                let ring = outline(&back, size, &name.replace(['.', ' '], "_").to_lowercase());
                let (area, drawn) = (signed_area(&ring).abs(), signed_area(&part.stitching).abs());
                assert!(
                    (area - drawn).abs() < 1e-3 * drawn,
                    "{file}, {name}, size {size}: {area} and {drawn} mm²"
                );
                parts += 1;
            }
        }
    }
    assert!(parts > 500, "{parts} parts");
}
