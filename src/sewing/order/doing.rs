//! What is done, as rules and makers speak of it.

use super::jobs::{Job, Work};
use crate::garment::{ClosureId, EdgeId, FinishKind, Garment, LayerId, SeamId, TakeUp};
use crate::source::Span;

/// Something that is done, as rules speak of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Doing {
    /// A job.
    Job(Job),
    /// A closure is put in its place for the first time, basted or sewn.
    PutIn(ClosureId),
    /// A seam is sewn in the first of its layers.
    Begun(SeamId),
    /// A seam is sewn in the last of its layers.
    Whole(SeamId),
}

/// What a job is called, where it is declared, and how a step would name it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Called {
    /// "the seam side".
    pub what: String,
    /// Where it is declared.
    pub declared: Span,
    /// "sew side".
    pub step: String,
    /// "sewn".
    pub done: String,
}

impl Work<'_> {
    /// What a job is called.
    pub fn call(&self, job: Job) -> Option<Called> {
        let garment = self.garment;
        let named = |what: String, declared: Span, step: String, done: &str| {
            Some(Called { what, declared, step, done: done.to_owned() })
        };
        match job {
            Job::Seam(at) => {
                let seam = garment.seam(self.stitchings.get(at)?.seam);
                named(format!("the seam {}", seam.name), seam.name_span, format!("sew {}", seam.name), "sewn")
            }
            Job::Finish(id, nth, _) => {
                let finish = garment.finish(id);
                let sewn = finish.edges.get(nth)?;
                let is_hem = matches!(finish.kind, FinishKind::Hem(_));
                // A step names the edge, whatever run of it is finished.
                let whole = garment.edge(garment.whole_edge(sewn.edge));
                let edge = format!("{}.{}", garment.part_name(sewn.layer, sewn.piece), whole.name);
                let (verb, done) = if is_hem { ("hem", "hemmed") } else { ("finish", "finished") };
                named(edge_of(garment, sewn.edge), sewn.span, format!("{verb} {edge}"), done)
            }
            Job::Closure(id) => {
                let closure = garment.closure(id);
                let what = format!("the closure {}", closure.name);
                named(what, closure.name_span, format!("sew {}", closure.name), "sewn in")
            }
            Job::PutIn(id) => {
                let closure = garment.closure(id);
                let what = format!("the closure {}", closure.name);
                named(what, closure.name_span, format!("baste {}", closure.name), "put in its place")
            }
            Job::Place(id, _) => {
                let placement = garment.placement(id);
                let piece = garment.piece(placement.piece);
                named(piece.title.to_string(), placement.span, format!("place {}", piece.name), "placed")
            }
            Job::TakeUp(_, name) => {
                let dart = garment.edge(name);
                let piece = garment.piece(dart.piece);
                let what = format!("{} of {}", dart.name, piece.title);
                let open = garment.take_up(name).is_some_and(TakeUp::hangs_open);
                let (verb, done) = if open { ("baste", "basted") } else { ("sew", "sewn") };
                named(what, dart.span, format!("{verb} {}.{}", piece.name, dart.name), done)
            }
            Job::Fuse(layer, piece) => {
                let (layer, piece) = (garment.layer(layer), garment.piece(piece));
                let what = format!("{} of {}", piece.title, layer.name);
                named(what, layer.span, format!("fuse {}", piece.name), "fused on")
            }
            Job::Cord(id) => {
                let cord = garment.cord(id);
                named(
                    format!("the cord {}", cord.name),
                    cord.span,
                    format!("thread {}", cord.name),
                    "threaded",
                )
            }
            Job::Row(id) => {
                let row = garment.row(id);
                let (word, name) = (row.kind.word(), &row.name);
                let what = format!("the {} {name}", row.kind.gerund());
                named(what, row.name_span, format!("{word} {name}"), "done")
            }
            Job::Tack(id) => {
                let tack = garment.tack(id);
                let done = if tack.sets.is_some() { "set" } else { "sewn" };
                let what = format!("the {} {}", tack.word(), tack.name);
                named(what, tack.name_span, format!("{} {}", tack.word(), tack.name), done)
            }
            Job::Strap(id) => {
                let strap = garment.strap(id);
                let what = format!("the strap {}", strap.name);
                named(what, strap.name_span, format!("place {}", strap.name), "sewn on")
            }
            Job::Turn(id) | Job::Gap(id) => {
                let seam = garment.seam(id);
                let span = seam.gaps.first().map_or(seam.name_span, |gap| gap.span);
                let name = &seam.name;
                match job {
                    Job::Turn(_) => {
                        let step = format!("turn through gap in {name}");
                        named("anything".to_owned(), span, step, &format!("turned through the gap in {name}"))
                    }
                    _ => {
                        let step = format!("slipstitch gap in {name}");
                        named(format!("the gap in {name}"), span, step, "closed")
                    }
                }
            }
        }
    }

    /// Where a job is declared.
    pub fn declared(&self, job: Job) -> Span {
        self.call(job).map_or(self.garment.heading, |called| called.declared)
    }

    /// "sewing side".
    pub fn doing(&self, doing: Doing) -> String {
        let garment = self.garment;
        match doing {
            Doing::Begun(id) | Doing::Whole(id) => format!("sewing {}", garment.seam(id).name),
            Doing::PutIn(id) | Doing::Job(Job::PutIn(id)) => {
                format!("putting in {}", garment.closure(id).name)
            }
            Doing::Job(Job::Seam(at)) => {
                let seam = self.stitchings.get(at).map(|stitching| stitching.seam);
                seam.map_or_else(String::new, |seam| format!("sewing {}", garment.seam(seam).name))
            }
            Doing::Job(Job::Closure(id)) => format!("sewing {}", garment.closure(id).name),
            Doing::Job(Job::Strap(id)) => format!("placing {}", garment.strap(id).name),
            Doing::Job(Job::Row(id)) => {
                let row = garment.row(id);
                format!("{} {}", row.kind.gerund(), row.name)
            }
            Doing::Job(Job::Tack(id)) => {
                let tack = garment.tack(id);
                format!("{} {}", if tack.sets.is_some() { "setting" } else { "tacking" }, tack.name)
            }
            Doing::Job(Job::Cord(id)) => format!("threading {}", garment.cord(id).name),
            Doing::Job(Job::Fuse(_, piece)) => format!("fusing {}", garment.piece(piece).title),
            Doing::Job(Job::Turn(_)) => "turning".to_owned(),
            Doing::Job(Job::Gap(id)) => format!("closing the gap in {}", garment.seam(id).name),
            Doing::Job(Job::Place(id, _)) => {
                format!("placing {}", garment.piece(garment.placement(id).piece).title)
            }
            Doing::Job(Job::Finish(id, nth, _)) => {
                let sewn = garment.finish(id).edges.get(nth);
                sewn.map_or_else(String::new, |sewn| format!("finishing {}", edge_of(garment, sewn.edge)))
            }
            Doing::Job(Job::TakeUp(_, name)) => {
                let dart = garment.edge(name);
                format!("sewing {} of {}", dart.name, garment.piece(dart.piece).title)
            }
        }
    }

    /// The layer that a job is in, where the same is done in several.
    pub fn layer_of_job(&self, job: Job) -> Option<LayerId> {
        match job {
            Job::Seam(at) => self.stitchings.get(at)?.layer,
            Job::Finish(_, _, layer) | Job::Place(_, layer) | Job::TakeUp(layer, _) => Some(layer),
            Job::Closure(_)
            | Job::PutIn(_)
            | Job::Fuse(..)
            | Job::Cord(_)
            | Job::Row(_)
            | Job::Tack(_)
            | Job::Strap(_)
            | Job::Turn(_)
            | Job::Gap(_) => None,
        }
    }
}

/// "the hem of Front".
fn edge_of(garment: &Garment, edge: EdgeId) -> String {
    let named = garment.edge(edge);
    format!("the {} of {}", named.name, garment.piece(named.piece).title)
}
