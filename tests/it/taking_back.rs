//! Whatever a base can say, a variation of it can take back: what comes out is then, to the byte, what came
//! out before it was said.

use crate::workbench::in_memory;
use fustian::compile;
use fustian::emit::{document, to_text};
use std::collections::{BTreeMap, BTreeSet};

const GRAMMAR: &str = include_str!("../../grammar/fustian.pest");

/// A locker bag of the crew.
const BAG: &str = r#"garment "Locker bag"
units cm
allowance 1
sizes S, M, L
body { hand 20, 21, 22 }
fabric drill "drill" { width 150 }
fabric stay "stay" { width 90 }
layer outer in drill { bag, flap }
layer firm in stay fused { flap }
let depth = 40 "how deep"
measure deep "Depth" = length(bag.left)
require length(bag.left) >= 30 "it must hold a jersey"
piece bag "Bag" {
  cut 1
  outline rectangle 36 by depth
  line middle across at (0, 20)
  mark loop_mark = (18, 34)
  notch left 10 from bottom_left
}
piece flap "Flap" {
  cut 1
  outline rectangle 36 by 16
}
seam side bag.left to bag.right { matching bag.top_left with bag.top_right }
seam flap bag.top to flap.bottom { matching bag.top_left with flap.bottom_left }
finish bag.bottom  hem 2
finish flap.left, flap.right, flap.top  hem 1
notion "hanging loop" 1
opening bag.bottom  passes hand
steps {
  "Bag"   { sew side; hem bag.bottom }
  "Flap"  { fuse flap; hem flap.left, flap.right, flap.top; sew flap }
}
"#;

