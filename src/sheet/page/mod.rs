//! The page: everything that is said, drawn and counted put together as one HTML file that asks for nothing from outside.

mod buy;
mod cautions;
mod differs;
mod figures;
mod glossary;
mod head;
mod key;
mod lays;
mod pieces;
mod sewing;
mod shapes;
mod sizes;
mod swatch;
mod tables;
mod write;

use super::base::Differences;
use super::pictures::{self, Pictures};
use super::words::{Labels, Words};
use super::{Choices, Differing, Facts, Figure, FigureKind, SheetPaper};
use crate::emit::{CutDocument, EdgeDocument, FateWay, SizeDocument};
use crate::garment::FabricId;
use figures::Numbers;
use indexmap::IndexSet;
use minijinja::value::Serde;
use minijinja::{AutoEscape, Environment, UndefinedBehavior, Value, context};
use write::{NAME_LETTERS, Writer, bounded, escaped, isolated};

/// What the parts of the page share.
struct Page<'a> {
    facts: &'a Facts<'a>,
    say: &'static Labels,
    numbers: Numbers,
    /// The names of the sizes.
    sizes: Vec<String>,
    /// Which of them pictures show.
    shown: usize,
    /// In the order in which textures are given out.
    cloths: Vec<FabricId>,
    /// What differs from the base.
    differing: Option<Differing>,
}

/// Writes the page.
///
/// # Errors
/// Where a template does not fit what it is given: a mistake of this program.
pub(super) fn page(
    facts: &Facts,
    differences: Option<&Differences>,
    choices: &Choices,
) -> Result<String, minijinja::Error> {
    let names = |size: &&crate::cutting::WorkedSize| facts.garment.size(size.id()).name.to_string();
    let sizes: Vec<String> = facts.sizes.iter().map(names).collect();
    let mut cloths: Vec<FabricId> = Vec::new();
    for fabric in facts.garment.layers.iter().filter_map(|layer| layer.fabric) {
        if !cloths.contains(&fabric) {
            cloths.push(fabric);
        }
    }
    let shown = facts.sizes.iter().position(|size| size.id() == facts.shown.id()).unwrap_or(0);
    let words = Words::of(choices.language);
    let numbers = Numbers::of(words.numbers);
    let differing = differences
        .map(|one| Differing::of(one, sizes.get(shown).map_or("", String::as_str)))
        .filter(|one| !one.is_empty());
    let page = Page { facts, say: &words.labels, numbers, sizes, shown, cloths, differing };
    let mut writer = Writer { numbers, terms: IndexSet::new() };
    let pictures = Pictures::marking(facts, page.differing.as_ref());
    let sewing = sewing::sewing(&page, &mut writer, &pictures, choices.language);
    let whole = pictures.garment.as_ref().map_or_else(String::new, |picture| {
        let alt = format!("{}: {}", page.say.picture_of_garment, facts.document.garment);
        picture
            .svg(&write::told(&bounded(&alt, NAME_LETTERS)), &|caption| sewing::caption_words(&page, caption))
    });
    let tag = choices.language.tag();
    let mut templates = Environment::new();
    templates.set_undefined_behavior(UndefinedBehavior::Strict);
    templates.set_auto_escape_callback(|_| AutoEscape::Html);
    templates.add_template("page", include_str!("page.html"))?;
    templates.add_template("parts", include_str!("parts.html"))?;
    let title = Value::from_safe_string(escaped(&bounded(&facts.document.garment, NAME_LETTERS)));
    let html = templates.get_template("page")?.render(context! {
        say => Serde(page.say),
        language => tag,
        title => title,
        style => Value::from_safe_string(style(choices)),
        patterns => Value::from_safe_string(pictures::defs()),
        names => page.sizes.iter().map(|name| isolated(name, NAME_LETTERS)).map(Value::from_safe_string).collect::<Vec<_>>(),
        whole => Value::from_safe_string(whole),
        words => Serde(glossary::glossary(&page, &writer, words)),
        head => Serde(head::head(&page, differences)),
        differs => Serde(differences.and_then(|one| differs::differs(&page, &writer, &one.comparison))),
        choosing => Serde(sizes::sizes(&page, &writer, words)),
        buy => Serde(buy::buy(&page)),
        pieces => Serde(pieces::pieces(&page, &writer)),
        lays => Serde(lays::lays(&page)),
        key => Serde(key::key(&page)),
        sewing => Serde(sewing),
        cautions => Serde(cautions::cautions(&page, &writer, words)),
    })?;
    Ok(html)
}

