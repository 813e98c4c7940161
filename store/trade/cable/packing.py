"""Whether pieces go into given bins whole: quick tries first, then a search that leaves nothing out."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import Counter
from collections.abc import Iterator, Sequence

MOST_BITS = 1 << 20
"""Largest bin, in steps, for which every reachable filling is calculated exactly."""


class Budget:
    """Counts steps of searching, so that a hard case ends in bounded time and the same way every time."""

    def __init__(self, steps: int) -> None:
        self._left = steps

    def part(self, steps: int) -> Budget:
        """Hand on at most so many of the steps left, to be given back with `merge`."""
        steps = min(steps, self.left)
        self._left -= steps
        return Budget(steps)

    def merge(self, part: Budget) -> None:
        """Take back what a part did not use."""
        self._left += part.left

    def take(self) -> bool:
        """Use one step; False when there is none left."""
        self._left -= 1
        return self._left >= 0

    @property
    def left(self) -> int:
        """Steps left."""
        return max(0, self._left)

    @property
    def spent(self) -> bool:
        """Whether the search was cut short."""
        return self._left < 0


def fullest(sizes: Sequence[int], room: int) -> int:
    """Return the most of a bin that any choice of the pieces fills; never less than the truth.

    Exact while the bin is no longer than MOST_BITS; beyond it the whole bin, or all the pieces if they fit.
    """
    total = sum(sizes)
    if total <= room:
        return total
    if room > MOST_BITS:
        return room
    reachable, mask = 1, (1 << (room + 1)) - 1
    for one in sizes:
        reachable |= (reachable << one) & mask
    return reachable.bit_length() - 1


def pack(sizes: Sequence[int], rooms: Sequence[int], budget: Budget) -> list[list[int]] | None:
    """Put every piece into a bin, or return None if it cannot be done (or the budget ran out: see `spent`).

    `sizes` are in falling order. The answer has one list of piece indices for each bin, in the order given.
    """
    if sum(sizes) > sum(rooms):
        return None
    return _best_fit(sizes, rooms) or _shortest_first(sizes, rooms) or _Search(sizes, rooms, budget).run()


def _best_fit(sizes: Sequence[int], rooms: Sequence[int]) -> list[list[int]] | None:
    """Longest piece first, each into the bin where it leaves least."""
    left = list(rooms)
    packed: list[list[int]] = [[] for _ in rooms]
    for at, one in enumerate(sizes):
        where = min((b for b in range(len(left)) if left[b] >= one), key=lambda b: left[b], default=None)
        if where is None:
            return None
        left[where] -= one
        packed[where].append(at)
    return packed


def _shortest_first(sizes: Sequence[int], rooms: Sequence[int]) -> list[list[int]] | None:
    """Shortest bin first, each as full as any choice of the pieces makes it, the longest of them where there is a
    choice: what is over goes into the longest bins, where nearly every rest can be filled up.
    """
    if max(rooms, default=0) > MOST_BITS:
        return None
    left = list(range(len(sizes)))
    packed: list[list[int]] = [[] for _ in rooms]
    for where in sorted(range(len(rooms)), key=lambda at: rooms[at]):
        packed[where] = _fullest_of(sizes, left, rooms[where])
        gone = {*packed[where]}
        left = [at for at in left if at not in gone]
    return None if left else packed


def _fullest_of(sizes: Sequence[int], pieces: Sequence[int], room: int) -> list[int]:
    """The pieces that fill a bin as far as can be; of several such choices one with long pieces."""
    reach, mask = [1], (1 << (room + 1)) - 1
    for at in reversed(pieces):  # shortest first, so that going back down the sums meets the longest first
        reach.append(reach[-1] | (reach[-1] << sizes[at]) & mask)
    left, chosen = reach[-1].bit_length() - 1, []
    for n, at in enumerate(pieces):
        without = reach[len(pieces) - n - 1]
        if left >= sizes[at] and without >> (left - sizes[at]) & 1:
            chosen.append(at)
            left -= sizes[at]
    return chosen


NODES_A_BIN = 2_000
"""Choices looked at for one bin before the fullest found is taken."""


def fill_bin_by_bin(sizes: Sequence[int], rooms: Sequence[int]) -> list[list[int]] | None:
    """A start that is better than longest-first where a bin takes three or four pieces: each bin as full as can be.

    Of the bins that take the longest piece left, the shortest gets it, and beside it the choice of the others that
    leaves least (the minimum-slack heuristic of Gupta and Ho, 1999, from memory). `sizes` are in falling order. None
    where pieces are left over. Bounded by NODES_A_BIN, so that a hard case costs little.
    """
    left = list(range(len(sizes)))
    bins = sorted(range(len(rooms)), key=lambda at: rooms[at])
    packed: list[list[int]] = [[] for _ in rooms]
    while left:
        longest = left[0]
        where = next((at for at in bins if rooms[at] >= sizes[longest]), None)
        if where is None:
            return None
        bins.remove(where)
        rest = left[1:]
        chosen = _fullest_choice([sizes[at] for at in rest], rooms[where] - sizes[longest])
        packed[where] = [longest, *(rest[at] for at in chosen)]
        gone = {*chosen}
        left = [at for n, at in enumerate(rest) if n not in gone]
    return packed


def _fullest_choice(sizes: list[int], room: int) -> tuple[int, ...]:
    """The choice of pieces that leaves least of a room, longer pieces first; as good as NODES_A_BIN nodes find."""
    falling = [-size for size in sizes]
    least = sizes[-1] if sizes else 0
    best: tuple[int, tuple[int, ...]] = (room, ())
    nodes = NODES_A_BIN

    def extend(start: int, left: int, chosen: tuple[int, ...]) -> None:
        nonlocal best, nodes
        at = bisect_left(falling, -left, start)
        while at < len(sizes) and nodes and best[0]:
            nodes -= 1
            size, rest = sizes[at], left - sizes[at]
            if rest < best[0]:
                best = (rest, (*chosen, at))
            if rest >= least:
                extend(at + 1, rest, (*chosen, at))
            # A shorter one alone leaves more: go on where another piece fits beside it.
            at = max(bisect_right(falling, -size, at), bisect_left(falling, least - left, at))

    extend(0, room, ())
    return best[1]


class _Search:
    """Fill bin after bin; a bin is filled with the longest piece left and a choice of the others.

    Only choices to which nothing more can be added are tried, and only such as leave no more unused than the
    bins together have to spare. States that failed are remembered.
    """

    def __init__(self, sizes: Sequence[int], rooms: Sequence[int], budget: Budget) -> None:
        self.budget = budget
        self.sizes = sorted(set(sizes), reverse=True)
        have = Counter(sizes)
        self.counts = tuple(have[one] for one in self.sizes)
        self.of_size = {one: [at for at, size in enumerate(sizes) if size == one] for one in self.sizes}
        self.rooms = list(rooms)
        self.failed: set[tuple[tuple[int, ...], tuple[int, ...]]] = set()

    def run(self) -> list[list[int]] | None:
        bins = tuple(sorted(self.rooms))
        found = self._fill(self.counts, bins)
        return None if found is None else self._name(found)

    def _name(self, found: list[tuple[int, tuple[int, ...]]]) -> list[list[int]]:
        """Turn 'a bin of this room takes so many of each size' into piece indices for each bin."""
        spare = {one: list(ats) for one, ats in self.of_size.items()}
        by_room: dict[int, list[list[int]]] = {}
        for room, counts in found:
            ats = [spare[one].pop(0) for one, n in zip(self.sizes, counts, strict=True) for _ in range(n)]
            by_room.setdefault(room, []).append(ats)
        return [by_room[room].pop() if by_room.get(room) else [] for room in self.rooms]

    def _fill(self, counts: tuple[int, ...], bins: tuple[int, ...]) -> list[tuple[int, tuple[int, ...]]] | None:
        first = next((at for at, n in enumerate(counts) if n), None)
        if first is None:
            return []
        state = (counts, bins)
        spare = sum(bins) - sum(one * n for one, n in zip(self.sizes, counts, strict=True))
        if spare < 0 or state in self.failed or not self.budget.take():
            return None
        for room in sorted(set(bins)):
            if room < self.sizes[first]:
                continue
            rest_bins = list(bins)
            rest_bins.remove(room)
            for chosen in self._choices(counts, first, room, spare):
                rest = tuple(n - c for n, c in zip(counts, chosen, strict=True))
                found = self._fill(rest, tuple(rest_bins))
                if found is not None:
                    return [(room, chosen), *found]
                if self.budget.spent:
                    return None
        self.failed.add(state)
        return None

    def _choices(self, counts: tuple[int, ...], first: int, room: int, spare: int) -> Iterator[tuple[int, ...]]:
        """Yield the fillings of one bin that hold the longest piece and leave at most `spare`."""
        free = list(counts)
        free[first] -= 1
        chosen = [0] * len(counts)
        chosen[first] = 1
        yield from self._extend(first, room - self.sizes[first], spare, free, chosen, self._reach(free, room))

    def _reach(self, free: Sequence[int], room: int) -> list[int] | None:
        """For each size, the sums (as bits) that it and the shorter ones can make; None for a huge bin."""
        if room > MOST_BITS:
            return None
        mask, sums = (1 << (room + 1)) - 1, 1
        reach = [sums]
        for one, n in zip(reversed(self.sizes), reversed(free), strict=True):
            for _ in range(n):
                sums |= (sums << one) & mask
            reach.append(sums)
        return reach[::-1]

    def _extend(
        self, at: int, left: int, spare: int, free: list[int], chosen: list[int], reach: list[int] | None
    ) -> Iterator[tuple[int, ...]]:
        """Choose how many of size `at` and of the shorter ones to add, most first."""
        if not self.budget.take() or not self._can_end(at, left, spare, free, reach):
            return
        if at == len(free):
            if not any(n and one <= left for one, n in zip(self.sizes, free, strict=True)):
                yield tuple(chosen)
            return
        for n in range(min(free[at], left // self.sizes[at]), -1, -1):
            free[at] -= n
            chosen[at] += n
            yield from self._extend(at + 1, left - n * self.sizes[at], spare, free, chosen, reach)
            free[at] += n
            chosen[at] -= n

    def _can_end(self, at: int, left: int, spare: int, free: list[int], reach: list[int] | None) -> bool:
        """Tell whether the sizes from `at` on can fill a bin until no more than `spare` is left of it."""
        if left <= spare:
            return True
        if reach is not None:
            return (reach[at] >> (left - spare)) & ((1 << (spare + 1)) - 1) != 0
        return left - sum(one * n for one, n in zip(self.sizes[at:], free[at:], strict=True)) <= spare
