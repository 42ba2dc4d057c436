//! The forms of the language: where each statement stands, the word that it begins with, and an
//! example of it. Messages and completion read them; the tests hold the grammar, the keywords, the
//! kinds of alterations and the canonical spelling to them.

use super::build::Context;

/// Where a statement may stand, its first word, and an example of it.
type Form = (Context, &'static str, &'static str);

const FORMS: &[Form] = &[
    (Context::File, "garment", "garment \"Deck smock\""),
    (Context::File, "variation", "variation \"Deck jacket\" of \"deck-smock.fus\""),
    (
        Context::File,
        "variation",
        "variation \"Deck jacket\" of \"deck-smock.fus\" with \"deck-lined.fus\", \"deck-zip.fus\" without \"deck-longer.fus\"",
    ),
    (
        Context::File,
        "fitting",
        "fitting \"Second mate\" of \"deck-jacket.fus\" { body { chest 101; hip as L; the rest as M } }",
    ),
    (Context::File, "library", "library \"Ferry cloth\""),
    (Context::File, "use", "use \"ferry-cloth.fus\""),
    (Context::File, "units", "units cm"),
    (Context::File, "allowance", "allowance 1"),
    (Context::File, "tolerance", "tolerance 2mm"),
    (Context::File, "stitch", "stitch 301"),
    (Context::File, "wearer", "wearer child from 2 to 7 years"),
    (Context::File, "about", "about \"what the deck crew wears\""),
    (Context::File, "maker", "maker \"Ferry workshop\""),
    (Context::File, "edition", "edition 3"),
    (Context::File, "licence", "licence \"free to sew from, not to sell\""),
    (Context::File, "level", "level easy"),
    (Context::File, "sizes", "sizes S, M, L"),
    (Context::File, "body", "body { chest 88, 96, 104 }"),
    (Context::File, "pick", "pick size by larger of chest, hip"),
    (Context::File, "let", "let ease = 24 \"wearing ease\""),
    (Context::File, "measure", "measure chest_finished \"Finished chest\" = 2 * width(front)"),
    (Context::File, "require", "require length(front.side) >= 30 \"the side must clear the pocket\""),
    (Context::File, "fabric", "fabric shell \"waxed cotton\" { width 150 }"),
    (Context::File, "layer", "layer outer in shell { front, back }"),
    (Context::File, "notion", "notion \"hanging loop\" 1"),
    (Context::File, "piece", "piece front \"Front\" { … }"),
    (Context::File, "block", "block piece sloper { … }"),
    (Context::File, "lengthen", "lengthen front, back at waist by 16"),
    (Context::File, "shorten", "shorten front, back at waist by 3"),
    (Context::File, "cut", "cut off sleeve at short_line"),
    (Context::File, "extend", "extend front.centre by 1.5"),
    (Context::File, "extend", "extend front.side by 0 at underarm, 2 at hem_side"),
    (Context::File, "extend", "extend back.vent by 4 stepped"),
    (Context::File, "trim", "trim front.centre by 1.5"),
    (Context::File, "open", "open front at centre"),
    (Context::File, "close", "close front at centre"),
    (Context::File, "split", "split back at yoke_line into upper_back, lower_back"),
    (
        Context::File,
        "split",
        "split front from armhole_dart through bust_point to waist_dart into front_side, front_middle as princess rounded 4",
    ),
    (Context::File, "unfold", "unfold front"),
    (Context::File, "unpair", "unpair front into left_front, right_front"),
    (Context::File, "join", "join front to back at side into body"),
    (Context::File, "redraw", "redraw front.neckline curve leaving right arriving up"),
    (Context::File, "flare", "flare front along slash by 4"),
    (Context::File, "fold", "fold out front along slash by 4"),
    (Context::File, "spread", "spread sleeve along slash by 6"),
    (Context::File, "overlap", "overlap sleeve along slash by 6"),
    (Context::File, "move", "move dart front.side_dart to armhole at 50% as armhole_dart"),
    (Context::File, "move", "move 40% of dart front.side_dart into front.waist_dart stopping 2 short trued"),
    (
        Context::File,
        "let",
        "let dart side_dart into front.side at 6 from underarm angle 18° to bust_point turning to hem at 50% pressed down",
    ),
    (
        Context::File,
        "let",
        "let pleat front_pleat into skirt.waist at 8 from centre depth 2 toward side to nothing at hem",
    ),
    (Context::File, "leave", "leave dart front.waist_dart as ease"),
    (Context::File, "close", "close dart yoke.shoulder_dart"),
    (Context::File, "seam", "seam side front.side to back.side"),
    (Context::File, "finish", "finish front.hem, back.hem hem 3"),
    (Context::File, "place", "place pocket on front { corner bottom_left at pocket_corner }"),
    (Context::File, "closure", "closure front_zip front.left to front.right { zipper separating 65 }"),
    (Context::File, "placket", "placket wrist_placket on sleeve.wrist_slit two-part over 2.5 under 1"),
    (
        Context::File,
        "band",
        "band hem_band \"Hem band\" in knit 6 deep folded round front.hem + back.hem at 85% joined at back.hem_cb",
    ),
    (
        Context::File,
        "band",
        "band waistband \"Waistband\" in outer 4 deep folded along front.waist + back.waist opening at side_zip underlap 3 at back stiffened firm",
    ),
    (
        Context::File,
        "facing",
        "facing neck_facing \"Neck facing\" in outer 5 wide behind front.neckline + back.neckline stiffened firm understitched",
    ),
    (Context::File, "in", "in band collar, hem_band opening at front_zip"),
    (Context::File, "in", "in seam side add { leaving gap 12 in lining }"),
    (Context::File, "seam", "seam collar_edge outer.collar to inside.collar along left + top + right"),
    (Context::File, "opening", "opening front.neckline + back.neckline passes head"),
    (Context::File, "cord", "cord neck_cord 120 through collar.top"),
    (
        Context::File,
        "strap",
        "strap handle 60 by 2.5 in outer folded in four { from bag.left_mark to bag.right_mark }",
    ),
    (Context::File, "topstitch", "topstitch front_rows 0.6 from front.centre rows 2 apart 0.5"),
    (Context::File, "topstitch", "topstitch quilting along front.diagonal"),
    (Context::File, "understitch", "understitch neck_under 0.2 from neck_facing.neckline"),
    (Context::File, "tack", "tack facing_tack neck_facing.tip to front.shoulder at 50% bar 1"),
    (Context::File, "set", "set eyelets \"eyelet 5 mm\" at hood.eyelet_low, hood.eyelet_high"),
    (Context::File, "steps", "steps { \"Pockets\" { place pocket } }"),
    (Context::File, "replace", "replace finish front.hem hem 4"),
    (Context::File, "set", "set ease = 30"),
    (
        Context::File,
        "replace",
        "replace dart front.waist_dart on waist at 9 from centre width 2 to bust_point pressed toward centre trued",
    ),
    (Context::File, "drop", "drop place pocket on front"),
    (Context::File, "drop", "drop dart front.waist_dart"),
    (Context::File, "replace", "replace pleat back.back_pleat on top at the fold depth 3 box"),
    (Context::File, "drop", "drop pleat back.back_pleat"),
    (Context::File, "drop", "drop lengthen front, back at waist of \"deck-longer.fus\""),
    (Context::File, "replace", "replace lengthen front, back at waist by 8 of \"deck-longer.fus\""),
    (Context::File, "replace", "replace step \"Pockets\" { place pocket }"),
    (Context::File, "drop", "drop line front.waist"),
    (Context::File, "drop", "drop notch front.armhole 8 from underarm"),
    (Context::File, "drop", "drop corner front.side/hem"),
    (Context::File, "drop", "drop body wrist"),
    (Context::File, "drop", "drop pick size"),
    (Context::File, "in", "in piece front replace { mark pocket_corner = (5, -50) }"),
    (Context::File, "add", "add hood to layer outer"),
    (Context::File, "in", "in steps after \"Pockets\" add \"Zip\" { baste front_zip }"),
    (Context::Fitting, "body", "body { chest 101; hip as L; the rest as M }"),
    (Context::FittedBody, "the", "the rest as M"),
    (Context::Fabric, "width", "width 150"),
    (Context::Fabric, "selvage", "selvage 1"),
    (Context::Fabric, "stretch", "stretch 5% across, 0% along"),
    (Context::Fabric, "shrink", "shrink 2% along, 1% across"),
    (Context::Fabric, "repeat", "repeat 12 along, 8 across"),
    (Context::Fabric, "nap", "nap one-way"),
    (Context::Fabric, "thickness", "thickness 8mm"),
    (Context::Fabric, "price", "price 18.50 per m"),
    (Context::Fabric, "kind", "kind woven firm"),
    (Context::Fabric, "surface", "surface raised"),
    (Context::Piece, "cut", "cut 2 mirrored"),
    (Context::Piece, "point", "point tip = neck_side + (12, -4)"),
    (Context::Piece, "mark", "mark pocket_corner = (4, -58)"),
    (Context::Piece, "outline", "outline rectangle 40 by 13"),
    (Context::Piece, "line", "line waist across at (0, -38)"),
    (Context::Piece, "notch", "notch armhole 8 from underarm"),
    (Context::Piece, "divide", "divide side 20 from underarm into side_zip, side"),
    (
        Context::Piece,
        "dart",
        "dart waist_dart on waist at 8 from side width 3 to bust_point stopping 2.5 short pressed toward centre trued",
    ),
    (
        Context::Piece,
        "pleat",
        "pleat wrist_pleats on wrist at 4 from under_back depth 1.5 count 2 apart 2.5 toward under_front",
    ),
    (
        Context::Piece,
        "tuck",
        "tuck pins on top at 4 from centre depth 0.3 count 5 apart 1.2 toward side to hem",
    ),
    (Context::Piece, "slit", "slit sleeve_slit on wrist at 6 from under_back up 12 window 1"),
    (Context::Piece, "slit", "slit pocket from (4, 20) to (18, 20) window 2"),
    (Context::Piece, "folded", "folded top to bottom"),
    (Context::Piece, "grain", "grain along centre"),
    (Context::Piece, "allowance", "allowance 1.5"),
    (Context::Piece, "corner", "corner side/hem square"),
    (Context::Piece, "move", "move point neck_cf by (0, 6)"),
    (Context::Piece, "never", "never flipped"),
    (Context::Piece, "without", "without pocket_corner"),
    (Context::Piece, "drawn", "drawn left"),
    (Context::Seam, "allowance", "allowance 0.7"),
    (Context::Seam, "stitch", "stitch 504"),
    (Context::Seam, "tape", "tape 1"),
    (Context::Seam, "notch", "notch 8 from underarm"),
    (Context::Seam, "notch", "notch quarters"),
    (Context::Seam, "notch", "notch every 10 double"),
    (Context::Seam, "leaving", "leaving gap 16 in lining, left"),
    (Context::Seam, "caught", "caught bag.top on front.waist at waist_side"),
    (Context::Seam, "matching", "matching front.tip with back.tip"),
    (Context::Seam, "felled", "felled 0.7 over back"),
    (Context::Seam, "french", "french 0.7"),
    (Context::Seam, "lapped", "lapped 0.7 over yoke"),
    (Context::Seam, "topstitched", "topstitched 0.6 over back"),
    (Context::Seam, "edges", "edges bound 1"),
    (Context::Place, "corner", "corner bottom_left at pocket_corner"),
    (Context::Place, "topstitch", "topstitch left, right"),
    (Context::Place, "topstitch", "topstitch all round"),
    (Context::Place, "caught", "caught bottom in hem_band"),
    (Context::Closure, "zipper", "zipper separating 65 showing 1 clear of cloth 6mm"),
    (Context::Closure, "snaps", "snaps 4 of 12mm"),
    (Context::Closure, "hooks", "hooks 2"),
    (Context::Closure, "toggles", "toggles 3 of 40mm"),
    (Context::Closure, "buckle", "buckle 25mm"),
    (Context::Closure, "ties", "ties 3 of 30"),
    (Context::Closure, "buttons", "buttons 6 of 15mm from 1.5 below neck_cf to 12 above hem_cf"),
    (Context::Strap, "from", "from front.handle_mark on left to front.handle_mark on right"),
    (Context::Strap, "sewn", "sewn 8, boxed"),
    (Context::Group, "sew", "sew shoulder, armhole"),
    (Context::Group, "baste", "baste front_zip"),
    (Context::Group, "hem", "hem pocket.top"),
    (Context::Group, "finish", "finish front.hem"),
    (Context::Group, "place", "place pocket"),
    (Context::Group, "fuse", "fuse collar"),
    (Context::Group, "press", "press shoulder"),
    (Context::Group, "thread", "thread neck_cord"),
    (Context::Group, "topstitch", "topstitch front_rows"),
    (Context::Group, "understitch", "understitch neck_under"),
    (Context::Group, "tack", "tack facing_tack"),
    (Context::Group, "set", "set eyelets"),
    (Context::Group, "turn", "turn through gap in sleeve"),
    (Context::Group, "slipstitch", "slipstitch gap in sleeve"),
    (Context::Group, "note", "note \"try it on before the hem\""),
    (Context::Group, "in", "in outer sew shoulder, armhole"),
];

