//! Pieces on paper, read back with lopdf: sheet sizes, squares to measure, layers, and pages that
//! go together without a gap.

use crate::cutting_lines::{cut_all, example};
use fustian::cutting::CutPart;
use fustian::emit::drawing::Look;
use fustian::emit::{Paper, Unprintable, pdf};
use lopdf::content::Content;
use lopdf::{Document, Object};
use lyon_geom::CubicBezierSegment;
use std::collections::BTreeMap;

/// Points to millimetres: ISO 32000-1, 8.3.2.3, and 25.4 mm in an inch.
const MILLIMETRES: f64 = 25.4 / 72.0;
/// White round a page and what two pages share, as the cover and the frames show.
pub const MARGIN: f64 = 12.0;
pub const OVERLAP: f64 = 12.0;

fn print(name: &str, paper: Paper) -> Document {
    let compiled = example(name);
    let bytes =
        pdf(&compiled.garment, &cut_all(&compiled), paper, &Look::printing(), &mut |_, _| {}).unwrap();
    Document::load_mem(&bytes).unwrap()
}

fn number(object: &Object) -> f64 {
    f64::from(object.as_float().unwrap())
}

/// ISO 216 and ANSI/ASME Y14.1.
#[test]
fn sheets_have_the_sizes_of_the_standards() {
    for (paper, width, height) in [
        (Paper::A4, 210.0, 297.0),
        (Paper::A3, 297.0, 420.0),
        (Paper::A2, 420.0, 594.0),
        (Paper::A1, 594.0, 841.0),
        (Paper::A0, 841.0, 1189.0),
        (Paper::Letter, 8.5 * 25.4, 11.0 * 25.4),
        (Paper::Tabloid, 11.0 * 25.4, 17.0 * 25.4),
        (Paper::AnsiC, 17.0 * 25.4, 22.0 * 25.4),
        (Paper::AnsiD, 22.0 * 25.4, 34.0 * 25.4),
        (Paper::AnsiE, 34.0 * 25.4, 44.0 * 25.4),
    ] {
        let document = print("galley-apron.fus", paper);
        let pages = document.get_pages();
        assert!(pages.len() > 1, "{paper:?}");
        for page in pages.values() {
            let media = document.get_dictionary(*page).unwrap().get(b"MediaBox").unwrap().as_array().unwrap();
            let media: Vec<f64> = media.iter().map(|side| number(side) * MILLIMETRES).collect();
            let expected = [0.0, 0.0, width, height];
            assert!(
                media.iter().zip(expected).all(|(own, its)| (own - its).abs() < 0.01),
                "{paper:?}: {media:?}"
            );
        }
    }
}

/// Chords of a curve that is read back.
const CHORDS: u32 = 24;

/// A stroked path of a page: the width of its line and points along it, in millimetres from the
/// page's lower left corner.
pub struct Stroked {
    /// The width of the line.
    pub width: f64,
    /// Points along it.
    pub points: Vec<(f64, f64)>,
    /// It comes back to where it began.
    pub closed: bool,
}

