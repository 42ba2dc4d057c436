//! What a maker may write wrongly: every seam, finish, placement, closure, opening, cord, notion and
//! step of every example is changed in each way that a slip of the pen or of the mind changes it.
//! Each change is noticed, or it is sound, and then a rule of [`SOUND`] says why.
//!
//! The text is changed, not the model. Both ways are held: what a rule calls sound is not refused.

use fustian::compile;
use fustian::emit::document;
use fustian::source::{MemoryLoader, SourceMap};
use fustian::syntax::parse;
use fustian::syntax::tree::{
    AnchorAt, ClosureItemNode, Dotted, EdgePlace, Expr, ExprKind, FinishKind, HemEdge, NotchesApart,
    PlaceItemNode, Seam, SeamItemNode, SewnWords, Statement, StatementNode, StrapItemNode, Unit,
};
use rayon::prelude::*;
use std::collections::BTreeMap;
use std::fs;
use std::ops::Range;
use std::path::Path;

const GARMENTS: [&str; 7] =
    ["deck-lined", "deck-zip", "deck-smock", "galley-apron", "mess-jacket", "mess-skirt", "oilskin-trousers"];

/// A way of changing a statement.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Way {
    Dropped,
    Doubled,
    SidesSwapped,
    EndsSwapped,
    TwinEdge,
    OtherLayer,
    Count,
    Length,
    StepsSwapped,
}

/// One change of one example.
struct Change {
    garment: &'static str,
    way: Way,
    /// What is changed: "seam armhole", "finish front.hem: depth".
    what: String,
    edits: Vec<(Range<usize>, String)>,
}

/// Changes that are sound, and why: a way, how what is changed begins or ends, and the reason.
struct Sound {
    way: Way,
    /// In which garments; everywhere where none is named.
    garments: &'static [&'static str],
    /// Of what is changed: `*` stands for anything.
    what: &'static str,
    /// Why it can be sewn and worn all the same.
    because: &'static str,
}

/// A rule for all garments, or for those named.
const fn sound(
    way: Way,
    garments: &'static [&'static str],
    what: &'static str,
    because: &'static str,
) -> Sound {
    Sound { way, garments, what, because }
}

const JACKET: &[&str] = &["deck-lined"];
const ZIP: &[&str] = &["deck-zip"];
const SMOCK: &[&str] = &["deck-smock"];
const APRON: &[&str] = &["galley-apron"];
const MESS_JACKET: &[&str] = &["mess-jacket"];
const SKIRT: &[&str] = &["mess-skirt"];
const TROUSERS: &[&str] = &["oilskin-trousers"];
const ALL: &[&str] = &[];

