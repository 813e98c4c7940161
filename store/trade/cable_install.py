"""How cable and boxes are set in the wall: free conductor, support and setback.

NEC 300.14, 314.17, 314.20 and 334.30. Inches.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Literal

from msgspec import Struct

from store.trade.bounds import exceeds, not_negative, positive
from store.trade.citations import Note, nec

FREE_CONDUCTOR_IN = 6.0  # 300.14, from where it leaves sheath or raceway
FREE_OUTSIDE_IN = 3.0  # 300.14, outside an opening that is under 8 in in any dimension
SMALL_OPENING_IN = 8.0
SUPPORT_APART_IN = 54.0  # 334.30: 4-1/2 ft
SUPPORT_FROM_BOX_IN = 12.0  # 334.30
SUPPORT_FROM_CLAMPLESS_BOX_IN = 8.0  # 314.17: single-gang nonmetallic box without a clamp, along the sheath
SETBACK_NONCOMBUSTIBLE_IN = 0.25  # 314.20
RACEWAY_SUPPORT_APART_IN = {"EMT": 120.0, "ENT": 36.0}  # 358.30, 362.30
RACEWAY_SUPPORT_FROM_BOX_IN = 36.0  # 358.30, 362.30

Surface = Literal["noncombustible", "combustible"]


class Overreach(Struct, frozen=True):
    """A stretch of cable between supports, or between a box and its first support, that is too long."""

    start_in: float
    end_in: float
    limit_in: float


def free_conductor_notes(free_in: float, opening_in: float, outside_in: float, edition: int) -> tuple[Note, ...]:
    """Whether enough conductor is left at a box where it is spliced or ends (NEC 300.14).

    `free_in` from where it leaves its sheath, `opening_in` the smallest dimension of the opening,
    `outside_in` what reaches outside it. Not for a conductor that is neither spliced nor ended there.
    ValueError if negative.
    """
    source = nec("300.14", edition)
    notes = []
    if exceeds(FREE_CONDUCTOR_IN, not_negative("the free conductor", free_in)):
        notes.append(Note("fail", f"6 in of free conductor is left at a box; this is {free_in:g} in", source))
    small = exceeds(SMALL_OPENING_IN, positive("the opening", opening_in))
    if small and exceeds(FREE_OUTSIDE_IN, not_negative("the part outside", outside_in)):
        text = f"3 in reach outside an opening that is under 8 in; this is {outside_in:g} in"
        notes.append(Note("fail", text, source))
    return tuple(notes)


def unsupported(
    length_in: float,
    supports_in: Sequence[float],
    *,
    apart_in: float = SUPPORT_APART_IN,
    first_in: float = SUPPORT_FROM_BOX_IN,
    last_in: float = SUPPORT_FROM_BOX_IN,
) -> tuple[Overreach, ...]:
    """Stretches of a cable, box to box, that go unsupported too long (NEC 334.30).

    `supports_in` are distances along the cable from its first box. Bored holes in a horizontal run, at most
    4-1/2 ft apart, support it like staples, but it is still secured near each box. The defaults are for NM
    with clamps; for a single-gang nonmetallic box without one give 8 in at its end (314.17), for EMT and
    ENT see RACEWAY_SUPPORT_APART_IN. ValueError for a support that is not on the cable.
    """
    positive("the length", length_in)
    if any(not 0 <= at <= length_in for at in supports_in):
        raise ValueError(f"a support lies outside the cable of {length_in:g} in")
    if not supports_in:
        # One staple must be near both boxes at once to serve a cable this short; with none, it may be no
        # longer.
        alone = Overreach(0.0, length_in, min(first_in, last_in))
        return (alone,) if exceeds(length_in, alone.limit_in) else ()
    order = sorted(supports_in)
    stretches = [Overreach(0.0, order[0], first_in)]
    stretches += [Overreach(low, high, apart_in) for low, high in pairwise(order)]
    stretches.append(Overreach(order[-1], length_in, last_in))
    return tuple(each for each in stretches if exceeds(each.end_in - each.start_in, each.limit_in))


def setback_note(setback_in: float, surface: Surface, edition: int) -> Note | None:
    """Whether a box stands right in the finished surface; `setback_in` is how far it lies behind (negative: proud).

    NEC 314.20: at most 1/4 in behind gypsum, tile, plaster or other noncombustible surface; not at all
    behind wood or other combustible surface. Where wood covers gypsum the wood decides. None if it is
    right.
    """
    limit = SETBACK_NONCOMBUSTIBLE_IN if surface == "noncombustible" else 0.0
    if not exceeds(setback_in, limit):
        return None
    allowed = "at most 1/4 in behind" if limit else "flush with or proud of"
    text = f"a box stands {allowed} a {surface} surface; this one is {setback_in:g} in behind: fit a listed extender"
    return Note("fail", text, nec("314.20", edition))
