"""Where a rule stands in the edition that is in force, and the note that carries rule and source together.

The electrical code renumbers between editions, so no other module writes a section number that has moved.
"""

from __future__ import annotations

from typing import Literal

from msgspec import Struct

NEC_EDITIONS = (2017, 2020, 2023)
COMMON_PRACTICE = "common practice"

Level = Literal["fail", "warn", "ask", "note"]

# Each rule: the edition it begins with, and its section from there on. Where the sub-paragraph of an
# edition is doubtful, the section is given without it: a shorter citation still finds the page, a wrong one
# does not.
_SECTIONS: dict[str, tuple[tuple[int, str], ...]] = {
    "plug-in 80 %": ((2017, "210.23(A)(1)"), (2023, "210.23(B)(1)")),
    "fixed 50 %": ((2017, "210.23(A)(2)"), (2023, "210.23(B)(2)")),
    "fixed heating 125 %": ((2017, "424.3(B)"), (2020, "424.4(B)")),
    "continuous breaker": ((2017, "210.20(A)"),),
    "continuous conductor": ((2017, "210.19(A)(1)"),),
    "individual circuit": ((2017, "210.22"),),
    "small conductors": ((2017, "240.4(D)"),),
    "next size up": ((2017, "240.4(B)"),),
    "standard breakers": ((2017, "240.6(A)"),),
    "ampacity": ((2017, "Table 310.15(B)(16)"), (2020, "Table 310.16")),
    "bundling": ((2017, "Table 310.15(B)(3)(a)"), (2020, "Table 310.15(C)(1)")),
    "nm ampacity": ((2017, "334.80"),),
    "single receptacle": ((2017, "210.21(B)(1)"),),
    "receptacle load": ((2017, "Table 210.21(B)(2)"),),
    "receptacle rating": ((2017, "Table 210.21(B)(3)"),),
    "branch drop": ((2017, "210.19(A), informational note"),),
    "total drop": ((2017, "215.2(A), informational note"),),
    "afci": ((2017, "210.12(A)"), (2023, "210.12(B)")),
    "grounds in box": ((2017, "314.16(B)(5)"),),
    "power apart, class 2": ((2017, "725.136"),),
    "power apart, communications": ((2017, "800.133(A)"), (2020, "800.133")),
    "cords": ((2017, "400.12"),),
}


class Note(Struct, frozen=True):
    """One thing to tell the reader.

    `level`: "fail" breaks the rule named in `source`; "warn" is legal or doubtful but unwise; "ask" is for
    the inspector, the manufacturer or the electrician to settle; "note" only informs.
    """

    level: Level
    text: str
    source: str


def check_edition(edition: int) -> int:
    """Return `edition` if its numbering is known here, else raise ValueError."""
    if edition not in NEC_EDITIONS:
        known = ", ".join(map(str, NEC_EDITIONS))
        raise ValueError(f"edition {edition!r} of the electrical code is not known; known are {known}")
    return edition


def nec(section: str, edition: int) -> str:
    """Cite a section that has the same number in all known editions, e.g. `nec("314.16(B)(1)", 2020)`."""
    return f"NEC {check_edition(edition)} {section}"


def cite(rule: str, edition: int) -> str:
    """Cite a rule by its short name with the number it has in `edition`, e.g. "NEC 2023 210.23(B)(2)".

    Raises KeyError for a rule that is not listed and ValueError for an edition that is not known.
    """
    check_edition(edition)
    section = [number for first, number in _SECTIONS[rule] if first <= edition][-1]
    return nec(section, edition)
