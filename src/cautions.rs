//! What can hurt someone or cost them the job, in plain words.
//!
//! Everything that leads to digging, to a laser or to cutting into a post shows its caution: once
//! in full, afterwards in one line that opens it.

/// One caution, short for a line and full for a page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Caution {
    /// Its name in settings and files; never shown.
    pub key: &'static str,
    /// Stands over all of it.
    pub title: &'static str,
    /// One line.
    pub short: &'static str,
    /// All of it.
    pub full: &'static str,
}

/// Before any digging: cables and pipes.
pub const SERVICES: Caution = Caution {
    key: "services",
    title: "Before you dig",
    short: "Before you dig: find the buried cables and pipes.",
    full: "Take it that cables and pipes are there. Get the plans, trace them with a locator, and \
           dig trial holes by hand with a spade, not a pick or a machine. Where there is a service \
           that locates what is buried, call it first. A plan can be far out, and a locator that \
           finds nothing proves nothing. A struck cable or the smell of gas: get away and call.",
};

/// Wherever a laser is set up.
pub const LASER: Caution = Caution {
    key: "laser",
    title: "The laser beam",
    short: "Never look into the laser beam.",
    full: "Never look into the beam, and never point it at anyone. Set it above or below eye \
           level and let it end on a wall or a board. Class 2: do not stare into it. Class 3R: not \
           even a glance, straight or off a mirror or a window. Keep to the label on the laser.",
};

/// Before cutting into a post, and for tall or close-boarded fences.
pub const NOTCH: Caution = Caution {
    key: "notch",
    title: "Notched posts",
    short: "A notch weakens the post: these figures are geometry, not approval.",
    full: "Every notch weakens its post, most of all near the ground, where wind works it hardest. \
           What is shown here is plain geometry. Whether a notched post or a tall panel stands up \
           to the wind is a structural question, and so is how deep frost goes where you live: \
           keep notches small and clear of the ground, keep to local rules, and ask someone \
           qualified where it matters.",
};

/// Before the line is fixed and the height chosen.
pub const BOUNDARY: Caution = Caution {
    key: "boundary",
    title: "Boundary and height",
    short: "Agree the boundary, and check the height allowed here.",
    full: "Agree the line with your neighbour before you dig. Check the height allowed where you \
           live, often lower beside a road, and any rule about which way a gate may open. These \
           figures set out a fence; they do not settle where a boundary runs. Where the law asks \
           for a licensed surveyor, that person decides.",
};

/// With concrete and mortar.
pub const CEMENT: Caution = Caution {
    key: "cement",
    title: "Wet cement",
    short: "Wet cement burns skin and eyes: gloves, sleeves, goggles.",
    full: "Wet cement burns, often before it is felt. Wear waterproof gloves, long sleeves and eye \
           protection, keep it out of your boots, and do not breathe the dust. Wash splashes off \
           at once with plenty of water; for an eye, keep rinsing and get help.",
};

/// Where bags, posts and panels are counted.
pub const LIFTING: Caution = Caution {
    key: "lifting",
    title: "Lifting and working alone",
    short: "Long posts and bags: two people, and look up for overhead lines.",
    full: "A wet post or a bag of concrete weighs more than it looks: lift with two, or roll and \
           walk it. A post, a ladder or a steel tape that touches an overhead line kills: look up \
           before you raise anything long. Stand a ladder on firm ground and have it held. Working \
           alone, tell someone where you are and when you will be done.",
};

/// While strings are stretched and pegs stand.
pub const STRINGS: Caution = Caution {
    key: "strings",
    title: "Strings and pegs",
    short: "Strings and pegs trip people: flag them, and take them in at night.",
    full: "A string at shin height and a peg in the grass are hard to see. Hang something bright on \
           each string, cap or flag the pegs, keep children and animals away, and take strings \
           across a path in when you leave.",
};

