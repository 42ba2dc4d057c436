//! Seams, finishes, placements, closures and steps.

use super::entry::Entry;
use super::expression::{Printer, dotted, names};
use super::short::said_along;
use crate::source::Span;
use crate::syntax::tree::{
    Action, Anchor, AnchorAt, Binding, Chain, Closure, ClosureItem, ClosureItemNode, Dotted, Expr, Fasteners,
    Finish, FinishKind, Fit, FitKind, Hand, Hem, HemEdge, HostPlace, NotchesApart, Place, PlaceItem,
    PlaceItemNode, RowEnd, RunWords, Seam, SeamItem, SeamItemNode, SewnWords, Side, StepGroup, StepTarget,
    Zipper, ZipperKind,
};

impl Printer<'_> {
    pub(super) fn chain(&self, chain: &Chain) -> String {
        let edges = chain.edges.iter().map(|sewn| self.sewn(sewn)).collect::<Vec<_>>().join(" + ");
        if chain.ring { format!("{edges} in a ring") } else { edges }
    }

    /// The edge of a finish or a row of stitching.
    pub(super) fn finished(&self, sewn: &SewnWords) -> String {
        let edge = self.sewn(sewn);
        if sewn.ring { format!("{edge} in a ring") } else { edge }
    }

    pub(super) fn sewn(&self, sewn: &SewnWords) -> String {
        if !sewn.over.is_empty() {
            let first = SewnWords { over: Vec::new(), ..sewn.clone() };
            let plies: Vec<String> =
                std::iter::once(&first).chain(&sewn.over).map(|ply| self.sewn(ply)).collect();
            return format!("({})", plies.join(" and "));
        }
        let Some(run) = &sewn.run else { return dotted(&sewn.edge) };
        let edge = dotted(&Dotted { on: None, ..sewn.edge.clone() });
        let on = sewn.edge.on.map_or(String::new(), |hand| format!(" on {}", hand.word()));
        format!("{edge} {}{on}", self.run(run))
    }

    /// `3..19 from waist_side`
    pub(super) fn run(&self, run: &RunWords) -> String {
        let from = run.from.as_ref().map_or(String::new(), |from| format!("{}..", self.expr(from)));
        format!("{from}{} from {}", self.expr(&run.to), dotted(&run.counted))
    }

    fn side(&self, side: &Side) -> String {
        side.plies.iter().map(|ply| self.chain(ply)).collect::<Vec<_>>().join(" and ")
    }

    pub(super) fn seam(&self, span: Span, seam: &Seam) -> Entry {
        let mut sides = match seam.across_fold {
            true => {
                let ends: Vec<String> = seam.first.plies.iter().map(|ply| self.chain(ply)).collect();
                format!("{} across the fold", ends.join(", "))
            }
            false => match &seam.along {
                Some(along) => said_along(along),
                None => format!("{} to {}", self.side(&seam.first), self.side(&seam.second)),
            },
        };
        if let Some(fit) = &seam.fit {
            sides = format!("{sides}  {}", self.fit(fit));
        }
        if !seam.enclosing.is_empty() {
            sides = format!("{sides}  enclosing {}", names(&seam.enclosing));
        }
        let entry = Entry::of("seam", span, format!("seam {}", self.labelled(&seam.name, &seam.label)))
            .then(2, sides);
        match seam.items.is_empty() {
            true => entry,
            false => entry.block(seam.items.iter().map(|item| self.seam_item(item)).collect()),
        }
    }

    fn fit(&self, fit: &Fit) -> String {
        let kind = match fit.kind {
            FitKind::Easing => "easing",
            FitKind::Gathering => "gathering",
            FitKind::Stretching => "stretching",
        };
        let high = fit.high.as_ref().map_or(String::new(), |high| format!("..{}", self.expr(high)));
        let between = fit.between.as_ref().map_or(String::new(), |(first, second)| {
            format!(" between {} and {}", self.sewn_place(first), self.sewn_place(second))
        });
        format!("{kind} {}{high}{between}", self.expr(&fit.low))
    }

    pub(super) fn seam_item(&self, item: &SeamItem) -> Entry {
        let words = match &item.node {
            SeamItemNode::Allowance(amount) => format!("allowance {}", self.expr(amount)),
            SeamItemNode::Stitch(stitch) => format!("stitch {}", stitch.word),
            SeamItemNode::Tape(None) => "tape".to_owned(),
            SeamItemNode::Tape(Some(width)) => format!("tape {}", self.expr(width)),
            SeamItemNode::Notch { place, double } => {
                let double = if *double { " double" } else { "" };
                format!("notch {}{double}", self.counted_place(place))
            }
            SeamItemNode::Notches { apart, double } => {
                let apart = match apart {
                    NotchesApart::Quarters => "quarters".to_owned(),
                    NotchesApart::Thirds => "thirds".to_owned(),
                    NotchesApart::Every(length) => format!("every {}", self.expr(length)),
                };
                format!("notch {apart}{}", if *double { " double" } else { "" })
            }
            SeamItemNode::Gap { begins, length, at, layer, hand } => {
                let begins =
                    begins.as_ref().map_or(String::new(), |begins| format!("{}..", self.expr(begins)));
                let at = at.as_ref().map_or(String::new(), |at| {
                    let place = match &at.counted {
                        Some(counted) => format!(" from {}", dotted(counted)),
                        None => " in the middle".to_owned(),
                    };
                    let along =
                        at.along.as_ref().map_or(String::new(), |edge| format!(" along {}", dotted(edge)));
                    place + &along
                });
                let layer = layer.as_ref().map_or(String::new(), |layer| format!(" in {}", layer.text));
                let hand = hand.map_or(String::new(), |hand| format!(", {}", hand.word()));
                format!("leaving gap {begins}{}{at}{layer}{hand}", self.expr(length))
            }
            SeamItemNode::Matching(first, second) => {
                format!("matching {} with {}", dotted(first), dotted(second))
            }
            SeamItemNode::Caught { ply, on, place } => {
                format!("caught {} on {} {}", dotted(ply), dotted(on), self.edge_place(place))
            }
            SeamItemNode::Kind { kind, width, over } => {
                let over = over.as_ref().map_or(String::new(), |over| format!(" over {}", dotted(over)));
                format!("{} {}{over}", kind.words(), self.expr(width))
            }
        };
        Entry::line(item.span, words)
    }

    fn binding(&self, binding: &Binding, stretch: Option<&Expr>) -> String {
        let mut words = format!("bound {}", self.expr(&binding.width));
        if let Some(stretch) = stretch {
            words += &format!(" stretch {}", self.expr(stretch));
        }
        if let Some(cloth) = &binding.cut_from {
            words += &format!(" cut from {}", cloth.text);
        }
        let ends = binding.running_on.iter().map(|(length, end)| {
            format!("{} at {}", self.expr(length), if *end == RowEnd::Start { "start" } else { "end" })
        });
        let ends: Vec<String> = ends.collect();
        if !ends.is_empty() {
            words += &format!(" running on {}", ends.join(", "));
        }
        for (length, at) in &binding.loops {
            words += &format!(" looping {} at {}", self.expr(length), self.sewn_place(at));
        }
        words
    }

    fn hem(&self, hem: &Hem) -> String {
        let raw_edge = match &hem.raw_edge {
            HemEdge::TurnedOnce => String::new(),
            HemEdge::TurnedUnder(under) => format!(" turned under {}", self.expr(under)),
            HemEdge::TurnedTwice => " twice".to_owned(),
        };
        let turn_up =
            hem.turn_up.as_ref().map_or(String::new(), |deep| format!(" turn-up {}", self.expr(deep)));
        format!("hem {}{raw_edge}{turn_up}", self.expr(&hem.depth))
    }

    pub(super) fn finish(&self, span: Span, finish: &Finish) -> Entry {
        let how = self.finishing(&finish.kind, finish.binding_stretch.as_ref());
        let stitch =
            finish.stitch.as_ref().map_or(String::new(), |stitch| format!(" {{ stitch {} }}", stitch.word));
        let edges = finish.edges.iter().map(|sewn| self.finished(sewn)).collect::<Vec<_>>().join(", ");
        Entry::of("finish", span, format!("finish {edges}")).then(2, format!("{how}{stitch}"))
    }

    /// How an edge is finished.
    pub(super) fn finishing(&self, kind: &FinishKind, binding_stretch: Option<&Expr>) -> String {
        match kind {
            FinishKind::Hem(hem) => self.hem(hem),
            FinishKind::Bound(binding) => self.binding(binding, binding_stretch),
            FinishKind::Casing { depth, elastic } => {
                let elastic = elastic.as_ref().map_or(String::new(), |(width, length)| {
                    format!(" for elastic {} of {}", self.expr(width), self.expr(length))
                });
                format!("casing {}{elastic}", self.expr(depth))
            }
            FinishKind::Elastic { width, length } => {
                format!("elastic {} of {}", self.expr(width), self.expr(length))
            }
            FinishKind::Tape(None) => "tape".to_owned(),
            FinishKind::Tape(Some(width)) => format!("tape {}", self.expr(width)),
            FinishKind::TurnedUnderOnto(seam) => format!("turned under onto {}", seam.text),
            FinishKind::Overlocked => "overlocked".to_owned(),
            FinishKind::Raw => "raw".to_owned(),
        }
    }

    pub(super) fn place(&self, span: Span, place: &Place) -> Entry {
        Entry::line(span, format!("place {} on {}", dotted(&place.piece), dotted(&place.on)))
            .block(place.items.iter().map(|item| self.place_item(item)).collect())
    }

    fn place_item(&self, item: &PlaceItem) -> Entry {
        let words = match &item.node {
            PlaceItemNode::Corner { corner, at: HostPlace::Point(at) } => {
                format!("corner {} at {}", corner.text, at.text)
            }
            PlaceItemNode::Corner { corner, at: HostPlace::Edge(edge, place) } => {
                format!("corner {} on {} {}", corner.text, edge.text, self.edge_place(place))
            }
            PlaceItemNode::Topstitch(edges) => format!("topstitch {}", names(edges)),
            PlaceItemNode::TopstitchAllRound => "topstitch all round".to_owned(),
            PlaceItemNode::Caught { edges, in_seam } => {
                format!("caught {} in {}", names(edges), in_seam.text)
            }
        };
        Entry::line(item.span, words)
    }

    pub(super) fn closure(&self, span: Span, closure: &Closure) -> Entry {
        let rim = if closure.end_to_end.is_some() { " from end to end" } else { "" };
        let sides = format!("{} to {}{rim}", self.chain(&closure.first), self.chain(&closure.second));
        Entry::of("closure", span, format!("closure {}", closure.name.text))
            .then(2, sides)
            .block(closure.items.iter().map(|item| self.closure_item(item)).collect())
    }

    fn closure_item(&self, item: &ClosureItem) -> Entry {
        Entry::line(
            item.span,
            match &item.node {
                ClosureItemNode::Zipper(zipper) => self.zipper(zipper),
                ClosureItemNode::Fasteners(row) => self.fasteners(row),
            },
        )
    }

    fn zipper(&self, zipper: &Zipper) -> String {
        let kind = match zipper.kind {
            ZipperKind::Separating => "separating",
            ZipperKind::Closed => "closed",
            ZipperKind::Concealed => "concealed",
        };
        let stocked = if zipper.stocked { "stocked " } else { "" };
        let showing =
            zipper.showing.as_ref().map_or(String::new(), |width| format!(" showing {}", self.expr(width)));
        let clear =
            zipper.clear.as_ref().map_or(String::new(), |far| format!(" clear of cloth {}", self.expr(far)));
        format!("zipper {kind} {stocked}{}{showing}{clear}", self.exprs(&zipper.lengths))
    }

    fn fasteners(&self, row: &Fasteners) -> String {
        let count = row.count.as_ref().map_or(String::new(), |count| format!(" {}", self.expr(count)));
        let size = match (&row.count, &row.size) {
            (_, None) => String::new(),
            (None, Some(size)) => format!(" {}", self.expr(size)),
            (Some(_), Some(size)) => format!(" of {}", self.expr(size)),
        };
        let between = row.between.as_ref().map_or(String::new(), |(from, to)| {
            format!("  from {}  to {}", self.anchor(from), self.anchor(to))
        });
        let stand = row.stand.as_ref().map_or(String::new(), |stand| format!("  stand {}", self.expr(stand)));
        let over = match row.over {
            None => "",
            Some(Hand::Left) => "  left over right",
            Some(Hand::Right) => "  right over left",
        };
        format!("{}{count}{size}{between}{stand}{over}", row.kind.keyword())
    }

    fn anchor(&self, anchor: &Anchor) -> String {
        match &anchor.at {
            AnchorAt::Beside { distance, below, point } => {
                let way = if *below { "below" } else { "above" };
                format!("{} {way} {}", self.expr(distance), point.text)
            }
            AnchorAt::Place(place) => self.counted_place(place),
        }
    }

    pub(super) fn step_group(&self, group: &StepGroup) -> Entry {
        Entry::of("step", group.span, self.text(&group.title))
            .block(group.actions.iter().map(|action| self.action(action)).collect())
    }

    fn action(&self, action: &Action) -> Entry {
        let layer = action.layer.as_ref().map_or(String::new(), |layer| format!("in {} ", layer.text));
        let verb = action.verb;
        let targets = match action.targets.is_empty() {
            true => String::new(),
            false => {
                let targets: Vec<String> = action.targets.iter().map(step_target).collect();
                format!("{}{}", verb.joint(), targets.join(", "))
            }
        };
        let words = action.words.as_ref().map_or(String::new(), |words| format!(" {}", self.text(words)));
        let verb = verb.words();
        Entry::line(action.span, format!("{layer}{verb}{targets}{words}"))
    }
}

/// `front.hem`, `panels 1..3`
fn step_target(target: &StepTarget) -> String {
    let name = dotted(&target.name);
    match target.joints {
        None => name,
        Some(own) if own.first == own.last => format!("{name} {}", own.first),
        Some(own) => format!("{name} {}..{}", own.first, own.last),
    }
}
