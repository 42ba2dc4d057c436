//! The resolved garment as one JSON document.

use super::closures;
use super::cloths;
use super::cut_size::{cut_parts, extent};
use super::documents::{
    AlterationDocument, CutDocument, CutWay, Document, EdgeDocument, ExtentDocument, FileDocument,
    FittingDocument, FoldedDocument, FusedDocument, GrainDocument, LengthUnit, MadeOfDocument, MadeWay,
    MeasureDocument, MeasureKind, PieceDocument, SizeDocument, StepDocument, Version,
};
use super::indented;
use super::number::Figure;
use super::openings;
use super::outline::{crosses_fold, finished_extent, fold_of, path_data, point, share_after_folds};
use super::placements;
use super::seams;
use super::sewn;
use super::steps;
use super::stitched;
use super::straps;
use super::take_ups;
use super::threaded;
use crate::cutting::{CutPart, GuideKind, WorkedSize};
use crate::garment::{
    CutHow, Dimension, FileKind, Fitting, Garment, GarmentFile, Outline, PaperUse, Part, PieceId,
    PieceOrigin, ValueKind,
};
use crate::report::{Diagnostic, reported};
use crate::resolve::{CornerName, CutRow, DrawnEdgeId, DrawnPiece, DrawnSpot, SizedGarment};
use crate::sewing::{SewnPart, bears_mark};
use crate::source::SourceMap;
use crate::syntax::tree::{Level, TargetForm};
use indexmap::IndexMap;
use rayon::prelude::*;

/// The document of a garment in these sizes.
pub fn document<'a>(
    garment: &Garment,
    sizes: impl IntoIterator<Item = &'a WorkedSize>,
    map: &SourceMap,
    diagnostics: &[Diagnostic],
) -> Document {
    let sizes: Vec<&WorkedSize> = sizes.into_iter().collect();
    // The order of work is the same in every size.
    let steps = sizes.first().map_or_else(Vec::new, |first| steps::steps(garment, first));
    Document {
        fustian: Version::One,
        garment: garment.title.to_string(),
        about: garment.about.as_deref().map(str::to_owned),
        maker: garment.credits.maker.as_deref().map(str::to_owned),
        edition: garment.credits.edition,
        licence: garment.credits.licence.as_deref().map(str::to_owned),
        level: garment.credits.level.map(Level::word),
        unit: LengthUnit::Millimetre,
        files: Vec::new(),
        fitting: garment.fitting.as_ref().map(|one| fitting(garment, one)),
        body_notes: body_notes(garment),
        pick: garment.pick.iter().map(|&row| garment.value(row).name.to_string()).collect(),
        fabrics: fabrics(garment),
        sizes: sizes.into_par_iter().map(|one| size(garment, one, steps.clone())).collect(),
        diagnostics: reported(map, diagnostics),
    }
}

fn fitting(garment: &Garment, fitting: &Fitting) -> FittingDocument {
    let name = |at: usize| fitting.sizes.get(at).map_or(String::new(), |size| size.name.to_string());
    FittingDocument {
        wearer: fitting.wearer.to_string(),
        by: fitting.by.map(|by| garment.value(by).name.to_string()),
        below: name(fitting.place.below),
        above: fitting.place.above().map(name),
        share: Figure(fitting.place.share),
        nearest: name(fitting.place.nearest()),
    }
}

/// What is noted of the rows of the body table.
fn body_notes(garment: &Garment) -> IndexMap<String, String> {
    let rows = garment.values.iter().filter(|value| matches!(value.kind, ValueKind::Body(_)));
    rows.filter_map(|row| Some((row.name.to_string(), row.label.as_ref()?.to_string()))).collect()
}

/// What people read of the fabrics that parts are cut from.
fn fabrics(garment: &Garment) -> IndexMap<String, String> {
    let used = garment.layers.iter().filter_map(|layer| layer.fabric).map(|id| garment.fabric(id));
    let titled = used.filter(|fabric| fabric.title != fabric.name);
    titled.map(|fabric| (fabric.name.to_string(), fabric.title.to_string())).collect()
}

