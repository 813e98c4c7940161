"""What lies in a raceway with its plugs: whether they go through beside each other, and round its bends."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache

import msgspec

from store.measure.length import INCH_NM
from store.rules.cable.kinds import GRIP_MM
from store.rules.cable.lengths import Need, thickness_in
from store.trade.cable.raceway_fill import (
    EASY_BENDS_DEG,
    SEVERAL_PLUGS_IN,
    Item,
    Plug,
    cable_item,
    fill,
    hole_for,
    plug_turns,
)
from store.trade.cable.types import CableType

MM_IN = 25.4


class Lying(msgspec.Struct, frozen=True):
    """A cable in a raceway, or one that is to be drawn in later."""

    name: str
    """Its tag; of one for later its kind."""
    wide_in: float | None
    plug: Plug | None
    grip: Plug | None
    """What is behind the plug, as it usually is; both None for one that is made up on site."""
    kind: CableType | None
    later: bool = False


def lying(there: Iterable[Need], later: Iterable[CableType]) -> tuple[Lying, ...]:
    """What is in a raceway, and what is to be drawn in later."""
    return (
        *(Lying(need.cable.tag, thickness_in(need), *_ends(need.kind), need.kind) for need in there),
        *map(to_come, later),
    )


def to_come(kind: CableType) -> Lying:
    """A cable of a kind that is to be drawn in later."""
    return Lying(kind.key, kind.outside_nm / INCH_NM, *_ends(kind), kind, later=True)


def _ends(kind: CableType | None) -> tuple[Plug | None, Plug | None]:
    if kind is None or not kind.assembled or kind.plug_mm is None:
        return None, None
    plug, grip = kind.plug_mm, GRIP_MM.get(kind.family, kind.plug_mm)
    return Plug(plug[0] / MM_IN, plug[1] / MM_IN), Plug(grip[0] / MM_IN, grip[1] / MM_IN)


def with_plugs(there: tuple[Lying, ...]) -> tuple[Lying, ...]:
    """Those that come with their plugs on."""
    return tuple(each for each in there if each.plug is not None)


class Hole(msgspec.Struct, frozen=True):
    """The plug that needs the largest bore beside the other cables."""

    of: Lying
    plug: Plug
    others_in: tuple[float, ...]
    needs_in: float


def worst_plug(there: tuple[Lying, ...], *, grip: bool) -> Hole | None:
    """The plug, or the grip behind it, that needs the largest bore beside the other cables; None without plugs."""
    found = []
    known: dict[tuple[Plug, float | None], Hole] = {}
    for at, one in enumerate(there):
        plug = one.grip if grip else one.plug
        if plug is None:
            continue
        # Plugs of one size on cables of one thickness have the same beside them.
        if (kind := (plug, one.wide_in)) not in known:
            others = tuple(each.wide_in for place, each in enumerate(there) if place != at and each.wide_in is not None)
            known[kind] = Hole(one, plug, others, hole_for(others, plug))
        found.append(msgspec.structs.replace(known[kind], of=one))
    return max(found, key=lambda each: each.needs_in, default=None)


class Pull(msgspec.Struct, frozen=True):
    """How plugs are pulled through a raceway."""

    plugs: tuple[Lying, ...]
    bends_deg: float
    small: bool
    """Two plugs or more in a bore that they lie in and do not pass each other in."""
    turns: bool
    """The worst one is pulled round the bends, however it lies."""
    turns_flat: bool
    """It is, as long as its grip lies flat."""

    @property
    def easy(self) -> bool:
        """True where practice asks nothing more."""
        return not self.small and self.turns and self.bends_deg <= EASY_BENDS_DEG

    @property
    def fails(self) -> bool:
        """True where it is not only hard."""
        return self.small or not (self.turns if len(self.plugs) > 1 else self.turns_flat)


def pull(there: tuple[Lying, ...], bore_in: float, radius_in: float, bends_deg: float) -> Pull | None:
    """How what comes with plugs on is pulled through a bore with bends; None where nothing does.

    Common practice and the geometry of `plug_turns`: no bend, no turn to pass.
    """
    plugs, worst = with_plugs(there), worst_plug(there, grip=True)
    if worst is None:
        return None
    flat = Plug(max(worst.plug.width_in, worst.plug.height_in), 1e-6)
    turns, turns_flat = (
        not bends_deg or plug_turns(bore_in, radius_in, each, worst.others_in) for each in (worst.plug, flat)
    )
    return Pull(plugs, bends_deg, len(plugs) > 1 and bore_in < SEVERAL_PLUGS_IN, turns, turns_flat)


def items_of(there: tuple[Lying, ...]) -> list[Item]:
    """What is known of it, as fill counts it."""
    return [cable_item(each.wide_in) for each in there if each.wide_in is not None]


@lru_cache(maxsize=4_096)
def goes_in(there: tuple[Lying, ...], bore_in: float, radius_in: float, bends_deg: float) -> bool:
    """Whether all of it fits by the fill limits, its plugs pass beside the others, and are pulled round the bends."""
    worst, pulled = worst_plug(there, grip=True), pull(there, bore_in, radius_in, bends_deg)
    return (
        fill(bore_in, items_of(there)).fits
        and (worst is None or worst.needs_in <= bore_in)
        and (pulled is None or not (pulled.small or not pulled.turns))
    )
