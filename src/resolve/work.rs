//! What is known of one size while it is worked out.

use super::drawn_piece::DrawnPiece;
use super::model::Quantity;
use super::remembering::Remembering;
use crate::garment::{Garment, LayerId, Made, Moment, PaperId, PieceId, SizeId};
use crate::report::{self, Diagnostic, Finding};
use indexmap::IndexSet;
use std::cell::{Cell, RefCell};
use std::sync::Arc;

/// A paper at one version; none where it could not be worked out.
pub(super) type Drawn = Option<Arc<DrawnPiece>>;

/// The layer's own paper of the same piece, if it has one.
pub(super) fn own_of_layer(garment: &Garment, paper: PaperId, layer: Option<LayerId>) -> PaperId {
    let piece = garment.paper(paper).piece;
    layer.and_then(|layer| garment.paper_of(Some(layer), piece)).unwrap_or(paper)
}

/// What is known of one size so far. Findings are held behind a cell so that whatever only looks
/// can tell what it saw.
pub(super) struct Work<'g> {
    pub(super) garment: &'g Garment,
    pub(super) size: SizeId,
    /// What is remembered of the size from before.
    pub(super) memory: Option<Remembering<'g>>,
    pub(super) values: Vec<Option<Quantity>>,
    /// By paper, then by version.
    versions: Vec<Vec<Drawn>>,
    /// By alteration.
    pub(super) amounts: Vec<Option<f64>>,
    /// The zip chosen for a closure that an amount was found for, by closure.
    pub(super) chosen: Vec<Option<f64>>,
    /// What could not be worked out, each with its account.
    pub(super) missing: IndexSet<Made>,
    /// Something was looked at, since the step began, that is missing itself.
    pub(super) inherited: Cell<bool>,
    pub(super) findings: RefCell<Vec<Finding>>,
    muted: Cell<bool>,
}

impl<'g> Work<'g> {
    /// Nothing is known yet.
    pub(super) fn new(garment: &'g Garment, size: SizeId) -> Self {
        Work {
            garment,
            size,
            memory: None,
            values: vec![None; garment.values.len()],
            versions: vec![Vec::new(); garment.papers.len()],
            amounts: vec![None; garment.alterations.len()],
            chosen: vec![None; garment.closures.len()],
            missing: IndexSet::new(),
            inherited: Cell::new(false),
            findings: RefCell::new(Vec::new()),
            muted: Cell::new(false),
        }
    }

    /// Reports something, unless an amount is only being tried.
    pub(super) fn report(&self, make: impl FnOnce(SizeId) -> Finding) {
        if !self.muted.get() {
            self.findings.borrow_mut().push(make(self.size));
        }
    }

    /// Reports a mistake about a subject, whose weight is all that differs by size.
    pub(super) fn mistake(&self, weight: f64, subject: &str, make: impl FnOnce() -> Diagnostic) {
        self.report(|size| Finding::new(size, weight, make()).about(subject));
    }

    /// Whether nothing is reported just now.
    pub(super) fn is_muted(&self) -> bool {
        self.muted.get()
    }

    /// Reports nothing from here on, or reports again; gives what it was.
    pub(super) fn mute(&self, muted: bool) -> bool {
        self.muted.replace(muted)
    }

    /// A length as a tape shows it.
    pub(super) fn amount(&self, millimetres: f64) -> String {
        report::amount(millimetres, self.garment.unit)
    }

    /// What people call the piece.
    pub(super) fn title(&self, piece: PieceId) -> &'g str {
        &self.garment.piece(piece).title
    }

    /// A paper after `after` of its alterations.
    pub(super) fn version(&self, paper: PaperId, after: usize) -> Option<&Arc<DrawnPiece>> {
        self.inherit(self.drawn(paper, after))
    }

    /// The same where it does not matter if there is one.
    pub(super) fn drawn(&self, paper: PaperId, after: usize) -> Option<&Arc<DrawnPiece>> {
        self.versions.get(paper.index())?.get(after)?.as_ref()
    }

    /// Whether something was found, or looked at and missing, since so much was found.
    pub(super) fn is_told_of(&self, findings: usize) -> bool {
        self.findings_count() > findings || self.inherited.get()
    }

    /// How much was found so far.
    pub(super) fn findings_count(&self) -> usize {
        self.findings.borrow().len()
    }

    /// Lays a version down; a solver lays it again for every try.
    pub(super) fn set_version(&mut self, paper: PaperId, after: usize, drawn: Drawn) {
        let Some(versions) = self.versions.get_mut(paper.index()) else { return };
        if versions.len() <= after {
            versions.resize(after + 1, None);
        }
        if let Some(place) = versions.get_mut(after) {
            *place = drawn;
        }
    }

    /// The papers that a piece is in the end, in a layer; none while any of them is unknown.
    pub(super) fn finally(&self, layer: Option<LayerId>, piece: PieceId) -> Option<Vec<&Arc<DrawnPiece>>> {
        let paper = self.garment.paper_of(layer, piece)?;
        self.final_papers(paper, layer).into_iter().map(|paper| self.last(paper)).collect()
    }

    /// The last version of a paper that was not split or joined into others.
    pub(super) fn last(&self, paper: PaperId) -> Option<&Arc<DrawnPiece>> {
        let known = self.garment.papers.get(paper.index())?;
        match known.becomes.is_empty() {
            true => self.version(paper, known.alterations.len()),
            false => None,
        }
    }

    /// The papers that a paper is at a moment: itself, or what became of it. None while any of
    /// them is unknown.
    pub(super) fn at(&self, paper: PaperId, moment: Moment) -> Option<Vec<&Arc<DrawnPiece>>> {
        match moment {
            Moment::Own => None,
            Moment::After(count) => Some(vec![self.version(paper, count as usize)?]),
            Moment::Final => {
                let ends = self.final_papers(paper, self.garment.papers.get(paper.index())?.layer);
                ends.into_iter().map(|paper| self.last(paper)).collect()
            }
        }
    }

    /// What became of a paper in the end, in order; itself if it was never split or joined. Looked
    /// at in a layer: that layer's own papers, from where it has some.
    pub(super) fn final_papers(&self, paper: PaperId, layer: Option<LayerId>) -> Vec<PaperId> {
        let mut ends = Vec::new();
        let mut open = vec![paper];
        while let Some(paper) = open.pop() {
            let Some(known) = self.garment.papers.get(paper.index()) else { continue };
            match known.becomes.is_empty() {
                true => ends.push(paper),
                false => {
                    let next = known.becomes.iter().rev();
                    open.extend(next.map(|&next| own_of_layer(self.garment, next, layer)));
                }
            }
        }
        ends
    }

    /// Of each paper that is altered, how it was drafted.
    pub(super) fn first_versions(&self) -> Vec<Drawn> {
        let first = |(paper, versions): (&crate::garment::Paper, &Vec<Drawn>)| {
            let first = versions.first().filter(|_| !paper.alterations.is_empty());
            first.cloned().flatten()
        };
        self.garment.papers.iter().zip(&self.versions).map(first).collect()
    }

    /// The last version of each paper, before runs of edges and slits are cut.
    pub(super) fn last_versions(&self) -> Vec<Drawn> {
        (0..self.garment.papers.len()).map(|at| self.last(PaperId::from_index(at)).cloned()).collect()
    }
}

/// A plain number without needless digits.
pub(super) fn plain(value: f64) -> String {
    let rounded = libm::round(value * 1000.0) / 1000.0;
    format!("{}", if rounded == 0.0 { 0.0 } else { rounded })
}