/// The files that a garment is made of; none where it is one.
pub fn files(garment: &Garment, map: &SourceMap) -> Vec<FileDocument> {
    if garment.files.len() < 2 {
        return Vec::new();
    }
    let name = |id| map.file(id).name.to_string();
    let file = |file: &GarmentFile| FileDocument {
        file: name(file.id),
        is: match file.kind {
            FileKind::Garment => "garment",
            FileKind::Variation => "variation",
            FileKind::Fitting => "fitting",
            FileKind::Library => "library",
        },
        title: file.title.to_string(),
        is_base: file.is_base,
        units: file.unit.word(),
        units_from: file.unit_from.map(name),
    };
    garment.files.iter().map(file).collect()
}

/// The document as text, with a line's end at its end. Fails where a figure is not finite.
pub fn to_text(document: &Document) -> Result<String, serde_json::Error> {
    let text = serde_json::to_string_pretty(&document.without_sizes())?;
    // Nearly all of it are its sizes, which are written side by side. Within text a line's end is written `\n`, so that this
    // stands nowhere else.
    const NONE: &str = "\n  \"sizes\": []";
    let Some((before, after)) = text.split_once(NONE).filter(|_| !document.sizes.is_empty()) else {
        return Ok(text + "\n");
    };
    let sizes = document.sizes.par_iter().map(as_it_stands_in_the_list).collect::<Result<Vec<_>, _>>()?;
    // All of it at once: hundreds of kilobytes that grow bit by bit are copied several times.
    const BETWEEN: &str = ",\n    ";
    let of_sizes: usize = sizes.iter().map(|size| size.len() + BETWEEN.len()).sum();
    let mut whole = String::with_capacity(text.len() + of_sizes + 32);
    whole.push_str(before);
    whole.push_str("\n  \"sizes\": [\n    ");
    for (at, size) in sizes.iter().enumerate() {
        if at > 0 {
            whole.push_str(BETWEEN);
        }
        whole.push_str(size);
    }
    whole.push_str("\n  ]");
    whole.push_str(after);
    whole.push('\n');
    Ok(whole)
}

/// As many bytes as a size of a jacket takes, and some: less often has to be moved than if it grew from nothing.
const OF_A_SIZE: usize = 128 * 1024;

/// How deep a size stands in the document: in a list that is a value of the whole.
const DEPTH_OF_A_SIZE: usize = 2;

fn as_it_stands_in_the_list(size: &SizeDocument) -> Result<String, serde_json::Error> {
    let mut text = Vec::with_capacity(OF_A_SIZE);
    indented::write(&mut text, size, DEPTH_OF_A_SIZE)?;
    String::from_utf8(text).map_err(serde::ser::Error::custom)
}

