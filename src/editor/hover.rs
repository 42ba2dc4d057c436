use super::analysis::same_word;
use super::cursor::heads_of;
use super::documentation;
use super::tokens::{TokenKind, tokens};
use super::workspace::OpenDocument;
use crate::cutting::WorkedSize;
use crate::garment::{CutHow, Dimension, EdgeId, Garment, LayerId, PieceId, Symbol, ValueId, ValueKind};
use crate::report::{DisplayUnit, INCH, amount, percent};
use crate::resolve::{Quantity, SizedGarment, extents};
use crate::syntax::{FUNCTIONS, KEYWORDS};
use lsp_types::{Hover, HoverContents, MarkupContent, MarkupKind, Position};

/// What is to be said of the word at a position: what a name comes to in every size, or what a
/// word of the language means.
pub(super) fn hover(open: &OpenDocument<'_>, position: Position) -> Option<Hover> {
    let offset = open.offset(position);
    let text = &*open.document.text;
    let named = open.analysis.names_at(&open.path, offset);
    if let Some(first) = named.first() {
        let place = open.analysis.place(first.span)?;
        let layer = layer_before(&open.analysis.compiled.garment, text, place.lo);
        let mut parts: Vec<String> = Vec::new();
        for one in &named {
            let reported = about(open, one.symbol, layer);
            parts.extend(Some(reported).filter(|reported| !parts.contains(reported)));
        }
        return Some(shown(open, parts.join("\n\n---\n\n"), place.lo, place.hi));
    }
    let word = tokens(text).into_iter().find(|token| token.lo <= offset && offset < token.hi);
    let word = word.filter(|token| token.kind == TokenKind::Word)?;
    let of_language = |word: &str| KEYWORDS.contains(&word) || FUNCTIONS.contains(&word);
    let reported = documentation::meaning(Some(word.text(text)).filter(|word| of_language(word))?)?;
    Some(shown(open, reported, word.lo, word.hi))
}

fn shown(open: &OpenDocument<'_>, value: String, lo: usize, hi: usize) -> Hover {
    Hover {
        contents: HoverContents::Markup(MarkupContent { kind: MarkupKind::Markdown, value }),
        range: Some(open.document.lines.range(&open.document.text, lo, hi)),
    }
}

/// The layer that stands before the name's dot.
fn layer_before(garment: &Garment, text: &str, word: usize) -> Option<LayerId> {
    let heads = heads_of(text, word);
    let mut layers = (0..garment.layers.len()).map(LayerId::from_index);
    layers.find(|&id| heads.first().is_some_and(|head| same_word(head, &garment.layer(id).name)))
}

