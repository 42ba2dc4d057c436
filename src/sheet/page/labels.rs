//! The fixed words of the page in each language: headings, the words of tables, the key of marks.

use crate::sewing::order::Phase;
use crate::sheet::Language;
use serde::Serialize;

/// Declares the words once, so that no language can leave one out.
macro_rules! labels {
    ($($(#[$doc:meta])* $name:ident: $english:literal, $german:literal;)*) => {
        /// The fixed words of the page in one language.
        #[derive(Clone, Copy, Debug, Serialize)]
        pub struct Labels {
            $($(#[$doc])* pub $name: &'static str,)*
        }

        const ENGLISH: Labels = Labels { $($name: $english,)* };
        const GERMAN: Labels = Labels { $($name: $german,)* };
    };
}

labels! {
    /// Above the title.
    kicker: "Maker’s sheet", "Nähblatt";
    /// Who drew it.
    maker: "Maker", "Schnitt von";
    /// Which edition.
    edition: "Edition", "Ausgabe";
    /// What it varies.
    variation_of: "a variation of", "eine Abwandlung von";
    /// Which sizes.
    sizes: "Sizes", "Größen";
    /// The one size.
    size: "Size", "Größe";
    /// For whom it is made.
    wearer: "Made for", "Gemacht für";
    /// What it asks of who sews it.
    asks_for: "Asks for", "Verlangt";
    /// Easy.
    easy: "little practice", "wenig Übung";
    /// Neither easy nor hard.
    medium: "some practice", "etwas Übung";
    /// Hard.
    hard: "much practice", "viel Übung";
    /// So many pieces.
    piece_one: "pattern piece", "Schnittteil";
    /// So many pieces.
    piece_many: "pattern pieces", "Schnittteile";
    /// So many steps.
    step_one: "step", "Schritt";
    /// So many steps.
    step_many: "steps", "Schritte";
    /// The licence.
    licence: "Licence", "Lizenz";
    /// The front of the garment.
    front: "front", "vorn";
    /// Its back.
    back: "back", "hinten";
    /// What differs from the base.
    differs: "What differs from", "Was anders ist als bei";
    /// Gone.
    gone: "gone", "entfällt";
    /// Added.
    added: "new", "neu";
    /// Closures.
    closures: "closures", "Verschlüsse";
    /// Before a figure of the base.
    instead_of: "before", "vorher";
    /// Before a figure of the variation.
    now: "now", "jetzt";
    /// Changed.
    changed: "changed", "geändert";
    /// The bar's name.
    parts_of_page: "Parts of the sheet", "Teile des Blatts";
    /// Chooser.
    figures_for: "Figures for", "Angaben für";
    /// Of every size.
    all_sizes: "all sizes", "alle Größen";
    /// To the text.
    skip: "Skip to the sheet", "Zum Inhalt";
    /// In the bar.
    nav_size: "Size", "Größe";
    /// In the bar.
    nav_buy: "Buy", "Einkauf";
    /// In the bar.
    nav_pieces: "Pieces", "Teile";
    /// In the bar.
    nav_lay: "Lay", "Auflage";
    /// In the bar.
    nav_marks: "Marks", "Zeichen";
    /// In the bar.
    nav_sew: "Sew", "Nähen";
    /// In the bar.
    nav_cautions: "Cautions", "Hinweise";
    /// In the bar.
    nav_words: "Words", "Wörter";
    /// Heading.
    choose: "Choose a size", "Die Größe wählen";
    /// Of a garment in one size.
    the_size: "The size", "Die Größe";
    /// How a size is picked.
    pick_one: "Take the size by", "Die Größe geht nach";
    /// How a size is picked.
    pick_larger: "Take the size of the", "Maßgebend ist";
    /// How a size is picked.
    pick_larger_of: "larger of", "das Größere von";
    /// How a size is picked.
    and: "and", "und";
    /// Between two sizes.
    between: "between two sizes, take the larger one", "zwischen zwei Größen die größere";
    /// Caption.
    body_table: "The body", "Der Körper";
    /// Caption.
    finished_table: "The finished garment", "Das fertige Stück";
    /// Caption.
    units_cm: "centimetres, inches beneath", "Zentimeter, darunter Zoll";
    /// Ease.
    ease_over: "ease over", "Zugabe zu";
    /// A closure.
    of_closure: "for", "für";
    /// How many.
    buttons_apart: "apart", "Abstand";
    /// Heading.
    buy: "What to buy", "Was zu kaufen ist";
    /// Caption.
    buy_cloth: "Cloth", "Stoff";
    /// Caption.
    units_metres: "metres, yards beneath", "Meter, darunter Yard";
    /// Caption.
    buy_beside: "Beside cloth", "Zutaten";
    /// Caption.
    buy_thread: "Thread", "Garn";
    /// Caption.
    buy_cost: "Cost", "Kosten";
    /// Cost.
    together: "together", "zusammen";
    /// Without a price.
    unpriced: "Without a price, and not in the cost:", "Ohne Preis und nicht in den Kosten:";
    /// Of money.
    in_makers_prices: "in the currency of the maker’s prices", "in der Währung der angegebenen Preise";
    /// Width of cloth.
    wide: "wide", "breit";
    /// Not wide enough.
    too_narrow: "too narrow", "zu schmal";
    /// How cloth lies.
    open: "laid in one ply", "einfach liegend";
    /// How cloth lies.
    folded: "folded lengthwise", "der Länge nach gefaltet";
    /// How cloth lies.
    tube: "as a tube", "als Schlauch";
    /// Not laid.
    not_laid: "How much cloth it takes was not worked out for this sheet.", "Wie viel Stoff es braucht, wurde für dieses Blatt nicht ausgerechnet.";
    /// Thread of a stitch.
    stitch: "ISO 4915 stitch", "Stich nach ISO 4915";
    /// Sewn only.
    sewn_metres: "sewn", "genäht";
    /// Thread in general.
    thread_of: "thread", "Garn";
    /// Bias strips.
    from_cloth: "cut from", "geschnitten aus";
    /// What a notion is for.
    each: "each", "je";
    /// Heading.
    pieces: "The pieces", "Die Teile";
    /// Under the heading.
    pieces_scale: "Pattern pieces at one scale, with allowance, in size", "Schnittteile in einem Maßstab, mit Nahtzugabe, in Größe";
    /// Under the heading, one size.
    pieces_scale_one: "Pattern pieces at one scale, with allowance.", "Schnittteile in einem Maßstab, mit Nahtzugabe.";
    /// The texture.
    texture_tells: "Texture and tone tell the cloth.", "Struktur und Ton zeigen den Stoff.";
    /// How large it is cut.
    cut_size: "cut size", "Zuschnitt";
    /// On the fold.
    on_fold_one: "1 on the fold", "1 im Bruch";
    /// On the fold.
    on_fold: "on the fold", "im Bruch";
    /// Both hands.
    mirrored_two: "2, one of each hand", "2, gegengleich";
    /// Both hands.
    mirrored: "half of each hand", "zur Hälfte gegengleich";
    /// Alike.
    alike: "alike", "gleich";
    /// Turned over.
    turned_over: "pattern turned over", "Schnitt gewendet";
    /// For a side.
    worn_left: "worn left", "für links";
    /// For a side.
    worn_right: "worn right", "für rechts";
    /// Fused.
    fused: "fused on", "aufgebügelt";
    /// Comes off.
    loose: "is not sewn in", "wird nicht mitgenäht";
    /// Caption.
    cut_list: "Cut list", "Zuschneideliste";
    /// Column.
    cloth: "Cloth", "Stoff";
    /// Column.
    piece: "Piece", "Teil";
    /// Column.
    layer: "Layer", "Lage";
    /// Column.
    how_many: "How many", "Anzahl";
    /// Heading.
    lays: "Laying and cutting", "Auflegen und Zuschneiden";
    /// Under the heading.
    lays_about: "How the pieces lie on the cloth, all at one scale; the length of the cloth runs from left to right. A pale, hatched piece lies face down.", "Wie die Teile auf dem Stoff liegen, alle in einem Maßstab; die Länge des Stoffs läuft von links nach rechts. Ein blasses, schraffiertes Teil liegt mit der rechten Seite nach unten.";
    /// Along the cloth.
    long: "long", "lang";
    /// Edge.
    selvage: "selvage", "Webkante";
    /// Edge.
    fold: "fold", "Bruch";
    /// Below and above.
    above: "above", "oben";
    /// Below and above.
    below: "below", "unten";
    /// Nap.
    one_way: "All pieces lie one way: this cloth has a direction.", "Alle Teile liegen in einer Richtung: dieser Stoff hat einen Strich.";
    /// Plies.
    lies_both: "both plies", "beide Lagen";
    /// Plies.
    lies_one: "one ply", "eine Lage";
    /// Of a lay.
    lay_of: "Lay", "Auflage";
    /// Heading.
    key: "Key of marks", "Die Zeichen";
    /// Mark.
    key_cutting: "cutting line", "Schnittlinie";
    /// Mark.
    key_stitching: "stitching line", "Nahtlinie";
    /// Mark.
    key_grain: "grain; one head where the cloth has a direction", "Fadenlauf; eine Spitze, wo der Stoff einen Strich hat";
    /// Mark.
    key_fold: "cut on the fold", "im Bruch zuschneiden";
    /// Mark.
    key_adjust: "line to lengthen or shorten, or another line", "Linie zum Verlängern oder Kürzen, oder eine andere Linie";
    /// Mark.
    key_notch: "notch; a double one means back", "Knips; ein doppelter heißt hinten";
    /// Mark.
    key_right_wrong: "right side, wrong side", "rechte Seite, linke Seite";
    /// Mark.
    key_done: "pale: joined in an earlier step", "blass: in einem früheren Schritt verbunden";
    /// Mark.
    key_now: "edge sewn now; the same letter marks what it is sewn to", "Kante, die jetzt genäht wird; derselbe Buchstabe steht an der anderen Seite";
    /// Mark.
    key_meet: "points that meet bear the same sign", "Punkte, die zusammentreffen, tragen dasselbe Zeichen";
    /// Mark.
    key_stitches: "stitching", "Stepplinie";
    /// Mark.
    key_basting: "basting", "Heftnaht";
    /// Mark.
    key_slip: "slipstitches", "Blindstiche von Hand";
    /// Mark.
    key_gap: "left open", "bleibt offen";
    /// Mark.
    key_before: "seam already sewn", "schon genähte Naht";
    /// Mark.
    key_folded: "fold", "Bruch";
    /// Mark.
    key_piece: "number of a piece", "Nummer eines Teils";
    /// Heading.
    sewing: "Sewing", "Nähen";
    /// Under the heading.
    allowance_usual: "Seam allowance where nothing else is said:", "Nahtzugabe, wo nichts anderes steht:";
    /// Under the heading.
    pictures_size: "Pictures show size", "Die Bilder zeigen Größe";
    /// Under the heading.
    wearers_left: "Left and right are the wearer’s.", "Links und rechts sind die des Trägers.";
    /// Of steps that the maker does not say.
    worked_out: "This order is worked out; the maker says none.", "Diese Reihenfolge ist ausgerechnet; gesagt ist keine.";
    /// No steps.
    no_steps: "There is nothing to sew.", "Es gibt nichts zu nähen.";
    /// Of a tick box.
    done: "done: step", "fertig: Schritt";
    /// Before the code of a step, in what is told of its picture.
    picture_of_step: "Picture of step", "Bild zu Schritt";
    /// A scene.
    scene_edges: "which edges", "welche Kanten";
    /// A scene.
    scene_needle: "under the needle", "unter der Nadel";
    /// A scene.
    scene_rolled: "rolled out", "ausgerollt";
    /// A scene.
    scene_section: "cut across", "im Querschnitt";
    /// A scene.
    scene_wrong: "wrong side up", "linke Seite oben";
    /// A scene.
    scene_pieces: "the pieces", "die Teile";
    /// Of the picture of the whole.
    picture_of_garment: "The garment from the front and the back", "Das Stück von vorn und von hinten";
    /// The maker's words.
    maker_says: "The maker:", "Dazu gesagt:";
    /// Heading.
    cautions: "Cautions", "Hinweise";
    /// What was checked.
    checked_one: "The pattern was checked in one size; there is nothing to mend.", "Der Schnitt wurde in einer Größe geprüft; es gibt nichts zu beheben.";
    /// What was checked, before the count.
    checked: "The pattern was checked in", "Der Schnitt wurde in";
    /// What was checked, after the count.
    checked_sizes: "sizes; there is nothing to mend.", "Größen geprüft; es gibt nichts zu beheben.";
    /// None.
    no_cautions: "No rule asks for care here; local law decides.", "Keine Regel verlangt hier Vorsicht; es gilt das örtliche Recht.";
    /// A rule's name.
    rule: "rule:", "Regel:";
    /// Along the cloth.
    along: "along", "längs";
    /// Across the cloth.
    across: "across", "quer";
    /// Cloth that shrinks.
    wash_title: "Wash the cloth before cutting", "Den Stoff vor dem Zuschneiden waschen";
    /// Cloth that shrinks.
    wash_text: "It shrinks, and the lengths to buy are those before washing.", "Er läuft ein; die Längen zum Kaufen gelten vor dem Waschen.";
    /// Cloth with a direction.
    one_way_title: "Lay all pieces one way", "Alle Teile in einer Richtung auflegen";
    /// Zips.
    zip_title: "Buy the zip before cutting", "Den Reißverschluss vor dem Zuschneiden kaufen";
    /// Zips.
    zip_text: "Zip and edges are made for one another: another length means another pattern.", "Reißverschluss und Kanten sind füreinander gemacht: eine andere Länge verlangt einen anderen Schnitt.";
    /// Heading.
    words: "Words of the trade", "Wörter des Handwerks";
    /// Foot.
    foot: "Every figure is worked out from the pattern’s own text.", "Jede Angabe ist aus dem Text des Schnitts ausgerechnet.";
    /// Zip.
    separating_zip: "separating zip", "teilbarer Reißverschluss";
    /// Zip.
    closed_zip: "closed-end zip", "Reißverschluss mit geschlossenem Ende";
    /// Zip.
    concealed_zip: "concealed zip", "nahtverdeckter Reißverschluss";
    /// Zip.
    zip: "zip", "Reißverschluss";
    /// Fastener.
    button: "button", "Knopf";
    /// Fastener.
    snap: "snap", "Druckknopf";
    /// Fastener.
    hook: "hook and eye", "Haken und Öse";
    /// Fastener.
    toggle: "toggle", "Knebel";
    /// Fastener.
    buckle: "buckle", "Schnalle";
    /// Fastener.
    tie: "tie", "Bindeband";
    /// Notion.
    elastic: "elastic", "Gummiband";
    /// Notion.
    binding: "binding", "Einfassband";
    /// Notion.
    tape: "tape", "Band";
    /// Notion.
    cord: "cord", "Kordel";
}

impl Labels {
    /// Of a language.
    pub fn of(language: Language) -> &'static Labels {
        match language {
            Language::English => &ENGLISH,
            Language::German => &GERMAN,
        }
    }
}

/// What a group of steps is called that is worked out; in English the order of work says it itself.
pub fn phase_title(language: Language, phase: Phase) -> Option<&'static str> {
    let Language::German = language else { return None };
    Some(match phase {
        Phase::Fusing => "Einlagen aufbügeln",
        Phase::TakeUps => "Abnäher und Falten",
        Phase::SmallParts => "Kleine Teile",
        Phase::Slits => "Schlitze",
        Phase::Pockets => "Taschen",
        Phase::Zips => "Reißverschlüsse",
        Phase::Shoulders => "Schultern",
        Phase::Collar => "Oberer Rand",
        Phase::Flat => "Flache Nähte",
        Phase::Sides => "Lange Nähte",
        Phase::Round => "Runde Nähte",
        Phase::Cuffs => "Unterer Rand",
        Phase::Lining => "Futter",
        Phase::BaggingOut => "Verstürzen",
        Phase::Turning => "Wenden",
        Phase::Hems => "Säume",
        Phase::Buttons => "Knöpfe",
    })
}
