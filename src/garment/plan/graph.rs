//! What hangs on what.

use crate::garment::{
    AlterationId, Amount, Chain, ClosureKind, Expression, Garment, Made, Moment, Outline, PaperId,
    PieceOrigin, PlanStep, Unknown, Used, ValueId, ValueKind,
};

/// Everything that is worked out, and what each needs.
pub(super) struct Graph {
    pub nodes: Vec<Made>,
    pub needs: Vec<Vec<usize>>,
    /// By paper: the index of its version 0.
    first_version: Vec<usize>,
    /// By alteration: the index of its amount.
    amounts: Vec<usize>,
}

impl Graph {
    pub fn of(garment: &Garment) -> Self {
        let mut nodes: Vec<Made> =
            (0..garment.values.len()).map(|at| Made::Value(ValueId::from_index(at))).collect();
        let mut amounts = Vec::with_capacity(garment.alterations.len());
        for at in 0..garment.alterations.len() {
            amounts.push(nodes.len());
            nodes.push(Made::Amount(AlterationId::from_index(at)));
        }
        let mut first_version = Vec::with_capacity(garment.papers.len());
        for (at, paper) in garment.papers.iter().enumerate() {
            first_version.push(nodes.len());
            nodes.extend((0..=paper.alterations.len()).map(|n| Made::Version(PaperId::from_index(at), n)));
        }
        let mut graph = Graph { nodes, needs: Vec::new(), first_version, amounts };
        graph.needs = (0..graph.nodes.len()).map(|at| graph.needs_of(garment, graph.nodes[at])).collect();
        graph
    }

    /// Whether a node is found by trying.
    pub fn unknown(&self, garment: &Garment, at: usize) -> Option<Unknown> {
        match self.nodes[at] {
            Made::Value(value) => match garment.value(value).kind {
                ValueKind::Solved { .. } => Some(Unknown::Value(value)),
                _ => None,
            },
            Made::Amount(alteration) => {
                garment.alteration(alteration).until().map(|_| Unknown::Amount(alteration))
            }
            Made::Version(..) => None,
        }
    }

    /// The step that works a node out.
    pub fn step(&self, garment: &Garment, at: usize) -> Option<PlanStep> {
        match self.nodes[at] {
            Made::Value(value) => Some(PlanStep::Value(value)),
            Made::Amount(_) => None,
            Made::Version(paper, 0) => match garment.piece(garment.paper(paper).piece).origin {
                PieceOrigin::Drawn => Some(PlanStep::Draw(paper)),
                PieceOrigin::Split { .. } | PieceOrigin::Join { .. } => None,
            },
            Made::Version(paper, version) => {
                let alteration = *garment.paper(paper).alterations.get(version - 1)?;
                // A join is made once, at the paper of its first piece.
                let joined = garment.pieces_joined(alteration);
                let makes_it = joined.first().is_none_or(|&first| {
                    garment.paper(paper).layer.is_none() && garment.paper(paper).piece == first
                });
                makes_it.then_some(PlanStep::Alter(alteration, paper))
            }
        }
    }

    fn version(&self, garment: &Garment, paper: PaperId, version: usize) -> usize {
        self.first_version[paper.index()] + version.min(garment.paper(paper).alterations.len())
    }

    fn needs_of(&self, garment: &Garment, node: Made) -> Vec<usize> {
        let mut needs = Vec::new();
        match node {
            Made::Value(value) => {
                for expression in garment.value(value).kind.expressions() {
                    self.expression(garment, expression, &mut needs);
                }
            }
            Made::Amount(alteration) => {
                if let Some(until) = garment.alteration(alteration).until() {
                    if let Some(about) = &until.about {
                        self.expression(garment, about, &mut needs);
                    }
                    let closure = garment.closure(until.closure);
                    self.chain(garment, &closure.first, &mut needs);
                    self.chain(garment, &closure.second, &mut needs);
                    if let Some(ClosureKind::Zipper { lengths, .. }) = &closure.kind {
                        lengths.iter().for_each(|length| self.expression(garment, length, &mut needs));
                    }
                }
            }
            Made::Version(paper, 0) => self.drawn(garment, paper, &mut needs),
            Made::Version(paper, version) => {
                needs.push(self.version(garment, paper, version - 1));
                if let Some(&alteration) = garment.paper(paper).alterations.get(version - 1) {
                    self.altered(garment, alteration, &mut needs);
                }
            }
        }
        needs.sort_unstable();
        needs.dedup();
        needs
    }

