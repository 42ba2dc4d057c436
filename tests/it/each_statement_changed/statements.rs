//! What is changed of each kind of statement.

use super::changes::{Changing, Way, range};
use fustian::syntax::tree::{
    AnchorAt, Band, Closure, ClosureItemNode, Cord, DartCloth, DartLaid, EdgePlace, Fasteners, Finish,
    FinishKind, HemEdge, Opening, PieceItem, PieceItemNode, Place, PlaceItemNode, Placket, PlacketKind,
    Pleat, PleatKind, PleatPlace, PressedWay, SewnPlace, SlitCut, SlitEnd, Statement, StatementNode,
    StitchedRow, Strap, StrapEnd, StrapItemNode, Tack, TakeUp, TakeUpForm,
};

impl Changing {
    pub fn statement(&mut self, statement: &Statement) {
        let node = match &statement.node {
            StatementNode::Replace(inner) => &inner.node,
            node => node,
        };
        match node {
            StatementNode::Seam(seam) => self.seam(statement, seam),
            StatementNode::Finish(finish) => self.finish(statement, finish),
            StatementNode::Place(place) => self.place(statement, place),
            StatementNode::Closure(closure) => self.closure(statement, closure),
            StatementNode::Opening(opening) => self.opening(statement, opening),
            StatementNode::Strap(strap) => self.strap(statement, strap),
            StatementNode::Band(band) => self.band(statement, band),
            StatementNode::Cord(cord) => self.cord(statement, cord),
            StatementNode::Placket(placket) => self.placket(statement, placket),
            StatementNode::StitchedRow(row) => self.row(statement, row),
            StatementNode::Tack(tack) => self.tack(statement, tack),
            StatementNode::Notion(notion) => {
                let what = format!("notion {}", notion.title.text);
                self.drop_and_double(&what, statement.span, None);
                if let Some(amount) = &notion.amount {
                    self.count(&what, amount);
                }
            }
            StatementNode::Piece(piece) => self.piece(&piece.name.text, &piece.items),
            StatementNode::AddToPiece(added) => self.piece(&added.piece.text, &added.items),
            StatementNode::Steps(steps) => self.steps(&steps.groups),
            StatementNode::ReplaceStep(group) => self.steps(std::slice::from_ref(group)),
            StatementNode::AddSteps(added) => self.steps(std::slice::from_ref(&added.group)),
            _ => {}
        }
    }

    fn finish(&mut self, statement: &Statement, finish: &Finish) {
        let edges: Vec<String> = finish.edges.iter().map(|edge| self.words(range(edge.span))).collect();
        let what = format!("finish {}", edges.join(", "));
        self.drop_and_double(&what, statement.span, None);
        for sewn in &finish.edges {
            self.sewn(&what, sewn);
        }
        match &finish.kind {
            FinishKind::Hem(hem) => {
                self.number(&format!("{what}: hem"), &hem.depth);
                if let HemEdge::TurnedUnder(under) = &hem.raw_edge {
                    self.number(&format!("{what}: turned under"), under);
                }
                if let Some(turn_up) = &hem.turn_up {
                    self.number(&format!("{what}: turn-up"), turn_up);
                }
            }
            FinishKind::Bound(binding) => {
                self.number(&format!("{what}: bound"), &binding.width);
                for (length, _) in &binding.running_on {
                    self.number(&format!("{what}: running on"), length);
                }
            }
            FinishKind::Tape(Some(width)) => self.number(&format!("{what}: tape"), width),
            FinishKind::Elastic { width, length } => {
                self.number(&format!("{what}: elastic width"), width);
                self.number(&format!("{what}: elastic length"), length);
            }
            FinishKind::Casing { depth, elastic } => {
                self.number(&format!("{what}: casing"), depth);
                if let Some((width, length)) = elastic {
                    self.number(&format!("{what}: elastic width"), width);
                    self.number(&format!("{what}: elastic length"), length);
                }
            }
            _ => {}
        }
    }

    fn place(&mut self, statement: &Statement, place: &Place) {
        let what = format!("place {}", self.words(range(place.piece.span)));
        self.drop_and_double(&what, statement.span, None);
        for item in &place.items {
            let at = range(item.span);
            match &item.node {
                PlaceItemNode::Corner { corner, .. } => {
                    for other in ["bottom_left", "bottom_right", "top_left", "top_right"] {
                        if other != &*corner.text {
                            let edit = vec![(range(corner.span), other.to_owned())];
                            self.add(Way::EndsSwapped, format!("{what}: corner to {other}"), edit);
                        }
                    }
                }
                PlaceItemNode::Topstitch(edges) => {
                    for edge in edges {
                        for other in ["left", "bottom", "right", "top"] {
                            if edges.iter().all(|own| &*own.text != other) {
                                let what = format!("{what}: topstitch {} to {other}", edge.text);
                                let edit = vec![(range(edge.span), other.to_owned())];
                                self.add(Way::TwinEdge, what, edit);
                            }
                        }
                    }
                }
                _ => {
                    let edit = vec![(at.clone(), self.blank(at.clone()))];
                    self.add(Way::Dropped, format!("{what}: {}", self.words(at)), edit);
                }
            }
        }
    }

