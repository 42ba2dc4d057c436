//! `cloth/narrow`: a piece that is cut wider than the cloth it is cut from.

use super::{Check, Run, words};
use crate::cutting::{Cloth, Spread, WorkedSize, widest_allowance};
use crate::garment::{CutHow, FabricId, Garment};
use crate::report::{Diagnostic, Finding, Title, amount, at_least, catalogue};
use crate::resolve::{CutRow, DrawnPiece};
use crate::shape::path::Path;
use crate::shape::{Point, Vec2, fold};

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::CLOTH_NARROW], run: Run::PerSize(run) };

/// Less than this, in millimetres, the edge of the cloth gives.
const GIVES: f64 = 0.5;
/// What rounding may leave, in millimetres.
const HAIR: f64 = 1e-6;
/// How close the straight lines lie to a curve whose width is taken, in millimetres.
const CLOSE: f64 = 0.1;
/// No corner of a cutting line lies farther out than this many widest allowances.
const REACH: f64 = 4.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let sized = &size.drawn;
    let fabrics = (0..garment.fabrics.len()).map(FabricId::from_index);
    let cloths: Vec<Option<Cloth>> = fabrics.map(|fabric| Cloth::of(garment, sized, fabric)).collect();
    for row in &sized.cut_list {
        if let Some(Some(cloth)) = row.fabric.and_then(|fabric| cloths.get(fabric.index())) {
            findings.extend(narrow(garment, size, cloth, row));
        }
    }
}

/// How far a part reaches across the cloth and along it.
struct Reach {
    across: f64,
    along: f64,
}

impl Reach {
    fn of(ring: &[Path], grain: Vec2) -> Option<Reach> {
        let points = ring.iter().flat_map(|path| path.flatten(CLOSE));
        let (mut across, mut along) = (Extent::NONE, Extent::NONE);
        for point in points.map(Point::to_vec2) {
            across.add(point.dot(grain.turn_90()));
            along.add(point.dot(grain));
        }
        Some(Reach { across: across.width()?, along: along.width()? })
    }
}

/// From where to where something reaches in one direction.
#[derive(Clone, Copy)]
struct Extent {
    least: f64,
    most: f64,
}

impl Extent {
    const NONE: Extent = Extent { least: f64::INFINITY, most: f64::NEG_INFINITY };

    fn add(&mut self, place: f64) {
        (self.least, self.most) = (self.least.min(place), self.most.max(place));
    }

    /// None where there is nothing.
    fn width(self) -> Option<f64> {
        (self.least <= self.most).then_some(self.most - self.least)
    }
}

/// No less than the stitching line of the whole piece reaches across its grain: a curve lies within the
/// hull of its handles.
fn at_most_across(garment: &Garment, row: &CutRow, drawn: &DrawnPiece) -> Option<f64> {
    let across = drawn.grain.turn_90();
    let mirror = match fold_of(garment, row, drawn).and_then(|at| drawn.edges.get(at)) {
        Some(fold) => Some(fold::mirror_across(&fold.path).ok()?),
        None => None,
    };
    let mut extent = Extent::NONE;
    for segment in drawn.edges.iter().flat_map(|edge| edge.path.segments()) {
        let cubic = segment.to_cubic();
        for point in [cubic.p0, cubic.p1, cubic.p2, cubic.p3] {
            extent.add(point.to_vec2().dot(across));
            mirror.iter().for_each(|mirror| extent.add((*mirror * point).to_vec2().dot(across)));
        }
    }
    extent.width()
}

