//! Trade terms, explained in our own words. The key of each is what patterns mark it by.

/// A trade term.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Term {
    /// The word itself.
    pub word: &'static str,
    /// What it means.
    pub meaning: &'static str,
}

/// Declares the glossary: a field for each term, so that a language that lacks one does not compile.
macro_rules! terms {
    ($($(#[$doc:meta])* $key:ident),* $(,)?) => {
        /// All terms in one language.
        #[derive(Clone, Copy, Debug)]
        pub struct Glossary {
            $($(#[$doc])* pub $key: Term,)*
        }

        impl Glossary {
            /// All terms with their keys, in the order of their declaration.
            pub fn terms(&self) -> Vec<(&'static str, Term)> {
                vec![$((stringify!($key), self.$key)),*]
            }

            /// The term of a key.
            pub fn term(&self, key: &str) -> Option<Term> {
                match key {
                    $(stringify!($key) => Some(self.$key),)*
                    _ => None,
                }
            }
        }
    };
}

terms! {
    /// The allowance.
    allowance,
    /// Right sides together.
    right_sides,
    /// The wrong side.
    wrong_side,
    /// A notch.
    notch,
    /// Easing.
    ease,
    /// Gathering.
    gather,
    /// Stretching.
    stretch,
    /// A gap for turning.
    gap,
    /// A French seam.
    french_seam,
    /// A lapped seam.
    lapped_seam,
    /// A felled seam.
    fell,
    /// Topstitching.
    topstitch,
    /// Understitching.
    understitch,
    /// Binding.
    bind,
    /// A dart.
    dart,
    /// A pleat.
    pleat,
    /// A tuck.
    tuck,
    /// Basting.
    baste,
    /// Pressing.
    press,
    /// A hem.
    hem,
    /// A turn-up.
    turn_up,
    /// Overlocking.
    overlock,
    /// A casing.
    casing,
    /// Face down.
    face_down,
    /// A concealed zip.
    concealed_zip,
    /// A separating zip.
    separating_zip,
    /// A buttonhole.
    buttonhole,
    /// A snap.
    snap,
    /// A toggle.
    toggle,
    /// Threading.
    thread,
    /// A tack.
    tack,
    /// A bar tack.
    bar_tack,
    /// Fusing.
    fuse,
    /// Slipstitching.
    slipstitch,
    /// The grain.
    grain,
    /// The selvage.
    selvage,
    /// Nap.
    nap,
    /// The fold.
    fold,
    /// A pair.
    mirrored,
    /// The stitching line.
    stitching_line,
    /// Wearing ease.
    wearing_ease,
}
