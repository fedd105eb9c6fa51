use std::fmt;

use units::Role;

/// Why a bow and an arrow do not make a departure. All values are in SI.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum LaunchError {
    /// A value outside what a hand-held bow can have, or not a number.
    #[error("the {setting} is {value}{}; it must lie from {low} to {high}{}", setting.unit(), setting.unit())]
    OutOfRange {
        /// Which value.
        setting: Setting,
        /// The value.
        value: f64,
        /// Lowest allowed value.
        low: f64,
        /// Highest allowed value.
        high: f64,
    },
    /// The string stands at full draw no farther back than at rest.
    #[error(
        "a draw length of {} with a brace height of {} leaves a power stroke of {}; draw length less \
         1.75 in (44.45 mm) must exceed the brace height by at least {}",
        part(*draw_length), part(*brace_height), part(*stroke), part(*least)
    )]
    NoStroke {
        /// Trade draw length, m.
        draw_length: f64,
        /// Brace height, m.
        brace_height: f64,
        /// Power stroke they leave, m.
        stroke: f64,
        /// Least power stroke, m.
        least: f64,
    },
    /// Let-off on a bow without cams.
    #[error("a let-off of {let_off} needs cams; for a recurve or longbow it must be 0")]
    LetOffWithoutCams {
        /// The let-off.
        let_off: f64,
    },
    /// The shaft does not reach the rest at full draw.
    #[error(
        "at full draw the rest stands {} ahead of the nock groove, but the shaft ends at {}: do not \
         draw it, it would drop off the rest onto the hand; a longer arrow, a shorter draw or a rest \
         farther back is needed",
        part(*rest), part(*shaft)
    )]
    OffRest {
        /// Rest ahead of the nock groove at full draw, m.
        rest: f64,
        /// Front end of the shaft, m.
        shaft: f64,
    },
    /// The push turned the arrow so far that small angles no longer hold.
    #[error(
        "the push would turn the arrow to {}; its small angles hold to {}, so the faults are too \
         large, or string, rest or shaft too soft",
        degrees(*angle), degrees(*limit)
    )]
    TooFar {
        /// The larger of yaw and pitch, rad.
        angle: f64,
        /// The limit, rad.
        limit: f64,
    },
    /// The push bent the shaft so far that small slopes no longer hold.
    #[error(
        "the shaft would leave the string bent by {} at its ends; its small slopes hold to {}, so \
         the shaft is too soft for this bow, or the release too rough",
        degrees(*slope), degrees(*limit)
    )]
    TooBent {
        /// Slope of nock or point against the straight arrow, rad.
        slope: f64,
        /// The limit, rad.
        limit: f64,
    },
    /// The string is too short for the bow.
    #[error(
        "a half string of {} is too short: with it at brace and the nock {} behind, no limb reaches \
         its end at full draw; it must exceed {}",
        part(*half_string), part(*behind), part(*behind)
    )]
    StringShort {
        /// Half the length of the string, m.
        half_string: f64,
        /// Nock behind hinges or axles, m.
        behind: f64,
    },
    /// No hinged limbs draw so.
    #[error(
        "a force-draw curve that stores {energy:.1} J, {part:.3} of force times stroke, fits no \
         bow with these limbs: hinged limbs of this string and brace height cannot have it; look at \
         the curve, the brace height and the half string"
    )]
    NoLimbs {
        /// Stored energy, J.
        energy: f64,
        /// The same over the force at full draw times the stroke.
        part: f64,
    },
    /// No cams draw so.
    #[error(
        "no cams give this force-draw curve: at {drawn:.2} of the draw the cable would go slack or \
         the cam turn back; look at the curve, most likely its first readings above brace, at the \
         half string and the tip line"
    )]
    NoCams {
        /// Share of the draw, 0 at brace.
        drawn: f64,
    },
    /// The string does not let the arrow go.
    #[error(
        "the string never pulls back hard enough to come off a nock that holds it with {}; a nock \
         comes off with a pound or two",
        Role::Force.both(*grip)
    )]
    NoRelease {
        /// Grip of the nock, N.
        grip: f64,
    },
    /// String or rest swing the arrow too fast to follow.
    #[error(
        "following the push would take {steps} steps, more than {most}: the rest is too stiff or \
         too damped, or the string too stiff, for an arrow this light"
    )]
    TooStiff {
        /// Steps asked for.
        steps: f64,
        /// Most steps allowed.
        most: f64,
    },
    /// Mass and stiffness make no bending vibration.
    #[error(
        "a shaft of bending stiffness {stiffness} N m2 and {density} kg/m has no bending modes; \
         both must be finite and above zero"
    )]
    NoModes {
        /// Bending stiffness, N m2.
        stiffness: f64,
        /// Mass per length, kg/m.
        density: f64,
    },
    /// Too few or too many force-draw readings.
    #[error("the force-draw curve has {count} readings; it must have {least} to {most}")]
    CurveCount {
        /// How many there are.
        count: usize,
        /// Fewest.
        least: usize,
        /// Most.
        most: usize,
    },
    /// Force-draw readings that are no curve.
    #[error(
        "reading {} of the force-draw curve ({}, {}) does not fit: draws must rise, and forces be \
         finite and not negative",
        index + 1, part(*draw), Role::Force.both(*force)
    )]
    Curve {
        /// Which reading, from zero.
        index: usize,
        /// Draw, m.
        draw: f64,
        /// Force, N.
        force: f64,
    },
    /// Force-draw readings that do not reach full draw.
    #[error(
        "the force-draw readings run from {} to {} of draw and must reach the draw length of {} \
         with a force above zero",
        part(*from), part(*to), part(*full)
    )]
    CurveShort {
        /// First draw read, m.
        from: f64,
        /// Last draw read, m.
        to: f64,
        /// Draw length, m.
        full: f64,
    },
    /// Chronograph readings from which no virtual mass follows.
    #[error(
        "{count} readings do not give a virtual mass: at least two arrow masses are needed, and \
         heavier arrows must be slower"
    )]
    Readings {
        /// How many readings there are.
        count: usize,
    },
    /// The motion in the push left the finite numbers.
    #[error("the push has no finite result: yaw {yaw} rad, pitch {pitch} rad")]
    NotFinite {
        /// Yaw as computed, rad.
        yaw: f64,
        /// Pitch as computed, rad.
        pitch: f64,
    },
}

