//! What the page of the live view is told, and who is told it: without a socket.

use crate::workbench::{example, examples, in_memory, with};
use fustian::preview::{Answer, Door, Preview, Request, Response, answer};
use fustian::{Compiled, compile};
use serde_json::{Value, json};

/// A bag of two rectangles, 24 by 20 cm and 28 by 22 cm in the larger size, so that every length is known by hand.
const BAG: &str = r#"
garment "Line bag"
about "For the heaving line."
units cm
allowance 1
sizes small, large
body { arm 56, 60 }
pick size by arm
let across = each 24, 28
let deep = each 20, 22
fabric canvas "deck canvas" { width 150 }
layer outer in canvas { front, back }
piece front "Front" { cut 1; outline rectangle across by deep }
piece back "Back" { cut 1; outline rectangle across by deep }
seam side_left  front.left to back.right { matching front.top_left with back.top_right }
seam side_right  front.right to back.left { matching front.top_right with back.top_left }
seam foot  front.bottom to back.bottom { matching front.bottom_left with back.bottom_right }
finish front.top, back.top  hem 3
"#;

const DOOR: Door = Door { port: 4321 };

fn bag(text: &str) -> Compiled {
    compile(&in_memory(&[("bag.fus", text)]), "bag.fus")
}

fn preview() -> Preview {
    let compiled = bag(BAG);
    assert!(!compiled.has_mistakes(), "{:?}", compiled.diagnostics);
    Preview::new("run", "bag.fus", compiled)
}

fn asked<'a>(target: &'a str) -> Request<'a> {
    Request { method: "GET", target, host: Some("127.0.0.1:4321"), ..Request::default() }
}

fn whole(preview: &Preview, request: &Request) -> Response {
    match answer(preview, DOOR, request) {
        Answer::Whole(response) => response,
        Answer::Events(_) => panic!("{} is no event", request.target),
    }
}

fn get(preview: &Preview, target: &str) -> Response {
    whole(preview, &asked(target))
}

fn json_of(preview: &Preview, target: &str) -> Value {
    let response = get(preview, target);
    assert_eq!(response.status, 200, "{target}: {}", String::from_utf8_lossy(&response.body));
    serde_json::from_slice(&response.body).expect("JSON")
}

#[test]
fn the_page_and_what_it_needs_are_there() {
    let preview = preview();
    for (target, kind) in [
        ("/", "text/html; charset=utf-8"),
        ("/page.css", "text/css; charset=utf-8"),
        ("/page.js", "text/javascript; charset=utf-8"),
        ("/icon.svg", "image/svg+xml"),
        ("/standing", "application/json"),
        ("/pieces?size=small", "application/json"),
        ("/pieces", "application/json"),
        ("/edge?key=outer.front.left", "application/json"),
        ("/lay?size=small", "application/json"),
        ("/sheet", "text/html; charset=utf-8"),
        ("/sheet?lays", "text/html; charset=utf-8"),
    ] {
        let response = get(&preview, target);
        assert_eq!((response.status, response.header("content-type")), (200, Some(kind)), "{target}");
        let body = response.body.len();
        let head = whole(&preview, &Request { method: "HEAD", ..asked(target) });
        assert_eq!((head.status, head.body.len(), head.length), (200, 0, body), "{target}");
    }
    assert!(matches!(answer(&preview, DOOR, &asked("/events")), Answer::Events(one) if one.status == 200));
}

