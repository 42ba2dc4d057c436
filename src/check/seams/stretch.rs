//! `seam/stretch`, `seam/held` and `stitch/breaks`: edges that are stretched as they are sewn.

use super::lengths::subject;
use super::sides::{each, in_size, length, ply_span};
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, LayerId, Part, PieceId, Seam};
use crate::once_each::once_each;
use crate::report::{Diagnostic, Finding, Title, catalogue, percent};
use crate::resolve::SizedGarment;
use crate::sewing::{Give, LOCKSTITCH, Sewing, SewnPly, SewnSeam, give, give_turned};
use crate::syntax::tree::FitKind;

pub(in crate::check) static CHECK: Check = Check {
    kinds: &[&catalogue::SEAM_STRETCH, &catalogue::SEAM_HELD, &catalogue::STITCH_BREAKS],
    run: Run::PerSize(run),
};

/// Less than this, as a share, is not stretched.
const LEAST: f64 = 0.005;

/// What holds a ply back.
struct Held {
    ply: usize,
    /// The cloth, in words.
    cloth: String,
    /// How far it stretches; none where that is not said.
    share: Option<f64>,
    /// It is a layer that is fused to the ply.
    fused: bool,
    /// How far it stretches a quarter turned, where that is enough.
    turned: Option<f64>,
}

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let (sized, sewing) = (&size.drawn, &size.sewn);
    for (seam, sewn) in each(garment, sewing) {
        if !sewn.fit.is_some_and(|fit| fit.kind == FitKind::Stretching) {
            continue;
        }
        let (first, second) = (length(&sewn.first), length(&sewn.second));
        if first <= 0.0 || second <= 0.0 {
            continue;
        }
        let needed = second / first - 1.0;
        if needed <= LEAST {
            continue;
        }
        findings.extend(breaks(garment, sized, seam, sewn));
        let held: Vec<Held> = (0..sewn.first.plies.len())
            .filter_map(|ply| held(garment, sized, sewing, sewn, ply, needed))
            .collect();
        let is_any_free = held.iter().filter(|held| !held.fused).count() < sewn.first.plies.len();
        let pieces = |held: &Held| -> Vec<PieceId> {
            let chain = seam.first.get(held.ply);
            chain.map_or_else(Vec::new, |chain| chain.edges.iter().map(|sewn| sewn.piece).collect())
        };
        for (at, one) in held.iter().enumerate() {
            // Both halves of a folded piece are one piece to the maker.
            if held.iter().take(at).any(|before| pieces(before) == pieces(one)) {
                continue;
            }
            findings.push(finding(garment, sized, seam, sewn, one, needed, is_any_free));
        }
    }
}

/// What of a ply does not stretch as far as it must.
fn held(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: &Sewing,
    sewn: &SewnSeam,
    ply: usize,
    needed: f64,
) -> Option<Held> {
    let runs: &SewnPly = sewn.first.plies.get(ply)?;
    for run in &runs.runs {
        let part = sewing.part(run.part).part;
        let of = |part: &Part, fused: bool| {
            let given = give(garment, sized, part, run.edge);
            let is_short = given.share().is_some_and(|share| share < needed - LEAST);
            let unsaid = fused && given == Give::Unknown;
            (is_short || unsaid).then(|| Held {
                ply,
                cloth: cloth(garment, part.layer),
                share: match given {
                    Give::Known(share) => Some(share),
                    Give::NotSaid | Give::Unknown => None,
                },
                fused,
                turned: give_turned(garment, sized, part, run.edge)
                    .share()
                    .filter(|share| !fused && *share >= needed - LEAST),
            })
        };
        if let Some(held) = of(&part, false) {
            return Some(held);
        }
        let mut fused = garment.layers.iter().enumerate().filter(|(_, layer)| layer.fused);
        if let Some((at, _)) = fused.find(|(_, layer)| layer.pieces.contains(&part.piece))
            && let Some(held) = of(&Part { layer: LayerId::from_index(at), ..part }, true)
        {
            return Some(held);
        }
    }
    None
}