    fn closure(&mut self, statement: &Statement, closure: &Closure) {
        let what = format!("closure {}", closure.name.text);
        self.drop_and_double(&what, statement.span, Some(range(closure.name.span)));
        let (first, second) = (range(closure.first.span), range(closure.second.span));
        let swap = vec![(first.clone(), self.words(second.clone())), (second, self.words(first))];
        self.add(Way::SidesSwapped, what.clone(), swap);
        for sewn in closure.first.edges.iter().chain(&closure.second.edges) {
            self.sewn(&what, sewn);
        }
        for item in &closure.items {
            match &item.node {
                ClosureItemNode::Zipper(zipper) => {
                    for length in &zipper.lengths {
                        self.number(&format!("{what}: zip"), length);
                    }
                    if let Some(showing) = &zipper.showing {
                        self.number(&format!("{what}: showing"), showing);
                    }
                    let own = self.words(range(item.span));
                    let kinds =
                        [("separating", "closed"), ("concealed", "separating"), ("closed", "separating")];
                    if let Some((kind, other)) = kinds.into_iter().find(|(kind, _)| own.contains(kind)) {
                        let edit = vec![(range(item.span), own.replacen(kind, other, 1))];
                        self.add(Way::OtherLayer, format!("{what}: {kind} to {other}"), edit);
                    }
                }
                ClosureItemNode::Fasteners(row) => self.fasteners(&what, row),
            }
        }
    }

    fn fasteners(&mut self, what: &str, row: &Fasteners) {
        let one = row.kind.one();
        if let Some(count) = &row.count {
            self.count(&format!("{what}: {}", row.kind.many()), count);
        }
        if let Some(size) = &row.size {
            self.number(&format!("{what}: {one} size"), size);
        }
        if let Some((from, to)) = &row.between {
            for (which, anchor) in [("first", from), ("last", to)] {
                if let AnchorAt::Beside { distance, .. } = &anchor.at {
                    self.number(&format!("{what}: {which} {one}"), distance);
                }
            }
        }
        if let Some(stand) = &row.stand {
            self.number(&format!("{what}: stand"), stand);
        }
    }

    fn opening(&mut self, statement: &Statement, opening: &Opening) {
        let what = format!("opening {}", self.words(range(opening.ring.span)));
        self.drop_and_double(&what, statement.span, None);
        for sewn in &opening.ring.edges {
            self.sewn(&what, sewn);
        }
    }

    fn cord(&mut self, statement: &Statement, cord: &Cord) {
        let what = format!("cord {}", cord.name.text);
        self.drop_and_double(&what, statement.span, None);
        self.number(&format!("{what}: length"), &cord.length);
        for edge in &cord.through {
            self.edge(&what, edge);
        }
        if let Some(ends) = &cord.ends {
            self.number(&format!("{what}: ends"), ends);
        }
    }

    fn strap(&mut self, statement: &Statement, strap: &Strap) {
        let what = format!("strap {}", strap.name.text);
        self.drop_and_double(&what, statement.span, Some(range(strap.name.span)));
        self.number(&format!("{what}: length"), &strap.length);
        self.number(&format!("{what}: width"), &strap.width);
        for item in &strap.items {
            match &item.node {
                StrapItemNode::Sewn { length, .. } => self.number(&format!("{what}: sewn"), length),
                StrapItemNode::Run { from, to } => {
                    let at = range(item.span);
                    let (own, gone) = (self.words(at.clone()), self.blank(at.clone()));
                    self.add(Way::Dropped, format!("{what}: {own}"), vec![(at.clone(), gone)]);
                    self.add(
                        Way::Doubled,
                        format!("{what}: {own}"),
                        vec![(at.end..at.end, format!("\n{own}"))],
                    );
                    if let Some(to) = to {
                        let ends = [from, to].map(|end: &StrapEnd| range(end.span));
                        self.exchange(Way::EndsSwapped, format!("{what}: {own}"), ends);
                    }
                }
            }
        }
    }

    fn band(&mut self, statement: &Statement, band: &Band) {
        let what = format!("band {}", band.name.text);
        self.drop_and_double(&what, statement.span, Some(range(band.name.span)));
        self.number(&format!("{what}: depth"), &band.depth);
        if let Some(share) = &band.share {
            self.number(&format!("{what}: share"), share);
        }
        let inside = band.inside.iter().flat_map(|inside| &inside.edges);
        for sewn in band.edges.edges.iter().chain(inside) {
            self.sewn(&what, sewn);
        }
    }

    fn placket(&mut self, statement: &Statement, placket: &Placket) {
        let what = format!("placket {}", placket.name.text);
        self.drop_and_double(&what, statement.span, Some(range(placket.name.span)));
        match &placket.kind {
            PlacketKind::Bound(width) => self.number(&format!("{what}: bound"), width),
            PlacketKind::TwoPart { over, under, .. } => {
                self.number(&format!("{what}: over"), over);
                self.number(&format!("{what}: under"), under);
                self.exchange(Way::SidesSwapped, what, [range(over.span), range(under.span)]);
            }
        }
    }