#[test]
fn every_answer_says_what_may_be_loaded_and_kept() {
    let preview = preview();
    let elsewhere = Request { host: Some("ferry.example"), ..asked("/") };
    let targets =
        ["/", "/page.js", "/page.css", "/icon.svg", "/standing", "/pieces", "/lay?size=small", "/none"];
    let answers =
        targets.map(|target| get(&preview, target)).into_iter().chain([whole(&preview, &elsewhere)]);
    for response in answers {
        let policy = response.header("Content-Security-Policy").expect("a policy");
        let rules: Vec<&str> = policy.split(';').map(str::trim).collect();
        assert!(rules.contains(&"default-src 'none'"), "{policy}");
        for rule in &rules {
            let sources: Vec<&str> = rule.split_whitespace().skip(1).collect();
            assert!(sources == ["'none'"] || sources == ["'self'"], "{rule}");
        }
        assert_eq!(response.header("X-Content-Type-Options"), Some("nosniff"));
        assert_eq!(response.header("Cross-Origin-Resource-Policy"), Some("same-origin"));
        assert!(matches!(response.header("Cache-Control"), Some("no-store" | "no-cache")));
        assert!(response.header("Access-Control-Allow-Origin").is_none());
    }
    // The page names nothing outside, and holds neither script nor style of its own.
    for file in ["/", "/page.css", "/page.js"] {
        let text = String::from_utf8(get(&preview, file).body.into_owned()).expect("text");
        let outside = text.replace("http://www.w3.org/2000/svg", "");
        assert!(
            !outside.contains("http:") && !outside.contains("https:") && !outside.contains("//cdn"),
            "{file}"
        );
        assert!(
            !text.contains("<style") && !text.contains(" style=") && !text.contains("innerHTML"),
            "{file}"
        );
    }
}

#[test]
fn the_sheet_runs_nothing_and_loads_nothing() {
    let response = get(&preview(), "/sheet");
    let policy = response.header("Content-Security-Policy").expect("a policy");
    assert!(policy.contains("default-src 'none'") && policy.contains("sandbox"), "{policy}");
    assert!(!policy.contains("script-src") && !policy.contains("allow-scripts"), "{policy}");
    let text = String::from_utf8(response.body.into_owned()).expect("text");
    assert!(text.contains("Line bag") && !text.contains("<script"));
    // With lays it tells how the cloth is laid as well.
    let whole = get(&preview(), "/sheet?lays");
    assert!(whole.body.len() > text.len());
}

#[test]
fn what_has_not_changed_is_not_sent_again() {
    let preview = preview();
    let first = get(&preview, "/page.js");
    let tag = first.header("ETag").expect("a tag").to_owned();
    let again = whole(&preview, &Request { known: Some(&tag), ..asked("/page.js") });
    assert_eq!((again.status, again.body.len()), (304, 0));
    let other = whole(&preview, &Request { known: Some("\"another\""), ..asked("/page.js") });
    assert_eq!((other.status, other.body == first.body), (200, true));
    assert_eq!(get(&preview, "/standing").header("Cache-Control"), Some("no-store"));
}

#[test]
fn only_this_machine_under_its_own_name_may_ask() {
    let preview = preview();
    let status = |request: &Request| whole(&preview, request).status;
    for host in ["127.0.0.1:4321", "localhost:4321", "LOCALHOST:4321"] {
        assert_eq!(status(&Request { host: Some(host), ..asked("/standing") }), 200, "{host}");
    }
    for host in [
        None,
        Some(""),
        Some("127.0.0.1"),
        Some("127.0.0.1:80"),
        Some("127.0.0.1:43210"),
        Some("localhost"),
        Some("ferry.example:4321"),
        Some("127.0.0.1.ferry.example:4321"),
        Some("localhost.ferry.example:4321"),
        Some("127.0.0.1:4321@ferry.example"),
        Some("[::1]:4321"),
        Some("0.0.0.0:4321"),
    ] {
        assert_eq!(status(&Request { host, ..asked("/standing") }), 403, "{host:?}");
        assert_eq!(status(&Request { host, ..asked("/") }), 403, "{host:?}");
    }
    for (origin, wanted) in [
        (Some("http://127.0.0.1:4321"), 200),
        (Some("http://localhost:4321"), 200),
        (Some("https://127.0.0.1:4321"), 403),
        (Some("http://ferry.example"), 403),
        (Some("http://127.0.0.1:4322"), 403),
        (Some("null"), 403),
        (Some(""), 403),
    ] {
        assert_eq!(status(&Request { origin, ..asked("/standing") }), wanted, "{origin:?}");
    }
    for (site, mode, target, wanted) in [
        (Some("same-origin"), Some("cors"), "/standing", 200),
        (Some("none"), Some("navigate"), "/", 200),
        (Some("cross-site"), Some("navigate"), "/", 200),
        (Some("cross-site"), Some("no-cors"), "/", 403),
        (Some("cross-site"), Some("navigate"), "/standing", 403),
        (Some("cross-site"), Some("no-cors"), "/page.js", 403),
        (Some("same-site"), Some("cors"), "/pieces", 403),
    ] {
        assert_eq!(status(&Request { site, mode, ..asked(target) }), wanted, "{site:?} {mode:?} {target}");
    }
    for method in ["POST", "PUT", "DELETE", "OPTIONS", "TRACE", "CONNECT", "get", ""] {
        let response = whole(&preview, &Request { method, ..asked("/") });
        assert_eq!((response.status, response.header("Allow")), (405, Some("GET, HEAD")), "{method}");
    }
}

