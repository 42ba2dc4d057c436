//! `seam/twisted`: pieces that cannot all lie right side out as they are sewn.

use super::crossed::crossed_seams;
use super::on_both_sides::{self, OnBothSides, on_both_sides};
use crate::check::notches::are_odd;
use crate::check::seams::braces::is_twisted;
use crate::check::seams::chain_order::out_of_order;
use crate::check::seams::copies::TooSeldom;
use crate::check::seams::sides::corner;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{CutHow, Garment, Outline, PieceId, Seam, SeamId, SewnPoint};
use crate::id_hash::IdIndexMap;
use crate::report::{Diagnostic, Finding, catalogue};
use crate::resolve::SizedGarment;
use crate::sewing::surface::{FaceId, JoinedBy, Surface, Tie, Twist};
use crate::sewing::{Sewing, SewnRun, SewnSeam, SewnSide};

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::SEAM_TWISTED, &catalogue::SEAM_ENDS], run: Run::PerSize(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let (sized, sewing) = (&size.drawn, &size.sewn);
    let Some(surface) = sewing.surface.as_ref() else { return };
    let looking = Looking { garment, sized, sewing, surface };
    let mut loops: Vec<Loop> = surface.twists.iter().map(|twist| looking.seams(twist)).collect();
    // A seam of an edge with itself, end for end, is reported by `seam/matching`.
    loops.retain(|one| {
        !one.seams.iter().filter_map(|&at| looking.sewn(at)).any(|sewn| is_twisted(garment, size, sewn))
    });
    // Copies of one piece that are cut alike, though it is shaped, are reported by `pair/same`.
    let is_of_one = |one: &Loop| match one.other {
        Some(Tie::AsDrawn(face, other)) => surface.face(face).pair == surface.face(other).pair,
        _ => false,
    };
    loops.retain(|one| !is_of_one(one));
    if loops.is_empty() {
        return;
    }
    // So is a seam between the wrong layers, by `seam/crossed`.
    let crossed = crossed_seams(garment, sewing);
    loops.retain(|one| {
        !one.seams.iter().filter_map(|&at| looking.sewn(at)).any(|sewn| crossed.contains(&sewn.seam))
    });
    // Of a piece that is cut too seldom a copy is missing in its seams.
    if !loops.is_empty() {
        let seldom = TooSeldom::new(garment, sized, sewing);
        loops.retain(|one| {
            !one.seams.iter().filter_map(|&at| looking.sewn(at)).any(|sewn| seldom.is_in(sewn))
        });
    }
    // A row of edges in another order than they lie in brings the wrong ends together.
    let named = loops.iter().flat_map(|one| &one.seams).filter_map(|&at| looking.sewn(at));
    let mut told: IdIndexMap<SeamId, Finding> = IdIndexMap::default();
    for sewn in named {
        if !told.contains_key(&sewn.seam)
            && let Some(finding) = out_of_order(garment, size, sewn)
        {
            told.insert(sewn.seam, finding);
        }
    }
    if !told.is_empty() {
        findings.extend(told.into_values());
        return;
    }
    let mut both: Vec<OnBothSides> = Vec::new();
    loops.retain(|one| {
        let seams: Vec<&SewnSeam> = one.seams.iter().filter_map(|&at| looking.sewn(at)).collect();
        let found = on_both_sides(garment, size, &seams).filter(|_| one.other.is_none());
        let Some(found) = found else { return true };
        if both.iter().all(|known| known.piece != found.piece) {
            both.push(found);
        }
        false
    });
    findings.extend(on_both_sides::reported(garment, size, &both));
    // The seam that most contradictions go through is reported once, and all that it explains with it.
    while let Some(worst) = looking.worst(&loops) {
        let (with, rest): (Vec<Loop>, Vec<Loop>) =
            loops.into_iter().partition(|one| one.seams.contains(&worst));
        let shortest = with.iter().min_by_key(|one| one.seams.len());
        findings.extend(shortest.map(|one| looking.finding(worst, one)));
        loops = rest;
    }
    findings.extend(loops.iter().filter_map(|one| looking.finding_of_faces(one)));
}

