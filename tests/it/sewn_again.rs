//! A pattern that came back from DXF is sewn again as it was: all its seams are as long on both sides.

use crate::brought::{compiled, length};
use crate::cutting_lines::{cut_all, example};
use fustian::bring::{BringOptions, bring};
use fustian::emit::dxf;

/// What the edges of the smock's pieces are called in its text, anticlockwise from behind the fold, or from the lowest
/// corner on the left.
const NAMES: [(&str, &str); 7] = [
    ("outer_front", "hem side armhole shoulder neckline"),
    ("outer_back", "hem side armhole shoulder neckline"),
    ("outer_sleeve", "wrist under_front cap under_back"),
    ("outer_collar", "bottom right top left"),
    ("outer_pocket", "bottom right top left"),
    ("knit_hem_band", "bottom right top left"),
    ("knit_cuff", "bottom right top left"),
];

/// The smock's seams as its own text has them, with the names that pieces have in the draft. `>` stands before the edge
/// at whose end a corner lies, `*` before a curve, which is several edges, and `-` before one that is sewn from its end on.
const SEAMS: &str = "\
seam shoulder  outer_front.shoulder to outer_back.shoulder
seam armhole  outer_sleeve.*cap to outer_front.*armhole + outer_back.-armhole  easing 2..3 {
  matching outer_sleeve.>under_front with outer_front.>side
  matching outer_sleeve.>cap with outer_back.>side
}
seam side  outer_front.side to outer_back.side
seam sleeve  outer_sleeve.under_front to outer_sleeve.under_back {
  matching outer_sleeve.>wrist with outer_sleeve.>under_back
}
seam collar_ends  outer_collar.left to outer_collar.right { matching outer_collar.>left with outer_collar.>bottom }
seam collar  outer_collar.bottom and outer_collar.top to outer_front.neckline + outer_back.neckline {
  matching outer_collar.>left with outer_back.>neckline
}
seam band_ends  knit_hem_band.left to knit_hem_band.right { matching knit_hem_band.>left with knit_hem_band.>bottom }
seam band  knit_hem_band.bottom and knit_hem_band.top to outer_front.hem + outer_back.hem  stretching 85% {
  matching knit_hem_band.>left with outer_back.>fold
}
seam cuff_ends  knit_cuff.left to knit_cuff.right { matching knit_cuff.>left with knit_cuff.>bottom }
seam cuff  knit_cuff.top and knit_cuff.bottom to outer_sleeve.wrist  stretching 66%..75% {
  matching knit_cuff.>left with outer_sleeve.>wrist
}
";

#[test]
fn a_smock_that_came_back_from_dxf_is_sewn_as_before() {
    let original = example("deck-smock.fus");
    let names = NAMES.map(|(piece, edges)| {
        (piece.to_owned(), edges.split(' ').map(str::to_owned).collect::<Vec<String>>())
    });
    let options =
        BringOptions { tolerance: 0.02, names: names.into_iter().collect(), ..BringOptions::default() };
    let bytes = dxf(&original.garment, &cut_all(&original));
    let brought = bring(&[("smock.dxf", &bytes)], &options).unwrap_or_else(|why| panic!("{why}"));
    let lines_of = |piece: &str| {
        let inside = brought.text.split(&format!("piece {piece} ")).nth(1).unwrap();
        inside.lines().map(str::trim_start).take_while(|line| !line.starts_with("piece "))
    };
    // A curve is several edges: all that are called after it, in their order.
    let all = |piece: &str, edge: &str| {
        let of_it = lines_of(piece).filter_map(|line| line.split_once(' ').map(|(name, _)| name));
        let own = of_it.filter(|name| *name == edge || name.starts_with(&format!("{edge}_")));
        own.map(|name| format!("{piece}.{name}")).collect::<Vec<String>>()
    };
    let end = |piece: &str, edge: &str| {
        let last = all(piece, edge).pop().unwrap().replace(&format!("{piece}."), "");
        let line = lines_of(piece).find(|line| line.starts_with(&format!("{last} "))).unwrap();
        format!("{piece}.{}", line.split_whitespace().nth(2).unwrap())
    };
    let word = |word: &str| {
        let Some((piece, edge)) = word.split_once('.') else { return word.to_owned() };
        match (edge.get(..1), edge.get(1..).unwrap_or_default()) {
            (Some(">"), edge) => end(piece, edge),
            (Some("*"), edge) => all(piece, edge).join(" + "),
            (Some("-"), edge) => all(piece, edge).into_iter().rev().collect::<Vec<_>>().join(" + "),
            _ => word.to_owned(),
        }
    };
    let seams = SEAMS.lines().map(|line| line.split(' ').map(word).collect::<Vec<_>>().join(" "));
    let seams = seams.collect::<Vec<_>>().join("\n");
    let sewn = compiled(&format!("{}\n{seams}", brought.text));
    let wrong = sewn.diagnostics.iter().filter(|one| one.slug().starts_with("seam/"));
    let wrong: Vec<String> = wrong.map(|one| format!("{}: {}", one.slug(), one.title.as_str())).collect();
    assert!(wrong.is_empty(), "{wrong:#?}\n{}", brought.text);
    assert_eq!(sewn.garment.seams.len(), 10);
    assert_eq!(sewn.sizes.len(), original.sizes.len());
    for size in 0..sewn.sizes.len() {
        let long = |piece: &str, edge: &str| -> f64 {
            all(piece, edge)
                .iter()
                .map(|name| length(&sewn, size, piece, name.split_once('.').unwrap().1))
                .sum()
        };
        let equal = |one: f64, other: f64, what: &str| {
            assert!((one - other).abs() < 0.1, "{what} in size {size}: {one} and {other}");
        };
        for edge in ["side", "shoulder", "armhole", "hem"] {
            equal(long("outer_front", edge), long("outer_back", edge), edge);
        }
        equal(long("outer_sleeve", "under_front"), long("outer_sleeve", "under_back"), "sleeve");
        // The smock has 1 in of ease over each cap (Virginia Cooperative Extension 346-122), and a band of 85 % of
        // the hem, which goes round the body once: front and back are halves.
        equal(
            long("outer_sleeve", "cap"),
            long("outer_front", "armhole") + long("outer_back", "armhole") + 25.4,
            "cap",
        );
        let round = |edge: &str| 2.0 * (long("outer_front", edge) + long("outer_back", edge));
        equal(long("knit_hem_band", "top"), 0.85 * round("hem"), "band");
        equal(long("outer_collar", "bottom"), round("neckline"), "collar");
    }
}