#[test]
fn no_file_is_ever_served() {
    let preview = preview();
    for target in [
        "/bag.fus",
        "/../bag.fus",
        "/..",
        "/./",
        "//",
        "/%2e%2e/bag.fus",
        "/..%2fbag.fus",
        "/page.js/../bag.fus",
        "/page.js/",
        "/Page.js",
        "/etc/passwd",
        "/file:///etc/passwd",
        "http://127.0.0.1:4321/standing",
        "*",
        "",
        "/pieces/../standing",
    ] {
        assert_eq!(get(&preview, target).status, 404, "{target}");
    }
    for target in
        ["/pieces?from=-1", "/pieces?from=1e9", "/pieces?room=wide", "/pieces?size=%zz", "/edge?key=%ff"]
    {
        assert_eq!(get(&preview, target).status, 400, "{target}");
    }
    for target in
        ["/pieces?size=huge", "/lay?size=huge", "/lay", "/edge", "/edge?key=", "/edge?key=outer.front"]
    {
        assert_eq!(get(&preview, target).status, 404, "{target}");
    }
}

#[test]
fn an_edge_knows_its_mates_its_fate_and_its_length_in_every_size() {
    let preview = preview();
    let facts = json_of(&preview, "/edge?key=outer.front.left");
    assert_eq!(facts["piece"], "Front");
    assert_eq!(facts["allowance"], "1 cm");
    let fates =
        json!([{ "words": "seam side_left", "mates": [{ "key": "outer.back.right", "itself": false }] }]);
    assert_eq!(facts["fates"], fates);
    // The left edge of a rectangle is as long as that is deep: 20 and 22 cm.
    assert_eq!(facts["columns"], json!(["length", "other side of side_left", "fit"]));
    let rows = json!([
        { "size": "small", "figures": ["20 cm", "20 cm", "even"] },
        { "size": "large", "figures": ["22 cm", "22 cm", "even"] },
    ]);
    assert_eq!(facts["rows"], rows);
    // It is named where its rectangle is drawn, in line 13.
    assert_eq!((&facts["declared"]["file"], &facts["declared"]["line"]), (&json!("bag.fus"), &json!(13)));
    let top = json_of(&preview, "/edge?key=outer.back.top");
    assert_eq!((&top["fates"][0]["words"], &top["fates"][0]["mates"]), (&json!("hem"), &json!([])));
    assert_eq!(top["rows"][1]["figures"], json!(["28 cm"]));
}

#[test]
fn only_the_size_that_is_shown_is_sent() {
    let preview = preview();
    let front = |drawn: &Value| {
        let piece =
            drawn["pieces"].as_array().expect("pieces").iter().find(|one| one["part"] == "outer.front");
        piece.expect("a front").clone()
    };
    let edge = |drawn: &Value, key: &str| {
        let piece = front(drawn);
        piece["edges"]
            .as_array()
            .expect("edges")
            .iter()
            .find(|one| one["key"] == key)
            .expect("an edge")
            .clone()
    };
    let long = |line: &Value| {
        let at = |number: usize| line[number].as_f64().expect("a number");
        (at(2) - at(0)).hypot(at(3) - at(1))
    };
    for (size, across) in [("small", 240.0), ("large", 280.0)] {
        let drawn = json_of(&preview, &format!("/pieces?size={size}"));
        let bottom = edge(&drawn, "outer.front.bottom");
        assert_eq!(bottom["lines"].as_array().expect("lines").len(), 1);
        assert!((long(&bottom["lines"][0]) - across).abs() < 0.02, "{size}: {bottom}");
        assert_eq!(bottom["mates"], json!(["outer.back.bottom"]));
        let other = if size == "small" { "large" } else { "small" };
        assert!(!drawn["pieces"].to_string().contains(&format!("size {other}")), "{size}");
    }
    let nest = json_of(&preview, "/pieces");
    let lines = edge(&nest, "outer.front.bottom")["lines"].clone();
    assert!((long(&lines[0]) - 240.0).abs() < 0.02 && (long(&lines[1]) - 280.0).abs() < 0.02, "{lines}");
}