fn about(open: &OpenDocument<'_>, symbol: Symbol, layer: Option<LayerId>) -> String {
    let garment = &open.analysis.compiled.garment;
    let sizes = &open.analysis.compiled.sizes;
    match symbol {
        Symbol::Value(id) => of_value(garment, sizes, id),
        Symbol::Edge(id) => of_edge(garment, sizes, layer, id),
        Symbol::Piece(id) => of_piece(garment, sizes, layer, id),
        Symbol::Point(id) => {
            let point = garment.point(id);
            let kind = if point.mark { "mark" } else { "point" };
            let label = labelled(garment.point_label(id));
            let title = format!("{kind} **{}**{label} of {}", point.name, garment.piece(point.piece).title);
            let spot = |sized: &SizedGarment| {
                let paper = garment.paper_of(layer, point.piece)?;
                let at = sized.paper(paper)?.spot(id)?;
                Some(vec![amount(at.x, garment.unit), amount(at.y, garment.unit)])
            };
            title + &table(garment, sizes, &["to the side", "up"], spot)
        }
        Symbol::Fabric(id) => {
            let fabric = garment.fabric(id);
            let layers = garment.layers.iter().filter(|layer| layer.fabric == Some(id));
            let layers: Vec<&str> = layers.map(|layer| &*layer.name).collect();
            format!("fabric **{}**: {}{}", fabric.name, fabric.title, listed("; cut for ", &layers))
        }
        Symbol::Layer(id) => {
            let layer = garment.layer(id);
            let pieces: Vec<&str> = layer.pieces.iter().map(|&piece| &*garment.piece(piece).name).collect();
            let fabric =
                layer.fabric.map_or_else(String::new, |id| format!(" in {}", garment.fabric(id).title));
            let onto = layer.onto.map(|id| format!(" to {}", garment.layer(id).name)).unwrap_or_default();
            let share =
                layer.share.map(|share| format!(" {} of {}", share.fused, share.of)).unwrap_or_default();
            let fused = if layer.fused { format!(", fused{share}{onto}") } else { String::new() };
            format!("layer **{}**{fabric}{fused}{}", layer.name, listed(": ", &pieces))
        }
        Symbol::Seam(id) => {
            let seam = garment.seam(id);
            let label = labelled(seam.label.as_deref());
            let words =
                |span| open.analysis.compiled.map.text(span).split_whitespace().collect::<Vec<_>>().join(" ");
            let side = |plies: &[crate::garment::Chain]| {
                plies.iter().map(|ply| words(ply.span)).collect::<Vec<String>>().join(" and ")
            };
            // What a line stands for has no words of its own.
            if words(seam.name_span) != *seam.name || seam.first.iter().any(|ply| ply.span == seam.span) {
                let side = |plies: &[crate::garment::Chain]| {
                    let plies = plies.iter().map(|ply| {
                        let edges = ply.edges.iter().map(|sewn| {
                            let part = garment.part_name(sewn.layer, sewn.piece);
                            format!("{part}.{}", garment.edge(sewn.edge).name)
                        });
                        edges.collect::<Vec<_>>().join(" + ")
                    });
                    plies.collect::<Vec<_>>().join(" and ")
                };
                return match seam.across_fold {
                    true => format!("seam **{}**{label}: {} across the fold", seam.name, side(&seam.first)),
                    false => {
                        format!(
                            "seam **{}**{label}: {} to {}",
                            seam.name,
                            side(&seam.first),
                            side(&seam.second)
                        )
                    }
                };
            }
            let made = seam.work.as_ref().map_or_else(String::new, |work| format!("; {}", words(work.span)));
            if seam.across_fold {
                let ends: Vec<String> = seam.first.iter().map(|ply| words(ply.span)).collect();
                return format!("seam **{}**{label}: {} across the fold", seam.name, ends.join(", "));
            }
            format!("seam **{}**{label}: {} to {}{made}", seam.name, side(&seam.first), side(&seam.second))
        }
        Symbol::Row(id) => {
            let row = garment.row(id);
            let edges: Vec<String> = row
                .edges
                .iter()
                .map(|edge| {
                    let part = garment.part_name(edge.sewn.layer, edge.sewn.piece);
                    format!("{part}.{}", garment.edge(edge.sewn.edge).name)
                })
                .collect();
            format!("{} **{}**: beside {}", row.kind.gerund(), row.name, edges.join(", "))
        }
        Symbol::Tack(id) => {
            let tack = garment.tack(id);
            let how = match &tack.sets {
                Some(set) => {
                    let what = set.notion.map_or("", |notion| &garment.notion(notion).title);
                    match tack.ends.len() {
                        1 => format!("{what} at 1 place"),
                        many => format!("{what} at {many} places"),
                    }
                }
                None => if tack.bar.is_some() { "a bar" } else { "by hand" }.to_owned(),
            };
            format!("{} **{}**: {how}", tack.word(), tack.name)
        }
        Symbol::Closure(id) => {
            let closure = garment.closure(id);
            let fit = |sized: &SizedGarment| {
                let fit = (*sized.zips.get(id.index())?)?;
                let [left, right] = fit.sides;
                Some([fit.zip, left, right].map(|length| amount(length, garment.unit)).to_vec())
            };
            format!("closure **{}**", closure.name)
                + &table(garment, sizes, &["zip", "one side", "the other"], fit)
        }
    }
}

fn of_value(garment: &Garment, sizes: &[WorkedSize], id: ValueId) -> String {
    let value = garment.value(id);
    let kind = match value.kind {
        ValueKind::Body(_) => "body measure",
        ValueKind::Let(_) => "value",
        ValueKind::Solved { .. } => "value, found for each size",
        ValueKind::Measure { .. } => "measure",
    };
    let label = value.label.as_ref().map_or_else(String::new, |label| format!(": {label}"));
    let figure = |sized: &SizedGarment| {
        let value = (*sized.values.get(id.index())?)?;
        Some(vec![figure(value, garment.value(id).dimension, garment.unit)])
    };
    format!("{kind} **{}**{label}", value.name) + &table(garment, sizes, &[&value.name], figure)
}

/// What people read, after the name.
fn labelled(label: Option<&str>) -> String {
    label.map_or_else(String::new, |label| format!(" \"{label}\""))
}