/// All lines of a page; of one with several parts each.
pub fn strokes(document: &Document, page: lopdf::ObjectId) -> Vec<Stroked> {
    let content = Content::decode(&document.get_page_content(page)).unwrap();
    let mut matrices = vec![(1.0, 0.0, 0.0)];
    let (mut width, mut points, mut closed, mut found) = (0.0, Vec::new(), false, Vec::new());
    let mut parts: Vec<Stroked> = Vec::new();
    for operation in &content.operations {
        let numbers: Vec<f64> =
            operation.operands.iter().filter_map(|o| o.as_float().ok()).map(f64::from).collect();
        let &mut (scale, x, y) = matrices.last_mut().unwrap();
        let place = |at: usize| {
            ((numbers[at] * scale + x) * MILLIMETRES, (numbers[at + 1] * scale + y) * MILLIMETRES)
        };
        match operation.operator.as_str() {
            "q" => matrices.push((scale, x, y)),
            "Q" => drop(matrices.pop()),
            // Only scaling and moving is used.
            "cm" => {
                *matrices.last_mut().unwrap() =
                    (scale * numbers[0], x + scale * numbers[4], y + scale * numbers[5]);
            }
            "w" => width = numbers[0] * scale * MILLIMETRES,
            "m" => {
                if !points.is_empty() {
                    parts.push(Stroked { width, points: std::mem::take(&mut points), closed });
                }
                closed = false;
                points.push(place(0));
            }
            "l" => points.push(place(0)),
            "c" => {
                let at = |(x, y): (f64, f64)| lyon_geom::point(x, y);
                let (from, ctrl1, ctrl2, to) = (at(*points.last().unwrap()), place(0), place(2), place(4));
                let curve = CubicBezierSegment { from, ctrl1: at(ctrl1), ctrl2: at(ctrl2), to: at(to) };
                points.extend((1..=CHORDS).map(|step| {
                    let point = curve.sample(f64::from(step) / f64::from(CHORDS));
                    (point.x, point.y)
                }));
            }
            "h" => closed = true,
            "S" | "f" | "n" => {
                parts.push(Stroked { width, points: std::mem::take(&mut points), closed });
                if operation.operator == "S" {
                    found.append(&mut parts);
                }
                parts.clear();
                closed = false;
            }
            _ => {}
        }
    }
    found
}

/// 10 cm and 4 in (101.6 mm), each side within 0.1 mm.
#[test]
fn the_squares_measure_what_they_say() {
    let document = print("galley-apron.fus", Paper::Letter);
    let first = document.get_pages()[&1];
    let mut sides = Vec::new();
    for stroke in strokes(&document, first).iter().filter(|stroke| stroke.closed && stroke.points.len() == 4)
    {
        let ends = stroke.points.iter().cycle().skip(1);
        let all: Vec<f64> =
            stroke.points.iter().zip(ends).map(|(a, b)| (a.0 - b.0).hypot(a.1 - b.1)).collect();
        if all.iter().all(|side| (side - all[0]).abs() < 0.1) {
            sides.push(all[0]);
        }
    }
    for wanted in [100.0, 101.6] {
        assert!(sides.iter().any(|side| (side - wanted).abs() < 0.1), "{wanted} is not among {sides:?}");
    }
}

/// Each size is a layer with the size's name, shown at first (ISO 32000-1, 8.11.4).
#[test]
fn each_size_is_a_layer() {
    let document = print("deck-jacket.fus", Paper::A0);
    let catalog = document.catalog().unwrap();
    let optional = catalog.get(b"OCProperties").unwrap().as_dict().unwrap();
    let groups = optional.get(b"OCGs").unwrap().as_array().unwrap();
    let names: Vec<String> = groups
        .iter()
        .map(|group| {
            let group = document.get_dictionary(group.as_reference().unwrap()).unwrap();
            assert_eq!(group.get(b"Type").unwrap().as_name().unwrap(), b"OCG");
            String::from_utf8(group.get(b"Name").unwrap().as_str().unwrap().to_vec()).unwrap()
        })
        .collect();
    assert_eq!(names, ["XS", "S", "M", "L", "XL", "2XL"]);
    let shown = optional.get(b"D").unwrap().as_dict().unwrap();
    assert_eq!(shown.get(b"ON").unwrap().as_array().unwrap(), groups);
    // What stands in a layer on a page names one of the page's own properties.
    let page = document.get_pages()[&2];
    let content = Content::decode(&document.get_page_content(page)).unwrap();
    let used: Vec<&Object> =
        content.operations.iter().filter(|o| o.operator == "BDC").map(|o| &o.operands[1]).collect();
    let resources = document.get_dictionary(page).unwrap().get(b"Resources").unwrap().as_dict().unwrap();
    let properties = resources.get(b"Properties").unwrap().as_dict().unwrap();
    assert!(!used.is_empty() && used.iter().all(|name| properties.has(name.as_name().unwrap())));
    let (begun, ended) = (used.len(), content.operations.iter().filter(|o| o.operator == "EMC").count());
    assert_eq!(begun, ended);
}

