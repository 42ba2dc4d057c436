//! Laying pieces on cloth: nothing overlaps, nothing hangs over, and the cloth is well used.
//!
//! Every plan is checked with `geo`: each outline is drawn in by half of 0.01 mm, and no two may
//! then share any area.

use fustian::lay::{
    Allowance, ClothEdge, Effort, Item, LayError, Plan, Repeat, Request, Turn, placed_outline, search,
    search_either, verify,
};
use geo::{Area, BooleanOps, BoundingRect, Buffer, Coord, Intersects, LineString, MultiPolygon, Polygon};

type Point = (f64, f64);

fn item(id: &str, outline: &[Point], quantity: usize, degrees: &[f64]) -> Item {
    let turns = degrees.iter().map(|&d| Turn::free(d)).collect();
    Item { id: id.to_owned(), outline: outline.to_vec(), quantity, turns, repeat: None }
}

fn request(items: Vec<Item>, width: f64, effort: Effort) -> Request<'static> {
    Request { items, width, minimum_space: 0.0, allowance: Allowance::Work(effort), seed: 1, threads: 1 }
}

fn lay(request: &Request) -> Plan {
    let plan = search(request, &mut |_| {}).expect("the pieces can be laid");
    check(request, &plan);
    plan
}

/// The plan as `geo` sees it.
fn check(request: &Request, plan: &Plan) {
    assert_eq!(plan.placements.len(), request.items.iter().map(|i| i.quantity).sum::<usize>());
    let half = 0.005;
    let grown = (request.minimum_space - 0.01).max(0.0) / 2.0;
    let drawn: Vec<(usize, MultiPolygon)> = plan
        .placements
        .iter()
        .map(|p| {
            let ring: Vec<Coord> = placed_outline(request, p).iter().map(|&(x, y)| Coord { x, y }).collect();
            let polygon = Polygon::new(LineString::from(ring), Vec::new());
            let bounds = polygon.bounding_rect().expect("bounds");
            assert!(bounds.min().x > -0.01 && bounds.min().y > -0.01, "off the cloth: {bounds:?}");
            assert!(bounds.max().x < plan.length + 0.01 && bounds.max().y < request.width + 0.01);
            (p.item, polygon.buffer(if grown > 0.0 { grown } else { -half }))
        })
        .collect();
    for (index, (first, a)) in drawn.iter().enumerate() {
        for (second, b) in &drawn[index + 1..] {
            let near = match (a.bounding_rect(), b.bounding_rect()) {
                (Some(a), Some(b)) => a.intersects(&b),
                _ => false,
            };
            if near {
                let shared = a.intersection(b).unsigned_area();
                assert!(shared < 1e-6, "items {first} and {second} share {shared} mm²");
            }
        }
    }
    assert_eq!(verify(request, plan), Vec::new());
}

/// The crew's deck smock, roughly, in millimetres: half shapes drawn with straight lines.
fn smock() -> Vec<Item> {
    let body = [
        (0.0, 0.0),
        (720.0, 0.0),
        (740.0, 120.0),
        (700.0, 210.0),
        (480.0, 240.0),
        (470.0, 290.0),
        (0.0, 300.0),
    ];
    let sleeve = [
        (0.0, 0.0),
        (430.0, -60.0),
        (520.0, 60.0),
        (560.0, 200.0),
        (520.0, 340.0),
        (430.0, 460.0),
        (0.0, 400.0),
    ];
    let collar = [(0.0, 0.0), (420.0, 0.0), (440.0, 70.0), (210.0, 90.0), (-20.0, 70.0)];
    let pocket = [(0.0, 0.0), (180.0, 0.0), (180.0, 170.0), (90.0, 200.0), (0.0, 170.0)];
    let cuff = [(0.0, 0.0), (240.0, 0.0), (240.0, 120.0), (0.0, 120.0)];
    let straight = [0.0, 180.0];
    vec![
        item("front", &body, 2, &straight),
        item("back", &body, 2, &straight),
        item("sleeve", &sleeve, 2, &straight),
        item("collar", &collar, 2, &straight),
        item("pocket", &pocket, 2, &straight),
        item("cuff", &cuff, 4, &straight),
    ]
}

