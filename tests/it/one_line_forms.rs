//! Bands, facings and seams along several edges: what they stand for, how long and how many they come out, what
//! variations do to them, and that written out they say the same. Figures are worked out by hand: in centimetres where
//! they are said, in millimetres where they come out.

use crate::drafting::same;
use crate::workbench::{err, example, examples, folder_of, helps, in_memory, out, run, said, told, with};
use fustian::emit::{document, to_text};
use fustian::source::{Loader, MemoryLoader};
use fustian::{Compiled, compile, expanded};
use proptest::prelude::*;
use std::fs;

/// A singlet of two halves, each 24 wide, sewn at the side, with sleeves that are 32 round.
const SINGLET: &str = "garment \"Deckhand's singlet\"\nunits cm\nallowance 1\n\
    fabric jersey \"cotton jersey\" { width 160; kind knit; stretch 40% across, 20% along }\n\
    fabric rib \"2x2 rib\" { width 130; kind knit; stretch 80% across, 20% along }\n\
    layer outer in jersey { front, back, sleeve }\nlayer ribs in rib { hem_band, cuff }\n\
    piece front \"Front\" { cut 1 on fold left; outline rectangle 24 by 50; divide right 16 from top_right into armhole, side }\n\
    piece back \"Back\" { cut 1 on fold left; outline rectangle 24 by 50; divide right 16 from top_right into armhole, side }\n\
    piece sleeve \"Sleeve\" { cut 2 mirrored; outline rectangle 32 by 20 }\n\
    seam side front.side to back.side\n\
    seam under sleeve.left to sleeve.right { matching sleeve.bottom_left with sleeve.bottom_right }\n\
    seam armhole sleeve.top to front.armhole + back.armhole { matching sleeve.top_left with front.top_right }\n\
    finish front.top, back.top bound 1\n";
const HEM: &str = "band hem_band \"Hem band\" in ribs 6 deep folded round front.bottom + back.bottom at 85% joined at back.bottom_left { stitch 504 }\n";
const CUFF: &str = "band cuff \"Cuff\" in ribs 5 deep folded round sleeve.bottom at 70% joined at sleeve.bottom_left { stitch 504 }\n";

/// The same without sleeves.
fn vest(rest: &str) -> String {
    let plain = with(
        SINGLET,
        &[
            (", sleeve }", " }"),
            ("hem_band, cuff", "hem_band"),
            ("piece sleeve \"Sleeve\" { cut 2 mirrored; outline rectangle 32 by 20 }\n", ""),
            (
                "seam under sleeve.left to sleeve.right { matching sleeve.bottom_left with sleeve.bottom_right }\n",
                "",
            ),
            (
                "seam armhole sleeve.top to front.armhole + back.armhole { matching sleeve.top_left with front.top_right }\n",
                "finish front.armhole, back.armhole bound 1\n",
            ),
        ],
    );
    plain + rest
}

fn of(text: &str) -> Compiled {
    let compiled = compile(&in_memory(&[("own.fus", text)]), "own.fus");
    assert!(!compiled.has_mistakes(), "{:#?}", compiled.diagnostics);
    compiled
}

/// How wide and high a piece is as it is finished, and how many are cut.
fn piece(compiled: &Compiled, name: &str) -> (f64, f64, u32) {
    let garment = &compiled.garment;
    let drawn = &compiled.sizes[0].drawn;
    let mut papers = drawn.papers.iter().flatten();
    let own = papers.find(|own| *garment.piece(own.piece).name == *name).expect("the piece");
    let mut rows = drawn.cut_list.iter();
    let row = rows.find(|row| *garment.piece(row.part.piece).name == *name).expect("it is cut");
    (own.edges[0].path.length(), own.edges[1].path.length(), row.copies)
}

fn worked_out(loader: &dyn Loader, path: &str) -> String {
    let compiled = compile(loader, path);
    assert!(!compiled.has_mistakes(), "{path}: {:#?}", compiled.diagnostics);
    let mut document = document(&compiled.garment, &compiled.sizes, &compiled.map, &[]);
    document.fitting = None;
    to_text(&document).expect("a document")
}