/// Points along a line.
type Points = Vec<(f64, f64)>;
/// Rows and columns of pages.
type Fields = Vec<(usize, usize)>;

/// Row and column of each page from its foot, as a reader of the page would find them.
pub fn places(document: &Document) -> BTreeMap<u32, (usize, usize)> {
    document
        .get_pages()
        .keys()
        .skip(1)
        .map(|page| {
            let text = document.extract_text(&[*page]).unwrap();
            let name = text.lines().rev().find_map(|line| {
                let (row, column) = line.trim().split_once('-')?;
                Some((row.parse::<usize>().ok()?, column.parse::<usize>().ok()?))
            });
            (*page, name.unwrap_or_else(|| panic!("page {page} has no name: {text}")))
        })
        .collect()
}

/// All pages together: every cutting line lies at one place whichever page shows it, none is
/// missing, no stretch of one falls between pages, and no page is empty. The lines are read back
/// from the pages, and their number and lengths compared with the pieces.
#[test]
fn pages_go_together() {
    let compiled = example("mess-jacket.fus");
    let cuts = &cut_all(&compiled)[2..3];
    let look = Look { every_part: true, ..Look::printing() };
    let bytes = pdf(&compiled.garment, cuts, Paper::A4, &look, &mut |_, _| {}).unwrap();
    let document = Document::load_mem(&bytes).unwrap();
    let pages = document.get_pages();
    let field = (210.0 - 2.0 * MARGIN, 297.0 - 2.0 * MARGIN);
    // Lines by their first point and number of points on the whole drawing, and the fields that show
    // them.
    let mut lines: BTreeMap<(i64, i64, usize), (Points, Fields)> = BTreeMap::new();
    for (page, (row, column)) in places(&document) {
        let right = (column - 1) as f64 * (field.0 - OVERLAP);
        let down = (row - 1) as f64 * (field.1 - OVERLAP);
        let cut =
            strokes(&document, pages[&page]).into_iter().filter(|stroke| (stroke.width - 0.9).abs() < 0.01);
        let mut carries = 0;
        for stroke in cut {
            let whole: Vec<(f64, f64)> = stroke
                .points
                .iter()
                .map(|&(x, y)| (x - MARGIN + right, y - MARGIN - field.1 - down))
                .collect();
            let key = ((whole[0].0 * 20.0).round() as i64, (whole[0].1 * 20.0).round() as i64, whole.len());
            let known = lines.entry(key).or_insert_with(|| (whole.clone(), Vec::new()));
            for (own, its) in whole.iter().zip(&known.0) {
                assert!((own.0 - its.0).hypot(own.1 - its.1) < 0.02, "page {page} shows a line elsewhere");
            }
            known.1.push((row, column));
            carries += 1;
        }
        assert!(
            carries > 0 || is_inked(&document, page, pages[&page], Paper::A4),
            "page {page} carries nothing"
        );
    }
    let parts: Vec<_> = cuts.iter().flat_map(|cut| &cut.parts).collect();
    assert_eq!(lines.len(), parts.len(), "one cutting line a piece");
    let length = |points: &Points| -> f64 {
        points.windows(2).map(|pair| (pair[0].0 - pair[1].0).hypot(pair[0].1 - pair[1].1)).sum()
    };
    let mut read: Vec<f64> = lines.values().map(|(points, _)| length(points)).collect();
    let mut cut: Vec<f64> = parts
        .iter()
        .map(|part| {
            let runs = part.cutting.iter().filter(|run| part.fold.is_none() || run.along != part.fold);
            runs.map(|run| run.path.length()).sum()
        })
        .collect();
    read.sort_by(f64::total_cmp);
    cut.sort_by(f64::total_cmp);
    for (read, cut) in read.iter().zip(&cut) {
        assert!((read - cut).abs() < 0.5, "{read} was read of {cut}");
    }
    // Each is a piece of the garment as it is cut, moved and not turned: corner for corner.
    for (points, _) in lines.values() {
        let found = parts.iter().any(|part| {
            let corners = corners(part);
            let by = (points[0].0 - corners[0].0, points[0].1 - corners[0].1);
            corners.iter().all(|corner| {
                let near = |point: &(f64, f64)| (point.0 - corner.0 - by.0).hypot(point.1 - corner.1 - by.1);
                points.iter().map(near).fold(f64::MAX, f64::min) < 0.03
            })
        });
        assert!(found, "{:?} is no piece", points[0]);
    }
    // Each line a millimetre at a time: all of it lies in fields that show it.
    for (points, shown) in lines.values() {
        for pair in points.windows(2) {
            let ((ax, ay), (bx, by)) = (pair[0], pair[1]);
            let steps = (ax - bx).hypot(ay - by).ceil().max(1.0) as usize;
            for step in 0..=steps {
                let t = step as f64 / steps as f64;
                let (x, y) = (ax + (bx - ax) * t, ay + (by - ay) * t);
                let inside = shown.iter().any(|&(row, column)| {
                    let left = (column - 1) as f64 * (field.0 - OVERLAP);
                    let top = -((row - 1) as f64 * (field.1 - OVERLAP));
                    x >= left - 0.01
                        && x <= left + field.0 + 0.01
                        && y <= top + 0.01
                        && y >= top - field.1 - 0.01
                });
                assert!(inside, "({x}, {y}) falls between the pages");
            }
        }
    }
}