const SOUND: &[Sound] = &[
    sound(Way::SidesSwapped, ALL, "seam *", "a plain seam is the same from both sides"),
    sound(Way::SidesSwapped, ALL, "closure *", "what lies over is said, and a zip has no first side"),
    sound(Way::Length, ALL, "seam *: gap * + 20%", "a longer gap still has room in its seam"),
    sound(Way::Length, ALL, "seam *: fit low * - 20%", "what was within a range is within a wider one"),
    sound(
        Way::Length,
        ALL,
        "seam *armhole: fit high * + 20%",
        "what was within a range is within a wider one",
    ),
    sound(Way::Length, ALL, "seam cuff: fit high * + 20%", "what was within a range is within a wider one"),
    sound(Way::Length, SMOCK, "seam armhole: fit low 2 + 20%", "2.54 cm of ease is more than 2.4"),
    sound(Way::Length, SMOCK, "seam armhole: fit high 3 - 20%", "2.54 cm of ease is within 2 mm of 2.4"),
    sound(Way::Length, ALL, "seam *: notch *", "a notch may stand anywhere, as long as every ply has it"),
    sound(Way::Length, ALL, "band *: depth *", "a collar or a rib may be a fifth deeper or shallower"),
    sound(Way::Length, ALL, "band *: share 85% - 20%", "a rib that stretches by 80 % goes round at 68 % too"),
    sound(Way::Length, ALL, "finish *: hem *", "a hem may be a fifth deeper or shallower"),
    sound(Way::Length, ALL, "finish *: turned under *", "so may what is turned under"),
    sound(
        Way::Length,
        APRON,
        "finish apron.slope: casing 3 *",
        "the tie goes through a narrower or wider channel",
    ),
    sound(Way::Length, TROUSERS, "finish *: casing 4 + 20%", "elastic has more room"),
    sound(Way::Length, TROUSERS, "finish *: elastic width 3.5 - 20%", "narrower elastic has more room"),
    sound(
        Way::Length,
        TROUSERS,
        "finish *: elastic length 90% - 20%",
        "72 % of the waist: elastic stretches over the hip",
    ),
    sound(Way::Length, APRON, "cord tie: *", "2 × 35.8 cm of channel and two ends still go into it"),
    sound(Way::Length, MESS_JACKET, "closure placket: button size *", "16 and 24 mm are buttons too"),
    sound(
        Way::Length,
        MESS_JACKET,
        "closure placket: first button *",
        "the row may begin a little higher or lower",
    ),
    sound(
        Way::Length,
        MESS_JACKET,
        "closure placket: last button *",
        "the row may end a little higher or lower",
    ),
    sound(
        Way::Length,
        ZIP,
        "closure front_zip: zip zip_length + 20%",
        "the body is lengthened until the zip fits",
    ),
    sound(Way::Length, SKIRT, "closure back_zip: zip 7 *", "the zip of 9 in is still in stock"),
    sound(Way::Length, SKIRT, "closure back_zip: zip 12 *", "the zip of 9 in is still in stock"),
    sound(Way::Count, MESS_JACKET, "closure placket: buttons to *", "four or six buttons close it as well"),
    sound(Way::Count, ALL, "notion * to 2", "the maker may want two"),
    sound(Way::Dropped, ALL, "notion *", "nothing in the garment asks for it"),
    sound(Way::Dropped, SKIRT, "opening *", "the zip opens the waist, which its length is checked for"),
    sound(
        Way::OtherLayer,
        MESS_JACKET,
        "seam shoulder: * to outer.*",
        "the shell was meant, and now it is said",
    ),
    sound(
        Way::OtherLayer,
        MESS_JACKET,
        "seam armhole: * to outer.*",
        "the shell was meant, and now it is said",
    ),
    sound(Way::OtherLayer, MESS_JACKET, "seam side: * to outer.*", "the shell was meant, and now it is said"),
    sound(
        Way::EndsSwapped,
        SMOCK,
        "seam armhole",
        "the sleeve is the same from both sides of its middle: the left one is set in on the right",
    ),
    sound(
        Way::EndsSwapped,
        ALL,
        "seam cuff",
        "both corners of a closed wrist are one, and a cuff is the same from both sides of its middle",
    ),
    sound(
        Way::EndsSwapped,
        APRON,
        "place pocket: corner to top_left",
        "the pocket sits its height lower, its fold still on the apron's",
    ),
    sound(
        Way::EndsSwapped,
        TROUSERS,
        "place pocket: corner to top_left",
        "the pocket sits its height lower on the thigh",
    ),
    sound(Way::StepsSwapped, ALL, "targets armhole and side", "the sleeve is set in flat or round"),
    sound(Way::StepsSwapped, ALL, "targets side and sleeve", "they share one end and cross nothing"),
    sound(
        Way::StepsSwapped,
        ALL,
        "targets lining_armhole and lining_side",
        "the sleeve is set in flat or round",
    ),
    sound(
        Way::StepsSwapped,
        ALL,
        "steps \"Pockets\" and *",
        "a pocket is easier placed flat, and can be placed later",
    ),
    sound(Way::StepsSwapped, JACKET, "steps \"Shell\" and \"Lining\"", "shell and lining do not meet yet"),
    sound(Way::OtherLayer, JACKET, "band *: front.* to outer.*", "the shell was meant, and now it is said"),
    sound(Way::OtherLayer, JACKET, "band *: back.* to outer.*", "the shell was meant, and now it is said"),
    sound(
        Way::StepsSwapped,
        JACKET,
        "place pocket and in outer sew *",
        "a pocket is easier placed flat, and can be placed later",
    ),
    sound(
        Way::StepsSwapped,
        JACKET,
        "sew front_edge and turn through gap in sleeve",
        "only the cuffs close the bag, and the front edge is reached through the wrists",
    ),
    sound(
        Way::StepsSwapped,
        JACKET,
        "sew cuff_ends, * and slipstitch gap in sleeve",
        "a cuff is sewn on from outside, all its plies at once",
    ),
    sound(Way::StepsSwapped, JACKET, "targets collar and hem_band", "they are at opposite ends of the shell"),
    sound(
        Way::StepsSwapped,
        JACKET,
        "targets collar_inside and hem_band_inside",
        "they are at opposite ends of the lining",
    ),
    sound(Way::StepsSwapped, SMOCK, "steps \"Collar\" and \"Cuffs\"", "they are far apart"),
    sound(Way::StepsSwapped, SMOCK, "steps \"Cuffs\" and \"Hem band\"", "they are far apart"),
    sound(
        Way::StepsSwapped,
        APRON,
        "steps \"Pocket\" and \"Edges\"",
        "the pocket is placed clear of the edges",
    ),
    sound(
        Way::StepsSwapped,
        APRON,
        "targets apron.*",
        "of two hems that meet in a corner either may come first",
    ),
    sound(
        Way::StepsSwapped,
        MESS_JACKET,
        "steps \"Fuse\" and \"Shell\"",
        "what is fused is not in the shell yet",
    ),
    sound(
        Way::StepsSwapped,
        MESS_JACKET,
        "steps \"Shell\" and \"Facing and lining\"",
        "shell and lining do not meet yet",
    ),
    sound(
        Way::StepsSwapped,
        MESS_JACKET,
        "targets front_facing and collar",
        "two pieces are fused one by one",
    ),
    sound(
        Way::StepsSwapped,
        MESS_JACKET,
        "sew facing_edge, * and in lining sew sleeve",
        "the sleeve is set in flat or round",
    ),
    sound(
        Way::StepsSwapped,
        MESS_JACKET,
        "targets outer_neck and inner_neck",
        "one is in the shell, one in the lining",
    ),
    sound(
        Way::StepsSwapped,
        MESS_JACKET,
        "targets collar_edge and front_edge",
        "they share one corner and cross nothing",
    ),
    sound(
        Way::StepsSwapped,
        MESS_JACKET,
        "targets front_edge and hem",
        "they share one corner and cross nothing",
    ),
    sound(Way::StepsSwapped, MESS_JACKET, "targets hem and wrist", "they are far apart"),
    sound(
        Way::StepsSwapped,
        MESS_JACKET,
        "slipstitch gap in sleeve and sew placket",
        "buttons are far from the gap",
    ),
    sound(
        Way::StepsSwapped,
        SKIRT,
        "targets back_zip and centre_back",
        "the seam below the zip may come first or last",
    ),
    sound(Way::StepsSwapped, SKIRT, "targets front.hem and back.hem", "one hem, all round"),
    sound(
        Way::StepsSwapped,
        TROUSERS,
        "steps \"Legs\" and \"Crotch\"",
        "crotch first, then the inseam through in one",
    ),
    sound(Way::StepsSwapped, TROUSERS, "steps \"Waist\" and \"Hems\"", "they are at opposite ends"),
    sound(Way::StepsSwapped, TROUSERS, "targets outseam and inseam", "either side of the leg first"),
    sound(Way::StepsSwapped, TROUSERS, "targets front_crotch and back_crotch", "they meet in one point"),
    sound(Way::StepsSwapped, TROUSERS, "targets front.* and back.*", "one edge, all round"),
];

