"""Spools and coils: which to buy for the cables that are still to be bought, and what comes off each.

A cable that is bought and noted as off a spool (`100 ft owned` among its lengths) has its piece of it: what is left
on the spool is for the others.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache

import msgspec

from store.measure.length import MM_NM
from store.records.whole import Job
from store.records.wiring import Cable
from store.rules.cable.kinds import kind_named
from store.rules.cable.lengths import Need, Offer, cut_of, needs, noted, off_spool
from store.rules.core.keyed import by_key
from store.rules.core.was_done import cable_state
from store.trade.buying.cutting import CannotCut, Cutting, CuttingPlan, Stock, plan_cuts
from store.trade.cable.types import CableType, sold_lengths_nm

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
    before: int = 0
    """What other cables have of it already."""


WHOLE_PIECES = 300
"""Up to so many pieces are cut in one go as well as lot by lot, and the better answer is taken."""


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
    least: int = 0
    """No choice takes less length at the least price there could be; 0 where nothing is known of it."""


@by_key
def spools(job: Job) -> Mapping[str, Spools]:
    """The spools for every kind that is cut from one, by its key: of cables not bought yet, and of known length."""
    return _in_state(job, "planned")


@by_key
def to_cut(job: Job) -> Mapping[str, Spools]:
    """The same of cables that are bought and not pulled yet: what is cut from what, in what order."""
    return _in_state(job, "bought")


def _in_state(job: Job, state: str) -> dict[str, Spools]:
    by_kind: dict[str, list[Need]] = {}
    for need in needs(job).values():
        if need.kind is not None and not need.assembled and need.cut and cable_state(job, need.cable) == state:
            by_kind.setdefault(need.kind.key, []).append(need)
    return {key: _of_kind(job, wanted) for key, wanted in by_kind.items()}


@by_key
def begun(job: Job) -> Mapping[tuple[str, Offer], tuple[tuple[str, int], ...]]:
    """What comes off each spool at hand, by kind and spool: each cable bought that is noted as off it, and its piece.

    A cable that names several goes by the first. One that was given up since had its piece too.
    """
    found: dict[tuple[str, Offer], tuple[tuple[str, int], ...]] = {}
    for tag, cable in job.of(Cable).items():
        kind = kind_named(cable.type)
        spool = None if cable_state(job, cable) == "planned" or kind is None or kind.assembled else off_spool(cable)
        if kind is not None and spool is not None:
            need = needs(job).get(tag)
            cut = need.cut if need is not None else cut_of(job, cable)
            found[kind.key, spool] = (*found.get((kind.key, spool), ()), (tag, cut or 0))
    return found


def _of_kind(job: Job, wanted: list[Need]) -> Spools:
    kind = wanted[0].kind
    assert kind is not None
    noted = [need for need in wanted if need.cable.state != "planned" and off_spool(need.cable) is not None]
    made = _off_the_noted(job, kind, noted)
    rest = [need for need in wanted if need not in noted]
    tags = tuple(need.cable.tag for need in wanted)
    total = sum(need.cut or 0 for need in wanted)
    if not rest:
        return Spools(kind, made, True, True, "", tags, total)
    found = msgspec.structs.replace(_chosen(job, kind, rest), cables=tags, total=total)
    return msgspec.structs.replace(found, spools=(*made, *found.spools))


def _off_the_noted(job: Job, kind: CableType, noted: list[Need]) -> tuple[Spool, ...]:
    """What is still to be cut from the spools that cables are noted as off."""
    made = []
    mine = {need.cable.tag for need in noted}
    for (key, offer), taken in begun(job).items():
        still = sorted((each for each in taken if each[0] in mine), key=lambda each: -each[1])
        if key == kind.key and still:
            before = sum(cut for tag, cut in taken if tag not in mine)
            cuts = tuple(cut for _, cut in still)
            left = max(0, offer.length - before - sum(cuts))
            made.append(Spool(offer, tuple(tag for tag, _ in still), cuts, left, before))
    return tuple(made)


def _chosen(job: Job, kind: CableType, wanted: list[Need]) -> Spools:
    """The spools to take for cables that are noted as off none."""
    found = [each for each in _stock(job, kind) if each.room > 0]
    tags = tuple(need.cable.tag for need in wanted)
    pieces = tuple(need.cut or 0 for need in wanted)
    if not found:
        return Spools(kind, (), False, False, "lengths it is sold in are not entered", tags, sum(pieces))
    priced = any(each.offer.price is not None and not each.offer.owned for each in found)
    try:
        plan = _plan(pieces, tuple((each.room, each.cost(priced), each.offer.owned) for each in found))
    except CannotCut:
        longest = max(each.room for each in found)
        why = "a piece is longer than any spool" if max(pieces) > longest else "the spools can't give every piece whole"
        return Spools(kind, (), False, priced, why, tags, sum(pieces))
    made = tuple(
        Spool(
            found[each.stock].offer,
            tuple(tags[at] for at in each.pieces),
            tuple(pieces[at] for at in each.pieces),
            each.remnant,
            found[each.stock].before,
        )
        for each in plan.cuttings
    )
    return Spools(kind, made, plan.proved, priced, "", tags, sum(pieces), plan.least_taken)


@lru_cache(maxsize=64)
def _plan(pieces: tuple[int, ...], stock: tuple[tuple[int, int, bool], ...]) -> CuttingPlan:
    kinds: Sequence[Stock] = [
        Stock(length=length, price=price, available=1 if owned else None) for length, price, owned in stock
    ]
    if len(pieces) <= EXACT_PIECES:
        return plan_cuts(pieces, kinds, most_steps=MOST_STEPS)
    lots = _in_lots(pieces, kinds)
    if len(pieces) > WHOLE_PIECES:
        return lots
    whole = plan_cuts(pieces, kinds, most_steps=LOT_STEPS)
    return whole if (whole.cost, whole.taken) <= (lots.cost, lots.taken) else lots


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


class _Stock(msgspec.Struct, frozen=True):
    """A spool that may be taken, or a length in which spools are sold."""

    offer: Offer
    before: int = 0

    @property
    def room(self) -> int:
        """What is left on it."""
        return self.offer.length - self.before

    def cost(self, priced: bool) -> int:
        """What taking it costs; where no price is noted its length, so that the least is bought."""
        return 0 if self.offer.owned else (self.offer.price or 0) if priced else self.offer.length // MM_NM


def _stock(job: Job, kind: CableType) -> list[_Stock]:
    """What is noted for any cable of the kind; else, or where only owned spools are noted, the usual lengths too."""
    found: list[Offer] = []
    for need in needs(job).values():
        if need.kind is not None and need.kind.key == kind.key:
            found += noted(need.cable, job.settings.currency)
    # One spool that is noted for several cables is one spool.
    mine = list(dict.fromkeys(each for each in found if each.owned))
    shop = list(dict.fromkeys(each for each in found if not each.owned))
    if not shop:
        shop = [Offer(length) for length in sold_lengths_nm(kind, metric=job.settings.metric)]
    if any(each.price is not None for each in shop):
        shop = [each for each in shop if each.price is not None]
    off = begun(job)
    taken = [sum(cut for _, cut in off.get((kind.key, each), ())) for each in mine]
    return [*(_Stock(each, cut) for each, cut in zip(mine, taken, strict=True)), *map(_Stock, shop)]