fn size(garment: &Garment, size: &WorkedSize, steps: Vec<StepDocument>) -> SizeDocument {
    let (sized, sewing) = (&size.drawn, &size.sewn);
    let mut body = IndexMap::new();
    let mut measures = IndexMap::new();
    for (value, quantity) in garment.values.iter().zip(&sized.values) {
        let Some(number) = quantity.and_then(|quantity| quantity.scalar()) else { continue };
        let figure = Figure(shown(number, value.dimension));
        match &value.kind {
            ValueKind::Body(_) => {
                body.insert(value.name.to_string(), figure);
            }
            ValueKind::Measure { against, .. } => {
                let of_body = against.and_then(|id| sized.scalar(id));
                let measure = MeasureDocument {
                    title: value.label.as_deref().map(str::to_owned),
                    value: figure,
                    kind: kind(value.dimension),
                    against: against.map(|id| garment.value(id).name.to_string()),
                    ease: of_body.map(|of_body| Figure(shown(number - of_body, value.dimension))),
                };
                measures.insert(value.name.to_string(), measure);
            }
            ValueKind::Let(_) | ValueKind::Solved { .. } => {}
        }
    }
    let cuts = cut_parts(garment, size);
    SizeDocument {
        size: garment.size(sized.size).name.to_string(),
        body,
        measures,
        cloths: cloths::cloths(garment, sized),
        pieces: parts(garment, sized)
            .flat_map(|(part, drawn)| {
                // Of a part whose left and right are told apart both.
                let left = sewing.index.of(part);
                let right = left.and_then(|left| sewing.index.twin(left));
                let sides = std::iter::once(left).chain(right.map(Some));
                let sewn = sides.map(|id| id.and_then(|id| sewing.parts.get(id.index())));
                sewn.filter_map(|sewn| {
                    let hand = sewn.and_then(|sewn| sewn.hand);
                    let cut = cuts.get(&(part, hand)).or_else(|| cuts.get(&(part, None)));
                    piece(garment, sized, part, drawn, sewn, cut.copied())
                })
                .collect::<Vec<PieceDocument>>()
            })
            .collect(),
        cut_list: sized
            .cut_list
            .iter()
            .map(|row| cut(garment, row, cuts.get(&(row.part, row.hand)).and_then(|part| extent(part))))
            .collect(),
        alterations: alterations(garment, sized),
        seams: seams::seams(garment, sized, sewing),
        closures: closures::closures(garment, sized, sewing),
        placements: placements::placements(garment, sized, sewing),
        openings: openings::openings(garment, sized, sewing),
        rims: openings::rims(garment, size),
        cords: threaded::cords(garment, sized, sewing),
        rows: stitched::rows(garment, sized, sewing),
        tacks: stitched::tacks(garment, sized, sewing),
        sets: stitched::sets(garment, sized, sewing),
        straps: straps::straps(garment, sized),
        elastic: threaded::elastic(garment, sized, sewing),
        notions: sewn::notions(garment, sewing),
        steps,
        lays: None,
        materials: None,
    }
}

/// Parts in the order of the layers, with what they are cut from.
pub(super) fn parts<'a>(
    garment: &Garment,
    sized: &'a SizedGarment,
) -> impl Iterator<Item = (Part, &'a DrawnPiece)> {
    garment.parts().into_iter().filter_map(|part| {
        let drawn = sized.paper(part.paper)?;
        Some((part, drawn))
    })
}

fn shown(number: f64, dimension: Dimension) -> f64 {
    match dimension {
        Dimension::Angle => number.to_degrees(),
        Dimension::Number | Dimension::Length | Dimension::Area | Dimension::Point => number,
    }
}

fn kind(dimension: Dimension) -> MeasureKind {
    match dimension {
        Dimension::Length | Dimension::Point => MeasureKind::Length,
        Dimension::Area => MeasureKind::Area,
        Dimension::Angle => MeasureKind::Angle,
        Dimension::Number => MeasureKind::Number,
    }
}