fn read(garment: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples").join(format!("{garment}.fus"));
    fs::read_to_string(path).unwrap()
}

/// Every example, one of them changed, in one size.
fn loader(garment: &str, text: &str) -> MemoryLoader {
    let mut loader = MemoryLoader::new().with("crew-library.fus", read("crew-library"));
    for other in GARMENTS {
        let own = if other == garment { text.to_owned() } else { read(other) };
        loader = loader.with(&format!("{other}.fus"), own);
    }
    let size = if garment == "galley-apron" { "one" } else { "M" };
    loader.with("one.fus", format!("variation \"One size\" of \"{garment}.fus\"\nsizes {size}\n"))
}

/// What is said of it, of whatever severity.
fn said(garment: &str, text: &str) -> Vec<String> {
    let compiled = compile(&loader(garment, text), "one.fus");
    compiled.diagnostics.iter().map(|one| format!("{}: {}", one.slug(), one.title)).collect()
}

/// What the unchanged examples are made of: by piece its edges and its layers, by seam the ends that meet.
struct Facts {
    edges: BTreeMap<String, Vec<String>>,
    layers: BTreeMap<String, Vec<String>>,
    ends: BTreeMap<(String, Vec<String>), Vec<[String; 2]>>,
}

fn facts(garment: &str) -> Facts {
    let compiled = compile(&loader(garment, &read(garment)), "one.fus");
    let json =
        serde_json::to_value(document(&compiled.garment, &compiled.sizes, &compiled.map, &[])).unwrap();
    let size = &json["sizes"][0];
    let text = |value: &serde_json::Value| value.as_str().unwrap_or_default().to_owned();
    let mut facts = Facts { edges: BTreeMap::new(), layers: BTreeMap::new(), ends: BTreeMap::new() };
    for piece in size["pieces"].as_array().unwrap() {
        let part = text(&piece["part"]);
        let (layer, name) = part.split_once('.').unwrap();
        let edges = piece["edges"].as_array().unwrap().iter().map(|edge| text(&edge["name"])).collect();
        facts.edges.insert(name.to_owned(), edges);
        facts.layers.entry(name.to_owned()).or_default().push(layer.to_owned());
    }
    for seam in size["seams"].as_array().unwrap() {
        let layers = seam["layers"].as_array().unwrap().iter().map(text).collect();
        let ends = seam["ends"]
            .as_array()
            .unwrap()
            .iter()
            .map(|pair| [text(&pair[0]["corner"]), text(&pair[1]["corner"])]);
        facts.ends.insert((text(&seam["name"]), layers), ends.collect());
    }
    facts
}

