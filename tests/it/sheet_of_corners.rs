//! What a sheet says of corners and folds that a stranger cannot know: what is clipped, which side a buttonhole is in, how long the
//! end of a strip is while it is flat, and which pieces no step names.

use crate::sheet_page::{page_of, quick};
use crate::sheet_sentences::read_of;
use crate::workbench::{NOTHING, in_memory, said, with};
use fustian::compile;
use fustian::sheet::{Choices, Language};

/// A cushion's top in a border, with piping between that is folded.
const CUSHION: &str = r#"
garment "Saloon cushion"
units cm
allowance 1.5
fabric cord "corduroy" { width 150; kind woven firm }
fabric bias "piping cotton" { width 150; kind woven supple }
layer outer in cord { top, border, end }
layer pipe in bias { piping }
piece top "Top" { cut 1; outline rectangle 50 by 45 }
piece border "Border" { cut 1; outline rectangle 140 by 6 }
piece end "End border" { cut 1; outline rectangle 50 by 6 }
piece piping "Piping" { cut 1; grain bias; outline rectangle 190 by 2; folded top to bottom }
seam end_l   border.left to end.right { matching border.top_left with end.top_right }
seam end_r   border.right to end.left { matching border.top_right with end.top_left }
seam joined  piping.left to piping.right
seam round   outer.top.left + outer.top.bottom + outer.top.right + outer.top.top and pipe.piping.bottom and pipe.piping.top to outer.border.top + outer.end.top {
  matching outer.top.top_left with outer.border.top_left
}
finish border.bottom, end.bottom  hem 1
"#;

#[test]
fn a_border_is_clipped_at_the_corners_that_it_goes_round() {
    let read = read_of(CUSHION, Language::English);
    let said = "First clip the allowance of (4) Piping and (2) Border where it meets the corners, up to the stitching line.";
    assert_eq!(read.matches(said).count(), 1, "{read}");
    let german = read_of(CUSHION, Language::German);
    assert!(german.contains("dort einschneiden, wo sie auf die Ecken trifft"), "{german}");
    // Where both sides turn, or neither does, nothing is clipped.
    assert_eq!(read.matches("where it meets the corners").count(), 1, "{read}");
}

#[test]
fn the_end_of_a_strip_is_as_long_as_it_lies_while_it_is_sewn() {
    // 2 cm are cut, and 1 cm is left of them once the strip is folded.
    let read = read_of(CUSHION, Language::English);
    let step = read.split("Sew the joined seam").nth(1).unwrap_or_default();
    let facts = step.lines().find(|line| line.contains("1 seam")).unwrap_or_default();
    assert!(facts.contains("2 cm long"), "{facts}\n{read}");
}

/// A pocket with a flap over it that is buttoned down.
const FLAP: &str = r#"
garment "Deck apron"
units cm
allowance 1
fabric drill "drill" { width 150; kind woven firm }
layer outer in drill { front, pocket, flap }
piece front "Front" {
  cut 1
  outline rectangle 50 by 70
  mark low = (15, 20)
  mark high = (14, 40)
}
piece pocket "Pocket" { cut 1; outline rectangle 18 by 18; line across_it from (7, 15) to (11, 15) }
piece flap "Flap" { cut 1; outline rectangle 20 by 7; line across_it from (8, 2) to (12, 2) }
finish front.left, front.right, front.bottom, front.top, pocket.top, flap.left, flap.bottom, flap.right  hem 1
place pocket on front { corner bottom_left at low; topstitch left, bottom, right }
place flap on front { corner top_left at high; topstitch top }
closure button  flap.across_it to pocket.across_it { buttons 1 of 15mm from in the middle to in the middle }
"#;

#[test]
fn the_buttonhole_is_in_the_flap_whichever_is_named_first() {
    let holes = |text: &str| {
        let read = read_of(text, Language::English);
        let of = |words: &str| read.lines().find(|line| line.contains(words)).unwrap_or_default().to_owned();
        (of("buttonhole"), of("Sew a button"))
    };
    assert_eq!(said(FLAP), ["button/facing-short"], "the buttonhole, in the flap's hem of 1 cm");
    let deep = with(
        FLAP,
        &[(
            "pocket.top, flap.left, flap.bottom, flap.right  hem 1",
            "pocket.top, flap.left, flap.right  hem 1\nfinish flap.bottom  hem 3.5",
        )],
    );
    assert_eq!(said(&deep), NOTHING);
    let second = with(FLAP, &[("flap.across_it to pocket.across_it", "pocket.across_it to flap.across_it")]);
    for text in [FLAP, &second] {
        let (hole, button) = holes(text);
        assert!(hole.contains("Flap") && !hole.contains("on one side"), "{hole}");
        assert!(button.contains("Pocket"), "{button}");
    }
}

