//! The pictures of a sheet: where pieces lie in them, which edges they mark, and that nothing else is in them.

use crate::workbench::example;
use fustian::sewing::order::{Job, Work};
use fustian::sheet::pictures::{Caption, Picture, Pictures, WIDTH, defs, style};
use fustian::sheet::{Facts, PointIs, meeting_points};
use fustian::source::MemoryLoader;
use fustian::{Compiled, compile};
use kurbo::{BezPath, Rect, Shape as _};
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use std::time::{Duration, Instant};

/// The crew's oilskin pouch: two pieces, 24 cm by 16 cm, sewn to one another along one side.
const POUCH: &str = r#"
garment "Oilskin pouch"
units cm
allowance 1
fabric oilskin "oilskin" { width 150 }
layer outer in oilskin { front, back }
piece front "Front" { cut 1; outline rectangle 24 by 16 }
piece back "Back" { cut 1; outline rectangle 24 by 16 }
seam side  front.left to back.right { matching front.top_left with back.top_right }
finish front.bottom, front.right, front.top, back.bottom, back.left, back.top  overlocked
"#;

pub fn compiled(text: &str) -> Compiled {
    let compiled = compile(&MemoryLoader::new().with("own.fus", text), "own.fus");
    assert!(!compiled.has_mistakes(), "{:#?}", compiled.diagnostics.first());
    compiled
}

/// The picture of the first step that does such a job.
pub fn picture_of(facts: &Facts, is_it: impl Fn(&Job) -> bool) -> Picture {
    let step = facts.rows.iter().position(|row| {
        let targets = row.targets(&facts.plan);
        targets.iter().flat_map(|target| &target.jobs).any(&is_it)
    });
    Pictures::of(facts).steps[step.expect("a step does it")].clone().expect("it is shown")
}

/// How far apart the ends of a line lie.
pub fn long(drawn: &Drawn) -> f64 {
    let (from, to) = (drawn.points[0], drawn.points[drawn.points.len() - 1]);
    f64::hypot(to.0 - from.0, to.1 - from.1)
}

/// Calls `look` with what a sheet is made of.
pub fn with_facts<T>(compiled: &Compiled, look: impl FnOnce(&Facts) -> T) -> T {
    let document = compiled.document().expect("it has no mistakes");
    let facts = Facts::of(&compiled.garment, compiled.sizes.iter().collect(), &document);
    look(&facts.expect("there is a size"))
}

pub fn said(caption: Caption) -> String {
    format!("{caption:?}")
}

/// The pictures of all steps that have one, as SVG.
fn steps(compiled: &Compiled) -> Vec<String> {
    with_facts(compiled, |facts| {
        let pictures = Pictures::of(facts);
        pictures.steps.iter().flatten().map(|picture| picture.svg("a step", &said)).collect()
    })
}

/// Every example garment by its name, with all that it is made of.
fn examples() -> Vec<(String, Compiled)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let mut names: Vec<String> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|extension| extension == "fus"))
        .map(|path| path.file_stem().unwrap().to_str().unwrap().to_owned())
        .collect();
    names.sort();
    let loader = names.iter().fold(MemoryLoader::new(), |loader, name| {
        loader.with(&format!("{name}.fus"), example(name).as_str())
    });
    let all = names.into_iter().map(|name| {
        let compiled = compile(&loader, &format!("{name}.fus"));
        (name, compiled)
    });
    all.filter(|(_, compiled)| compiled.document().is_ok()).collect()
}

/// A shape of a picture: its class, and the places that its path goes through.
pub struct Drawn {
    pub class: String,
    data: String,
    pub points: Vec<(f64, f64)>,
    numbers: Vec<f64>,
}

impl Drawn {
    /// Left, top, right, bottom.
    pub fn bounds(&self) -> [f64; 4] {
        let fold = |start: f64, of: &dyn Fn(f64, f64) -> f64, pick: &dyn Fn(&(f64, f64)) -> f64| {
            self.points.iter().map(pick).fold(start, of)
        };
        [
            fold(f64::INFINITY, &f64::min, &|at| at.0),
            fold(f64::INFINITY, &f64::min, &|at| at.1),
            fold(f64::NEG_INFINITY, &f64::max, &|at| at.0),
            fold(f64::NEG_INFINITY, &f64::max, &|at| at.1),
        ]
    }
}