fn range(span: fustian::source::Span) -> Range<usize> {
    span.lo as usize..span.hi as usize
}

/// The changes of one example.
struct Changing<'a> {
    garment: &'static str,
    text: &'a str,
    facts: Facts,
    changes: Vec<Change>,
}

impl Changing<'_> {
    fn add(&mut self, way: Way, what: impl Into<String>, edits: Vec<(Range<usize>, String)>) {
        self.changes.push(Change { garment: self.garment, way, what: what.into(), edits });
    }

    fn words(&self, at: Range<usize>) -> String {
        self.text[at].to_owned()
    }

    fn blank(&self, at: Range<usize>) -> String {
        self.text[at].chars().map(|letter| if letter == '\n' { '\n' } else { ' ' }).collect()
    }

    fn drop_and_double(&mut self, what: &str, statement: &Statement, name: Option<Range<usize>>) {
        let at = range(statement.span);
        self.add(Way::Dropped, what, vec![(at.clone(), self.blank(at.clone()))]);
        let mut again = self.words(at.clone());
        if let Some(word) = again.strip_prefix("replace ") {
            again = format!("{}{word}", " ".repeat("replace ".len()));
        }
        if let Some(name) = name {
            let own = self.words(name.clone());
            let from = name.start - at.start;
            again.replace_range(from..from + own.len(), &format!("{own}_again"));
        }
        let again = again.trim_start().to_owned();
        self.add(Way::Doubled, what, vec![(at.end..at.end, format!("\n{again}"))]);
    }

    /// An edge, and where a run of it is meant, how far that goes.
    fn sewn(&mut self, what: &str, sewn: &SewnWords) {
        self.edge(what, &sewn.edge);
        for over in &sewn.over {
            self.sewn(what, over);
        }
        if let Some(run) = &sewn.run {
            for amount in run.from.iter().chain([&run.to]) {
                self.number(&format!("{what}: run"), amount);
            }
        }
    }

    /// An edge named by its twin: the edge of the same name on another piece, or the same piece in
    /// another layer.
    fn edge(&mut self, what: &str, edge: &Dotted) {
        let parts: Vec<String> = edge.parts.iter().map(|part| part.text.to_string()).collect();
        let (layer, piece, name) = match parts.as_slice() {
            [piece, name] => (None, piece.clone(), name.clone()),
            [layer, piece, name] => (Some(layer.clone()), piece.clone(), name.clone()),
            _ => return,
        };
        let said = parts.join(".");
        let twins: Vec<String> = self
            .facts
            .edges
            .iter()
            .filter(|(other, edges)| **other != piece && edges.contains(&name))
            .map(|(other, _)| other.clone())
            .collect();
        for twin in twins {
            let layer = match &layer {
                Some(layer) if self.facts.layers[&twin].contains(layer) => format!("{layer}."),
                _ => String::new(),
            };
            let words = format!("{layer}{twin}.{name}");
            self.add(Way::TwinEdge, format!("{what}: {said} to {words}"), vec![(range(edge.span), words)]);
        }
        let layers = self.facts.layers.get(&piece).cloned().unwrap_or_default();
        let others = layers.iter().filter(|other| Some(*other) != layer.as_ref() && layers.len() > 1);
        for other in others {
            let words = format!("{other}.{piece}.{name}");
            self.add(Way::OtherLayer, format!("{what}: {said} to {words}"), vec![(range(edge.span), words)]);
        }
    }

    /// A number of an expression a fifth less and more; of a count, one less and more.
    fn number(&mut self, what: &str, expr: &Expr) {
        match &expr.kind {
            ExprKind::Quantity(quantity) => {
                let own = self.words(range(quantity.span));
                let unit = quantity.unit.map(|unit| self.words(range(unit.span))).unwrap_or_default();
                if quantity.unit.is_some_and(|unit| unit.unit == Unit::Count) {
                    return;
                }
                for (share, sign) in [(0.8, "-"), (1.2, "+")] {
                    let number = (quantity.number * share * 1000.0).round() / 1000.0;
                    let edit = vec![(range(quantity.span), format!("{number}{unit}"))];
                    self.add(Way::Length, format!("{what} {own} {sign} 20%"), edit);
                }
            }
            ExprKind::Product(factors) => {
                if let Some((_, last)) = factors.last() {
                    self.number(what, last);
                }
            }
            _ => {
                let own = self.words(range(expr.span));
                for (share, sign) in [("80%", "-"), ("120%", "+")] {
                    let edit = vec![(range(expr.span), format!("({own}) * {share}"))];
                    self.add(Way::Length, format!("{what} {own} {sign} 20%"), edit);
                }
            }
        }
    }

    fn count(&mut self, what: &str, expr: &Expr) {
        let ExprKind::Quantity(quantity) = &expr.kind else { return };
        for number in [quantity.number - 1.0, quantity.number + 1.0] {
            self.add(
                Way::Count,
                format!("{what} to {number}"),
                vec![(range(quantity.span), number.to_string())],
            );
        }
    }

    fn seam(&mut self, statement: &Statement, seam: &Seam) {
        let what = format!("seam {}", seam.name.text);
        self.drop_and_double(&what, statement, Some(range(seam.name.span)));
        if seam.across_fold {
            return;
        }
        let (first, second) = (range(seam.first.span), range(seam.second.span));
        let swap = vec![(first.clone(), self.words(second.clone())), (second.clone(), self.words(first))];
        let fitted = if seam.fit.is_some() { "fitted " } else { "" };
        self.add(Way::SidesSwapped, format!("{fitted}{what}"), swap);
        for sewn in seam.first.plies.iter().chain(&seam.second.plies).flat_map(|ply| &ply.edges) {
            self.sewn(&what, sewn);
        }
        if let Some(fit) = &seam.fit {
            self.number(&format!("{what}: fit low"), &fit.low);
            if let Some(high) = &fit.high {
                self.number(&format!("{what}: fit high"), high);
            }
        }
        let mut matching: Option<Range<usize>> = None;
        for item in &seam.items {
            match &item.node {
                SeamItemNode::Allowance(length) => self.number(&format!("{what}: allowance"), length),
                SeamItemNode::Notch { place, .. } => {
                    if let EdgePlace::At { value, .. } = place {
                        self.number(&format!("{what}: notch"), value);
                    }
                }
                SeamItemNode::Notches { apart: NotchesApart::Every(length), .. } => {
                    self.number(&format!("{what}: notch"), length);
                }
                SeamItemNode::Notches { .. } => {}
                SeamItemNode::Gap { length, .. } => self.number(&format!("{what}: gap"), length),
                SeamItemNode::Matching(..) => {
                    let at = range(item.span);
                    matching = Some(match matching {
                        Some(before) => before.start..at.end,
                        None => at,
                    });
                }
                SeamItemNode::Kind { width, .. } => self.number(&format!("{what}: width"), width),
                SeamItemNode::Caught { place, .. } => {
                    let at = range(item.span);
                    self.add(Way::Dropped, format!("{what}: caught"), vec![(at.clone(), self.blank(at))]);
                    if let EdgePlace::At { value, from: Some(_) } = place {
                        self.number(&format!("{what}: caught"), value);
                    }
                }
                SeamItemNode::Stitch(_) => {}
            }
        }
        self.ends(&what, statement, seam, matching);
    }

    /// Sewn end for end: the start of the one side on the end of the other.
    fn ends(&mut self, what: &str, statement: &Statement, seam: &Seam, matching: Option<Range<usize>>) {
        let own: Vec<[String; 2]> = self
            .facts
            .ends
            .iter()
            .filter(|((name, _), _)| **name == *seam.name.text)
            .flat_map(|(_, ends)| ends.clone())
            .collect();
        let (Some([one, _]), Some([_, other])) = (own.first(), own.iter().find(|pair| pair[0] != own[0][0]))
        else {
            return;
        };
        // Corners without a name cannot be written.
        if one.contains('/') || other.contains('/') || own[0][1] == *other {
            return;
        }
        // Where a seam names no layer, its corners are the piece's.
        let names_layers = seam.first.plies.iter().chain(&seam.second.plies).flat_map(|ply| &ply.edges);
        let names_layers = names_layers.clone().any(|sewn| sewn.edge.parts.len() == 3);
        let plain = |corner: &str| match names_layers {
            true => corner.to_owned(),
            false => corner.split_once('.').map_or(corner, |(_, rest)| rest).to_owned(),
        };
        let line = format!("matching {} with {}", plain(one), plain(other));
        let edit = match matching {
            Some(at) => (at, line),
            None => {
                let end = statement.span.hi as usize;
                match self.text[..end].ends_with('}') {
                    true => (end - 1..end - 1, format!("; {line} ")),
                    false => (end..end, format!(" {{ {line} }}")),
                }
            }
        };
        self.add(Way::EndsSwapped, what, vec![edit]);
    }

    fn statement(&mut self, statement: &Statement) {
        let node = match &statement.node {
            StatementNode::Replace(inner) => &inner.node,
            node => node,
        };
        match node {
            StatementNode::Seam(seam) => self.seam(statement, seam),
            StatementNode::Finish(finish) => {
                let edges: Vec<String> =
                    finish.edges.iter().map(|edge| self.words(range(edge.span))).collect();
                let what = format!("finish {}", edges.join(", "));
                self.drop_and_double(&what, statement, None);
                for sewn in &finish.edges {
                    self.sewn(&what, sewn);
                }
                match &finish.kind {
                    FinishKind::Hem(hem) => {
                        self.number(&format!("{what}: hem"), &hem.depth);
                        if let HemEdge::TurnedUnder(under) = &hem.raw_edge {
                            self.number(&format!("{what}: turned under"), under);
                        }
                        if let Some(turn_up) = &hem.turn_up {
                            self.number(&format!("{what}: turn-up"), turn_up);
                        }
                    }
                    FinishKind::Bound(binding) => {
                        self.number(&format!("{what}: bound"), &binding.width);
                        for (length, _) in &binding.running_on {
                            self.number(&format!("{what}: running on"), length);
                        }
                    }
                    FinishKind::Tape(Some(width)) => self.number(&format!("{what}: tape"), width),
                    FinishKind::Elastic { width, length } => {
                        self.number(&format!("{what}: elastic width"), width);
                        self.number(&format!("{what}: elastic length"), length);
                    }
                    FinishKind::Casing { depth, elastic } => {
                        self.number(&format!("{what}: casing"), depth);
                        if let Some((width, length)) = elastic {
                            self.number(&format!("{what}: elastic width"), width);
                            self.number(&format!("{what}: elastic length"), length);
                        }
                    }
                    _ => {}
                }
            }
            StatementNode::Place(place) => {
                let what = format!("place {}", self.words(range(place.piece.span)));
                self.drop_and_double(&what, statement, None);
                for item in &place.items {
                    let at = range(item.span);
                    match &item.node {
                        PlaceItemNode::Corner { corner, .. } => {
                            for other in ["bottom_left", "bottom_right", "top_left", "top_right"] {
                                if other != &*corner.text {
                                    let edit = vec![(range(corner.span), other.to_owned())];
                                    self.add(Way::EndsSwapped, format!("{what}: corner to {other}"), edit);
                                }
                            }
                        }
                        PlaceItemNode::Topstitch(edges) => {
                            for edge in edges {
                                for other in ["left", "bottom", "right", "top"] {
                                    if edges.iter().all(|own| &*own.text != other) {
                                        let what = format!("{what}: topstitch {} to {other}", edge.text);
                                        self.add(
                                            Way::TwinEdge,
                                            what,
                                            vec![(range(edge.span), other.to_owned())],
                                        );
                                    }
                                }
                            }
                        }
                        _ => self.add(
                            Way::Dropped,
                            format!("{what}: {}", self.words(at.clone())),
                            vec![(at.clone(), self.blank(at))],
                        ),
                    }
                }
            }
            StatementNode::Closure(closure) => {
                let what = format!("closure {}", closure.name.text);
                self.drop_and_double(&what, statement, Some(range(closure.name.span)));
                let (first, second) = (range(closure.first.span), range(closure.second.span));
                let swap = vec![(first.clone(), self.words(second.clone())), (second, self.words(first))];
                self.add(Way::SidesSwapped, what.clone(), swap);
                for sewn in closure.first.edges.iter().chain(&closure.second.edges) {
                    self.sewn(&what, sewn);
                }
                for item in &closure.items {
                    match &item.node {
                        ClosureItemNode::Zipper(zipper) => {
                            for length in &zipper.lengths {
                                self.number(&format!("{what}: zip"), length);
                            }
                            if let Some(showing) = &zipper.showing {
                                self.number(&format!("{what}: showing"), showing);
                            }
                            let own = self.words(range(item.span));
                            for (kind, other) in [
                                ("separating", "closed"),
                                ("concealed", "separating"),
                                ("closed", "separating"),
                            ] {
                                if own.contains(kind) {
                                    let edit = vec![(range(item.span), own.replacen(kind, other, 1))];
                                    self.add(Way::OtherLayer, format!("{what}: {kind} to {other}"), edit);
                                    break;
                                }
                            }
                        }
                        ClosureItemNode::Fasteners(row) => {
                            let one = row.kind.one();
                            if let Some(count) = &row.count {
                                self.count(&format!("{what}: {}", row.kind.many()), count);
                            }
                            if let Some(size) = &row.size {
                                self.number(&format!("{what}: {one} size"), size);
                            }
                            if let Some((from, to)) = &row.between {
                                for (which, anchor) in [("first", from), ("last", to)] {
                                    if let AnchorAt::Beside { distance, .. } = &anchor.at {
                                        self.number(&format!("{what}: {which} {one}"), distance);
                                    }
                                }
                            }
                            if let Some(stand) = &row.stand {
                                self.number(&format!("{what}: stand"), stand);
                            }
                        }
                    }
                }
            }
            StatementNode::Opening(opening) => {
                let what = format!("opening {}", self.words(range(opening.ring.span)));
                self.drop_and_double(&what, statement, None);
                for sewn in &opening.ring.edges {
                    self.sewn(&what, sewn);
                }
            }
            StatementNode::Band(band) => {
                let what = format!("band {}", band.name.text);
                self.drop_and_double(&what, statement, Some(range(band.name.span)));
                self.number(&format!("{what}: depth"), &band.depth);
                if let Some(share) = &band.share {
                    self.number(&format!("{what}: share"), share);
                }
                let inside = band.inside.iter().flat_map(|inside| &inside.edges);
                for sewn in band.edges.edges.iter().chain(inside) {
                    self.sewn(&what, sewn);
                }
            }
            StatementNode::Strap(strap) => {
                let what = format!("strap {}", strap.name.text);
                self.drop_and_double(&what, statement, Some(range(strap.name.span)));
                self.number(&format!("{what}: length"), &strap.length);
                self.number(&format!("{what}: width"), &strap.width);
                for item in &strap.items {
                    if let StrapItemNode::Sewn { length, .. } = &item.node {
                        self.number(&format!("{what}: sewn"), length);
                    }
                }
            }
            StatementNode::Cord(cord) => {
                let what = format!("cord {}", cord.name.text);
                self.drop_and_double(&what, statement, None);
                self.number(&format!("{what}: length"), &cord.length);
                for edge in &cord.through {
                    self.edge(&what, edge);
                }
                if let Some(ends) = &cord.ends {
                    self.number(&format!("{what}: ends"), ends);
                }
            }
            StatementNode::Notion(notion) => {
                let what = format!("notion {}", notion.title.text);
                self.drop_and_double(&what, statement, None);
                if let Some(amount) = &notion.amount {
                    self.count(&what, amount);
                }
            }
            StatementNode::Piece(piece) => {
                let at = range(statement.span);
                let start =
                    at.start + self.text[at].find("cut ").expect("every piece here is cut") + "cut ".len();
                let end =
                    start + self.text[start..].find(|letter: char| !letter.is_ascii_digit()).unwrap_or(0);
                let number: u32 = self.text[start..end].parse().expect("a count of copies");
                for other in [number - 1, number + 1] {
                    let what = format!("piece {}: cut {number} to {other}", piece.name.text);
                    self.add(Way::Count, what, vec![(start..end, other.to_string())]);
                }
            }
            StatementNode::Steps(steps) => self.steps(steps),
            _ => {}
        }
    }

    /// Two steps, two actions of a step, and two targets of an action, each changing places with the next.
    fn steps(&mut self, steps: &fustian::syntax::tree::Steps) {
        let mut swaps: Vec<(String, Range<usize>, Range<usize>)> = Vec::new();
        for pair in steps.groups.windows(2) {
            let name = |at: usize| pair[at].title.text.to_string();
            swaps.push((
                format!("steps {:?} and {:?}", name(0), name(1)),
                range(pair[0].span),
                range(pair[1].span),
            ));
        }
        for group in &steps.groups {
            for pair in group.actions.windows(2) {
                let (one, other) = (range(pair[0].span), range(pair[1].span));
                let what = format!("{} and {}", self.words(one.clone()), self.words(other.clone()));
                swaps.push((what, one, other));
            }
            for action in &group.actions {
                for pair in action.targets.windows(2) {
                    let (one, other) = (range(pair[0].span), range(pair[1].span));
                    let what =
                        format!("targets {} and {}", self.words(one.clone()), self.words(other.clone()));
                    swaps.push((what, one, other));
                }
            }
        }
        for (what, one, other) in swaps {
            let edits = vec![(one.clone(), self.words(other.clone())), (other, self.words(one))];
            self.add(Way::StepsSwapped, what, edits);
        }
    }
}