/// The corners of a part's cutting line, as it is drawn from: after the fold, where there is one.
fn corners(part: &CutPart) -> Points {
    let fold = part.fold.and_then(|fold| part.cutting.iter().position(|run| run.along == Some(fold)));
    let from = fold.map_or(0, |fold| fold + 1);
    let runs = part.cutting.iter().cycle().skip(from).take(part.cutting.len());
    runs.map(|run| (run.path.start().x, run.path.start().y)).collect()
}

/// A rectangle of canvas, hemmed all round: cut 2 cm larger on every side.
fn canvas(width: f64, height: f64) -> fustian::Compiled {
    let text = format!(
        "garment \"Deck awning\"\nunits cm\nfabric canvas \"canvas\" {{ width 9000 }}\n\
         layer outer in canvas {{ body }}\npiece body \"Body\" {{ cut 1; outline rectangle {width} by {height} }}\n\
         finish body.bottom, body.right, body.top, body.left  hem 2\n"
    );
    let compiled = fustian::compile(&fustian::source::MemoryLoader::new().with("a.fus", text), "a.fus");
    assert!(!compiled.has_mistakes(), "{:?}", compiled.diagnostics);
    compiled
}

/// Columns and rows of pages for a rectangle so wide and high, counted by hand: 4 mm from the frame, half of
/// the line's own 0.9 mm, and a step from page to page of the field less what the pages share.
fn pages_by_hand(paper: Paper, width: f64, height: f64) -> (f64, f64) {
    let (across, down) = paper.size();
    let step = |side: f64| side - 2.0 * MARGIN - OVERLAP;
    (((width + 4.45) / step(across)).ceil(), ((height + 4.45) / step(down)).ceil())
}

/// The same where the last line comes so near to a frame that it would be trimmed along: then a page more may be taken. How
/// near is the program's own affair: no farther than twice the 4 mm that the first line keeps from its frame, since pieces are
/// moved aside by whole steps. A strip of 214.5 cm on Letter: a step is 279.4 - 24 - 12 = 243.4 mm, nine are 2190.6, and the
/// last line lies at 2145 + 40 + 4.45 = 2189.45, 1.15 mm from the ninth frame. One of 34.5 cm on ANSI C: a step is
/// 431.8 - 24 - 12 = 395.8 mm, and the last line lies at 345 + 40 + 4.45 = 389.45, 6.35 mm from the frame.
fn pages_at_most(paper: Paper, width: f64, height: f64) -> f64 {
    let (columns, rows) = pages_by_hand(paper, width + 8.0, height + 8.0);
    columns * rows
}

