"""Jobs with one buried thing each, as the owner of a wall writes them, and beside each its nearest sound neighbour.

Every case is a piece of TOML that is put behind the same sound wall: what is buried and the finding that must tell
it, and the same thing with the one word that makes it sound.
"""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

SOUND = Path(__file__).with_name("sound_wall.toml").read_text("utf-8")
"""A wall of which nothing is told that has to be mended."""


class Case(NamedTuple):
    """One buried thing."""

    name: str
    buried: str
    told: str
    """Severity, rule and tags of the one finding: `stop junction_buried B9`."""
    sound: str
    """The same, as it may be."""


def thing(what: str, **values: str) -> str:
    """A piece of equipment, tag E9."""
    return entry("equipment", tag="E9", name=f"A {what}", what=what, **values)


def box(what: str, x: str, y: str, **values: str) -> str:
    """A box on the wall, tag B9."""
    return entry("box", tag="B9", what=what, wall="W1", x=x, y=y, **values)


def hatch(x: str, y: str, width: str = "12", height: str = "12", **values: str) -> str:
    """A panel on the wall, tag A9."""
    return entry("panel", tag="A9", name="Hatch", wall="W1", x=x, y=y, width=width, height=height, **values)


def entry(kind: str, **values: str) -> str:
    """A table of the starter; a value that begins with a bracket, a digit alone, or is a truth goes in as it is."""

    def shown(value: str) -> str:
        bare = value.startswith("[") or value in ("true", "false") or (value.isdigit() and len(value) < 2)
        return value if bare else f'"{value}"'

    return "\n".join(["", f"[[{kind}]]", *(f"{key} = {shown(value)}" for key, value in values.items()), ""])


WART = {"power": "wall-wart", "plug": "B2"}
PLUGGED = {"power": "cord", "plug": "B2"}
FED = {"power": "hard-wired", "plug": "B9"}
BEHIND = {"wall": "W1", "x": "119", "y": "20", "face": "behind", "reached": "A2"}
FEED = box("junction", "119", "18", reached="A2", circuit="C2")
SIZE = {"width": "10", "height": "3", "depth": "4"}