/// The paths of a picture whose places are all written from the same origin.
pub fn drawn(svg: &str) -> Vec<Drawn> {
    let document = roxmltree::Document::parse(svg).expect("it is well formed");
    let paths = document.descendants().filter(|node| node.has_tag_name("path"));
    let each = paths.map(|node| {
        let data = node.attribute("d").unwrap_or_default();
        let text: String =
            data.chars().map(|one| if one.is_ascii_alphabetic() && one != 'e' { ' ' } else { one }).collect();
        let numbers: Vec<f64> = text.split_whitespace().map(|one| one.parse().unwrap()).collect();
        let is_from_origin = data.chars().all(|one| !"mlhvcqtazHV".contains(one));
        let points = if is_from_origin {
            numbers.chunks_exact(2).map(|pair| (pair[0], pair[1])).collect()
        } else {
            Vec::new()
        };
        Drawn {
            class: node.attribute("class").unwrap_or_default().to_owned(),
            data: data.to_owned(),
            points,
            numbers,
        }
    });
    each.collect()
}

pub fn of_class<'d>(drawn: &'d [Drawn], class: &str) -> Vec<&'d Drawn> {
    drawn.iter().filter(|one| one.class == class).collect()
}

/// Front and back lie side by side, right sides up and as large as each other, 24 to 16; folded over along the seam they lie
/// exactly on one another, one of them with its wrong side up.
#[test]
fn a_piece_lies_beside_the_edge_that_it_is_sewn_to_and_then_on_it() {
    let compiled = compiled(POUCH);
    with_facts(&compiled, |facts| {
        let sewn = facts.rows.iter().position(|row| {
            row.targets(&facts.plan).iter().any(|one| matches!(one.jobs.as_slice(), [Job::Seam(_)]))
        });
        let pictures = Pictures::of(facts);
        let picture = pictures.steps[sewn.expect("the seam is sewn")].as_ref().expect("it is shown");
        assert_eq!(picture.captions(), [Caption::WhichEdges, Caption::UnderTheNeedle]);
        assert_eq!(
            picture.pieces().into_iter().collect::<BTreeSet<String>>(),
            BTreeSet::from(["Back".to_owned(), "Front".to_owned()])
        );
        let drawn = drawn(&picture.svg("a step", &said));
        let up = of_class(&drawn, "r0");
        let down = of_class(&drawn, "w0");
        assert_eq!((up.len(), down.len()), (3, 1), "two apart, and one under the other");
        let (one, other) = (up[0].bounds(), up[1].bounds());
        for [left, top, right, bottom] in [one, other] {
            assert!(((right - left) / (bottom - top) - 24.0 / 16.0).abs() < 0.02, "{one:?} {other:?}");
        }
        assert!(one[2] < other[0] || other[2] < one[0], "they lie apart: {one:?} {other:?}");
        assert!((one[1] - other[1]).abs() < 0.5, "and on a level: {one:?} {other:?}");
        let (under, over) = (up[2].bounds(), down[0].bounds());
        assert!(under.iter().zip(over).all(|(one, other)| (one - other).abs() < 0.5), "{under:?} {over:?}");
        // The edges of the side are 16 cm high: as high as the pieces.
        let now = of_class(&drawn, "n");
        assert_eq!(now.len(), 2);
        for edge in now {
            let [left, top, right, bottom] = edge.bounds();
            assert!(right - left < 0.5 && (bottom - top - (one[3] - one[1])).abs() < 0.5);
        }
    });
}

