//! The order of work.

use fustian::compile;
use fustian::source::MemoryLoader;

/// A lined skirt of two pieces with a pocket, a zip in the side and a gap in the lining.
const SKIRT: &str = r#"garment "Mess skirt"
units cm
allowance 1
fabric serge "wool serge" { width 150 }
layer outer in serge { front, back, pocket }
layer lining in serge { front, back }
piece front "Front" { cut 1 on fold left; outline rectangle 26 by 60; point low = (5, 10) }
piece back "Back" { cut 1 on fold left; outline rectangle 26 by 60 }
piece pocket "Pocket" { cut 2 mirrored; outline rectangle 12 by 14 }
seam side  front.right to back.right { leaving gap 15 in lining, left }
seam waist outer.front.top + outer.back.top to lining.front.top + lining.back.top { matching outer.front.top_left with lining.front.top_left }
seam hem   outer.front.bottom + outer.back.bottom to lining.front.bottom + lining.back.bottom { matching outer.front.bottom_left with lining.front.bottom_left }
finish pocket.top  hem 2
place pocket on outer.front {
  corner bottom_left at low
  topstitch left, bottom, right
}
"#;

fn told(steps: &str) -> Vec<(&'static str, String)> {
    let text = format!("{SKIRT}steps {{\n\"All\" {{ {steps} }}\n}}\n");
    let compiled = compile(&MemoryLoader::new().with("skirt.fus", text), "skirt.fus");
    compiled.diagnostics.into_iter().map(|one| (one.slug(), one.title.into())).collect()
}

const GOOD: &str = "hem pocket.top; place pocket; in outer sew side; in lining sew side; sew waist, hem; \
                    turn through gap in side; slipstitch gap in side";

fn instead(of: &str, with: &str) -> Vec<(&'static str, String)> {
    assert!(GOOD.contains(of), "{of}");
    told(&GOOD.replace(of, with))
}

fn title(slug: &'static str, title: &str) -> Vec<(&'static str, String)> {
    vec![(slug, title.to_owned())]
}

#[test]
fn a_good_order_goes_without_a_word() {
    assert_eq!(told(GOOD), []);
    // Without a layer, all layers that are not done yet are meant.
    assert_eq!(instead("in lining sew side", "sew side"), []);
    assert_eq!(instead("in outer sew side; in lining sew side", "sew side; press side"), []);
}

#[test]
fn what_is_forgotten_is_told_with_its_layer() {
    let found = instead("in lining sew side; ", "");
    assert_eq!(found, title("step/forgotten", "no step says when the seam side is sewn in lining"));
    let found = instead("slipstitch gap in side", "press hem");
    assert_eq!(found, title("step/forgotten", "no step says when the gap in side is closed"));
}

#[test]
fn nothing_is_done_twice() {
    let found = instead("in lining sew side", "in lining sew side; sew side");
    assert_eq!(found, title("step/twice", "the seam side is sewn already"));
    // Basting comes on top.
    assert_eq!(instead("in lining sew side", "baste side; in lining sew side"), []);
}

#[test]
fn a_step_must_have_something_to_do() {
    assert_eq!(
        instead("hem pocket.top", "hem pocket.top, front.top"),
        title("step/nothing", "nothing says how the top of Front is finished")
    );
    assert_eq!(
        instead("turn through gap in side", "turn through gap in side; turn through gap in hem"),
        title("step/nothing", "no gap is left in hem")
    );
}

#[test]
fn what_is_crossed_comes_first() {
    let found = told(
        "hem pocket.top; place pocket; sew waist; sew side; sew hem; turn through gap in side; slipstitch gap in side",
    );
    assert_eq!(found, title("step/early", "sewing waist comes before sewing side, which it crosses"));
    let found = instead("hem pocket.top; place pocket", "place pocket; hem pocket.top");
    assert_eq!(
        found,
        title(
            "step/early",
            "placing Pocket comes before finishing the top of Pocket, whose ends it stitches down"
        )
    );
}

#[test]
fn nothing_is_shut_in() {
    let found = instead(
        "turn through gap in side; slipstitch gap in side",
        "slipstitch gap in side; turn through gap in side",
    );
    assert_eq!(found, title("step/shut", "the gap in side is closed before anything is turned through it"));
    let found = told(
        "hem pocket.top; in outer sew side; in lining sew side; sew waist, hem; turn through gap in side; place pocket; slipstitch gap in side",
    );
    assert_eq!(
        found,
        title("step/shut", "Pocket is sewn after the layers are closed, where it can no longer be reached")
    );
}