    fn row(&mut self, statement: &Statement, row: &StitchedRow) {
        let what = format!("{} {}", row.kind.word(), row.name.text);
        self.drop_and_double(&what, statement.span, Some(range(row.name.span)));
        if let Some(distance) = &row.distance {
            self.number(&format!("{what}: distance"), distance);
        }
        for sewn in &row.edges {
            self.sewn(&what, sewn);
        }
        if let Some((count, apart)) = &row.rows {
            self.count(&format!("{what}: rows"), count);
            self.number(&format!("{what}: apart"), apart);
        }
    }

    fn tack(&mut self, statement: &Statement, tack: &Tack) {
        let what = format!("tack {}", tack.name.text);
        self.drop_and_double(&what, statement.span, Some(range(tack.name.span)));
        let places: Vec<&SewnPlace> = std::iter::once(&tack.from).chain(&tack.to).collect();
        for place in &places {
            self.edge(&what, &place.at);
        }
        if let [from, to] = places.as_slice() {
            self.exchange(Way::SidesSwapped, what.clone(), [range(from.span), range(to.span)]);
        }
        if let Some(bar) = &tack.bar {
            self.number(&format!("{what}: bar"), bar);
        }
    }

    /// How often it is cut, and what is taken up of it.
    fn piece(&mut self, name: &str, items: &[PieceItem]) {
        for item in items {
            match &item.node {
                PieceItemNode::Cut(cut) => self.count(&format!("piece {name}: cut"), &cut.count),
                PieceItemNode::TakeUp(take_up) => {
                    let what = format!("{} {name}.{}", take_up.word(), take_up.name.text);
                    self.drop_and_double(&what, item.span, Some(range(take_up.name.span)));
                    self.take_up(&what, take_up);
                }
                PieceItemNode::Folded { edge, onto, .. } => {
                    let at = range(item.span);
                    let gone = vec![(at.clone(), self.blank(at))];
                    self.add(Way::Dropped, format!("piece {name}: folded"), gone);
                    let ends = [range(edge.span), range(onto.span)];
                    self.exchange(Way::SidesSwapped, format!("piece {name}: folded"), ends);
                }
                _ => {}
            }
        }
    }

    fn take_up(&mut self, what: &str, take_up: &TakeUp) {
        match &take_up.form {
            TakeUpForm::Dart { cloth, ways } => {
                match cloth {
                    DartCloth::OnEdge { place, width, .. } => {
                        self.on_edge(what, place);
                        self.number(&format!("{what}: width"), width);
                    }
                    DartCloth::Inside { width, up, down, .. } => {
                        self.number(&format!("{what}: width"), width);
                        self.number(&format!("{what}: up"), up);
                        self.number(&format!("{what}: down"), down);
                    }
                }
                if let Some(stopping) = &ways.stopping {
                    self.number(&format!("{what}: stopping"), stopping);
                }
                if let DartLaid::Pressed(way) = ways.laid {
                    let (own, other) = match way {
                        PressedWay::Up => ("pressed up", "pressed down"),
                        PressedWay::Down => ("pressed down", "pressed up"),
                        PressedWay::Left => ("pressed left", "pressed right"),
                        PressedWay::Right => ("pressed right", "pressed left"),
                    };
                    self.reworded(Way::SidesSwapped, what, range(take_up.name.span).end, own, other);
                }
            }
            TakeUpForm::Slit { cut, window } => {
                if let SlitCut::FromEdge { place, end, .. } = cut {
                    self.on_edge(what, place);
                    if let SlitEnd::Way(_, length) = end {
                        self.number(&format!("{what}: length"), length);
                    }
                }
                if let Some(window) = window {
                    self.number(&format!("{what}: window"), window);
                }
            }
            TakeUpForm::Pleat(pleat) => self.pleat(what, pleat),
        }
    }

    fn pleat(&mut self, what: &str, pleat: &Pleat) {
        if let PleatPlace::On(place) = &pleat.place {
            self.on_edge(what, place);
        }
        self.number(&format!("{what}: depth"), &pleat.depth);
        if let PleatKind::Box(Some(wide)) | PleatKind::Inverted(Some(wide)) = &pleat.kind {
            self.number(&format!("{what}: wide"), wide);
        }
        if let Some((count, apart)) = &pleat.row {
            self.count(&format!("{what}: count"), count);
            self.number(&format!("{what}: apart"), apart);
        }
        if let Some(stitched) = &pleat.stitched {
            self.number(&format!("{what}: stitched"), stitched);
        }
    }

    fn on_edge(&mut self, what: &str, place: &EdgePlace) {
        if let EdgePlace::At { value, .. } = place {
            self.number(&format!("{what}: at"), value);
        }
    }
}