/// Written out it works out to the same bytes, says nothing in one line any more, and stays as it is.
#[track_caller]
fn says_the_same(loader: &dyn Loader, path: &str, library: &str) -> String {
    let long = expanded(loader, path);
    let again = MemoryLoader::new().with("crew-library.fus", library).with("long.fus", long.as_str());
    assert_eq!(worked_out(loader, path), worked_out(&again, "long.fus"), "{path}:\n{long}");
    assert_eq!(expanded(&again, "long.fus"), long, "{path} is written out altogether");
    let first = |line: &str| line.split(' ').next().unwrap_or_default().to_owned();
    let short = long.lines().find(|line| ["band", "facing", "placket"].contains(&first(line).as_str()));
    assert_eq!(short, None, "{path} still says it");
    long
}

/// 85 % of 24 × 4 = 96 are 81.6; twice 6 deep. 70 % of 32 are 22.4; one for each sleeve.
#[test]
fn a_band_is_a_share_of_what_it_is_sewn_to() {
    let compiled = of(&format!("{SINGLET}{HEM}{CUFF}"));
    let (long, deep, copies) = piece(&compiled, "hem_band");
    same(long, 816.0);
    same(deep, 120.0);
    assert_eq!(copies, 1);
    let (long, deep, copies) = piece(&compiled, "cuff");
    same(long, 224.0);
    same(deep, 100.0);
    assert_eq!(copies, 2);
    let seam = |name: &str| {
        let seams = &compiled.sizes[0].sewn.seams;
        let own =
            seams.iter().find(|sewn| *compiled.garment.seam(sewn.seam).name == *name).expect("the seam");
        (own.first.plies.len(), own.first.plies[0].length, own.second.plies[0].length)
    };
    let (plies, band, edge) = seam("hem_band");
    assert_eq!(plies, 2);
    same(band, 816.0);
    same(edge, 960.0);
    // Folded, half of an end lies on the other half.
    same(seam("hem_band_ends").1, 60.0);
    assert_eq!(said(&format!("{SINGLET}{HEM}{CUFF}")), Vec::<&str>::new());
}

/// An armhole of a half on the fold is there on both sides of the body: 16 + 16, two bands. Not folded it is as deep as
/// it is said, and its upper edge is finished like any other.
#[test]
fn a_band_round_each_arm_is_cut_twice() {
    let text = vest(
        "band hem_band in ribs 3 deep round front.armhole + back.armhole at 90% joined at front.top_right\n\
         finish front.bottom, back.bottom hem 2\nfinish hem_band.top overlocked\n",
    )
    .replace("finish front.armhole, back.armhole bound 1\n", "seam shoulder front.top to back.top\n")
    .replace("finish front.top, back.top bound 1\n", "");
    let compiled = of(&text);
    let (long, deep, copies) = piece(&compiled, "hem_band");
    same(long, 288.0);
    same(deep, 30.0);
    assert_eq!(copies, 2);
}

/// Opened down the front, what goes round the hem still goes over the back: one band, 96 long.
/// Two panels of 57, each sewn to the next: the band that goes round them is one of 114, `in a ring` or not.
const SKIRT: &str = "garment \"Deck skirt\"\nunits cm\nallowance 1.5\nfabric twill \"cotton twill\" { width 150; kind woven firm }\n\
    layer outer in twill { panel, waistband }\npiece panel \"Panel\" { cut 2; outline rectangle 57 by 62 }\n\
    seam side panel.left to panel.right in a ring\n\
    band waistband \"Waistband\" in outer 3 deep folded round panel.top joined at panel.top_left\n\
    finish panel.bottom hem 3 turned under 1\ncord waist_cord 170 through waistband.top ends 0 free\n";

