//! Every seam of the six examples measured again by another route: the pieces' curves taken apart
//! into chords by the Bernstein polynomials, the chords measured by `geo`, and the edges of each
//! seam counted by hand as the language says.

use fustian::emit::{document, to_text};
use fustian::source::MemoryLoader;
use fustian::{Compiled, compile};
use geo::{Euclidean, Length, LineString};
use kurbo::{PathSeg, Point};
use serde_json::Value as Json;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

/// One sewing of each seam: what lies end to end on each ply (`and` between plies), with how much
/// of the drawn edge is in it. By hand, from the files and the language's page: a half on the fold
/// that is sewn once round counts both halves, and so does a pair; the ends of collar, waistband,
/// hem band and cuff are folded, so that half of each lies in its seam; what is said of no layer
/// is sewn in all that have its pieces. Where a seam is sewn in two layers it stands twice.
const SEWN: &[(&str, &str)] = &[
    (
        "deck-smock.fus",
        "shoulder     outer.front.shoulder = outer.back.shoulder
         armhole      outer.sleeve.cap = outer.front.armhole + outer.back.armhole
         side         outer.front.side = outer.back.side
         sleeve       outer.sleeve.under_front = outer.sleeve.under_back
         collar_ends  ½ outer.collar.left = ½ outer.collar.right
         collar       outer.collar.bottom and outer.collar.top = 2 outer.front.neckline + 2 outer.back.neckline
         hem_band_ends    ½ knit.hem_band.left = ½ knit.hem_band.right
         hem_band     knit.hem_band.bottom and knit.hem_band.top = 2 outer.front.hem + 2 outer.back.hem
         cuff_ends    ½ knit.cuff.left = ½ knit.cuff.right
         cuff         knit.cuff.top and knit.cuff.bottom = outer.sleeve.wrist",
    ),
    (
        "deck-jacket.fus",
        "shoulder     outer.front.shoulder = outer.back.shoulder
         shoulder     lining.front.shoulder = lining.back.shoulder
         armhole      outer.sleeve.cap = outer.front.armhole + outer.back.armhole
         armhole      lining.sleeve.cap = lining.front.armhole + lining.back.armhole
         side         outer.front.side = outer.back.side
         side         lining.front.side = lining.back.side
         sleeve       outer.sleeve.under_front = outer.sleeve.under_back
         sleeve       lining.sleeve.under_front = lining.sleeve.under_back
         collar       outer.collar.bottom = 2 outer.front.neckline + 2 outer.back.neckline
         collar_inside  outer.collar.top = 2 lining.front.neckline + 2 lining.back.neckline
         hem_band     knit.hem_band.bottom = 2 outer.front.hem + 2 outer.back.hem
         hem_band_inside   knit.hem_band.top = 2 lining.front.hem + 2 lining.back.hem
         cuff_ends    ½ knit.cuff.left = ½ knit.cuff.right
         cuff         knit.cuff.top and knit.cuff.bottom = outer.sleeve.wrist and lining.sleeve.wrist
         front_edge   outer.front.centre = lining.front.centre",
    ),
    (
        "oilskin-trousers.fus",
        "outseam       outer.front.side = outer.back.side
         inseam        outer.front.inseam = outer.back.inseam
         front_crotch  outer.front.crotch = outer.front.crotch
         back_crotch   outer.back.crotch = outer.back.crotch",
    ),
    (
        "mess-jacket.fus",
        "shoulder         outer.front.shoulder = outer.back.shoulder
         armhole          outer.sleeve.cap = outer.front.armhole + outer.back.armhole
         side             outer.front.side = outer.back.side
         facing_edge      facing.front_facing.inner = lining.front_lining.inner
         lining_shoulder  facing.front_facing.shoulder + lining.front_lining.shoulder = lining.back.shoulder
         lining_armhole   lining.sleeve.cap = lining.front_lining.armhole + lining.back.armhole
         lining_side      lining.front_lining.side = lining.back.side
         sleeve           outer.sleeve.under_front = outer.sleeve.under_back
         sleeve           lining.sleeve.under_front = lining.sleeve.under_back
         outer_neck       2 outer.collar.neck = 2 outer.front.neckline + 2 outer.back.neckline
         inner_neck       2 facing.collar.neck = 2 facing.front_facing.neckline + 2 lining.back.neckline
         collar_edge      2 outer.collar.top + 2 outer.collar.end = 2 facing.collar.top + 2 facing.collar.end
         front_edge       outer.front.front_edge + outer.front.stand_top = facing.front_facing.front_edge + facing.front_facing.stand_top
         hem              2 outer.front.hem + 2 outer.back.hem = 2 facing.front_facing.hem + 2 lining.front_lining.hem + 2 lining.back.hem
         wrist            outer.sleeve.wrist = lining.sleeve.wrist",
    ),
    (
        "mess-skirt.fus",
        "side         outer.front.side = outer.back.side
         centre_back  outer.back.centre = outer.back.centre
         waist        outer.waistband.bottom and outer.waistband.top = 2 outer.front.waist + 2 outer.back.waist",
    ),
    ("galley-apron.fus", ""),
];

