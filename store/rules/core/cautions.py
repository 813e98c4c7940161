"""Words of caution, the same on the screen and on every sheet."""

from __future__ import annotations

PLANNING = (
    "These figures are a planning aid. Local code, the makers' instructions and licensed practice win over anything "
    "written here; nothing here approves an installation."
)
FIREPLACE = (
    "The opening, the clear spaces and the air slots of a fireplace come from its maker's own manual alone. A figure "
    "that is not in the manual stays empty until the maker answers. A unit made to hang on a surface is never "
    "recessed. A heater is never cut, covered, sealed, rewired or changed in any way."
)
MAINS = (
    "Mains wiring is for a licensed electrician where the law asks for one, with permit and inspection where it does."
)
CORDS = "No cord and no power strip goes in or through a wall, and no heater plugs into a strip or an extension cord."
STUDS = (
    "No stud is cut before somebody licensed has said what it carries. Where the plan is not known, a wall counts as "
    "carrying the house."
)
LADDER = "Mark from the floor or from a ladder that stands firm, and let a second person hold the end of the tape."


CAUTIONS = (
    MAINS,
    "Switch the breaker off and prove the wires dead before a box is opened.",
    CORDS,
    "A heater is never altered, and never recessed unless its maker made it for that.",
    PLANNING,
)
"""What stands on every power screen and sheet."""
