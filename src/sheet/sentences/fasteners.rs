//! Buttons, snaps, hooks, toggles, buckles and ties.

use super::closures::is_same;
use super::teller::{Named, Teller, Way, fit, once};
use super::{Step, StepText};
use crate::garment::{ActionTarget, AnchorAt, ClosureId, Fasteners, PointId};
use crate::resolve::DrawnEdgeId;
use crate::sewing::hanging::second_hangs;
use crate::sewing::{FastenerRow, PartId, SewnRun, SewnSide, TakenBy, Taker};
use crate::sheet::{Figure, FigureKind, Text};
use crate::syntax::tree::{Fastener, Hand, Verb};

/// What is narrower than this, in millimetres, is not folded.
const NO_FOLD: f64 = 0.5;

impl Teller<'_> {
    pub(super) fn fasteners(&self, step: &Step, id: ClosureId, said: &Fasteners, text: &mut StepText) {
        let forms = self.forms();
        let [first, second] = by_their_lap(self.closure_sides(id), said);
        let all: Vec<Named> = first.iter().chain(&second).copied().collect();
        let way = self.way_of(&all);
        let row = self.known_of(id, said);
        let sides = [first, second];
        self.say_stand(said, &all, text);
        for say in self.ways(id, said) {
            let tell = |way: Way| say(self, step, &sides, way, &row);
            let is_long =
                |told: &Option<Text>| told.as_ref().is_some_and(|told| !fit(std::slice::from_ref(told)));
            let full = tell(way);
            let full = if is_long(&full) { tell(Way { short: true, ..way }) } else { full };
            match is_long(&full) {
                true => text.say_all(
                    self.in_two(step, (id, said), &sides, way, &row)
                        .unwrap_or_else(|| full.into_iter().collect()),
                ),
                false => text.say_all(full),
            }
        }
        self.say_first_place(id, said, &sides, &row, text);
        for named in sides.iter().flatten() {
            if let Some(amount) = self.underlap(named) {
                let edge = self.words.list(self.edges(&[*named], way));
                text.say(forms.underlap(edge, amount));
            }
        }
        if let (Fastener::Tie, Some(apart)) = (said.kind, row.spacing.clone()) {
            text.say(forms.apart(apart));
        }
        let same = is_same(&sides[0], &sides[1]);
        match said.over {
            Some(Hand::Left) if !(same && said.kind == Fastener::Button) => text.say(forms.left_over()),
            Some(Hand::Right) if !(same && said.kind == Fastener::Button) => text.say(forms.right_over()),
            _ => {}
        }
        self.say_times(id, text);
    }

    /// How many such closures there are, if there are several.
    fn say_times(&self, id: ClosureId, text: &mut StepText) {
        let times = self.figure(FigureKind::Count, |_, size| {
            Some(f64::from(*size.sewn.closure_counts.as_ref()?.get(id.index())?))
        });
        if let Some(times) = times.filter(|times| times.values.iter().flatten().any(|count| *count > 1.0)) {
            text.say(self.forms().closure_times(times));
        }
    }

    /// What lies beyond the line of buttons on an edge that nothing else takes: its raw edge is folded in first, at the end of a
    /// folded band that of both layers.
    fn say_stand(&self, said: &Fasteners, all: &[Named], text: &mut StepText) {
        let Some(stand) = said.stand.as_ref().and_then(|said| self.amount(FigureKind::Length, said)) else {
            return;
        };
        for is_folded in [false, true] {
            let is_raw = |named: &&Named| {
                self.garment.piece(named.part.piece).folds.is_empty() != is_folded
                    && self.beyond_line(named).is_some()
            };
            let own = once(all.iter().filter(is_raw).map(|own| Named { hand: None, ..*own }).collect());
            self.say_raw_stand(&own, &stand, is_folded, text);
        }
    }

    fn say_raw_stand(&self, own: &[Named], stand: &Figure, is_folded: bool, text: &mut StepText) {
        let forms = self.forms();
        let Some(wide) = own.first().and_then(|named| self.beyond_line(named)) else { return };
        let values = wide.values.iter().zip(&stand.values);
        let values = values.map(|(wide, stand)| wide.zip(*stand).map(|(wide, stand)| wide - stand));
        let under = Figure { kind: FigureKind::Length, values: values.collect() };
        if !under.values.iter().flatten().any(|under| *under > NO_FOLD) {
            return;
        }
        text.say_all(self.listed(own, |edges| forms.stand_beyond(edges, wide.clone())));
        text.say(if is_folded { forms.stand_turned_in(under) } else { forms.stand_folded(under) });
        text.say(forms.stand_line(stand.clone()));
    }

    /// How far the cloth goes beyond an edge that closes there and is sewn or finished nowhere.
    fn beyond_line(&self, named: &Named) -> Option<Figure> {
        self.figure(FigureKind::Length, |at, size| {
            let work = self.works.get(at)?;
            let (id, _) = PartId::enumerate(work.finder.parts).find(|(_, own)| **own == named.part)?;
            let drawn = size.drawn.paper(named.part.paper)?;
            let edge = drawn.outline().iter().position(|own| self.garment.is_run_of(own.edge, named.edge))?;
            let fate = work.sewing.part(id).fate(DrawnEdgeId::from_index(edge))?;
            let is_closure = |taker: &Taker| matches!(taker.what, TakenBy::Closure(_));
            fate.allowance.filter(|_| fate.takers.iter().all(is_closure))
        })
    }

    fn known_of(&self, id: ClosureId, said: &Fasteners) -> Row {
        let size = if said.kind == Fastener::Tie { FigureKind::Length } else { FigureKind::Small };
        Row {
            count: self.of_row(id, FigureKind::Count, |row| Some(f64::from(row.count))),
            size: self.of_row(id, size, |row| row.size),
            spacing: self.of_row(id, FigureKind::Length, |row| row.spacing),
            hole: self.of_row(id, FigureKind::Small, |row| row.buttonhole),
        }
    }

    /// Loops whose ends a seam will take in.
    pub(super) fn baste_loops(&self, step: &Step, id: ClosureId, said: &Fasteners, text: &mut StepText) {
        let forms = self.forms();
        let sides = by_their_lap(self.closure_sides(id), said);
        let row = self.known_of(id, said);
        text.say_all(self.listed(&sides[1], |edges| {
            let letter = step.letter.clone();
            match row.count.clone().zip(row.spacing.clone()) {
                Some((count, apart)) => forms.baste_loops(letter, edges, count, apart),
                None => forms.baste_loop(letter, edges),
            }
        }));
        self.say_first_place(id, said, &sides, &row, text);
        self.say_times(id, text);
    }

    /// Ties whose ends a seam will take in.
    pub(super) fn baste_ties(&self, step: &Step, id: ClosureId, said: &Fasteners, text: &mut StepText) {
        let forms = self.forms();
        let sides = self.closure_sides(id);
        let row = self.known_of(id, said);
        let sides = self.taken(id, sides);
        let all: Vec<Named> = sides.iter().flatten().copied().collect();
        let tell = |way: Way| {
            let (letter, size) = (step.letter.clone(), row.size.clone()?);
            let count = row.count.clone().filter(|_| row.spacing.is_some());
            if sides.iter().any(Vec::is_empty) {
                let edges = self.words.list(self.edges(&all, way));
                return Some(match count {
                    Some(count) => forms.baste_ties_on_one(letter, edges, count, size),
                    None => forms.baste_tie_on_one(letter, edges, size),
                });
            }
            let [first, second] = self.two(&sides, way);
            Some(match row.count.clone().filter(|_| row.spacing.is_some()) {
                Some(count) => forms.baste_ties(letter, first, second, count, size),
                None => forms.baste_tie(letter, first, second, size),
            })
        };
        let way = self.way_of(&all);
        let full = tell(way);
        let is_long = full.as_ref().is_some_and(|told| !fit(std::slice::from_ref(told)));
        text.say_all(if is_long { tell(Way { short: true, ..way }) } else { full });
        self.say_first_place(id, said, &sides, &row, text);
        text.say_all(row.spacing.map(|apart| forms.apart(apart)));
        self.say_times(id, text);
    }

    /// Those sides of a closure that the seams which enclose it take in; the others are empty.
    fn taken(&self, id: ClosureId, sides: [Vec<Named>; 2]) -> [Vec<Named>; 2] {
        let is_taken = self.work().map_or([true; 2], |work| work.taken_sides(id));
        let [first, second] = sides;
        [if is_taken[0] { first } else { Vec::new() }, if is_taken[1] { second } else { Vec::new() }]
    }

    /// A row of several, and by itself how many there are: in one sentence these would be too many words.
    fn in_two(
        &self,
        step: &Step,
        (id, said): (ClosureId, &Fasteners),
        sides: &[Vec<Named>; 2],
        way: Way,
        row: &Row,
    ) -> Option<Vec<Text>> {
        let forms = self.forms();
        let (count, apart) = (row.count.clone()?, row.spacing.clone()?);
        if said.kind == Fastener::Toggle && self.is_basted_before(step, id) {
            return None;
        }
        let say = |way: Way| {
            let [first, second] = self.two(sides, way);
            let letter = step.letter.clone();
            Some(match said.kind {
                Fastener::Hook => forms.hooks_alone(letter, first, second),
                Fastener::Snap => forms.snaps_alone(letter, first, second),
                Fastener::Toggle => forms.toggles_and_loops(letter, first, second),
                Fastener::Button | Fastener::Tie | Fastener::Buckle => return None,
            })
        };
        let full = say(way)?;
        let full = if fit(std::slice::from_ref(&full)) { full } else { say(Way { short: true, ..way })? };
        let count = match row.size.clone() {
            Some(size) => forms.so_many_of(count, size, apart),
            None => forms.so_many(count, apart),
        };
        Some(vec![full, count])
    }

    /// Whether an earlier step bastes what a closure has on one of its sides.
    pub(super) fn is_basted_before(&self, step: &Step, id: ClosureId) -> bool {
        let plan = &self.facts.plan;
        let all = self
            .facts
            .rows
            .iter()
            .flat_map(|row| row.targets(plan).iter().map(|one| (row.action(plan), one)));
        let mut before = all.take_while(|(_, target)| !std::ptr::eq(*target, step.target));
        before.any(|(action, target)| {
            target.target == ActionTarget::Closure(id)
                && action.is_some_and(|action| action.verb == Verb::Baste)
        })
    }

    /// Where the first of a row lies, as its maker counts; where nothing is said, half of what lies between two from the end.
    fn say_first_place(
        &self,
        id: ClosureId,
        said: &Fasteners,
        sides: &[Vec<Named>; 2],
        row: &Row,
        text: &mut StepText,
    ) {
        let forms = self.forms();
        // All round there is no end: the first copy begins where a seam joins it to the last.
        let closure = self.garment.closure(id);
        let is_ring = closure.first.ring || closure.second.ring;
        let place = match &said.between {
            None => row.spacing.clone().map(|apart| {
                let half = Figure {
                    values: apart.values.iter().map(|one| one.map(|one| one / 2.0)).collect(),
                    ..apart
                };
                match sides.iter().flatten().next() {
                    _ if is_ring => forms.from_a_seam(half),
                    Some(named) if !self.runs_upright(named) => forms.from_an_end(half),
                    _ => forms.from_upper_end(half),
                }
            }),
            Some((from, _)) => self.anchor_place(&from.at, sides),
        };
        text.say_all(place.map(|place| match row.spacing {
            Some(_) => forms.first_lies(place),
            None => forms.it_lies(place),
        }));
    }

    /// Whether an edge or a line runs up rather than across, as it is drawn.
    fn runs_upright(&self, named: &Named) -> bool {
        let drawn = self.facts.sizes.first().and_then(|size| size.drawn.paper(named.part.paper));
        let is_it = |edge| self.garment.is_run_of(edge, named.edge);
        drawn.is_none_or(|drawn| {
            let edges = drawn.edges.iter().map(|own| (own.edge, &own.path));
            let lines = drawn.lines.iter().map(|own| (own.edge, &own.path));
            edges.chain(lines).find(|(edge, _)| is_it(*edge)).is_none_or(|(_, path)| {
                let way = path.end() - path.start();
                way.y.abs() >= way.x.abs()
            })
        })
    }

    fn anchor_place(&self, at: &AnchorAt, sides: &[Vec<Named>; 2]) -> Option<Text> {
        let forms = self.forms();
        let point = |id: PointId| {
            let piece = self.garment.point(id).piece;
            let parts = sides.iter().flatten().map(|named| named.part);
            let part =
                parts.into_iter().find(|part| part.piece == piece).or_else(|| self.part_of(None, piece))?;
            Some(self.point(id, part, None, Way::default()))
        };
        Some(match at {
            AnchorAt::Point(id) => forms.at_point(point(*id)?),
            AnchorAt::Beside { distance, below, point: id } => {
                let amount = self.amount(FigureKind::Length, distance)?;
                match below {
                    true => forms.below_point(amount, point(*id)?),
                    false => forms.above_point(amount, point(*id)?),
                }
            }
            // What lies in the middle is told by its edge's notches, or by how far apart they lie.
            AnchorAt::Share(_) => return None,
        })
    }

    /// How far an end of a folded band lies under its other end: along both its long edges it is sewn to itself so far, and beyond
    /// that to something else. What is sewn to itself all along is a strap.
    fn underlap(&self, named: &Named) -> Option<Figure> {
        let garment = self.garment;
        if garment.piece(named.part.piece).folds.is_empty() {
            return None;
        }
        self.figure(FigureKind::Length, |_, size| {
            let drawn = size.drawn.paper(named.part.paper)?;
            let edges = drawn.outline();
            let end = edges.iter().position(|edge| edge.edge == named.edge)?;
            let beside = [(end + 1) % edges.len(), (end + edges.len() - 1) % edges.len()];
            let is_beside = |side: &SewnSide| {
                let mut runs = side.plies.iter().flat_map(|ply| &ply.runs);
                runs.all(|run| {
                    size.sewn.part(run.part).part == named.part && beside.contains(&run.edge.index())
                })
            };
            let mut seams = size.sewn.seams.iter();
            let sewn = seams.find(|sewn| is_beside(&sewn.first) && is_beside(&sewn.second))?;
            let whole = |at: DrawnEdgeId| drawn.edge_at(at).map(|edge| garment.whole_edge(edge.edge));
            let goes_on = |run: &SewnRun| {
                let of_it =
                    DrawnEdgeId::enumerate(&drawn.edges).filter(|(at, _)| whole(*at) == whole(run.edge));
                of_it.count() > 1
            };
            let mut runs = sewn.first.plies.iter().flat_map(|ply| &ply.runs);
            if !runs.any(goes_on) {
                return None;
            }
            sewn.first.plies.first().map(|ply| ply.length)
        })
    }

    fn of_row(
        &self,
        id: ClosureId,
        kind: FigureKind,
        value: impl Fn(&FastenerRow) -> Option<f64>,
    ) -> Option<Figure> {
        self.figure(kind, |_, size| size.sewn.fasteners.iter().find(|row| row.closure == id).and_then(&value))
    }

    /// The sentences that a row of such a kind is told in.
    fn ways(&self, id: ClosureId, said: &Fasteners) -> Vec<Say<'_>> {
        match said.kind {
            Fastener::Button => match said.over {
                Some(over) => vec![
                    Box::new(move |teller, step, sides, way, row| teller.holes(step, sides, over, way, row)),
                    Box::new(move |teller, _, sides, way, row| teller.buttons(sides, over, way, row)),
                ],
                None => vec![
                    Box::new(move |teller, step, sides, way, row| match teller.hanging_first(id, sides) {
                        Some([over, _]) => teller.holes_along(step, &over, way, row),
                        None => teller.buttons_either(step, sides, way, row),
                    }),
                    Box::new(move |teller, _, sides, way, row| match teller.hanging_first(id, sides) {
                        Some([_, under]) => teller.buttons_along(&under, way, row),
                        None => Some(teller.forms().buttonholes_long(row.hole.clone()?)),
                    }),
                ],
            },
            _ if said.are_pieces() => vec![Box::new(|teller, step, sides, way, _| {
                let [first, second] = teller.two(sides, way);
                Some(teller.forms().tie_pieces(step.letter.clone(), first, second))
            })],
            kind => vec![Box::new(move |teller, step, sides, way, row| {
                let forms = teller.forms();
                let [first, second] = teller.two(sides, way);
                let letter = step.letter.clone();
                let of_several = row.count.clone().zip(row.spacing.clone());
                Some(match (kind, of_several) {
                    (Fastener::Hook, Some((count, apart))) => {
                        forms.hooks(letter, first, second, count, apart)
                    }
                    (Fastener::Hook, None) => forms.hook(letter, first, second),
                    (Fastener::Snap, Some((count, apart))) => {
                        forms.snaps(letter, first, second, count, row.size.clone()?, apart)
                    }
                    (Fastener::Snap, None) => forms.snap(letter, first, second, row.size.clone()?),
                    (Fastener::Toggle, of_several) if teller.is_basted_before(step, id) => {
                        let size = row.size.clone()?;
                        match of_several {
                            Some((count, apart)) => forms.toggles_alone(letter, first, count, size, apart),
                            None => forms.toggle_alone(letter, first, size),
                        }
                    }
                    (Fastener::Toggle, Some((count, apart))) => {
                        forms.toggles(letter, first, second, count, row.size.clone()?, apart)
                    }
                    (Fastener::Toggle, None) => forms.toggle(letter, first, second, row.size.clone()?),
                    (Fastener::Tie, of_several) if teller.is_basted_before(step, id) => {
                        let size = row.size.clone()?;
                        let is_taken = teller.work().map_or([false; 2], |work| work.taken_sides(id));
                        let left = if is_taken[0] { second } else { first };
                        match of_several {
                            Some((count, _)) => forms.ties_alone(letter, left, count, size),
                            None => forms.tie_alone(letter, left, size),
                        }
                    }
                    (Fastener::Tie, Some((count, _))) => {
                        forms.ties(letter, first, second, count, row.size.clone()?)
                    }
                    (Fastener::Tie, None) => forms.tie(letter, first, second, row.size.clone()?),
                    (Fastener::Buckle | Fastener::Button, _) => {
                        forms.buckle(letter, first, second, row.size.clone()?)
                    }
                })
            })],
        }
    }

    fn two(&self, sides: &[Vec<Named>; 2], way: Way) -> [Text; 2] {
        [0, 1].map(|at| self.words.list(self.edges(&sides[at], way)))
    }

    /// Buttonholes, where it is known which side lies over.
    fn holes(&self, step: &Step, sides: &[Vec<Named>; 2], over: Hand, way: Way, row: &Row) -> Option<Text> {
        if !is_same(&sides[0], &sides[1]) {
            return self.buttons_either(step, sides, way, row);
        }
        self.holes_along(step, &sides[if over == Hand::Left { 0 } else { 1 }], way, row)
    }

    /// The sides of a closure, the one first that hangs over the other; none where neither does.
    fn hanging_first(&self, id: ClosureId, [first, second]: &[Vec<Named>; 2]) -> Option<[Vec<Named>; 2]> {
        let size = self.facts.sizes.first()?;
        let is_second = second_hangs(self.garment, &size.drawn, id)?;
        let (first, second) = (first.clone(), second.clone());
        Some(if is_second { [second, first] } else { [first, second] })
    }

    fn holes_along(&self, step: &Step, side: &[Named], way: Way, row: &Row) -> Option<Text> {
        let forms = self.forms();
        let edges = self.words.list(self.edges(side, way));
        let (letter, hole) = (step.letter.clone(), row.hole.clone()?);
        Some(match row.spacing {
            Some(_) => forms.buttonholes(letter, edges, row.count.clone()?, hole),
            None => forms.buttonhole(letter, edges, hole),
        })
    }

    /// And the buttons on the other side; where the sides are unlike, how long the holes are.
    fn buttons(&self, sides: &[Vec<Named>; 2], over: Hand, way: Way, row: &Row) -> Option<Text> {
        let forms = self.forms();
        if !is_same(&sides[0], &sides[1]) {
            return Some(forms.buttonholes_long(row.hole.clone()?));
        }
        self.buttons_along(&sides[if over == Hand::Left { 1 } else { 0 }], way, row)
    }

    fn buttons_along(&self, side: &[Named], way: Way, row: &Row) -> Option<Text> {
        let forms = self.forms();
        let edges = self.words.list(self.edges(side, way));
        let size = row.size.clone()?;
        Some(match row.spacing.clone() {
            Some(apart) => forms.buttons(edges, row.count.clone()?, size, apart),
            None => forms.button(edges, size),
        })
    }

    fn buttons_either(&self, step: &Step, sides: &[Vec<Named>; 2], way: Way, row: &Row) -> Option<Text> {
        let forms = self.forms();
        let edges = self.words.list(match is_same(&sides[0], &sides[1]) {
            true => {
                let plain: Vec<Named> = sides[0].iter().map(|named| Named { hand: None, ..*named }).collect();
                self.edges(&plain, way)
            }
            false => self.edges(&sides.concat(), way),
        });
        let (letter, size) = (step.letter.clone(), row.size.clone()?);
        Some(match row.spacing.clone() {
            Some(apart) => forms.buttons_either(letter, edges, row.count.clone()?, size, apart),
            None => forms.button_either(letter, edges, size),
        })
    }
}

/// Both sides in the order in which a sentence names them: of hooks first the side that lies over, under whose edge they are
/// hidden; of toggles and buckles the one that lies under, since a loop or a strap reaches over it.
fn by_their_lap([first, second]: [Vec<Named>; 2], said: &Fasteners) -> [Vec<Named>; 2] {
    let is_first = match said.kind {
        Fastener::Hook => said.over,
        Fastener::Toggle | Fastener::Buckle => said.over.map(Hand::other),
        Fastener::Button | Fastener::Snap | Fastener::Tie => None,
    };
    let lies_on =
        |side: &[Named], hand| !side.is_empty() && side.iter().all(|named| named.hand == Some(hand));
    match is_first {
        Some(hand) if lies_on(&second, hand) || lies_on(&first, hand.other()) => [second, first],
        _ => [first, second],
    }
}

/// What is known of a row.
struct Row {
    count: Option<Figure>,
    size: Option<Figure>,
    spacing: Option<Figure>,
    hole: Option<Figure>,
}

type Say<'t> = Box<dyn Fn(&Teller, &Step, &[Vec<Named>; 2], Way, &Row) -> Option<Text> + 't>;
