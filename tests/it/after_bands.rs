//! What is called after a band or a facing: renamed with it, shown, completed, and drawn on though it is said in one line.

use crate::wire::{Client, crew, edited, uri};
use crate::workbench::{example, in_memory, said, told, with};
use fustian::emit::{document, to_text};
use fustian::source::MemoryLoader;
use fustian::{Compiled, compile, expanded, packed};
use serde_json::json;

/// A vest with a band and a facing, and a variation that names what they stand for.
const VEST: &str = "garment \"Deckhand's vest\"\nunits cm\nallowance 1\n\
    fabric canvas \"canvas\" { width 150; kind woven firm }\nlayer outer in canvas { front, back }\n\
    piece front \"Front\" { cut 1 on fold left; outline rectangle 24 by 50 }\n\
    piece back \"Back\" { cut 1 on fold left; outline rectangle 24 by 50 }\n\
    seam side front.right to back.right\n\
    band hem_band \"Hem band\" in outer 6 deep folded round front.bottom + back.bottom joined at back.bottom_left\n\
    facing top_facing \"Top facing\" in outer 5 wide behind front.top + back.top understitched\n\
    measure all_round \"Round\" = finished(hem_band.left) + length(top_facing_front.inner)\n\
    steps {\n  \"Body\" { sew side }\n  \"Band\" { sew hem_band_ends, hem_band }\n\
    \x20 \"Facing\" { sew top_facing_side; finish top_facing_front.inner, top_facing_back.inner; sew top_facing; understitch top_facing_under }\n}\n";
const LONG: &str = "variation \"Long vest\" of \"vest.fus\"\n\
    replace band hem_band \"Hem band\" in outer 8 deep folded round front.bottom + back.bottom joined at back.bottom_left\n\
    in steps after \"Facing\" add \"Press\" { press hem_band, top_facing_side }\n";

fn bytes(compiled: &Compiled) -> String {
    assert!(!compiled.has_mistakes(), "{:#?}", compiled.diagnostics);
    to_text(&document(&compiled.garment, &compiled.sizes, &compiled.map, &[])).expect("a document")
}

fn place(text: &str, words: &str) -> [u32; 2] {
    let at = text.find(words).expect(words);
    let line = text[..at].matches('\n').count();
    let start = text[..at].rfind('\n').map_or(0, |end| end + 1);
    [line as u32, (at - start) as u32]
}

#[test]
fn what_is_called_after_it_is_renamed_with_it() {
    let folder = crew(&[("vest.fus", VEST), ("long.fus", LONG)]);
    let (base, long) = (uri(folder.path(), "vest.fus"), uri(folder.path(), "long.fus"));
    let mut client = Client::ready();
    client.open(&base, VEST);
    client.open(&long, LONG);
    let (ends, facing) = (place(VEST, "hem_band_ends"), place(VEST, "top_facing_front"));
    let in_front = [facing[0], facing[1] + 12];
    for (at, old, new) in [
        (place(VEST, "hem_band \"Hem"), "hem_band", "rib"),
        // From what is called after it the same is renamed.
        (ends, "hem_band", "rib"),
        (place(VEST, "top_facing \"Top"), "top_facing", "lip"),
        // The piece and the seam after which strips and their joins are called.
        (place(VEST, "front \"Front"), "front", "fore"),
        (in_front, "front", "fore"),
        (place(VEST, "side front"), "seam side", "flank"),
    ] {
        let name = new;
        let position = json!({ "line": at[0], "character": at[1] });
        let asked = json!({ "textDocument": { "uri": base }, "position": position, "newName": name });
        let edit = client.ask("textDocument/rename", asked).expect(old);
        let (new_base, new_long) = (edited(VEST, &base, &edit), edited(LONG, &long, &edit));
        let word = old.rsplit(' ').next().expect("a word");
        for text in [&new_base, &new_long] {
            let left: Vec<&str> = text
                .split(|sign: char| !(sign.is_alphanumeric() || sign == '_'))
                .filter(|one| {
                    *one == word || one.starts_with(&format!("{word}_")) || one.ends_with(&format!("_{word}"))
                })
                .collect();
            assert_eq!(left, Vec::<&str>::new(), "{old}: {text}");
        }
        let loader = MemoryLoader::new().with("vest.fus", new_base).with("long.fus", new_long);
        assert_eq!(compile(&loader, "long.fus").diagnostics, [], "{old}");
    }
    // What a band itself gives cannot be another word.
    let behind = json!({ "line": ends[0], "character": ends[1] + 10 });
    let asked = json!({ "textDocument": { "uri": base }, "position": behind, "newName": "joins" });
    assert!(client.ask("textDocument/rename", asked).is_err());
    assert_eq!(client.leave(), Some(0));
}

