//! What a declaration is known by, so that a variation can replace or drop it.

use crate::source::Span;
use crate::syntax::tidy::{self, Plain};
use crate::syntax::tree::{
    CreditKind, Dotted, Drop, DropKind, NameOrText, PieceItemKind, PlacketKind, SewnWords, StatementNode,
};
use std::sync::Arc;

/// What a declaration is known by. Names of different keys live apart.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub(in crate::garment) enum Key {
    About,
    Credit(CreditKind),
    Allowance,
    Tolerance,
    Stitch,
    Wearer,
    Sizes,
    Pick,
    Steps,
    /// Body measures, lets and measures.
    Value(Arc<str>),
    Fabric(Arc<str>),
    /// Pieces, straps and layers.
    Piece(Arc<str>),
    /// Seams and closures.
    Sewn(Arc<str>),
    Cord(Arc<str>),
    /// Rows of topstitching and understitching, and tacks.
    Stitched(Arc<str>),
    /// A piece and a dart of it.
    Dart(String),
    /// What is done to the paper, and by which file where that is said.
    Altered(String, Option<Arc<str>>),
    /// A line of a piece, of a kind.
    Drawn(PieceItemKind, String),
    /// What is placed, and on what.
    Place(String, String),
    /// Each edge of a finish.
    Finish(String),
    /// By the first edge.
    Opening(String),
    /// By the title.
    Step(Arc<str>),
    /// By the title.
    Notion(Arc<str>),
    /// By the maker's words.
    Require(Arc<str>),
}

impl Key {
    /// Whether two declarations of it disagree.
    pub(super) fn only_once(&self) -> bool {
        !matches!(self, Key::Finish(_) | Key::Opening(_) | Key::Notion(_) | Key::Require(_))
    }

    /// The word or words by which a maker names it.
    pub(in crate::garment) fn words(&self) -> &str {
        match self {
            Key::About => "about",
            Key::Credit(kind) => kind.word(),
            Key::Allowance => "allowance",
            Key::Tolerance => "tolerance",
            Key::Stitch => "stitch",
            Key::Wearer => "wearer",
            Key::Sizes => "sizes",
            Key::Pick => "pick size",
            Key::Steps => "steps",
            Key::Value(name)
            | Key::Fabric(name)
            | Key::Piece(name)
            | Key::Sewn(name)
            | Key::Cord(name)
            | Key::Stitched(name) => name,
            Key::Place(piece, _) => piece,
            Key::Finish(words)
            | Key::Opening(words)
            | Key::Dart(words)
            | Key::Altered(words, _)
            | Key::Drawn(_, words) => words,
            Key::Step(text) | Key::Notion(text) | Key::Require(text) => text,
        }
    }

    /// Whether both are names that live together.
    pub(super) fn beside(&self, other: &Key) -> bool {
        std::mem::discriminant(self) == std::mem::discriminant(other)
    }
}