/// Cuts a sheet into rectangles, straight through, always the largest one left: they are known to
/// fit on it again without loss.
fn cut_sheet(length: f64, width: f64, parts: usize, seed: u64) -> Vec<Item> {
    let mut state = seed;
    let mut random = || {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 33) as f64 / f64::from(1u32 << 31)
    };
    let mut sheets = vec![(length, width)];
    while sheets.len() < parts {
        let largest = (0..sheets.len())
            .max_by(|&a, &b| (sheets[a].0 * sheets[a].1).total_cmp(&(sheets[b].0 * sheets[b].1)))
            .expect("a sheet");
        let (l, w) = sheets.swap_remove(largest);
        let at = (0.3 + 0.4 * random()) * l.max(w);
        let at = at.round();
        if l > w {
            sheets.extend([(at, w), (l - at, w)]);
        } else {
            sheets.extend([(l, at), (l, w - at)]);
        }
    }
    let rectangle = |(l, w): (f64, f64)| [(0.0, 0.0), (l, 0.0), (l, w), (0.0, w)];
    sheets.iter().enumerate().map(|(i, &s)| item(&format!("cut {i}"), &rectangle(s), 1, &[0.0])).collect()
}

#[test]
fn a_sheet_cut_into_rectangles_goes_back_within_three_in_a_hundred() {
    for (seed, parts) in [(1, 9), (2, 12), (3, 16), (5, 20), (7, 20)] {
        let sheet = cut_sheet(2400.0, 1500.0, parts, seed);
        let plan = lay(&request(sheet, 1500.0, Effort::Normal));
        assert!(plan.length >= 2400.0 - 0.05, "shorter than what was cut: {}", plan.length);
        assert!(plan.length <= 2400.0 * 1.03, "{parts} parts need {} of 2400 mm", plan.length);
    }
}

#[test]
fn the_same_seed_gives_the_same_plan_on_one_thread_or_two() {
    let one = request(smock(), 1400.0, Effort::Quick);
    let two = Request { threads: 2, ..one.clone() };
    let bytes = |plan: &Plan| {
        let numbers =
            plan.placements.iter().flat_map(|p| [p.x.to_bits(), p.y.to_bits(), p.turn.degrees.to_bits()]);
        numbers.chain([plan.length.to_bits(), plan.evaluations]).collect::<Vec<u64>>()
    };
    let first = lay(&one);
    assert_eq!(bytes(&first), bytes(&lay(&two)));
    assert_eq!(bytes(&first), bytes(&lay(&one)));
}

#[test]
fn wider_cloth_never_needs_more() {
    let mut before = f64::INFINITY;
    for width in [900.0, 1150.0, 1400.0, 1500.0] {
        let plan = lay(&request(smock(), width, Effort::Quick));
        assert!(plan.length <= before * 1.01, "{width} mm wide needs {} after {before}", plan.length);
        before = plan.length;
    }
}

#[test]
fn two_garments_need_at_most_twice_one() {
    let one = lay(&request(smock(), 1400.0, Effort::Quick));
    let mut items = smock();
    for item in &mut items {
        item.quantity *= 2;
    }
    let two = lay(&request(items, 1400.0, Effort::Quick));
    assert!(two.length <= 2.0 * one.length * 1.01, "{} for two, {} for one", two.length, one.length);
}

#[test]
fn a_half_on_the_fold_lies_against_the_fold() {
    let mut items = smock();
    items[0].quantity = 1;
    items[0].turns =
        vec![Turn::against(ClothEdge::Near, 0.0, false), Turn::against(ClothEdge::Near, 0.0, true)];
    items[1].quantity = 1;
    items[1].turns = items[0].turns.clone();
    let request = request(items, 700.0, Effort::Quick);
    let plan = lay(&request);
    for p in plan.placements.iter().filter(|p| p.item < 2) {
        let lowest = placed_outline(&request, p).iter().map(|c| c.1).fold(f64::INFINITY, f64::min);
        assert!(lowest.abs() < 1e-9, "the fold edge lies at {lowest}");
    }
}

#[test]
fn corresponding_points_lie_on_the_same_place_of_the_repeat() {
    let mut items = smock();
    for item in &mut items[..2] {
        item.repeat = Some(Repeat { point: (480.0, 240.0), along: Some((90.0, 25.0)), across: None });
    }
    let request = request(items, 1400.0, Effort::Quick);
    let plan = lay(&request);
    for p in plan.placements.iter().filter(|p| p.item < 2) {
        let at = placed_outline(&request, p)[4].0;
        let off = (at - 25.0).rem_euclid(90.0);
        assert!(off.min(90.0 - off) < 0.01, "the point lies at {at}");
    }
}

#[test]
fn pieces_keep_the_space_asked_for() {
    let mut request = request(smock(), 1400.0, Effort::Quick);
    request.minimum_space = 6.0;
    lay(&request);
}

