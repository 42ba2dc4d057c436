//! What a reader sees beside what a reader is told: letters of pictures in their sentences, numbers on their own cloth, pieces
//! that are joined with their seam between them.

use crate::sheet_page::{compiled, page_of, quick, read};
use roxmltree::Node;

/// The steps of an example's sheet, each as its code, its words and its picture.
fn with_steps<T>(name: &str, look: impl FnOnce(&[Node]) -> T) -> T {
    let html = page_of(&compiled(name), &quick());
    let document = read(&html);
    let steps: Vec<Node> =
        document.descendants().filter(|node| node.attribute("class") == Some("step")).collect();
    look(&steps)
}

fn words(node: Node) -> String {
    let texts = node.descendants().filter(|node| node.is_text());
    texts.filter_map(|node| node.text()).collect::<String>().split_whitespace().collect::<Vec<_>>().join(" ")
}

fn told(step: Node) -> String {
    step.descendants().find(|node| node.attribute("class") == Some("told")).map(words).unwrap_or_default()
}

fn step<'d>(steps: &[Node<'d, 'd>], says: &str) -> Node<'d, 'd> {
    *steps.iter().find(|step| told(**step).contains(says)).unwrap_or_else(|| panic!("{says}"))
}

/// Squares with a letter are followed by that letter.
fn tags(step: Node) -> Vec<String> {
    let squares = step.descendants().filter(|node| node.attribute("class") == Some("q"));
    squares.filter_map(|node| node.next_sibling_element()).map(words).collect()
}

/// Whoever looks for the letter of a picture finds it in the sentence beside it.
#[test]
fn letters_of_a_picture_stand_in_its_sentence() {
    for name in ["deck-waistcoat", "mess-jacket", "mate-trousers-jetted", "watch-cap"] {
        with_steps(name, |steps| {
            for step in steps {
                let letters: Vec<String> = step
                    .descendants()
                    .filter(|node| node.attribute("class") == Some("letter"))
                    .map(words)
                    .collect();
                for tag in tags(*step) {
                    assert!(letters.contains(&tag), "{name}: {tag} in {}", told(*step));
                }
            }
        });
    }
    // The gap has a letter of its own beside that of the seam in which it was left.
    with_steps("deck-waistcoat", |steps| {
        let close = step(steps, "Slipstitch the gap P in the side seam H");
        assert_eq!(tags(close).first().map(String::as_str), Some("P"));
    });
}

/// The apron's pocket is cut on the fold: its right edge is there on both halves. The smock's pocket is not.
#[test]
fn of_a_placed_piece_on_the_fold_both_sides_are_stitched() {
    with_steps("galley-apron", |steps| {
        step(steps, "Topstitch its bottom, left and right edges. Its top edge stays open.");
    });
    with_steps("deck-smock", |steps| assert!(!steps.iter().any(|step| told(*step).contains("two "))));
}

/// The skirt's outer sides are sewn in two stretches, round the pocket's mouth, its lining's in one.
#[test]
fn what_is_sewn_without_its_opening_is_not_sewn_as_before() {
    with_steps("mess-skirt-lined", |steps| {
        let sides: Vec<String> =
            steps.iter().map(|step| told(*step)).filter(|told| told.contains("the side seams")).collect();
        assert_eq!(sides.len(), 2, "{sides:?}");
        assert!(sides[0].contains("Sew in 2 stretches"), "{sides:?}");
        assert!(!sides[1].contains("As in step"), "{sides:?}");
    });
    // Sleeves are sewn alike in both layers, though one of them has a gap, which is told.
    with_steps("deck-jacket", |steps| {
        let sleeve = told(step(steps, "Leave a gap open"));
        assert!(sleeve.starts_with("As in step"), "{sleeve}");
    });
}