#[test]
fn a_name_that_is_misspelt_is_told_alone() {
    let found = instead("sew waist, hem", "sew waits, hem");
    assert_eq!(found.iter().map(|(slug, _)| *slug).collect::<Vec<_>>(), ["name/unknown"]);
}

#[test]
fn an_enclosed_zip_is_in_place_before_its_seam() {
    let jacket = |steps: &str| {
        let text = format!(
            "garment \"Deck jacket\"\nunits cm\nallowance 1\nfabric shell \"shell\" {{ width 150 }}\n\
             layer outer in shell {{ front }}\nlayer lining in shell {{ front }}\n\
             piece front \"Front\" {{ cut 2 mirrored; outline rectangle 30 by 60 }}\n\
             seam edge outer.front.left to lining.front.left enclosing zip\n\
             closure zip outer.front.left to outer.front.left {{ zipper separating 60 }}\n\
             finish front.top, front.bottom, front.right  raw\n\
             steps {{ \"All\" {{ {steps}; finish front.top, front.bottom, front.right }} }}\n"
        );
        let compiled = compile(&MemoryLoader::new().with("jacket.fus", text), "jacket.fus");
        compiled.diagnostics.into_iter().map(|one| (one.slug(), one.title.to_string())).collect::<Vec<_>>()
    };
    assert_eq!(jacket("baste zip; sew edge"), []);
    let shut = title("step/shut", "edge encloses zip, which is not in its place yet");
    assert_eq!(jacket("sew edge; baste zip"), shut);
    let forgotten = title("step/forgotten", "no step says when the closure zip is put in its place");
    assert_eq!(jacket("sew edge"), forgotten);
}

#[test]
fn a_cord_waits_for_its_own_channel_only() {
    // The lining is hemmed last; the cord runs through the shell's casing, which is ready.
    let text = "garment \"Galley bag\"\nunits cm\nallowance 1\n\
        fabric canvas \"canvas\" { width 150 }\n\
        layer outer in canvas { bag }\nlayer lining in canvas { bag }\n\
        piece bag \"Bag\" { cut 1 on fold left; outline rectangle 30 by 40 }\n\
        seam side bag.right to bag.right\nseam base bag.bottom to bag.bottom\n\
        finish outer.bag.top  casing 3\nfinish lining.bag.top  hem 2\n\
        cord tie 160 through outer.bag.top  ends 20 free\n\
        steps {\n\"Bag\" { in outer sew side, base; finish outer.bag.top; thread tie }\n\
        \"Lining\" { in lining sew side, base; hem lining.bag.top }\n}\n";
    let compiled = compile(&MemoryLoader::new().with("bag.fus", text), "bag.fus");
    let early: Vec<&str> = compiled
        .diagnostics
        .iter()
        .filter(|one| one.slug() == "step/early")
        .map(|one| one.title.as_str())
        .collect();
    assert!(early.is_empty(), "{early:?}");
}

/// The sleeve is set in flat, once the shoulder is sewn: an edge misspelt there says nothing of the order.
#[test]
fn a_seam_that_is_misspelt_leaves_the_order_alone() {
    let read = |name: &str| {
        let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("examples").join(name);
        std::fs::read_to_string(path).unwrap()
    };
    let smock =
        read("deck-smock.fus").replace("seam shoulder  front.shoulder", "seam shoulder  front.shouder");
    let loader =
        MemoryLoader::new().with("deck-smock.fus", smock).with("crew-library.fus", read("crew-library.fus"));
    let compiled = compile(&loader, "deck-smock.fus");
    let slugs: Vec<&str> = compiled.diagnostics.iter().map(|one| one.slug()).collect();
    assert_eq!(slugs, ["name/unknown"]);
}

/// Titles of all that is too early in a sleeve guard with those steps.
fn early_in(pieces: &str, steps: &str) -> Vec<String> {
    let text = format!(
        "garment \"Sleeve guard\"\nunits cm\nallowance 1\nfabric canvas \"canvas\" {{ width 150 }}\n\
         fabric stay \"fusible\" {{ width 90 }}\n{pieces}\nsteps {{ \"All\" {{ {steps} }} }}\n"
    );
    let compiled = compile(&MemoryLoader::new().with("guard.fus", text), "guard.fus");
    let told: Vec<_> = compiled
        .diagnostics
        .iter()
        .filter(|one| !["cloth/unused", "cord/shut", "step/fuse-late"].contains(&one.slug()))
        .collect();
    assert!(told.iter().all(|one| one.slug() == "step/early"), "{told:#?}");
    let mut titles: Vec<String> = told.iter().map(|one| one.title.to_string()).collect();
    titles.sort_unstable();
    titles
}