/// What is worn the same on both sides of the body is its own mirror image, front and back.
#[test]
fn the_garment_is_assembled_like_its_mirror_image() {
    let wanted = ["deck-jacket", "deck-smock", "raglan-jersey", "purser-shirt", "mess-jacket"];
    for (name, compiled) in examples().into_iter().filter(|(name, _)| wanted.contains(&name.as_str())) {
        let picture = with_facts(&compiled, |facts| Pictures::of(facts).garment.expect("it is shown"));
        assert_eq!(picture.captions(), [Caption::Front, Caption::Back], "{name}");
        let drawn = drawn(&picture.svg("the garment", &said));
        let is_cloth = |one: &&Drawn| ["r0", "r1", "h0", "h1"].contains(&one.class.as_str());
        let cloths: Vec<[f64; 4]> = drawn.iter().filter(is_cloth).map(Drawn::bounds).collect();
        // Body, sleeves and bands, twice.
        assert!(cloths.len() >= 10, "{name}: {}", cloths.len());
        for [left, top, right, bottom] in &cloths {
            let is_there = cloths.iter().any(|[other_left, other_top, other_right, other_bottom]| {
                let off = [
                    WIDTH - right - other_left,
                    WIDTH - left - other_right,
                    top - other_top,
                    bottom - other_bottom,
                ];
                off.iter().all(|off| off.abs() < 1.5)
            });
            assert!(is_there, "{name}: {left} {top} {right} {bottom} has no mirror image");
        }
    }
}

/// A shirt shows its collar, which falls from its stand, and its yoke: by hand, in front two fronts, two sleeves, two cuffs, a stand
/// and a collar on each front; behind a back, a yoke, two sleeves, two cuffs, a stand on each half of the yoke and a collar. A
/// facing is seen nowhere: the faced bodice shows its front, and its two backs.
#[test]
fn collars_and_yokes_are_shown_and_facings_are_not() {
    let shown = |name: &str| {
        let (_, compiled) = examples().into_iter().find(|(own, _)| own == name).expect("an example");
        let picture = with_facts(&compiled, |facts| Pictures::of(facts).garment.expect("it is shown"));
        let drawn = drawn(&picture.svg("the garment", &said));
        drawn.iter().filter(|one| one.class == "r0").count()
    };
    // The upper edge of each front beyond its neck bears a stand of its own.
    assert!((20..=24).contains(&shown("purser-shirt")), "{}", shown("purser-shirt"));
    assert_eq!(shown("steward-bodice-faced"), 3);
}

/// Six alike panels sewn in a ring are a crown, seen from the side. By hand, in size M: the ring is 57.5 × 96 % = 55.2 cm round, so
/// 55.2 / pi = 17.57 cm wide, and its band is folded to a height of 7 cm. A panel is in front, and a seam on each side of it
/// at half a panel's angle, 30 degrees: sin 30 of the radius away from the middle.
#[test]
fn alike_panels_in_a_ring_are_put_together() {
    let (_, cap) = examples().into_iter().find(|(own, _)| own == "watch-cap").expect("an example");
    let picture = with_facts(&cap, |facts| Pictures::of(facts).garment.expect("it is shown"));
    assert_eq!(picture.captions(), [], "nothing is left to be shown by itself");
    let drawn = drawn(&picture.svg("the garment", &said));
    let cloths = of_class(&drawn, "r0");
    assert_eq!(cloths.len(), 2, "the band, and the crown");
    let [left, top, right, bottom] = cloths[0].bounds();
    assert!(((right - left) / (bottom - top) - 17.57 / 7.0).abs() < 0.03, "{left} {top} {right} {bottom}");
    let crown = cloths[1].bounds();
    assert!((crown[0] - left).abs() < 0.5 && (crown[2] - right).abs() < 0.5 && (crown[3] - top).abs() < 0.5);
    let seams: Vec<[f64; 4]> = of_class(&drawn, "p").into_iter().map(Drawn::bounds).collect();
    assert_eq!(seams.len(), 2, "seams that are seen");
    let (middle, radius) = (left.midpoint(right), (right - left) / 2.0);
    for seam in seams {
        let off = (seam[0] - middle).abs().max((seam[2] - middle).abs());
        assert!((off / radius - 0.5).abs() < 0.02, "{off} of {radius}");
    }
}