#[test]
fn a_band_goes_once_round_panels_in_a_ring() {
    for round in ["round panel.top joined", "round panel.top in a ring joined"] {
        let text = with(SKIRT, &[("round panel.top joined", round)]);
        assert_eq!(told(&text), []);
        let (wide, high, count) = piece(&of(&text), "waistband");
        same(wide, 1140.0);
        same(high, 60.0);
        assert_eq!(count, 1, "{round}");
    }
    // Written out: one for each panel, though these are a ring.
    let each = "piece waistband \"Waistband\" { cut 2; outline rectangle 57 by 6; folded top to bottom }\n\
        seam ends waistband.left to waistband.right { matching waistband.bottom_left with waistband.bottom_right }\n\
        seam waist waistband.bottom and waistband.top to panel.top { matching waistband.bottom_left with panel.top_left }\n";
    let band =
        "band waistband \"Waistband\" in outer 3 deep folded round panel.top joined at panel.top_left\n";
    let written = with(SKIRT, &[(band, each)]);
    assert_eq!(said(&written), ["seam/round-part"]);
    let once = [
        ("cut 2; outline rectangle 57 by 6;", "cut 1; outline rectangle 114 by 6;"),
        ("to panel.top {", "to panel.top in a ring {"),
    ];
    assert_eq!(said(&with(&written, &once)), [""; 0]);
    // Of each panel a tube of its own is made where nothing says in a ring: then there are two bands.
    let tubes = with(
        SKIRT,
        &[("to panel.right in a ring", "to panel.right { matching panel.top_left with panel.top_right }")],
    );
    assert_eq!(piece(&compile(&in_memory(&[("own.fus", &tubes)]), "own.fus"), "waistband").2, 2);
    let alone = with(SKIRT, &[("through waistband.top", "through waistband")]);
    assert_eq!(helps(&alone), ["say which of its edges: waistband.bottom, for example"]);
}

#[test]
fn a_band_along_an_opened_hem_is_one() {
    let text = vest(
        "open front at left\nclosure zip front.left to front.left from end to end { zipper separating 56 }\n\
         band hem_band \"Hem band\" in ribs 6 deep folded along front.bottom + back.bottom at 100% opening at zip\n",
    );
    let compiled = of(&text);
    let (long, _, copies) = piece(&compiled, "hem_band");
    same(long, 960.0);
    assert_eq!(copies, 1);
    // The zip takes its ends: 50 + 6.
    let zip = compiled.sizes[0].drawn.zips.first().copied().flatten();
    assert!(compiled.garment.seams.iter().all(|seam| &*seam.name != "hem_band_ends"));
    same(zip.expect("its sides are known").sides[0], 560.0);
}

/// A skirt of 40 + 40 round, open at the back: 80 and an underlap of 3.
#[test]
fn an_underlap_lies_beyond_one_end() {
    let skirt = |way: &str| {
        format!(
            "garment \"Mess skirt\"\nunits cm\nallowance 1.5\nfabric wool \"wool\" {{ width 150; kind woven firm }}\n\
             fabric stay \"stay\" {{ width 90 }}\nlayer outer in wool {{ front, back, waistband }}\n\
             layer firm in stay fused {{ waistband }}\n\
             piece front \"Front\" {{ cut 1 on fold left; outline rectangle 20 by 50 }}\n\
             piece back \"Back\" {{ cut 2 mirrored; outline rectangle 20 by 50 }}\n\
             seam side front.right to back.right\nseam centre back.left to back.left\n\
             closure zip back.left 20 from top_left to back.left 20 from top_left {{ zipper concealed 20 }}\n\
             band waistband \"Waistband\" in outer 4 deep folded grain across along front.top + back.top {way}\n\
             finish front.bottom, back.bottom hem 3\n"
        )
    };
    for hand in ["left", "right"] {
        let text = skirt(&format!("opening at zip underlap 3 at {hand} stiffened firm"));
        let compiled = of(&text);
        let garment = &compiled.garment;
        let mut papers = compiled.sizes[0].drawn.papers.iter().flatten();
        let band = papers.find(|own| &*garment.piece(own.piece).name == "waistband").expect("the band");
        // Its lower edge is the run that is sewn on, and what is left.
        same(band.edges[0].path.length() + band.edges[1].path.length(), 830.0);
        same(band.edges[2].path.length(), 80.0);
        let underlap = compiled.sizes[0]
            .sewn
            .seams
            .iter()
            .find(|sewn| *compiled.garment.seam(sewn.seam).name == *"waistband_underlap");
        same(underlap.expect("the seam").first.plies[0].length, 30.0);
        says_the_same(&in_memory(&[("own.fus", &text)]), "own.fus", "");
    }
    let slug = |way: &str| told(&skirt(way));
    assert_eq!(
        slug("opening at zip underlap 3 at back stiffened firm"),
        [("band/ends", "no end of waistband lies at back".to_owned())]
    );
    assert!(
        helps(&skirt("opening at zip underlap 3 at back stiffened firm"))[0].contains("at left, or at right")
    );
    assert_eq!(
        slug("opening at zap stiffened firm")[0],
        ("name/unknown", "there is no closure called zap".to_owned())
    );
    assert_eq!(slug("underlap 3 at left stiffened firm")[0].0, "band/ends");
}

