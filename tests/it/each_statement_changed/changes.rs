//! The changes that are made in one file.

use super::walked::{Facts, Walked};
use fustian::source::{SourceMap, Span};
use fustian::syntax::parse;
use fustian::syntax::tree::{
    Dotted, EdgePlace, Expr, ExprKind, NotchesApart, Seam, SeamItemNode, SewnWords, Statement, StepGroup,
    Unit,
};
use std::ops::Range;

/// A way of changing a statement.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Way {
    Dropped,
    Doubled,
    SidesSwapped,
    EndsSwapped,
    TwinEdge,
    OtherLayer,
    Count,
    Length,
    StepsSwapped,
}

/// One change of one example.
pub struct Change {
    pub walked: Walked,
    pub way: Way,
    /// What is changed: "seam armhole", "finish front.hem: depth".
    pub what: String,
    pub edits: Vec<(Range<usize>, String)>,
}

impl Change {
    /// The file's text after it.
    pub fn text(&self) -> String {
        let mut edits = self.edits.clone();
        edits.sort_by_key(|(at, _)| at.start);
        let mut text = self.walked.text().to_owned();
        for (at, words) in edits.iter().rev() {
            text.replace_range(at.clone(), words);
        }
        text
    }
}

/// All that are made in a file.
pub fn changes(walked: Walked) -> Vec<Change> {
    let text = walked.text();
    let mut map = SourceMap::default();
    let id = map.add(walked.file, text);
    let mut changing = Changing { walked, text, facts: Facts::of(walked), changes: Vec::new() };
    for statement in parse(&map, id).file.statements {
        changing.statement(&statement);
    }
    changing.changes
}

pub fn range(span: Span) -> Range<usize> {
    span.lo as usize..span.hi as usize
}

/// The changes of one file.
pub struct Changing {
    pub walked: Walked,
    text: &'static str,
    facts: Facts,
    changes: Vec<Change>,
}

impl Changing {
    pub fn add(&mut self, way: Way, what: impl Into<String>, edits: Vec<(Range<usize>, String)>) {
        self.changes.push(Change { walked: self.walked, way, what: what.into(), edits });
    }

    pub fn words(&self, at: Range<usize>) -> String {
        self.text[at].to_owned()
    }

    pub fn blank(&self, at: Range<usize>) -> String {
        self.text[at].chars().map(|letter| if letter == '\n' { '\n' } else { ' ' }).collect()
    }

    pub fn drop_and_double(&mut self, what: &str, span: Span, name: Option<Range<usize>>) {
        let at = range(span);
        self.add(Way::Dropped, what, vec![(at.clone(), self.blank(at.clone()))]);
        let mut again = self.words(at.clone());
        if let Some(word) = again.strip_prefix("replace ") {
            again = format!("{}{word}", " ".repeat("replace ".len()));
        }
        if let Some(name) = name {
            let own = self.words(name.clone());
            let from = name.start - at.start;
            again.replace_range(from..from + own.len(), &format!("{own}_again"));
        }
        let again = again.trim_start().to_owned();
        self.add(Way::Doubled, what, vec![(at.end..at.end, format!("\n{again}"))]);
    }

    /// What stands at the one place at the other, and the other way round.
    pub fn exchange(&mut self, way: Way, what: String, [one, other]: [Range<usize>; 2]) {
        let edits = vec![(one.clone(), self.words(other.clone())), (other, self.words(one))];
        self.add(way, what, edits);
    }

    /// Words that stand behind a place in the same line, if they do.
    pub fn reworded(&mut self, way: Way, what: &str, behind: usize, own: &str, other: &str) {
        let line = self.text[behind..].lines().next().unwrap_or_default();
        if let Some(at) = line.find(own) {
            let at = behind + at..behind + at + own.len();
            self.add(way, format!("{what}: {own} to {other}"), vec![(at, other.to_owned())]);
        }
    }

    /// An edge, and where a run of it is meant, how far that goes.
    pub fn sewn(&mut self, what: &str, sewn: &SewnWords) {
        self.edge(what, &sewn.edge);
        for over in &sewn.over {
            self.sewn(what, over);
        }
        if let Some(run) = &sewn.run {
            for amount in run.from.iter().chain([&run.to]) {
                self.number(&format!("{what}: run"), amount);
            }
        }
    }