/// A skirt whose left side opens at the top.
const SKIRT: &str = r#"
garment "Mess skirt"
units cm
allowance 1.5
fabric serge "wool serge" { width 150; kind woven firm }
layer outer in serge { front, back }
piece front "Front" { cut 1 on fold left; drawn left; outline rectangle 24 by 60 }
piece back "Back" like front { drawn right }
closure zip  front.right 20 from top_right to back.right 20 from top_right on left { zipper concealed 20 }
seam side   front.right to back.right
finish front.top, back.top  bound 1
finish front.bottom, back.bottom  hem 4
"#;

#[test]
fn of_sides_that_differ_it_is_said_which_is_so_long() {
    // 60 cm, and on the left 20 cm less for the zip.
    let read = read_of(SKIRT, Language::English);
    assert!(read.contains("left: 40 cm long") && read.contains("right: 60 cm long"), "{read}");
    let german = read_of(SKIRT, Language::German);
    assert!(german.contains("links: 40 cm lang") && german.contains("rechts: 60 cm lang"), "{german}");
    // Alike on both sides it is said once.
    let alike = with(
        SKIRT,
        &[(
            "closure zip  front.right 20 from top_right to back.right 20 from top_right on left { zipper concealed 20 }\n",
            "",
        )],
    );
    let read = read_of(&alike, Language::English);
    assert!(!read.contains("left: ") && read.contains("60 cm each"), "{read}");
}

#[test]
fn where_a_zip_opens_is_said_and_where_its_tape_ends() {
    let toward = "Its slider closes toward the corner ‘top right’.";
    let ends = "There the ends of its tape lie in the allowance.";
    // A bound edge has no allowance.
    let read = read_of(SKIRT, Language::English);
    assert!(read.contains(toward) && !read.contains(ends), "{read}");
    let hemmed = with(SKIRT, &[("front.top, back.top  bound 1", "front.top, back.top  hem 2")]);
    let read = read_of(&hemmed, Language::English);
    assert!(read.contains(toward) && read.contains(ends), "{read}");
    let german = read_of(&hemmed, Language::German);
    assert!(german.contains("Geschlossen wird er zu Ecke"), "{german}");
    // One that is sewn in at both ends has no end that opens.
    let inside = with(
        SKIRT,
        &[
            (
                "front.right 20 from top_right to back.right 20 from top_right on",
                "front.right 10..30 from top_right to back.right 10..30 from top_right on",
            ),
            ("zipper concealed 20", "zipper closed 20"),
        ],
    );
    assert!(
        !read_of(&inside, Language::English).contains("Its slider"),
        "{}",
        read_of(&inside, Language::English)
    );
}

#[test]
fn a_piece_that_no_step_names_is_told() {
    let page = |text: &str, language: Language| {
        let compiled = compile(&in_memory(&[("own.fus", text)]), "own.fus");
        page_of(&compiled, &Choices { language, ..quick() })
    };
    // A board that lies loose between two plies.
    let board = with(
        SKIRT,
        &[
            (
                "{ front, back }",
                "{ front, back }\nfabric board \"board\" { width 90 }\nlayer stiff in board { board }",
            ),
            (
                "closure zip",
                "piece board \"Belt board\" { cut 1 loose; outline rectangle 40 by 5 }\nfinish board.left, board.right, board.top, board.bottom  raw\nsteps { \"Zip\" { sew zip, side }; \"Hems\" { finish front.top, back.top; hem front.bottom, back.bottom } }\nclosure zip",
            ),
        ],
    );
    assert!(page(&board, Language::English).contains("No step says what becomes of 3 Belt board."));
    assert!(
        page(&board, Language::German)
            .contains("Kein Schritt sagt, wohin diese Teile gehören: 3 Belt board.")
    );
    assert!(!page(SKIRT, Language::English).contains("No step says what becomes of"));
}