/// Whether anything of a piece shows on a page: a line wider than those of the page itself, looked at every
/// millimetre, or a word that is neither in its foot nor at one of its rings.
fn is_inked(document: &Document, number: u32, page: lopdf::ObjectId, paper: Paper) -> bool {
    let (width, height) = paper.size();
    let on_page =
        |x: f64, y: f64| (MARGIN..=width - MARGIN).contains(&x) && (MARGIN..=height - MARGIN).contains(&y);
    let lines = strokes(document, page).into_iter().filter(|stroke| stroke.width > 0.28);
    let has_line = lines.into_iter().any(|stroke| {
        let wrapped = stroke.closed.then(|| [stroke.points[stroke.points.len() - 1], stroke.points[0]]);
        stroke.points.windows(2).map(|pair| [pair[0], pair[1]]).chain(wrapped).any(|[(ax, ay), (bx, by)]| {
            let steps = (ax - bx).hypot(ay - by).ceil().max(1.0) as usize;
            (0..=steps)
                .map(|step| step as f64 / steps as f64)
                .any(|t| on_page(ax + (bx - ax) * t, ay + (by - ay) * t))
        })
    });
    let text = document.extract_text(&[number]).unwrap();
    let of_page =
        |line: &&str| line.contains(" and ") || line.contains(": page ") || line.split_once('-').is_some();
    has_line || text.lines().map(str::trim).filter(|line| !line.is_empty()).any(|line| !of_page(&line))
}

/// Pages put together again give the drawing, whatever the piece and the paper: as many pages as
/// are needed, and on them one rectangle of the right width and height.
#[test]
fn pages_put_together_give_the_drawing() {
    proptest::proptest!(proptest::prelude::ProptestConfig::with_cases(24), |(
        width in 5.0..240.0f64,
        height in 5.0..240.0f64,
        paper in proptest::sample::select(vec![Paper::A4, Paper::A3, Paper::Letter, Paper::AnsiC, Paper::A0]),
    )| {
        put_together(paper, (width * 10.0).round() / 10.0, (height * 10.0).round() / 10.0);
    });
}

/// The last line 1.15 mm from a frame (worked at `pages_at_most`): ten rows of two columns, and the map.
#[test]
fn no_line_is_trimmed_along() {
    put_together(Paper::Letter, 22.2, 214.5);
    let compiled = canvas(22.2, 214.5);
    let bytes = pdf(&compiled.garment, &cut_all(&compiled), Paper::Letter, &Look::printing(), &mut |_, _| {})
        .unwrap();
    assert_eq!(Document::load_mem(&bytes).unwrap().get_pages().len(), 1 + 10 * 2);
}

/// A sail of 3 m by 4 m is larger than A0, the largest sheet: it is parted like any other.
#[test]
fn a_piece_larger_than_any_sheet_is_parted() {
    put_together(Paper::A0, 300.0, 400.0);
    put_together(Paper::AnsiE, 300.0, 400.0);
    // By hand: 304.09 cm in steps of 80.5 cm are 4 pages, 404.09 cm in steps of 115.3 cm are 4.
    let compiled = canvas(300.0, 400.0);
    let bytes =
        pdf(&compiled.garment, &cut_all(&compiled), Paper::A0, &Look::printing(), &mut |_, _| {}).unwrap();
    // Of the four in the middle those alone that the grain line or a word lies on.
    let count = Document::load_mem(&bytes).unwrap().get_pages().len();
    assert!((1 + 4 * 4 - 4..=1 + 4 * 4).contains(&count), "{count}");
}

