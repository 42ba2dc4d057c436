//! How a size is put together, for the document: fates, buttons, notions and steps.

use super::document::PointDocument;
use super::fates::finish_word;
use super::number::Figure;
use crate::garment::{Action, ActionTarget, Catcher, ClosureId, Garment, NotionKind};
use crate::sewing::{EdgeFate, NotionNeed, NotionSource, Sewing, SewnPart, TakenBy, Taker};
use crate::syntax::tree::{Hand, Verb, ZipperKind};
use schemars::JsonSchema;
use serde::Serialize;

/// What becomes of an edge.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Fate")]
pub struct FateDocument {
    /// What takes it.
    pub by: FateWay,
    /// The seam or closure, the finish, or what it is stitched on.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
}

/// Ways to take up an edge.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum FateWay {
    /// A seam.
    Seam,
    /// A finish.
    Finish,
    /// It is cut on the fold.
    Fold,
    /// A closure.
    Closure,
    /// It is topstitched on another piece.
    Topstitched,
    /// It is caught in a seam or closure of another piece.
    Caught,
}

/// A button or buttonhole on a piece.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Button")]
pub struct ButtonDocument {
    /// The closure.
    pub closure: String,
    /// Its middle.
    pub at: PointDocument,
    /// The button's width.
    pub size: Figure,
    /// The side that has the buttonholes, as worn; the other has the buttons.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub buttonhole_on: Option<Side>,
}

/// A side of the body.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Side {
    /// The wearer's left.
    Left,
    /// The wearer's right.
    Right,
}

/// A row of buttons.
#[derive(Clone, Copy, Debug, Serialize, JsonSchema)]
#[schemars(rename = "ButtonRow")]
pub struct ButtonRowDocument {
    /// How many.
    pub count: u32,
    /// How wide one is.
    pub size: Figure,
    /// From middle to middle.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub spacing: Option<Figure>,
    /// How long a buttonhole is.
    pub buttonhole: Figure,
}

/// Something to buy beside cloth.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Notion")]
pub struct NotionDocument {
    /// What, in words.
    pub what: String,
    /// Which kind of thing.
    pub kind: NotionWay,
    /// The width of a button or of elastic, the finished width of binding.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub width: Option<Figure>,
    /// The closure or cord that it is for, or the finished edges; nothing of what the maker lists.
    #[serde(rename = "for", skip_serializing_if = "Option::is_none")]
    pub of: Option<String>,
    /// How many, over all copies of what it is for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub count: Option<u32>,
    /// How long, of each, as it is bought.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub length: Option<Figure>,
    /// How much of that length is there to join the ends of elastic.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub joining: Option<Figure>,
}

/// Kinds of notions.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub enum NotionWay {
    /// A zip that comes apart at its lower end.
    #[serde(rename = "separating zip")]
    SeparatingZip,
    /// A zip that stays together at its lower end.
    #[serde(rename = "closed zip")]
    ClosedZip,
    /// A zip of which only the seam shows.
    #[serde(rename = "concealed zip")]
    ConcealedZip,
    /// A zip of which no more is said.
    #[serde(rename = "zip")]
    Zip,
    /// A button.
    #[serde(rename = "button")]
    Button,
    /// Elastic.
    #[serde(rename = "elastic")]
    Elastic,
    /// Binding.
    #[serde(rename = "binding")]
    Binding,
    /// A cord.
    #[serde(rename = "cord")]
    Cord,
    /// Something else that the maker lists.
    #[serde(rename = "other")]
    Other,
}

/// A group of steps.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Step")]
pub struct StepDocument {
    /// What people read.
    pub title: String,
    /// In the order of work.
    pub actions: Vec<ActionDocument>,
}

/// One action.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Action")]
pub struct ActionDocument {
    /// The trade's word for it.
    #[serde(rename = "do")]
    pub verb: String,
    /// What it is done to: seams and closures by name, edges and pieces with their piece and layer.
    pub to: Vec<String>,
    /// The only layer that it is done in.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub layer: Option<String>,
}

/// What becomes of an edge.
pub(super) fn fates(garment: &Garment, fate: &EdgeFate) -> Vec<FateDocument> {
    fate.takers.iter().map(|taker| fate_of(garment, taker)).collect()
}

fn fate_of(garment: &Garment, taker: &Taker) -> FateDocument {
    let (by, name) = match taker.what {
        TakenBy::Seam(id, _) => (FateWay::Seam, Some(garment.seam(id).name.to_string())),
        TakenBy::Finish(id) => (FateWay::Finish, Some(finish_word(&garment.finish(id).kind).to_owned())),
        TakenBy::Fold => (FateWay::Fold, None),
        TakenBy::Closure(id) => (FateWay::Closure, Some(garment.closure(id).name.to_string())),
        TakenBy::Topstitched(id) => {
            let on = garment.piece(garment.placement(id).on);
            (FateWay::Topstitched, Some(on.name.to_string()))
        }
        TakenBy::Caught(_, Catcher::Seam(id)) => (FateWay::Caught, Some(garment.seam(id).name.to_string())),
        TakenBy::Caught(_, Catcher::Closure(id)) => {
            (FateWay::Caught, Some(garment.closure(id).name.to_string()))
        }
    };
    FateDocument { by, name }
}

