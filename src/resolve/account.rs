//! Nothing is missing without a word. Each step is held to it: what it could not work out it
//! reported, or it looked at something that is missing itself, which has its own account. What is
//! neither is a defect of this program, and is reported here, so that no garment passes without it.

use super::drawn_piece::DrawnPiece;
use super::model::Why;
use super::work::Work;
use crate::few::Few;
use crate::garment::{AlterationId, Made, Node, PaperId, PieceOrigin, Plan, PlanStep, SizeId, Unknown};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::source::Span;

/// How things stood before a step.
#[must_use]
pub(super) struct Before {
    findings: usize,
    inherited: bool,
}

/// Something that is missing, of which nothing was said. `what` is a noun with its article.
pub(crate) fn lost(size: SizeId, span: Span, what: &str) -> Finding {
    let title =
        Title::new(format!("{what} could not be worked out")).in_sizes().then(", and nothing says why");
    let diagnostic = Diagnostic::new(&catalogue::LOST_UNREPORTED, span, title)
        .label("missing")
        .help("this is a defect of this program, not of the garment: please report it with this file; written another way it may well work");
    Finding::new(size, 1.0, diagnostic).about(what)
}

impl Work<'_> {
    /// What was looked at: if it is missing, that has its own account.
    pub(super) fn inherit<T>(&self, found: Option<T>) -> Option<T> {
        if found.is_none() && !self.is_muted() {
            self.inherited.set(true);
        }
        found
    }

    /// Begins a step that is to be accounted for.
    pub(super) fn begin(&self) -> Before {
        Before { findings: self.findings_count(), inherited: self.inherited.replace(false) }
    }

    /// Whether there is an account of what is missing since then.
    fn end(&self, before: &Before) -> bool {
        let accounted = self.inherited.get() || self.findings_count() > before.findings;
        self.inherited.set(self.inherited.get() || before.inherited);
        accounted
    }

    /// Holds a step to its account.
    pub(super) fn account(&mut self, step: &PlanStep, before: &Before) {
        let accounted = self.end(before);
        for &made in &self.made_by(step) {
            let is_missing = self.is_missing(made);
            if is_missing {
                self.missing.insert(made);
            }
            if !accounted && (is_missing || self.lacks_names(made)) {
                self.report_lost(made);
            }
        }
    }

    /// Works out what is said outside of drawings, so that whatever cannot be worked out is reported.
    pub(super) fn work_facts_out(&self) {
        let facts = self.garment.facts();
        for expression in facts.into_iter().filter(|fact| !matches!(fact.node, Node::Constant(_))) {
            let before = self.begin();
            let found = self.scalar(expression, None);
            if !self.end(&before) && found.is_none() {
                self.report(|size| lost(size, expression.span, "this amount"));
            }
        }
    }

    /// What no step made, or none that was held to its account, is reported.
    pub(super) fn account_for_all(&mut self, plan: &Plan) {
        self.missing.extend(plan.left_out.iter().copied());
        let garment = self.garment;
        for at in 0..garment.values.len() {
            self.account_for(Made::Value(crate::garment::ValueId::from_index(at)));
        }
        // Pieces that are made of others come after them.
        for (at, paper) in garment.papers.iter().enumerate() {
            let paper_id = PaperId::from_index(at);
            self.account_for(Made::Version(paper_id, 0));
            for (before, &by) in paper.alterations.iter().enumerate() {
                // A split or join makes versions of other papers.
                if garment.alteration(by).makes.is_empty() {
                    self.account_for(Made::Version(paper_id, before + 1));
                }
            }
        }
        for at in 0..garment.alterations.len() {
            let alteration = AlterationId::from_index(at);
            if garment.alteration(alteration).until().is_some() {
                self.account_for(Made::Amount(alteration));
            }
        }
    }

    fn account_for(&mut self, made: Made) {
        if !self.is_missing(made) || self.missing.contains(&made) {
            return;
        }
        if !self.is_never_made(made) {
            self.report_lost(made);
        }
        self.missing.insert(made);
    }

    /// Whether a paper's maker could not be made sense of, or has nothing to work on.
    fn is_never_made(&self, made: Made) -> bool {
        let Made::Version(paper, _) = made else { return false };
        let paper = self.garment.paper(paper);
        let by = match self.garment.piece(paper.piece).origin {
            PieceOrigin::Drawn => return false,
            PieceOrigin::Split { by, .. } | PieceOrigin::Join { by } => by,
        };
        let is_left_out = |whole: &PaperId| {
            let alterations = &self.garment.paper(*whole).alterations;
            let before = alterations.iter().position(|&own| own == by);
            let mut versions = before.into_iter().flat_map(|before| 0..=before + 1);
            versions.any(|version| self.missing.contains(&Made::Version(*whole, version)))
        };
        self.garment.alteration(by).kind.is_none() || paper.made_of.iter().any(is_left_out)
    }

    fn is_missing(&self, made: Made) -> bool {
        match made {
            Made::Value(value) => self.values.get(value.index()).copied().flatten().is_none(),
            Made::Version(paper, version) => self.drawn(paper, version).is_none(),
            Made::Amount(alteration) => self.amounts.get(alteration.index()).copied().flatten().is_none(),
        }
    }

    /// Whether a drawn paper lacks more names than what it was made from.
    fn lacks_names(&self, made: Made) -> bool {
        let Made::Version(paper, version) = made else { return false };
        let lacking = |drawn: &DrawnPiece| {
            let edges = drawn.missing.edges.iter().map(|&(_, why)| why);
            edges
                .chain(drawn.missing.points.iter().map(|&(_, why)| why))
                .filter(|why| *why == Why::Reported)
                .count()
        };
        let before = match version.checked_sub(1) {
            Some(before) => self.drawn(paper, before),
            None => {
                return self.drawn(paper, 0).is_some_and(|drawn| lacking(drawn) > 0)
                    && !self.is_made_of(paper);
            }
        };
        let (now, before) = (
            self.drawn(paper, version).map_or(0, |drawn| lacking(drawn)),
            before.map_or(0, |drawn| lacking(drawn)),
        );
        now > before
    }

    /// Whether a paper takes its names over from others.
    fn is_made_of(&self, paper: PaperId) -> bool {
        let paper = self.garment.paper(paper);
        let drawing = &self.garment.piece(paper.piece).drawing;
        paper.layer.is_some()
            || !paper.made_of.is_empty()
            || !matches!(
                drawing.outline,
                crate::garment::Outline::Walk { .. } | crate::garment::Outline::Rectangle { .. }
            )
    }

    /// Everything that a step makes.
    fn made_by(&self, step: &PlanStep) -> Few<Made> {
        match step {
            PlanStep::Value(value) => Few::one(Made::Value(*value)),
            PlanStep::Draw(paper) => Few::one(Made::Version(*paper, 0)),
            PlanStep::Solve(solve) => match solve.unknown {
                Unknown::Value(value) => Few::one(Made::Value(value)),
                Unknown::Amount(alteration) => Few::one(Made::Amount(alteration)),
            },
            PlanStep::Alter(alteration, paper) => self.made_by_alteration(*alteration, *paper),
        }
    }

    fn made_by_alteration(&self, id: AlterationId, paper: PaperId) -> Few<Made> {
        let garment = self.garment;
        let alteration = garment.alteration(id);
        if alteration.makes.is_empty() {
            let before = garment.paper(paper).alterations.iter().position(|&own| own == id);
            return before.map(|before| Made::Version(paper, before + 1)).into_iter().collect();
        }
        // A join is made once, of the papers of both pieces.
        let is_of = |made: &PaperId| alteration.unites() || garment.paper(*made).made_of.contains(&paper);
        let papers = alteration.made_pieces().flat_map(|piece| garment.piece(piece).papers.clone());
        papers.filter(is_of).map(|made| Made::Version(made, 0)).collect()
    }

    fn report_lost(&self, made: Made) {
        let garment = self.garment;
        let (what, span) = match made {
            Made::Value(value) => {
                let value = garment.value(value);
                (format!("the value {}", value.name), value.span)
            }
            Made::Version(paper, _) => {
                let piece = garment.piece(garment.paper(paper).piece);
                (format!("the piece {}", piece.title), piece.span)
            }
            Made::Amount(alteration) => {
                ("the amount of this".to_owned(), garment.alteration(alteration).span)
            }
        };
        self.report(|size| lost(size, span, &what));
    }
}
