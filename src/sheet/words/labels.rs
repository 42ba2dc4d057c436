//! The fixed words of the page: headings, the words of tables, the key of marks; and what groups of steps are called that are
//! worked out.

use crate::sewing::order::{GroupTitle, Phase};
use crate::syntax::tree::Fastener;
use serde::Serialize;

/// Declares the fixed words: a field for each, so that a language that lacks one does not compile.
macro_rules! labels {
    ($($(#[$doc:meta])* $name:ident;)*) => {
        /// The fixed words of the page in one language.
        #[derive(Clone, Copy, Debug, Serialize)]
        pub struct Labels {
            $($(#[$doc])* pub $name: &'static str,)*
        }

        impl Labels {
            /// All of them with their names, in the order of their declaration.
            pub fn all(&self) -> Vec<(&'static str, &'static str)> {
                vec![$((stringify!($name), self.$name)),*]
            }
        }
    };
}

labels! {
    /// Above the title.
    kicker;
    /// Who drew it.
    maker;
    /// Which edition.
    edition;
    /// What it varies.
    variation_of;
    /// Which sizes.
    sizes;
    /// The one size.
    size;
    /// For whom it is made.
    wearer;
    /// What it asks of who sews it.
    asks_for;
    /// Easy.
    easy;
    /// Neither easy nor hard.
    medium;
    /// Hard.
    hard;
    /// So many pieces.
    piece_one;
    /// So many pieces.
    piece_many;
    /// So many steps.
    step_one;
    /// So many steps.
    step_many;
    /// The licence.
    licence;
    /// The front of the garment.
    front;
    /// Its back.
    back;
    /// What differs from the base.
    differs;
    /// Gone.
    gone;
    /// Added.
    added;
    /// Closures.
    closures;
    /// Before a figure of the base.
    instead_of;
    /// Before a figure of the variation.
    now;
    /// Changed.
    changed;
    /// The bar's name.
    parts_of_page;
    /// Chooser.
    figures_for;
    /// Of every size.
    all_sizes;
    /// To the text.
    skip;
    /// In the bar.
    nav_size;
    /// In the bar.
    nav_buy;
    /// In the bar.
    nav_pieces;
    /// In the bar.
    nav_lay;
    /// In the bar.
    nav_marks;
    /// In the bar.
    nav_sew;
    /// In the bar.
    nav_cautions;
    /// In the bar.
    nav_words;
    /// Heading.
    choose;
    /// Of a garment in one size.
    the_size;
    /// How a size is picked.
    pick_one;
    /// How a size is picked.
    pick_larger;
    /// How a size is picked.
    pick_larger_of;
    /// How a size is picked.
    and;
    /// Between two sizes.
    between;
    /// Caption.
    body_table;
    /// Caption.
    finished_table;
    /// Caption.
    units_cm;
    /// Ease.
    ease_over;
    /// A closure.
    of_closure;
    /// How many.
    buttons_apart;
    /// Heading.
    buy;
    /// Caption.
    buy_cloth;
    /// Caption.
    units_metres;
    /// Caption.
    buy_beside;
    /// Caption.
    buy_thread;
    /// Caption.
    buy_cost;
    /// Cost.
    together;
    /// Without a price.
    unpriced;
    /// Of money.
    in_makers_prices;
    /// Width of cloth.
    wide;
    /// Not wide enough.
    too_narrow;
    /// How cloth lies.
    open;
    /// How cloth lies.
    folded;
    /// How cloth lies.
    tube;
    /// Not laid.
    not_laid;
    /// Thread of a stitch.
    stitch;
    /// Sewn only.
    sewn_metres;
    /// What that means.
    sewn_only;
    /// Thread in general.
    thread_of;
    /// Bias strips.
    from_cloth;
    /// What a notion is for.
    each;
    /// Heading.
    pieces;
    /// Under the heading.
    pieces_scale;
    /// Under the heading, one size.
    pieces_scale_one;
    /// The texture.
    texture_tells;
    /// How large it is cut.
    cut_size;
    /// On the fold.
    on_fold_one;
    /// On the fold.
    on_fold;
    /// Both hands.
    mirrored_two;
    /// Both hands.
    mirrored;
    /// Alike.
    alike;
    /// Turned over.
    turned_over;
    /// For a side.
    worn_left;
    /// For a side.
    worn_right;
    /// Fused.
    fused;
    /// Between two numbers: so many of so many are fused.
    fused_of;
    /// Comes off.
    loose;
    /// Caption.
    cut_list;
    /// Column.
    cloth;
    /// Column.
    piece;
    /// Column.
    layer;
    /// Column.
    how_many;
    /// Heading.
    lays;
    /// Under the heading.
    lays_about;
    /// Along the cloth.
    long;
    /// Edge.
    selvage;
    /// Edge.
    fold;
    /// Below and above.
    above;
    /// Below and above.
    below;
    /// Nap.
    one_way;
    /// Plies.
    lies_both;
    /// Plies.
    lies_one;
    /// Of a lay.
    lay_of;
    /// Heading.
    key;
    /// Mark.
    key_cutting;
    /// Mark.
    key_stitching;
    /// Mark.
    key_grain;
    /// Mark.
    key_fold;
    /// Mark.
    key_adjust;
    /// Mark.
    key_notch;
    /// Mark.
    key_right_wrong;
    /// Mark.
    key_done;
    /// Mark.
    key_now;
    /// Mark.
    key_meet;
    /// Mark.
    key_stitches;
    /// Mark.
    key_basting;
    /// Mark.
    key_slip;
    /// Mark.
    key_gap;
    /// Mark.
    key_before;
    /// Mark.
    key_folded;
    /// Mark.
    key_piece;
    /// Mark.
    key_differs;
    /// Heading.
    sewing;
    /// Under the heading.
    allowance_usual;
    /// Under the heading.
    pictures_size;
    /// Under the heading.
    wearers_left;
    /// Of steps that the maker does not say.
    worked_out;
    /// Pieces that are cut and that no step names.
    in_no_step;
    /// No steps.
    no_steps;
    /// Of a tick box.
    done;
    /// Before the code of a step, in what is told of its picture.
    picture_of_step;
    /// A scene.
    scene_edges;
    /// A scene.
    scene_needle;
    /// A scene.
    scene_rolled;
    /// A scene.
    scene_section;
    /// A scene.
    scene_wrong;
    /// A scene.
    scene_pieces;
    /// Of the picture of the whole.
    picture_of_garment;
    /// The maker's words.
    maker_says;
    /// Heading.
    cautions;
    /// What was checked.
    checked_one;
    /// What was checked, before the count.
    checked;
    /// What was checked, after the count.
    checked_sizes;
    /// What was found.
    found_nothing;
    /// What was found.
    found_warnings;
    /// None.
    no_cautions;
    /// A rule's name.
    rule;
    /// Before a message in the words that it is written in.
    as_told;
    /// Along the cloth.
    along;
    /// Across the cloth.
    across;
    /// Cloth that shrinks.
    wash_title;
    /// Cloth that shrinks.
    wash_text;
    /// Cloth with a direction.
    one_way_title;
    /// Zips.
    zip_title;
    /// Zips.
    zip_text;
    /// Heading.
    words;
    /// Foot.
    foot;
    /// Zip.
    separating_zip;
    /// Zip.
    closed_zip;
    /// Zip.
    concealed_zip;
    /// Zip.
    zip;
    /// Fastener.
    button;
    /// Fastener.
    snap;
    /// Fastener.
    hook;
    /// Fastener.
    toggle;
    /// Fastener.
    buckle;
    /// Fastener.
    tie;
    /// Notion.
    elastic;
    /// Notion.
    binding;
    /// Notion.
    tape;
    /// Notion.
    cord;
}

/// What a group of steps is called that is worked out.
#[derive(Clone, Copy, Debug)]
pub struct PhaseWords {
    /// What stiffens is fused on.
    pub fusing: &'static str,
    /// Darts and pleats.
    pub take_ups: &'static str,
    /// Small parts.
    pub small_parts: &'static str,
    /// Slits.
    pub slits: &'static str,
    /// Pockets.
    pub pockets: &'static str,
    /// Zips.
    pub zips: &'static str,
    /// Seams across what has neither yoke nor shoulders.
    pub across: &'static str,
    /// Nothing but cords and elastic.
    pub threading: &'static str,
    /// What is sewn by hand once all is turned.
    pub by_hand: &'static str,
    /// Yoke and shoulders.
    pub shoulders: &'static str,
    /// What goes along the top.
    pub collar: &'static str,
    /// Flat seams.
    pub flat: &'static str,
    /// What closes a tube.
    pub sides: &'static str,
    /// What goes round.
    pub round: &'static str,
    /// What goes along the bottom.
    pub cuffs: &'static str,
    /// The lining.
    pub lining: &'static str,
    /// Inside and outside are joined.
    pub bagging_out: &'static str,
    /// Turning.
    pub turning: &'static str,
    /// Hems.
    pub hems: &'static str,
    /// Buttons.
    pub buttons: &'static str,
    /// Nothing but rows of stitching.
    pub topstitching: &'static str,
    /// Nothing but straps.
    pub straps: &'static str,
    /// Snaps.
    pub snaps: &'static str,
    /// Hooks and eyes.
    pub hooks: &'static str,
    /// Toggles.
    pub toggles: &'static str,
    /// A buckle.
    pub buckle: &'static str,
    /// Ties.
    pub ties: &'static str,
    /// Fasteners of several kinds.
    pub fastenings: &'static str,
}

impl PhaseWords {
    /// What such a group is called.
    pub fn title(&self, called: GroupTitle) -> &'static str {
        match called {
            GroupTitle::Phase(phase) => self.phase(phase),
            GroupTitle::Topstitching => self.topstitching,
            GroupTitle::Straps => self.straps,
            GroupTitle::Across => self.across,
            GroupTitle::ByHand => self.by_hand,
            GroupTitle::Threading => self.threading,
            GroupTitle::Fasteners(kind) => match kind {
                Fastener::Button => self.buttons,
                Fastener::Snap => self.snaps,
                Fastener::Hook => self.hooks,
                Fastener::Toggle => self.toggles,
                Fastener::Buckle => self.buckle,
                Fastener::Tie => self.ties,
            },
            GroupTitle::Fastenings => self.fastenings,
        }
    }

    fn phase(&self, phase: Phase) -> &'static str {
        match phase {
            Phase::Fusing => self.fusing,
            Phase::TakeUps => self.take_ups,
            Phase::SmallParts => self.small_parts,
            Phase::Slits => self.slits,
            Phase::Pockets => self.pockets,
            Phase::Zips => self.zips,
            Phase::Shoulders => self.shoulders,
            Phase::Collar => self.collar,
            Phase::Flat => self.flat,
            Phase::Sides => self.sides,
            Phase::Round => self.round,
            Phase::Cuffs => self.cuffs,
            Phase::Lining => self.lining,
            Phase::BaggingOut => self.bagging_out,
            Phase::Turning => self.turning,
            Phase::Hems => self.hems,
            Phase::Buttons => self.buttons,
        }
    }
}

/// How numbers are written.
#[derive(Clone, Copy, Debug)]
pub struct NumberWords {
    /// Between units and tenths.
    pub decimal: char,
    /// Between the least and the most.
    pub to: &'static str,
}