CASES = [
    Case("a cove light", thing("light", **WART), "fix thing_without_way E9", thing("light", reached="A2", **WART)),
    Case(
        "a light in a shelf",
        thing("light", **WART),
        "fix thing_without_way E9",
        thing("light", mounting="shelf", **WART),
    ),
    Case(
        "a wired light",
        FEED + thing("light", **FED),
        "stop thing_without_way E9",
        FEED + thing("light", **BEHIND, **FED),
    ),
    Case(
        "a wired driver",
        FEED + thing("driver", **FED),
        "stop thing_without_way E9",
        FEED + thing("driver", **BEHIND, **FED),
    ),
    Case(
        "a driver with a cord",
        thing("driver", **PLUGGED),
        "stop thing_without_way E9",
        thing("driver", opening="N3", **PLUGGED),
    ),
    Case(
        "a driver behind the fireplace",
        thing("driver", opening="N2", power="none"),
        "stop way_blocked E9 N2",
        thing("driver", opening="N1", power="none"),
    ),
    Case(
        "a power supply of no sort",
        entry("equipment", tag="E9", name="Power supply of the strip", **PLUGGED),
        "stop thing_without_way E9",
        entry("equipment", tag="E9", name="Power supply of the strip", opening="N3", **PLUGGED),
    ),
    Case(
        "a power strip", thing("strip", **PLUGGED), "fix thing_without_way E9", thing("strip", opening="N3", **PLUGGED)
    ),
    Case(
        "a junction",
        box("junction", "119", "60", circuit="C2"),
        "stop junction_buried B9",
        box("junction", "119", "60", circuit="C2", plate="true"),
    ),
    Case(
        "a junction behind the screen",
        box("junction", "70", "60", circuit="C2"),
        "stop junction_buried B9",
        box("junction", "70", "60", circuit="C2", reached="N1"),
    ),
    Case(
        "a junction that its panel is too far from",
        box("junction", "119", "50", reached="A2", circuit="C2"),
        "stop way_too_far B9 A2",
        box("junction", "119", "42", reached="A2", circuit="C2"),
    ),
    Case(
        "a junction behind the fireplace that does not feed it",
        box("junction", "60", "20", reached="N2", circuit="C2"),
        "stop way_blocked B9 N2",
        box("junction", "94 3/4", "20", reached="N2", circuit="C2"),
    ),
    Case(
        "a splice of a lead",
        entry("equipment", tag="E9", name="Splice of the speaker lead", what="part"),
        "stop thing_without_way E9",
        entry("equipment", tag="E9", name="Splice of the speaker lead", what="part", reached="A2"),
    ),
    Case(
        "an extender", thing("extender", **WART), "stop thing_without_way E9", thing("extender", opening="N3", **WART)
    ),
    Case(
        "a pass-through behind the cabinet",
        box("pass-through", "10", "20"),
        "fix box_without_way B9 N3",
        box("pass-through", "10", "20", reached="N3"),
    ),
    Case(
        "a signal box behind the cabinet",
        box("low-voltage", "10", "20"),
        "stop box_without_way B9 N3",
        box("low-voltage", "38", "20"),
    ),
    Case(
        "a signal box behind the fireplace",
        box("low-voltage", "60", "20"),
        "stop way_blocked B9 N2",
        box("low-voltage", "60", "60"),
    ),
    Case(
        "a receptacle behind the cabinet",
        box("receptacle", "10", "12", circuit="C2"),
        "stop box_behind_cabinet B9 N3",
        box("receptacle", "10", "12", circuit="C2", reached="N3"),
    ),
    Case(
        "a receptacle behind the fireplace",
        box("receptacle", "60", "20", circuit="C2"),
        "stop way_blocked B9 N2",
        box("receptacle", "60", "60", circuit="C2"),
    ),
    Case(
        "a valve",
        entry("equipment", tag="E9", name="Gas valve", what="part"),
        "stop thing_without_way E9",
        entry("equipment", tag="E9", name="Gas valve", what="part", reached="A2"),
    ),
    Case(
        "a valve of no sort",
        entry("equipment", tag="E9", name="Shut-off valve"),
        "stop thing_without_way E9",
        entry("equipment", tag="E9", name="Shut-off valve", reached="A2"),
    ),
    Case(
        "a wired part of the heater",
        FEED + thing("part", **FED),
        "stop thing_without_way E9",
        FEED + thing("part", **BEHIND, **FED),
    ),
    Case(
        "a part of the heater behind the unit",
        thing("part", opening="N2", power="none"),
        "fix way_blocked E9 N2",
        thing("part", opening="N3", power="none"),
    ),
    Case(
        "the end of a cable",
        entry("cable", tag="K9", type="cat6", rating="CMR", start="B3"),
        "fix cable_end_without_way K9",
        entry("cable", tag="K9", type="cat6", rating="CMR", start="B3", reached="A1"),
    ),
    Case(
        "a coiled cable whose panel is shut",
        hatch("60", "12", opens="lift-out", passes="an arm")
        + entry("cable", tag="K9", type="cat6", rating="CMR", start="B3", reached="A9"),
        "fix way_blocked K9 A9; fix panel_is_blocked A9 E1",
        hatch("88", "46", opens="lift-out", height="14")
        + entry("cable", tag="K9", type="cat6", rating="CMR", start="B3", reached="A9"),
    ),
    Case(
        "the dead end of a mains cable",
        entry("cable", tag="K8", type="nm-12-2", rating="NM-B", end="B2")
        + entry("cable", tag="K9", type="nm-12-2", rating="NM-B", start="B2"),
        "stop mains_end_without_way K9",
        entry("cable", tag="K8", type="nm-12-2", rating="NM-B", end="B2")
        + box("receptacle", "38", "30", circuit="C2")
        + entry("cable", tag="K9", type="nm-12-2", rating="NM-B", start="B2", end="B9"),
    ),
    Case(
        "a panel behind the fireplace",
        hatch("60", "12", opens="lift-out"),
        "fix panel_is_blocked A9 E1",
        hatch("97 1/2", "12", opens="lift-out"),
    ),
    Case(
        "a panel that its owner calls shut",
        hatch("113 1/2", "60", blocked_by="E1"),
        "fix panel_is_blocked A9 E1",
        hatch("113 1/2", "60"),
    ),
    Case(
        "a junction whose only panel is behind the fireplace",
        hatch("60", "12", opens="lift-out", behind='["B9"]') + box("junction", "64", "16", circuit="C2"),
        "stop way_blocked B9 A9; fix panel_is_blocked A9 E1",
        hatch("113 1/2", "60", opens="lift-out", behind='["B9"]') + box("junction", "119", "66", circuit="C2"),
    ),
    Case(
        "a panel too small for a hand with a plug",
        hatch("113 1/2", "60", "4", "4", passes="one hand"),
        "fix panel_too_small A9",
        hatch("113 1/2", "60", "6", "9", passes="one hand"),
    ),
    Case(
        "a panel too small for two hands",
        hatch("113 1/2", "60", "7", "7"),
        "fix panel_too_small A9",
        hatch("113 1/2", "60", "12", "12"),
    ),
    Case(
        "a panel too small for an arm",
        hatch("113 1/2", "60", "4 1/2", "12", passes="an arm"),
        "fix panel_too_small A9",
        hatch("113 1/2", "60", "8", "12", passes="an arm"),
    ),
    Case(
        "a part larger than its panel",
        thing("driver", reached="A2", width="16", height="13", depth="13", **PLUGGED),
        "fix part_does_not_pass A2 E9",
        thing("driver", reached="A2", **SIZE, **PLUGGED),
    ),
    Case(
        "the largest part of a panel",
        hatch("113 1/2", "60", passes="a part", part="E9")
        + thing("recorder", opening="N3", width="17", height="14", depth="13", **PLUGGED),
        "fix part_does_not_pass A9 E9",
        hatch("113 1/2", "60", passes="a part", part="E9")
        + thing("recorder", opening="N3", width="17", height="3", depth="7", **PLUGGED),
    ),
    Case(
        "a panel across a stud of a wall that may carry",
        hatch("106", "60"),
        "fix panel_on_stud A9 W1",
        hatch("112 7/8", "60", "14 1/4"),
    ),
    Case(
        "a hinged panel in a shallow recess",
        hatch("65 1/2", "46", opens="hinged"),
        "fix panel_cannot_swing A9 N1",
        hatch("65 1/2", "46", opens="magnets"),
    ),
    Case(
        "a panel under a vent",
        hatch("113 1/2", "60")
        + entry("obstacle", wall="W1", what="vent", x="114", y="62", width="12 in", height="6 in"),
        "fix on_obstacle A9 O1",
        hatch("113 1/2", "60")
        + entry("obstacle", wall="W1", what="vent", x="114", y="76", width="12 in", height="6 in"),
    ),
    Case("a panel past the end of the wall", hatch("136", "60"), "fix outside_wall A9 W1", hatch("113 1/2", "60")),
    Case(
        "a thing that is named by a panel on the far side",
        thing("driver", reached="A2", **PLUGGED)
        + entry(
            "panel",
            tag="A8",
            name="Far",
            wall="W1",
            x="113 1/2",
            y="60",
            width="12 in",
            height="12 in",
            behind='["B9"]',
        )
        + box("junction", "40", "90", circuit="C2"),
        "stop way_too_far B9 A8",
        thing("driver", reached="A2", **PLUGGED),
    ),
]
"""Bearing is `no` on the sound wall; the case of the stud says otherwise in its test."""