/// A neck of a quarter circle of radius 10: its edge is 10·π/2, the strip 5 wide ends on one of radius 15, and both
/// straight ends are 5.
#[test]
fn a_facing_goes_round_a_neck() {
    let draft = "piece front \"Front\" { cut 1 on fold centre\npoint neck_cf = (0, -10)\npoint neck_side = (10, 0)\n\
                 point tip = (22, 0)\npoint hem_side = (22, -50)\npoint hem_cf = (0, -50)\n\
                 outline from hem_cf { centre to neck_cf; neckline to neck_side arc about (0, 0) anticlockwise\n\
                 shoulder to tip; side to hem_side; hem to hem_cf } }\n";
    let text = |facing: &str| {
        format!(
            "garment \"Galley tabard\"\nunits cm\nallowance 1\nfabric cotton \"cotton\" {{ width 150; kind woven firm }}\n\
             fabric stay \"stay\" {{ width 90 }}\nlayer outer in cotton {{ front, back }}\n\
             layer firm in stay fused {{ neck_facing_front, neck_facing_back }}\n{draft}\
             piece back \"Back\" {{ cut 1 on fold centre; outline copy of front }}\nseam shoulder front.shoulder to back.shoulder\n\
             facing neck_facing \"Neck facing\" in outer 5 wide behind front.neckline + back.neckline {facing}\n\
             finish front.side, back.side, front.hem, back.hem overlocked\n"
        )
    };
    let whole = text("stiffened firm understitched");
    let compiled = of(&whole);
    let garment = &compiled.garment;
    let drawn = &compiled.sizes[0].drawn;
    for (name, title) in
        [("neck_facing_front", "Neck facing, front"), ("neck_facing_back", "Neck facing, back")]
    {
        let own =
            drawn.papers.iter().flatten().find(|own| *garment.piece(own.piece).name == *name).expect("it");
        assert_eq!(&*garment.piece(own.piece).title, title);
        let edge = |name: &str| {
            let mut edges = own.edges.iter();
            edges.find(|edge| &*garment.edge(edge.edge).name == name).expect("the edge").path.length()
        };
        same(edge("neckline"), 50.0 * std::f64::consts::PI);
        same(edge("inner"), 75.0 * std::f64::consts::PI);
        same(edge("centre"), 50.0);
        same(edge("shoulder"), 50.0);
    }
    let seams: Vec<&str> = garment.seams.iter().map(|seam| &*seam.name).collect();
    assert_eq!(seams, ["shoulder", "neck_facing_shoulder", "neck_facing"]);
    assert_eq!(said(&whole), Vec::<&str>::new());
    let long = says_the_same(&in_memory(&[("own.fus", &whole)]), "own.fus", "");
    assert!(long.contains("finish outer.neck_facing_front.inner, outer.neck_facing_back.inner  overlocked"));
    // What the maker says of the inner edge holds.
    let bound = of(&text("stiffened firm neatened bound 1"));
    assert_eq!(bound.garment.finishes.len(), 2);
    let own =
        format!("{}finish neck_facing_front.inner, neck_facing_back.inner bound 1\n", text("stiffened firm"));
    assert_eq!(said(&own), Vec::<&str>::new());
}