/// How far two ways of measuring may lie apart, in millimetres.
const CLOSE: f64 = 0.05;
/// Chords of one curve: of a metre of it each is a quarter of a millimetre, so that even at a
/// radius of 10 mm the chords are together 3·10⁻⁵ of a metre shorter than the curve.
const CHORDS: u32 = 4096;

/// An example, compiled.
pub fn example(file: &str) -> Compiled {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let texts = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let texts = texts.filter(|path| path.extension().is_some_and(|extension| extension == "fus"));
    let loader = texts.fold(MemoryLoader::new(), |loader, path| {
        let name = path.file_name().and_then(|name| name.to_str()).unwrap();
        loader.with(name, fs::read_to_string(&path).unwrap().as_str())
    });
    compile(&loader, file)
}

/// Places along a segment, from its definition: a straight line, or the Bernstein polynomial of its
/// control points.
fn places(segment: &PathSeg) -> Vec<Point> {
    let control = match segment {
        PathSeg::Line(line) => return vec![line.p0, line.p1],
        PathSeg::Quad(quad) => vec![quad.p0, quad.p1, quad.p2],
        PathSeg::Cubic(cubic) => vec![cubic.p0, cubic.p1, cubic.p2, cubic.p3],
    };
    let binomial: &[f64] = if control.len() == 3 { &[1.0, 2.0, 1.0] } else { &[1.0, 3.0, 3.0, 1.0] };
    let degree = control.len() as i32 - 1;
    let at = |step: u32| {
        let t = f64::from(step) / f64::from(CHORDS);
        let weights =
            (0..).zip(binomial).map(|(nth, binomial)| binomial * (1.0 - t).powi(degree - nth) * t.powi(nth));
        weights.zip(&control).fold(Point::ZERO, |sum, (weight, point)| {
            Point::new(sum.x + weight * point.x, sum.y + weight * point.y)
        })
    };
    (0..=CHORDS).map(at).collect()
}

fn measured(points: &[Point]) -> f64 {
    let line: LineString = points.iter().map(|point| (point.x, point.y)).collect::<Vec<_>>().into();
    Euclidean.length(&line)
}

/// The stitching line of every edge of every part in one size, by `layer.piece.edge`.
pub fn edges(compiled: &Compiled, size: usize) -> BTreeMap<String, f64> {
    let mut lengths: BTreeMap<String, f64> = BTreeMap::new();
    let (garment, sized) = (&compiled.garment, &compiled.sizes[size].drawn);
    for row in &sized.cut_list {
        let drawn = sized.papers[row.part.paper.index()].as_ref().unwrap();
        let layer = &garment.layer(row.part.layer).name;
        for edge in &drawn.edges {
            let name =
                format!("{layer}.{}.{}", garment.piece(row.part.piece).name, garment.edge(edge.edge).name);
            let length: f64 = edge.path.segments().iter().map(|segment| measured(&places(segment))).sum();
            *lengths.entry(name).or_default() += length;
        }
    }
    lengths
}

/// The lengths of the plies of one side, as it is written above.
fn plies(side: &str, edges: &BTreeMap<String, f64>) -> Vec<f64> {
    let run = |run: &str| {
        let (times, edge) = match run.trim().split_once(' ') {
            Some(("2", edge)) => (2.0, edge),
            Some(("½", edge)) => (0.5, edge),
            Some((other, _)) => panic!("{other} times?"),
            None => (1.0, run.trim()),
        };
        times * edges.get(edge).unwrap_or_else(|| panic!("there is no {edge}"))
    };
    side.split(" and ").map(|ply| ply.split(" + ").map(run).sum()).collect()
}

