//! Pieces and what is drawn in them.

use super::entry::{Align, Entry};
use super::expression::{Printer, dotted};
use crate::source::Span;
use crate::syntax::tree::{
    CornerStyle, CutHow, Direction, DirectionKind, EdgePath, Grain, LeftOut, Line, LineRun, Outline, Piece,
    PieceItem, PieceItemNode, StripEdge, WalkEdge,
};

/// The word behind an outline that is turned over.
fn turned(mirrored: bool) -> &'static str {
    if mirrored { " mirrored" } else { "" }
}

impl Printer<'_> {
    pub(super) fn piece(&self, span: Span, piece: &Piece) -> Entry {
        let block = if piece.block { "block " } else { "" };
        let title = self.maybe_text(&piece.title).map_or(String::new(), |title| format!(" {title}"));
        let like = piece.like.as_ref().map_or(String::new(), |of| format!(" like {}", of.text));
        Entry::line(span, format!("{block}piece {}{title}{like}", piece.name.text))
            .block(self.piece_items(&piece.items))
    }

    pub(super) fn piece_items(&self, items: &[PieceItem]) -> Vec<Entry> {
        items.iter().map(|item| self.piece_item(item)).collect()
    }

    fn piece_item(&self, item: &PieceItem) -> Entry {
        let line = |words: String| Entry::line(item.span, words);
        match &item.node {
            PieceItemNode::Cut(cut) => {
                let how = match &cut.how {
                    CutHow::Alike => String::new(),
                    CutHow::Mirrored => " mirrored".to_owned(),
                    CutHow::OnFold(edge) => format!(" on fold {}", edge.text),
                };
                let loose = if cut.loose { " loose" } else { "" };
                line(format!("cut {}{how}{loose}", self.expr(&cut.count)))
            }
            PieceItemNode::Point(point) => {
                Entry::of("point", item.span, format!("point {}", point.name.text))
                    .then(1, format!("= {}", self.expr(&point.at)))
            }
            PieceItemNode::Mark(mark) => {
                Entry::of("mark", item.span, format!("mark {}", self.labelled(&mark.name, &mark.label)))
                    .then(1, format!("= {}", self.expr(&mark.at)))
            }
            PieceItemNode::Outline(outline) => self.outline(item.span, outline),
            PieceItemNode::MovePoint { point, by } => {
                line(format!("move point {} by {}", point.text, self.expr(by)))
            }
            PieceItemNode::Line(one) => line(self.inner_line(one)),
            PieceItemNode::Notch(notch) => {
                let double = if notch.double { " double" } else { "" };
                line(format!("notch {} {}{double}", notch.edge.text, self.counted_place(&notch.place)))
            }
            PieceItemNode::Divide(divide) => {
                let (near, rest) = (&divide.into.0.text, &divide.into.1.text);
                let place = self.counted_place(&divide.place);
                line(format!("divide {} {place} into {near}, {rest}", divide.edge.text))
            }
            PieceItemNode::TakeUp(take_up) => line(self.take_up(take_up)),
            PieceItemNode::Folded { edge, onto, in_four } => {
                let in_four = if *in_four { " in four" } else { "" };
                line(format!("folded {} to {}{in_four}", edge.text, onto.text))
            }
            PieceItemNode::Grain(grain) => line(match grain {
                Grain::Up => "grain up".to_owned(),
                Grain::Across => "grain across".to_owned(),
                Grain::Bias => "grain bias".to_owned(),
                Grain::Along(edge) => format!("grain along {}", edge.text),
            }),
            PieceItemNode::Allowance(amount) => line(format!("allowance {}", self.expr(amount))),
            PieceItemNode::Corner(corner) => {
                let style = match corner.style {
                    CornerStyle::Mitred => "mitred",
                    CornerStyle::Square => "square",
                    CornerStyle::Blunt => "blunt",
                };
                line(format!("corner {}/{} {style}", corner.first.text, corner.second.text))
            }
            PieceItemNode::NeverFlipped => line("never flipped".to_owned()),
            PieceItemNode::Without(left_out) => {
                let all: Vec<String> = left_out.iter().map(|one| self.left_out(one)).collect();
                line(format!("without {}", all.join(", ")))
            }
            PieceItemNode::Drawn(hand) => line(format!("drawn {}", hand.word())),
        }
    }

    fn left_out(&self, one: &LeftOut) -> String {
        match one {
            LeftOut::Named(name) => name.text.to_string(),
            LeftOut::Notch { edge, place: None } => format!("notch {}", edge.text),
            LeftOut::Notch { edge, place: Some(place) } => {
                format!("notch {} {}", edge.text, self.counted_place(place))
            }
            LeftOut::Corner(one, other) => format!("corner {}/{}", one.text, other.text),
        }
    }

    fn outline(&self, span: Span, outline: &Outline) -> Entry {
        let line = |words: String| Entry::line(span, words);
        match outline {
            Outline::Walk { from, cutting, edges } => {
                let cutting = if *cutting { " cutting" } else { "" };
                line(format!("outline from {}{cutting}", from.text))
                    .block(edges.iter().map(|edge| self.edge(edge)).collect())
            }
            Outline::Parts(edges) => {
                line("outline".to_owned()).block(edges.iter().map(|edge| self.edge(edge)).collect())
            }
            Outline::Rectangle { width, height } => {
                line(format!("outline rectangle {} by {}", self.expr(width), self.expr(height)))
            }
            Outline::Strip { of, along, width, mirrored } => {
                let one = |edge: &StripEdge| match &edge.run {
                    Some(run) => format!("{} {}", edge.edge.text, self.run(run)),
                    None => edge.edge.text.to_string(),
                };
                let along = along.iter().map(one).collect::<Vec<_>>().join(", ");
                let (of, width) = (dotted(of), self.expr(width));
                line(format!("outline strip of {of} along {along} width {width}{}", turned(*mirrored)))
            }
            Outline::Copy { of, mirrored } => {
                line(format!("outline copy of {}{}", dotted(of), turned(*mirrored)))
            }
            Outline::Rest { of, without, mirrored } => {
                let (of, without) = (dotted(of), dotted(without));
                line(format!("outline rest of {of} without {without}{}", turned(*mirrored)))
            }
        }
    }

    fn edge(&self, edge: &WalkEdge) -> Entry {
        if let Some(dart) = &edge.dart {
            let words = self.walk_dart(dart, &edge.to);
            return Entry::of("edge", edge.span, &*edge.name.text).cell(2, words, Align::Over);
        }
        let named = self.labelled(&edge.name, &edge.label);
        let entry = Entry::of("edge", edge.span, named).then(2, format!("to {}", edge.to.text));
        match &edge.path {
            EdgePath::Straight => entry,
            path => entry.then(2, self.path(path)),
        }
    }

    pub(super) fn path(&self, path: &EdgePath) -> String {
        match path {
            EdgePath::Straight => "straight".to_owned(),
            EdgePath::Curve { leaving, arriving, through, .. } => {
                let mut words = "curve".to_owned();
                if let Some(leaving) = leaving {
                    words = format!("{words} leaving {}", self.direction(leaving));
                }
                if let Some(arriving) = arriving {
                    words = format!("{words} arriving {}", self.direction(arriving));
                }
                if !through.is_empty() {
                    words = format!("{words} through {}", self.exprs(through));
                }
                words
            }
            EdgePath::Handles { first, second, .. } => {
                format!("handles {}, {}", self.expr(first), self.expr(second))
            }
            EdgePath::Arc { about, clockwise, .. } => {
                let way = if *clockwise { "clockwise" } else { "anticlockwise" };
                format!("arc about {} {way}", self.expr(about))
            }
        }
    }

    fn direction(&self, direction: &Direction) -> String {
        match &direction.kind {
            DirectionKind::Up => "up".to_owned(),
            DirectionKind::Down => "down".to_owned(),
            DirectionKind::Left => "left".to_owned(),
            DirectionKind::Right => "right".to_owned(),
            DirectionKind::Angle(angle) => self.expr(angle),
            DirectionKind::SquareTo(edge) => format!("square to {}", edge.text),
            DirectionKind::Along(edge) => format!("along {}", edge.text),
            DirectionKind::Toward(point) => format!("toward {}", self.expr(point)),
        }
    }

    fn inner_line(&self, line: &Line) -> String {
        let run = match &line.run {
            LineRun::Across(at) => format!("across at {}", self.expr(at)),
            LineRun::Along(at) => format!("along at {}", self.expr(at)),
            LineRun::FromTo(from, to) => format!("from {} to {}", self.expr(from), self.expr(to)),
            LineRun::Way(from, to, path) => {
                format!("from {} to {} {}", self.expr(from), self.expr(to), self.path(path))
            }
        };
        let adjust = if line.adjust.is_some() { " adjust" } else { "" };
        format!("line {} {run}{adjust}", self.labelled(&line.name, &line.label))
    }
}
