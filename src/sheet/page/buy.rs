//! What to buy: cloth for each size at its widths, what is bought beside cloth, thread, and what it costs.

use super::Page;
use super::figures::Written;
use super::swatch::swatch;
use super::tables::{Table, TableRow};
use super::write::{Html, NAME_LETTERS, escaped, isolated, said, spoken};
use crate::emit::{
    ClothDocument, CostDocument, Figure, MaterialsDocument, NotionDocument, NotionWay, PricedNotionDocument,
    SpreadDocument,
};
use crate::report::DisplayUnit;
use crate::sheet::FigureKind;
use indexmap::IndexSet;
use minijinja::Value;
use serde::Serialize;

#[derive(Debug, Serialize)]
pub struct Buy {
    tables: Vec<Table>,
    notes: Vec<Html>,
}

pub fn buy(page: &Page) -> Buy {
    let say = page.say;
    let caption = |words: &str| Value::from_safe_string(escaped(words));
    let tables = [
        Table::of(caption(say.buy_cloth), say.units_metres, &page.sizes, &cloths(page)),
        Table::of(caption(say.buy_beside), say.units_cm, &page.sizes, &notions(page)),
        Table::of(caption(say.buy_thread), say.units_metres, &page.sizes, &thread(page)),
        Table::of(caption(say.buy_cost), say.in_makers_prices, &page.sizes, &cost(page)),
    ];
    Buy { tables: tables.into_iter().flatten().collect(), notes: notes(page) }
}

fn materials<'p>(page: &'p Page) -> impl Iterator<Item = Option<&'p MaterialsDocument>> {
    page.facts.document.sizes.iter().map(|size| size.materials.as_ref())
}

/// All widths of a size's cloths, its own first.
fn all_cloths(materials: &MaterialsDocument) -> impl Iterator<Item = &ClothDocument> {
    materials.cloths.iter().chain(&materials.other_widths)
}

/// Cloth by its width: as much as is bought, before it is washed.
fn cloths(page: &Page) -> Vec<TableRow> {
    let key = |cloth: &ClothDocument| (cloth.fabric.clone(), cloth.width.rounded().to_bits());
    let keys: IndexSet<(String, u64)> =
        materials(page).flatten().flat_map(|size| all_cloths(size).map(key)).collect();
    // All widths of a cloth stand together.
    let fabrics: IndexSet<&String> = keys.iter().map(|(fabric, _)| fabric).collect();
    let in_order = fabrics.into_iter().flat_map(|fabric| keys.iter().filter(move |(of, _)| of == fabric));
    let rows = in_order.filter_map(|wanted| {
        let own: Vec<Option<&ClothDocument>> =
            materials(page).map(|size| all_cloths(size?).find(|cloth| key(cloth) == *wanted)).collect();
        let first = own.iter().flatten().next()?;
        let mut ways: IndexSet<&'static str> = IndexSet::new();
        ways.extend(own.iter().flatten().filter_map(|cloth| cloth.spread).map(|spread| way(page, spread)));
        let ways: Vec<&str> = ways.into_iter().collect();
        let mut note = wide(page, first.width.rounded());
        if !ways.is_empty() {
            note = format!("{note}, {}", ways.join(" / "));
        }
        Some(TableRow {
            title: Value::from_safe_string(format!(
                "{} {}",
                swatch(page.texture_of(&first.fabric)),
                isolated(&first.label, NAME_LETTERS)
            )),
            note: Value::from_safe_string(note),
            cells: own.iter().map(|cloth| cloth.map(|cloth| bought(page, cloth))).collect(),
        })
    });
    rows.collect()
}

/// "150 cm (59 in) wide"
pub fn wide(page: &Page, width: f64) -> String {
    let written = page.numbers.written(FigureKind::Length, &[width]);
    let beside = written.beside.map_or(String::new(), |beside| format!(" ({})", escaped(&beside)));
    format!("{}{beside} {}", escaped(&written.main), page.say.wide)
}

pub fn way(page: &Page, spread: SpreadDocument) -> &'static str {
    match spread {
        SpreadDocument::Open => page.say.open,
        SpreadDocument::Lengthwise => page.say.folded,
        SpreadDocument::Tube => page.say.tube,
    }
}

/// Metres, and yards. Each is rounded up from what is needed before washing, never from the other.
fn bought(page: &Page, cloth: &ClothDocument) -> Written {
    let Some(buy) = cloth.buy else {
        return Written { main: "–".to_owned(), beside: Some(page.say.too_narrow.to_owned()) };
    };
    let unwashed = buy.before_washing.rounded();
    // `to_buy` is rounded up as cloth is sold in the unit of the garment.
    let metres = match page.facts.garment.unit {
        DisplayUnit::Millimetre | DisplayUnit::Centimetre => buy.to_buy.rounded(),
        DisplayUnit::Inch => (((unwashed - 0.05) / 100.0).ceil() * 100.0).max(100.0),
    };
    Written { main: page.numbers.metres(metres), beside: Some(page.numbers.yards_at_least(unwashed)) }
}