#[test]
fn what_it_stands_for_is_shown_and_completed() {
    let folder = crew(&[("vest.fus", VEST)]);
    let base = uri(folder.path(), "vest.fus");
    let mut client = Client::ready();
    client.open(&base, VEST);
    let hover = |client: &mut Client, words: &str| {
        let hover = client.ask_at("textDocument/hover", &base, place(VEST, words)).expect(words);
        hover["contents"]["value"].as_str().expect("words").to_owned()
    };
    let ends = hover(&mut client, "hem_band_ends");
    assert_eq!(ends, "seam **hem_band_ends**: outer.hem_band.left to outer.hem_band.right");
    let side = hover(&mut client, "top_facing_side;");
    assert!(side.contains("outer.top_facing_front.right to outer.top_facing_back.right"), "{side}");
    // The keyword is no name: what the line writes out does not lie there for an editor.
    assert!(!hover(&mut client, "band hem_band").contains("bottom_left"));
    let at = place(VEST, "hem_band_ends");
    let found = client.ask_at("textDocument/completion", &base, [at[0], at[1]]).expect("names");
    let labels: Vec<&str> = match found.as_array() {
        Some(all) => all.iter().filter_map(|one| one["label"].as_str()).collect(),
        None => {
            found["items"].as_array().expect("items").iter().filter_map(|one| one["label"].as_str()).collect()
        }
    };
    for name in ["hem_band", "hem_band_ends", "top_facing", "top_facing_side"] {
        assert!(labels.contains(&name), "{name}: {labels:?}");
    }
    assert_eq!(client.leave(), Some(0));
}

/// `in piece BAND` draws on what the line stands for: in its own file, in a variation, packed and written out.
#[test]
fn a_band_is_drawn_on() {
    let marked = format!("{VEST}in piece hem_band add {{ mark tab = (10, 6); notch top 4 from top_left }}\n");
    let files = in_memory(&[("vest.fus", &marked)]);
    let base = compile(&files, "vest.fus");
    let text = bytes(&base);
    assert!(text.contains("\"tab\""), "{text}");
    let again = in_memory(&[("long.fus", &expanded(&files, "vest.fus"))]);
    assert_eq!(bytes(&compile(&again, "long.fus")), text);
    assert!(!expanded(&files, "vest.fus").contains("in piece"));
    let long = format!(
        "{LONG}in piece hem_band add {{ mark tag = (20, 6) }}\nin piece top_facing_front add {{ mark loop = (4, 47) }}\n\
         in piece hem_band replace {{ cut 1 }}\n"
    );
    let files = in_memory(&[("vest.fus", &marked), ("long.fus", &long)]);
    let varied = bytes(&compile(&files, "long.fus"));
    for mark in ["\"tab\"", "\"tag\"", "\"loop\""] {
        assert!(varied.contains(mark), "{mark}");
    }
    let one = packed(&files, "long.fus");
    assert_eq!(bytes(&compile(&in_memory(&[("one.fus", &one)]), "one.fus")), varied, "{one}");
    // Taken back again, and gone with its band.
    let back = with(&long, &[("in piece hem_band replace { cut 1 }\n", "drop mark hem_band.tab\n")]);
    let files = in_memory(&[("vest.fus", &marked), ("long.fus", &back)]);
    assert!(!bytes(&compile(&files, "long.fus")).contains("\"tab\""));
    let gone = "variation \"Plain\" of \"vest.fus\"\ndrop band hem_band\nfinish front.bottom, back.bottom hem 2\n\
        drop measure all_round\n";
    let files = in_memory(&[("vest.fus", &marked), ("long.fus", gone)]);
    bytes(&compile(&files, "long.fus"));
}

#[test]
fn what_is_drawn_wrongly_on_a_band_is_told() {
    let bad = |words: &str| told(&format!("{VEST}{words}\n"));
    for (words, slug) in [
        ("in piece hem_bnd add { mark tab = (10, 6) }", "variation/place"),
        ("in piece hem_band add { mark tab = (10, 60) }", "mark/outside"),
        ("in piece hem_band add { notch tp 4 from top_left }", "name/unknown"),
        ("in piece hem_band add { cut 2 }", "name/declared-twice"),
        ("in piece hem_band replace { line row across at (0, 3) }", "replace/nothing"),
        ("in piece hem_band_ends add { mark tab = (1, 1) }", "variation/place"),
        ("in piece top_facing add { mark tab = (1, 1) }", "name/unknown"),
    ] {
        let found = bad(words);
        assert!(found.iter().any(|(one, _)| *one == slug), "{words}: {found:?}");
        assert!(found.len() <= 2, "{words}: {found:?}");
    }
}

