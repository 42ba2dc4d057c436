//! What the names in each form mean, for completion.

use super::build::Context;

/// What the names in a statement mean.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum NameKind {
    /// A name that is only now given: nothing that is known.
    New,
    /// Pieces, and layers for one layer's part.
    Parts,
    /// Points and marks of pieces, after a dot.
    PointsOfParts,
    /// Points, marks and edges of pieces, after a dot.
    PlacesOfParts,
    /// Pieces.
    Pieces,
    /// Layers.
    Layers,
    /// Fabrics.
    Fabrics,
    /// Seams.
    Seams,
    /// Closures.
    Closures,
    /// Seams and closures.
    SeamsAndClosures,
    /// Measures of the body.
    BodyMeasures,
    /// Values that are let, not measured.
    Lets,
    /// What the word before it says: `drop seam`.
    OfKindNamed,
    /// Edges and lines of the piece around it.
    OwnEdges,
    /// Points and marks of the piece around it.
    OwnPoints,
    /// Edges, lines, darts, points and marks of the piece around it.
    OwnPlaces,
    /// Edges, darts, points and marks of the pieces that are named before.
    PlacesOfNamed,
    /// Seams, closures and, after a piece's dot, its darts.
    Sewable,
    /// Slits, after a piece's dot.
    Slits,
    /// Rows of topstitching and understitching, and tacks.
    Stitched,
    /// Edges of the piece that an outline is made of.
    EdgesOfBase,
    /// What a run of an edge of the piece that this one is made of is counted from; a corner of this one in a walk.
    PlacesOfBase,
    /// Points and marks of what is placed.
    PointsOfPlaced,
    /// Points and marks of what it is placed on.
    PointsOfHost,
    /// Edges of what it is placed on.
    EdgesOfHost,
    /// Edges, darts, points and marks of what it is placed on.
    PlacesOfHost,
    /// Edges, darts, points and marks of the pieces that a seam or a closure names before its braces.
    PlacesOfHead,
    /// Edges of what is placed.
    EdgesOfPlaced,
}

/// The word that leads on to a name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum After {
    /// Whatever it is.
    Any,
    /// None yet but the statement's first.
    First,
    /// That one.
    Word(&'static str),
}

