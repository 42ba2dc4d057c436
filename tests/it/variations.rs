//! What a variation keeps, replaces, sets, drops and adds.

use fustian::garment::{Merged, load, merge};
use fustian::report::{Diagnostic, Severity};
use fustian::source::{MemoryLoader, SourceMap};
use fustian::syntax::tree::StatementNode;

/// The crew's smock, as far as merging asks.
const SMOCK: &str = r#"garment "Deck smock"
units cm
allowance 1
sizes S, M, L
body {
  chest 88, 96, 104
  head  57 in every size
}
let ease = 22 "wearing ease"
measure front_length "Front" = length(front.side)
fabric shell "dry-waxed cotton" { width 150 }
fabric rib "2x2 rib" { width 50 tubular }
layer outer in shell { front, back, pocket }
layer knit in rib { cuff, band }
piece front { outline rectangle 30 by 60 }
piece back { outline rectangle 30 by 60 }
piece cuff { outline rectangle 20 by 12 }
piece band { outline rectangle 50 by 12 }
piece pocket { outline rectangle 17 by 18 }
lengthen front, back, cuff at waist by 2
seam side front.left to back.left
seam cuff knit.cuff.top to outer.front.bottom
seam band knit.band.top to outer.back.bottom
finish front.right, cuff.left, back.right hem 3
place pocket on front { topstitch left, right }
closure placket front.top to front.top { zipper closed 20 }
opening front.top + back.top passes head
require length(front.side) >= 30 "the side seam must clear the pocket"
steps {
  "Pockets" { place pocket }
  "Body" { sew side, cuff; sew band }
  "Cuffs" { sew cuff }
}
"#;

fn vary(variation: &str) -> (SourceMap, Merged) {
    files(&[
        ("jacket.fus", &format!("variation \"Deck jacket\" of \"smock.fus\"\n{variation}\n")),
        ("smock.fus", SMOCK),
    ])
}

fn files(files: &[(&str, &str)]) -> (SourceMap, Merged) {
    let mut loader = MemoryLoader::new();
    for (name, text) in files {
        loader = loader.with(name, *text);
    }
    let mut map = SourceMap::default();
    let first = files.first().map_or("", |(name, _)| name);
    let merged = merge(load(&loader, &mut map, first));
    (map, merged)
}

/// First lines of the declarations, in order, without their opening braces.
fn lines<'a>(map: &'a SourceMap, merged: &Merged) -> Vec<&'a str> {
    let texts = merged.declarations.iter().map(|one| map.text(one.statement.span));
    texts.map(|text| text.lines().next().unwrap_or("").trim_end_matches(" {")).collect()
}

fn only(merged: &Merged) -> &Diagnostic {
    let [one] = merged.mistakes.as_slice() else { panic!("not one message: {:#?}", merged.mistakes) };
    one
}

/// Slug, line in the variation and way out of the only message.
fn told(map: &SourceMap, merged: &Merged) -> (&'static str, usize, String) {
    let one = only(merged);
    assert_eq!(map.place(one.span()).0, "jacket.fus");
    (one.slug(), map.place(one.span()).1, one.help.clone().unwrap_or_default())
}

fn pieces_of<'a>(merged: &'a Merged, layer: &str) -> Vec<&'a str> {
    let layers = merged.declarations.iter().filter_map(|one| match &one.statement.node {
        StatementNode::Layer(one) if *one.name.text == *layer => Some(one),
        _ => None,
    });
    layers.flat_map(|one| &one.pieces).map(|name| &*name.text).collect()
}

/// Titles of the steps with the words of what each action is done to.
fn steps_of(map: &SourceMap, merged: &Merged) -> Vec<String> {
    let steps = merged.declarations.iter().filter_map(|one| match &one.statement.node {
        StatementNode::Steps(steps) => Some(steps),
        _ => None,
    });
    steps
        .flat_map(|steps| &steps.groups)
        .map(|group| {
            let targets = group.actions.iter().flat_map(|action| &action.targets);
            let words: Vec<_> = targets.map(|target| map.text(target.span)).collect();
            format!("{}: {}", group.title.text, words.join(" "))
        })
        .collect()
}

#[test]
fn a_variation_that_changes_nothing_is_its_base() {
    let (map, merged) = vary("");
    let (base_map, base) = files(&[("smock.fus", SMOCK)]);
    assert_eq!(merged.mistakes, []);
    assert_eq!(lines(&map, &merged), lines(&base_map, &base));
    assert_eq!(&*merged.title, "Deck jacket");
}