/// By rule of the grammar: what a variation says, and what takes it back.
const SAID: &[(&str, &str, &str)] = &[
    // Facts that a garment says once.
    ("tolerance", "tolerance 3mm", "drop tolerance"),
    ("stitch", "stitch 401", "drop stitch"),
    ("wearer", "wearer child from 6 to 9 years", "drop wearer"),
    ("about", "about \"What hangs in every locker.\"", "drop about"),
    ("credit", "maker \"Ferry workshop\"", "drop maker"),
    ("credit", "edition 3", "drop edition"),
    ("credit", "licence \"for the crew\"", "drop licence"),
    ("credit", "level easy", "drop level"),
    ("pick", "pick size by hand", "drop pick size"),
    ("allowance", "replace allowance 2", "replace allowance 1"),
    ("sizes", "sizes M, L", "sizes S, M, L"),
    ("body", "body { arm 60, 61, 62 }", "drop body arm"),
    ("body", "body { arm 60, 61, 62; wrist 15, 16, 17 }", "drop body wrist\ndrop body arm"),
    ("units", "units in", ""),
    ("use_", "use \"shop.fus\"", "drop fabric felt"),
    // What has a name.
    ("let_", "let width_of = 3", "drop let width_of"),
    ("measure", "measure wide \"Width\" = length(bag.top)", "drop measure wide"),
    ("require", "require depth > 3 \"not too flat\"", "drop require \"not too flat\""),
    ("fabric", "fabric felt \"felt\" { width 90 }", "drop fabric felt"),
    ("layer", "layer inside in drill { flap }", "drop layer inside"),
    ("piece", "piece tab \"Tab\" { cut 1; outline rectangle 4 by 8 }", "drop tab"),
    ("placket", "placket gusset on bag.slot bound 1", "drop placket gusset"),
    ("band", "band rim in outer 3 deep folded round flap.top joined at flap.top_left", "drop band rim"),
    ("facing", "facing inside in outer 4 wide behind flap.top understitched", "drop facing inside"),
    ("seam", "seam top flap.top to flap.top", "drop seam top"),
    ("finish", "finish flap.bottom  raw", "drop finish flap.bottom"),
    ("finish", "finish flap.top 6 from top_left  raw", "drop finish flap.top 6 from top_left"),
    ("finish", "finish flap.top 3..6 from top_left  raw", "drop finish flap.top 3..6 from top_left"),
    ("place", "place flap on bag { corner bottom_left at loop_mark }", "drop place flap on bag"),
    ("closure", "closure front bag.top to bag.top { snaps 3 of 12mm }", "drop closure front"),
    ("opening", "opening flap.top  passes hand", "drop opening flap.top"),
    ("cord", "cord pull 80 through bag.bottom", "drop cord pull"),
    ("strap", "strap handle 30 by 3 in outer { from bag.loop_mark to free }", "drop strap handle"),
    ("stitched_row", "topstitch rows 1 from bag.bottom rows 2 apart 0.5", "drop topstitch rows"),
    ("stitched_row", "understitch under 0.2 from flap.bottom", "drop understitch under"),
    ("tack", "tack hold bag.loop_mark bar 1", "drop tack hold"),
    (
        "setting",
        "set ends \"cord end\" at bag.loop_mark\nnotion \"cord end\" 2",
        "drop set ends\ndrop notion \"cord end\"",
    ),
    ("notion", "notion \"cord end\" 2", "drop notion \"cord end\""),
    ("steps", "in steps after \"Bag\" add \"Press\" { press side }", "drop step \"Press\""),
    // What is done to the paper.
    ("unfold", "unfold bag", "drop unfold bag"),
    ("unpair", "unpair bag into one, other", "drop unpair bag"),
    ("lengthen", "lengthen bag, flap at middle by 3", "drop lengthen flap, bag at middle"),
    ("lengthen", "shorten bag at middle by 3", "drop shorten bag at middle"),
    ("lengthen", "lengthen bag at middle until front fits", "drop lengthen bag at middle"),
    ("cut_off", "cut off bag at middle", "drop cut off bag at middle"),
    ("extend", "extend bag.left, bag.right by 1", "drop extend bag.left, bag.right"),
    ("extend", "trim bag.left by 1", "drop trim bag.left"),
    ("open_fold", "open bag at left", "drop open bag at left"),
    ("open_fold", "close bag at left", "drop close bag at left"),
    ("split", "split bag at middle into lower, upper", "drop split bag at middle"),
    (
        "split_darts",
        "split bag from dart_one through (3, 4) to dart_two into lower, upper as princess",
        "drop split bag from dart_one to dart_two",
    ),
    ("join", "join bag to flap at flap into whole", "drop join bag to flap at flap"),
    ("redraw", "redraw bag.left curve through (-1, 20)", "drop redraw bag.left"),
    ("flare", "flare bag along middle by 4", "drop flare bag along middle"),
    ("fold_out", "fold out bag along middle by 4", "drop fold out bag along middle"),
    ("spread", "spread bag along middle by 4", "drop spread bag along middle"),
    ("spread", "overlap bag along middle by 4", "drop overlap bag along middle"),
    ("move_dart", "move dart bag.dart_one to top at 50%", "drop move dart bag.dart_one"),
    (
        "let_dart",
        "let dart shaping into bag.left at 12 from top_left angle 12° to (12, 20) turning to bottom pressed down",
        "drop let dart shaping into bag.left",
    ),
    (
        "let_pleat",
        "let pleat room into bag.top in the middle depth 2 toward left",
        "drop let pleat room into bag.top",
    ),
    ("leave_dart", "leave dart bag.dart_one as ease", "drop leave dart bag.dart_one"),
    ("close_dart", "close dart bag.dart_one", "drop close dart bag.dart_one"),
    // What is drawn on a piece.
    ("point", "in piece bag add { point spot = (3, 4) }", "drop point bag.spot"),
    ("mark", "in piece bag add { mark spot = (3, 4) }", "drop mark bag.spot"),
    ("cut", "in piece bag replace { cut 4 mirrored }", "in piece bag replace { cut 1 }"),
    (
        "outline",
        "in piece flap replace { outline rectangle 36 by 17 }",
        "in piece flap replace { outline rectangle 36 by 16 }",
    ),
    ("line", "in piece bag add { line low across at (0, 8) }", "drop line bag.low"),
    ("line", "in piece bag add { line low \"Low line\" across at (0, 8) adjust }", "drop line bag.low"),
    ("notch", "in piece bag add { notch top at 50% }", "drop notch bag.top"),
    (
        "notch",
        "in piece bag add { notch left 20 from bottom_left }",
        "drop notch bag.left 20 from bottom_left",
    ),
    ("divide", "in piece bag add { divide top at 50% into first, top }", "drop divide bag.first"),
    (
        "dart",
        "in piece bag add { dart taper on top at 18 from left width 2 to (18, 30) pressed toward left }",
        "drop dart bag.taper",
    ),
    (
        "pleat",
        "in piece bag add { pleat fold_pleat on top in the middle depth 2 toward left }",
        "drop pleat bag.fold_pleat",
    ),
    (
        "tuck",
        "in piece bag add { tuck pin on top at 4 from left depth 0.3 toward left to bottom }",
        "drop tuck bag.pin",
    ),
    ("slit", "in piece bag add { slit slot on top at 18 from left down 6 }", "drop slit bag.slot"),
    ("slit", "in piece bag add { slit eye from (16, 30) to (20, 30) }", "drop slit bag.eye"),
    ("folded", "in piece flap add { folded top to bottom }", "drop folded flap"),
    ("grain", "in piece bag add { grain across }", "drop grain bag"),
    ("allowance", "in piece bag add { allowance 2 }", "drop allowance bag"),
    ("corner", "in piece bag add { corner left/bottom square }", "drop corner bag.bottom/left"),
    (
        "move_point",
        "in piece bag add { move point bottom_left by (0, 1) }",
        "drop move point bag.bottom_left",
    ),
    ("never_flipped", "in piece flap add { never flipped }", "drop never flipped flap"),
    ("drawn", "in piece bag add { drawn left }", "drop drawn bag"),
    ("left_out", "piece tab \"Tab\" { cut 1; outline copy of bag; without loop_mark }", "drop tab"),
    // What a variation says of its own base.
    (
        "replace",
        "replace seam side bag.left to bag.right { stitch 301 }",
        "replace seam side bag.left to bag.right { matching bag.top_left with bag.top_right }",
    ),
    (
        "drop",
        "drop seam side",
        "seam side bag.left to bag.right { matching bag.top_left with bag.top_right }",
    ),
    (
        "replace",
        "in piece bag replace { mark loop_mark = (18, 30) }",
        "in piece bag replace { mark loop_mark = (18, 34) }",
    ),
    (
        "replace_dart",
        "replace line bag.middle across at (0, 10)",
        "replace line bag.middle across at (0, 20)",
    ),
    (
        "replace_dart",
        "replace mark bag.loop_mark \"Loop\" = (18, 30)",
        "replace mark bag.loop_mark = (18, 34)",
    ),
    (
        "replace_dart",
        "in piece bag replace { line middle across at (0, 10) }",
        "in piece bag replace { line middle across at (0, 20) }",
    ),
    (
        "replace_step",
        "replace step \"Bag\" { sew side; press side; hem bag.bottom }",
        "replace step \"Bag\" { sew side; hem bag.bottom }",
    ),
    ("set", "set depth = 44 \"how deep\"", "set depth = 40 \"how deep\""),
    ("drop", "drop measure deep", "measure deep \"Depth\" = length(bag.left)"),
    (
        "drop",
        "drop require \"it must hold a jersey\"",
        "require length(bag.left) >= 30 \"it must hold a jersey\"",
    ),
    ("drop", "drop mark bag.loop_mark", "in piece bag add { mark loop_mark = (18, 34) }"),
    ("add_to_layer", "add bag to layer firm", "replace layer firm in stay fused { flap }"),
    (
        "in_seam",
        "in seam side add { allowance 2 }",
        "replace seam side bag.left to bag.right { matching bag.top_left with bag.top_right }",
    ),
    ("add_steps", "in steps before \"Flap\" add \"Press\" { press side }", "drop step \"Press\""),
    (
        "add_to_piece",
        "in piece bag add { mark spot = (3, 4); mark other = (5, 6) }",
        "drop mark bag.other\ndrop mark bag.spot",
    ),
];