/// A waist of 40 with a knife pleat of 2 and one of 1 is 40 − 4 − 2 = 34 as sewn; so is its facing, 5 deep all along.
#[test]
fn a_facing_is_taken_with_pleats_shut() {
    let text = "garment \"Mess apron\"\nunits cm\nallowance 1\nfabric cotton \"cotton\" { width 150; kind woven firm }\n\
                layer outer in cotton { apron }\npiece apron \"Apron\" { cut 1; outline rectangle 40 by 60\n\
                pleat one on top at 8 from left depth 2 toward left\npleat other on top at 8 from right depth 1 toward right }\n\
                facing waist_facing in outer 5 wide behind apron.top\n\
                finish apron.left, apron.right, apron.bottom hem 2\n\
                finish waist_facing_apron.left, waist_facing_apron.right hem 2\n";
    let compiled = of(text);
    let garment = &compiled.garment;
    let mut own = compiled.sizes[0].drawn.papers.iter().flatten();
    let own = own.find(|own| &*garment.piece(own.piece).name == "waist_facing_apron").expect("it");
    for edge in &own.edges {
        let long = if ["top", "inner"].contains(&&*garment.edge(edge.edge).name) { 340.0 } else { 50.0 };
        same(edge.path.length(), long);
    }
    assert!(said(text).is_empty(), "{:?}", told(text));
}

/// A dart 3 wide and 12 deep in a straight edge of 40: shut it turns the two stretches of 18.5 by its angle, and trued
/// they are one curve, of which the strip is as long as the edge as sewn.
#[test]
fn a_facing_is_taken_with_darts_shut() {
    let text = "garment \"Mess skirt\"\nunits cm\nallowance 1\nfabric wool \"wool\" { width 150; kind woven firm }\n\
                layer outer in wool { front }\npiece front \"Front\" { cut 1; outline rectangle 40 by 60\n\
                dart waist_dart on top in the middle width 3 to (20, 48) pressed toward left trued }\n\
                facing waist_facing in outer 5 wide behind front.top\n\
                finish front.left, front.right, front.bottom hem 2\n\
                finish waist_facing_front.left, waist_facing_front.right hem 2\n";
    let compiled = of(text);
    let garment = &compiled.garment;
    let named = |name: &str| {
        let mut papers = compiled.sizes[0].drawn.papers.iter().flatten();
        papers.find(|own| *garment.piece(own.piece).name == *name).expect("the piece")
    };
    let (strip, front) = (named("waist_facing_front"), named("front"));
    let edge =
        |name: &str| strip.edges.iter().find(|edge| &*garment.edge(edge.edge).name == name).expect("it");
    let top = front.edges.iter().find(|edge| &*garment.edge(edge.edge).name == "top").expect("the waist");
    let mouth = front.take_ups[0].mouth.expect("it is taken from the waist");
    same(edge("top").path.length(), top.path.length() - (mouth.to - mouth.from));
    // Between the outer halves of the two stretches lies an arc that turns by the dart's angle, 2·atan(1.5/12); its
    // parallel 5 inside is shorter or longer by 5 times that.
    let turned = 2.0 * (1.5f64 / 12.0).atan();
    let difference = (edge("inner").path.length() - edge("top").path.length()).abs();
    assert!((difference - 50.0 * turned).abs() < 0.5, "{difference}");
    assert!(said(text).is_empty(), "{:?}", told(text));
}