/// 2 cm under the other end are sound, 20 a slip. The band has 80 round the waist and that.
#[test]
fn an_underlap_is_bounded_by_sense() {
    let sound = include_str!("../../examples/mistakes/band-underlap.fus");
    assert!(said(sound).contains(&"band/underlap"));
    assert!(!said(&with(sound, &[("underlap 20 at", "underlap 2 at")])).contains(&"band/underlap"));
    assert!(!said(&with(sound, &[("underlap 20 at", "underlap 4in at")])).contains(&"band/underlap"));
}

/// A band round a ring that is joined at a side seam, in the middle of what it is sewn to, with its far edge inside.
#[test]
fn a_band_is_joined_in_the_middle_of_a_ring() {
    let skirt = "garment \"Deck skirt\"\nunits cm\nallowance 1.5\nfabric twill \"twill\" { width 150; kind woven firm }\n\
        fabric lawn \"lawn\" { width 140; kind woven firm }\nlayer outer in twill { front, back }\nlayer lining in lawn { front, back }\n\
        piece front \"Front\" { cut 1 on fold left; outline rectangle 30 by 62 }\n\
        piece back \"Back\" { cut 1 on fold left; outline rectangle 30 by 62 }\n\
        seam side front.right to back.right\nfinish front.bottom, back.bottom hem 3 turned under 1\n";
    let plain = skirt
        .replace("layer lining in lawn { front, back }\n", "")
        .replace("fabric lawn \"lawn\" { width 140; kind woven firm }\n", "");
    for corner in
        ["outer.back.top_right", "outer.front.top_right", "outer.back.top_left", "outer.front.top_left"]
    {
        let inside = format!(
            "{skirt}band waistband in outer 3 deep folded round outer.front.top + outer.back.top inside lining.front.top + \
             lining.back.top joined at {corner}\n"
        );
        assert_eq!(
            told(&inside).iter().filter(|(slug, _)| slug.starts_with("seam/")).count(),
            0,
            "{corner}: {:?}",
            told(&inside)
        );
        let alone = format!(
            "{plain}band waistband in outer 3 deep folded round outer.front.top + outer.back.top joined at {corner}\n"
        );
        assert_eq!(
            told(&alone).iter().filter(|(slug, _)| slug.starts_with("seam/")).count(),
            0,
            "{corner}: {:?}",
            told(&alone)
        );
    }
}

/// What is said anew of bands and seams says the same as the whole of them in their place.
#[test]
fn some_of_a_band_or_a_seam_is_said_anew() {
    let files = ["deck-smock.fus", "deck-zip.fus", "deck-lined.fus", "deck-jacket.fus", "crew-library.fus"];
    let all = |changes: &[(&str, &str)]| {
        files.iter().fold(MemoryLoader::new(), |loader, file| {
            let own: Vec<(&str, &str)> =
                changes.iter().filter(|(short, _)| example(file).contains(short)).copied().collect();
            loader.with(file, with(&example(file), &own))
        })
    };
    let said = all(&[]);
    let whole = all(&[
        (
            "in band collar, hem_band opening at front_zip\n",
            "replace band collar in outer 6 deep folded along front.neckline + back.neckline opening at front_zip\n\
             replace band hem_band in knit 6 deep folded along front.hem + back.hem at 85% opening at front_zip {\n  stitch 504\n}\n",
        ),
        (
            "in band collar, hem_band inside lining\n",
            "replace band collar in outer 6 deep folded along front.neckline + back.neckline inside lining.front.neckline + \
             lining.back.neckline opening at front_zip\n\
             replace band hem_band in knit 6 deep folded along front.hem + back.hem inside lining.front.hem + lining.back.hem \
             at 85% opening at front_zip {\n  stitch 504\n}\n",
        ),
        (
            "in seam sleeve add { leaving gap 16 in lining, left }\n",
            "replace seam sleeve sleeve.under_front to sleeve.under_back {\n  matching sleeve.wrist_front with sleeve.wrist_back\n  \
             leaving gap 16 in lining, left\n}\n",
        ),
    ]);
    for file in ["deck-zip.fus", "deck-jacket.fus"] {
        let (one, other) = (compile(&said, file), compile(&whole, file));
        assert_eq!(bytes(&one), bytes(&other), "{file}");
        let packed = packed(&said, file);
        let again = MemoryLoader::new()
            .with("crew-library.fus", example("crew-library.fus"))
            .with("one.fus", packed.as_str());
        assert_eq!(bytes(&compile(&again, "one.fus")), bytes(&one), "{packed}");
    }
}