/// The page's own style, for that paper.
fn style(choices: &Choices) -> String {
    let paper = match choices.paper {
        SheetPaper::A4 => "A4",
        SheetPaper::Letter => "letter",
    };
    format!("{}\n{}", include_str!("page.css").replace("PAPER", paper), pictures::style())
}

impl Page<'_> {
    /// The name of the size that pictures show.
    fn shown_size(&self) -> String {
        self.sizes.get(self.shown).cloned().unwrap_or_default()
    }

    /// The title of what it is a variation of.
    fn base_title(&self) -> Option<&str> {
        self.facts.document.files.iter().find(|file| file.is_base).map(|base| base.title.as_str())
    }

    /// The texture of a cloth.
    fn texture_of(&self, fabric: &str) -> Option<usize> {
        self.cloths.iter().position(|&id| *self.facts.garment.fabric(id).name == *fabric)
    }

    fn is_one_way(&self, fabric: &str) -> bool {
        self.facts.garment.fabrics.iter().any(|one| *one.name == *fabric && one.one_way)
    }

    /// What people read of a cloth, as HTML.
    fn cloth_label(&self, fabric: &str) -> String {
        let found = self.facts.garment.fabrics.iter().find(|one| *one.name == *fabric);
        isolated(found.map_or(fabric, |one| &one.title), NAME_LETTERS)
    }

    /// The number of a part that the document names: `outer.front`, `outer.front on left`.
    fn number_of_part(&self, name: &str) -> Option<usize> {
        let (name, hand) = match name.split_once(" on ") {
            Some((name, hand)) => (name, Some(hand)),
            None => (name, None),
        };
        let own = || {
            self.facts.pieces.iter().filter(|piece| {
                piece
                    .parts
                    .iter()
                    .any(|part| self.facts.garment.part_name(Some(part.layer), part.piece) == name)
            })
        };
        let of_hand = own().find(|piece| piece.hand.map(|hand| hand.word()) == hand);
        of_hand.or_else(|| own().next()).map(|piece| piece.number)
    }

    fn number_of_row(&self, row: &CutDocument) -> Option<usize> {
        let name = format!("{}.{}", row.layer, row.piece);
        match row.side {
            None => self.number_of_part(&name),
            Some(crate::emit::HandDocument::Left) => self.number_of_part(&format!("{name} on left")),
            Some(crate::emit::HandDocument::Right) => self.number_of_part(&format!("{name} on right")),
        }
    }

    /// The angle of the grain of a part, in degrees.
    fn grain_of(&self, name: &str) -> Option<f64> {
        let name = name.split_once(" on ").map_or(name, |(name, _)| name);
        let size = self.facts.document.sizes.get(self.shown)?;
        size.pieces.iter().find(|piece| piece.part == name).map(|piece| piece.grain.angle.rounded())
    }

    /// What people read of a seam, edge or closure that is named so.
    fn labelled(&self, name: &str) -> String {
        let garment = self.facts.garment;
        let seam = garment.seams.iter().find(|seam| *seam.name == *name);
        match seam.and_then(|seam| seam.label.as_deref()) {
            Some(label) => label.to_owned(),
            None => name.replace(['.', '_'], " "),
        }
    }

    /// The allowance that most edges have that are sewn to others; none where none is.
    fn usual_allowance(&self) -> Option<Figure> {
        let values: Vec<Option<f64>> = self.facts.document.sizes.iter().map(usual_allowance).collect();
        let is_any = values.iter().any(Option::is_some);
        is_any.then_some(Figure { kind: FigureKind::Length, values })
    }
}

/// The allowance that most edges have that are sewn to others, in millimetres; none where none is.
fn usual_allowance(size: &SizeDocument) -> Option<f64> {
    let mut counts: indexmap::IndexMap<u64, (f64, usize)> = indexmap::IndexMap::new();
    let is_sewn = |edge: &&EdgeDocument| edge.fates.iter().any(|fate| matches!(fate.by, FateWay::Seam));
    let sewn = size.pieces.iter().flat_map(|piece| &piece.edges).filter(is_sewn);
    for allowance in sewn.filter_map(|edge| edge.allowance) {
        let allowance = allowance.rounded();
        counts.entry(allowance.to_bits()).or_insert((allowance, 0)).1 += 1;
    }
    counts.values().max_by_key(|(_, count)| *count).map(|(allowance, _)| *allowance)
}