#[test]
fn pieces_hang_as_the_room_asks() {
    let preview = preview();
    let extent = |room: u32| {
        let drawn = json_of(&preview, &format!("/pieces?size=small&room={room}"));
        (drawn["width"].as_f64().expect("a width"), drawn["height"].as_f64().expect("a height"))
    };
    let (wide, tall) = (extent(300), extent(30));
    assert!(wide.0 > wide.1 && tall.1 > tall.0, "{wide:?} {tall:?}");
}

#[test]
fn a_side_of_several_edges_lights_only_what_lies_opposite() {
    let compiled = compile(&crate::workbench::in_memory(&all_examples()), "deck-jacket.fus");
    let preview = Preview::new("run", "deck-jacket.fus", compiled);
    let mates = |key: &str| {
        let facts = json_of(&preview, &format!("/edge?key={key}"));
        let fates = facts["fates"].as_array().expect("fates").clone();
        let mates = fates.iter().flat_map(|fate| fate["mates"].as_array().expect("mates"));
        let mut keys: Vec<String> =
            mates.map(|mate| mate["key"].as_str().expect("a key").to_owned()).collect();
        keys.sort();
        keys
    };
    // Front and back armhole together take the cap, so that each lies on the cap alone.
    assert_eq!(mates("outer.back.armhole"), ["outer.sleeve.cap"]);
    assert_eq!(mates("outer.sleeve.cap"), ["outer.back.armhole", "outer.front.armhole"]);
    // The zip runs over collar, front and band: the front closes to the front of the other side, and the lining is
    // sewn to it.
    assert_eq!(mates("outer.front.centre"), ["lining.front.centre", "outer.front.centre"]);
    // A pocket lies on the front.
    assert_eq!(mates("outer.pocket.left"), ["outer.front: Pocket"]);
    // Lengths drafted by hand in another program (see `seams.rs`): 630 mm in the smallest size to 680.
    let rows = json_of(&preview, "/edge?key=outer.front.centre")["rows"].clone();
    let long: Vec<&str> =
        rows.as_array().expect("rows").iter().filter_map(|row| row["figures"][0].as_str()).collect();
    assert_eq!(long, ["63 cm", "64 cm", "65 cm", "66 cm", "67 cm", "68 cm"]);
}

fn all_examples() -> Vec<(&'static str, &'static str)> {
    let names = ["deck-smock", "deck-zip", "deck-lined", "deck-jacket", "crew-library"];
    let owned = names.map(|name| (format!("{name}.fus"), example(name)));
    owned.map(|(name, text)| (&*name.leak(), &*text.leak())).to_vec()
}