#[test]
fn a_curved_piece_is_laid_as_it_is_and_not_as_the_search_sees_it() {
    // A quarter ring: hollow on one side, round on the other, many corners.
    let arc = |radius: f64, from: usize| {
        (0..=30).map(move |k| {
            let k = if from == 0 { k } else { 30 - k };
            let angle = f64::from(k) * std::f64::consts::FRAC_PI_2 / 30.0;
            (radius * angle.cos(), radius * angle.sin())
        })
    };
    let ring: Vec<Point> = arc(400.0, 0).chain(arc(250.0, 1)).collect();
    let plan =
        lay(&request(vec![item("waistband", &ring, 6, &[0.0, 90.0, 180.0, 270.0])], 900.0, Effort::Quick));
    assert!(plan.usage > 0.6, "usage {}", plan.usage);
}

#[test]
fn what_cannot_be_laid_is_said() {
    let square = [(0.0, 0.0), (500.0, 0.0), (500.0, 500.0), (0.0, 500.0)];
    let ask = |items: Vec<Item>, width: f64| search(&request(items, width, Effort::Quick), &mut |_| {});
    let apron = |outline: &[Point]| vec![item("apron", outline, 1, &[0.0, 90.0])];
    match ask(apron(&square), 450.0) {
        Err(LayError::TooWide { id, over, .. }) => {
            assert_eq!(id, "apron");
            assert!((over - 50.0).abs() < 1e-9);
        }
        other => panic!("{other:?}"),
    }
    assert!(matches!(ask(apron(&square), 0.0), Err(LayError::Width { .. })));
    assert!(matches!(ask(apron(&square), f64::NAN), Err(LayError::Width { .. })));
    assert!(matches!(ask(Vec::new(), 900.0), Err(LayError::Empty)));
    assert!(matches!(ask(apron(&[]), 900.0), Err(LayError::NoArea { .. })));
    assert!(matches!(ask(apron(&[(0.0, 0.0), (9.0, 9.0)]), 900.0), Err(LayError::NoArea { .. })));
    assert!(matches!(
        ask(apron(&[(0.0, 0.0), (f64::NAN, 9.0), (9.0, 0.0)]), 900.0),
        Err(LayError::NotFinite { .. })
    ));
    let bow = [(0.0, 0.0), (500.0, 500.0), (500.0, 0.0), (0.0, 300.0)];
    assert!(matches!(ask(apron(&bow), 900.0), Err(LayError::Crosses { .. })));
    assert!(matches!(ask(vec![item("apron", &square, 1, &[])], 900.0), Err(LayError::NoTurn { .. })));
    assert!(matches!(
        ask(vec![item("apron", &square, usize::MAX, &[0.0])], 900.0),
        Err(LayError::TooMany { .. })
    ));
}

/// Six panels of 500 x 300 need at least 900 of a cloth 1000 wide and at least 1500 of one 600 wide (area over width): the
/// narrow one is given up. Of two cloths as wide as one another both plans are those of a search on its own.
#[test]
fn of_two_ways_the_one_that_is_behind_is_given_up() {
    let panels = |width: f64| {
        let panel = [(0.0, 0.0), (500.0, 0.0), (500.0, 300.0), (250.0, 290.0), (0.0, 300.0)];
        request(vec![item("panel", &panel, 6, &[0.0, 90.0, 180.0, 270.0])], width, Effort::Quick)
    };
    let one_by_one = |one: &mut (dyn FnMut() + Send), other: &mut (dyn FnMut() + Send)| {
        one();
        other();
    };
    let (wide, narrow) = (panels(1000.0), panels(600.0));
    for (requests, kept) in [([&wide, &narrow], 0), ([&narrow, &wide], 1)] {
        let plans = search_either(requests[0], requests[1], &one_by_one);
        assert_eq!(plans[kept], Ok(Some(lay(&wide))));
        assert_eq!(plans[1 - kept], Ok(None));
    }
    let alone = lay(&narrow);
    assert_eq!(
        search_either(&narrow, &narrow, &one_by_one),
        [Ok(Some(alone.clone())), Ok(Some(alone.clone()))]
    );
    // What cannot be laid leaves the other as it is.
    let [trouble, plan] = search_either(&panels(200.0), &narrow, &one_by_one);
    assert!(matches!(trouble, Err(LayError::TooWide { .. })));
    assert_eq!(plan, Ok(Some(alone)));
}