fn part(si: f64) -> String {
    Role::Part.both(si)
}

fn degrees(si: f64) -> String {
    format!("{:.1} deg", si.to_degrees())
}

macro_rules! settings {
    ($($name:ident $text:literal $unit:literal)*) => {
        /// A value that [`LaunchError::OutOfRange`] can name.
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        #[non_exhaustive]
        pub enum Setting {
            $(#[doc = concat!("The ", $text, ".")] $name,)*
        }

        impl Setting {
            /// The SI unit with a space before it; empty for a pure number.
            pub fn unit(self) -> &'static str {
                match self { $(Self::$name => $unit,)* }
            }
        }

        impl fmt::Display for Setting {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(match self { $(Self::$name => $text,)* })
            }
        }
    };
}

settings! {
    DrawWeight "draw weight" " N"
    DrawLength "draw length" " m"
    BraceHeight "brace height" " m"
    LetOff "let-off" ""
    ReadSpeed "chronograph speed" " m/s"
    ReadMass "mass of the arrow on the chronograph" " kg"
    RatedSpeed "rated speed" " m/s"
    RatedMass "arrow mass of the rating" " kg"
    RatedDrawWeight "draw weight of the rating" " N"
    RatedDrawLength "draw length of the rating" " m"
    VirtualMass "virtual mass" " kg"
    LimbMass "moving mass of a limb" " kg"
    StringMass "mass of the string" " kg"
    NockingMass "mass on the string at the nock" " kg"
    StringStiffness "stiffness of the string" " N"
    Grip "grip of the nock" " N"
    Gravity "free fall" " m/s2"
    RestraintLeft "sideways restraint" ""
    RestraintUp "up and down restraint" ""
    TipLine "distance from string to axles" " m"
    RestStiffness "stiffness of the rest" " N/m"
    RestDamping "damping of the rest" " N s/m"
    RestShare "share of the stroke on the rest" ""
    RestDelay "delay of the rest's fall" " s"
    RestAhead "place of the rest ahead of the string" " m"
    Preload "preload of the side point" " N"
    HalfString "half length of the string" " m"
    PathLeft "bow of the nock's path to the left" " m"
    PathUp "bow of the nock's path upward" " m"
    ImpulseLeft "release impulse to the left" " N s"
    ImpulseUp "release impulse upward" " N s"
    StiffSide "stiff side of the shaft" ""
    ShaftDamping "damping of the shaft" ""
    Hysteresis "hysteresis" ""
    ArrowMass "arrow mass" " kg"
    Balance "balance point" " m"
    GrooveOffset "groove offset" " m"
    BalanceOffset "balance offset" " m"
    ShaftTilt "shaft tilt" " rad"
    Index "roll of the index vane" " rad"
    FormSpeed "speed error of form" " m/s"
    ReleaseLeft "release angle to the left" " rad"
    ReleaseUp "release angle upward" " rad"
    GivenYaw "given yaw" " rad"
    GivenPitch "given pitch" " rad"
    GivenYawRate "given yaw rate" " rad/s"
    GivenPitchRate "given pitch rate" " rad/s"
    GivenSpin "given spin" " rad/s"
    Speed "departure speed" " m/s"
    Travel "share of the stroke travelled" ""
}
