//! Edits on which much hangs: what is remembered of a garment is asked with all that it was worked out of, so that after
//! each of them all that is told is what a first compiling tells.

use crate::speed::big;
use crate::typed_again::{examples, told};
use fustian::source::MemoryLoader;
use fustian::{Compiled, Kept, compile, compile_again};

/// A garment of some files, the first of which is compiled.
type Files = Vec<(String, String)>;

/// One edit: in the file of that name the first text becomes the second, wherever it stands.
type Edit<'a> = (&'a str, &'a str, &'a str);

fn edited(files: &Files, (name, from, to): Edit) -> Files {
    let mut edited = files.clone();
    let file = edited.iter_mut().find(|(own, _)| own == name).unwrap_or_else(|| panic!("no file {name}"));
    assert!(file.1.contains(from), "{from:?} is not in {name}");
    file.1 = file.1.replace(from, to);
    edited
}

/// What is told with what is remembered, which must be what is told without.
fn told_again(files: &Files, kept: &mut Kept, after: Edit) -> Compiled {
    let all = files.iter().fold(MemoryLoader::new(), |all, (name, text)| all.with(name, text.as_str()));
    let compiled = compile_again(&all, &files[0].0, kept);
    let fresh = told(&compile(&all, &files[0].0));
    for (again, fresh) in told(&compiled).iter().zip(&fresh) {
        assert!(again == fresh, "after {after:?}:\n--- again:\n{again}\n--- fresh:\n{fresh}");
    }
    compiled
}

/// The files with a line more before all others: whatever is told of them stands elsewhere.
fn moved(files: &Files) -> Files {
    files.iter().map(|(name, text)| (name.clone(), format!("# a note\n{text}"))).collect()
}

/// Makes each edit in the sound text, moves it, and takes it back; then all of them on top of one another, as far as
/// they go.
fn edit(files: &Files, edits: &[Edit]) {
    let mut kept = Kept::default();
    let nothing = ("", "", "");
    told_again(files, &mut kept, nothing);
    for &edit in edits {
        told_again(&edited(files, edit), &mut kept, edit);
        told_again(&moved(&edited(files, edit)), &mut kept, edit);
        told_again(files, &mut kept, edit);
    }
    let mut files = files.clone();
    for &(name, from, to) in edits {
        if files.iter().any(|(own, text)| own == name && text.contains(from)) {
            files = edited(&files, (name, from, to));
            told_again(&files, &mut kept, (name, from, to));
        }
    }
}

const AWNING: &str = "awning.fus";

/// Four panels, of which all that can be remembered is.
fn awning() -> Files {
    vec![(AWNING.to_owned(), big::garment(4, 3))]
}

fn slugs(compiled: &Compiled) -> Vec<&'static str> {
    compiled.diagnostics.iter().map(|one| one.slug()).collect()
}

#[test]
fn names_sizes_and_measures_that_change_are_asked() {
    let all = [
        ("panel1", "bib"),
        ("panel3", "panel0x"),
        ("deck0, deck1, deck2", "deck0, deck1"),
        ("deck0, deck1, deck2", "deck2, deck1, deck0"),
        ("deck0, deck1, deck2", "deck0, deck1, deck2, deck3"),
        ("units cm", "units mm"),
        ("units cm", "units in"),
        ("80 grade +0.5", "80 grade +0.7"),
        ("80 grade +0.5", "80, 81, 96"),
        ("back_waist 40 grade +0.1", "back_waist 40 grade -0.1"),
        ("let ease = 24", "let ease = 25"),
        ("let ease = 24", "let slack = 1\nlet ease = 24"),
        ("let ease = 24", "let ease = chest/4"),
        ("tolerance 2mm", "tolerance 5mm"),
        ("allowance 1", "allowance 1.5"),
        ("-(chest/8 + 12)", "-(ease/8 + 12)"),
        ("chest", "girth"),
    ];
    edit(&awning(), &all.map(|(from, to)| (AWNING, from, to)));
}

