//! `hem/tiny`: a hem, a casing, a binding, a french seam, a facing or a band for a cord so narrow that a slip of the unit or of the decimal point is
//! more likely.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Cord, Depth, Finish, FinishKind, Garment, Hem, HemEdge, Seam, SewnEdge};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::{DrawnPiece, sewn_layer};
use crate::sewing::{amount_of, seam_edges};
use crate::syntax::tree::SeamKind;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::HEM_TINY], run: Run::PerSize(run) };

/// Less than this, in millimetres, no hem is turned: the narrowest, rolled, has 2 (common practice).
const NARROWEST_HEM: f64 = 2.0;
/// Less than this, in millimetres, no casing is sewn: the narrowest elastic and cord are 3 to 4 wide, and run freely
/// in what is a little wider (common practice).
const NARROWEST_CASING: f64 = 5.0;
/// Less than this, in millimetres, no binding is wide: bought ones have 6 and more (common practice).
const NARROWEST_BINDING: f64 = 3.0;
/// A hem is deeper than so many times the thickness of its cloth: by less it does not lie on itself (common practice).
const TURNED: f64 = 1.5;
/// A french seam encloses both allowances of its first row: it is wider than so many times the thickness of its cloth (common
/// practice: it is for thin cloth).
const ENCLOSED: f64 = 2.0;
/// Facings are 4 to 7 cm wide, narrow ones 2.5 (common practice): less than this, in millimetres, does not stay inside.
const NARROWEST_FACING: f64 = 15.0;
/// What is less than this is nothing, in millimetres.
const NOTHING: f64 = 0.1;
/// Rounding leaves no more than this, in millimetres.
const NOISE: f64 = 1e-6;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    for finish in &garment.finishes {
        let (depth, least, what) = match &finish.kind {
            FinishKind::Hem(hem) => (&hem.depth, NARROWEST_HEM, "hem"),
            FinishKind::Casing(depth, _) => (depth, NARROWEST_CASING, "casing"),
            FinishKind::Bound(binding) => (&binding.width, NARROWEST_BINDING, "binding"),
            _ => continue,
        };
        let thick = thickest(garment, size, &finish.edges);
        let of_cloth = match what {
            "binding" => thick,
            _ => TURNED * thick,
        };
        let is_thick = of_cloth > least;
        let least = of_cloth.max(least);
        // Nothing, and less than nothing, is reported as that.
        let is_tiny = |deep: &f64| *deep >= NOTHING && *deep < least - NOISE;
        let Some(deep) = amount_of(garment, &size.drawn, depth).filter(is_tiny) else { continue };
        let edge = finish.edges.first().map_or(String::new(), |sewn| words::edge(garment, sewn.edge));
        let is = format!("{} mm", (deep * 100.0).round() / 100.0);
        let title = Title::new(format!(
            "the {what} of {edge} is {is} {}",
            if what == "binding" { "wide" } else { "deep" }
        ))
        .in_sizes();
        let least = amount(least, garment.unit);
        let warning = Diagnostic::new(&catalogue::HEM_TINY, depth.span, title)
            .label(match what {
                _ if is_thick => "the cloth is too thick to be turned by so little",
                "hem" => "narrower than a rolled hem",
                "binding" => "no binding is folded so narrow",
                _ => "no elastic or cord runs through it",
            })
            .help(format!(
                "look at its figure and its unit: a bare number takes the units that the file says; a {what} {}has \
                 {least} or more",
                if is_thick { "in this cloth " } else { "" }
            ));
        findings
            .push(Finding::new(size.id(), 0.0, warning).about(format!("{edge} {what}")).figure("deep", is));
    }
    findings.extend(garment.finishes.iter().filter_map(|finish| barely_turned_under(garment, size, finish)));
    findings.extend(garment.cords.iter().filter_map(|cord| shallow_band(garment, size, cord)));
    findings.extend(garment.seams.iter().filter_map(|seam| narrow_french(garment, size, seam)));
    findings.extend(garment.depths.iter().filter_map(|depth| narrow_facing(garment, size, depth)));
}

/// How thick the thickest cloth of those edges is, in millimetres, as far as that is said.
fn thickest(garment: &Garment, size: &WorkedSize, edges: &[SewnEdge]) -> f64 {
    let cloths = edges.iter().filter_map(|sewn| {
        let layer = sewn.layer.or_else(|| sewn_layer(garment, sewn.piece))?;
        let thickness = garment.fabric(garment.layer(layer).fabric?).thickness.as_ref()?;
        amount_of(garment, &size.drawn, thickness)
    });
    cloths.fold(0.0, f64::max)
}

