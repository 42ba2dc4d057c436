//! Seams in the document: both sides, how they fit, which ends meet, and notches.

use super::documents::{
    EndDocument, FitDocument, FitWay, GapDocument, HandDocument, NotchDocument, NotchMarkDocument,
    PlyDocument, RunDocument, SeamDocument, SeamKindWay, SeamNotchDocument, SeamSideDocument,
    SeamTapeDocument, SeamWorkDocument, SideDocument,
};
use super::number::Figure;
use super::outline::point;
use crate::garment::{Garment, LayerId, SeamId, SeamSide};
use crate::resolve::{CornerName, DrawnEdgeId, DrawnNotch, DrawnPiece, SizedGarment, finished};
use crate::sewing::{
    NotchMarks, SeamEnd, SeamMaking, Sewing, SewnPart, SewnPly, SewnSeam, SewnSide, amount_of, seam_making,
};
use crate::syntax::tree::{FitKind, Hand, SeamKind};
use indexmap::IndexMap;

/// The seams of a size whose lengths are known.
pub(super) fn seams(garment: &Garment, sized: &SizedGarment, sewing: &Sewing) -> Vec<SeamDocument> {
    let known = sewing.seams.iter().filter(|seam| seam.known && seam.unpaired.is_none());
    let known = known.map(|sewn| (sewn.seam, seam(garment, sized, sewing, sewn)));
    let across = across_folds(garment, sized, sewing).into_iter().map(|(id, _, seam)| (id, seam));
    let mut all: Vec<(SeamId, SeamDocument)> = known.chain(across).collect();
    all.sort_by_key(|(id, _)| *id);
    let mut ids = Ids::default();
    all.into_iter()
        .map(|(_, seam)| SeamDocument { id: ids.next(&seam.name, &seam.layers, seam.side), ..seam })
        .collect()
}

/// The ids of the seams of a size, each with the stitching that sews it: `stitchings` has one for each sewn seam.
pub(super) fn ids_of_stitchings(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: &Sewing,
    stitchings: &[Option<usize>],
) -> Vec<(usize, String)> {
    let known = sewing.seams.iter().zip(stitchings).filter(|(seam, _)| seam.known && seam.unpaired.is_none());
    let known = known.map(|(sewn, at)| Called {
        seam: sewn.seam,
        stitching: *at,
        layers: layer_names(garment, &sewn.layers),
        side: sewn.reach.hand().map(hand),
    });
    let across = across_folds(garment, sized, sewing).into_iter().map(|(seam, at, document)| Called {
        seam,
        stitching: Some(at),
        layers: document.layers,
        side: document.side,
    });
    let mut all: Vec<Called> = known.chain(across).collect();
    all.sort_by_key(|own| own.seam);
    let mut ids = Ids::default();
    all.into_iter()
        .filter_map(|own| {
            let id = ids.next(&garment.seam(own.seam).name, &own.layers, own.side);
            Some((own.stitching?, id))
        })
        .collect()
}

/// What a seam of a size is called by, and the stitching that sews it.
struct Called {
    seam: SeamId,
    stitching: Option<usize>,
    layers: Vec<String>,
    side: Option<HandDocument>,
}

fn layer_names(garment: &Garment, layers: &[LayerId]) -> Vec<String> {
    layers.iter().map(|&layer| garment.layer(layer).name.to_string()).collect()
}

/// Gives ids: what has the same name, layers and side is counted.
#[derive(Default)]
struct Ids(IndexMap<String, usize>);

impl Ids {
    fn next(&mut self, name: &str, layers: &[String], side: Option<HandDocument>) -> String {
        let mut id = format!("{name}.{}", layers.join("+"));
        if let Some(side) = side {
            id.push_str(match side {
                HandDocument::Left => ".left",
                HandDocument::Right => ".right",
            });
        }
        let count = self.0.entry(id.clone()).or_insert(0);
        *count += 1;
        if *count > 1 { format!("{id}.{count}") } else { id }
    }
}

