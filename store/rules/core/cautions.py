"""Words of caution, the same on the screen and on every sheet."""

from __future__ import annotations

PLANNING = (
    "Planning aid only. Local code, the manufacturers' instructions and licensed practice win over anything here. "
    "Nothing here approves an installation."
)
FIREPLACE = (
    "Take the opening, clearances and air gaps of a fireplace from its manufacturer's manual only. Leave a figure that "
    "is not in the manual blank until the manufacturer answers. Never recess a unit made for surface mounting. Never "
    "cut, cover, seal, rewire or change a heater."
)
MAINS = "Line voltage: licensed electrician where the law requires one, with a permit and inspection where required."
CORDS = (
    "Never run a cord or power strip in or through a wall. Never plug a heater into a power strip or an extension cord."
)
STUDS = (
    "Cut no stud until a licensed professional has said what it carries. If you do not know, treat the wall as "
    "load-bearing."
)
LADDER = "Mark from the floor or from a steady ladder, and have a second person hold the end of the tape."


CAUTIONS = (
    MAINS,
    "Turn off the breaker, tag it and test that the wires are dead before you open a box.",
    CORDS,
    "Never alter a heater, and never recess one unless its manufacturer made it for that.",
    PLANNING,
)
"""What stands on every power screen and sheet."""
