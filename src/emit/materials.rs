//! What to buy, as a document and as tables.

use super::documents::{
    BindingDocument, ClothDocument, CostDocument, LayDocument, LengthUnit, MaterialsDocument,
    MaterialsOfSizesDocument, PricedNotionDocument, ThreadDocument, Version,
};
use super::form::{Form, unit_of};
use super::lay::{as_sold, buy_document, lay_document, size_name};
use super::number::Figure;
use super::sewn::{self, asked_by, notion_words};
use super::sheet::{Sheet, in_markdown};
use crate::garment::Garment;
use crate::materials::{
    ClothNeed, Cost, Needs, NotionNeedCost, OVEREDGE_WIDTH, STITCHES_PER_INCH, Unpriced, WASTE,
};
use crate::report::amount;
use crate::sewing::NotionSource;
use indexmap::IndexSet;

/// Materials of one size.
pub fn materials_document(garment: &Garment, needs: &Needs) -> MaterialsDocument {
    MaterialsDocument {
        cloths: needs.cloths.iter().map(|cloth| cloth_document(garment, cloth)).collect(),
        other_widths: needs.other_widths.iter().map(|cloth| cloth_document(garment, cloth)).collect(),
        notions: needs.notions.iter().map(|notion| notion_document(garment, notion)).collect(),
        thread: needs
            .thread
            .iter()
            .map(|need| ThreadDocument {
                stitch: need.stitch,
                sewn: Figure(need.sewn),
                thread: need.thread.map(Figure),
            })
            .collect(),
        total: needs.totals.iter().map(cost_document).collect(),
        unpriced: unpriced(garment, needs),
    }
}

/// The lays behind the cloths of one size.
pub fn lays_of(garment: &Garment, needs: &Needs) -> Vec<LayDocument> {
    let all = needs.cloths.iter().chain(&needs.other_widths);
    let laid = all.filter_map(|cloth| cloth.laid.as_ref().ok());
    laid.map(|(lay, bought)| lay_document(garment, lay, bought)).collect()
}

fn cloth_document(garment: &Garment, cloth: &ClothNeed) -> ClothDocument {
    let fabric = garment.fabric(cloth.fabric);
    let laid = cloth.laid.as_ref().ok().map(|(lay, bought)| lay_document(garment, lay, bought));
    ClothDocument {
        fabric: fabric.name.to_string(),
        label: fabric.title.to_string(),
        width: Figure(cloth.width),
        spread: laid.as_ref().map(|lay| lay.spread),
        length: laid.as_ref().map(|lay| lay.length),
        buy: cloth.laid.as_ref().ok().map(|(_, bought)| buy_document(bought)),
        trouble: cloth.laid.as_ref().err().map(ToString::to_string),
        cost: cloth.cost.as_ref().map(cost_document),
    }
}

fn notion_document(garment: &Garment, notion: &NotionNeedCost) -> PricedNotionDocument {
    PricedNotionDocument {
        notion: sewn::notion(garment, &notion.need),
        cut: notion.binding.map(|cut| BindingDocument {
            width: Figure(cut.width),
            length: Figure(cut.length),
            square: Figure(cut.square),
        }),
        cost: notion.cost.as_ref().map(cost_document),
    }
}

/// What has no price, in words.
fn unpriced(garment: &Garment, needs: &Needs) -> Vec<String> {
    let words = |what: &Unpriced| match *what {
        Unpriced::Cloth(fabric) => Some(garment.fabric(fabric).title.to_string()),
        Unpriced::Notion(at) => needs.notions.get(at).map(|notion| notion_words(garment, &notion.need)),
    };
    needs.unpriced.iter().filter_map(words).collect()
}

fn cost_document(cost: &Cost) -> CostDocument {
    CostDocument { amount: Figure(cost.amount), currency: cost.currency.as_deref().map(str::to_owned) }
}

