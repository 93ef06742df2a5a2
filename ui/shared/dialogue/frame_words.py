"""What the questions about a frame ask, allow and explain. Measuring: common practice, no source."""

NAME = ("Name of the frame?", "any name, such as Blue hardtail", "What you call it; its id in files is made of it.")
LAYOUT = (
    "Which layout?",
    "Layouts differ in their usual bar, in whether the rear end moves and in how a geometry table draws them.",
)
HAND = (
    "Which hand works the rear brake?",
    "right or left, as the rider sits",
    "The lever that the line starts at. Both levers are put into the file, this one first.",
)
HOLES = (
    "How many holes from lever to caliper, windows inside counted?",
    "a whole number from 1 to 12",
    "Follow the line with a finger and count every hole in a wall that it goes through: into a tube, out of it,"
    " and the openings inside between two tubes. A lamp or an endoscope shows the latter.",
)
PLACE = (
    "Measure with a tape along the tube from the end that is nearer to the bar. The side is as the rider sees "
    "it. Words know “boss” for a moulded exit, and “from lower end”. After a hole that leads into a tube, the "
    "next one is on that tube, its open end, or a window out of it."
)
OPENING = (
    "Calipers inside the hole, in two directions, without force: the smaller one counts, good to 0.1 mm; in a "
    "small round hole jaws read some 0.1 too small. Better: drill shanks in tenths, the largest that drops in "
    "by itself (6.4) and the smallest that does not (6.5) are 6.4..6.5. Only know that one goes in? “goes 6.4”."
    " Measure after paint, rubber out."
)
TILT = (
    "How far the line leans in the hole against the hole's own axis: 0 is straight through. A drill shank in "
    "the hole beside a rule, photographed along the wall, is good to 3 degrees. It decides more than any place:"
    " the larger end of a range counts."
)
LOOKS = (
    "side: the line dives in through the tube's side, and a stiff piece has to tip over to follow. along: the "
    "hole looks along the tube, as a boss, a stay's end, a headset cover or a window does."
)
WALL = (
    "Thickness of the wall at the hole, by a hooked wire or the tail of a caliper, good to 0.2 mm; or what it "
    "is made of: alloy, carbon, steel."
)
RUBBER = (
    "A rubber or plastic piece that sits in the hole: the opening in it, as for the hole itself; “fixed” behind"
    " it where it cannot come out."
)
GUIDE = (
    "A small tube fixed inside that holds the line. Bore: the thickest drill shank or offcut of hose that "
    "slides through; bend: radius to the inside of its tightest bend; turn: its whole change of direction, 0 "
    "straight, 180 back."
)
LENGTHS = (
    "How shall lengths be known?",
    "1: leave them; the old line is measured when it comes out, the best length there is if it fitted. 2: one "
    "tape length for each stretch, now. 3: the eight figures of a geometry table, bar width, stem and spacers: "
    "lengths to some 40 mm, pictures, and what moves.",
)
LENGTH_CHOICES = (
    ("later", "from the old line later"),
    ("tape", "tape now: one a stretch"),
    ("table", "geometry table"),
)
STRETCH = (
    "Outside: tape along the old line as it lies, good to 5 mm. Inside: a marked stiff wire pushed through, or "
    "tape along the tube from hole to hole, good to 3 mm. “440 ±8” says how well, “430..450” too."
)
REACHED = (
    "Outside, was it the old line as it lies, and did that reach with the bar at both stops and the rear pushed"
    " through?",
    "yes only where you taped along the old line and it was long enough in every posture; then the lengths hold"
    " for all of them.",
)
MOUNT = (
    "Caliper mount, native rotor, greatest rotor, hub?",
    "mount, rotors and hub, such as “post 160 203 six-bolt”, “flat 140 160 splined”, “tabs 203”; or -",
    "Post: bolts along the wheel's plane into two threaded posts. Flat: bolts come up through the stay. Tabs: "
    "bolts point along the axle. Native: the rotor for which a caliper bolts straight on, printed on frame or "
    "fork or in its paper, as is the greatest one. Hub: six bolts, or splined.",
)
CLAMP = ("Bar clamp, mm?", "Diameter of the bar where the lever clamps: calipers, good to 0.1 mm.")
TRAVEL = (
    "Rear travel, mm, and pivot?",
    "“131”, “131 pivot 14 60” (forward and up from the bottom bracket), or -",
    "How far the rear axle rises, and where the main pivot is, by a tape from the bottom bracket's middle. Left"
    " out: what moving stretches need is not known.",
)
TABLE: dict[str, tuple[str, str]] = {
    "reach": ("Reach?", "geometry"),
    "stack": ("Stack?", "geometry"),
    "head_angle": ("Head angle?", "geometry"),
    "head_tube": ("Head tube length?", "geometry"),
    "seat_angle": ("Seat angle?", "geometry"),
    "seat_tube": ("Seat tube length?", "geometry"),
    "chainstay": ("Chainstay length?", "geometry"),
    "bb_drop": ("Bottom bracket drop?", "geometry"),
    "width": ("Bar width?", "cockpit"),
    "stem": ("Stem length?", "cockpit"),
    "spacers": ("Spacers under the stem?", "cockpit"),
}
"""The figures that place a frame and its bar, with the entry each belongs to."""
PLAN_NOW = (
    "Plan a line through it now?",
    "Asks what is in it and what goes in, writes a job file beside the frame's, and plans. Later: `lineplan new job`.",
)