/// What a statement declares, each with the words that a message points at.
pub(in crate::garment) fn keys_of(node: &StatementNode, whole: Span) -> Vec<(Key, Span)> {
    let one = |key: Key, span: Span| vec![(key, span)];
    match node {
        StatementNode::About(_) => one(Key::About, whole),
        StatementNode::Credit(credit) => one(Key::Credit(credit.kind()), whole),
        StatementNode::Allowance(_) => one(Key::Allowance, whole),
        StatementNode::Tolerance(_) => one(Key::Tolerance, whole),
        StatementNode::Stitch(_) => one(Key::Stitch, whole),
        StatementNode::Wearer(_) => one(Key::Wearer, whole),
        StatementNode::Sizes(_) => one(Key::Sizes, whole),
        StatementNode::Pick(_) => one(Key::Pick, whole),
        StatementNode::Steps(_) => one(Key::Steps, whole),
        StatementNode::Body(body) => {
            body.rows.iter().map(|row| (Key::Value(row.name.text.clone()), row.name.span)).collect()
        }
        StatementNode::Let(one_let) => one(Key::Value(one_let.name.text.clone()), one_let.name.span),
        StatementNode::Measure(measure) => one(Key::Value(measure.name.text.clone()), measure.name.span),
        StatementNode::Require(require) => {
            one(Key::Require(require.because.text.clone()), require.because.span)
        }
        StatementNode::Fabric(fabric) => one(Key::Fabric(fabric.name.text.clone()), fabric.name.span),
        StatementNode::Layer(layer) => one(Key::Piece(layer.name.text.clone()), layer.name.span),
        StatementNode::Piece(piece) => one(Key::Piece(piece.name.text.clone()), piece.name.span),
        StatementNode::Strap(strap) => one(Key::Piece(strap.name.text.clone()), strap.name.span),
        StatementNode::Notion(notion) => one(Key::Notion(notion.title.text.clone()), notion.title.span),
        StatementNode::Seam(seam) => one(Key::Sewn(seam.name.text.clone()), seam.name.span),
        StatementNode::Closure(closure) => one(Key::Sewn(closure.name.text.clone()), closure.name.span),
        StatementNode::StitchedRow(row) => one(Key::Stitched(row.name.text.clone()), row.name.span),
        StatementNode::Tack(tack) => one(Key::Stitched(tack.name.text.clone()), tack.name.span),
        StatementNode::Setting(one_set) => one(Key::Stitched(one_set.name.text.clone()), one_set.name.span),
        StatementNode::Cord(cord) => one(Key::Cord(cord.name.text.clone()), cord.name.span),
        StatementNode::Place(place) => {
            one(Key::Place(dotted(&place.piece), dotted(&place.on)), place.piece.span.to(place.on.span))
        }
        StatementNode::Finish(finish) => {
            finish.edges.iter().map(|sewn| (Key::Finish(finished(sewn)), sewn.span)).collect()
        }
        StatementNode::Band(band) => {
            let seams = band.seams().into_iter().map(Key::Sewn);
            let keys = std::iter::once(Key::Piece(band.name.text.clone())).chain(seams);
            keys.map(|key| (key, band.name.span)).collect()
        }
        StatementNode::Facing(facing) => {
            let own = [&facing.name.text].into_iter().cloned();
            let mut pieces: Vec<Arc<str>> = own.chain(facing.strips()).collect();
            // A piece that is named twice is told where its strips are drawn.
            pieces.dedup();
            let rows = facing.row().map(Key::Stitched);
            let keys =
                pieces.into_iter().map(Key::Piece).chain([Key::Sewn(facing.name.text.clone())]).chain(rows);
            keys.map(|key| (key, facing.name.span)).collect()
        }
        StatementNode::Placket(placket) => {
            let (name, span) = (&placket.name.text, placket.name.span);
            let of = |after: &str| -> Arc<str> { format!("{name}{after}").into() };
            let parts: &[&str] = match placket.kind {
                PlacketKind::Bound(_) => &[""],
                PlacketKind::TwoPart { .. } => &["_under", "_over", "_end"],
            };
            let own = std::iter::once(Key::Piece(name.clone()));
            let strips = parts.iter().map(|after| Key::Piece(of(after)));
            let seams = parts.iter().map(|after| Key::Sewn(of(after)));
            let mut keys: Vec<(Key, Span)> = own.chain(strips).chain(seams).map(|key| (key, span)).collect();
            keys.dedup();
            keys
        }
        StatementNode::Opening(opening) => match opening.ring.edges.first() {
            Some(first) => one(Key::Opening(dotted(&first.edge)), opening.ring.span),
            None => Vec::new(),
        },
        StatementNode::Alteration(alteration) => {
            alteration.into.iter().map(|name| (Key::Piece(name.text.clone()), name.span)).collect()
        }
        // What says what a file is, and what changes what others declare.
        StatementNode::Garment(_)
        | StatementNode::Variation(_)
        | StatementNode::Fitting(_)
        | StatementNode::Library(_)
        | StatementNode::Use(_)
        | StatementNode::Units(_)
        | StatementNode::Replace(_)
        | StatementNode::ReplaceAlteration(_)
        | StatementNode::ReplaceStep(_)
        | StatementNode::Set(_)
        | StatementNode::Drop(_)
        | StatementNode::DropAlteration(_)
        | StatementNode::DropOfPiece(_)
        | StatementNode::ChangeBand(_)
        | StatementNode::ChangeSeam(_)
        | StatementNode::AddToLayer(_)
        | StatementNode::AddSteps(_)
        | StatementNode::AddToPiece(_) => Vec::new(),
    }
}

