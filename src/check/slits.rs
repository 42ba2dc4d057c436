//! `slit/unfinished` and `slit/narrow`: what becomes of the sides of slits.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::Garment;
use crate::report::{Diagnostic, Finding, Title, amount, at_least, catalogue};
use crate::resolve::{DrawnEdge, DrawnPiece, DrawnSlit};
use crate::sewing::{EdgeFate, SewnPart, allowance_asked};

pub(super) static CHECK: Check =
    Check { kinds: &[&catalogue::SLIT_UNFINISHED, &catalogue::SLIT_NARROW], run: Run::PerSize(run) };

/// So much more may be turned than the window gives, in millimetres: less than a thread.
const MORE: f64 = 0.1;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    for part in size.sewn.parts.iter().filter(|part| !part.fused) {
        let Some(drawn) = size.drawn.paper(part.part.paper).filter(|drawn| drawn.opened.is_some()) else {
            continue;
        };
        // Of a piece that nothing is sewn of that is told.
        if part.edges.iter().all(|fate| fate.takers.is_empty()) {
            continue;
        }
        for slit in &drawn.uncut().slits {
            let looking = Looking { garment, size, part, drawn, slit };
            let sides = looking.sides();
            if !garment.incomplete.sewing {
                findings.extend(looking.unfinished(&sides));
            }
            findings.extend(looking.narrow(&sides));
        }
    }
}

struct Looking<'a> {
    garment: &'a Garment,
    size: &'a WorkedSize,
    part: &'a SewnPart,
    drawn: &'a DrawnPiece,
    slit: &'a DrawnSlit,
}

impl<'a> Looking<'a> {
    fn sides(&self) -> Vec<(&'a DrawnEdge, &'a EdgeFate)> {
        let all = self.drawn.edges.iter().zip(&self.part.edges);
        let is_own = |edge: &DrawnEdge| self.garment.edge(edge.edge).side_of == Some(self.slit.name);
        let mut sides: Vec<_> = all.filter(|(edge, _)| is_own(edge)).collect();
        // In the order in which they are declared: near, far, end.
        sides.sort_by_key(|(edge, _)| edge.edge);
        sides
    }

    fn dotted(&self, edge: &DrawnEdge) -> String {
        let piece = self.garment.piece(self.part.part.piece);
        format!("{}.{}", piece.name, self.garment.edge(edge.edge).name)
    }

    fn unfinished(&self, sides: &[(&DrawnEdge, &EdgeFate)]) -> Option<Finding> {
        let loose: Vec<&DrawnEdge> =
            sides.iter().filter(|(_, fate)| fate.takers.is_empty()).map(|(edge, _)| *edge).collect();
        if loose.is_empty() {
            return None;
        }
        let (garment, name) = (self.garment, self.garment.edge(self.slit.name));
        let piece = words::piece(garment, self.part.part.piece);
        let title = match loose.len() == sides.len() {
            true => format!("{} of {piece} is cut, and its sides are neither sewn nor finished", name.name),
            false => {
                let which: Vec<String> =
                    loose.iter().map(|edge| garment.edge(edge.edge).name.to_string()).collect();
                let are = if which.len() == 1 { "is" } else { "are" };
                format!("{} of {piece} {are} neither sewn nor finished", words::listed(&which))
            }
        };
        let names: Vec<String> = loose.iter().map(|edge| self.dotted(edge)).collect();
        // A copy has all that its piece has.
        let copied = match name.copied_from {
            Some(of) => {
                let of = &garment.piece(garment.edge(of).piece).name;
                format!("; or, if it is not meant here, draw {of} and this from a block piece without it")
            }
            None => String::new(),
        };
        let message = Diagnostic::new(&catalogue::SLIT_UNFINISHED, name.span, title)
            .label("left as it is cut")
            .help(format!(
                "bind it: finish {0} bound 0.8; or sew a strip, a facing or a placket to it; only what does not fray \
                 may be left: finish {0} raw{copied}",
                names.join(", ")
            ));
        Some(Finding::new(self.size.id(), loose.len() as f64, message).about(&*name.name))
    }

    fn narrow(&self, sides: &[(&DrawnEdge, &EdgeFate)]) -> Option<Finding> {
        let garment = self.garment;
        let half = self.slit.window() / 2.0;
        let asked = |fate: &EdgeFate| {
            let asked = allowance_asked(garment, &self.size.drawn, self.part.part.piece, &fate.takers);
            asked.amount.filter(|_| asked.turned_up)
        };
        let over = sides.iter().filter_map(|(edge, fate)| Some((*edge, *fate, asked(fate)?)));
        let over = over.filter(|(.., asked)| *asked > half + MORE);
        let (edge, fate, asked) = over.max_by(|(.., a), (.., b)| a.total_cmp(b))?;
        let name = garment.edge(self.slit.name);
        let (turned, wide) = (amount(asked, garment.unit), amount(2.0 * half, garment.unit));
        let side = &garment.edge(edge.edge).name;
        let title = match half > 0.0 {
            true => format!("{side} takes {turned} to turn, and the window of {} is {wide} wide", name.name),
            false => format!("{side} takes {turned} to turn, and {} has no window", name.name),
        };
        let span = fate.allowance_span.unwrap_or(name.span);
        let message = Diagnostic::new(&catalogue::SLIT_NARROW, span, Title::new(title).in_sizes())
            .label("cloth that is not there")
            .also(name.span, "the slit")
            .help(format!(
                "each side has half of the window: give it a window of {} or more, turn less, or bind its sides",
                at_least(2.0 * asked, garment.unit)
            ));
        Some(Finding::new(self.size.id(), asked - half, message).about(&*name.name).figure("turned", turned))
    }
}