#[test]
fn all_that_is_said_of_a_piece_and_its_edges_is_asked() {
    let all = [
        ("point head     = (0, -7.5)", "point head     = (0, -7.6)"),
        ("point head     = (0, -7.5)", "point top = (0, -3)\n  point head     = (0, -7.5)"),
        ("mark eyelet = (4, 4 - drop1)", "point eyelet = (4, 4 - drop1)"),
        ("cut 2 mirrored", "cut 2"),
        ("cut 2 mirrored", "cut 1 on fold centre"),
        ("cut 2 mirrored", "cut 3 mirrored"),
        ("notch armhole 8 from", "notch armhole 9 from"),
        ("notch armhole 8 from", "double notch armhole 8 from"),
        ("line waist across at (0, -back_waist)", "line waist across at (0, -back_waist - 1)"),
        ("line waist across", "line belt across at (0, -30)\n  line waist across"),
        ("curve leaving right arriving square to shoulder", "curve leaving right arriving up"),
        ("armhole  to underarm  curve leaving square to shoulder arriving right", "armhole to underarm"),
        ("hem 3 turned under 1", "hem 3"),
        ("hem 3 turned under 1", "hem 30 turned under 1"),
        ("hem 3 turned under 1", "hem 52"),
        ("mark eyelet = (4, 4 - drop1)", "mark eyelet = (-4, 4 - drop1)"),
        ("hem 3 turned under 1", "bound 1"),
        ("finish panel1.hem  hem 3 turned under 1", "finish panel1.hem  raw"),
        ("outline from foot", "grain across\n  outline from foot"),
        ("outline from foot", "corner hem/centre mitred\n  outline from foot"),
        ("hem      to foot", "hem      to foot\n    slack to head"),
        ("layer outer in canvas { panel0, panel1", "layer outer in canvas { panel1, panel0"),
        ("layer outer in canvas { panel0, ", "layer under in canvas { panel0 }\nlayer outer in canvas { "),
    ];
    edit(&awning(), &all.map(|(from, to)| (AWNING, from, to)));
}

#[test]
fn all_that_is_said_of_an_alteration_is_asked() {
    let all = [
        ("lengthen panel1 at waist by 3", "lengthen panel1 at waist by 4"),
        ("lengthen panel1 at waist by 3", "lengthen panel1 at waist by -3"),
        ("lengthen panel1 at waist by 3", "lengthen panel1 at waist by 0"),
        ("lengthen panel1 at waist by 3", "lengthen panel1 at waist by each 3, 4, 5"),
        ("lengthen panel1 at waist by 3", "shorten panel1 at waist by 3"),
        ("lengthen panel1 at waist by 3", "shorten panel1 at waist by 300"),
        ("lengthen panel1 at waist by 3", "lengthen panel1 at hem by 3"),
        ("lengthen panel1 at waist by 3", "lengthen panel1, panel2 at waist by 3"),
        ("lengthen panel1 at waist by 3", "lengthen panel1 at waist by 3 keeping panel1.eyelet"),
        ("lengthen panel1 at waist by 3", "extend panel1.hem by 3"),
        ("lengthen panel1 at waist by 3", "lengthen panel1 at waist by each 3, 4, -5"),
        ("lengthen panel1 at waist by 3\n", ""),
        ("lengthen panel1 at waist by 3", "lengthen panel1 at waist by 3\nlengthen panel1 at waist by 3"),
        ("lengthen panel0 at waist by 3", "lengthen outer.panel0 at waist by 3"),
        (
            "lengthen panel3 at waist by 3",
            "lengthen panel3 at waist by 3\nsplit panel3 at waist into upper, lower",
        ),
        (
            "lengthen panel3 at waist by 3",
            "lengthen panel3 at waist by 3\nredraw panel3.neckline curve leaving right",
        ),
    ];
    edit(&awning(), &all.map(|(from, to)| (AWNING, from, to)));
}

/// An S-bend is told of unless the edge is drawn anew after it: the alteration that makes it is the same both times.
#[test]
fn a_bend_is_told_of_once_it_is_no_longer_drawn_anew() {
    let cut = ("line waist across at (0, -back_waist)", "line waist across at (0, -18)");
    let files = edited(&awning(), (AWNING, cut.0, cut.1));
    let files = edited(&files, (AWNING, "at waist by 3", "at waist by 12"));
    let redrawn = "measure fall0";
    let redraw = format!("redraw panel0.armhole curve leaving square to shoulder arriving right\n{redrawn}");
    let mut kept = Kept::default();
    let drawn_anew = (AWNING, redrawn, redraw.as_str());
    let bends = |compiled: &Compiled| slugs(compiled).iter().filter(|slug| **slug == "alter/s-bend").count();
    // All four are told of, and three where the first is drawn anew.
    assert_eq!(bends(&told_again(&edited(&files, drawn_anew), &mut kept, drawn_anew)), 3);
    assert_eq!(bends(&told_again(&files, &mut kept, drawn_anew)), 4);
    assert_eq!(bends(&told_again(&moved(&files), &mut kept, drawn_anew)), 4);
    assert_eq!(bends(&told_again(&edited(&files, drawn_anew), &mut kept, drawn_anew)), 3);
}