/// Zips, buttons, bindings and whatever the maker lists.
fn notions(page: &Page) -> Vec<TableRow> {
    let sizes = &page.facts.document.sizes;
    let key = |notion: &NotionDocument| {
        // Of a zip the length is part of what it is called, and differs from size to size.
        let called = match notion.kind {
            NotionWay::Other => notion.what.clone(),
            _ => notion.width.map_or(String::new(), |width| width.to_string()),
        };
        (format!("{:?}", notion.kind), called, notion.of.clone())
    };
    let keys: IndexSet<_> = sizes.iter().flat_map(|size| size.notions.iter().map(key)).collect();
    let rows = keys.iter().filter_map(|wanted| {
        let own: Vec<Option<&NotionDocument>> =
            sizes.iter().map(|size| size.notions.iter().find(|notion| key(notion) == *wanted)).collect();
        let first = own.iter().flatten().next()?;
        let counts: IndexSet<Option<u32>> = own.iter().flatten().map(|notion| notion.count).collect();
        let mut title = called(page, first);
        let many = counts.iter().flatten().max().copied().unwrap_or(0);
        // What is bought by its length says its count beside its name, if that is one and the same.
        let long = own.iter().flatten().any(|notion| notion.length.is_some());
        if long && counts.len() == 1 && many > 1 {
            title = format!("{many} × {title}");
        }
        let for_what = first.of.as_deref().map(|of| page.labelled(of));
        let cut_from = first
            .cut_from
            .as_ref()
            .map(|fabric| format!("{} {}", page.say.from_cloth, page.cloth_label(fabric)));
        let note: Vec<String> = for_what
            .map(|of| format!("{} {}", page.say.of_closure, isolated(&of, NAME_LETTERS)))
            .into_iter()
            .chain(cut_from)
            .collect();
        let cell = |notion: &NotionDocument| match (notion.length, notion.count) {
            (Some(length), count) => {
                let mut written = page.numbers.in_table(FigureKind::Length, length.rounded());
                if counts.len() > 1
                    && let Some(count) = count
                {
                    written.main = format!("{count} × {}", written.main);
                }
                written
            }
            (None, Some(count)) => Written { main: count.to_string(), beside: None },
            (None, None) => Written { main: "✓".to_owned(), beside: None },
        };
        Some(TableRow {
            title: Value::from_safe_string(title),
            note: Value::from_safe_string(note.join(", ")),
            cells: own.iter().map(|notion| notion.map(cell)).collect(),
        })
    });
    rows.collect()
}

/// "Button, 20 mm"
fn called(page: &Page, notion: &NotionDocument) -> String {
    let say = page.say;
    let kind = match notion.kind {
        NotionWay::SeparatingZip => say.separating_zip,
        NotionWay::ClosedZip => say.closed_zip,
        NotionWay::ConcealedZip => say.concealed_zip,
        NotionWay::Zip => say.zip,
        NotionWay::Button => say.button,
        NotionWay::Snap => say.snap,
        NotionWay::Hook => say.hook,
        NotionWay::Toggle => say.toggle,
        NotionWay::Buckle => say.buckle,
        NotionWay::Tie => say.tie,
        NotionWay::Elastic => say.elastic,
        NotionWay::Binding => say.binding,
        NotionWay::Tape => say.tape,
        NotionWay::Cord => say.cord,
        NotionWay::Other => return isolated(&spoken(&notion.what), NAME_LETTERS),
    };
    let kind = escaped(&spoken(kind));
    match notion.width {
        None => kind,
        Some(width) => {
            // What is cut to length is measured as all else is; what is bought one by one is sold in millimetres.
            let measured = matches!(
                notion.kind,
                NotionWay::Elastic | NotionWay::Binding | NotionWay::Tape | NotionWay::Cord
            );
            let kind_of = if measured { FigureKind::Length } else { FigureKind::Small };
            let written = page.numbers.written(kind_of, &[width.rounded()]);
            let beside = written.beside.map_or(String::new(), |beside| format!(" ({})", escaped(&beside)));
            format!("{kind}, {}{beside}", escaped(&written.main))
        }
    }
}