/// What to buy in these sizes.
pub fn materials(garment: &Garment, needs: &[Needs], form: Form) -> Result<String, serde_json::Error> {
    let page =
        |title: &str, mark: &str, sheet: &Sheet, draw: fn(&Sheet) -> String| match sheet.rows.is_empty() {
            true => String::new(),
            false => format!("{mark}{title}\n\n{}\n", draw(sheet)),
        };
    let pages = |draw: fn(&Sheet) -> String, mark: &str| {
        let mut text: String = [
            page("Cloth", mark, &cloth_sheet(garment, needs), draw),
            page("Beside cloth", mark, &notion_sheet(garment, needs), draw),
            page("Thread", mark, &thread_sheet(garment, needs), draw),
            page("Cost", mark, &cost_sheet(garment, needs), draw),
        ]
        .concat();
        text.push_str(&remarks(garment, needs));
        text
    };
    Ok(match form {
        Form::Text => format!("{}: to buy\n\n{}", garment.title, pages(Sheet::text, "")),
        Form::Markdown => {
            format!("# {}: to buy\n\n{}", in_markdown(&garment.title), pages(Sheet::markdown, "## "))
        }
        Form::Csv => rows_sheet(garment, needs)?.csv(),
        Form::Json => {
            let sizes =
                needs.iter().map(|need| (size_name(garment, need.size), materials_document(garment, need)));
            let document = MaterialsOfSizesDocument {
                fustian: Version::One,
                garment: garment.title.to_string(),
                unit: LengthUnit::Millimetre,
                sizes: sizes.collect(),
            };
            serde_json::to_string_pretty(&document)? + "\n"
        }
    })
}

/// A table of one column a size.
fn by_size(garment: &Garment, needs: &[Needs], first: &[&str]) -> Sheet {
    let mut sheet = Sheet::new(first);
    sheet.heading.extend(needs.iter().map(|need| size_name(garment, need.size)));
    sheet
}

fn cloth_sheet(garment: &Garment, needs: &[Needs]) -> Sheet {
    let mut sheet = by_size(garment, needs, &["cloth", "width", "laid"]);
    for (at, cloth) in needs.first().map_or(&[][..], |first| &first.cloths).iter().enumerate() {
        let fabric = garment.fabric(cloth.fabric);
        let in_sizes = || needs.iter().filter_map(|need| need.cloths.get(at));
        let mut ways: Vec<&str> = Vec::new();
        for laid in in_sizes().filter_map(|cloth| cloth.laid.as_ref().ok()) {
            let way = match laid.0.spread {
                crate::cutting::Spread::Open => "open",
                crate::cutting::Spread::Lengthwise => "folded",
                crate::cutting::Spread::Tube => "tube",
            };
            if !ways.contains(&way) {
                ways.push(way);
            }
        }
        let mut cells = vec![fabric.title.to_string(), amount(cloth.width, garment.unit), ways.join(" / ")];
        cells.extend(in_sizes().map(|cloth| match &cloth.laid {
            Ok((_, bought)) => as_sold(bought.to_buy, garment.unit),
            Err(_) => "too narrow".to_owned(),
        }));
        sheet.rows.push(cells);
    }
    sheet
}

/// One row a thing: what asks for it and its name, which may differ from size to size.
fn notion_rows(garment: &Garment, needs: &[Needs]) -> Vec<(NotionSource, String)> {
    let mut rows: Vec<(NotionSource, String)> = Vec::new();
    for notion in needs.iter().flat_map(|need| &need.notions) {
        let row = (notion.need.source, notion_words(garment, &notion.need));
        if !rows.contains(&row) {
            rows.push(row);
        }
    }
    rows
}

/// What a row is called: where two rows of different things are called alike, with what asks for each.
fn row_words(
    garment: &Garment,
    rows: &[(NotionSource, String)],
    (source, words): &(NotionSource, String),
) -> String {
    let is_alone = rows.iter().filter(|(_, other)| other == words).count() < 2;
    match asked_by(garment, *source).filter(|_| !is_alone) {
        Some(what) => format!("{words}, for {what}"),
        None => words.clone(),
    }
}

/// The notion of a row in one size.
fn in_row<'a>(
    garment: &Garment,
    need: &'a Needs,
    (source, words): &(NotionSource, String),
) -> Option<&'a NotionNeedCost> {
    need.notions
        .iter()
        .find(|notion| notion.need.source == *source && notion_words(garment, &notion.need) == *words)
}