#[test]
fn a_broken_text_keeps_the_last_good_garment() {
    let sound = preview();
    let torn = with(BAG, &[("front.left to back.right", "front.left to back.rihgt")]);
    let broken = sound.next(bag(&torn)).expect("another text");
    let standing = json_of(&broken, "/standing");
    assert_eq!(
        (&standing["standing"], &standing["serial"], &standing["shown"]),
        (&json!("broken"), &json!(1), &json!(0))
    );
    assert!(standing["mistakes"].as_u64().expect("a count") >= 1);
    // What is said has its place, the line it stands in and its way out.
    let message = &standing["messages"][0];
    assert_eq!(message["slug"], "name/unknown");
    let place = &message["places"][0];
    assert_eq!((&place["file"], &place["line"]), (&json!("bag.fus"), &json!(15)));
    assert_eq!(
        place["words"],
        json!([
            "seam side_left  front.left to back.",
            "rihgt",
            " { matching front.top_left with back.top_right }"
        ])
    );
    assert!(message["help"].as_str().expect("a way out").contains("right"));
    // The garment is that of before, to the byte.
    assert_eq!(get(&broken, "/pieces?size=small").body, get(&sound, "/pieces?size=small").body);
    assert_eq!(json_of(&broken, "/edge?key=outer.front.left"), json_of(&sound, "/edge?key=outer.front.left"));
    // So it stays until a text is sound again.
    let worse = broken.next(bag("garment \"Line bag")).expect("another text");
    assert_eq!(get(&worse, "/pieces?size=small").body, get(&sound, "/pieces?size=small").body);
    let wider = worse.next(bag(&with(BAG, &[("each 24, 28", "each 30, 31")]))).expect("another text");
    let standing = json_of(&wider, "/standing");
    assert_eq!((&standing["standing"], &standing["shown"]), (&json!("sound"), &json!(3)));
    assert_eq!(json_of(&wider, "/edge?key=outer.front.top")["rows"][0]["figures"], json!(["30 cm"]));
}

#[test]
fn the_same_text_is_no_news() {
    assert!(preview().next(bag(BAG)).is_none());
    assert!(preview().next(bag(&BAG.replace("hem 3", "hem 4"))).is_some());
}

#[test]
fn a_file_that_is_gone_keeps_the_last_good_garment() {
    let sound = preview();
    let gone = sound.next(compile(&in_memory(&[]), "bag.fus")).expect("other than before");
    assert_eq!(json_of(&gone, "/standing")["messages"][0]["slug"], "file/missing");
    assert_eq!(get(&gone, "/pieces?size=large").body, get(&sound, "/pieces?size=large").body);
}

#[test]
fn a_draft_that_was_never_sound_is_shown_as_far_as_it_goes() {
    let draft = BAG.lines().filter(|line| !line.starts_with("seam") && !line.starts_with("layer"));
    let draft: String = draft.collect::<Vec<_>>().join("\n").replace(", back.top", "");
    let first = Preview::new("run", "bag.fus", bag(&draft));
    let standing = json_of(&first, "/standing");
    assert_eq!(standing["standing"], "draft", "{standing}");
    let drawn = json_of(&first, "/pieces?size=small");
    let titles: Vec<&Value> =
        drawn["pieces"].as_array().expect("pieces").iter().map(|one| &one["title"]).collect();
    assert_eq!(titles, ["Front", "Back"]);
    let key = drawn["pieces"][0]["edges"][0]["key"].as_str().expect("a key").replace(' ', "%20");
    let long = json_of(&first, &format!("/edge?key={key}"))["rows"][0]["figures"][0].clone();
    assert!(long == json!("24 cm") || long == json!("20 cm"), "{long}");
    // Nothing is laid of it, and nobody sews by it.
    assert_eq!(get(&first, "/lay?size=small").status, 409);
    assert_eq!(get(&first, "/sheet").status, 409);
    // It is followed as it is, and is a garment once it is sound.
    let further = first.next(bag(&draft.replace("each 24, 28", "each 25, 28"))).expect("another text");
    assert_eq!(json_of(&further, "/standing")["shown"], 1);
    assert_eq!(json_of(&further.next(bag(BAG)).expect("another text"), "/standing")["standing"], "sound");
}

#[test]
fn no_text_at_all_is_answered() {
    for text in ["", "garment", "\u{0}", "garment \"A\"", &"(".repeat(5000)] {
        let preview = Preview::new("run", "bag.fus", bag(text));
        for target in ["/", "/standing", "/pieces", "/edge?key=outer.front.left", "/lay?size=one%20size"] {
            let response = get(&preview, target);
            assert!(matches!(response.status, 200 | 404 | 409), "{text:?} {target}: {}", response.status);
        }
    }
}