#[test]
fn replacing_keeps_the_place() {
    let (map, merged) = vary("replace seam side front.left to back.left easing 1");
    assert_eq!(merged.mistakes, []);
    let at = lines(&map, &merged).iter().position(|line| line.starts_with("replace seam side"));
    let (base_map, base) = files(&[("smock.fus", SMOCK)]);
    assert_eq!(at, lines(&base_map, &base).iter().position(|line| line.starts_with("seam side")));
    let before = at.and_then(|at| merged.declarations[at].replaced);
    assert_eq!(before.map(|span| map.text(span)), Some("seam side front.left to back.left"));
}

#[test]
fn replacing_what_is_not_there() {
    let (map, merged) = vary("replace seam sied front.left to back.left");
    assert_eq!(told(&map, &merged), ("replace/nothing", 2, "did you mean side?".to_owned()));
    assert_eq!(map.text(only(&merged).span()), "sied");
}

#[test]
fn replacing_by_another_kind() {
    let (map, merged) = vary("replace seam placket front.top to back.top");
    assert_eq!(told(&map, &merged).0, "replace/nothing");
    assert_eq!(only(&merged).title, "placket is a closure, and a seam cannot take its place");
}

#[test]
fn declaring_a_name_of_the_base_shows_both_and_says_how() {
    for (line, words, how) in [
        ("seam side front.left to back.left", "side", "replace seam side"),
        ("let ease = 30", "ease", "set ease ="),
        ("body { chest 90, 98, 106 }", "chest", "replace body { chest … }"),
        ("fabric rib \"1x1 rib\" { width 60 }", "rib", "replace fabric rib"),
        ("place pocket on front { topstitch left }", "pocket on front", "replace place pocket on front"),
        ("allowance 1.5", "allowance 1.5", "replace allowance"),
    ] {
        let (map, merged) = vary(line);
        let (slug, at, help) = told(&map, &merged);
        assert_eq!((slug, at), ("name/declared-twice", 2), "{line}");
        assert!(help.contains(how), "{line}: {help}");
        let one = only(&merged);
        assert_eq!(map.text(one.span()), words);
        assert_eq!(map.place(one.labels[1].span).0, "smock.fus", "{line}");
    }
}

#[test]
fn a_name_is_said_twice_in_one_file() {
    for (first, second) in [
        ("let room = 3", "measure room \"Room\" = 4"),
        ("piece hood { outline rectangle 20 by 30 }", "layer hood in shell { front }"),
        (
            "seam hem front.bottom to back.bottom",
            "closure hem front.bottom to back.bottom { zipper closed 20 }",
        ),
        ("fabric serge \"wool serge\" { width 150 }", "fabric serge \"serge\" { width 140 }"),
        ("place hood on back { topstitch top }", "place hood on back { topstitch left }"),
        ("cord neck 120 through front.top", "cord neck 100 through back.top"),
        ("about \"One\"", "about \"Two\""),
        ("units in", "units cm"),
    ] {
        let (map, merged) = vary(&format!("{first}\n{second}"));
        assert_eq!(told(&map, &merged).0, "name/declared-twice", "{first}");
        let places: Vec<_> = only(&merged).labels.iter().map(|label| map.place(label.span).1).collect();
        assert_eq!(places, [3, 2], "{first}");
    }
}

#[test]
fn names_of_different_kinds_live_apart() {
    let (_, merged) =
        vary("let cuff = 3\nfabric front \"front\" { width 20 }\ncord side 20 through front.top");
    assert_eq!(merged.mistakes, []);
}

#[test]
fn setting_keeps_the_let_that_was_set() {
    let (map, merged) = vary("set ease = 30");
    assert_eq!(merged.mistakes, []);
    let set = merged.declarations.iter().find_map(|one| one.set_over.as_ref().map(|over| (one, over)));
    let (now, over) = set.expect("one let was set");
    assert_eq!(map.text(over.span), "let ease = 22 \"wearing ease\"");
    let StatementNode::Let(now) = &now.statement.node else { panic!("a set let is a let") };
    assert_eq!(now.label.as_ref().map(|label| &*label.text), Some("wearing ease"), "the note stays");
}

#[test]
fn setting_what_is_not_a_let() {
    for (line, help) in [
        ("set chest = 30", "write replace body { chest … }"),
        ("set front_length = 30", "write replace measure front_length …"),
        ("set eaes = 30", "did you mean ease?"),
    ] {
        let (map, merged) = vary(line);
        assert_eq!(told(&map, &merged), ("replace/nothing", 2, help.to_owned()), "{line}");
    }
}