fn notion_sheet(garment: &Garment, needs: &[Needs]) -> Sheet {
    let mut sheet = by_size(garment, needs, &["what"]);
    let rows = notion_rows(garment, needs);
    for row in &rows {
        let of = |need| in_row(garment, need, row);
        let mut cells = vec![row_words(garment, &rows, row)];
        cells.extend(
            needs
                .iter()
                .map(|need| of(need).map_or_else(String::new, |notion| bought_words(garment, notion))),
        );
        sheet.rows.push(cells);
        if needs.iter().any(|need| of(need).is_some_and(|notion| notion.binding.is_some())) {
            let cut_from = needs.iter().find_map(|need| of(need)?.need.cut_from);
            let mut cells = vec![match cut_from {
                Some(fabric) => {
                    format!("  cut on the bias from {}, a square of", garment.fabric(fabric).title)
                }
                None => "  or cut on the bias from a square of".to_owned(),
            }];
            cells.extend(needs.iter().map(|need| {
                let cut = of(need).and_then(|notion| notion.binding);
                cut.map_or_else(String::new, |cut| amount(cut.square, garment.unit))
            }));
            sheet.rows.push(cells);
        }
    }
    sheet
}

/// "2 × 75 cm", "6", "1.2 m"
fn bought_words(garment: &Garment, notion: &NotionNeedCost) -> String {
    let length = notion.need.length.map(|length| amount(length, garment.unit));
    match (notion.need.count, length) {
        (Some(1) | None, Some(length)) => length,
        (Some(count), Some(length)) => format!("{count} × {length}"),
        (Some(count), None) => count.to_string(),
        (None, None) => String::new(),
    }
}

fn thread_sheet(garment: &Garment, needs: &[Needs]) -> Sheet {
    let mut sheet = by_size(garment, needs, &["stitch"]);
    let mut stitches: Vec<u16> =
        needs.iter().flat_map(|need| need.thread.iter().map(|thread| thread.stitch)).collect();
    stitches.sort_unstable();
    stitches.dedup();
    for stitch in stitches {
        let mut cells = vec![stitch.to_string()];
        cells.extend(needs.iter().map(|need| {
            let thread = need.thread.iter().find(|thread| thread.stitch == stitch);
            thread.map_or_else(String::new, |thread| match thread.thread {
                Some(length) => format!("{:.0} m", (Figure(length).rounded() / 1000.0).ceil()),
                None => format!("{:.1} m sewn", Figure(thread.sewn).metres_up()),
            })
        }));
        sheet.rows.push(cells);
    }
    sheet
}

fn cost_sheet(garment: &Garment, needs: &[Needs]) -> Sheet {
    let mut sheet = by_size(garment, needs, &["cost"]);
    let mut currencies: Vec<Option<&str>> = Vec::new();
    for total in needs.iter().flat_map(|need| &need.totals) {
        if !currencies.contains(&total.currency.as_deref()) {
            currencies.push(total.currency.as_deref());
        }
    }
    let mut row = |name: String, of: &dyn Fn(&Needs) -> Option<Cost>| {
        let cells: Vec<String> =
            needs.iter().map(|need| of(need).map_or_else(String::new, |cost| cost_words(&cost))).collect();
        if cells.iter().any(|cell| !cell.is_empty()) {
            sheet.rows.push(std::iter::once(name).chain(cells).collect());
        }
    };
    let Some(first) = needs.first() else { return sheet };
    for (at, cloth) in first.cloths.iter().enumerate() {
        let title = garment.fabric(cloth.fabric).title.to_string();
        let is_alone = first.cloths.iter().filter(|other| other.fabric == cloth.fabric).count() < 2;
        let title = match is_alone {
            true => title,
            false => format!("{title}, {} wide", amount(cloth.width, garment.unit)),
        };
        row(title, &|need: &Needs| need.cloths.get(at)?.cost.clone());
    }
    let notions = notion_rows(garment, needs);
    for of in &notions {
        row(row_words(garment, &notions, of), &|need: &Needs| in_row(garment, need, of)?.cost.clone());
    }
    for currency in currencies {
        let of =
            |need: &Needs| need.totals.iter().find(|total| total.currency.as_deref() == currency).cloned();
        row("together".to_owned(), &of);
    }
    sheet
}

fn cost_words(cost: &Cost) -> String {
    match &cost.currency {
        Some(currency) => format!("{:.2} {currency}", cost.amount),
        None => format!("{:.2}", cost.amount),
    }
}