/// The buttons marked on a part.
pub(super) fn buttons(garment: &Garment, part: &SewnPart) -> Vec<ButtonDocument> {
    let places = part.buttons.iter();
    places
        .map(|place| ButtonDocument {
            closure: garment.closure(place.closure).name.to_string(),
            at: PointDocument { x: Figure(place.at.x), y: Figure(place.at.y) },
            size: Figure(place.size),
            buttonhole_on: place.buttonhole_on.map(|hand| match hand {
                Hand::Left => Side::Left,
                Hand::Right => Side::Right,
            }),
        })
        .collect()
}

/// The row of buttons of a closure.
pub(super) fn button_row(sewing: &Sewing, closure: ClosureId) -> Option<ButtonRowDocument> {
    let row = sewing.buttons.iter().find(|row| row.closure == closure)?;
    Some(ButtonRowDocument {
        count: row.count,
        size: Figure(row.size),
        spacing: row.spacing.map(Figure),
        buttonhole: Figure(row.buttonhole),
    })
}

/// What has to be bought.
pub(super) fn notions(garment: &Garment, sewing: &Sewing) -> Vec<NotionDocument> {
    sewing.notions.iter().map(|need| notion(garment, need)).collect()
}

/// One thing that has to be bought.
pub(super) fn notion(garment: &Garment, need: &NotionNeed) -> NotionDocument {
    let (kind, has_width) = match need.name.kind {
        NotionKind::Zip(Some(ZipperKind::Separating)) => (NotionWay::SeparatingZip, false),
        NotionKind::Zip(Some(ZipperKind::Closed)) => (NotionWay::ClosedZip, false),
        NotionKind::Zip(Some(ZipperKind::Concealed)) => (NotionWay::ConcealedZip, false),
        NotionKind::Zip(None) => (NotionWay::Zip, false),
        NotionKind::Button => (NotionWay::Button, true),
        NotionKind::Elastic => (NotionWay::Elastic, true),
        NotionKind::Binding => (NotionWay::Binding, true),
        NotionKind::Cord(_) => (NotionWay::Cord, false),
        NotionKind::Other(_) => (NotionWay::Other, false),
    };
    NotionDocument {
        what: notion_words(garment, need),
        kind,
        width: need.name.measure.filter(|_| has_width).map(Figure),
        of: asked_by(garment, need),
        count: need.count,
        length: need.length.map(Figure),
        joining: need.joining.map(Figure),
    }
}

/// What a need is called: as the maker lists it, else by its kind and measure.
pub(super) fn notion_words(garment: &Garment, need: &NotionNeed) -> String {
    match need.source {
        NotionSource::Listed(id) => garment.notion(id).title.to_string(),
        _ => need.name.words(garment),
    }
}

fn asked_by(garment: &Garment, need: &NotionNeed) -> Option<String> {
    match need.source {
        NotionSource::Closure(id) => Some(garment.closure(id).name.to_string()),
        NotionSource::Cord(id) => Some(garment.cord(id).name.to_string()),
        NotionSource::Finish(id) => {
            let edges = garment.finish(id).edges.iter().map(|sewn| {
                format!("{}.{}", garment.part_name(sewn.layer, sewn.piece), garment.edge(sewn.edge).name)
            });
            Some(edges.collect::<Vec<_>>().join(", "))
        }
        NotionSource::Listed(_) => None,
    }
}

/// The order of work, as it is said.
pub(super) fn steps(garment: &Garment) -> Vec<StepDocument> {
    let groups = garment.steps.iter();
    groups
        .map(|group| StepDocument {
            title: group.title.to_string(),
            actions: group.actions.iter().map(|action| of_action(garment, action)).collect(),
        })
        .collect()
}

fn of_action(garment: &Garment, action: &Action) -> ActionDocument {
    let verb = match action.verb {
        Verb::Sew => "sew",
        Verb::Baste => "baste",
        Verb::Hem => "hem",
        Verb::Finish => "finish",
        Verb::Place => "place",
        Verb::Fuse => "fuse",
        Verb::Press => "press",
        Verb::TurnThroughGap => "turn through gap",
        Verb::SlipstitchGap => "slipstitch gap",
        Verb::Thread => "thread",
    };
    let target = |target: &ActionTarget| match *target {
        ActionTarget::Seam(id) => Some(garment.seam(id).name.to_string()),
        ActionTarget::Closure(id) => Some(garment.closure(id).name.to_string()),
        ActionTarget::Edge(layer, edge) => {
            let named = garment.edge(edge);
            Some(format!("{}.{}", garment.part_name(layer, named.piece), named.name))
        }
        ActionTarget::Piece(layer, piece) => Some(garment.part_name(layer, piece)),
        ActionTarget::Cord(id) => Some(garment.cord(id).name.to_string()),
        ActionTarget::AnyGap => None,
    };
    ActionDocument {
        verb: verb.to_owned(),
        to: action.targets.iter().filter_map(|(one, _)| target(one)).collect(),
        layer: action.layer.map(|layer| garment.layer(layer).name.to_string()),
    }
}
