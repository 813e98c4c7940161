"""Which coils, spools or boards to buy, and which piece comes off which, so that nothing is spliced.

Least cost first, then least length taken (so least left over). Taking the longest piece first does not find
it: from stock of 10, pieces 4, 4, 3, 3, 3, 3 come out of two, and longest-first takes three.

How it is done: baskets of stock are taken up in order of cost and length, and the first one into which the
pieces can be packed is the answer. `packing` answers the second half.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from heapq import heappop, heappush
from math import gcd
from typing import NamedTuple

import msgspec

from store.trade.cable.packing import Budget, fill_bin_by_bin, fullest, pack

MOST_STEPS = 60_000
"""How many steps of searching before an answer is given that is good but not proved the best."""
STEPS_A_BASKET = 3_000
"""How many of them one basket may use at first; those left open are gone back to once an answer is there."""


class Stock(msgspec.Struct, frozen=True, kw_only=True):
    """One kind of coil, spool or board."""

    length: int
    """Length of one, in the unit of the pieces."""
    price: int
    """Price of one in minor units; 0 for what is already there."""
    available: int | None = None
    """How many there are; None for as many as wanted."""
    name: str = ""


class Cutting(msgspec.Struct, frozen=True, kw_only=True):
    """One coil of the answer."""

    stock: int
    """Which kind, as an index into the stock given."""
    pieces: tuple[int, ...]
    """What to cut from it, in cutting order, as indices into the pieces given. Longest first: a slip on a long
    piece can still become a shorter one."""
    remnant: int
    """What is left on it, in the unit of the pieces."""


class CuttingPlan(msgspec.Struct, frozen=True, kw_only=True):
    """What to buy and how to cut it."""

    cuttings: tuple[Cutting, ...]
    cost: int
    taken: int
    """Length of all the coils taken, bought or there already."""
    left_over: int
    """Sum of the remnants."""
    proved: bool
    """Whether nothing cheaper, and nothing as cheap with less left over, exists; False when the search gave up."""
    least_cost: int = 0
    """No plan costs less than this, proved or not."""
    least_taken: int = 0
    """Nor takes less length, of those that cost as little as that."""


class CannotCut(ValueError):
    """The pieces do not come out of the stock; the text says which and why."""


def plan_cuts(
    pieces: Sequence[int], stock: Sequence[Stock], kerf: int = 0, *, most_steps: int = MOST_STEPS
) -> CuttingPlan:
    """Choose stock and cut it so that every piece is whole, at least cost, then with least length taken.

    Pieces, stock and kerf are whole numbers of one unit (nm); prices are minor units. A saw takes `kerf` at
    every cut but one that ends exactly at the end of the board; a cable takes none. The answer is proved the
    best (`proved`) unless `most_steps` ran out. Cable of a house, up to 40 pieces, takes milliseconds; boards with
    room for three or four pieces each can be hard from 25 pieces on, and then the answer is only good.
    Raises CannotCut if a piece is longer than any stock or the stock at hand does not suffice, ValueError on
    lengths or prices that make no sense.
    """
    _refuse_nonsense(pieces, stock, kerf)
    if not pieces:
        return CuttingPlan(cuttings=(), cost=0, taken=0, left_over=0, proved=True)
    longest = max((one.length for one in stock if one.available != 0), default=0)
    if max(pieces) > longest:
        at = max(range(len(pieces)), key=lambda one: pieces[one])
        raise CannotCut(f"piece {at + 1} is {pieces[at]} long and the longest stock is {longest}: it would be spliced")

    order = sorted(range(len(pieces)), key=lambda at: (-pieces[at], at))
    # The kerf goes away by giving it to both: a piece takes length + kerf, a board offers length + kerf.
    unit = gcd(*(pieces[at] + kerf for at in order))
    sizes = [(pieces[at] + kerf) // unit for at in order]
    rooms = [(one.length + kerf) // unit for one in stock]
    budget = Budget(most_steps)
    chosen, packed, proved, bound = _cheapest(sizes, rooms, stock, budget)
    if not proved:
        chosen, packed = min((chosen, packed), *_by_length(sizes, rooms, stock), key=lambda way: _sums(stock, way[0]))
        proved = _sums(stock, chosen) <= bound

    cuttings = []
    for kind, bin_pieces in zip(chosen, packed, strict=True):
        if not bin_pieces:  # a basket taken up while a smaller one was left undecided may hold a coil too many
            continue
        taken = sum(pieces[order[one]] + kerf for one in bin_pieces)
        cuttings.append(
            Cutting(
                stock=kind,
                pieces=tuple(order[one] for one in sorted(bin_pieces)),
                remnant=max(0, stock[kind].length - taken),
            )
        )
    cuttings.sort(key=lambda one: (-stock[one.stock].length, one.stock, one.pieces))
    return CuttingPlan(
        cuttings=tuple(cuttings),
        cost=sum(stock[one.stock].price for one in cuttings),
        taken=sum(stock[one.stock].length for one in cuttings),
        left_over=sum(one.remnant for one in cuttings),
        proved=proved,
        least_cost=bound[0],
        least_taken=bound[1],
    )


def _refuse_nonsense(pieces: Sequence[int], stock: Sequence[Stock], kerf: int) -> None:
    if any(one <= 0 for one in pieces) or any(one.length <= 0 for one in stock):
        raise ValueError("pieces and stock are longer than nothing")
    if kerf < 0 or any(one.price < 0 or (one.available or 0) < 0 for one in stock):
        raise ValueError("a kerf, a price and a number at hand are not negative")


def _cheapest(
    sizes: list[int], rooms: list[int], stock: Sequence[Stock], budget: Budget
) -> tuple[list[int], list[list[int]], bool, tuple[int, int]]:
    """Take up baskets in order of (cost, length taken) and return the first that packs.

    A basket still too small is worth at least what its missing room costs at the best price for a length, so
    most baskets are never looked at. `room` counts only what pieces can fill: a coil of 100 for pieces of 60
    has room for 60.
    """
    most = {at: len(sizes) if (a := one.available) is None else min(a, len(sizes)) for at, one in enumerate(stock)}
    kinds = [at for at in most if most[at] and rooms[at] >= sizes[-1] and not _beaten(at, rooms, stock)]
    kinds.sort(key=lambda at: -rooms[at])
    rank = {at: n for n, at in enumerate(kinds)}
    fallback = _any_way(sizes, rooms, stock, kinds, most, budget)
    good = _sums(stock, fallback[0])
    fill = {at: fullest(sizes, rooms[at]) for at in kinds}
    total = sum(sizes)
    coin = gcd(*(stock[at].price for at in kinds)) or 1
    step = gcd(*(stock[at].length for at in kinds))

    def round_up(amount: int, unit: int) -> int:
        return -(-amount // unit) * unit

    def least(cost: int, bought: int, room: int) -> tuple[int, int]:
        missing = max(0, total - room)
        more_cost = min(-(-missing * stock[at].price // fill[at]) for at in kinds)
        more_length = min(-(-missing * stock[at].length // fill[at]) for at in kinds)
        return cost + round_up(more_cost, coin), bought + round_up(more_length, step)

    # Among baskets of equal promise the fullest goes first: it packs more easily.
    heap = [_Basket(least(0, 0, 0), total, (), 0, 0, 0)]
    undecided: list[tuple[int, ...]] = []
    floor = heap[0].least
    while heap and budget.take():
        bound, _missing, basket, cost, bought, room = heappop(heap)
        if not undecided:  # no basket that promises more was packed, and none that does is left
            floor = bound
        if bound >= good:  # nothing that is still to come is better than what is there
            return *_decide(sizes, rooms, undecided, fallback, budget), floor
        if room >= total:
            packed, known = _try(sizes, rooms, basket, budget, STEPS_A_BASKET)
            if packed is not None:
                return *_decide(sizes, rooms, undecided, (list(basket), packed), budget), floor
            if not known:
                undecided.append(basket)
        if len(basket) == len(sizes):
            continue
        for at in kinds:
            if not (basket and rank[at] < rank[basket[-1]]) and basket.count(at) < most[at]:
                sums = (cost + stock[at].price, bought + stock[at].length, room + fill[at])
                heappush(heap, _Basket(least(*sums), max(0, total - sums[2]), (*basket, at), *sums))
    return *fallback, False, floor


Answer = tuple[list[int], list[list[int]]]
"""Kinds of stock, and the pieces that come off each."""


def _try(
    sizes: list[int], rooms: list[int], basket: Sequence[int], budget: Budget, steps: int
) -> tuple[list[list[int]] | None, bool]:
    """Pack a basket with part of the budget; also tell whether a None is certain."""
    part = budget.part(steps)
    packed = pack(sizes, [rooms[at] for at in basket], part)
    budget.merge(part)
    return packed, not part.spent


def _decide(
    sizes: list[int], rooms: list[int], undecided: list[tuple[int, ...]], found: Answer, budget: Budget
) -> tuple[list[int], list[list[int]], bool]:
    """Go back to the better baskets left open, with what is left of the budget shared among them."""
    sure = True
    for done, basket in enumerate(undecided):
        packed, known = _try(sizes, rooms, basket, budget, budget.left // (len(undecided) - done))
        if packed is not None:
            return list(basket), packed, sure
        sure = sure and known
    return *found, sure


class _Basket(NamedTuple):
    """Some stock taken together, and what it promises; they sort by promise."""

    least: tuple[int, int]
    missing: int
    basket: tuple[int, ...]
    cost: int
    bought: int
    room: int


def _beaten(at: int, rooms: Sequence[int], stock: Sequence[Stock]) -> bool:
    """Tell whether another kind, to be had in any number, is no shorter and costs less."""
    return any(
        one.available is None and rooms[other] >= rooms[at] and one.price < stock[at].price
        for other, one in enumerate(stock)
    )


def _any_way(
    sizes: list[int], rooms: list[int], stock: Sequence[Stock], kinds: list[int], most: dict[int, int], budget: Budget
) -> tuple[list[int], list[list[int]]]:
    """Find some way to cut: the answer if the search has to give up. Raises CannotCut if there is none.

    All the stock there could be is laid out, cheapest for its length first, and packed longest piece first, and bin by
    bin; each coil in use then gives way to the cheapest kind that still holds its pieces. The better way is taken.
    """
    by_price = sorted(kinds, key=lambda at: (stock[at].price / rooms[at], -rooms[at]))
    laid_out = [at for at in by_price for _ in range(most[at])]
    packed, known = _try(sizes, rooms, laid_out, budget, budget.left // 2)
    ways = [packed, fill_bin_by_bin(sizes, [rooms[at] for at in laid_out])]
    found = [_each_the_cheapest(sizes, rooms, stock, kinds, most, laid_out, each) for each in ways if each is not None]
    if not found:
        proof = "" if known else " by any way that was found"
        raise CannotCut(f"the stock on hand can't give every piece whole{proof}")
    return min(found, key=lambda way: _sums(stock, way[0]))


def _by_length(sizes: list[int], rooms: list[int], stock: Sequence[Stock]) -> Iterator[Answer]:
    """More ways for where the search gave up: bin by bin from each length of stock and the longer ones alone.

    Which length the pieces come out of best cannot be seen beforehand.
    """
    most = {at: len(sizes) if (a := one.available) is None else min(a, len(sizes)) for at, one in enumerate(stock)}
    for least in sorted({room for at, room in enumerate(rooms) if most[at]}):
        kinds = [at for at, room in enumerate(rooms) if room >= least and most[at]]
        laid_out = [at for at in kinds for _ in range(most[at])]
        packed = fill_bin_by_bin(sizes, [rooms[at] for at in laid_out])
        if packed is not None:
            every = [at for at in most if most[at]]
            yield _each_the_cheapest(sizes, rooms, stock, every, most, laid_out, packed)


def _sums(stock: Sequence[Stock], chosen: Sequence[int]) -> tuple[int, int]:
    """Cost and length of some stock."""
    return sum(stock[at].price for at in chosen), sum(stock[at].length for at in chosen)


def _each_the_cheapest(
    sizes: list[int],
    rooms: list[int],
    stock: Sequence[Stock],
    kinds: list[int],
    most: dict[int, int],
    laid_out: list[int],
    packed: list[list[int]],
) -> Answer:
    """Each coil in use, in exchange for the cheapest kind that still holds its pieces."""
    chosen: list[int] = []
    used: dict[int, int] = dict.fromkeys(kinds, 0)
    filled = [(at, bin_pieces) for at, bin_pieces in zip(laid_out, packed, strict=True) if bin_pieces]
    for at, _pieces in filled:
        used[at] += 1
    for at, bin_pieces in filled:
        need = sum(sizes[one] for one in bin_pieces)
        fit = [k for k in kinds if rooms[k] >= need and (k == at or used[k] < most[k])]
        best = min(fit, key=lambda k: (stock[k].price, stock[k].length))
        used[at] -= 1
        used[best] += 1
        chosen.append(best)
    return chosen, [bin_pieces for _at, bin_pieces in filled]