#[test]
fn a_ring_goes_round_a_ring() {
    let guard = "layer outer in canvas { sleeve, cuff }\n\
        piece sleeve \"Sleeve\" { cut 2 mirrored; outline rectangle 30 by 40 }\n\
        piece cuff \"Cuff\" { cut 2 mirrored; outline rectangle 30 by 8; folded top to bottom }\n\
        seam underarm  sleeve.left to sleeve.right\nseam ends  cuff.left to cuff.right\n\
        seam cuff  cuff.top and cuff.bottom to sleeve.bottom { matching cuff.top_left with sleeve.bottom_left }\n\
        finish sleeve.top  hem 2";
    assert_eq!(early_in(guard, "sew underarm, ends, cuff; hem sleeve.top"), [] as [&str; 0]);
    assert_eq!(
        early_in(guard, "sew ends, cuff, underarm; hem sleeve.top"),
        ["sewing cuff comes before sewing underarm, which closes the edge that it goes round"]
    );
    // A single one is sewn on flat and closed with what it is sewn to, or both are rings: a ring has no end to begin at
    // on an edge that still lies open.
    let flat = guard.replace("; folded top to bottom", "").replace("cuff.top and cuff.bottom", "cuff.top")
        + "\nfinish cuff.bottom  hem 2";
    let rest = "hem sleeve.top, cuff.bottom";
    for sound in ["sew underarm, ends, cuff", "sew cuff, ends, underarm"] {
        assert_eq!(early_in(&flat, &format!("{sound}; {rest}")), [] as [&str; 0], "{sound}");
    }
    assert_eq!(
        early_in(&flat, &format!("sew underarm, cuff, ends; {rest}")),
        ["sewing cuff comes before sewing ends, which makes a ring of what it sews round one"]
    );
    assert_eq!(
        early_in(&flat, &format!("sew ends, cuff, underarm; {rest}")),
        ["sewing cuff comes before sewing underarm, which makes a ring of what it sews round one"]
    );
}

#[test]
fn what_a_cuff_runs_over_on_one_piece_is_joined_before() {
    // The wrist lies in two runs on both sides of the slit's corner: the cuff goes from one over the
    // underarm to the other.
    let guard = "layer outer in canvas { sleeve, cuff }\n\
        piece sleeve \"Sleeve\" { cut 2 mirrored; point a = (0, 0); point low = (10, 0); point slit = (10.1, 8); point on = (10.2, 0)\n\
        point b = (24, 0); point c = (24, 40); point d = (0, 40)\n\
        outline from a { front to low; slit_f to slit; slit_b to on; back to b; right to c; top to d; left to a } }\n\
        piece cuff \"Cuff\" { cut 2 mirrored; outline rectangle 23.8 by 6 }\n\
        seam underarm  sleeve.left to sleeve.right\n\
        seam cuff  cuff.top to sleeve.back + sleeve.front { matching cuff.top_left with sleeve.on }\n\
        finish sleeve.slit_f, sleeve.slit_b  bound 0.5\nfinish cuff.left, cuff.right  raw\nfinish sleeve.top, cuff.bottom  hem 1";
    let rest = "hem sleeve.top, cuff.bottom";
    let slit = "finish sleeve.slit_f, sleeve.slit_b, cuff.left, cuff.right";
    assert_eq!(early_in(guard, &format!("{slit}; sew underarm, cuff; {rest}")), [] as [&str; 0]);
    assert_eq!(
        early_in(guard, &format!("{slit}; sew cuff, underarm; {rest}")),
        ["sewing cuff comes before sewing underarm, which it crosses"]
    );
}

/// A cuff of two plies, stiffened, at a sleeve that is hemmed at its slit.
const CUFF: &str = "layer outer in canvas { sleeve, cuff }\nlayer inner in canvas { cuff }\nlayer firm in stay fused { cuff }\n\
    piece sleeve \"Sleeve\" { cut 2 mirrored; outline rectangle 24 by 40 }\n\
    piece cuff \"Cuff\" { cut 2 mirrored; outline rectangle 24 by 6 }\n\
    seam edge  outer.cuff.left + outer.cuff.bottom + outer.cuff.right to inner.cuff.left + inner.cuff.bottom + inner.cuff.right\n\
    seam cuff  sleeve.bottom to outer.cuff.top and inner.cuff.top { matching sleeve.bottom_left with outer.cuff.top_left }\n\
    finish sleeve.left, sleeve.right  hem 0.5 twice\nfinish sleeve.top  hem 2";