/// What is no fact of a garment: headings, and a dart that is drawn within an outline's walk. The bag has no band of which
/// something could be said anew: that is taken back in `after_bands`.
const NOT_SAID: &[&str] = &["garment", "variation", "fitting", "library", "replace_altered", "in_band"];

fn worked_out(files: &[(&str, &str)]) -> String {
    let compiled = compile(&in_memory(files), files[0].0);
    assert!(!compiled.has_mistakes(), "{}: {:#?}", files[0].1, compiled.diagnostics);
    let mut document = document(&compiled.garment, &compiled.sizes, &compiled.map, &[]);
    document.garment = String::new();
    to_text(&document).expect("figures")
}

const SHOP: &str = "library \"Shop\"\nunits cm\nfabric felt \"felt\" { width 90 }\n";

#[test]
fn whatever_is_said_is_taken_back() {
    let before = worked_out(&[("bag.fus", BAG)]);
    for (rule, said, back) in SAID {
        let more = format!("variation \"More\" of \"bag.fus\"\n{said}\n");
        let undone = format!("variation \"Undone\" of \"more.fus\"\n{back}\n");
        let files = [
            ("undone.fus", undone.as_str()),
            ("more.fus", more.as_str()),
            ("bag.fus", BAG),
            ("shop.fus", SHOP),
        ];
        assert_eq!(worked_out(&files), before, "{rule}: {said} — {back}");
        // The whole file is taken back as well.
        let without = "variation \"Undone\" of \"more.fus\" without \"more.fus\"\n";
        let files =
            [("undone.fus", without), ("more.fus", more.as_str()), ("bag.fus", BAG), ("shop.fus", SHOP)];
        assert_eq!(worked_out(&files), before, "{rule}: {said}, without its file");
    }
}