/// While holes are open and posts are setting.
pub const OPEN_HOLES: Caution = Caution {
    key: "open-holes",
    title: "Open holes",
    short: "Cover open holes; prop posts until they are set.",
    full: "Cover every open hole before you leave it, strongly enough for a child to step on, and \
           mark it. Prop each post both ways until its concrete has set. A bay with only some of \
           its boards is already a sail: do not leave one overnight if wind is coming.",
};

/// Wherever a saw is set or timber is cut.
pub const SAWING: Caution = Caution {
    key: "sawing",
    title: "Saw cuts",
    short: "Clamp the work, keep the guard on; eyes, ears, dust.",
    full: "Clamp what you cut, so that the offcut can fall free and the cut cannot close on the \
           blade: that is what makes a saw kick back. Leave the guard on, keep both hands behind \
           the blade, and let it stop before you put it down. Protect eyes and ears, and keep the \
           dust out of your lungs. Unplug the saw before you set its angle or depth.",
};

/// When treated timber is cut.
pub const TREATED_CUTS: Caution = Caution {
    key: "treated-cuts",
    title: "Cuts in treated timber",
    short: "Seal every cut, notch and bore in treated timber.",
    full: "Treatment only reaches a little way in. Brush preservative into every cut end, notch and \
           bore before it is closed up, and never put a cut end in the ground. Wear a mask and \
           gloves while sawing, and do not burn the offcuts.",
};

/// Before a wall is drilled to fix a post to it.
pub const MASONRY: Caution = Caution {
    key: "masonry",
    title: "Before you drill",
    short: "Before you drill: cables and pipes in the wall, and what the wall can hold.",
    full: "Cables and pipes run inside walls: trace them before you drill, and switch off what you \
           cannot trace. Loose render, and old, hollow or crumbling masonry and joints hold little: \
           take a \
           fixing made for that wall and keep to its own sheet for depth, edge and spacing. Wear \
           eye protection and keep the dust out of your lungs. Whether the wall can carry the post \
           is a question for someone who knows it.",
};

/// When a gate is made and hung.
pub const GATE: Caution = Caution {
    key: "gate",
    title: "Hanging a gate",
    short: "Prop the leaf while you hang it; keep fingers and children clear.",
    full: "A leaf is heavy and swings: prop it on blocks until every screw is in, and do not work \
           under it. Keep fingers out of the hinge side and the latch, and children away until it \
           latches. A gate to a pool or onto a public way has rules of its own.",
};

/// What goes with every drawing and message that leaves the program.
pub const IN_ONE_LINE: &str = "Geometry only, not approval. Before you dig or drill, find the cables and pipes. \
                               Local rules and licensed people decide.";

/// All of them, in the order of the work.
pub const ALL: [Caution; 12] = [
    BOUNDARY,
    STRINGS,
    SERVICES,
    LASER,
    LIFTING,
    OPEN_HOLES,
    CEMENT,
    NOTCH,
    SAWING,
    MASONRY,
    GATE,
    TREATED_CUTS,
];

/// The caution of that key, if there is one.
#[must_use]
pub fn by_key(key: &str) -> Option<Caution> {
    ALL.into_iter().find(|caution| caution.key == key)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_is_found_by_its_key_and_no_other() {
        for caution in ALL {
            assert_eq!(by_key(caution.key), Some(caution));
        }
        assert_eq!(by_key("nothing"), None);
    }

    #[test]
    fn each_is_titled_by_its_hazard() {
        let mut titles: Vec<_> = ALL.iter().map(|caution| caution.title).collect();
        titles.sort_unstable();
        titles.dedup();
        assert_eq!(titles.len(), ALL.len());
    }

    #[test]
    fn short_forms_fit_a_line_and_full_ones_say_more() {
        for caution in ALL {
            assert!(caution.short.len() <= 75, "{}", caution.key);
            assert!(
                caution.full.len() > 2 * caution.short.len(),
                "{}",
                caution.key
            );
        }
    }
}