/// The words that a statement may begin with there.
pub(super) fn starters(context: Context) -> impl Iterator<Item = &'static str> {
    FORMS.iter().filter(move |form| form.0 == context).map(|form| form.1)
}

/// An example of the statement that begins with that word there.
pub(super) fn form(context: Context, word: &str) -> Option<&'static str> {
    match context {
        Context::Body => Some("chest 88, 96, 104"),
        Context::Walk => Some("side to hem_side curve leaving down arriving right"),
        Context::Steps => Some("\"Pockets\" { place pocket }"),
        _ => FORMS.iter().find(|form| form.0 == context && form.1 == word).map(|form| form.2),
    }
}

/// Where else a statement that begins with that word stands.
pub(super) fn elsewhere(context: Context, word: &str) -> Option<Context> {
    FORMS.iter().find(|form| form.1 == word && form.0 != context).map(|form| form.0)
}

/// Where a context is, as a maker would say it.
pub(super) fn place(context: Context) -> &'static str {
    match context {
        Context::File => "outside all braces",
        Context::Body => "in the braces of `body`",
        Context::Fabric => "in the braces of a fabric",
        Context::Piece => "in the braces of a piece",
        Context::Walk => "in the braces of an outline",
        Context::Seam => "in the braces of a seam",
        Context::Place => "in the braces of a placement",
        Context::Closure => "in the braces of a closure",
        Context::Strap => "in the braces of a strap",
        Context::Steps => "in the braces of `steps`",
        Context::Fitting => "in the braces of a fitting",
        Context::FittedBody => "in the braces of a wearer's body",
        Context::Group => "in the braces of a step",
    }
}

