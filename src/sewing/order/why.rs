//! Why one thing is done before another, in a maker's words.

/// Why something waits for something else.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Why {
    /// A placed piece is stitched down over the ends of its finished edges.
    StitchesDown,
    /// What is placed is a finished piece by then.
    Finished,
    /// A seam or a closure catches it.
    Catches,
    /// A buckle is sewn to its end.
    Buckles,
    /// It is sewn down onto a seam.
    Onto,
    /// The edges of a seam run on over another seam.
    Crosses,
    /// A seam or a finish goes over the edge that a dart takes from.
    OverMouth,
    /// What is placed lies over a dart.
    OverDart,
    /// What is sewn on cannot be turned to its wrong side any more.
    Reaches,
    /// What is placed on a placed piece would be stitched through what carries both.
    ThroughBoth,
    /// Interfacing stiffens what buttons go through.
    Stiffens,
    /// A seam takes in a zip.
    Encloses,
    /// A zip is basted in its place.
    HeldFirst,
    /// A seam leaves the gap.
    LeavesGap,
    /// Something is turned through the gap.
    ThroughGap,
    /// A cord runs through it.
    RunsThrough,
    /// Once the layers are turned it cannot be reached.
    OutOfReach,
    /// A seam shuts the end of a finished edge in.
    ShutsEnd,
    /// What a seam sews on lies over the end of a finished edge on both sides.
    LiesOver,
    /// A finish runs on over a seam.
    RunsOn,
    /// The seam that shuts a folded piece shuts its ends.
    ShutsEnds,
    /// A seam covers what is fused.
    Covers,
    /// Turned, the wrong side of what is fused lies inside.
    WrongSideIn,
    /// A hem would be turned over the mouth of a channel.
    Mouth,
    /// A facing lies behind the buttonholes.
    Facing,
    /// A layer lies behind what fastens, which goes through it too.
    FacingBehind,
    /// The layers do not lie as they are worn before.
    AsWorn,
    /// The cloth that buttons go through is turned in.
    TurnsIn,
    /// A band that buttons go through is closed.
    ClosesBand,
    /// A folded band lies over the end of a zip on both sides.
    OverZip,
    /// A flap hangs over it, whose cloth its stitching would go through.
    HangsOver,
    /// A ring goes round an edge that is closed.
    GoesRound,
    /// A band goes round a ring as a ring.
    RingRoundRing,
    /// What is turned is joined to what it will lie on.
    LiesOn,
    /// A row is stitched beside it, through what it leaves there.
    Beside,
    /// A seam or a tack holds what a facing is understitched to.
    HoldsFacing,
    /// It joins both places of a tack.
    JoinsPlaces,
    /// A row goes over it, and would sew it shut.
    SewsShut,
    /// It is sewn down where what is joined before is turned out.
    TurnedOut,
    /// The last seam of what closes a space off leaves a way to turn it.
    LastOfBag,
}

impl Why {
    /// Said of what comes first, behind what waits for it: "sewing waist comes before sewing side, which it
    /// crosses".
    pub fn of_first(self) -> &'static str {
        match self {
            Why::StitchesDown => "whose ends it stitches down",
            Why::Finished => "without which it is no finished piece",
            Why::Catches => "which it is to catch",
            Why::Buckles => "to whose end it is sewn",
            Why::Onto => "onto which it is sewn down",
            Why::Crosses => "which it crosses",
            Why::OverMouth => "over whose edge it goes",
            Why::OverDart => "over which it lies",
            Why::Reaches => "which cannot be reached any more",
            Why::HangsOver => "over which it hangs",
            Why::ThroughBoth => "whose stitching would go through both and shut it",
            Why::Stiffens => "which stiffens what it goes through",
            Why::Encloses => "which it encloses",
            Why::HeldFirst => "which holds all of it in its place",
            Why::LeavesGap => "which leaves the gap",
            Why::ThroughGap => "which goes through it",
            Why::RunsThrough => "through which it runs",
            Why::OutOfReach => "which can no longer be reached then",
            Why::ShutsEnd => "whose end it shuts in",
            Why::LiesOver => "which lies over its end on both sides",
            Why::OverZip => "whose end it lies over on both sides",
            Why::RunsOn => "over which it runs on",
            Why::ShutsEnds => "whose ends it shuts",
            Why::Covers => "which it covers",
            Why::WrongSideIn => "whose wrong side lies inside once that is turned",
            Why::Mouth => "which would be turned over its mouth",
            Why::Facing => "which puts the facing behind the buttonholes",
            Why::FacingBehind => "which puts a layer behind what is fastened there",
            Why::AsWorn => "until which the layers do not lie as they are worn",
            Why::TurnsIn => "which turns in the cloth that it goes through",
            Why::ClosesBand => "which closes the band that it goes through",
            Why::GoesRound => "which closes the edge that it goes round",
            Why::RingRoundRing => "which makes a ring of what it sews round one",
            Why::LiesOn => "which joins it to what it will lie on",
            Why::Beside => "beside which it is stitched",
            Why::HoldsFacing => "whose facing it holds",
            Why::JoinsPlaces => "which joins both its places",
            Why::SewsShut => "which would sew it shut",
            Why::TurnedOut => "which could not be turned any more",
            Why::LastOfBag => "so that what both close can be turned",
        }
    }

    /// Said of what waits, behind what comes first: "before sewing waist, which crosses it".
    pub fn of_waiting(self) -> &'static str {
        match self {
            Why::StitchesDown => "which stitches its ends down",
            Why::Finished => "by when the piece is finished",
            Why::Catches => "which catches it",
            Why::Buckles => "which is sewn to its end",
            Why::Onto => "which is sewn down onto it",
            Why::Crosses => "which crosses it",
            Why::OverMouth => "which goes over its edge",
            Why::OverDart => "which lies over it",
            Why::Reaches => "after which nobody reaches it",
            Why::HangsOver => "which hangs over it",
            Why::ThroughBoth => "on which it lies",
            Why::Stiffens => "which goes through what it stiffens",
            Why::Encloses => "which encloses it",
            Why::HeldFirst => "which sews what it holds",
            Why::LeavesGap => "which goes through its gap",
            Why::ThroughGap => "after which nothing is turned",
            Why::RunsThrough => "which runs through it",
            Why::OutOfReach => "after which nobody reaches it",
            Why::ShutsEnd => "which shuts its end in",
            Why::LiesOver | Why::OverZip => "which lies over its end on both sides",
            Why::RunsOn => "which runs on over it",
            Why::ShutsEnds => "which shuts its ends",
            Why::Covers => "which covers it",
            Why::WrongSideIn => "after which its wrong side lies inside",
            Why::Mouth => "whose mouth it would be turned over",
            Why::Facing => "which goes through the facing too",
            Why::FacingBehind => "which goes through both layers",
            Why::AsWorn => "which goes through all layers as they are worn",
            Why::TurnsIn => "which goes through what it turns in",
            Why::ClosesBand => "which goes through the band that it closes",
            Why::GoesRound => "which goes round the edge that it closes",
            Why::RingRoundRing => "which sews what it closes round a ring",
            Why::LiesOn => "which lays it on what it is joined to",
            Why::Beside => "which is stitched beside it",
            Why::HoldsFacing => "which holds the facing",
            Why::JoinsPlaces => "which holds what it joins",
            Why::SewsShut => "which it would sew shut",
            Why::TurnedOut => "which sews down where it is turned out",
            Why::LastOfBag => "so that what both close can be turned",
        }
    }
}
