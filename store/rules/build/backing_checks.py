"""Rough-in checks of the blocking that fixings ask for."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.counts import plural
from store.measure.length import Length, to_file
from store.records.build import Fixing
from store.records.whole import Job
from store.rules.build.backing import backing
from store.rules.core.checks import RoughIn, checks_of
from store.rules.core.keyed import from_each


@checks_of
@from_each(Fixing)
def of_fixings(job: Job, one: Fixing) -> Iterable[RoughIn]:
    """Blocking in, before the wall is covered, for every fixing that is to go into it."""
    if one.into != "blocking":
        return
    wood = backing.one(job, one.tag)
    pieces = () if wood is None else wood.blocks
    vouches = {
        "of": one.of,
        "pieces": ", ".join(
            f"{to_file(Length(each.length_nm))} at {to_file(Length(each.left_nm))} / {to_file(Length(each.at_nm))}"
            for each in pieces
        ),
    }
    what, more = f"Blocking in behind {one.of}, {one.tag}", plural(len(pieces), "piece") if pieces else ""
    tags = tuple(each for each in (one.tag, one.of, "" if wood is None else wood.wall) if each)
    yield RoughIn(f"{one.tag}/blocking", what, "carpenter", one.of, "photo with a tape in it", tags, vouches, more=more)