/// Thread of each stitch, in whole metres and yards, rounded up.
fn thread(page: &Page) -> Vec<TableRow> {
    const YARD: f64 = 914.4;
    let stitches: IndexSet<u16> =
        materials(page).flatten().flat_map(|size| size.thread.iter().map(|thread| thread.stitch)).collect();
    let rows = stitches.into_iter().map(|stitch| {
        let own = materials(page).map(|size| size?.thread.iter().find(|thread| thread.stitch == stitch));
        let cells: Vec<Option<Written>> = own
            .map(|thread| {
                let thread = thread?;
                let whole = |length: f64| page.numbers.number(length.ceil(), 0);
                Some(match thread.thread {
                    Some(length) => Written {
                        main: whole(length.rounded() / 1000.0),
                        beside: Some(whole(length.rounded() / YARD)),
                    },
                    None => Written {
                        main: page.numbers.number(thread.sewn.metres_up(), 1),
                        beside: Some(page.say.sewn_metres.to_owned()),
                    },
                })
            })
            .collect();
        TableRow {
            title: Value::from_safe_string(escaped(&spoken(page.say.thread_of))),
            note: Value::from_safe_string(format!("{} {stitch}", page.say.stitch)),
            cells,
        }
    });
    rows.collect()
}

/// What is known of the cost: of each cloth, and all together.
fn cost(page: &Page) -> Vec<TableRow> {
    let currencies: IndexSet<Option<&String>> = materials(page)
        .flatten()
        .flat_map(|size| size.total.iter().map(|total| total.currency.as_ref()))
        .collect();
    let fabrics: IndexSet<(&String, &String)> = materials(page)
        .flatten()
        .flat_map(|size| size.cloths.iter().filter(|cloth| cloth.cost.is_some()))
        .map(|cloth| (&cloth.fabric, &cloth.label))
        .collect();
    let money = |cost: &CostDocument| Written {
        main: page.numbers.money(cost.amount.rounded()),
        beside: cost.currency.clone().map(|currency| super::write::bounded(&currency, 12)),
    };
    let mut rows: Vec<TableRow> = fabrics
        .into_iter()
        .map(|(fabric, label)| TableRow {
            title: Value::from_safe_string(format!(
                "{} {}",
                swatch(page.texture_of(fabric)),
                isolated(label, NAME_LETTERS)
            )),
            note: Value::from(""),
            cells: materials(page)
                .map(|size| {
                    size?.cloths.iter().find(|cloth| cloth.fabric == *fabric)?.cost.as_ref().map(money)
                })
                .collect(),
        })
        .collect();
    // Of what is called alike, as zips of several lengths are, what all of it costs.
    let called = |notion: &PricedNotionDocument| {
        notion.cost.as_ref().map(|cost| (called(page, &notion.notion), cost.currency.clone()))
    };
    let priced: IndexSet<(String, Option<String>)> =
        materials(page).flatten().flat_map(|size| size.notions.iter().filter_map(called)).collect();
    rows.extend(priced.into_iter().map(|own| {
        TableRow {
            title: Value::from_safe_string(own.0.clone()),
            note: Value::from(""),
            cells: materials(page)
                .map(|size| {
                    let all = size?.notions.iter().filter(|notion| called(notion).as_ref() == Some(&own));
                    let sums = all.filter_map(|notion| Some(notion.cost.as_ref()?.amount.rounded()));
                    let amount = Figure(sums.reduce(|one, other| one + other)?);
                    Some(money(&CostDocument { amount, currency: own.1.clone() }))
                })
                .collect(),
        }
    }));
    rows.extend(currencies.into_iter().map(|currency| {
        TableRow {
            title: Value::from_safe_string(escaped(&spoken(page.say.together))),
            note: Value::from(""),
            cells: materials(page)
                .map(|size| size?.total.iter().find(|total| total.currency.as_ref() == currency).map(money))
                .collect(),
        }
    }));
    rows
}

fn notes(page: &Page) -> Vec<Html> {
    let mut notes = Vec::new();
    if materials(page).flatten().flat_map(|size| &size.thread).any(|thread| thread.thread.is_none()) {
        notes.push(Value::from_safe_string(escaped(page.say.sewn_only)));
    }
    if materials(page).flatten().all(|size| size.cloths.is_empty()) {
        notes.push(Value::from_safe_string(escaped(page.say.not_laid)));
    }
    let unpriced: IndexSet<&String> = materials(page)
        .flatten()
        .filter(|size| !size.total.is_empty())
        .flat_map(|size| &size.unpriced)
        .collect();
    if !unpriced.is_empty() {
        let names: Vec<String> = unpriced.into_iter().map(|name| isolated(name, NAME_LETTERS)).collect();
        notes.push(Value::from_safe_string(format!("{} {}.", page.say.unpriced, names.join(", "))));
    }
    let troubles: IndexSet<&String> = materials(page)
        .flatten()
        .flat_map(|size| &size.cloths)
        .filter_map(|cloth| cloth.trouble.as_ref())
        .collect();
    notes.extend(troubles.into_iter().map(|trouble| said(trouble, 400)));
    notes
}
