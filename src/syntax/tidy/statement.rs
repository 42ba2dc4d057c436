//! One statement of a file.

use super::alteration::altered;
use super::entry::{Align, Entry};
use super::expression::{Printer, dotted, dotteds, names};
use crate::source::Span;
use crate::syntax::tree::{
    AddToPiece, Body, BodyRow, Credit, Drop, DropKind, DropOfPiece, Hand, Let, LetValue, NameOrText,
    NamedFile, PieceChange, PieceItemNode, PlacketKind, SewnWords, Statement, StatementNode, VariationOf,
    Wearer, Who,
};

impl Printer<'_> {
    pub(super) fn statement(&self, statement: &Statement) -> Entry {
        let span = statement.span;
        let line = |text: String| Entry::line(span, text);
        match &statement.node {
            StatementNode::Garment(title) => line(format!("garment {}", self.text(title))),
            StatementNode::Variation(variation) => line(self.variation(variation)),
            StatementNode::Fitting(fitting) => self.fitting(span, fitting),
            StatementNode::Library(title) => line(format!("library {}", self.text(title))),
            StatementNode::Use(one) => line(format!("use {}", self.named_file(one))),
            StatementNode::Units(word) => line(format!("units {}", word.unit.word())),
            StatementNode::Allowance(amount) => line(format!("allowance {}", self.expr(amount))),
            StatementNode::Tolerance(amount) => line(format!("tolerance {}", self.expr(amount))),
            StatementNode::Stitch(stitch) => line(format!("stitch {}", stitch.word)),
            StatementNode::Wearer(wearer) => line(self.wearer(wearer)),
            StatementNode::About(text) => line(format!("about {}", self.text(text))),
            StatementNode::Credit(credit) => line(self.credit(credit)),
            StatementNode::Sizes(sizes) => line(format!("sizes {}", self.sizes(&sizes.names))),
            StatementNode::Body(body) => line("body".to_owned()).block(self.body(body)),
            StatementNode::Pick(pick) => {
                let larger = if pick.measures.len() > 1 { "larger of " } else { "" };
                line(format!("pick size by {larger}{}", names(&pick.measures)))
            }
            StatementNode::Let(one) => self.the_let(span, one),
            StatementNode::Measure(measure) => {
                let against =
                    measure.against.as_ref().map_or(String::new(), |name| format!(" against {}", name.text));
                let title = self.text(&measure.title);
                line(format!(
                    "measure {} {title}{against} = {}",
                    measure.name.text,
                    self.expr(&measure.value)
                ))
            }
            StatementNode::Require(require) => {
                let condition = self.comparison(&require.condition);
                Entry::of("require", span, format!("require {condition}"))
                    .tail(Some(self.text(&require.because)))
            }
            StatementNode::Fabric(fabric) => self.fabric(span, fabric),
            StatementNode::Layer(layer) => self.layer(span, layer),
            StatementNode::Notion(notion) => self.notion(span, notion),
            StatementNode::Piece(piece) => self.piece(span, piece),
            StatementNode::Alteration(alteration) => line(self.alteration(alteration)),
            StatementNode::Seam(seam) => self.seam(span, seam),
            StatementNode::Finish(finish) => self.finish(span, finish),
            StatementNode::Place(place) => self.place(span, place),
            StatementNode::Closure(closure) => self.closure(span, closure),
            StatementNode::Opening(opening) => {
                line(format!("opening {}  passes {}", self.chain(&opening.ring), opening.passes.text))
            }
            StatementNode::Placket(placket) => line(self.placket(placket)),
            StatementNode::Band(band) => self.band(span, band),
            StatementNode::Facing(facing) => self.facing(span, facing),
            StatementNode::StitchedRow(row) => self.stitched_row(span, row),
            StatementNode::Tack(tack) => self.tack(span, tack),
            StatementNode::Setting(setting) => self.setting(span, setting),
            StatementNode::Cord(cord) => self.cord(span, cord),
            StatementNode::Strap(strap) => self.strap(span, strap),
            StatementNode::Steps(steps) => {
                let groups = steps.groups.iter().map(|group| self.step_group(group)).collect();
                line("steps".to_owned()).block(groups)
            }
            StatementNode::Replace(inner) => self.replaced(span, inner),
            StatementNode::Set(set) => Entry::of("set", span, format!("set {}", set.name.text))
                .then(1, format!("= {}", self.expr(&set.value)))
                .tail(self.maybe_text(&set.label)),
            StatementNode::Drop(drop) => line(self.drop(drop)),
            StatementNode::DropAlteration(drop) => {
                let of = drop.of.as_ref().map_or(String::new(), |of| format!(" of {}", self.text(of)));
                line(format!("drop {}{of}", altered(&drop.altered)))
            }
            StatementNode::DropOfPiece(drop) => line(self.drop_of_piece(drop)),
            StatementNode::ReplaceStep(group) => self.step_group(group).after("replace step ", span),
            StatementNode::ReplaceAlteration(replace) => {
                let of = format!("of {}", self.text(&replace.of));
                self.replaced(span, &replace.new).then(1, of)
            }
            StatementNode::AddToLayer(add) => {
                line(format!("add {} to layer {}", names(&add.pieces), add.layer.text))
            }
            StatementNode::AddSteps(add) => {
                let place = if add.after { "after" } else { "before" };
                let head = format!("in steps {place} {} add ", self.text(&add.anchor));
                self.step_group(&add.group).after(&head, span)
            }
            StatementNode::ChangeBand(change) => self.band_change(span, change),
            StatementNode::ChangeSeam(change) => self.seam_change(span, change),
            StatementNode::AddToPiece(add) => {
                let verb = match add.how {
                    PieceChange::ReplacesTakeUp => return line(self.replaced_dart(add)),
                    PieceChange::Adds => "add",
                    PieceChange::Replaces => "replace",
                };
                line(format!("in piece {} {verb}", add.piece.text)).block(self.piece_items(&add.items))
            }
        }
    }

    fn variation(&self, variation: &VariationOf) -> String {
        let (title, base) = (self.text(&variation.title), self.named_file(&variation.base));
        let mut words = format!("variation {title} of {base}");
        let with: Vec<String> = variation.with.iter().map(|one| self.named_file(one)).collect();
        let without: Vec<String> = variation.without.iter().map(|one| self.text(one)).collect();
        for (word, files) in [("with", with), ("without", without)] {
            if !files.is_empty() {
                words.push_str(&format!(" {word} {}", files.join(", ")));
            }
        }
        words
    }

    pub(super) fn named_file(&self, named: &NamedFile) -> String {
        let pin = named.pin.as_ref().map_or(String::new(), |pin| format!(" as of {}", pin.digits));
        self.text(&named.path) + &pin
    }

    /// `replace dart front.waist_dart …`
    fn replaced_dart(&self, add: &AddToPiece) -> String {
        let take_ups = add.items.iter().filter_map(|item| match &item.node {
            PieceItemNode::TakeUp(one) => Some((one.word(), self.take_up(one))),
            _ => None,
        });
        let said = take_ups.map(|(word, said)| {
            let named = said.strip_prefix(word).unwrap_or(&said).trim_start();
            format!("replace {word} {}.{named}", add.piece.text)
        });
        said.collect()
    }

    /// `replace` stands before no second `replace`, so this does not run deep.
    fn replaced(&self, span: Span, inner: &Statement) -> Entry {
        self.statement(inner).after("replace ", span)
    }

    fn wearer(&self, wearer: &Wearer) -> String {
        let who = match &wearer.who {
            Who::Adult => "adult".to_owned(),
            Who::Baby => "baby".to_owned(),
            Who::Child { from, to, months } => {
                let unit = if *months { "months" } else { "years" };
                format!("child from {} to {} {unit}", self.expr(from), self.expr(to))
            }
        };
        format!("wearer {who}{}", if wearer.for_sleep { ", for sleep" } else { "" })
    }

    fn body(&self, body: &Body) -> Vec<Entry> {
        body.rows.iter().map(|row| self.body_row(row)).collect()
    }

    fn body_row(&self, row: &BodyRow) -> Entry {
        let mut entry = Entry::of("row", row.span, &*row.name.text).tail(self.maybe_text(&row.label));
        // A list of one value is written as any value is.
        match self.list(&row.values) {
            Some(values) if values.len() == 1 => entry = entry.cell(2, values.concat(), Align::Over),
            None => entry = entry.cell(2, self.stepped(&row.values), Align::Over),
            Some(values) => {
                let last = values.len().saturating_sub(1);
                for (at, value) in values.into_iter().enumerate() {
                    let comma = if at < last { "," } else { "" };
                    let gap = if at == 0 { 2 } else { 1 };
                    entry = entry.cell(gap, format!("{value}{comma}"), Align::Right);
                }
            }
        }
        entry.alone = true;
        entry
    }

    fn the_let(&self, span: Span, one: &Let) -> Entry {
        let name = &one.name.text;
        match &one.value {
            LetValue::Is(value) => {
                Entry::of("let", span, format!("let {name}")).then(1, format!("= {}", self.expr(value)))
            }
            LetValue::Solved { low, high, so_that } => {
                let (low, high) = (self.expr(low), self.expr(high));
                let so_that = self.comparison(so_that);
                Entry::line(span, format!("let {name} between {low} and {high} so that {so_that}"))
            }
        }
        .tail(self.maybe_text(&one.label))
    }

    fn drop(&self, drop: &Drop) -> String {
        let target = match &drop.target {
            NameOrText::Name(name) => {
                let (edge, run, span) = (name.clone(), drop.run.clone(), name.span);
                self.sewn(&SewnWords { edge, run, over: Vec::new(), ring: false, span })
            }
            NameOrText::Text(text) => self.text(text),
        };
        let target_span = match &drop.target {
            NameOrText::Name(name) => name.span,
            NameOrText::Text(text) => text.span,
        };
        let what = match drop.kind {
            DropKind::Steps => return "drop steps".to_owned(),
            DropKind::Pick => return "drop pick size".to_owned(),
            DropKind::Allowance => return "drop allowance".to_owned(),
            DropKind::Tolerance => return "drop tolerance".to_owned(),
            DropKind::Stitch => return "drop stitch".to_owned(),
            DropKind::Wearer => return "drop wearer".to_owned(),
            DropKind::About => return "drop about".to_owned(),
            DropKind::Credit(kind) => return format!("drop {}", kind.word()),
            DropKind::BodyRow => "body ",
            DropKind::Piece if drop.kind_span == target_span => "",
            DropKind::Piece => "piece ",
            DropKind::Seam => "seam ",
            DropKind::Closure => "closure ",
            DropKind::Finish => "finish ",
            DropKind::Place => "place ",
            DropKind::Layer => "layer ",
            DropKind::Fabric => "fabric ",
            DropKind::Let => "let ",
            DropKind::Measure => "measure ",
            DropKind::Require => "require ",
            DropKind::Opening => "opening ",
            DropKind::Cord => "cord ",
            DropKind::Dart => "dart ",
            DropKind::Placket => "placket ",
            DropKind::Band => "band ",
            DropKind::Facing => "facing ",
            DropKind::Strap => "strap ",
            DropKind::Topstitch => "topstitch ",
            DropKind::Understitch => "understitch ",
            DropKind::Tack => "tack ",
            DropKind::SetNotion => "set ",
            DropKind::Pleat => "pleat ",
            DropKind::Tuck => "tuck ",
            DropKind::Notion => "notion ",
            DropKind::Step => "step ",
        };
        let on = drop.on.as_ref().map_or(String::new(), |on| format!(" on {}", dotted(on)));
        let all = if drop.and_all_sewn { " and all sewn to it" } else { "" };
        format!("drop {what}{target}{on}{all}")
    }

    fn drop_of_piece(&self, drop: &DropOfPiece) -> String {
        let name = drop.name.as_ref().map_or(String::new(), |name| format!(".{}", name.text));
        let other = drop.other.as_ref().map_or(String::new(), |other| format!("/{}", other.text));
        let place = drop
            .notch
            .as_ref()
            .map_or(String::new(), |notch| format!(" {}", self.counted_place(&notch.place)));
        format!("drop {} {}{name}{other}{place}", drop.kind.words(), drop.piece.text)
    }

    fn credit(&self, credit: &Credit) -> String {
        let said = match credit {
            Credit::Maker(words) | Credit::Licence(words) => self.text(words),
            Credit::Edition(number) => number.to_string(),
            Credit::Level(level) => level.word().to_owned(),
        };
        format!("{} {said}", credit.kind().word())
    }

    fn placket(&self, placket: &crate::syntax::tree::Placket) -> String {
        let how = match &placket.kind {
            PlacketKind::Bound(width) => format!("bound {}", self.expr(width)),
            PlacketKind::TwoPart { over, under, upper } => {
                let upper = match upper {
                    None => "",
                    Some(Hand::Left) => " left over right",
                    Some(Hand::Right) => " right over left",
                };
                format!("two-part over {} under {}{upper}", self.expr(over), self.expr(under))
            }
        };
        format!("placket {} on {} {how}", placket.name.text, dotted(&placket.slit))
    }

    fn cord(&self, span: Span, cord: &crate::syntax::tree::Cord) -> Entry {
        let ends =
            cord.ends.as_ref().map_or(String::new(), |ends| format!("  ends {} free", self.expr(ends)));
        let (length, through) = (self.expr(&cord.length), dotteds(&cord.through));
        Entry::line(span, format!("cord {} {length} through {through}{ends}", cord.name.text))
    }
}