/// Ends of folded pieces that are sewn to themselves, an edge each.
/// Each with its stitching.
fn across_folds(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: &Sewing,
) -> Vec<(SeamId, usize, SeamDocument)> {
    let finder = sewing.finder(garment, sized);
    let across = sewing.stitchings.iter().enumerate();
    let across = across.filter(|(_, stitching)| garment.seam(stitching.seam).across_fold);
    let mut found = Vec::new();
    for (at, stitching) in across {
        for place in stitching.places() {
            let part = sewing.part(place.part).part;
            let Some(drawn) = sized.paper(part.paper) else { continue };
            let edge = drawn.edge_at(place.edge).zip(finished(garment, drawn, place.edge));
            let Some((edge, length)) = edge else { continue };
            let side = || SideDocument {
                length: Figure(length),
                plies: vec![PlyDocument {
                    length: Figure(length),
                    edges: vec![RunDocument {
                        edge: format!(
                            "{}.{}",
                            garment.part_name(Some(part.layer), part.piece),
                            garment.edge(edge.edge).name
                        ),
                        hand: finder.hand(place.part).map(hand),
                        reversed: false,
                        length: Figure(length),
                    }],
                }],
            };
            let declared = garment.seam(stitching.seam);
            let document = SeamDocument {
                id: String::new(),
                name: declared.name.to_string(),
                label: declared.label.as_deref().map(str::to_owned),
                layers: vec![garment.layer(part.layer).name.to_string()],
                side: None,
                sewings: finder.times(place.part),
                first: side(),
                second: side(),
                difference: Figure(0.0),
                fit: None,
                ends: Vec::new(),
                notches: Vec::new(),
                stitch: declared.stitch.as_ref().map(|stitch| stitch.number),
                tape: None,
                made: None,
                gaps: Vec::new(),
                enclosing: Vec::new(),
                across_fold: true,
                each_to_the_next: false,
            };
            found.push((stitching.seam, at, document));
        }
    }
    found
}

fn seam(garment: &Garment, sized: &SizedGarment, sewing: &Sewing, sewn: &SewnSeam) -> SeamDocument {
    let long = |side: &SewnSide| side.plies.first().map_or(0.0, |ply| ply.length);
    let side = |side: &SewnSide| SideDocument {
        length: Figure(long(side)),
        plies: side.plies.iter().map(|one| ply(garment, sized, sewing, one)).collect(),
    };
    let declared = garment.seam(sewn.seam);
    SeamDocument {
        id: String::new(),
        name: declared.name.to_string(),
        label: declared.label.as_deref().map(str::to_owned),
        layers: layer_names(garment, &sewn.layers),
        side: sewn.reach.hand().map(hand),
        sewings: sewn.sewings,
        first: side(&sewn.first),
        second: side(&sewn.second),
        difference: Figure(long(&sewn.first) - long(&sewn.second)),
        fit: sewn.fit.map(|fit| FitDocument {
            kind: match fit.kind {
                FitKind::Easing => FitWay::Easing,
                FitKind::Gathering => FitWay::Gathering,
                FitKind::Stretching => FitWay::Stretching,
            },
            low: Figure(fit.low),
            high: Figure(fit.high),
        }),
        ends: sewn
            .ends
            .iter()
            .map(|(one, other)| {
                [(one, &sewn.first), (other, &sewn.second)]
                    .map(|(at, side)| end(garment, sized, sewing, at, side))
            })
            .collect(),
        notches: sewn
            .notches
            .iter()
            .map(|notch| SeamNotchDocument {
                on_first: Figure(notch.on_first),
                on_second: Figure(notch.on_second),
                double: notch.double,
                marks: marks(notch.marks),
            })
            .collect(),
        stitch: declared.stitch.as_ref().map(|stitch| stitch.number),
        tape: declared.tape.as_ref().map(|tape| SeamTapeDocument {
            width: tape.width.as_ref().and_then(|width| amount_of(garment, sized, width)).map(Figure),
        }),
        made: seam_making(garment, sized, declared).map(|making| made(&making)),
        gaps: declared
            .gaps
            .iter()
            .enumerate()
            .map(|(at, gap)| {
                let own = sewn.gaps.iter().find(|own| own.gap == at).and_then(|own| own.at.ok());
                let ends = |(from, to): (f64, f64)| [Figure(from), Figure(to)];
                (gap, own.map(|own| ends(own.first)), own.map(|own| ends(own.second)))
            })
            .map(|(gap, on_first, on_second)| GapDocument {
                length: amount_of(garment, sized, &gap.length).map(Figure),
                on_first,
                on_second,
                layer: gap.layer.map(|layer| garment.layer(layer).name.to_string()),
                hand: gap.hand.map(hand),
            })
            .collect(),
        across_fold: false,
        each_to_the_next: sewn.each_to_the_next,
        enclosing: declared.enclosing.iter().map(|&(id, _)| garment.closure(id).name.to_string()).collect(),
    }
}