#[test]
fn a_row_of_the_size_table_is_replaced_in_place() {
    let (map, merged) = vary("replace body { chest 90, 98, 106 }");
    assert_eq!(merged.mistakes, []);
    let rows = merged.declarations.iter().filter_map(|one| match &one.statement.node {
        StatementNode::Body(body) => Some(&body.rows),
        _ => None,
    });
    let rows: Vec<_> = rows.flatten().map(|row| map.text(row.span).trim()).collect();
    assert_eq!(rows, ["chest 90, 98, 106", "head  57 in every size"]);
    let (map, merged) = vary("replace body { chst 90, 98, 106 }");
    assert_eq!(told(&map, &merged), ("replace/nothing", 2, "did you mean chest?".to_owned()));
}

#[test]
fn a_variation_keeps_some_of_the_sizes() {
    let (map, merged) = vary("sizes M, L");
    assert_eq!(merged.mistakes, []);
    assert_eq!(lines(&map, &merged).iter().filter(|line| line.starts_with("sizes")).count(), 1);
    let names: Vec<Vec<&str>> = merged
        .sizes_in
        .values()
        .map(|sizes| match &sizes.node {
            StatementNode::Sizes(sizes) => sizes.names.iter().map(|name| &*name.text).collect(),
            _ => Vec::new(),
        })
        .collect();
    assert_eq!(names, [vec!["S", "M", "L"], vec!["M", "L"]], "the base's lists go on by the base's sizes");
}

#[test]
fn a_finish_leaves_one_edge_and_keeps_the_others() {
    let (map, merged) = vary("replace finish front.right hem 4");
    assert_eq!(merged.mistakes, []);
    let finishes: Vec<Vec<&str>> = merged
        .declarations
        .iter()
        .filter_map(|one| match &one.statement.node {
            StatementNode::Finish(finish) => {
                Some(finish.edges.iter().map(|edge| map.text(edge.span)).collect())
            }
            _ => None,
        })
        .collect();
    assert_eq!(finishes, [vec!["cuff.left", "back.right"], vec!["front.right"]]);
}

#[test]
fn dropping_what_is_not_there() {
    for (line, help) in [
        ("drop seam sied", "did you mean side?"),
        ("drop piece cuf", "did you mean cuff?"),
        ("drop seam placket", "write drop closure placket"),
        ("drop layer front", "write drop piece front"),
        ("drop step \"Pocket\"", "did you mean \"Pockets\"?"),
        ("drop finish front.lef", "remove this line, or look up what the base calls it"),
    ] {
        let (map, merged) = vary(line);
        assert_eq!(told(&map, &merged), ("drop/nothing", 2, help.to_owned()), "{line}");
    }
}

#[test]
fn a_dropped_piece_is_cut_no_more_and_remembered() {
    let (map, merged) = vary("drop piece cuff");
    assert_eq!(merged.mistakes, []);
    assert_eq!(pieces_of(&merged, "knit"), ["band"]);
    assert!(
        lines(&map, &merged).contains(&"seam cuff knit.cuff.top to outer.front.bottom"),
        "whoever uses it is told later"
    );
    let [gone] = merged.dropped.as_slice() else { panic!("{:?}", merged.dropped) };
    assert_eq!((&*gone.name, map.text(gone.dropped)), ("cuff", "drop piece cuff"));
}

#[test]
fn dropping_a_piece_with_all_that_is_sewn_to_it() {
    let (map, merged) = vary("drop cuff and all sewn to it");
    let one = only(&merged);
    assert_eq!((one.slug(), one.severity()), ("drop/along", Severity::Advice));
    assert_eq!(
        one.title,
        "dropping cuff also drops what is sewn to it: the seam cuff, the finish of cuff.left"
    );
    let lines = lines(&map, &merged);
    assert!(!lines.iter().any(|line| line.starts_with("seam cuff")), "{lines:?}");
    assert_eq!(pieces_of(&merged, "knit"), ["band"]);
    assert_eq!(steps_of(&map, &merged), ["Pockets: pocket", "Body: side band"]);
    for node in merged.declarations.iter().map(|one| &one.statement.node) {
        match node {
            StatementNode::Finish(finish) => {
                let edges: Vec<_> = finish.edges.iter().map(|edge| map.text(edge.span)).collect();
                assert_eq!(edges, ["front.right", "back.right"]);
            }
            StatementNode::Alteration(alteration) => {
                let pieces: Vec<_> = alteration.targets.iter().map(|piece| map.text(piece.span)).collect();
                assert_eq!(pieces, ["front", "back"]);
            }
            _ => {}
        }
    }
}