/// An edge's length once all alterations are made, and a line's where it lies on the piece.
fn of_edge(garment: &Garment, sizes: &[WorkedSize], layer: Option<LayerId>, id: EdgeId) -> String {
    let edge = garment.edge(id);
    if edge.take_up {
        return of_take_up(garment, sizes, layer, id);
    }
    let kind = if edge.line { "line" } else { "edge" };
    let of = garment.part_name(layer, edge.piece);
    let label = labelled(garment.edge_label(id));
    let adjust = if garment.is_to_adjust(id) { ", to lengthen or shorten at" } else { "" };
    let title =
        format!("{kind} **{}**{label} of {} (`{of}`){adjust}", edge.name, garment.piece(edge.piece).title);
    let length = |sized: &SizedGarment| {
        let drawn = |paper: crate::garment::PaperId| sized.paper(paper);
        let runs = sized.runs(garment, layer, id);
        let run = |run: &crate::resolve::Run| Some(drawn(run.paper)?.edge_at(run.edge)?.path.length());
        let mut lengths: Vec<f64> = runs.iter().map(run).collect::<Option<_>>()?;
        if lengths.is_empty() {
            let lines = &drawn(garment.paper_of(layer, edge.piece)?)?.lines;
            lengths.extend(lines.iter().filter(|line| line.edge == id).map(|line| line.path.length()));
        }
        let whole = lengths.iter().sum();
        (!lengths.is_empty()).then(|| vec![amount(whole, garment.unit)])
    };
    title + &table(garment, sizes, &["length"], length)
}

/// What a dart comes to: how wide it is, how long its legs are, and how far its edge moved when it was trued; what a
/// pleat does: how deep it is, how much it takes of its edge and how far it is sewn.
fn of_take_up(garment: &Garment, sizes: &[WorkedSize], layer: Option<LayerId>, id: EdgeId) -> String {
    let name = garment.edge(id);
    let of = garment.part_name(layer, name.piece);
    if garment.piece(name.piece).edges.iter().any(|&edge| garment.edge(edge).side_of == Some(id)) {
        return of_slit(garment, sizes, layer, id);
    }
    let placed = |sized: &SizedGarment| {
        let drawn = sized.paper(garment.paper_of(layer, name.piece)?)?;
        drawn.take_ups.iter().find(|placed| placed.name == id).copied()
    };
    let pleat = sizes.iter().find_map(|size| placed(&size.drawn).filter(|placed| placed.pleat.is_some()));
    let declared = || garment.take_up(id).map_or("dart", |take_up| take_up.word());
    let word = pleat.map_or_else(declared, |placed| placed.word());
    let title = format!("{word} **{}** of {} (`{of}`)", name.name, garment.piece(name.piece).title);
    if pleat.is_some() {
        let figures = |sized: &SizedGarment| {
            let drawn = sized.paper(garment.paper_of(layer, name.piece)?)?;
            let folds: Vec<_> = drawn.take_ups.iter().filter(|placed| placed.name == id).collect();
            let first = folds.first()?;
            let edge = first.mouth?.edge;
            let taken = folds.iter().filter_map(|fold| fold.mouth.filter(|mouth| mouth.edge == edge));
            let taken: f64 = taken.map(|mouth| mouth.to - mouth.from).sum();
            let sewn = first.leg_lengths()[0];
            Some([first.depth(), taken, sewn].map(|length| amount(length, garment.unit)).to_vec())
        };
        return title + &table(garment, sizes, &["depth", "takes", "sewn"], figures);
    }
    let trued = sizes.iter().any(|size| placed(&size.drawn).is_some_and(|placed| placed.moved.is_some()));
    let columns = ["width", "one leg", "the other", "trued by"];
    let figures = |sized: &SizedGarment| {
        let placed = placed(sized)?;
        let [one, other] = placed.leg_lengths();
        let width = placed.wedge.sides[0].distance(placed.wedge.sides[1]);
        let all = [Some(width), Some(one), Some(other), placed.moved];
        Some(all.into_iter().flatten().map(|length| amount(length, garment.unit)).collect())
    };
    title + &table(garment, sizes, columns.get(..if trued { 4 } else { 3 }).unwrap_or_default(), figures)
}

/// What a slit comes to: how long its sides are, and how wide its window.
fn of_slit(garment: &Garment, sizes: &[WorkedSize], layer: Option<LayerId>, id: EdgeId) -> String {
    let name = garment.edge(id);
    let of = garment.part_name(layer, name.piece);
    let title = format!("slit **{}** of {} (`{of}`)", name.name, garment.piece(name.piece).title);
    let figures = |sized: &SizedGarment| {
        let drawn = sized.paper(garment.paper_of(layer, name.piece)?)?;
        let slit = drawn.uncut().slits.iter().find(|slit| slit.name == id)?;
        let long = |side: usize| slit.sides[side].distance(slit.ends[side]);
        let all = [long(slit.near), long(1 - slit.near), slit.window()];
        Some(all.map(|length| amount(length, garment.unit)).to_vec())
    };
    title + &table(garment, sizes, &["near side", "far side", "window"], figures)
}