#[test]
fn a_slit_is_finished_before_its_cuff_shuts_its_ends_in() {
    let slit = "finish sleeve.left, sleeve.right";
    let good = format!("fuse cuff; {slit}; sew edge, cuff; hem sleeve.top");
    assert_eq!(early_in(CUFF, &good), [] as [&str; 0]);
    let late = format!("fuse cuff; sew edge, cuff; {slit}; hem sleeve.top");
    let wanted = ["left", "right"].map(|side| {
        format!("sewing cuff comes before finishing the {side} of Sleeve, whose end it shuts in")
    });
    assert_eq!(early_in(CUFF, &late), wanted);
}

/// The inner cuff is pressed under and topstitched over the seam once the outer one is sewn on: the slit's
/// ends lie between the two. Where the inner one is left free at the top they can still be reached.
#[test]
fn a_slit_is_finished_before_a_cuff_that_is_sewn_down_over_its_ends() {
    let seam = "sleeve.bottom to outer.cuff.top and inner.cuff.top {";
    let placed = CUFF.replace(seam, "sleeve.bottom to outer.cuff.top {")
        + "\nplace inner.cuff on outer.cuff { corner bottom_left at bottom_left; topstitch top }";
    let slit = "finish sleeve.left, sleeve.right";
    let rest = "in inner place cuff; hem sleeve.top";
    assert_eq!(early_in(&placed, &format!("fuse cuff; {slit}; sew edge, cuff; {rest}")), [] as [&str; 0]);
    let wanted = ["left", "right"].map(|side| {
        format!(
            "sewing cuff comes before finishing the {side} of Sleeve, which lies over its end on both sides"
        )
    });
    assert_eq!(early_in(&placed, &format!("fuse cuff; sew edge, cuff; {slit}; {rest}")), wanted);
    let free =
        CUFF.replace(seam, "sleeve.bottom to outer.cuff.top {") + "\nfinish inner.cuff.top  overlocked";
    let late = format!("fuse cuff; finish inner.cuff.top; sew edge, cuff; {slit}; hem sleeve.top");
    assert_eq!(early_in(&free, &late), [] as [&str; 0]);
}

#[test]
fn what_is_closed_in_is_stiffened_before() {
    let steps = "finish sleeve.left, sleeve.right; sew edge, cuff; hem sleeve.top; fuse cuff";
    assert_eq!(early_in(CUFF, steps), ["sewing cuff comes before fusing Cuff, which it covers"]);
    // Sewn round three of its sides and turned, it is open at the fourth, and its wrong side lies inside.
    let still_open = "finish sleeve.left, sleeve.right; sew edge; fuse cuff; sew cuff; hem sleeve.top";
    let inside = "sewing edge comes before fusing Cuff, whose wrong side lies inside once that is turned";
    assert_eq!(early_in(CUFF, still_open), [inside]);
    let flat = "finish sleeve.left, sleeve.right; fuse cuff; sew edge; sew cuff; hem sleeve.top";
    assert_eq!(early_in(CUFF, flat), [] as [&str; 0]);
}

#[test]
fn a_band_is_a_channel_once_it_is_sewn_on() {
    let bag = "layer outer in canvas { bag, channel }\nlayer lining in canvas { bag }\n\
        piece bag \"Bag\" { cut 1; outline rectangle 60 by 40 }\n\
        piece channel \"Channel\" { cut 1; outline rectangle 60 by 6; folded top to bottom }\n\
        seam side  bag.left to bag.right\n\
        seam mouth  channel.top and channel.bottom to outer.bag.top and lining.bag.top { matching channel.top_left with outer.bag.top_left }\n\
        finish bag.bottom  hem 1\nfinish channel.left, channel.right  hem 1\n\
        cord tie 120 through channel.top  ends 20 free";
    let good = "hem channel.left, channel.right; sew side, mouth; thread tie; hem bag.bottom";
    assert_eq!(early_in(bag, good), [] as [&str; 0]);
    let threaded = "hem channel.left, channel.right; sew side; thread tie; sew mouth; hem bag.bottom";
    assert_eq!(early_in(bag, threaded), ["threading tie comes before sewing mouth, through which it runs"]);
    let hemmed = "sew side, mouth; hem channel.left, channel.right; thread tie; hem bag.bottom";
    let wanted = ["left", "right"].map(|side| {
        format!("sewing mouth comes before finishing the {side} of Channel, whose ends it shuts")
    });
    assert_eq!(early_in(bag, hemmed), wanted);
}
