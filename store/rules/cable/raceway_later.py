"""What is to be drawn into a raceway later: as entered on it, and what a wish for coming years wants of it."""

from __future__ import annotations

import re

from store.records.people import Wish
from store.records.whole import Job
from store.records.wiring import Raceway
from store.rules.cable.kinds import kind_named
from store.rules.core.keyed import index
from store.trade.cable.types import CableType

_MANY = re.compile(r"(?P<count>[1-9]\d?)\s*[x×]?\s+(?P<kind>\S.*)", re.IGNORECASE)
"""How several are written: `2 x cat6`, `2x hdmi`, `3 hdmi`."""


def later_cable(text: str) -> tuple[int, CableType | None]:
    """How many cables of what kind a word means: `hdmi` is one, `2x cat6` two; None for no kind on the list."""
    plain = text.strip()
    if (kind := kind_named(plain)) is not None:
        return 1, kind
    many = _MANY.fullmatch(plain)
    return (int(many["count"]), kind_named(many["kind"])) if many is not None else (1, None)


def cable_wished(wish: Wish) -> CableType | None:
    """The kind of cable that the words of a wish name: `hdmi`, `cat6`."""
    return next((kind for word in wish.what.split() if (kind := kind_named(word.strip(",.;")))), None)


def is_ahead(wish: Wish) -> bool:
    """True for a wish for some years on that was not dropped."""
    return wish.years is not None and wish.kept != "dropped"


wishes_of = index(Wish, lambda one: map(str, one.served_by) if is_ahead(one) else ())
"""The wishes for coming years, by what serves them."""


def later_in(job: Job, raceway: Raceway) -> tuple[CableType, ...]:
    """The cables to be drawn into a raceway later: those entered, and the kinds that wishes which name it want."""
    entered = [kind for text in raceway.later for kind in _of(text)]
    keys = {kind.key for kind in entered}
    wished = [kind for wish in wishes_of(job).get(raceway.tag, ()) if (kind := cable_wished(wish)) is not None]
    return (*entered, *(kind for kind in wished if kind.key not in keys))


def _of(text: str) -> list[CableType]:
    count, kind = later_cable(text)
    return [kind] * count if kind is not None else []


def later_unknown(raceway: Raceway) -> tuple[str, ...]:
    """What is entered for later and is no kind on the list."""
    return tuple(text for text in raceway.later if later_cable(text)[1] is None)