    fn drawn(&self, garment: &Garment, paper: PaperId, needs: &mut Vec<usize>) {
        let made = garment.paper(paper);
        let piece = garment.piece(made.piece);
        match piece.origin {
            PieceOrigin::Split { .. } => {
                // The split of the paper that this one is a half of; a layer's own half may come
                // of a whole that has no paper of that layer.
                for &whole in &made.made_of {
                    needs.push(self.version(garment, whole, usize::MAX));
                }
                return;
            }
            PieceOrigin::Join { by } => {
                if let Some(&first) = garment.pieces_joined(by).first()
                    && let Some(own) = garment.paper_of(None, first)
                {
                    needs.push(self.version(garment, own, usize::MAX));
                }
                return;
            }
            PieceOrigin::Drawn => {}
        }
        if made.layer.is_some() {
            if let Some(own) = garment.paper_of(None, made.piece) {
                needs.push(self.version(garment, own, 0));
            }
            return;
        }
        for expression in piece.drawing.expressions().chain([&piece.cut.count]) {
            self.expression(garment, expression, needs);
        }
        if let Outline::Rest { without, .. } = &piece.drawing.outline
            && let Some(strip) = garment.paper_of(None, *without)
        {
            // What is wrong with the strip is reported where it is drawn.
            needs.push(self.version(garment, strip, 0));
        }
        if let Some(of) = piece.drawing.outline.made_of() {
            self.final_versions(garment, of.paper, needs);
        }
    }

    fn altered(&self, garment: &Garment, alteration: AlterationId, needs: &mut Vec<usize>) {
        match &garment.alteration(alteration).amount {
            Some(Amount::By(by)) => self.expression(garment, by, needs),
            Some(Amount::Until(_)) => needs.push(self.amounts[alteration.index()]),
            None => {}
        }
        if let Some(path) = &garment.alteration(alteration).path {
            path.expressions().for_each(|expression| self.expression(garment, expression, needs));
        }
        if let Some(tapered) = &garment.alteration(alteration).tapered {
            tapered.by.iter().for_each(|expression| self.expression(garment, expression, needs));
        }
        if let Some(change) = &garment.alteration(alteration).dart {
            change
                .expressions()
                .into_iter()
                .for_each(|expression| self.expression(garment, expression, needs));
        }
        for piece in garment.pieces_joined(alteration) {
            for &paper in &garment.piece(piece).papers {
                let before = garment.paper(paper).alterations.len().saturating_sub(1);
                needs.push(self.version(garment, paper, before));
            }
        }
    }

    /// Everything that the edges of a closure may lie on.
    fn chain(&self, garment: &Garment, chain: &Chain, needs: &mut Vec<usize>) {
        for edge in &chain.edges {
            if let Some(own) = garment.edge(edge.edge).portion {
                let portion = garment.portion(own.portion);
                let amounts = portion.from.iter().chain([&portion.to]);
                amounts.for_each(|amount| self.expression(garment, amount, needs));
            }
            match edge.layer {
                Some(layer) => {
                    if let Some(paper) = garment.paper_of(Some(layer), edge.piece) {
                        self.final_versions(garment, paper, needs);
                    }
                }
                None => {
                    for &paper in &garment.piece(edge.piece).papers {
                        self.final_versions(garment, paper, needs);
                    }
                }
            }
        }
    }

    /// The last version of a paper, or of those that it becomes.
    fn final_versions(&self, garment: &Garment, paper: PaperId, needs: &mut Vec<usize>) {
        let layer = garment.paper(paper).layer;
        let mut open = vec![paper];
        while let Some(paper) = open.pop() {
            needs.push(self.version(garment, paper, usize::MAX));
            if let Some(ended) = garment.piece(garment.paper(paper).piece).ended_by {
                let made = garment.alteration(ended).made_pieces();
                open.extend(made.filter_map(|next| garment.paper_of(layer, next)));
            }
        }
    }

    fn expression(&self, garment: &Garment, expression: &Expression, needs: &mut Vec<usize>) {
        for used in expression.uses() {
            let paper = match used {
                Used::Value(value) => {
                    needs.push(value.index());
                    continue;
                }
                Used::Point(used) => &used.paper,
                Used::Edge(used) => &used.paper,
                Used::Paper(used) => used,
            };
            match paper.moment {
                Moment::Own => {}
                Moment::After(version) => needs.push(self.version(garment, paper.paper, version as usize)),
                Moment::Final => self.final_versions(garment, paper.paper, needs),
            }
        }
    }
}