/// What was said anew of a band is said again as it was: the base's bytes.
#[test]
fn what_is_said_of_a_band_is_taken_back() {
    let files = in_memory(&[
        ("vest.fus", VEST),
        ("deep.fus", "variation \"Deep\" of \"vest.fus\"\nin band hem_band 9 deep { stitch 301 }\n"),
        ("other.fus", "variation \"Deckhand's vest\" of \"deep.fus\" without \"deep.fus\"\n"),
        (
            "back.fus",
            "variation \"Deckhand's vest\" of \"deep.fus\"\nreplace band hem_band \"Hem band\" in outer 6 deep folded round \
             front.bottom + back.bottom joined at back.bottom_left\n",
        ),
    ]);
    let base = bytes(&compile(&files, "vest.fus"));
    assert_ne!(bytes(&compile(&files, "deep.fus")), base);
    for back in ["back.fus", "other.fus"] {
        assert_eq!(bytes(&compile(&files, back)), base, "{back}");
    }
}

#[test]
fn what_is_said_anew_of_nothing_is_told() {
    let said = |words: &str| {
        let files = in_memory(&[
            ("vest.fus", VEST),
            ("long.fus", &format!("variation \"Long\" of \"vest.fus\"\n{words}\n")),
        ]);
        let found = compile(&files, "long.fus").diagnostics;
        found
            .iter()
            .filter(|one| one.severity() == fustian::report::Severity::Mistake)
            .map(|one| one.slug())
            .collect::<Vec<_>>()
    };
    for (words, slug) in [
        ("in band hem_bnd 9 deep", "replace/nothing"),
        ("in band top_facing 9 deep", "replace/nothing"),
        ("in band hem_band opening at zip", "name/unknown"),
        ("in band hem_band inside lning", "name/unknown"),
        ("in band hem_band underlap 3 at left", "band/ends"),
        ("in band hem_band 9 deep\nin band hem_band 8 deep", "name/declared-twice"),
        ("in seam sde add { allowance 2 }", "replace/nothing"),
        ("in seam hem_band_ends add { stitch 301 }", "replace/nothing"),
        ("in seam side add { leaving gap 6 in lning }", "name/unknown"),
        ("in seam side add { matching front.bottom_right with back.bottom_rigt }", "name/unknown"),
    ] {
        assert!(said(words).contains(&slug), "{words}: {:?}", said(words));
    }
    for sound in [
        "in band hem_band 9 deep { stitch 301 }",
        "in band hem_band joined at front.bottom_left",
        "in seam side add { allowance 2 }",
        "in seam hem_band replace { stitch 301 }",
        "in seam top_facing add { allowance 0.7 }",
    ] {
        assert_eq!(said(sound), Vec::<&str>::new(), "{sound}");
    }
    // In a garment nothing of another file stands.
    let own = format!("{VEST}in band hem_band 9 deep\n");
    assert!(told(&own).iter().any(|(slug, _)| *slug == "variation/place"), "{:?}", told(&own));
}

/// The opening of a bag whose three other edges are one seam is faced all round: both ends of its strips are joined.
#[test]
fn a_facing_of_a_bag_is_joined_at_both_ends() {
    let bag = "garment \"Chart roll\"\nunits cm\nallowance 1\nfabric canvas \"canvas\" { width 150; kind woven firm }\n\
        layer outer in canvas { face, reverse }\npiece face \"Face\" { cut 1; outline rectangle 40 by 60 }\n\
        piece reverse \"Reverse\" like face { grain up }\n\
        seam round face.left + face.bottom + face.right to reverse.left + reverse.bottom + reverse.right\n\
        facing lip \"Lip\" in outer 5 wide behind face.top + reverse.top\n";
    let found = told(bag);
    assert!(found.iter().all(|(slug, _)| *slug == "steps/none"), "{found:?}");
    let long = expanded(&in_memory(&[("own.fus", bag)]), "own.fus");
    assert!(long.contains("seam lip_round ") && long.contains("seam lip_round_2 "), "{long}");
}

/// Where the line that declares the closure cannot be read, that is told, and not once more that the closure is missing.
#[test]
fn a_closure_in_a_damaged_line_is_not_missed() {
    let zip = example("deck-zip.fus").replace("\nclosure front_zip", "\nclosur front_zip");
    let loader = in_memory(&[
        ("deck-zip.fus", zip.as_str()),
        ("deck-smock.fus", example("deck-smock.fus").as_str()),
        ("crew-library.fus", example("crew-library.fus").as_str()),
    ]);
    let compiled = compile(&loader, "deck-zip.fus");
    let told: Vec<&str> = compiled.diagnostics.iter().map(|one| one.slug()).collect();
    assert_eq!(told, ["syntax/unknown-statement"], "{:#?}", compiled.diagnostics);
}