/// The same edges of one piece in two layers.
#[test]
fn a_seam_along_edges_is_one_seam() {
    let text = |seam: &str| {
        format!(
            "garment \"Flag pouch\"\nunits cm\nallowance 1\nfabric canvas \"canvas\" {{ width 150; kind woven firm }}\n\
             layer outer in canvas {{ flap }}\nlayer inside in canvas {{ flap }}\n\
             piece flap \"Flap\" {{ cut 1 loose; outline rectangle 30 by 14 }}\nseam flap_edge {seam}\n\
             finish outer.flap.top, inside.flap.top overlocked\n"
        )
    };
    let short = text("outer.flap to inside.flap along left + bottom + right { allowance 0.7 }");
    let compiled = of(&short);
    let sewn = &compiled.sizes[0].sewn.seams[0];
    // 14 + 30 + 14
    same(sewn.first.plies[0].length, 580.0);
    let long = text(
        "outer.flap.left + outer.flap.bottom + outer.flap.right to inside.flap.left + inside.flap.bottom + \
         inside.flap.right { allowance 0.7 }",
    );
    let in_one = |text: &str| worked_out(&in_memory(&[("own.fus", text)]), "own.fus");
    assert_eq!(in_one(&short), in_one(&long));
    let wrong = text("outer.flap to inside.flap along left + botom + right");
    assert_eq!(said(&wrong), ["name/unknown"]);
}

/// A variation takes the line back, says it anew, and alters its piece.
#[test]
fn variations_change_the_line_as_a_whole() {
    let base = format!("{SINGLET}{HEM}{CUFF}");
    let varied = |text: &str| {
        let text = format!("variation \"Other\" of \"base.fus\"\n{text}");
        compile(&in_memory(&[("base.fus", &base), ("own.fus", &text)]), "own.fus")
    };
    let slugs = |compiled: &Compiled| -> Vec<String> {
        let all = compiled.diagnostics.iter().filter(|one| one.slug() != "steps/none");
        all.map(|one| format!("{}: {}", one.slug(), one.title)).collect()
    };
    let names = |compiled: &Compiled| -> Vec<String> {
        compiled.garment.seams.iter().map(|seam| seam.name.to_string()).collect()
    };
    let dropped = varied("drop band hem_band\nfinish front.bottom, back.bottom hem 2\n");
    assert_eq!(slugs(&dropped), Vec::<String>::new());
    assert!(!names(&dropped).iter().any(|name| name.starts_with("hem_band")), "{:?}", names(&dropped));
    let replaced = varied(
        "replace band cuff \"Cuff\" in ribs 8 deep folded round sleeve.bottom at 75% joined at sleeve.bottom_left { stitch 504 }\n",
    );
    assert_eq!(slugs(&replaced), Vec::<String>::new());
    let (long, deep, _) = piece(&replaced, "cuff");
    same(long, 240.0);
    same(deep, 160.0);
    // What is sewn to a sleeve goes with it.
    let sleeveless = varied("drop sleeve and all sewn to it\nfinish front.armhole, back.armhole bound 1\n");
    assert_eq!(names(&sleeveless), ["side", "hem_band_ends", "hem_band"]);
    assert!(!sleeveless.has_mistakes(), "{:?}", slugs(&sleeveless));
    let of_another_kind = varied("drop seam hem_band\n");
    assert_eq!(slugs(&of_another_kind), ["drop/nothing: hem_band is a band, not a seam"]);
    let altered = varied(
        "in piece front add { line waist across at (0, 20) }\nlengthen front at waist by 4\n\
                          in piece back add { line waist across at (0, 20) }\nlengthen back at waist by 4\n",
    );
    assert_eq!(slugs(&altered), Vec::<String>::new());
    let nothing = varied("replace piece hem_band \"Band\" { cut 1; outline rectangle 80 by 12 }\n");
    assert!(slugs(&nothing)[0].starts_with("replace/nothing: hem_band is a band"), "{:?}", slugs(&nothing));
}