#[test]
fn a_large_garment_is_shown_in_parts() {
    let count = 2_000;
    let names: Vec<String> = (0..count).map(|at| format!("flag{at}")).collect();
    let pieces: Vec<String> = names
        .iter()
        .map(|name| format!("piece {name} \"Flag\" {{ cut 1; outline rectangle 5 by 4 }}"))
        .collect();
    let text = format!(
        "garment \"Signal flags\"\nunits cm\nallowance 1\nfabric bunting \"bunting\" {{ width 150 }}\nlayer outer in bunting {{ {} }}\n{}\n",
        names.join(", "),
        pieces.join("\n")
    );
    let preview = Preview::new("run", "flags.fus", compile(&in_memory(&[("flags.fus", &text)]), "flags.fus"));
    let first = json_of(&preview, "/pieces");
    let shown = first["pieces"].as_array().expect("pieces").len();
    assert_eq!(first["count"], count);
    assert!(shown > 0 && shown <= fustian::limits::OUTLINES_SHOWN, "{shown}");
    let next = json_of(&preview, &format!("/pieces?from={shown}"));
    assert_eq!(next["pieces"][0]["number"], shown + 1);
    // Every one of its edges is a mistake; not all of them are sent.
    let standing = json_of(&preview, "/standing");
    let messages = standing["messages"].as_array().expect("messages").len();
    assert!(messages <= fustian::limits::MESSAGES_SHOWN, "{messages}");
    assert!(standing["more"].as_u64().expect("a count") > 0);
}

#[test]
fn markup_in_a_text_stays_words() {
    let text = with(
        BAG,
        &[("\"Front\"", "\"<script>alert(1)</script>\""), ("\"Line bag\"", "\"</title><img src=x>\"")],
    );
    let preview = Preview::new("run", "bag.fus", bag(&text));
    let page = String::from_utf8(get(&preview, "/").body.into_owned()).expect("text");
    assert!(!page.contains("alert") && !page.contains("<img"));
    let drawn = json_of(&preview, "/pieces?size=small");
    assert_eq!(drawn["pieces"][0]["title"], "<script>alert(1)</script>");
}

#[test]
fn every_example_is_shown_and_every_edge_of_it_known() {
    let folder = examples();
    let mut names: Vec<String> = std::fs::read_dir(folder.path())
        .expect("the examples")
        .filter_map(|entry| entry.expect("an entry").file_name().into_string().ok())
        .collect();
    names.sort();
    let texts: Vec<(String, String)> =
        names.iter().map(|name| (name.clone(), example(name.trim_end_matches(".fus")))).collect();
    let files: Vec<(&str, &str)> = texts.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
    let loader = in_memory(&files);
    // What is called for the crew is what others take from: no garment by itself.
    for name in names.iter().filter(|name| !name.starts_with("crew-")) {
        let preview = Preview::new("run", name, compile(&loader, name));
        let standing = json_of(&preview, "/standing");
        assert_eq!(standing["standing"], "sound", "{name}");
        let size = standing["sizes"][0].as_str().expect("a size").replace(' ', "%20");
        let drawn = json_of(&preview, &format!("/pieces?size={size}"));
        let pieces = drawn["pieces"].as_array().expect("pieces");
        let edges: Vec<&Value> =
            pieces.iter().flat_map(|piece| piece["edges"].as_array().expect("edges")).collect();
        let known = |key: &Value| edges.iter().any(|edge| &edge["key"] == key);
        for edge in &edges {
            let mates = edge["mates"].as_array().cloned().unwrap_or_default();
            assert!(mates.iter().all(&known), "{name}: {edge}");
            // What it is sewn to is sewn to it.
            for mate in mates.iter().filter(|mate| !mate.as_str().is_some_and(|key| key.contains(": "))) {
                let back = edges.iter().find(|other| &other["key"] == mate).expect("a mate");
                let theirs = back["mates"].as_array().cloned().unwrap_or_default();
                assert!(theirs.contains(&edge["key"]), "{name}: {} and {mate}", edge["key"]);
            }
        }
        assert!(edges.iter().any(|edge| edge["mates"].is_array()), "{name}");
    }
}