    /// An edge named by its twin: the edge of the same name on another piece, or the same piece in
    /// another layer.
    pub fn edge(&mut self, what: &str, edge: &Dotted) {
        let parts: Vec<String> = edge.parts.iter().map(|part| part.text.to_string()).collect();
        let is_layer = |word: &String| self.facts.layers.values().any(|layers| layers.contains(word));
        let (layer, piece, name) = match parts.as_slice() {
            [first, ..] if parts.len() == 3 && !is_layer(first) => return,
            [piece, name] => (None, piece.clone(), name.clone()),
            [layer, piece, name] => (Some(layer.clone()), piece.clone(), name.clone()),
            _ => return,
        };
        let said = parts.join(".");
        let twins: Vec<String> = self
            .facts
            .edges
            .iter()
            .filter(|(other, edges)| **other != piece && edges.contains(&name))
            .map(|(other, _)| other.clone())
            .collect();
        for twin in twins {
            let layer = match &layer {
                Some(layer) if self.facts.layers[&twin].contains(layer) => format!("{layer}."),
                _ => String::new(),
            };
            let words = format!("{layer}{twin}.{name}");
            self.add(Way::TwinEdge, format!("{what}: {said} to {words}"), vec![(range(edge.span), words)]);
        }
        let layers = self.facts.layers.get(&piece).cloned().unwrap_or_default();
        let others = layers.iter().filter(|other| Some(*other) != layer.as_ref() && layers.len() > 1);
        for other in others {
            let words = format!("{other}.{piece}.{name}");
            self.add(Way::OtherLayer, format!("{what}: {said} to {words}"), vec![(range(edge.span), words)]);
        }
    }

    /// A number of an expression a fifth less and more; of a count, one less and more.
    pub fn number(&mut self, what: &str, expr: &Expr) {
        match &expr.kind {
            ExprKind::Quantity(quantity) => {
                let own = self.words(range(quantity.span));
                let unit = quantity.unit.map(|unit| self.words(range(unit.span))).unwrap_or_default();
                if quantity.unit.is_some_and(|unit| unit.unit == Unit::Count) {
                    return;
                }
                for (share, sign) in [(0.8, "-"), (1.2, "+")] {
                    let number = (quantity.number * share * 1000.0).round() / 1000.0;
                    let edit = vec![(range(quantity.span), format!("{number}{unit}"))];
                    self.add(Way::Length, format!("{what} {own} {sign} 20%"), edit);
                }
            }
            ExprKind::Product(factors) => {
                if let Some((_, last)) = factors.last() {
                    self.number(what, last);
                }
            }
            _ => {
                let own = self.words(range(expr.span));
                for (share, sign) in [("80%", "-"), ("120%", "+")] {
                    let edit = vec![(range(expr.span), format!("({own}) * {share}"))];
                    self.add(Way::Length, format!("{what} {own} {sign} 20%"), edit);
                }
            }
        }
    }

    pub fn count(&mut self, what: &str, expr: &Expr) {
        let ExprKind::Quantity(quantity) = &expr.kind else { return };
        for number in [quantity.number - 1.0, quantity.number + 1.0] {
            self.add(
                Way::Count,
                format!("{what} to {number}"),
                vec![(range(quantity.span), number.to_string())],
            );
        }
    }