/// The examples that say something in one line, themselves or by what they vary.
#[test]
fn examples_say_the_same_written_out() {
    let folder = examples();
    let library = example("crew-library");
    let mut short = 0;
    for name in
        ["deck-smock.fus", "deck-zip.fus", "deck-jacket.fus", "deck-hood.fus", "purser-shirt-placket.fus"]
    {
        let loader = ["crew-library", "crew-badge"]
            .iter()
            .fold(MemoryLoader::new(), |loader, own| loader.with(&format!("{own}.fus"), example(own)));
        let files = fs::read_dir(folder.path()).expect("the examples");
        let loader = files.fold(loader, |loader, entry| {
            let path = entry.expect("an entry").path();
            let name = path.file_name().expect("a name").to_string_lossy().into_owned();
            loader.with(&name, fs::read_to_string(&path).expect("a text"))
        });
        let long = says_the_same(&loader, name, &library);
        short += u32::from(long != fs::read_to_string(folder.path().join(name)).expect("a text"));
    }
    assert_eq!(short, 5);
}

#[test]
fn expand_prints_writes_and_reads_what_is_piped_in() {
    let text = format!("# of the stores\n{SINGLET}{HEM}{CUFF}");
    let folder = folder_of(&[("singlet.fus", &text), ("wrong.fus", &text.replace("at 85%", ""))]);
    let printed = run(folder.path(), &["expand", "singlet.fus"]);
    assert_eq!(printed.status.code(), Some(0), "{}", err(&printed));
    assert!(out(&printed).starts_with("# of the stores\ngarment"), "notes stay");
    assert!(
        out(&printed)
            .contains("outline rectangle 85% * total(outer.front.bottom + outer.back.bottom) by 6 + 6")
    );
    let written = run(folder.path(), &["expand", "singlet.fus", "-o", "long.fus"]);
    assert_eq!((written.status.code(), out(&written)), (Some(0), String::new()));
    assert_eq!(fs::read_to_string(folder.path().join("long.fus")).expect("it"), out(&printed));
    assert_eq!(run(folder.path(), &["expand", "wrong.fus"]).status.code(), Some(1));
    assert_eq!(run(folder.path(), &["expand", "none.fus"]).status.code(), Some(2));
    let mut piped = crate::workbench::fustian(folder.path());
    let file = fs::File::open(folder.path().join("singlet.fus")).expect("it");
    let piped = piped.args(["expand", "-"]).stdin(file).output().expect("it runs");
    assert_eq!((piped.status.code(), out(&piped)), (Some(0), out(&printed)));
}

proptest! {
    #![proptest_config(crate::cases::cases(24))]

    /// Of whatever share, depth and way, written out it says the same.
    #[test]
    fn any_band_says_the_same_written_out(
        share in 60u32..101, deep in 2u32..9, folded: bool, across: bool, joined in 0usize..3, facing: bool, wide in 2u32..6,
    ) {
        let at = ["back.bottom_left", "front.bottom_right", "outer.back.bottom_right"][joined];
        let (folded, far) = if folded { (" folded", "") } else { ("", "finish hem_band.top hem 1\n") };
        let across = if across { " grain across" } else { "" };
        let (neck, sewn) = match facing {
            true => (
                format!("facing neck in outer {wide} wide behind front.top + back.top understitched\n"),
                "seam shoulder",
            ),
            false => (String::new(), "none"),
        };
        let text = vest(&format!(
            "band hem_band in ribs {deep} deep{folded}{across} round front.bottom + back.bottom at {share}% joined at {at}\n{far}{neck}"
        ));
        let text = if sewn == "none" { text } else {
            text.replace("finish front.top, back.top bound 1\n", "")
                .replace("finish front.armhole, back.armhole bound 1\n", "seam arm front.armhole to back.armhole\n")
        };
        let loader = in_memory(&[("own.fus", &text)]);
        if !compile(&loader, "own.fus").has_mistakes() {
            says_the_same(&loader, "own.fus", "");
        } else {
            // A rib that is stretched too far, or too wide for its cloth, is told alike.
            let slugs = |path: &str, loader: &dyn Loader| -> Vec<&'static str> {
                compile(loader, path).diagnostics.iter().map(|one| one.slug()).collect()
            };
            let long = expanded(&loader, "own.fus");
            prop_assert_eq!(slugs("own.fus", &loader), slugs("long.fus", &in_memory(&[("long.fus", &long)])));
        }
    }
}