/// What a `drop` takes away.
pub(super) fn drop_key(drop: &Drop) -> Option<Key> {
    let words = match &drop.target {
        NameOrText::Name(name) => dotted(name),
        NameOrText::Text(text) => text.text.to_string(),
    };
    let name: Arc<str> = words.as_str().into();
    Some(match drop.kind {
        DropKind::Piece
        | DropKind::Strap
        | DropKind::Band
        | DropKind::Facing
        | DropKind::Layer
        | DropKind::Placket => Key::Piece(name),
        DropKind::Seam | DropKind::Closure => Key::Sewn(name),
        DropKind::Fabric => Key::Fabric(name),
        DropKind::Let | DropKind::Measure => Key::Value(name),
        DropKind::Topstitch | DropKind::Understitch | DropKind::Tack | DropKind::SetNotion => {
            Key::Stitched(name)
        }
        DropKind::Cord => Key::Cord(name),
        DropKind::Require => Key::Require(name),
        DropKind::Notion => Key::Notion(name),
        DropKind::Opening => Key::Opening(words),
        DropKind::Steps => Key::Steps,
        DropKind::Finish => Key::Finish(finish_dropped(drop)?),
        DropKind::Step => Key::Step(name),
        DropKind::Dart | DropKind::Pleat | DropKind::Tuck => Key::Dart(words),
        DropKind::BodyRow => Key::Value(name),
        DropKind::Pick => Key::Pick,
        DropKind::Allowance => Key::Allowance,
        DropKind::Tolerance => Key::Tolerance,
        DropKind::Stitch => Key::Stitch,
        DropKind::Wearer => Key::Wearer,
        DropKind::About => Key::About,
        DropKind::Credit(kind) => Key::Credit(kind),
        DropKind::Place => Key::Place(words, drop.on.as_ref().map(dotted).unwrap_or_default()),
    })
}

/// The edge of a finish, and the run of it that is meant.
pub(super) fn finished(sewn: &SewnWords) -> String {
    match sewn.run {
        None => dotted(&sewn.edge),
        Some(_) => tidy::sewn(sewn, &Plain),
    }
}

/// The same of a finish that is dropped.
pub(super) fn finish_dropped(drop: &Drop) -> Option<String> {
    let NameOrText::Name(edge) = &drop.target else { return None };
    let span = edge.span;
    Some(finished(&SewnWords {
        edge: edge.clone(),
        run: drop.run.clone(),
        over: Vec::new(),
        ring: false,
        span,
    }))
}

/// The words as written, without more spacing than they need.
pub(super) fn dotted(words: &Dotted) -> String {
    let parts: Vec<&str> = words.parts.iter().map(|part| &*part.text).collect();
    let parts = parts.join(".");
    match words.on {
        Some(hand) => format!("{parts} on {}", hand.word()),
        None => parts,
    }
}

/// The trade's word for a kind of statement; also what a maker writes before its name.
pub(in crate::garment) fn kind_word(node: &StatementNode) -> &'static str {
    match node {
        StatementNode::Garment(_) => "garment",
        StatementNode::Variation(_) => "variation",
        StatementNode::Fitting(_) => "fitting",
        StatementNode::Library(_) => "library",
        StatementNode::Use(_) => "use",
        StatementNode::Units(_) => "units",
        StatementNode::Allowance(_) => "allowance",
        StatementNode::Tolerance(_) => "tolerance",
        StatementNode::Stitch(_) => "stitch",
        StatementNode::Wearer(_) => "wearer",
        StatementNode::About(_) => "about",
        StatementNode::Credit(credit) => credit.kind().word(),
        StatementNode::Sizes(_) => "sizes",
        StatementNode::Body(_) => "body measure",
        StatementNode::Pick(_) => "pick size",
        StatementNode::Let(_) => "let",
        StatementNode::Measure(_) => "measure",
        StatementNode::Require(_) => "require",
        StatementNode::Fabric(_) => "fabric",
        StatementNode::Layer(_) => "layer",
        StatementNode::Notion(_) => "notion",
        StatementNode::Piece(_) => "piece",
        StatementNode::Alteration(_) => "alteration",
        StatementNode::Seam(_) => "seam",
        StatementNode::Finish(_) => "finish",
        StatementNode::Place(_) => "place",
        StatementNode::Closure(_) => "closure",
        StatementNode::Placket(_) => "placket",
        StatementNode::Opening(_) => "opening",
        StatementNode::StitchedRow(row) => row.kind.word(),
        StatementNode::Tack(_) => "tack",
        StatementNode::Cord(_) => "cord",
        StatementNode::Strap(_) => "strap",
        StatementNode::Band(_) => "band",
        StatementNode::Facing(_) => "facing",
        StatementNode::Steps(_) => "steps",
        StatementNode::Replace(_) => "replace",
        StatementNode::ReplaceAlteration(_) | StatementNode::ReplaceStep(_) => "replace",
        StatementNode::Set(_) | StatementNode::Setting(_) => "set",
        StatementNode::Drop(_) | StatementNode::DropAlteration(_) | StatementNode::DropOfPiece(_) => "drop",
        StatementNode::ChangeBand(_) | StatementNode::ChangeSeam(_) => "in",
        StatementNode::AddToLayer(_) | StatementNode::AddSteps(_) | StatementNode::AddToPiece(_) => "add",
    }
}