fn put_together(paper: Paper, width: f64, height: f64) {
    let compiled = canvas(width, height);
    let bytes =
        pdf(&compiled.garment, &cut_all(&compiled), paper, &Look::printing(), &mut |_, _| {}).unwrap();
    let document = Document::load_mem(&bytes).unwrap();
    let pages = document.get_pages();
    let (cut_width, cut_height) = (width * 10.0 + 40.0, height * 10.0 + 40.0);
    let (columns, rows) = pages_by_hand(paper, cut_width, cut_height);
    let inside = (columns - 2.0).max(0.0) * (rows - 2.0).max(0.0);
    let count = pages.len() as f64 - 1.0;
    let most = pages_at_most(paper, cut_width, cut_height);
    assert!(count <= most && count >= columns * rows - inside, "{width} by {height}: {count}");
    for (&number, &page) in pages.iter().skip(1) {
        assert!(is_inked(&document, number, page, paper), "{width} by {height}: page {number} is empty");
    }
    let sheet = paper.size();
    let field = (sheet.0 - 2.0 * MARGIN, sheet.1 - 2.0 * MARGIN);
    let (mut low, mut high) = ((f64::MAX, f64::MAX), (f64::MIN, f64::MIN));
    for (page, (row, column)) in places(&document) {
        let right = (column - 1) as f64 * (field.0 - OVERLAP) - MARGIN;
        let down = (row - 1) as f64 * (field.1 - OVERLAP) + MARGIN + field.1;
        let cut =
            strokes(&document, pages[&page]).into_iter().filter(|stroke| (stroke.width - 0.9).abs() < 0.01);
        for (x, y) in cut.flat_map(|stroke| stroke.points) {
            low = (low.0.min(x + right), low.1.min(y - down));
            high = (high.0.max(x + right), high.1.max(y - down));
        }
    }
    let whole = (high.0 - low.0, high.1 - low.1);
    assert!((whole.0 - cut_width).abs() < 0.05 && (whole.1 - cut_height).abs() < 0.05, "{whole:?}");
}

/// What joins two pages stands on both, at the same place of the drawing.
#[test]
fn join_marks_pair_up() {
    let document = print("galley-apron.fus", Paper::A4);
    let mut marks: BTreeMap<String, Vec<u32>> = BTreeMap::new();
    for page in document.get_pages().keys().skip(1) {
        for line in document.extract_text(&[*page]).unwrap().lines() {
            if line.split_once(" and ").is_some_and(|(a, b)| a.contains('-') && b.contains('-')) {
                marks.entry(line.trim().to_owned()).or_default().push(*page);
            }
        }
    }
    assert!(!marks.is_empty());
    for (mark, pages) in marks {
        // Two rings a side, on each of the two pages.
        assert_eq!(pages.len(), 4, "{mark} is on {pages:?}");
        assert_eq!((pages[0], pages[2]), (pages[1], pages[3]), "{mark}");
        assert_ne!(pages[0], pages[2], "{mark}");
    }
}

/// The letters are embedded, and what is written can be read: fractions and accents too.
#[test]
fn what_is_written_can_be_read_back() {
    let text = "garment \"Tablier à ½ manche, größe\"\nunits cm\nallowance 1\n\
        fabric canvas \"canvas\" { width 150 }\nlayer outer in canvas { body }\npiece body \"Body\" {\n\
        cut 1\noutline rectangle 40 by 50\n}\n\
        finish body.bottom, body.right, body.top, body.left  hem 2\n";
    let compiled = fustian::compile(&fustian::source::MemoryLoader::new().with("a.fus", text), "a.fus");
    assert!(!compiled.has_mistakes());
    let bytes =
        pdf(&compiled.garment, &cut_all(&compiled), Paper::A4, &Look::printing(), &mut |_, _| {}).unwrap();
    let document = Document::load_mem(&bytes).unwrap();
    let first = document.extract_text(&[1]).unwrap();
    assert!(first.contains("Tablier à ½ manche, größe"), "{first}");
    let embedded = document
        .objects
        .values()
        .filter(|object| object.as_dict().is_ok_and(|dictionary| dictionary.has(b"FontFile2")));
    assert_eq!(embedded.count(), 2);
}