fn changes(garment: &'static str) -> Vec<Change> {
    let text = read(garment);
    let mut map = SourceMap::default();
    let id = map.add(garment, text.as_str());
    let mut changing = Changing { garment, text: &text, facts: facts(garment), changes: Vec::new() };
    for statement in parse(&map, id).file.statements {
        changing.statement(&statement);
    }
    changing.changes
}

fn changed(text: &str, edits: &[(Range<usize>, String)]) -> String {
    let mut edits = edits.to_vec();
    edits.sort_by_key(|(at, _)| at.start);
    let mut text = text.to_owned();
    for (at, words) in edits.iter().rev() {
        text.replace_range(at.clone(), words);
    }
    text
}

/// Whether words are as a pattern says, in which `*` stands for anything.
fn is_like(words: &str, pattern: &str) -> bool {
    let mut parts = pattern.split('*');
    let Some(mut rest) = parts.next().and_then(|first| words.strip_prefix(first)) else { return false };
    let parts: Vec<&str> = parts.collect();
    for (at, part) in parts.iter().enumerate() {
        if at + 1 == parts.len() {
            return rest.ends_with(part);
        }
        let Some(found) = rest.find(part) else { return false };
        rest = &rest[found + part.len()..];
    }
    rest.is_empty()
}

fn reason(change: &Change) -> Option<usize> {
    SOUND.iter().position(|sound| {
        sound.way == change.way
            && (sound.garments.is_empty() || sound.garments.contains(&change.garment))
            && is_like(&change.what, sound.what)
    })
}