/// The sides of what is cut into a piece are named as makers read them.
#[test]
fn names_of_what_differs_are_words() {
    let html = page_of(&compiled("mate-trousers-jetted"), &quick());
    let document = read(&html);
    let differing: Vec<String> = document
        .descendants()
        .filter(|node| node.attribute("class") == Some("differing"))
        .map(words)
        .collect();
    assert!(differing.iter().any(|told| told.contains("pocket far")), "{differing:?}");
    assert!(!differing.iter().any(|told| told.contains("pocket.")), "{differing:?}");
}

/// The extent of a path whose places are written from one origin, from left to right and from top to bottom.
fn extent(path: Node) -> [f64; 4] {
    let data = path.attribute("d").unwrap_or_default();
    let numbers: Vec<f64> = data
        .split(|one: char| one.is_ascii_alphabetic() || one.is_whitespace())
        .filter(|one| !one.is_empty())
        .map(|one| one.parse().expect("a number"))
        .collect();
    numbers.chunks_exact(2).fold(
        [f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY],
        |[left, top, right, bottom], at| {
            [left.min(at[0]), top.min(at[1]), right.max(at[0]), bottom.max(at[1])]
        },
    )
}

/// The hem band is thinner than its number is high with the seam's letter in its middle: the number stands beside that, on
/// the band, and not on the back above it.
#[test]
fn the_number_of_a_thin_piece_stands_on_it() {
    with_steps("deck-jacket", |steps| {
        let hem = step(steps, "Sew the hem band seam H");
        let cloth = |class: &str| hem.descendants().find(|node| node.attribute("class") == Some(class));
        let [left, top, right, bottom] = extent(cloth("r1").expect("the band's cloth"));
        let rings: Vec<Node> = hem
            .descendants()
            .filter(|node| node.has_tag_name("circle"))
            .filter(|node| node.next_sibling_element().map(words).as_deref() == Some("6"))
            .collect();
        let ring = rings.first().expect("the band's number");
        let at = |name: &str| ring.attribute(name).expect("a place").parse::<f64>().expect("a number");
        let (x, y) = (at("cx"), at("cy"));
        assert!(
            left < x && x < right && top - 1.0 < y && y < bottom + 1.0,
            "{x} {y} in {left} {top} {right} {bottom}"
        );
    });
}

/// Both fronts of the trousers are joined at the crotch before the fly is topstitched: its rows lie toward the middle of the
/// picture, 3 cm beside the edges that meet there.
#[test]
fn what_is_joined_lies_with_its_seam_between() {
    with_steps("mate-trousers", |steps| {
        let fly = step(steps, "beside the fly edge");
        let squares = fly.descendants().filter(|node| node.attribute("class") == Some("q"));
        let tags: Vec<f64> =
            squares.map(|node| node.attribute("x").expect("a place").parse().expect("a number")).collect();
        let rings: Vec<f64> = fly
            .descendants()
            .filter(|node| node.has_tag_name("circle"))
            .map(|node| node.attribute("cx").expect("a place").parse().expect("a number"))
            .collect();
        let far = |all: &[f64]| {
            let (least, most) = all
                .iter()
                .fold((f64::INFINITY, 0.0_f64), |(least, most), at| (least.min(*at), most.max(*at)));
            most - least
        };
        assert!(tags.len() == 2 && rings.len() == 2, "{tags:?} {rings:?}");
        assert!(far(&tags) < far(&rings), "{tags:?} between {rings:?}");
    });
}

/// Six panels that are closed to a tube and sewn to a band cannot be laid out flat: where that seam is pressed it is rolled out,
/// with all six of them on it.
#[test]
fn a_pressed_ring_is_rolled_out() {
    with_steps("watch-cap", |steps| {
        let press = step(steps, "Press the brim seam");
        let panels = press
            .descendants()
            .filter(|node| node.has_tag_name("circle"))
            .filter(|node| node.next_sibling_element().map(words).as_deref() == Some("1"));
        assert_eq!(panels.count(), 6);
        assert!(words(press).contains("rolled out"), "{}", words(press));
    });
}
