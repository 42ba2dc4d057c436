//! How a body is measured, told by the names that measures have. A maker's own words come first; a name that is not known
//! here has none.

/// Declares where each measure is taken, with the names that mean it.
macro_rules! measures {
    ($($(#[$doc:meta])* $key:ident: $($name:literal)|+;)*) => {
        /// Where measures are taken, in one language.
        #[derive(Clone, Copy, Debug)]
        pub struct MeasuringWords {
            $($(#[$doc])* pub $key: &'static str,)*
        }

        impl MeasuringWords {
            /// How a measure of that name is taken.
            pub fn how(&self, name: &str) -> Option<&'static str> {
                match name {
                    $($($name)|+ => Some(self.$key),)*
                    _ => None,
                }
            }

            /// All of them, with one name of each.
            pub fn all(&self) -> Vec<(&'static str, &'static str)> {
                vec![$((stringify!($key), self.$key)),*]
            }
        }
    };
}

measures! {
    /// Round the chest.
    chest: "chest" | "bust";
    /// Below the bust.
    underbust: "underbust";
    /// Round the waist.
    waist: "waist";
    /// Round the belly.
    belly: "belly" | "stomach";
    /// Round the seat.
    hip: "hip" | "hips" | "seat";
    /// Round the neck.
    neck: "neck";
    /// Round the head.
    head: "head";
    /// Down the back.
    back_waist: "back_waist";
    /// Along the arm.
    arm: "arm";
    /// Round the upper arm.
    upper_arm: "upper_arm";
    /// Round the wrist.
    wrist: "wrist";
    /// Round the hand.
    hand: "hand" | "palm";
    /// Across the shoulder.
    shoulder: "shoulder";
    /// Round the thigh.
    thigh: "thigh";
    /// Round the ankle.
    ankle: "ankle";
    /// Round the foot.
    foot: "foot" | "heel";
    /// From waist to seat.
    rise: "rise";
    /// Down the inside of the leg.
    inside_leg: "inside_leg";
    /// All of the body.
    height: "height";
}