/// What names mean, by the statement's first word (none: of any statement there) and the word that
/// leads on to them; the first that fits counts. Those of alterations stand in their own
/// [form](super::tree::AlterationForm).
const NAMES: &[(Context, &[&str], After, NameKind)] = &[
    (Context::File, &["layer"], After::Word("in"), NameKind::Fabrics),
    (Context::File, &["layer"], After::Word("to"), NameKind::Layers),
    (Context::File, &["strap", "band", "facing"], After::Word("in"), NameKind::Layers),
    (Context::File, &["band", "facing"], After::Word("stiffened"), NameKind::Layers),
    (Context::File, &["band"], After::Word("at"), NameKind::PointsOfParts),
    (Context::File, &["pick"], After::Any, NameKind::BodyMeasures),
    (Context::File, &[], After::Word("against"), NameKind::BodyMeasures),
    (Context::File, &[], After::Word("passes"), NameKind::BodyMeasures),
    (
        Context::File,
        &["seam", "closure", "finish", "cord", "topstitch", "understitch", "tack"],
        After::Word("on"),
        NameKind::New,
    ),
    (Context::File, &["placket"], After::Word("on"), NameKind::Slits),
    (Context::File, &[], After::Word("enclosing"), NameKind::Closures),
    (Context::File, &[], After::Word("until"), NameKind::Closures),
    (Context::File, &[], After::Word("keeping"), NameKind::PointsOfParts),
    (Context::File, &["seam"], After::Word("between"), NameKind::PlacesOfParts),
    (Context::File, &["finish"], After::Word("at"), NameKind::PlacesOfParts),
    (Context::File, &["finish"], After::Word("onto"), NameKind::SeamsAndClosures),
    (
        Context::File,
        &["seam", "closure", "finish", "facing", "drop"],
        After::Word("from"),
        NameKind::PlacesOfNamed,
    ),
    (Context::File, &["tack"], After::Word("from"), NameKind::PlacesOfNamed),
    (Context::File, &["tack"], After::Word("at"), NameKind::PlacesOfNamed),
    (Context::File, &["tack"], After::Word("to"), NameKind::PlacesOfParts),
    (Context::File, &[], After::Word("into"), NameKind::New),
    (Context::File, &["set"], After::Word("at"), NameKind::PlacesOfParts),
    (Context::File, &["set"], After::Word("from"), NameKind::PlacesOfNamed),
    (Context::File, &["set"], After::Word("on"), NameKind::New),
    (Context::File, &["set"], After::Any, NameKind::Lets),
    (Context::File, &["add"], After::Word("layer"), NameKind::Layers),
    (Context::File, &["add", "in"], After::Any, NameKind::Pieces),
    (Context::File, &["drop"], After::Any, NameKind::OfKindNamed),
    (
        Context::File,
        &[
            "seam",
            "closure",
            "cord",
            "placket",
            "band",
            "facing",
            "strap",
            "let",
            "measure",
            "layer",
            "fabric",
            "piece",
            "block",
            "topstitch",
            "understitch",
            "tack",
        ],
        After::First,
        NameKind::New,
    ),
    (Context::File, &[], After::Any, NameKind::Parts),
    (Context::FittedBody, &[], After::Any, NameKind::BodyMeasures),
    (Context::Walk, &[], After::Word("along"), NameKind::OwnEdges),
    (Context::Walk, &[], After::Any, NameKind::OwnPoints),
    (Context::Piece, &["outline"], After::Word("along"), NameKind::EdgesOfBase),
    (Context::Piece, &["outline"], After::Word("from"), NameKind::PlacesOfBase),
    (Context::Piece, &["outline"], After::Word("of"), NameKind::Parts),
    (Context::Piece, &["outline"], After::Word("without"), NameKind::Parts),
    (Context::Piece, &["outline"], After::Any, NameKind::OwnPoints),
    (
        Context::Piece,
        &["point", "mark", "line", "dart", "pleat", "tuck", "slit"],
        After::First,
        NameKind::New,
    ),
    (Context::Piece, &["notch", "divide"], After::Word("at"), NameKind::OwnPoints),
    (Context::Piece, &["dart", "pleat", "tuck", "slit"], After::Word("on"), NameKind::OwnEdges),
    (Context::Piece, &["pleat", "tuck"], After::Word("along"), NameKind::OwnEdges),
    (Context::Piece, &["pleat", "tuck"], After::Word("to"), NameKind::OwnEdges),
    (Context::Piece, &["dart", "pleat", "tuck", "slit"], After::Word("from"), NameKind::OwnPlaces),
    (Context::Piece, &["dart", "pleat", "tuck"], After::Word("toward"), NameKind::OwnPlaces),
    (Context::Piece, &[], After::Word("into"), NameKind::New),
    (Context::Piece, &["notch", "divide"], After::Word("from"), NameKind::OwnPlaces),
    (Context::Piece, &["move"], After::Any, NameKind::OwnPoints),
    (Context::Piece, &["without"], After::Any, NameKind::OwnPlaces),
    (Context::Piece, &["drawn"], After::Any, NameKind::New),
    (
        Context::Piece,
        &["cut", "notch", "divide", "folded", "grain", "corner"],
        After::Any,
        NameKind::OwnEdges,
    ),
    (Context::Piece, &[], After::Any, NameKind::OwnPoints),
    (Context::Seam, &["leaving"], After::Any, NameKind::Layers),
    (Context::Seam, &["caught"], After::Word("at"), NameKind::PlacesOfHead),
    (Context::Seam, &["caught"], After::Word("from"), NameKind::PlacesOfHead),
    (Context::Seam, &["caught"], After::Any, NameKind::Parts),
    (Context::Seam, &["matching"], After::Any, NameKind::PointsOfParts),
    (Context::Seam, &["felled", "lapped", "topstitched"], After::Word("over"), NameKind::Parts),
    (Context::Seam, &["notch"], After::Word("from"), NameKind::PlacesOfHead),
    (Context::Seam, &["notch"], After::Word("at"), NameKind::PlacesOfHead),
    (Context::Place, &["corner"], After::Word("at"), NameKind::PointsOfHost),
    (Context::Place, &["corner"], After::Word("on"), NameKind::EdgesOfHost),
    (Context::Place, &["corner"], After::Word("from"), NameKind::PlacesOfHost),
    (Context::Place, &["corner"], After::Any, NameKind::PointsOfPlaced),
    (Context::Place, &["caught"], After::Word("in"), NameKind::SeamsAndClosures),
    (Context::Place, &[], After::Any, NameKind::EdgesOfPlaced),
    (Context::Strap, &["from"], After::Word("in"), NameKind::SeamsAndClosures),
    (Context::Strap, &["from"], After::Word("at"), NameKind::PlacesOfNamed),
    (Context::Strap, &["from"], After::Word("from"), NameKind::PlacesOfNamed),
    (Context::Strap, &["from"], After::Any, NameKind::PlacesOfParts),
    (Context::Group, &["sew", "baste", "press"], After::Any, NameKind::Sewable),
    (Context::Group, &["topstitch", "understitch", "tack", "set"], After::Any, NameKind::Stitched),
    (Context::Group, &["turn", "slipstitch"], After::Word("in"), NameKind::Seams),
    (Context::Group, &["turn", "slipstitch"], After::Any, NameKind::New),
    (Context::Group, &[], After::Any, NameKind::Parts),
];

/// What a name means in a statement that begins with `first`, after the word `leading`.
pub(crate) fn names_after(context: Context, first: &str, leading: Option<&str>) -> NameKind {
    let fits = |firsts: &[&str], after: After| {
        let begins = firsts.is_empty() || firsts.contains(&first);
        begins
            && match after {
                After::Any => true,
                After::First => leading.is_none(),
                After::Word(word) => leading == Some(word),
            }
    };
    let mut rows = NAMES.iter().filter(|row| row.0 == context);
    rows.find(|row| fits(row.1, row.2)).map_or(NameKind::New, |row| row.3)
}

#[cfg(test)]
mod tests {
    use super::super::forms::starters;
    use super::super::words::KEYWORDS;
    use super::*;

    #[test]
    fn names_stand_in_statements_and_after_words_of_the_language() {
        for (context, firsts, after, _) in NAMES {
            for first in *firsts {
                assert!(starters(*context).any(|word| word == *first), "{first} {context:?}");
            }
            if let After::Word(word) = after {
                assert!(KEYWORDS.contains(word), "{word}");
            }
        }
    }
}
