//! `zipper/shows`: a concealed zip of which something is to show.

use super::{Check, Run};
use crate::garment::{ClosureKind, Garment};
use crate::report::{Diagnostic, catalogue};
use crate::syntax::tree::ZipperKind;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::ZIPPER_SHOWS], run: Run::Once(run) };

fn run(garment: &Garment, diagnostics: &mut Vec<Diagnostic>) {
    for closure in &garment.closures {
        if let Some(ClosureKind::Zipper { kind: ZipperKind::Concealed, showing: Some(showing), .. }) =
            &closure.kind
        {
            let title = format!("{} is concealed, and some of it is to show", closure.name);
            diagnostics.push(
                Diagnostic::new(&catalogue::ZIPPER_SHOWS, showing.span, title)
                    .label("nothing of a concealed zip shows")
                    .help("leave showing out, and draw its edges to meet; or take a zip that is closed or separating"),
            );
        }
    }
}