/// A band of 40 cm, gathered pieces aside: its ends meet the outer ends, its middle the joint of two pieces of 20 cm each.
#[test]
fn points_that_meet_are_the_ends_and_the_joint() {
    let text = r#"
garment "Flag band"
units cm
allowance 1
fabric bunting "bunting" { width 150 }
layer outer in bunting { band, left_half, right_half }
piece band "Band" { cut 1; outline rectangle 40 by 6 }
piece left_half "Left half" { cut 1; outline rectangle 20 by 30 }
piece right_half "Right half" { cut 1; outline rectangle 20 by 30 }
seam middle  left_half.right to right_half.left { matching left_half.top_right with right_half.top_left }
seam top     band.bottom to left_half.top + right_half.top {
  matching band.bottom_left with left_half.top_left
}
finish band.left, band.top, band.right, left_half.left, left_half.bottom, right_half.right, right_half.bottom  overlocked
"#;
    let compiled = compiled(text);
    let size = &compiled.sizes[0];
    let sewn = size.sewn.seams.iter().find(|sewn| &*compiled.garment.seam(sewn.seam).name == "top").unwrap();
    let points = meeting_points(&compiled.garment, size, sewn);
    let on: Vec<[f64; 2]> = points.iter().map(|point| point.on).collect();
    assert_eq!(on, [[0.0, 0.0], [200.0, 200.0], [400.0, 400.0]]);
    let middle = compiled.garment.seams.iter().position(|seam| &*seam.name == "middle").unwrap();
    let PointIs::Joint { seam: Some(seam), .. } = points[1].is[1] else { panic!("{:?}", points[1]) };
    assert_eq!(compiled.garment.seam(seam).name, compiled.garment.seams[middle].name);
    assert_eq!(points.iter().map(|point| point.sign).collect::<Vec<_>>(), [Some(0), Some(1), Some(2)]);
}

/// Whatever edge a step sews is marked in its picture, and bears the step's letter.
#[test]
fn every_edge_that_a_step_sews_is_marked() {
    let mut seams = 0;
    for (name, compiled) in examples() {
        with_facts(&compiled, |facts| {
            let pictures = Pictures::of(facts);
            let work = Work::new(facts.garment, &facts.shown.drawn, &facts.shown.sewn);
            for (row, picture) in facts.rows.iter().zip(&pictures.steps) {
                let targets = row.targets(&facts.plan);
                let mut edges = BTreeSet::new();
                for job in targets.iter().flat_map(|target| &target.jobs) {
                    let Job::Seam(at) = job else { continue };
                    edges.extend(work.stitchings[*at].places().map(|place| (place.part, place.edge)));
                }
                if edges.is_empty() {
                    continue;
                }
                seams += 1;
                let picture =
                    picture.as_ref().unwrap_or_else(|| panic!("{name}: {} has no picture", row.code));
                let drawn = drawn(&picture.svg("a step", &said));
                let marked = drawn.iter().filter(|one| ["n", "s", "b"].contains(&one.class.as_str())).count();
                assert!(
                    marked >= edges.len(),
                    "{name}: {}: {marked} of {} edges are marked",
                    row.code,
                    edges.len()
                );
                let letter = facts.letters.letter(row.action(&facts.plan).unwrap(), &targets[0]).unwrap();
                assert!(picture.letters().contains(&letter), "{name}: {}: {letter}", row.code);
            }
        });
    }
    assert!(seams > 200, "the examples have that many seams: {seams}");
}

/// What is drawn is finite, lies within the picture, and names no id, so that many pictures live on one page.
#[test]
fn pictures_hold_what_they_show() {
    for (name, compiled) in examples() {
        with_facts(&compiled, |facts| {
            let pictures = Pictures::of(facts);
            for picture in pictures.steps.iter().flatten().chain(&pictures.garment) {
                let svg = picture.svg("a picture", &said);
                assert!(!svg.contains(" id=") && !svg.contains("NaN") && !svg.contains("inf"), "{name}");
                let document = roxmltree::Document::parse(&svg).unwrap();
                let view: Vec<f64> = document
                    .root_element()
                    .attribute("viewBox")
                    .unwrap()
                    .split(' ')
                    .map(|one| one.parse().unwrap())
                    .collect();
                let [_, _, wide, high] = view[..] else { panic!("{view:?}") };
                assert_eq!(wide, WIDTH);
                for one in drawn(&svg) {
                    assert!(one.numbers.iter().all(|number| number.is_finite()));
                    // What is drawn, and not the handles of its curves: a wide bow has those far outside.
                    let bounds = BezPath::from_svg(&one.data).expect("a path").bounding_box();
                    let within = Rect::new(-1.0, -1.0, wide + 1.0, high + 1.0);
                    assert!(
                        within.union(bounds) == within,
                        "{name}: {} within {bounds} of {wide} {high}",
                        one.class
                    );
                }
            }
        });
    }
}