#[cfg(test)]
mod tests {
    use super::super::expected::{expected, fits};
    use super::super::words::{FUNCTIONS, KEYWORDS};
    use super::*;
    use crate::source::SourceMap;
    use crate::syntax::tree::AlterationKind;
    use std::collections::BTreeSet;

    const GRAMMAR: &str = include_str!("../../grammar/fustian.pest");

    /// The keywords of the grammar: rules called `k_…`, each of one word in quotes.
    fn of_grammar() -> BTreeSet<&'static str> {
        let rules = GRAMMAR.lines().filter(|line| line.starts_with("k_"));
        rules.filter_map(|line| line.split('"').nth(1)).collect()
    }

    fn contexts() -> BTreeSet<&'static str> {
        FORMS.iter().map(|form| place(form.0)).collect()
    }

    /// The example as it would be written whole.
    fn whole(example: &str) -> String {
        example.replace('…', "")
    }

    #[test]
    fn the_keywords_are_those_of_the_grammar() {
        let known: BTreeSet<&str> = KEYWORDS.iter().copied().collect();
        assert_eq!(of_grammar(), known);
        assert!(KEYWORDS.is_sorted() && FUNCTIONS.is_sorted());
    }

    #[test]
    fn every_example_is_a_statement_of_its_place_and_begins_with_its_word() {
        for &(context, word, example) in FORMS {
            assert!(fits(context, &whole(example)), "{example}");
            assert_eq!(example.split([' ', '{']).next(), Some(word));
            assert!(KEYWORDS.contains(&word), "{word}");
        }
    }

    /// What the grammar would have at the beginning of a statement is in the table. Of a rule that
    /// begins in several ways pest tells no word: the examples show those.
    #[test]
    fn the_table_has_every_form_of_the_grammar() {
        for context in [
            Context::File,
            Context::Fabric,
            Context::Piece,
            Context::Seam,
            Context::Place,
            Context::Closure,
            Context::Strap,
            Context::Group,
        ] {
            assert!(contexts().contains(place(context)));
            let fitting = expected(context, "\u{2}").map(|expected| expected.words).unwrap_or_default();
            let grammar: BTreeSet<&str> = fitting.iter().map(String::as_str).collect();
            let table: BTreeSet<&str> = starters(context).collect();
            assert!(grammar.is_subset(&table), "{context:?}: {grammar:?}");
            // It is one rule that begins in many ways in a step, and one word for each form elsewhere.
            assert!(context == Context::Group || grammar.len() > 1, "{context:?}: {grammar:?}");
        }
    }

    #[test]
    fn every_alteration_has_its_form() {
        for kind in AlterationKind::ALL.into_iter().filter(|kind| kind.has_statement()) {
            let verb = kind.form().verb;
            let example = FORMS.iter().find(|form| form.0 == Context::File && form.2.starts_with(verb));
            assert!(example.is_some(), "{verb}");
        }
    }

    /// The examples are spelt in the canonical way: laying them out changes blanks and line ends.
    #[test]
    fn the_canonical_spelling_is_that_of_the_examples() {
        let words = |text: &str| -> Vec<String> {
            let text = text.replace(['{', '}', ';'], " ");
            text.split_whitespace().map(str::to_owned).collect()
        };
        for &(context, _, example) in FORMS {
            let (before, after) = match context {
                Context::File => ("", ""),
                Context::Body => ("body {", "}"),
                Context::Fabric => ("fabric shell {", "}"),
                Context::Piece => ("piece front {", "}"),
                Context::Walk => ("piece front { outline from a {", "} }"),
                Context::Seam => ("seam side front.side to back.side {", "}"),
                Context::Place => ("place pocket on front {", "}"),
                Context::Closure => ("closure zip front.left to front.right {", "}"),
                Context::Strap => ("strap handle 60 by 3 in outer {", "}"),
                Context::Steps => ("steps {", "}"),
                Context::Fitting => ("fitting \"Mate\" of \"x.fus\" {", "}"),
                Context::FittedBody => ("fitting \"Mate\" of \"x.fus\" { body {", "} }"),
                Context::Group => ("steps { \"One\" {", "} }"),
            };
            let text = format!("{before}\n{}\n{after}\n", whole(example));
            let mut map = SourceMap::default();
            let file = map.add("", text.as_str());
            let tidied = crate::syntax::tidy::tidy(&map, file).unwrap_or_default();
            assert_eq!(words(&tidied), words(&text), "{example}");
        }
    }
}