fn cloth(garment: &Garment, layer: LayerId) -> String {
    garment.layer(layer).fabric.map_or("the cloth".to_owned(), |id| garment.fabric(id).title.to_string())
}

fn finding(
    garment: &Garment,
    sized: &SizedGarment,
    seam: &Seam,
    sewn: &SewnSeam,
    held: &Held,
    needed: f64,
    is_any_free: bool,
) -> Finding {
    let pieces = seam.first.get(held.ply).map_or(&[][..], |chain| &chain.edges);
    let mut titles: Vec<String> = pieces.iter().map(|sewn| words::piece(garment, sewn.piece)).collect();
    once_each(&mut titles);
    let piece = words::listed(&titles);
    let gives = match held.share {
        Some(share) if share > 0.0 => format!("{} stretches {} that way", held.cloth, percent(share)),
        Some(_) => format!("{} does not stretch that way", held.cloth),
        None => format!("no stretch is given for {}", held.cloth),
    };
    let share = 1.0 / (1.0 + needed);
    let least = 1.0 / (1.0 + held.share.unwrap_or(0.0));
    let span = ply_span(seam, false, held.ply);
    let label = format!("{} of the other side{}", percent(share), in_size(garment, sized));
    let (kind, title, help) = if held.fused {
        (
            &catalogue::SEAM_HELD,
            Title::new(format!("{piece} must stretch {} to be sewn into {}", percent(needed), seam.words()))
                .in_sizes()
                .then(format!(", but is held: {gives}")),
            format!("take {piece} out of the fused layer, or make it as long as the other side"),
        )
    } else if is_any_free {
        (
            &catalogue::SEAM_HELD,
            Title::new(format!("{piece} holds {}, which must stretch {}", seam.words(), percent(needed)))
                .in_sizes()
                .then(format!(": {gives}")),
            format!("sew {piece} to the other side, or cut it from cloth that stretches {}", percent(needed)),
        )
    } else {
        (
            &catalogue::SEAM_STRETCH,
            Title::new(format!("{piece} must stretch {} to be sewn into {}", percent(needed), seam.words()))
                .in_sizes()
                .then(format!(", but {gives}")),
            match least < 1.0 - LEAST {
                true => format!(
                    "make it {} of the other side or longer, or take a cloth that stretches {}",
                    percent(least),
                    percent(needed)
                ),
                false => format!(
                    "take a cloth that stretches {}, or make it as long as the other side",
                    percent(needed)
                ),
            },
        )
    };
    let help = match held.turned {
        Some(share) => {
            format!("turn its grain: {} stretches {} the other way; or {help}", held.cloth, percent(share))
        }
        None => help,
    };
    let mut mistake = Diagnostic::new(kind, span, title).label(label).help(help);
    if let Some(turned) = pieces.first().filter(|_| held.turned.is_some()) {
        let piece = garment.piece(turned.piece);
        mistake = mistake.also(piece.span, format!("its grain lies {}", words::grain(garment, piece.grain)));
    }
    Finding::new(sized.size, needed, mistake)
        .about(subject(garment, seam, sewn))
        .figure("must stretch", percent(needed))
        .figure("stretches", held.share.map_or("not given".to_owned(), percent))
}

fn breaks(garment: &Garment, sized: &SizedGarment, seam: &Seam, sewn: &SewnSeam) -> Option<Finding> {
    let stitch = seam.stitch.as_ref().filter(|stitch| stitch.number == LOCKSTITCH)?;
    let title = format!("{} is stretched as it is sewn, and a lockstitch has no give", seam.words());
    let advice = Diagnostic::new(&catalogue::STITCH_BREAKS, stitch.span, title)
        .label("its thread breaks")
        .help("take a stitch that gives: 504 (overlock), 401 (two-thread chainstitch) or 304 (zigzag)");
    Some(Finding::new(sized.size, 0.0, advice).about(subject(garment, seam, sewn)))
}