#[test]
fn what_is_taken_back_had_been_said() {
    for (rule, said, _) in SAID.iter().filter(|(rule, ..)| !["units", "use_"].contains(rule)) {
        let more = format!("variation \"More\" of \"bag.fus\"\n{said}\n");
        let compiled = compile(&in_memory(&[("more.fus", &more), ("bag.fus", BAG)]), "more.fus");
        let refused = compiled.diagnostics.iter().find(|one| {
            let slugs = ["replace/nothing", "drop/nothing", "variation/place"];
            one.kind.family() == "syntax" || slugs.contains(&one.slug())
        });
        assert!(refused.is_none(), "{rule}: {said}: {refused:#?}");
    }
}

/// The rules that a rule of the grammar chooses from.
fn alternatives(rule: &str) -> BTreeSet<&'static str> {
    let line = GRAMMAR
        .split('\n')
        .position(|line| line.split_whitespace().next() == Some(rule) && line.contains('='))
        .expect("the rule");
    let text: Vec<&str> = GRAMMAR.split('\n').skip(line).collect();
    let whole = text.join("\n");
    let whole = &GRAMMAR[GRAMMAR.len() - whole.len()..];
    let (from, to) = (whole.find('{').expect("{") + 1, whole.find('}').expect("}"));
    whole[from..to].split('|').map(str::trim).collect()
}

/// The words of the language that a rule of the grammar names.
fn keywords(rule: &str) -> BTreeSet<&'static str> {
    let head = format!("\n{rule} ");
    let from = GRAMMAR.find(&head).map(|at| at + 1).expect("the rule");
    let line = GRAMMAR[from..].lines().next().unwrap_or_default();
    line.split(|sign: char| !(sign.is_alphanumeric() || sign == '_'))
        .filter_map(|word| word.strip_prefix("k_"))
        .collect()
}

/// What is said for a rule is of that rule, and what takes it back takes something back.
#[test]
fn each_of_them_is_of_its_rule() {
    for (rule, said, back) in SAID.iter().filter(|(rule, ..)| *rule != "strapfact") {
        let own = keywords(rule);
        let words: BTreeSet<&str> =
            said.split(|sign: char| !(sign.is_alphanumeric() || sign == '_')).collect();
        assert!(own.is_empty() || !own.is_disjoint(&words), "{rule} needs one of {own:?}: {said}");
        assert!(!back.is_empty() || *rule == "units", "{rule}: {said}");
    }
}

#[test]
fn every_statement_of_the_grammar_is_among_them() {
    let mut rules: BTreeSet<&str> = BTreeSet::new();
    for family in ["stmt", "plain_stmt", "header", "piecefact", "alteration"] {
        rules.extend(alternatives(family));
    }
    for family in ["plain_stmt", "header", "alteration"] {
        rules.remove(family);
    }
    let mut said: BTreeMap<&str, usize> = BTreeMap::new();
    for (rule, ..) in SAID {
        *said.entry(rule).or_default() += 1;
    }
    assert!(rules.len() > 50, "{rules:?}");
    let missing: Vec<&&str> =
        rules.iter().filter(|rule| !said.contains_key(**rule) && !NOT_SAID.contains(rule)).collect();
    assert!(missing.is_empty(), "nothing takes back: {missing:?}");
    let unknown: Vec<&&str> = said.keys().filter(|rule| !rules.contains(**rule)).collect();
    assert!(unknown.is_empty(), "no rules: {unknown:?}");
}