/// The layers that a row speaks of, in alphabetical order.
fn layers(sides: &str) -> BTreeSet<String> {
    let words = sides.split_whitespace().filter(|word| word.contains('.'));
    words.filter_map(|word| word.split('.').next()).map(str::to_owned).collect()
}

fn written(compiled: &Compiled) -> Json {
    let (garment, map) = (&compiled.garment, &compiled.map);
    let written = document(garment, &compiled.sizes, map, &compiled.diagnostics);
    serde_json::from_str(&to_text(&written).unwrap()).unwrap()
}

#[test]
fn the_examples_seams_measured_again_are_as_long() {
    for (file, rows) in SEWN {
        let compiled = example(file);
        let document = written(&compiled);
        let sizes = document["sizes"].as_array().unwrap();
        assert_eq!(sizes.len(), if *file == "galley-apron.fus" { 1 } else { 6 }, "{file}");
        for (at, size) in sizes.iter().enumerate() {
            let edges = edges(&compiled, at);
            let seams = size["seams"].as_array().unwrap();
            assert_eq!(seams.len(), rows.lines().count(), "every seam of {file} is measured");
            for row in rows.lines() {
                let (name, sides) = row.trim().split_once(' ').unwrap();
                let is_it = |seam: &&Json| {
                    let of: BTreeSet<String> = serde_json::from_value(seam["layers"].clone()).unwrap();
                    seam["name"] == name && of == layers(sides)
                };
                let seam = seams.iter().find(is_it).unwrap_or_else(|| panic!("{file}: {row}"));
                let (first, second) = sides.split_once(" = ").unwrap();
                let (first, second) = (plies(first, &edges), plies(second, &edges));
                for (side, expected) in [("first", &first), ("second", &second)] {
                    let found: Vec<f64> = seam[side]["plies"]
                        .as_array()
                        .unwrap()
                        .iter()
                        .map(|ply| ply["length"].as_f64().unwrap())
                        .collect();
                    assert_eq!(found.len(), expected.len(), "{file} {name}");
                    for (found, expected) in found.iter().zip(expected) {
                        let apart = (found - expected).abs();
                        assert!(apart < CLOSE, "{file} {name} {side}: {found}, measured again {expected}");
                    }
                }
                let difference = seam["difference"].as_f64().unwrap();
                assert!((difference - (first[0] - second[0])).abs() < CLOSE, "{file} {name}: {difference}");
            }
        }
    }
}

/// A stitching line as it is written, drawn again from its SVG path data (W3C, SVG 1.1, 8.3).
fn redrawn(path: &str) -> Vec<Point> {
    let spaced: String = path
        .chars()
        .flat_map(|letter| match letter {
            'M' | 'L' | 'C' | 'Z' => vec![' ', letter, ' '],
            _ => vec![letter],
        })
        .collect();
    let mut line: Vec<Point> = Vec::new();
    let mut command = "";
    let mut numbers: Vec<f64> = Vec::new();
    for word in spaced.split_whitespace() {
        if word.starts_with(char::is_alphabetic) {
            command = word;
        } else {
            numbers.push(word.parse().unwrap());
        }
        let last = line.last().copied();
        match (command, numbers.as_slice()) {
            ("M" | "L", &[x, y]) => line.push(Point::new(x, y)),
            ("C", &[a, b, c, d, x, y]) => {
                let [first, second, end] = [(a, b), (c, d), (x, y)].map(Point::from);
                let curve = kurbo::CubicBez::new(last.unwrap(), first, second, end);
                line.extend(places(&PathSeg::Cubic(curve)));
            }
            ("Z", []) => line.push(line[0]),
            _ => continue,
        }
        numbers.clear();
    }
    line
}

/// Points are written to 0.01 mm: of each of some dozen the length round takes at most as much.
#[test]
fn the_stitching_lines_written_are_as_long_as_their_edges() {
    for (file, _) in SEWN {
        let compiled = example(file);
        for (at, size) in written(&compiled)["sizes"].as_array().unwrap().iter().enumerate() {
            let edges = edges(&compiled, at);
            for piece in size["pieces"].as_array().unwrap() {
                let part = piece["part"].as_str().unwrap();
                let round = measured(&redrawn(piece["stitching_line"].as_str().unwrap()));
                let of_part = edges.iter().filter(|(name, _)| name.rsplit_once('.').unwrap().0 == part);
                let sum: f64 = of_part.map(|(_, length)| length).sum();
                assert!((round - sum).abs() < 2.0 * CLOSE, "{file} {part}: {round} round, {sum} of edges");
            }
        }
    }
}