/// A piece on the fold is judged opened out: on cloth that is folded it needs half of that, and
/// finds half of the cloth's width.
fn narrow(garment: &Garment, size: &WorkedSize, cloth: &Cloth, row: &CutRow) -> Option<Finding> {
    let fabric = garment.fabric(cloth.fabric);
    // Cloth that shrinks is washed before it is cut.
    let (usable, washed) = (cloth.usable(Spread::Open), cloth.shrink.1 > 0.0);
    let (sized, sewing) = (&size.drawn, &size.sewn);
    let drawn = sized.paper(row.part.paper)?;
    let grain = drawn.grain;
    let part = sewing.index.of(row.part);
    let widest = part.and_then(|part| widest_allowance(sewing.part(part)));
    // Most pieces lie well within their cloth, which needs no closer look.
    let room = 2.0 * REACH * widest.unwrap_or(0.0) + HAIR;
    if at_most_across(garment, row, drawn).is_some_and(|most| most + room <= usable) {
        return None;
    }
    let sewn_along = Reach::of(&stitching(garment, row, drawn), grain)?;
    // The cutting line is opened out only where it may matter.
    let matters =
        widest.is_some_and(|widest| widest > 0.0 && sewn_along.across + 2.0 * REACH * widest > usable);
    let line = part.filter(|_| matters).and_then(|part| size.whole_line(garment, row, part));
    let with_allowances = line.and_then(|line| Reach::of(&line, grain));
    let how = match (&with_allowances, widest == Some(0.0)) {
        (Some(_), _) => ", with its allowances",
        (None, true) => "",
        (None, false) => ", without its allowances",
    };
    let needed = with_allowances.as_ref().unwrap_or(&sewn_along);
    let over = needed.across - usable;
    if !over.is_finite() || over <= GIVES {
        return None;
    }
    let unit = garment.unit;
    let layer = garment.layer(row.part.layer);
    let at = layer.pieces.iter().position(|&piece| piece == row.part.piece);
    let place = at.and_then(|at| layer.piece_spans.get(at)).copied().unwrap_or(layer.span);
    let piece = garment.piece(row.part.piece);
    let on_fold = matches!(row.how, CutHow::OnFold(_));
    let opened = if on_fold { ", opened out," } else { "" };
    let title = Title::new(format!(
        "{}{opened} is {} wider than {}",
        words::piece(garment, row.part.piece),
        amount(over, unit),
        fabric.name
    ))
    .in_sizes();
    let folded = folds_the_cloth(garment, row, drawn);
    let halved = |length: f64, words: &str| match folded {
        true => format!(", {} {words}", amount(length / 2.0, unit)),
        false => String::new(),
    };
    let mut label = format!("{} across{how}", amount(needed.across, unit));
    label += &halved(needed.across, "from the fold");
    let mut mistake = Diagnostic::new(&catalogue::CLOTH_NARROW, place, title).label(label);
    if let Some(width) = &fabric.width {
        let washed = if washed { " once it is washed" } else { "" };
        let can = match usable > 0.0 {
            true => {
                let can = format!("{} can be cut from{washed}", amount(usable, unit));
                can + &halved(usable, "when it is folded")
            }
            false => "nothing is left to cut from".to_owned(),
        };
        mistake = mistake.also(width.span, can);
    }
    let mut ways = Vec::new();
    if sewn_along.across <= usable + GIVES {
        ways.push(match folded {
            true => {
                format!("make its allowance across from the fold {} narrower", at_least(over / 2.0, unit))
            }
            false => format!("make its allowances {} narrower, both sides together", at_least(over, unit)),
        });
    }
    if needed.along <= usable + GIVES {
        ways.push(format!("write grain across in {}, if the cloth may be turned", piece.name));
    }
    match row.how {
        _ if usable <= 0.0 => {}
        CutHow::OnFold(edge) => {
            ways.push(format!("give it a seam: open {} at {}", piece.name, garment.edge(edge).name))
        }
        _ => ways.push(format!("give it a seam: split {} at a line", piece.name)),
    }
    let least = at_least(cloth.width_for(needed.across), unit);
    ways.push(match cloth.tubular {
        true => format!("take a tube that lies flat at least {least} wide"),
        false => format!("take a cloth that is at least {least} wide"),
    });
    let mistake = mistake.help(ways.join("; or "));
    let finding = Finding::new(sized.size, over, mistake)
        .about(garment.part_name(Some(row.part.layer), row.part.piece));
    Some(finding.figure("needed", amount(needed.across, unit)).figure("too wide by", amount(over, unit)))
}

/// Whether the piece lies on a fold along the cloth, so that each of its halves has half the width.
fn folds_the_cloth(garment: &Garment, row: &CutRow, drawn: &DrawnPiece) -> bool {
    let Some(fold) = fold_of(garment, row, drawn).and_then(|at| drawn.edges.get(at)) else { return false };
    let way = fold.path.end() - fold.path.start();
    way.cross(drawn.grain).abs() <= 1e-6 * way.hypot()
}

/// The edge on the fold, by its place in the outline.
fn fold_of(garment: &Garment, row: &CutRow, drawn: &DrawnPiece) -> Option<usize> {
    let CutHow::OnFold(fold) = row.how else { return None };
    drawn.edges.iter().position(|edge| garment.is_run_of(edge.edge, fold))
}

/// The stitching line of the whole piece.
fn stitching(garment: &Garment, row: &CutRow, drawn: &DrawnPiece) -> Vec<Path> {
    let ring: Vec<Path> = drawn.outline().iter().map(|edge| edge.path.clone()).collect();
    let fold = fold_of(garment, row, drawn);
    fold.and_then(|at| fold::opened_out(&ring, at).ok()).unwrap_or(ring)
}
