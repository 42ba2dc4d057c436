//! `casing/narrow`, `casing/tight` and `casing/wide`: elastic that is as wide as the casing it is to run through, or
//! nearly so, or that is lost in it.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Expression, Finish, FinishKind, Garment};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::SizedGarment;
use crate::sewing::amount_of;

pub(super) static CHECK: Check = Check {
    kinds: &[&catalogue::CASING_NARROW, &catalogue::CASING_TIGHT, &catalogue::CASING_WIDE],
    run: Run::PerSize(run),
};

/// Rounding leaves no more than this, in millimetres.
const NOISE: f64 = 1e-6;
/// By how much a casing is deeper than its elastic is wide, in millimetres: usually 1/8 in (clothing-
/// construction evaluation standards of a university course), in metric patterns 3 mm.
const FREE: f64 = 3.0;
/// A casing deeper than so many times its elastic …
const WIDE: f64 = 2.0;
/// … and this, in millimetres, is none for it: several rows have each their own (trade habit).
const ROOM: f64 = 20.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let sized = &size.drawn;
    for finish in &garment.finishes {
        let FinishKind::Casing(depth, Some((width, _))) = &finish.kind else { continue };
        let (Some(deep), Some(wide)) = (amount_of(garment, sized, depth), amount_of(garment, sized, width))
        else {
            continue;
        };
        // Less than nothing is reported as that.
        if deep < 0.0 || wide <= deep - FREE + NOISE {
            if wide > 0.0 && deep > WIDE * wide + ROOM {
                findings.push(lost_in(garment, sized, finish, depth, width));
            }
            continue;
        }
        if wide < deep - NOISE {
            findings.push(tight(garment, sized, finish, depth, width, deep - wide));
            continue;
        }
        let unit = garment.unit;
        let least = wide + FREE;
        let (deep, wide) = (amount(deep, unit), amount(wide, unit));
        let edge = finish.edges.first().map_or(String::new(), |sewn| words::edge(garment, sewn.edge));
        let title =
            Title::new(format!("elastic {wide} wide does not go into the casing of {edge}, which is {deep}"))
                .in_sizes();
        let least = amount(least, unit);
        let mistake = Diagnostic::new(&catalogue::CASING_NARROW, width.span, title)
            .label(wide.clone())
            .also(depth.span, deep.clone())
            .help(format!(
                "make the casing {least}, so that the elastic runs freely; or take a narrower elastic"
            ));
        findings.push(Finding::new(sized.size, 0.0, mistake).figure("casing", deep).figure("elastic", wide));
    }
}

/// It wanders.
fn lost_in(
    garment: &Garment,
    sized: &SizedGarment,
    finish: &Finish,
    depth: &Expression,
    width: &Expression,
) -> Finding {
    let edge = finish.edges.first().map_or(String::new(), |sewn| words::edge(garment, sewn.edge));
    let [deep, wide] = [depth, width].map(|said| depth_words(garment, sized, said));
    let title = Title::new(format!("elastic {wide} wide is lost in the casing of {edge}, which is {deep}"))
        .in_sizes();
    let advice = Diagnostic::new(&catalogue::CASING_WIDE, depth.span, title)
        .label(deep)
        .also(width.span, wide)
        .help("look at its figure and its unit; or stitch a row that parts the channel from the rest");
    Finding::new(sized.size, 0.0, advice).about(edge)
}

/// It goes in, and twists or jams.
fn tight(
    garment: &Garment,
    sized: &SizedGarment,
    finish: &Finish,
    depth: &Expression,
    width: &Expression,
    free: f64,
) -> Finding {
    let edge = finish.edges.first().map_or(String::new(), |sewn| words::edge(garment, sewn.edge));
    let free = amount(free, garment.unit);
    let title = Title::new(format!("the casing of {edge} leaves its elastic only {free}")).in_sizes();
    let advice = Diagnostic::new(&catalogue::CASING_TIGHT, depth.span, title)
        .label(depth_words(garment, sized, depth))
        .also(width.span, depth_words(garment, sized, width))
        .help(format!("make it {} deeper than the elastic is wide", amount(FREE, garment.unit)));
    Finding::new(sized.size, 0.0, advice)
}

fn depth_words(garment: &Garment, sized: &SizedGarment, said: &Expression) -> String {
    amount_of(garment, sized, said).map_or_else(String::new, |said| amount(said, garment.unit))
}