/// An edge that rises or falls by more than this share of the way between its ends is upright.
const UPRIGHT: f64 = 0.4;

/// A contradiction: its seams, each once, and what else ties the pieces.
struct Loop {
    seams: Vec<usize>,
    other: Option<Tie>,
}

struct Looking<'a> {
    garment: &'a Garment,
    sized: &'a SizedGarment,
    sewing: &'a Sewing,
    surface: &'a Surface,
}

impl Looking<'_> {
    fn seams(&self, twist: &Twist) -> Loop {
        let mut found = Loop { seams: Vec::new(), other: None };
        for &tie in &twist.ties {
            match tie {
                Tie::Join(join) => {
                    if let JoinedBy::Seam { sewn, .. } = self.surface.join(join).by
                        && !found.seams.contains(&sewn)
                    {
                        found.seams.push(sewn);
                    }
                }
                Tie::Pair(..) | Tie::AsDrawn(..) => found.other = Some(tie),
            }
        }
        found
    }

    fn sewn(&self, at: usize) -> Option<&SewnSeam> {
        self.sewing.seams.get(at)
    }

    fn seam(&self, at: usize) -> Option<&Seam> {
        self.sewn(at).map(|sewn| self.garment.seam(sewn.seam))
    }

    /// The seam to be blamed: that lies in most loops, in which a notch meets two, whose ends the maker has
    /// matched, and so that what is drawn upright hangs upside down, that is declared last.
    fn worst(&self, loops: &[Loop]) -> Option<usize> {
        let seams = loops.iter().flat_map(|one| &one.seams).copied();
        seams.max_by_key(|&at| {
            let times = loops.iter().filter(|one| one.seams.contains(&at)).count();
            let matched = self.seam(at).is_some_and(|seam| !seam.matching.is_empty());
            // Notches that do not go together show it too.
            let is_odd = self.sewn(at).is_some_and(are_odd);
            let is_turned = matched && self.sewn(at).is_some_and(|sewn| self.is_upside_down(sewn));
            (times, is_odd, matched, is_turned, self.sewn(at).map(|sewn| sewn.seam), std::cmp::Reverse(at))
        })
    }

    /// Whether two upright edges lie on one another so that what is up in the one drawing is down in the other.
    fn is_upside_down(&self, sewn: &SewnSeam) -> bool {
        let rises = |side: &SewnSide| -> Option<bool> {
            let [run] = side.plies.first()?.runs.as_slice() else { return None };
            let drawn = self.sized.paper(self.sewing.part(run.part).part.paper)?;
            let path = &drawn.edge_at(run.edge)?.path;
            let way = path.end() - path.start();
            (way.y.abs() > UPRIGHT * way.hypot()).then_some((way.y > 0.0) != run.reversed)
        };
        rises(&sewn.first).zip(rises(&sewn.second)).is_some_and(|(one, other)| one != other)
    }

    /// A piece of which two copies that are cut alike are sewn to one another by one edge in a contradiction: its corners
    /// then meet as those of a left and a right one do.
    fn alike(&self, one: &Loop) -> Option<(PieceId, u32)> {
        one.seams.iter().filter_map(|&at| self.sewn(at)).find_map(|sewn| {
            let run = |side: &SewnSide| match side.plies.first()?.runs.as_slice() {
                [run] => Some((run.part, run.edge)),
                _ => None,
            };
            let (part, edge) = run(&sewn.first)?;
            let part_of = self.sewing.part(part).part;
            let drawn = self.sized.paper(part_of.paper)?;
            let is_alike = drawn.cut == CutHow::Alike && drawn.count.is_multiple_of(2);
            (is_alike && run(&sewn.second) == Some((part, edge))).then_some((part_of.piece, drawn.count))
        })
    }

    /// A piece that is cut alike, though what its copies are sewn to in that seam lies as a left and a right one: what is
    /// matched then suits one of them alone, whichever end it is.
    fn alike_on_pair(&self, worst: usize) -> Option<(PieceId, u32)> {
        let sewn = self.sewn(worst)?;
        let cuts = |side: &SewnSide| -> Option<Vec<(PieceId, CutHow, u32)>> {
            let runs = side.plies.iter().flat_map(|ply| &ply.runs);
            let of = |run: &SewnRun| {
                let part = self.sewing.part(run.part).part;
                self.sized.paper(part.paper).map(|drawn| (part.piece, drawn.cut, drawn.count))
            };
            runs.map(of).collect()
        };
        let (first, second) = (cuts(&sewn.first)?, cuts(&sewn.second)?);
        [(&first, &second), (&second, &first)].into_iter().find_map(|(own, other)| {
            let &(piece, _, count) = own.first()?;
            let is_alike = |one: &(PieceId, CutHow, u32)| one.0 == piece && one.1 == CutHow::Alike;
            let is_pair = |one: &(PieceId, CutHow, u32)| one.1 == CutHow::Mirrored && one.2 == count;
            let are = own.iter().all(is_alike) && !other.is_empty() && other.iter().all(is_pair);
            (are && count == 2).then_some((piece, count))
        })
    }

    /// The other seams of a contradiction whose ends the maker has matched.
    fn also_matched(&self, worst: usize, one: &Loop) -> Vec<&Seam> {
        let others = one.seams.iter().filter(|&&at| at != worst).filter_map(|&at| self.seam(at));
        let mut found: Vec<&Seam> = Vec::new();
        for seam in others.filter(|seam| !seam.matching.is_empty()) {
            let is_new = self.seam(worst).is_none_or(|worst| worst.name_span != seam.name_span);
            if is_new && found.iter().all(|own| own.name_span != seam.name_span) {
                found.push(seam);
            }
        }
        found
    }

    fn title_of(&self, face: FaceId) -> String {
        let part = self.sewing.part(self.surface.face(face).part);
        words::piece(self.garment, part.part.piece)
    }

    fn finding(&self, worst: usize, one: &Loop) -> Finding {
        let garment = self.garment;
        let (name, span) = match self.seam(worst) {
            Some(seam) => (seam.name.to_string(), seam.name_span),
            None => (String::new(), garment.heading),
        };
        let mut others: Vec<SeamId> = Vec::new();
        for sewn in one.seams.iter().filter(|&&at| at != worst).filter_map(|&at| self.sewn(at)) {
            if !others.contains(&sewn.seam) && self.sewn(worst).is_none_or(|worst| worst.seam != sewn.seam) {
                others.push(sewn.seam);
            }
        }
        let listed: Vec<String> = others.iter().map(|&id| garment.seam(id).name.to_string()).collect();
        let title = match (&one.other, listed.is_empty()) {
            (Some(Tie::Pair(face, _)), _) => {
                format!(
                    "as the {name} seam goes, both copies of {} would be of one hand",
                    self.title_of(*face)
                )
            }
            (Some(Tie::AsDrawn(face, other)), _) => format!(
                "as the {name} seam goes, {} or {} would lie wrong side out",
                self.title_of(*face),
                self.title_of(*other)
            ),
            (_, true) => format!("the {name} seam twists what it sews together"),
            (_, false) => {
                format!(
                    "the {name} seam goes the wrong way round: with {} it twists the cloth",
                    words::listed(&listed)
                )
            }
        };
        let mut mistake = Diagnostic::new(&catalogue::SEAM_TWISTED, span, title);
        let sewn = self.sewn(worst);
        let says_layer = self
            .seam(worst)
            .is_some_and(|seam| crate::sewing::seam_edges(seam).any(|sewn| sewn.layer.is_some()));
        let ends = sewn.and_then(|sewn| {
            sewn.ends.iter().find(|(one, other)| one.corner != other.corner).or(sewn.ends.first())
        });
        let words = ends.and_then(|(one, other)| {
            let word = |end| corner(garment, self.sewing, end, says_layer);
            Some((word(one)?, word(other)?))
        });
        if let Some((one, other)) = &words {
            mistake = mistake.label(format!("{one} on {other}"));
        }
        for id in others {
            mistake = mistake.also(garment.seam(id).name_span, "does not go with it");
        }
        let matching =
            self.seam(worst).and_then(|seam| seam.matching.first().map(|one| (one, seam.matching.len())));
        mistake = match (&one.other, matching) {
            (Some(Tie::Pair(face, _)), _) => {
                let piece = self.sewing.part(self.surface.face(*face).part).part.piece;
                mistake.also(garment.piece(piece).cut.span, "a left and a right one").help(format!(
                    "cut all of {} the same way up: cut 2; or name another of its edges in the seam",
                    garment.piece(piece).name
                ))
            }
            (Some(Tie::AsDrawn(face, other)), _) => mistake.help(match self.copied(*face, *other) {
                Some((copy, of)) => format!(
                    "pieces are drawn with the right side up: make {copy} the mirror image, outline copy of {of} mirrored"
                ),
                None => "pieces are drawn with the right side up: draw one of them the other way round, as a copy that \
                         is mirrored is, or sew its other end"
                    .to_owned(),
            }),
            (None, _) if let Some((piece, count)) = self.alike(one) => {
                let piece = garment.piece(piece);
                mistake.also(piece.cut.span, "cut alike").help(format!(
                    "copies that are cut alike and sewn to one another by one edge lie as a left and a right one do: write \
                     cut {count} mirrored in piece {}",
                    piece.name
                ))
            }
            (None, _) if let Some((piece, count)) = self.alike_on_pair(worst) => {
                let piece = garment.piece(piece);
                mistake.also(piece.cut.span, "cut alike").help(format!(
                    "what both copies of {0} are sewn to is a left and a right one, and so are they: write cut {count} mirrored in \
                     piece {0}",
                    piece.name
                ))
            }
            (_, Some((pair, _))) => self.wrong_end(mistake, pair, &self.also_matched(worst, one)),
            (_, None) => mistake.help(
                "if its ends meet the wrong way round, say in its braces which do: matching … with …; if another \
                 edge is meant, name it",
            ),
        };
        Finding::new(self.sized.size, one.seams.len() as f64, mistake).about(name)
    }

    /// What is matched there, and what is matched in other seams, one of which it may be as well.
    fn wrong_end(
        &self,
        mistake: Diagnostic,
        (one, other): &(SewnPoint, SewnPoint),
        others: &[&Seam],
    ) -> Diagnostic {
        let mut mistake = mistake.also(one.span.to(other.span), "matched here");
        for (one, other) in others.iter().filter_map(|seam| seam.matching.first()) {
            mistake = mistake.also(one.span.to(other.span), "or this is the wrong end");
        }
        let names: Vec<&str> = others.iter().map(|seam| &*seam.name).collect();
        let or_else = match names.is_empty() {
            true => String::new(),
            false => format!("; if it is right as it is, the wrong end is matched in {}", names.join(" or ")),
        };
        mistake.help(format!(
            "match the other end: where two edges are laid on one another, right sides together, each end has just one \
             that it can meet{or_else}"
        ))
    }

    /// Of two faces of which one is a plain copy of the other: the names of that piece and of its original.
    fn copied(&self, face: FaceId, other: FaceId) -> Option<(&str, &str)> {
        let garment = self.garment;
        let piece = |face: FaceId| self.sewing.part(self.surface.face(face).part).part.piece;
        let pairs = [(piece(face), piece(other)), (piece(other), piece(face))];
        let is_copy = |&(one, of): &(PieceId, PieceId)| match &garment.piece(one).drawing.outline {
            Outline::Copy { of: base, mirrored: false, .. } => garment.paper(base.paper).piece == of,
            _ => false,
        };
        let (one, of) = pairs.into_iter().find(is_copy)?;
        Some((&garment.piece(one).name, &garment.piece(of).name))
    }

    /// A contradiction in which there is no seam to name.
    fn finding_of_faces(&self, one: &Loop) -> Option<Finding> {
        let (Tie::Pair(face, other) | Tie::AsDrawn(face, other)) = one.other? else { return None };
        let title =
            format!("{} and {} cannot both lie right side out", self.title_of(face), self.title_of(other));
        let piece = self.sewing.part(self.surface.face(face).part).part.piece;
        let mistake = Diagnostic::new(&catalogue::SEAM_TWISTED, self.garment.piece(piece).span, title);
        Some(Finding::new(self.sized.size, 0.0, mistake))
    }
}