/// Letters are 12.5 high where the picture is 360 wide: not below 10.8 on a phone that leaves it 312. Every fill that the
/// style names is there.
#[test]
fn words_in_pictures_can_be_read_on_a_phone() {
    assert_eq!(WIDTH, 360.0);
    let style = style();
    assert!(style.contains("font-size:12.5px"));
    let defs = defs();
    for (_, name) in
        style.match_indices("url(#").map(|(at, _)| (at, style[at + 5..].split(')').next().unwrap()))
    {
        assert!(defs.contains(&format!("id=\"{name}\"")), "{name}");
    }
}

/// As many threads as there are, the same bytes.
#[test]
fn the_same_pictures_on_one_thread_and_on_eight() {
    let texts = ["deck-smock.fus", "crew-library.fus", "deck-zip.fus", "deck-lined.fus", "deck-jacket.fus"];
    let loader = texts.iter().fold(MemoryLoader::new(), |loader, name| {
        loader.with(name, example(name.trim_end_matches(".fus")).as_str())
    });
    let on = |threads: usize| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
        pool.install(|| steps(&compile(&loader, "deck-jacket.fus")))
    };
    let one = on(1);
    assert_eq!(one.len(), 20);
    assert_eq!(one, on(8));
}

/// A garment in one size, with nothing said of steps, under a name of 10 000 letters with markup in it: its name is shortened
/// and is text.
#[test]
fn long_names_and_markup_are_shortened_text() {
    let long = format!("<b>&amp; {}", "o".repeat(10_000));
    let text = POUCH.replace("\"Front\"", &format!("{long:?}"));
    let pictures = steps(&compiled(&text));
    assert!(!pictures.is_empty());
    for svg in pictures {
        assert!(svg.len() < 20_000, "{}", svg.len());
        assert!(!svg.contains("<b>"));
        roxmltree::Document::parse(&svg).expect("it is well formed");
    }
    let svg = with_facts(&compiled(POUCH), |facts| {
        Pictures::of(facts).garment.map(|picture| picture.svg("\"><script>", &said))
    });
    assert!(!svg.unwrap().contains("<script>"));
}

/// All pictures of the jacket cost less than resolving it five times. Time is measured, so that a slow picture is told and
/// a busy machine is not.
#[test]
fn pictures_cost_less_than_the_garment() {
    let texts = ["deck-smock.fus", "crew-library.fus", "deck-zip.fus", "deck-lined.fus", "deck-jacket.fus"];
    let loader = texts.iter().fold(MemoryLoader::new(), |loader, name| {
        loader.with(name, example(name.trim_end_matches(".fus")).as_str())
    });
    let least = |work: &dyn Fn()| {
        let once = || {
            let start = Instant::now();
            work();
            start.elapsed()
        };
        (0..5).map(|_| once()).min().unwrap_or(Duration::MAX)
    };
    let made = compile(&loader, "deck-jacket.fus");
    let resolving = least(&|| assert!(!compile(&loader, "deck-jacket.fus").has_mistakes()));
    let drawing = with_facts(&made, |facts| {
        least(&|| {
            let pictures = Pictures::of(facts);
            let bytes: usize =
                pictures.steps.iter().flatten().map(|picture| picture.svg("a step", &said).len()).sum();
            assert!(bytes > 10_000);
        })
    });
    assert!(drawing < 5 * resolving, "{drawing:?} against {resolving:?}");
}