#[test]
fn each_change_is_noticed_or_sound() {
    let all: Vec<Change> = GARMENTS.into_iter().flat_map(changes).collect();
    let told: Vec<Vec<String>> = all
        .par_iter()
        .map(|change| said(change.garment, &changed(&read(change.garment), &change.edits)))
        .collect();
    let mut wrong = Vec::new();
    let mut used = vec![false; SOUND.len()];
    for (change, told) in all.iter().zip(&told) {
        let name = format!("{}: {:?}: {}", change.garment, change.way, change.what);
        match (reason(change), told.is_empty()) {
            (None, false) => {}
            (Some(at), true) => used[at] = true,
            (None, true) => wrong.push(format!("not noticed: {name}")),
            (Some(_), false) => {
                wrong.push(format!("sound, and refused: {name}\n    {}", told.join("\n    ")))
            }
        }
    }
    for (sound, used) in SOUND.iter().zip(used) {
        if !used {
            wrong.push(format!(
                "no change is as this rule says: {:?} {}: {}",
                sound.way, sound.what, sound.because
            ));
        }
    }
    assert!(
        wrong.is_empty(),
        "of {} changes {} are not as said:\n{}",
        all.len(),
        wrong.len(),
        wrong.join("\n")
    );
    // So many there were when the rules were last read: fewer would mean that some are not made.
    assert!(all.len() >= 400, "{} changes were made", all.len());
}