/// Names with signs that files and markup use, and letters that the face has not.
#[test]
fn any_name_can_be_printed() {
    let text = "garment \"Smock </a> (b) \\ 🧵 / é\"\nunits cm\nsizes \"S/M <1>\", \"L 🧵\"\nbody { chest 88, 96 }\n\
        allowance 1\nfabric canvas \"a/b <c> 🧵\" { width 150 }\nlayer outer in canvas { body }\n\
        piece body \"Body <1/2> 🧵\" { cut 1; outline rectangle chest/2 by 50 }\n\
        finish body.bottom, body.right, body.top, body.left  hem 2\n";
    let compiled = fustian::compile(&fustian::source::MemoryLoader::new().with("a.fus", text), "a.fus");
    assert!(!compiled.has_mistakes(), "{:?}", compiled.diagnostics);
    let bytes =
        pdf(&compiled.garment, &cut_all(&compiled), Paper::A4, &Look::printing(), &mut |_, _| {}).unwrap();
    let document = Document::load_mem(&bytes).unwrap();
    let first = document.extract_text(&[1]).unwrap();
    assert!(first.contains("Smock </a> (b) \\ 🧵 / é"), "{first}");
    assert!(first.contains("cut S/M <1>") && first.contains("cut L 🧵"), "{first}");
    // Text strings beyond Latin are UTF-16 with a mark before them (ISO 32000-1, 7.9.2.2).
    let utf16 = |text: &str| -> Vec<u8> {
        [0xfe, 0xff].into_iter().chain(text.encode_utf16().flat_map(u16::to_be_bytes)).collect()
    };
    let names: Vec<&[u8]> = document
        .objects
        .values()
        .filter_map(|object| object.as_dict().ok())
        .filter(|group| group.get(b"Type").is_ok_and(|kind| kind.as_name().is_ok_and(|kind| kind == b"OCG")))
        .map(|group| group.get(b"Name").unwrap().as_str().unwrap())
        .collect();
    assert!(names.contains(&&b"S/M <1>"[..]) && names.contains(&&*utf16("L 🧵")), "{names:?}");
}

/// The same garment gives the same bytes.
#[test]
fn printing_twice_gives_the_same() {
    let compiled = example("mess-skirt.fus");
    let print =
        || pdf(&compiled.garment, &cut_all(&compiled), Paper::A4, &Look::printing(), &mut |_, _| {}).unwrap();
    assert!(print() == print());
}

/// Covers for the deck and the car deck of the ferry, 90 m by 90 m each, are refused before they eat the machine.
#[test]
fn too_many_pages_are_refused() {
    let text = "garment \"Deck awnings\"\nunits m\nallowance 1cm\n\
        fabric canvas \"canvas\" { width 95 }\nlayer outer in canvas { upper, lower }\n\
        piece upper \"Upper deck\" { cut 1; outline rectangle 90 by 90 }\n\
        piece lower \"Car deck\" { cut 1; outline rectangle 90 by 90 }\n\
        finish upper.bottom, upper.right, upper.top, upper.left  hem 2cm\n\
        finish lower.bottom, lower.right, lower.top, lower.left  hem 2cm\n";
    let compiled = fustian::compile(&fustian::source::MemoryLoader::new().with("a.fus", text), "a.fus");
    assert!(!compiled.has_mistakes(), "{:?}", compiled.diagnostics);
    let printed = pdf(&compiled.garment, &cut_all(&compiled), Paper::A4, &Look::printing(), &mut |_, _| {});
    assert_eq!(printed.unwrap_err(), Unprintable::Pages);
}