fn of_piece(garment: &Garment, sizes: &[WorkedSize], layer: Option<LayerId>, id: PieceId) -> String {
    let piece = garment.piece(id);
    let kind = if piece.block { "block piece" } else { "piece" };
    let layers = garment.layers.iter().filter(|layer| layer.pieces.contains(&id));
    let layers: Vec<&str> = layers.map(|layer| &*layer.name).collect();
    let how = match piece.cut.how {
        CutHow::Alike => "",
        CutHow::Mirrored => "; cut in mirrored pairs",
        CutHow::OnFold(_) => "; cut on the fold",
    };
    let loose = if piece.cut.loose { "; joined to nothing on purpose" } else { "" };
    let layers = listed("; in layers ", &layers);
    let title = format!("{kind} **{}**: {}{how}{loose}{layers}", piece.name, piece.title);
    let extent = |sized: &SizedGarment| {
        let whole = extents(sized.papers.get(garment.paper_of(layer, id)?.index())?.as_ref()?)?;
        Some([whole.width(), whole.height()].map(|length| amount(length, garment.unit)).to_vec())
    };
    title + &table(garment, sizes, &["width", "height"], extent)
}

fn listed(before: &str, names: &[&str]) -> String {
    match names.is_empty() {
        true => String::new(),
        false => format!("{before}{}", names.join(", ")),
    }
}

/// Figures by size; once only where all sizes have the same.
fn table(
    garment: &Garment,
    sizes: &[WorkedSize],
    columns: &[&str],
    figures: impl Fn(&SizedGarment) -> Option<Vec<String>>,
) -> String {
    let rows: Vec<(&SizedGarment, Option<Vec<String>>)> =
        sizes.iter().map(|size| (&size.drawn, figures(&size.drawn))).collect();
    let Some(Some(first)) = rows.first().map(|(_, row)| row) else {
        return match rows.iter().all(|(_, row)| row.is_none()) {
            true => String::new(),
            false => by_size(garment, &rows, columns),
        };
    };
    if rows.iter().all(|(_, row)| row.as_ref() == Some(first)) {
        let figures: Vec<String> =
            columns.iter().zip(first).map(|(column, figure)| format!("{column} {figure}")).collect();
        let every = if rows.len() > 1 { " in every size" } else { "" };
        return format!("\n\n{}{every}", figures.join(", "));
    }
    by_size(garment, &rows, columns)
}

fn by_size(garment: &Garment, rows: &[(&SizedGarment, Option<Vec<String>>)], columns: &[&str]) -> String {
    let mut table =
        format!("\n\n| size | {} |\n|---|{}\n", columns.join(" | "), "---:|".repeat(columns.len()));
    for (sized, row) in rows {
        let size = &*garment.size(sized.size).name;
        let unknown = || columns.iter().map(|_| "not known".to_owned()).collect();
        let figures: Vec<String> = row.clone().unwrap_or_else(unknown);
        table.push_str(&format!("| {} | {} |\n", size.replace('|', "\\|"), figures.join(" | ")));
    }
    table
}

fn figure(value: Quantity, dimension: Dimension, unit: DisplayUnit) -> String {
    match (value, dimension) {
        (Quantity::Point(at), _) => format!("({}, {})", amount(at.x, unit), amount(at.y, unit)),
        (Quantity::Scalar(mm), Dimension::Length | Dimension::Point) => amount(mm, unit),
        (Quantity::Scalar(number), Dimension::Number) => match number.abs() < 1.0 && number != 0.0 {
            true => percent(number),
            false => rounded(number),
        },
        (Quantity::Scalar(radians), Dimension::Angle) => format!("{}°", rounded(radians.to_degrees())),
        (Quantity::Scalar(area), Dimension::Area) => match unit {
            DisplayUnit::Inch => format!("{} in²", rounded(area / (INCH * INCH))),
            DisplayUnit::Centimetre => format!("{} cm²", rounded(area / 100.0)),
            DisplayUnit::Millimetre => format!("{} mm²", rounded(area)),
        },
    }
}

/// With two decimals at most.
fn rounded(number: f64) -> String {
    let text = format!("{:.2}", number + 0.0);
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}
