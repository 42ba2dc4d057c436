//! What is sound, and why.

use super::changes::Way;

/// Changes that are sound, and why.
pub struct Sound {
    pub way: Way,
    /// Why it can be sewn and worn all the same.
    pub because: &'static str,
    /// Of what is changed, each "file: what"; `*` stands for anything.
    pub what: &'static [&'static str],
}

/// A rule of one way.
const fn sound(way: Way, because: &'static str, what: &'static [&'static str]) -> Sound {
    Sound { way, because, what }
}

/// What a rule of [`SOUND`] seems to say, and is noticed: no longer deep enough for what is turned under, or too
/// deep for the turn-up.
pub const NOTICED: &[(Way, &str)] = &[
    (Way::Length, "ticket-bag: finish flap.left, flap.right: hem 1 - 20%"),
    (Way::Length, "ticket-bag: finish flap.left, flap.right: turned under 1 + 20%"),
    (Way::Length, "mate-trousers: finish *: hem 4 + 20%"),
    // It is set somewhere.
    (Way::Dropped, "storm-hat: notion eyelet 5 mm"),
];

pub const SOUND: &[Sound] = &[
    sound(Way::SidesSwapped, "a plain seam is the same from both sides", &["*: seam *"]),
    sound(Way::SidesSwapped, "what lies over is said, and a zip has no first side", &["*: closure *"]),
    sound(Way::SidesSwapped, "folded from either side it lies the same", &["*: piece *: folded"]),
    sound(
        Way::SidesSwapped,
        "trade habit presses it down; up it can be worn too",
        &["steward-bodice: dart front.bust_dart: *"],
    ),
    sound(Way::Dropped, "nothing in the garment asks for it", &["*: notion *"]),
    sound(
        Way::Dropped,
        "both its edges are plies of one seam, which folds it",
        &[
            "deck-smock: piece *: folded",
            "purser-shirt: piece *: folded",
            "mess-skirt: piece *: folded",
            "raglan-jersey: piece *: folded",
            "watch-cap: piece *: folded",
            "mate-trousers-fly: piece *: folded",
        ],
    ),
    sound(
        Way::Dropped,
        "what passes is only checked; a zip or another opening is there",
        &[
            "storm-hat: opening *",
            "mess-skirt: opening *",
            "mess-skirt-lined: opening *",
            "raglan-jersey: opening sleeve.wrist",
            "deck-hood: opening hood.face",
        ],
    ),
    sound(Way::Dropped, "a belt has a loop less", &["mate-trousers: strap belt_loop: *"]),
    sound(
        Way::Dropped,
        "the base's zip is there again, in the same edges",
        &["mate-trousers-fly: closure fly"],
    ),
    sound(
        Way::TwinEdge,
        "a row may lie on either side of a seam, and on the end of the stand or of a cuff",
        &["purser-shirt: topstitch yoke_row: *", "purser-shirt-band: topstitch band_row: *"],
    ),
    sound(
        Way::OtherLayer,
        "a row goes through all layers, whichever is named",
        &["purser-shirt*: topstitch *", "storm-hat: topstitch *"],
    ),
    sound(
        Way::OtherLayer,
        "the shell was meant, and now it is said",
        &[
            "mess-jacket: seam shoulder: * to outer.*",
            "mess-jacket: seam armhole: * to outer.*",
            "mess-jacket: seam side: * to outer.*",
            "purser-*: seam cuff_on: * to outer.*",
            "purser-shirt*: closure *: * to outer.*",
            "purser-shirt-band: seam *: band.* to outer.*",
            "purser-shirt-band: finish *: band.* to outer.*",
            "mate-trousers: closure *: * to outer.*",
            "mess-skirt-side: closure *: * to outer.*",
        ],
    ),
    sound(
        Way::EndsSwapped,
        "a sleeve or a cuff that is the same from both sides of its middle: the left one is sewn on on the right",
        &["deck-smock: seam armhole", "*: seam cuff", "purser-*: seam cuff_on"],
    ),
    sound(
        Way::EndsSwapped,
        "a ring goes round a ring from either end",
        &["raglan-jersey: seam wrist", "watch-cap: seam brim"],
    ),
    sound(
        Way::EndsSwapped,
        "a rectangle is the same from both ends",
        &["ticket-bag: seam back_top", "mate-trousers-fly: seam *_on"],
    ),
    sound(
        Way::EndsSwapped,
        "it sits its height or its width away, still on its piece",
        &[
            "galley-apron: place pocket: corner to top_left",
            "oilskin-trousers: place pocket: corner to top_left",
            "crew-badge: place badge: *",
        ],
    ),
    sound(Way::EndsSwapped, "a strap has no first end", &["*: strap *"]),
    sound(
        Way::Count,
        "one fastener more or less closes it as well",
        &[
            "mess-jacket: closure *: buttons *",
            "purser-shirt*: closure button_front: *",
            "ticket-bag: closure *",
            "mate-trousers: closure band_hook: hooks to 2",
        ],
    ),
    sound(
        Way::Count,
        "what it is sewn to is as long as it leaves",
        &["purser-shirt: pleat sleeve.wrist_pleats: *"],
    ),
    sound(Way::Count, "a row more or less stiffens it as well", &["storm-hat: topstitch brim_rows: rows *"]),
    sound(Way::Count, "the maker may want two", &["*: notion * to 2"]),
    sound(Way::Length, "a longer gap still has room in its seam", &["*: seam *: gap * + 20%"]),
    sound(
        Way::Length,
        "what was within a range is within a wider one",
        &[
            "*: seam *: fit low * - 20%",
            "*: seam *armhole: fit high * + 20%",
            "*: seam cuff: fit high * + 20%",
            "mess-skirt-lined: seam waist: fit high * + 20%",
        ],
    ),
    sound(
        Way::Length,
        "it was within a range, and is within this one too",
        &[
            "deck-smock: seam armhole: fit *",
            "purser-shirt: seam armhole: fit *",
            "raglan-jersey: seam wrist: fit high 100% - 20%",
        ],
    ),
    sound(Way::Length, "a notch may stand anywhere, as long as every ply has it", &["*: seam *: notch *"]),
    sound(
        Way::Length,
        "a seam may be finished wider or narrower, as far as its allowance goes",
        &[
            "*: seam *: width * - 20%",
            "bias-slip: seam *: width *",
            "ticket-bag: seam *: width *",
            "mate-trousers: seam *: width *",
            "purser-shirt: seam *: allowance 1.5 + 20%",
        ],
    ),
    sound(
        Way::Length,
        "a hem may be a fifth deeper or shallower, and so may what is turned under, a turn-up, a binding",
        &[
            "*: finish *: hem *",
            "*: finish *: turned under *",
            "mate-trousers: finish *: turn-up 4 + 20%",
            "*: finish *: bound *",
        ],
    ),
    sound(
        Way::Length,
        "a collar or a rib may be a fifth deeper or shallower; a rib that stretches by 80 % goes round at 68 % too",
        &["*: band *: depth *", "*: band *: share 85% - 20%"],
    ),
    sound(
        Way::Length,
        "the tie goes through a narrower or wider channel",
        &["galley-apron: finish apron.slope: casing 3 *"],
    ),
    sound(
        Way::Length,
        "elastic has more room, or stretches over the hip",
        &[
            "oilskin-trousers: finish *: casing 4 + 20%",
            "oilskin-trousers: finish *: elastic width 3.5 - 20%",
            "oilskin-trousers: finish *: elastic length 90% - 20%",
        ],
    ),
    sound(
        Way::Length,
        "stitching may lie a little further in or out, a bar be a little wider",
        &["*: topstitch *", "*: tack *"],
    ),
    sound(
        Way::Length,
        "2 × 35.8 cm of channel and two ends still go into it",
        &["galley-apron: cord tie: *"],
    ),
    sound(Way::Length, "it still reaches from mark to mark", &["*: strap *"]),
    sound(
        Way::Length,
        "a fifth larger or smaller there are buttons too; a row may begin and end a little higher or lower",
        &[
            "mess-jacket: closure *: * button *",
            "mess-jacket: closure *: button size *",
            "purser-shirt*: closure button_front: *",
            "purser-shirt*: closure cuff_button: button size *",
            "purser-shirt*: closure cuff_button: stand *",
        ],
    ),
    sound(
        Way::Length,
        "the body is lengthened until the zip fits, or another zip is in stock",
        &[
            "deck-zip: closure front_zip: zip zip_length + 20%",
            "mess-skirt: closure back_zip: zip 7 *",
            "mess-skirt-side: closure side_zip: zip 7 *",
            "mess-skirt-side: closure side_zip: zip 12 *",
            "mess-skirt: closure back_zip: zip 12 *",
        ],
    ),
    sound(
        Way::Length,
        "its legs lean to the same point; it may end a little before or after it",
        &[
            "steward-bodice: dart front.bust_dart: at *",
            "steward-bodice: dart front.waist_dart: at * + 20%",
            "steward-bodice: dart *: stopping *",
        ],
    ),
    sound(
        Way::Length,
        "half a centimetre more or less is within the ease",
        &["steward-bodice: dart *.waist_dart: width *", "mate-trousers: dart *: width *"],
    ),
    sound(
        Way::Length,
        "it lies a little to the side, or is a fifth longer or shorter",
        &["*: slit *: at *", "*: slit *: length *", "*: pleat *: at *", "purser-shirt: pleat *: apart *"],
    ),
    sound(
        Way::Length,
        "a window 2 mm wider or narrower than the strips that fill it is within the tolerance",
        &[
            "mate-trousers-jetted: slit *: window *",
            "purser-shirt-placket: slit *: window under_width + 20%",
            "purser-shirt-placket: placket *: under under_width - 20%",
        ],
    ),
    sound(
        Way::Length,
        "what it is sewn to is as long as it leaves",
        &["purser-shirt: pleat sleeve.*: depth *", "mate-trousers: pleat *: depth *"],
    ),
    sound(Way::Length, "its folds lie apart", &["purser-shirt: pleat back.back_pleat: wide * + 20%"]),
    sound(
        Way::StepsSwapped,
        "eyelets, hooks, pressing and rows are easier done flat, and can be done later",
        &[
            "storm-hat: set eyelets and sew panels",
            "storm-hat: press brim_rim and topstitch brim_rows",
            "storm-hat: topstitch brim_rows and sew brim_on",
            "storm-hat: hem sweatband.* and sew sweatband_in",
        ],
    ),
    sound(
        Way::StepsSwapped,
        "two edges, darts or bands: either may be first",
        &[
            "*: targets *.* and *.*",
            "purser-shirt*: targets collar and stand",
            "purser-shirt*: targets stand and cuff",
            "purser-shirt-band: targets cuff and band",
            "mess-jacket: targets front_facing and collar",
            "ticket-bag: targets shoulder and hanger",
            "ticket-bag: targets hanger and pencil_tie",
            "mate-trousers: sew back.back_dart and *",
            "steward-princess: targets back.waist_dart and princess",
        ],
    ),
    sound(
        Way::StepsSwapped,
        "a sleeve is set in flat, or round once both are closed, and has its pleats folded and its slit bound before or after",
        &[
            "purser-shirt: steps \"Sleeve\" and \"Sides\"",
            "purser-shirt: finish sleeve.* and *",
            "*: targets sleeve.wrist_pleats and armhole",
        ],
    ),
    sound(
        Way::StepsSwapped,
        "a pocket, a strap or a dart is easier sewn flat, and can be sewn later",
        &[
            "*: steps \"Pockets\" and *",
            "deck-lined: place pocket and *",
            "galley-apron: steps \"Pocket\" and \"Edges\"",
            "ticket-bag: steps \"Straps\" and \"Flap\"",
            "bias-slip: steps \"Top\" and \"Straps\"",
            "bias-slip: steps \"Straps\" and \"Hem\"",
            "mate-trousers: steps \"Darts\" and \"Pockets\"",
            "mess-skirt-side: steps \"Pocket\" and \"Panels\"",
            "mess-skirt-side: sew centre_back, * and place loop",
            "mate-trousers: sew band_ends, * and place belt_loop",
        ],
    ),
    sound(
        Way::StepsSwapped,
        "what is fused is not sewn yet",
        &[
            "mess-jacket: steps \"Fuse\" and \"Shell\"",
            "purser-shirt: steps \"Firm\" and \"Pleat\"",
            "mate-trousers: steps \"Firm\" and \"Darts\"",
            "mess-skirt-side: steps \"Waistband\" and \"Pocket\"",
        ],
    ),
    sound(
        Way::StepsSwapped,
        "shell and lining do not meet yet",
        &[
            "deck-lined: steps \"Shell\" and \"Lining\"",
            "mess-jacket: steps \"Shell\" and \"Facing and lining\"",
            "mess-jacket: targets outer_neck and inner_neck",
            "mess-skirt-lined: steps \"Skirt\" and \"Lining\"",
        ],
    ),
    sound(
        Way::StepsSwapped,
        "a gap stays, and all plies of a cuff are sewn at once from outside",
        &["deck-lined: sew front_edge and turn *", "deck-lined: sew cuff_ends, * and slipstitch *"],
    ),
    sound(
        Way::StepsSwapped,
        "they are far apart",
        &[
            "mess-skirt-side: steps \"Zip\" and \"Hem\"",
            "mess-skirt-side: targets *",
            "storm-hat: steps \"Brim\" and \"Sweatband\"",
            "storm-hat: targets brim_ends and brim_rim",
            "deck-lined: targets collar and hem_band",
            "deck-lined: targets collar_inside and hem_band_inside",
            "deck-smock: steps \"Collar\" and \"Cuffs\"",
            "deck-smock: steps \"Cuffs\" and \"Hem band\"",
            "mess-jacket: targets hem and wrist",
            "mess-jacket: slipstitch gap in sleeve and sew placket",
            "oilskin-trousers: steps \"Waist\" and \"Hems\"",
            "mate-trousers: steps \"Waist\" and \"Hems\"",
            "mess-skirt-lined: steps \"Zip\" and \"Hems\"",
            "purser-shirt: steps \"Yoke\" and \"Front\"",
            "purser-shirt: steps \"Collar\" and \"Sleeve\"",
            "purser-shirt: steps \"Cuffs\" and \"Hem\"",
            "purser-shirt*: hem front.hem, * and sew button_front",
            "raglan-jersey: steps \"Neck\" and \"Sides\"",
            "raglan-jersey: targets wrist and hem_ends",
            "steward-*: finish * and hem front.waist, back.waist",
            "mate-trousers: tack fly_bar and sew seat",
            "mate-trousers-fly: tack fly_bar and sew seat",
        ],
    ),
    sound(
        Way::StepsSwapped,
        "they share a corner at most, and cross nothing",
        &[
            "*: targets side and sleeve",
            "mate-trousers-jetted: targets lower_on and upper_on",
            "mate-trousers-jetted: targets jets_start and jets_end",
            "mess-jacket: targets collar_edge and front_edge",
            "mess-jacket: targets front_edge and hem",
            "oilskin-trousers: targets outseam and inseam",
            "oilskin-trousers: targets front_crotch and back_crotch",
            "bias-slip: targets centre_*",
            "steward-bodice: targets shoulder and side",
            "mate-trousers: targets side and hip_side",
            "mate-trousers: targets hip_side and inside",
            "mate-trousers: targets crotch and fly",
            "mate-trousers-fly: targets facing_on and shield_on",
            "mate-trousers-fly: sew crotch and baste fly",
            "mate-trousers-fly: baste fly and *",
            "mess-skirt: targets back_zip and centre_back",
            "mess-skirt-lined: targets *_pocket and *_pocket",
            "mess-skirt-lined: in outer sew * and sew pocket_bag",
            "mess-skirt-lined: targets side and centre_back",
            "purser-shirt: targets back_yoke and front_yoke",
            "purser-shirt: targets side and arm",
            "purser-shirt-placket: targets sleeve_placket_*",
            "raglan-jersey: targets *_raglan and *_raglan",
            "raglan-jersey: targets side and under_arm",
        ],
    ),
    sound(
        Way::StepsSwapped,
        "either seam first, the other through in one",
        &["oilskin-trousers: steps \"Legs\" and \"Crotch\"", "mate-trousers: steps \"Legs\" and \"Seat\""],
    ),
    sound(
        Way::StepsSwapped,
        "a raw edge is overlocked before it is sewn or after",
        &[
            "mate-trousers-fly: finish * and sew facing_on, shield_on",
            "mess-skirt-vent: sew vent_lining and finish outer.back.vent",
            "steward-bodice-faced: finish front_facing.inner, * and *",
        ],
    ),
    sound(
        Way::StepsSwapped,
        "a facing is closed at the side before it is sewn on or after",
        &["steward-bodice-faced: targets facing_*"],
    ),
    sound(
        Way::StepsSwapped,
        "it lies open and can be hemmed, or its flap sewn on, before or after",
        &["ticket-bag: steps \"Flap\" and \"Bag\"", "ticket-bag: hem *"],
    ),
    sound(
        Way::StepsSwapped,
        "a window is filled from its ends or from its long edges",
        &["mate-trousers-jetted: sew lower_on, * and sew jets_start, *"],
    ),
    sound(
        Way::StepsSwapped,
        "a pocket bag is turned away from its mouth, a hook sewn to the band alone",
        &[
            "mate-trousers-jetted: sew jets_start, * and sew back_bag",
            "mate-trousers: targets mouth and pocket",
            "mate-trousers: targets waist and band_hook",
        ],
    ),
    sound(
        Way::StepsSwapped,
        "a row or a bar is sewn through what is held already",
        &[
            "*: topstitch fly_row and tack fly_bar",
            "purser-shirt: topstitch collar_row and sew *",
            "purser-shirt-band: finish band.left and topstitch band_row",
        ],
    ),
    sound(
        Way::StepsSwapped,
        "the ends of the stand are sewn first, and the collar between its plies",
        &["purser-shirt: targets collar_on and stand_end"],
    ),
    sound(
        Way::StepsSwapped,
        "the ends of its tape are turned under at the finished edges",
        &["steward-bodice: steps \"Edges\" and \"Zip\""],
    ),
];