fn piece(
    garment: &Garment,
    sized: &SizedGarment,
    part: Part,
    drawn: &DrawnPiece,
    sewn: Option<&SewnPart>,
    cut: Option<&CutPart>,
) -> Option<PieceDocument> {
    let (width, height) = finished_extent(garment, drawn)?;
    let corner = |at: DrawnEdgeId| match drawn.edge_at(at)?.corner {
        CornerName::Named(point) => Some(garment.point(point).name.to_string()),
        CornerName::Between(..) => None,
    };
    let edges = DrawnEdgeId::enumerate(&drawn.edges).map(|(id, edge)| {
        let at = id.index();
        let length = edge.path.length();
        let share = share_after_folds(garment, drawn.piece, edge.edge);
        let out: f64 = drawn.take_ups_on(id).iter().map(|(_, mouth)| mouth.to - mouth.from).sum();
        let eased = drawn.share_eased(garment, edge.edge);
        let sewn_length = (length - out) * share * eased;
        let fate = sewn.and_then(|sewn| sewn.edges.get(at));
        EdgeDocument {
            name: garment.edge(edge.edge).name.to_string(),
            label: garment.edge_label(edge.edge).map(str::to_owned),
            from: corner(id),
            to: corner(drawn.after(id)),
            path: path_data([&edge.path], false),
            length: Figure(length),
            finished: (share < 1.0 || eased > 1.0 || sewn_length < length).then_some(Figure(sewn_length)),
            on_garment: crosses_fold(garment, drawn, at).then_some(Figure(2.0 * sewn_length)),
            fates: fate.map_or_else(Vec::new, |fate| sewn::fates(garment, sized, fate)),
            allowance: fate.and_then(|fate| fate.allowance).map(Figure),
        }
    });
    let is_shown = |point| garment.point(point).mark && bears_mark(garment, part.layer, point);
    let marks: Vec<&DrawnSpot> = drawn.spots.iter().filter(|spot| is_shown(spot.point)).collect();
    let label = |name: &str, label: Option<&str>| Some((name.to_owned(), label?.to_owned()));
    let of_marks = marks
        .iter()
        .filter_map(|spot| label(&garment.point(spot.point).name, garment.point_label(spot.point)));
    let of_lines = drawn
        .lines
        .iter()
        .filter_map(|line| label(&garment.edge(line.edge).name, garment.edge_label(line.edge)));
    let labels = of_marks.chain(of_lines).collect();
    let adjust = drawn.lines.iter().filter(|line| garment.is_to_adjust(line.edge));
    let notches = match sewn {
        Some(sewn) => seams::notches(garment, drawn, sewn),
        None => drawn.notches.iter().map(|notch| seams::notch(garment, notch)).collect(),
    };
    let whole = cut.filter(|cut| cut.middle.is_some());
    let turn = libm::atan2(drawn.grain.y, drawn.grain.x).to_degrees();
    Some(PieceDocument {
        part: garment.part_name(Some(part.layer), part.piece),
        label: garment.piece(part.piece).title.to_string(),
        side: sewn.and_then(|sewn| sewn.hand).map(seams::hand),
        fold: fold_of(drawn).filter(|_| whole.is_none()).map(|edge| garment.edge(edge).name.to_string()),
        drawn: garment.piece(part.piece).drawn.map(|(hand, _)| seams::hand(hand)),
        loose: garment.piece(part.piece).cut.loose,
        made_of: made_of(garment, part.piece),
        folded: folded(garment, part.piece),
        edges: edges.collect(),
        stitching_line: match whole {
            Some(whole) => path_data(&whole.stitching, true),
            None => path_data(drawn.edges.iter().map(|edge| &edge.path), true),
        },
        cutting_line: cut.map(|cut| path_data(cut.cutting.iter().map(|run| &run.path), true)),
        fold_lines: cut.map_or_else(Vec::new, |cut| {
            let folds = cut.guides.iter().filter(|guide| guide.kind == GuideKind::Fold);
            folds.map(|guide| path_data([&guide.path], false)).collect()
        }),
        marks: marks
            .iter()
            .map(|spot| (garment.point(spot.point).name.to_string(), point(spot.at)))
            .collect(),
        lines: drawn
            .lines
            .iter()
            .map(|line| (garment.edge(line.edge).name.to_string(), path_data([&line.path], false)))
            .collect(),
        labels,
        adjust: adjust.map(|line| garment.edge(line.edge).name.to_string()).collect(),
        notches,
        take_ups: take_ups::take_ups(garment, sized, drawn),
        slits: take_ups::slits(garment, drawn),
        fasteners: sewn.map_or_else(Vec::new, |sewn| sewn::fasteners(garment, sewn)),
        grain: GrainDocument { angle: Figure(if turn < 0.0 { turn + 360.0 } else { turn }) },
        finished: ExtentDocument { width: Figure(width), height: Figure(height) },
        cut: cut.and_then(extent),
    })
}