#[test]
fn dropping_a_placed_piece_takes_its_step_along() {
    let (map, merged) = vary("drop pocket and all sewn to it");
    assert_eq!(
        only(&merged).title,
        "dropping pocket also drops what is sewn to it: the placing of pocket on front"
    );
    assert_eq!(steps_of(&map, &merged), ["Body: side cuff band", "Cuffs: cuff"]);
}

#[test]
fn things_are_dropped_by_what_they_are_called() {
    for (line, gone) in [
        ("drop opening front.top", "opening"),
        ("drop require \"the side seam must clear the pocket\"", "require"),
        ("drop closure placket", "closure"),
        ("drop measure front_length", "measure"),
        ("drop let ease", "let"),
        ("drop steps", "steps"),
        ("drop layer knit", "layer knit"),
        ("drop fabric rib", "fabric rib"),
    ] {
        let (map, merged) = vary(line);
        assert_eq!(merged.mistakes, [], "{line}");
        assert!(!lines(&map, &merged).iter().any(|line| line.starts_with(gone)), "{line}");
        assert_eq!(merged.dropped.len(), 1, "{line}");
    }
}

/// What is dropped is sewn no more, so the base's steps are without it; what is declared anew is.
#[test]
fn what_is_dropped_leaves_the_steps_of_the_base() {
    for (lines, title, steps) in [
        (
            "drop seam cuff",
            "the seam cuff is dropped, and leaves the steps",
            &["Pockets: pocket", "Body: side band"][..],
        ),
        (
            "drop place pocket on front",
            "the placing of pocket is dropped, and leaves the steps",
            &["Body: side cuff band", "Cuffs: cuff"][..],
        ),
    ] {
        let (map, merged) = vary(lines);
        let one = only(&merged);
        assert_eq!((one.slug(), one.severity()), ("step/gone", Severity::Advice));
        assert_eq!(one.title, title);
        assert_eq!(steps_of(&map, &merged), steps, "{lines}");
    }
    let all = ["Pockets: pocket", "Body: side cuff band", "Cuffs: cuff"];
    for lines in [
        "drop seam cuff\nseam cuff knit.cuff.bottom to outer.front.bottom",
        "drop place pocket on front\nplace pocket on back { topstitch left }",
        // A seam in no step.
        "drop opening front.top",
    ] {
        let (map, merged) = vary(lines);
        assert_eq!(merged.mistakes, [], "{lines}");
        assert_eq!(steps_of(&map, &merged), all, "{lines}");
    }
    // What the file itself says of it stays, to be told that it is gone.
    let (map, merged) = vary("drop seam side\nin steps after \"Cuffs\" add \"Sides\" { sew side }");
    assert_eq!(steps_of(&map, &merged)[3], "Sides: side");
}

/// A finish leaves the steps with its edge, unless the edge is finished otherwise in some layer.
#[test]
fn a_dropped_finish_leaves_the_steps_unless_another_takes_its_place() {
    let base = SMOCK.replace("\"Cuffs\" { sew cuff }", "\"Cuffs\" { sew cuff; hem front.right, back.right }");
    let steps = |lines: &str| {
        let variation = format!("variation \"Deck jacket\" of \"smock.fus\"\n{lines}\n");
        let (map, merged) = files(&[("jacket.fus", &variation), ("smock.fus", &base)]);
        steps_of(&map, &merged)[2].clone()
    };
    assert_eq!(steps("drop finish front.right"), "Cuffs: cuff back.right");
    assert_eq!(
        steps("drop finish front.right\nfinish front.right hem 2"),
        "Cuffs: cuff front.right back.right"
    );
    assert_eq!(
        steps("drop finish front.right\nfinish outer.front.right hem 2"),
        "Cuffs: cuff front.right back.right"
    );
}