/// A point may lie beside its piece, a mark may not: both are drawn and moved the same way.
#[test]
fn a_point_that_becomes_a_mark_is_looked_at() {
    let mut kept = Kept::default();
    let point = (AWNING, "mark eyelet = (4, 4 - drop1)", "point eyelet = (-4, 4 - drop1)");
    let mark = (AWNING, "mark eyelet = (4, 4 - drop1)", "mark eyelet = (-4, 4 - drop1)");
    for _ in 0..2 {
        let compiled = told_again(&edited(&awning(), point), &mut kept, point);
        assert!(!slugs(&compiled).contains(&"mark/outside"));
        let compiled = told_again(&edited(&awning(), mark), &mut kept, mark);
        assert!(slugs(&compiled).contains(&"mark/outside"));
    }
}

/// Sizes are held to their neighbours: one that changes is looked at with the next, which does not.
#[test]
fn a_size_that_changes_is_held_to_the_next() {
    let straight = "point rail     = (x(underarm), -drop1)\n  point foot     = (0, -drop1)";
    let aslant = "point rail     = (x(underarm), -drop1 + ease/8)\n  point foot     = (0, -drop1 - ease/8)";
    let files = edited(&awning(), (AWNING, straight, aslant));
    let changed = (AWNING, "let ease = 24", "let ease = each 16, 24, 24");
    let mut kept = Kept::default();
    // Where several edges jump or cross they are told with the first of them.
    let crosses = |compiled: &Compiled| {
        slugs(compiled).iter().any(|slug| ["size/lines-cross", "size/irregular"].contains(slug))
    };
    assert!(!crosses(&told_again(&files, &mut kept, changed)));
    assert!(crosses(&told_again(&edited(&files, changed), &mut kept, changed)));
    assert!(crosses(&told_again(&moved(&edited(&files, changed)), &mut kept, changed)));
    assert!(!crosses(&told_again(&files, &mut kept, changed)));
}

/// The files of some examples, the first of them first.
fn of_examples(names: &[&str]) -> Files {
    let all = examples();
    let file = |name: &&str| all.iter().find(|(own, _)| own == name).expect("an example").clone();
    names.iter().map(file).collect()
}

#[test]
fn what_lies_in_other_files_is_asked() {
    let (smock, library) = ("deck-smock.fus", "crew-library.fus");
    let files = of_examples(&["deck-longer.fus", smock, library]);
    edit(
        &files,
        &[
            ("deck-longer.fus", "by 8", "by 9"),
            (smock, "let ease          = 22", "let ease          = 23"),
            (smock, "units cm", "units mm"),
            (smock, "line waist across at (0, -back_waist)", "line waist across at (0, -back_waist - 2)"),
            (smock, "mark pocket_corner", "point pocket_corner"),
            (library, "XS, S, M, L, XL, 2XL", "S, XS, M, L, XL, 2XL"),
            (library, "neck        39 at M grade +1.5", "neck        39 at S grade +1.5"),
            (library, "82, 90,  98, 106, 114, 123.5", "82, 90,  98, 106, 114"),
            (library, "width 150; selvage 1\n  shrink", "width 70; selvage 1\n  shrink"),
            (library, "thickness 0.5mm", "thickness 9mm"),
        ],
    );
}

/// An amount that is sought is tried many times over, and what is tried is not told of.
#[test]
fn zips_and_their_stock_are_asked() {
    let zip = "deck-zip.fus";
    let files = of_examples(&[zip, "deck-smock.fus", "crew-library.fus"]);
    let lengths = "let zip_length = each 75, 76, 77, 78, 79, 80";
    edit(
        &files,
        &[
            (zip, lengths, "let zip_length = each 75, 76, 77, 78, 79, 81"),
            (zip, lengths, "let zip_length = 40"),
            (zip, "zipper separating zip_length", "zipper separating 70, 75, 80"),
            (zip, "zipper separating zip_length", "zipper separating 30"),
            (zip, " keeping front.pocket_corner", ""),
            (zip, "lengthen front, back at waist until", "shorten front, back at waist until"),
            ("crew-library.fus", "back_waist  42 grade +1", "back_waist  42 grade +1.2"),
        ],
    );
}
