//! What hangs on what.

use crate::garment::{
    AlterationId, AlterationNode, Amount, Chain, ClosureKind, Direction, EdgePath, Expression, Garment,
    Geometry, LineRun, Moment, Node, Outline, PaperId, PieceId, PieceOrigin, PlanStep, Unknown, ValueId,
    ValueKind,
};

/// One thing that is worked out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Made {
    /// A value.
    Value(ValueId),
    /// A paper after so many of its alterations. Of a paper that a split or join ends, the last
    /// version is that split or join.
    Version(PaperId, usize),
    /// The amount of an alteration that is sought.
    Amount(AlterationId),
}

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
                until(garment, alteration).is_some().then_some(Unknown::Amount(alteration))
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
                match &garment.alteration(alteration).node {
                    AlterationNode::Join { first, .. } => {
                        let makes_it =
                            garment.paper(paper).layer.is_none() && garment.paper(paper).piece == first.piece;
                        makes_it.then_some(PlanStep::Alter(alteration, paper))
                    }
                    _ => Some(PlanStep::Alter(alteration, paper)),
                }
            }
        }
    }

    fn version(&self, garment: &Garment, paper: PaperId, version: usize) -> usize {
        self.first_version[paper.index()] + version.min(garment.paper(paper).alterations.len())
    }

    fn needs_of(&self, garment: &Garment, node: Made) -> Vec<usize> {
        let mut needs = Vec::new();
        match node {
            Made::Value(value) => match &garment.value(value).kind {
                ValueKind::Body(expression) | ValueKind::Let(expression) => {
                    self.expression(garment, expression, &mut needs)
                }
                ValueKind::Measure { value, .. } => self.expression(garment, value, &mut needs),
                ValueKind::Solved { low, high, left, right, .. } => {
                    for expression in [low, high, left, right] {
                        self.expression(garment, expression, &mut needs);
                    }
                }
            },
            Made::Amount(alteration) => {
                if let Some((about, closure)) = until(garment, alteration) {
                    if let Some(about) = about {
                        self.expression(garment, about, &mut needs);
                    }
                    let closure = garment.closure(closure);
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
                if let AlterationNode::Join { first, .. } = &garment.alteration(by).node
                    && let Some(own) = garment.paper_of(None, first.piece)
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
        let drawing = &piece.drawing;
        let mut all: Vec<&Expression> = vec![&piece.cut.count];
        all.extend(drawing.spots.iter().map(|spot| &spot.at));
        all.extend(drawing.moves.iter().map(|moved| &moved.by));
        all.extend(drawing.divides.iter().map(|divide| &divide.distance));
        all.extend(drawing.notches.iter().map(|notch| &notch.distance));
        for line in &drawing.lines {
            match &line.run {
                LineRun::Across(at) | LineRun::Along(at) => all.push(at),
                LineRun::FromTo(from, to) => all.extend([from, to]),
            }
        }
        match &drawing.outline {
            Outline::None => {}
            Outline::Walk { edges, .. } => {
                edges.iter().for_each(|edge| path_expressions(&edge.path, &mut all))
            }
            Outline::Rectangle { width, height, .. } => all.extend([width, height]),
            Outline::Copy { of, .. } => self.final_versions(garment, of.paper, needs),
            Outline::Strip { of, width, .. } | Outline::Rest { of, width, .. } => {
                all.push(width);
                self.final_versions(garment, of.paper, needs);
            }
        }
        all.into_iter().for_each(|expression| self.expression(garment, expression, needs));
    }

    fn altered(&self, garment: &Garment, alteration: AlterationId, needs: &mut Vec<usize>) {
        match &garment.alteration(alteration).node {
            AlterationNode::Lengthen { amount: Amount::By(by), .. }
            | AlterationNode::Extend { by, .. }
            | AlterationNode::Flare { by, .. }
            | AlterationNode::Spread { by, .. }
            | AlterationNode::ShowZip { by, .. } => self.expression(garment, by, needs),
            AlterationNode::Lengthen { amount: Amount::Until { .. }, .. } => {
                needs.push(self.amounts[alteration.index()]);
            }
            AlterationNode::Redraw { path, .. } => {
                let mut all = Vec::new();
                path_expressions(path, &mut all);
                all.into_iter().for_each(|expression| self.expression(garment, expression, needs));
            }
            AlterationNode::Join { first, second, .. } => {
                for piece in [first.piece, second.piece] {
                    for &paper in &garment.piece(piece).papers {
                        let before = garment.paper(paper).alterations.len().saturating_sub(1);
                        needs.push(self.version(garment, paper, before));
                    }
                }
            }
            AlterationNode::CutOff { .. }
            | AlterationNode::Open { .. }
            | AlterationNode::Split { .. }
            | AlterationNode::Poison(_) => {}
        }
    }

    /// Everything that the edges of a closure may lie on.
    fn chain(&self, garment: &Garment, chain: &Chain, needs: &mut Vec<usize>) {
        for edge in &chain.edges {
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
            let piece = garment.paper(paper).piece;
            open.extend(became(garment, piece).into_iter().filter_map(|next| garment.paper_of(layer, next)));
        }
    }

    fn expression(&self, garment: &Garment, expression: &Expression, needs: &mut Vec<usize>) {
        let paper = |used: &crate::garment::PaperUse, needs: &mut Vec<usize>| match used.moment {
            Moment::Own => {}
            Moment::After(version) => needs.push(self.version(garment, used.paper, version as usize)),
            Moment::Final => self.final_versions(garment, used.paper, needs),
        };
        match &expression.node {
            Node::Poison | Node::Constant(_) => {}
            Node::Value(value) => needs.push(value.index()),
            Node::EachSize(values) | Node::Call(_, values) => {
                values.iter().for_each(|value| self.expression(garment, value, needs));
            }
            Node::Sum(terms) | Node::Product(terms) => {
                terms.iter().for_each(|(_, term)| self.expression(garment, term, needs));
            }
            Node::Negative(inner) => self.expression(garment, inner, needs),
            Node::Pair(pair) => {
                self.expression(garment, &pair.0, needs);
                self.expression(garment, &pair.1, needs);
            }
            Node::Point(used) => paper(&used.paper, needs),
            Node::Geometry(geometry) => match &**geometry {
                Geometry::Length(used) | Geometry::Finished(used) => paper(&used.paper, needs),
                Geometry::Total(uses) => uses.iter().for_each(|(_, used)| paper(&used.paper, needs)),
                Geometry::Width(used) | Geometry::Height(used) => paper(used, needs),
                Geometry::X(point) | Geometry::Y(point) => self.expression(garment, point, needs),
                Geometry::Distance(from, to) => {
                    self.expression(garment, from, needs);
                    self.expression(garment, to, needs);
                }
            },
        }
    }
}

/// What a split or join makes of a piece.
fn became(garment: &Garment, piece: PieceId) -> Vec<PieceId> {
    let Some(ended) = garment.piece(piece).ended_by else { return Vec::new() };
    match garment.alteration(ended).node {
        AlterationNode::Split { into, .. } => vec![into.0, into.1],
        AlterationNode::Join { into, .. } => vec![into],
        _ => Vec::new(),
    }
}

fn until(
    garment: &Garment,
    alteration: AlterationId,
) -> Option<(Option<&Expression>, crate::garment::ClosureId)> {
    match &garment.alteration(alteration).node {
        AlterationNode::Lengthen { amount: Amount::Until { about, closure, .. }, .. } => {
            Some((about.as_ref(), *closure))
        }
        _ => None,
    }
}

fn path_expressions<'e>(path: &'e EdgePath, all: &mut Vec<&'e Expression>) {
    match path {
        EdgePath::Straight => {}
        EdgePath::Curve { leaving, arriving, through, .. } => {
            for direction in [leaving, arriving].into_iter().flatten() {
                if let Direction::Angle(expression) | Direction::Toward(expression) = direction {
                    all.push(expression);
                }
            }
            all.extend(through);
        }
        EdgePath::Arc { about, .. } => all.push(about),
    }
}