/// A run of an edge is finished by itself: taken back by its own words, the rest of the edge keeps its finish, and its
/// step; the rest taken back, the run keeps them.
#[test]
fn the_finish_of_a_run_is_dropped_by_itself() {
    let base = SMOCK.replace("\"Cuffs\" { sew cuff }", "\"Cuffs\" { sew cuff; hem front.right, back.right }");
    let base = format!("{base}finish front.right 6 from hem_side  raw\n");
    let said = |lines: &str| {
        let variation = format!("variation \"Deck jacket\" of \"smock.fus\"\n{lines}\n");
        files(&[("jacket.fus", &variation), ("smock.fus", &base)])
    };
    for lines in ["drop finish front.right 6 from hem_side", "drop finish front.right"] {
        let (map, merged) = said(lines);
        assert_eq!(merged.mistakes, [], "{lines}");
        assert_eq!(steps_of(&map, &merged)[2], "Cuffs: cuff front.right back.right", "{lines}");
    }
    let (map, merged) = said("drop finish front.right\ndrop finish front.right 6 from hem_side");
    assert_eq!(steps_of(&map, &merged)[2], "Cuffs: cuff back.right");
    let (_, merged) = said("drop finish front.right 7 from hem_side");
    let titles: Vec<String> = merged.mistakes.iter().map(|one| one.title.to_string()).collect();
    assert_eq!(titles, ["there is no finish of front.right 7 from hem_side to drop"]);
}

#[test]
fn a_name_that_was_dropped_may_be_declared_anew() {
    let (map, merged) = vary("seam side front.left to back.left easing 1\ndrop seam side");
    assert_eq!(merged.mistakes, []);
    assert_eq!(lines(&map, &merged).last(), Some(&"seam side front.left to back.left easing 1"));
}

#[test]
fn adding_to_layers_steps_and_pieces() {
    let (map, merged) = vary(
        "piece hood { outline rectangle 20 by 30 }\n\
         add hood to layer outer\n\
         in steps after \"Pockets\" add \"Hood\" { sew side }\n\
         in piece front add { mark loop = (1, 2) }",
    );
    assert_eq!(merged.mistakes, []);
    assert_eq!(pieces_of(&merged, "outer"), ["front", "back", "pocket", "hood"]);
    let titles: Vec<_> =
        steps_of(&map, &merged).iter().map(|step| step.split(':').next().unwrap_or("").to_owned()).collect();
    assert_eq!(titles, ["Pockets", "Hood", "Body", "Cuffs"]);
    let front = merged.declarations.iter().find_map(|one| match &one.statement.node {
        StatementNode::Piece(piece) if &*piece.name.text == "front" => Some(piece.items.len()),
        _ => None,
    });
    assert_eq!(front, Some(2));
}

#[test]
fn adding_to_what_is_not_there() {
    for (line, help) in [
        ("add hood to layer outr", "did you mean outer?"),
        ("add hood to layer front", "name a layer"),
        ("in steps before \"Bodi\" add \"Hood\" { sew side }", "did you mean \"Body\"?"),
        ("in piece frnt add { mark loop = (1, 2) }", "did you mean front?"),
    ] {
        let (map, merged) = vary(line);
        assert_eq!(told(&map, &merged), ("replace/nothing", 2, help.to_owned()), "{line}");
    }
}

#[test]
fn words_of_a_variation_have_no_place_in_a_garment() {
    for line in ["replace seam side a.b to c.d", "set ease = 3", "drop seam side", "add hood to layer outer"]
    {
        let (map, merged) = files(&[("smock.fus", &format!("garment \"Smock\"\n{line}\n"))]);
        assert_eq!(
            (only(&merged).slug(), map.place(only(&merged).span()).1),
            ("variation/place", 2),
            "{line}"
        );
    }
}

#[test]
fn a_variation_of_a_variation() {
    let (map, merged) = files(&[
        ("mess.fus", "variation \"Mess jacket\" of \"jacket.fus\"\nset ease = 26\ndrop seam hood\n"),
        (
            "jacket.fus",
            "variation \"Deck jacket\" of \"smock.fus\"\nset ease = 30\nseam hood front.top to back.top\n",
        ),
        ("smock.fus", SMOCK),
    ]);
    assert_eq!(merged.mistakes, []);
    let ease = merged.declarations.iter().find(|one| one.set_over.is_some()).expect("ease is set");
    assert_eq!(map.text(ease.statement.span), "set ease = 26");
    assert_eq!(
        ease.set_over.as_ref().map(|over| map.text(over.span)),
        Some("let ease = 22 \"wearing ease\"")
    );
    assert_eq!(merged.units.len(), 3);
}

#[test]
fn nothing_is_missed_where_the_base_could_not_be_had() {
    let (_, merged) = files(&[(
        "jacket.fus",
        "variation \"Deck jacket\" of \"gone.fus\"\nset ease = 30\ndrop seam side\nreplace piece cuff { cut 1 }\n",
    )]);
    assert_eq!(only(&merged).slug(), "file/missing");
    assert!(merged.incomplete);
}