fn made_of(garment: &Garment, piece: PieceId) -> Option<MadeOfDocument> {
    let name = |piece: PieceId| garment.piece(piece).name.to_string();
    let declared = garment.piece(piece);
    let made = |way, pieces: Vec<PieceId>| MadeOfDocument {
        way,
        pieces: pieces.into_iter().map(name).collect(),
        without: None,
        mirrored: declared.drawing.outline.is_mirrored(),
    };
    let of = |used: &PaperUse| vec![garment.paper(used.paper).piece];
    Some(match (declared.origin, &declared.drawing.outline) {
        (PieceOrigin::Split { of, .. }, _) if garment.side_of(piece) != garment.side_of(of) => {
            made(MadeWay::Unpair, vec![of])
        }
        (PieceOrigin::Split { of, .. }, _) => made(MadeWay::Split, vec![of]),
        (PieceOrigin::Join { by }, _) => made(MadeWay::Join, garment.pieces_joined(by)),
        (PieceOrigin::Drawn, Outline::Copy { of: used, .. }) => made(MadeWay::Copy, of(used)),
        (PieceOrigin::Drawn, Outline::Strip { of: used, .. }) => made(MadeWay::Strip, of(used)),
        (PieceOrigin::Drawn, Outline::Rest { of: used, without, .. }) => {
            MadeOfDocument { without: Some(name(*without)), ..made(MadeWay::Rest, of(used)) }
        }
        (PieceOrigin::Drawn, Outline::None | Outline::Walk { .. } | Outline::Rectangle { .. }) => {
            return None;
        }
    })
}

fn folded(garment: &Garment, piece: PieceId) -> Vec<FoldedDocument> {
    let name = |edge| garment.edge(edge).name.to_string();
    let folds = garment.piece(piece).folds.iter();
    folds
        .map(|over| FoldedDocument { edge: name(over.edge), onto: name(over.onto), in_four: over.in_four })
        .collect()
}

/// A line of the cut list, in words.
pub(super) fn cut(garment: &Garment, row: &CutRow, size: Option<ExtentDocument>) -> CutDocument {
    let piece = garment.piece(row.part.piece);
    let (how, fold) = match row.how {
        CutHow::Alike => (CutWay::Alike, None),
        CutHow::Mirrored => (CutWay::Mirrored, None),
        CutHow::OnFold(edge) => (CutWay::OnFold, Some(garment.edge(edge).name.to_string())),
    };
    let layer = garment.layer(row.part.layer);
    let fused = layer.fused.then(|| FusedDocument {
        to: layer.onto.map(|onto| garment.layer(onto).name.to_string()),
        of: layer.share.map(|share| share.of),
    });
    CutDocument {
        fabric: row.fabric.map_or_else(String::new, |fabric| garment.fabric(fabric).name.to_string()),
        layer: layer.name.to_string(),
        piece: piece.name.to_string(),
        label: piece.title.to_string(),
        copies: row.copies,
        how,
        fold,
        turned_over: row.flipped,
        side: row.hand.map(seams::hand),
        whole: row.whole,
        fused,
        cut: size,
    }
}

fn alterations(garment: &Garment, sized: &SizedGarment) -> Vec<AlterationDocument> {
    let mut done = Vec::new();
    for (at, alteration) in garment.alterations.iter().enumerate() {
        let Some(form) = alteration.form() else { continue };
        let targets = &alteration.targets;
        let mut names: Vec<String> =
            targets.iter().map(|target| garment.edge(target.edge).name.to_string()).collect();
        let mut kept = std::collections::HashSet::new();
        names.retain(|name| kept.insert(name.clone()));
        if matches!(form.targets, TargetForm::Whole | TargetForm::Wholes) {
            names.clear();
        }
        done.push(AlterationDocument {
            what: form.verb.to_owned(),
            to: targets.iter().map(|target| garment.part_name(target.layer, target.piece)).collect(),
            at: names.join(", "),
            amount: sized.amounts.get(at).copied().flatten().map(Figure),
            solved_for: alteration.until().map(|until| garment.closure(until.closure).name.to_string()),
        });
    }
    done
}