/// Forty are told of at the most, a hem band of 70 was one of 7.
#[test]
fn bands_and_facings_deeper_than_any_are_told() {
    let deep = |by: &str| {
        let text = format!("{SINGLET}{}", with(HEM, &[("6 deep", &format!("{by} deep"))]));
        told(&text).into_iter().filter(|(slug, _)| *slug == "length/out-of-use").count()
    };
    assert_eq!((deep("6"), deep("39"), deep("70")), (0, 0, 1));
}

/// A front whose edge slants from (4, 50) to (0, 0), hemmed on the right and faced on the left.
const WRAP: &str = "garment \"Wrap vest\"\nunits cm\nallowance 1\nfabric drill \"drill\" { width 150 }\nlayer outer in drill { front, back }\n\
    piece front \"Front\" { cut 2 mirrored\npoint a = (0, 0); point b = (26, 0); point c = (26, 50); point d = (4, 50)\n\
    outline from a { hem to b; side to c; top to d; edge to a }\ndrawn right }\n\
    piece back \"Back\" { cut 1 on fold left; outline rectangle 26 by 50 }\nseam side front.side to back.right { matching front.b with back.bottom_right }\n\
    facing edge_facing \"Facing\" in outer 4 wide behind front.edge on left\nfinish front.edge on right hem 2\n\
    finish front.top, back.top, front.hem, back.bottom, edge_facing_front.top, edge_facing_front.hem overlocked\n";

/// One strip, which lies right sides together on the left front: of a front that is drawn as the right one it is as that is
/// drawn, from (4, 50) to (0, 0); of one drawn as the left one its mirror image, from (−4, 50).
#[test]
fn a_facing_on_one_side_is_one_strip() {
    let corner = |text: &str| {
        assert_eq!(said(text), [""; 0]);
        let compiled = of(text);
        let strip = compiled.sizes[0].drawn.papers.iter().flatten();
        let mut strip =
            strip.filter(|drawn| *compiled.garment.piece(drawn.piece).name == *"edge_facing_front");
        let strip = strip.next().expect("the strip");
        assert_eq!(strip.count, 1);
        let edge = strip.edges.iter().find(|edge| *compiled.garment.edge(edge.edge).name == *"edge");
        let start = edge.expect("the faced edge").path.start();
        (start.x, start.y)
    };
    let (x, y) = corner(WRAP);
    same(x, 40.0);
    same(y, 500.0);
    let left = with(WRAP, &[("drawn right", "drawn left")]);
    same(corner(&left).0, -40.0);
    // Behind a piece that is cut once, in whatever way it is drawn, too.
    let single = with(
        WRAP,
        &[
            ("{ front, back }", "{ front }"),
            ("cut 2 mirrored", "cut 1"),
            ("piece back \"Back\" { cut 1 on fold left; outline rectangle 26 by 50 }\n", ""),
            ("seam side front.side to back.right { matching front.b with back.bottom_right }\n", ""),
            ("edge on left", "edge"),
            ("finish front.edge on right hem 2\n", ""),
            (
                "finish front.top, back.top, front.hem, back.bottom,",
                "finish front.top, front.side, front.hem,",
            ),
        ],
    );
    same(corner(&single).0, -40.0);
    // A run of the edge too, which leaves the rest of it to its finish; the strip has no upper end at the top then.
    let changes = [
        ("behind front.edge on left", "behind front.edge 20 from a on left"),
        ("finish front.edge on right", "finish front.edge"),
    ];
    let run = with(WRAP, &changes);
    assert_eq!(said(&run), ["edge/gone"]);
    assert_eq!(
        said(&with(&run, &[("edge_facing_front.top, edge_facing_front.hem", "edge_facing_front.hem")])),
        [""; 0]
    );
    let written = expanded(&in_memory(&[("own.fus", left.as_str())]), "own.fus");
    assert!(written.contains("along edge width 4 mirrored"), "{written}");
}
