//! `run/uneven`: sides of a seam that are left in unlike pieces once runs are taken out of them.

use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::Garment;
use crate::report::{Diagnostic, Finding, Title, catalogue};

pub(in crate::check) static CHECK: Check = Check { kinds: &[&catalogue::RUN_UNEVEN], run: Run::PerSize(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    for sewn in &size.sewn.seams {
        let Some(uneven) = sewn.uneven else { continue };
        let seam = garment.seam(sewn.seam);
        let [one, other] = [uneven.one, uneven.other].map(|(part, span, many)| {
            let title = words::piece(garment, size.sewn.part(part).part.piece);
            let pieces = if many == 1 { "in one piece".to_owned() } else { format!("in {many} pieces") };
            (title, span, pieces)
        });
        let title = format!(
            "the {} seam has nothing to sew each piece to: of {} its edges are left {}, of {} {}",
            seam.name, one.0, one.2, other.0, other.2
        );
        let mistake = Diagnostic::new(&catalogue::RUN_UNEVEN, one.1, Title::new(title).in_sizes())
            .label(one.2)
            .also(other.1, other.2)
            .help("take the same runs out of both sides, or make a seam for each piece that is left");
        findings.push(Finding::new(size.drawn.size, 1.0, mistake).about(&*seam.name));
    }
}