/// What the tables take for granted, and what they could not tell.
fn remarks(garment: &Garment, needs: &[Needs]) -> String {
    let mut remarks: Vec<String> = Vec::new();
    let mut report = |remark: String| {
        if !remarks.contains(&remark) {
            remarks.push(remark);
        }
    };
    for trouble in needs.iter().flat_map(|need| &need.cloths).filter_map(|cloth| cloth.laid.as_ref().err()) {
        report(trouble.to_string());
    }
    if needs.iter().any(|need| !need.thread.is_empty()) {
        report(format!(
            "thread: {STITCHES_PER_INCH} stitches an inch, an overedge {OVEREDGE_WIDTH} mm wide, {:.0} % waste",
            WASTE * 100.0
        ));
    }
    let joined = needs.iter().flat_map(|need| &need.notions).filter_map(|notion| notion.need.joining);
    if let Some(joining) = joined.max_by(f64::total_cmp) {
        report(format!(
            "elastic: {} of each length is there to join its ends, or to sew them down",
            amount(joining, garment.unit)
        ));
    }
    let is_priced = |need: &Needs| {
        let of_cloths = need.cloths.iter().any(|cloth| cloth.cost.is_some());
        of_cloths || need.notions.iter().any(|notion| notion.cost.is_some())
    };
    if !needs.iter().any(is_priced) {
        return remarks.iter().map(|remark| format!("{remark}\n")).collect();
    }
    let mut unpriced = needs.first().map_or_else(Vec::new, |need| unpriced(garment, need));
    // A cloth that is laid at several widths lacks its price once.
    let mut named = IndexSet::new();
    unpriced.retain(|what| named.insert(what.clone()));
    if !unpriced.is_empty() {
        report(format!("without a price, and not in the cost: {}, thread", unpriced.join(", ")));
    }
    remarks.iter().map(|remark| format!("{remark}\n")).collect()
}

/// One row a thing and size, for spreadsheets: lengths in the garment's unit, which each row names. A code is what a
/// file calls it, a fabric's name or what a notion is for; of thread the number of its stitch.
fn rows_sheet(garment: &Garment, needs: &[Needs]) -> Result<Sheet, serde_json::Error> {
    let mut sheet = Sheet::new(&[
        "size", "kind", "code", "label", "count", "width", "length", "unit", "cost", "currency", "trouble",
    ]);
    let (unit, millimetres) = unit_of(garment.unit);
    let long = |mm: Option<f64>| mm.map_or_else(String::new, |mm| Figure(mm / millimetres).to_string());
    for need in needs {
        let size = size_name(garment, need.size);
        let mut row = |[kind, code, label]: [&str; 3], cells: [String; 3], cost: Option<&Cost>, trouble| {
            let (price, currency) = match cost {
                Some(cost) => {
                    (Figure(cost.amount).to_string(), cost.currency.as_deref().unwrap_or_default().to_owned())
                }
                None => Default::default(),
            };
            let mut line: Vec<String> = [&size, kind, code, label].map(str::to_owned).to_vec();
            line.extend(cells);
            line.extend([unit.to_owned(), price, currency, trouble]);
            sheet.rows.push(line);
        };
        for cloth in &need.cloths {
            let fabric = garment.fabric(cloth.fabric);
            let to_buy = cloth.laid.as_ref().ok().map(|(_, bought)| bought.to_buy);
            let trouble = cloth.laid.as_ref().err().map_or_else(String::new, ToString::to_string);
            let cells = [String::new(), long(Some(cloth.width)), long(to_buy)];
            row(["cloth", &fabric.name, &fabric.title], cells, cloth.cost.as_ref(), trouble);
        }
        for notion in &need.notions {
            let bought = sewn::notion(garment, &notion.need);
            let kind = serde_json::to_value(bought.kind)?;
            let kind = kind.as_str().filter(|_| bought.of.is_some()).unwrap_or("notion");
            let cells = [
                bought.count.map_or_else(String::new, |count| count.to_string()),
                long(bought.width.map(|width| width.0)),
                long(bought.length.map(|length| length.0)),
            ];
            let named = [kind, bought.of.as_deref().unwrap_or_default(), &bought.what];
            row(named, cells, notion.cost.as_ref(), String::new());
        }
        for thread in &need.thread {
            let (code, label) = (thread.stitch.to_string(), format!("thread for stitch {}", thread.stitch));
            let cells = [String::new(), String::new(), long(thread.thread)];
            row(["thread", &code, &label], cells, None, String::new());
        }
    }
    Ok(sheet)
}