/// A french seam that has no room for what it encloses.
fn narrow_french(garment: &Garment, size: &WorkedSize, seam: &Seam) -> Option<Finding> {
    let work = seam.work.as_ref().filter(|work| work.kind == SeamKind::French && !seam.poisoned)?;
    let edges: Vec<SewnEdge> = seam_edges(seam).cloned().collect();
    let least = ENCLOSED * thickest(garment, size, &edges);
    let is_tiny = |wide: &f64| *wide >= NOTHING && *wide < least - NOISE;
    let wide = amount_of(garment, &size.drawn, &work.width).filter(is_tiny)?;
    let is = format!("{} mm", (wide * 100.0).round() / 100.0);
    let title = Title::new(format!("the french seam {} is {is} wide", seam.name)).in_sizes();
    let least = amount(least, garment.unit);
    let warning = Diagnostic::new(&catalogue::HEM_TINY, work.width.span, title)
        .label("the cloth is too thick to be enclosed in so little")
        .help(format!(
            "look at its figure and its unit: a bare number takes the units that the file says; in this cloth a french seam has \
             {least} or more, and a felled or a plain one lies flatter"
        ));
    Some(Finding::new(size.id(), 0.0, warning).about(&*seam.name).figure("wide", is))
}

/// A facing that turns out again, and is hardly wider than its own seam allowance.
fn narrow_facing(garment: &Garment, size: &WorkedSize, depth: &Depth) -> Option<Finding> {
    let is_tiny = |wide: &f64| *wide >= NOTHING && *wide < NARROWEST_FACING - NOISE;
    let wide = amount_of(garment, &size.drawn, &depth.amount).filter(is_tiny).filter(|_| depth.of_facing)?;
    let is = format!("{} mm", (wide * 100.0).round() / 100.0);
    let title = Title::new(format!("the facing {} is {is} wide", depth.name)).in_sizes();
    let warning = Diagnostic::new(&catalogue::HEM_TINY, depth.amount.span, title)
        .label("turns to the outside again")
        .help(
            "look at its figure and its unit: a bare number takes the units that the file says; facings are 4 to 7 cm wide",
        );
    Some(Finding::new(size.id(), 0.0, warning).about(&*depth.name).figure("wide", is))
}

/// A raw edge that is turned under by less than can be pressed and sewn.
fn barely_turned_under(garment: &Garment, size: &WorkedSize, finish: &Finish) -> Option<Finding> {
    let FinishKind::Hem(Hem { raw_edge: HemEdge::TurnedUnder(under), .. }) = &finish.kind else {
        return None;
    };
    let is_tiny = |deep: &f64| *deep >= NOTHING && *deep < NARROWEST_HEM - NOISE;
    let deep = amount_of(garment, &size.drawn, under).filter(is_tiny)?;
    let edge = words::edge(garment, finish.edges.first()?.edge);
    let is = format!("{} mm", (deep * 100.0).round() / 100.0);
    let title = Title::new(format!("the hem of {edge} is turned under by {is}")).in_sizes();
    let warning = Diagnostic::new(&catalogue::HEM_TINY, under.span, title)
        .label("comes out again as it is sewn")
        .help(
            "look at its figure and its unit: a bare number takes the units that the file says; makers turn 5 to 10 mm \
             under",
        );
    Some(Finding::new(size.id(), 0.0, warning).about(format!("{edge} under")).figure("under", is))
}

/// A folded band is a channel as deep as it is when it is finished.
fn shallow_band(garment: &Garment, size: &WorkedSize, cord: &Cord) -> Option<Finding> {
    let finder = size.finder(garment);
    for sewn in &cord.through {
        let Some(layer) = sewn.layer.or_else(|| sewn_layer(garment, sewn.piece)) else { continue };
        let mut drawn = finder.in_layer(layer, sewn).into_iter().filter_map(|place| finder.drawn(place.part));
        let Some(deep) = drawn.find_map(|drawn| folded_deep(garment, drawn)) else { continue };
        if !(NOTHING..NARROWEST_CASING - NOISE).contains(&deep) {
            continue;
        }
        let piece = words::piece(garment, sewn.piece);
        let is = format!("{} mm", (deep * 100.0).round() / 100.0);
        let title =
            Title::new(format!("{piece} is {is} deep, and {} is to run through it", cord.name)).in_sizes();
        let least = amount(NARROWEST_CASING, garment.unit);
        let warning = Diagnostic::new(&catalogue::HEM_TINY, garment.piece(sewn.piece).span, title)
            .label("no cord runs through it")
            .also(sewn.span, format!("{} goes through here", cord.name))
            .help(format!(
                "look at its figure and its unit: a bare number takes the units that the file says; a band for a cord \
                 has {least} or more"
            ));
        return Some(Finding::new(size.id(), 0.0, warning).about(piece).figure("deep", is));
    }
    None
}

/// Half of what lies between the edges that are brought onto one another.
fn folded_deep(garment: &Garment, drawn: &DrawnPiece) -> Option<f64> {
    let fold = garment.piece(drawn.piece).folds.first().filter(|fold| !fold.in_four)?;
    let (edge, onto) = (drawn.edge(fold.edge)?, drawn.edge(fold.onto)?);
    let middle = edge.path.point_at_length(edge.path.length() / 2.0);
    Some(onto.path.nearest(middle).distance / 2.0)
}