/// What a notch marks.
fn marks(marks: NotchMarks) -> Vec<NotchMarkDocument> {
    let NotchMarks { given, joint, middle, share, gap_end, fit_end } = marks;
    let all = [
        (given, NotchMarkDocument::Given),
        (joint, NotchMarkDocument::Joint),
        (middle, NotchMarkDocument::Middle),
        (share, NotchMarkDocument::Share),
        (gap_end, NotchMarkDocument::GapEnd),
        (fit_end, NotchMarkDocument::FitEnd),
    ];
    all.into_iter().filter(|(is, _)| *is).map(|(_, mark)| mark).collect()
}

/// How a seam is made.
fn made(making: &SeamMaking) -> SeamWorkDocument {
    SeamWorkDocument {
        kind: match making.kind {
            SeamKind::Felled => SeamKindWay::Felled,
            SeamKind::French => SeamKindWay::French,
            SeamKind::Lapped => SeamKindWay::Lapped,
            SeamKind::Topstitched => SeamKindWay::Topstitched,
            SeamKind::EdgesBound => SeamKindWay::EdgesBound,
        },
        width: Figure(making.width),
        over: making.over.map(|side| match side {
            SeamSide::First => SeamSideDocument::First,
            SeamSide::Second => SeamSideDocument::Second,
        }),
        trimmed: making.trimmed().map(Figure),
        rows: making.rows(),
        iso_4916_class: making.iso_4916_class(),
    }
}

/// A side of the body.
pub(super) fn hand(hand: Hand) -> HandDocument {
    match hand {
        Hand::Left => HandDocument::Left,
        Hand::Right => HandDocument::Right,
    }
}

/// An end or joint of a side, and on which copy it is.
fn end(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: &Sewing,
    end: &SeamEnd,
    side: &SewnSide,
) -> EndDocument {
    let drawn = sized.paper(sewing.part(end.part).part.paper);
    let is_there = |edge: DrawnEdgeId| {
        let corner = |edge| drawn.and_then(|drawn| drawn.edge_at(edge)).map(|edge| edge.corner);
        drawn.is_some_and(|drawn| {
            [edge, drawn.after(edge)].into_iter().any(|edge| corner(edge) == Some(end.corner))
        })
    };
    let runs = side.plies.iter().flat_map(|ply| &ply.runs);
    let mut hands = runs.filter(|run| run.part == end.part && is_there(run.edge)).map(|run| run.hand);
    let first = hands.next().flatten();
    let is_one = hands.all(|other| other == first);
    EndDocument { corner: corner(garment, sewing, end), hand: first.filter(|_| is_one).map(hand) }
}

fn ply(garment: &Garment, sized: &SizedGarment, sewing: &Sewing, ply: &SewnPly) -> PlyDocument {
    let own = ply.runs.iter().filter(|run| !run.elsewhere);
    let length = own.clone().map(|run| run.length).sum();
    let runs = own.filter_map(|run| {
        let part = sewing.part(run.part).part;
        let drawn = sized.paper(part.paper)?;
        let edge = &garment.edge(drawn.edge_at(run.edge)?.edge).name;
        Some(RunDocument {
            edge: format!("{}.{edge}", garment.part_name(Some(part.layer), part.piece)),
            hand: run.hand.map(hand),
            reversed: run.reversed,
            length: Figure(run.length),
        })
    });
    PlyDocument { length: Figure(length), edges: runs.collect() }
}

/// "outer.front.tip"; of a corner without a name its two edges: "outer.front.side/hem".
fn corner(garment: &Garment, sewing: &Sewing, end: &SeamEnd) -> String {
    let part = sewing.part(end.part).part;
    let part = garment.part_name(Some(part.layer), part.piece);
    match end.corner {
        CornerName::Named(point) => format!("{part}.{}", garment.point(point).name),
        CornerName::Between(one, other) => {
            format!("{part}.{}/{}", garment.edge(one).name, garment.edge(other).name)
        }
    }
}

/// A notch that only its piece is known of.
pub(super) fn notch(garment: &Garment, notch: &DrawnNotch) -> NotchDocument {
    NotchDocument {
        edge: garment.edge(notch.edge).name.to_string(),
        along: Figure(notch.along),
        at: point(notch.at),
        double: notch.double,
        seam: None,
    }
}

/// All notches of a part: its own, those of its seams, and one for each joint.
pub(super) fn notches(garment: &Garment, drawn: &DrawnPiece, sewn: &SewnPart) -> Vec<NotchDocument> {
    let known = sewn.notches.iter().filter_map(|notch| {
        let edge = drawn.edge_at(notch.edge)?.edge;
        Some(NotchDocument {
            edge: garment.edge(edge).name.to_string(),
            along: Figure(notch.along),
            at: point(notch.at),
            double: notch.double,
            seam: notch.seam.map(|id| garment.seam(id).name.to_string()),
        })
    });
    known.collect()
}