    pub fn seam(&mut self, statement: &Statement, seam: &Seam) {
        let what = format!("seam {}", seam.name.text);
        self.drop_and_double(&what, statement.span, Some(range(seam.name.span)));
        if seam.across_fold {
            return;
        }
        let (first, second) = (range(seam.first.span), range(seam.second.span));
        let swap = vec![(first.clone(), self.words(second.clone())), (second.clone(), self.words(first))];
        let fitted = if seam.fit.is_some() { "fitted " } else { "" };
        self.add(Way::SidesSwapped, format!("{fitted}{what}"), swap);
        for sewn in seam.first.plies.iter().chain(&seam.second.plies).flat_map(|ply| &ply.edges) {
            self.sewn(&what, sewn);
        }
        if let Some(fit) = &seam.fit {
            self.number(&format!("{what}: fit low"), &fit.low);
            if let Some(high) = &fit.high {
                self.number(&format!("{what}: fit high"), high);
            }
        }
        let mut matching: Option<Range<usize>> = None;
        for item in &seam.items {
            match &item.node {
                SeamItemNode::Allowance(length) => self.number(&format!("{what}: allowance"), length),
                SeamItemNode::Notch { place, .. } => {
                    if let EdgePlace::At { value, .. } = place {
                        self.number(&format!("{what}: notch"), value);
                    }
                }
                SeamItemNode::Notches { apart: NotchesApart::Every(length), .. } => {
                    self.number(&format!("{what}: notch"), length);
                }
                SeamItemNode::Notches { .. } => {}
                SeamItemNode::Gap { length, .. } => self.number(&format!("{what}: gap"), length),
                SeamItemNode::Matching(..) => {
                    let at = range(item.span);
                    matching = Some(match matching {
                        Some(before) => before.start..at.end,
                        None => at,
                    });
                }
                SeamItemNode::Kind { width, .. } => self.number(&format!("{what}: width"), width),
                SeamItemNode::Caught { place, .. } => {
                    let at = range(item.span);
                    let gone = vec![(at.clone(), self.blank(at))];
                    self.add(Way::Dropped, format!("{what}: caught"), gone);
                    if let EdgePlace::At { value, from: Some(_) } = place {
                        self.number(&format!("{what}: caught"), value);
                    }
                }
                SeamItemNode::Stitch(_) | SeamItemNode::Tape(_) => {}
            }
        }
        self.ends(&what, statement, seam, matching);
    }

    /// Sewn end for end: the start of the one side on the end of the other.
    fn ends(&mut self, what: &str, statement: &Statement, seam: &Seam, matching: Option<Range<usize>>) {
        let own: Vec<[String; 2]> = self
            .facts
            .ends
            .iter()
            .filter(|((name, _), _)| **name == *seam.name.text)
            .flat_map(|(_, ends)| ends.clone())
            .collect();
        let (Some([one, _]), Some([_, other])) = (own.first(), own.iter().find(|pair| pair[0] != own[0][0]))
        else {
            return;
        };
        // Corners without a name cannot be written.
        if one.contains('/') || other.contains('/') || own[0][1] == *other {
            return;
        }
        // Where a seam names no layer, its corners are the piece's.
        let names_layers = seam.first.plies.iter().chain(&seam.second.plies).flat_map(|ply| &ply.edges);
        let names_layers = names_layers.clone().any(|sewn| sewn.edge.parts.len() == 3);
        let plain = |corner: &str| match names_layers {
            true => corner.to_owned(),
            false => corner.split_once('.').map_or(corner, |(_, rest)| rest).to_owned(),
        };
        let line = format!("matching {} with {}", plain(one), plain(other));
        let edit = match matching {
            Some(at) => (at, line),
            None => {
                let end = statement.span.hi as usize;
                match self.text[..end].ends_with('}') {
                    true => (end - 1..end - 1, format!("; {line} ")),
                    false => (end..end, format!(" {{ {line} }}")),
                }
            }
        };
        self.add(Way::EndsSwapped, what, vec![edit]);
    }

    /// Two steps, two actions of a step, and two targets of an action, each changing places with the next.
    pub fn steps(&mut self, groups: &[StepGroup]) {
        let mut swaps: Vec<(String, Range<usize>, Range<usize>)> = Vec::new();
        for pair in groups.windows(2) {
            let name = |at: usize| pair[at].title.text.to_string();
            swaps.push((
                format!("steps {:?} and {:?}", name(0), name(1)),
                range(pair[0].span),
                range(pair[1].span),
            ));
        }
        for group in groups {
            for pair in group.actions.windows(2) {
                let (one, other) = (range(pair[0].span), range(pair[1].span));
                let what = format!("{} and {}", self.words(one.clone()), self.words(other.clone()));
                swaps.push((what, one, other));
            }
            for action in &group.actions {
                for pair in action.targets.windows(2) {
                    let (one, other) = (range(pair[0].span), range(pair[1].span));
                    let what =
                        format!("targets {} and {}", self.words(one.clone()), self.words(other.clone()));
                    swaps.push((what, one, other));
                }
            }
        }
        for (what, one, other) in swaps {
            let edits = vec![(one.clone(), self.words(other.clone())), (other, self.words(one))];
            self.add(Way::StepsSwapped, what, edits);
        }
    }
}
