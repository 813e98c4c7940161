"""Spools and coils: which to buy for the cables that are still to be bought, and what comes off each."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

import msgspec

from store.records.whole import Job
from store.rules.cable_need import Need, Offer, needs, offers
from store.rules.once import once
from store.trade.cable_types import CableType, sold_lengths_nm
from store.trade.cutting import CannotCut, Cutting, CuttingPlan, Stock, plan_cuts

EXACT_PIECES = 48
"""So many pieces of one kind are looked at together; a house has fewer. More are cut in lots."""
MOST_STEPS = 60_000
"""Steps of searching for one lot, a tenth of a second; an answer that took more is marked as not proved."""
LOT_STEPS = 2_000
"""Steps for one lot of many."""


class Spool(msgspec.Struct, frozen=True):
    """One spool of the answer."""

    offer: Offer
    cables: tuple[str, ...]
    """Tags in the order of cutting, the longest first."""
    cuts: tuple[int, ...]
    remnant: int


class Spools(msgspec.Struct, frozen=True):
    """The spools of one kind of cable."""

    kind: CableType
    spools: tuple[Spool, ...]
    proved: bool
    """True when nothing cheaper, and nothing as cheap with less left over, exists."""
    priced: bool
    why: str = ""
    """Why there is no answer, in words."""
    cables: tuple[str, ...] = ()
    total: int = 0
    """Length of all pieces."""


@once
def spools(job: Job) -> dict[str, Spools]:
    """The spools for every kind that is cut from one, by its key: of cables not bought yet, and of known length."""
    return _in_state(job, "planned")


@once
def to_cut(job: Job) -> dict[str, Spools]:
    """The same of cables that are bought and not pulled yet: what is cut from what, in what order."""
    return _in_state(job, "bought")


def _in_state(job: Job, state: str) -> dict[str, Spools]:
    by_kind: dict[str, list[Need]] = {}
    for need in needs(job).values():
        if need.kind is not None and not need.assembled and need.cut and need.cable.state == state:
            by_kind.setdefault(need.kind.key, []).append(need)
    return {key: _of_kind(job, wanted) for key, wanted in by_kind.items()}


def _of_kind(job: Job, wanted: list[Need]) -> Spools:
    kind = wanted[0].kind
    assert kind is not None
    found = _offers(job, kind)
    tags = tuple(need.cable.tag for need in wanted)
    pieces = tuple(need.cut or 0 for need in wanted)
    if not found:
        return Spools(kind, (), False, False, "no length in which it is sold is known", tags, sum(pieces))
    priced = any(each.price is not None and not each.owned for each in found)
    try:
        plan = _plan(pieces, tuple((each.length, each.price or 0, each.owned) for each in found))
    except CannotCut:
        longest = max(each.length for each in found)
        why = "a piece is longer than any spool" if max(pieces) > longest else "the spools do not give all pieces whole"
        return Spools(kind, (), False, priced, why, tags, sum(pieces))
    made = tuple(
        Spool(
            found[each.stock],
            tuple(tags[at] for at in each.pieces),
            tuple(pieces[at] for at in each.pieces),
            each.remnant,
        )
        for each in plan.cuttings
    )
    return Spools(kind, made, plan.proved, priced, "", tags, sum(pieces))


@lru_cache(maxsize=64)
def _plan(pieces: tuple[int, ...], stock: tuple[tuple[int, int, bool], ...]) -> CuttingPlan:
    kinds: Sequence[Stock] = [
        Stock(length=length, price=price, available=1 if owned else None) for length, price, owned in stock
    ]
    if len(pieces) <= EXACT_PIECES:
        return plan_cuts(pieces, kinds, most_steps=MOST_STEPS)
    return _in_lots(pieces, kinds)


def _in_lots(pieces: tuple[int, ...], kinds: Sequence[Stock]) -> CuttingPlan:
    """Many pieces, cut lot by lot; what is at hand goes to the first lot. Good, and not proved the best."""
    cuttings: list[Cutting] = []
    left = list(kinds)
    for start in range(0, len(pieces), EXACT_PIECES):
        lot = plan_cuts(pieces[start : start + EXACT_PIECES], left, most_steps=LOT_STEPS)
        cuttings += [
            msgspec.structs.replace(each, pieces=tuple(start + at for at in each.pieces)) for each in lot.cuttings
        ]
        left = [each if each.available is None else msgspec.structs.replace(each, available=0) for each in left]
    return CuttingPlan(
        cuttings=tuple(cuttings),
        cost=sum(kinds[each.stock].price for each in cuttings),
        taken=sum(kinds[each.stock].length for each in cuttings),
        left_over=sum(each.remnant for each in cuttings),
        proved=False,
    )


def _offers(job: Job, kind: CableType) -> list[Offer]:
    """What is noted for any cable of the kind; else, or where only owned spools are noted, the usual lengths too."""
    noted: list[Offer] = []
    for need in needs(job).values():
        if need.kind is not None and need.kind.key == kind.key and need.cable.sold:
            noted += offers(need.cable, kind, job.settings.metric)
    # One spool that is noted for several cables is one spool.
    mine = list(dict.fromkeys(each for each in noted if each.owned))
    shop = list(dict.fromkeys(each for each in noted if not each.owned))
    if not shop:
        shop = [Offer(length) for length in sold_lengths_nm(kind, metric=job.settings.metric)]
    if any(each.price is not None for each in shop):
        shop = [each for each in shop if each.price is not None]
    return mine + shop
