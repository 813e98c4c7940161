"""Box fill: the volume that conductors, devices, clamps and fittings take, as a sum a person can follow.

NEC 314.16(B). Sizes are AWG, volumes cubic inches. Low-voltage brackets without a box are outside this rule.
Not handled: terminal blocks (their allowance is new in 2023) and isolated-ground sets; ask about those.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Literal

from msgspec import Struct

from store.trade.measured.bounds import not_negative
from store.trade.measured.citations import cite, nec
from store.trade.power import tables_us as us

Material = Literal["metal", "nonmetallic"]

GROUNDS_FREE_WITH_FIRST = 4  # 314.16(B)(5), 2020 and later: the first allowance covers four grounds
EXTRA_GROUND_ALLOWANCE = 0.25  # and each further one is a quarter
GROUNDS_BY_NUMBER_SINCE = 2020
ALLOWANCES_PER_GANG = 2  # 314.16(B)(4)
UNMARKED_BARRIER_IN3: dict[Material, float] = {"metal": 0.5, "nonmetallic": 1.0}  # 314.16(A)

# How a conductor behaves in the box, and how many it counts for: 314.16(B)(1).
How = Literal["ends", "through", "looped", "stays"]
_COUNTS: dict[How, int] = {"ends": 1, "through": 1, "looped": 2, "stays": 0}
_WORDS: dict[How, str] = {
    "ends": "conductors ended or spliced here",
    "through": "conductors straight through",
    "looped": "unbroken loops, two each",
    "stays": "pigtails that stay in the box",
}


class Cable(Struct, frozen=True):
    """A cable (or the conductors of a raceway): how many insulated conductors of which size, and its ground.

    A "12/2 with ground" is `Cable(12, 2)`. `how` says what its insulated conductors do; "looped" is an
    unbroken loop at least twice as long as the free length asked for by 300.14. `ground_gauge` is for a
    ground of another size.
    """

    gauge: int
    conductors: int
    ground: bool = True
    how: How = "ends"
    ground_gauge: int | None = None


class Device(Struct, frozen=True):
    """One yoke or strap with what is on it; `gauge` is the largest conductor connected to it.

    Where that is not known (None) the largest insulated conductor of the box is taken, which is never too little.
    """

    name: str
    gauge: int | None
    gangs: int = 1


class BoxContents(Struct, frozen=True):
    """All that is in one box. `fittings` names stud and hickey types, each type once however many there are."""

    cables: tuple[Cable, ...] = ()
    devices: tuple[Device, ...] = ()
    internal_clamps: bool = False
    fittings: tuple[str, ...] = ()
    extra_grounds: tuple[int, ...] = ()
    """Sizes of further grounding or bonding conductors that come in from outside, such as a bonding jumper."""


class FillLine(Struct, frozen=True):
    """One line of the sum: `count` allowances of `each_in3` for `what`, by `section`."""

    count: float
    what: str
    gauge: int
    each_in3: float
    subtotal_in3: float
    section: str


class BoxFill(Struct, frozen=True):
    """The sum and its lines, in the order of 314.16(B)."""

    lines: tuple[FillLine, ...]
    total_in3: float


def ground_allowances(count: int, edition: int) -> float:
    """Number of allowances for `count` grounding conductors: 314.16(B)(5).

    Up to 2017 one for all; from 2020 one for the first four and a quarter for each further one.
    """
    not_negative("the number of grounds", count)
    cite("grounds in box", edition)
    if count == 0:
        return 0.0
    if edition < GROUNDS_BY_NUMBER_SINCE:
        return 1.0
    return 1.0 + EXTRA_GROUND_ALLOWANCE * max(0, count - GROUNDS_FREE_WITH_FIRST)


def box_fill(contents: BoxContents, edition: int) -> BoxFill:
    """Add up the volume that `contents` needs, in cubic inches, by NEC 314.16(B) of `edition`.

    Raises ValueError for a size that Table 314.16(B) lacks, a negative count, or clamps, fittings or a device
    of no known size in a box with no conductor to size them by.
    """
    lines = [
        *_conductor_lines(contents.cables, edition),
        *_largest_lines(contents, edition),
        *_device_lines(contents, edition),
        *_ground_lines(contents, edition),
    ]
    return BoxFill(tuple(lines), sum(line.subtotal_in3 for line in lines))


def usable_in3(marked_in3: float, rings_in3: Sequence[float] = (), barriers: Sequence[Material] = ()) -> float:
    """Volume of a box with its rings and dividers, in cubic inches: 314.16(A).

    A plaster or extension ring adds only the volume marked on it; a divider without a marking takes 0.5 in³
    (metal) or 1.0 in³ (nonmetallic). ValueError for a negative volume or when the dividers take more than
    there is.
    """
    rings = sum(not_negative("the volume of a ring", ring) for ring in rings_in3)
    taken = sum(UNMARKED_BARRIER_IN3[material] for material in barriers)
    return not_negative("the usable volume", not_negative("the volume", marked_in3) + rings - taken)


def line_text(line: FillLine) -> str:
    """A line of the sum in words, e.g. "conductors ended or spliced here, 12 AWG: 4 × 2.25 = 9.00 in³"."""
    each = f"{line.count:g} × {line.each_in3:.2f}"
    return f"{line.what}, {line.gauge} AWG: {each} = {line.subtotal_in3:.2f} in³"


def standard_boxes_for(
    total_in3: float, kinds: Iterable[us.BoxKind] = ("device", "square")
) -> tuple[us.StandardBox, ...]:
    """Metal boxes of Table 314.16(A) that hold `total_in3`, smallest first, of the kinds asked for.

    A plastic box has its volume stamped inside and is judged by that (314.16(A)(2)). A device box is one
    gang; a square box needs a ring for its devices, which adds only its marked volume.
    """
    not_negative("the volume", total_in3)
    wanted = set(kinds)
    doing = [box for box in us.STANDARD_BOXES if box.kind in wanted and box.volume_in3 >= total_in3]
    return tuple(sorted(doing, key=lambda box: box.volume_in3))


def _allowance_in3(gauge: int) -> float:
    if gauge not in us.CONDUCTOR_IN3:
        known = ", ".join(map(str, us.CONDUCTOR_IN3))
        raise ValueError(f"AWG size {gauge!r} has no box allowance; those that have are {known}")
    return us.CONDUCTOR_IN3[gauge]


def _line(count: float, what: str, gauge: int, section: str) -> FillLine:
    each = _allowance_in3(gauge)
    return FillLine(count, what, gauge, each, count * each, section)


def _conductor_lines(cables: Sequence[Cable], edition: int) -> list[FillLine]:
    """One line for each behaviour and size, thickest first; pigtails get a line of nothing so that they are seen."""
    totals: dict[tuple[How, int], int] = {}
    for cable in cables:
        not_negative("the number of conductors", cable.conductors)
        if cable.conductors:
            key = (cable.how, cable.gauge)
            totals[key] = totals.get(key, 0) + cable.conductors
    order: tuple[How, ...] = ("ends", "through", "looped", "stays")
    section = nec("314.16(B)(1)", edition)
    return [
        _line(count * _COUNTS[how], _WORDS[how], gauge, section)
        for (how, gauge), count in sorted(totals.items(), key=lambda item: (order.index(item[0][0]), item[0][1]))
    ]


def _largest_lines(contents: BoxContents, edition: int) -> list[FillLine]:
    """Clamps and fittings, each sized by the thickest conductor anywhere in the box: 314.16(B)(2) and (3)."""
    if not (contents.internal_clamps or contents.fittings):
        return []
    sizes = [cable.gauge for cable in contents.cables if cable.conductors]
    sizes += _ground_sizes(contents)
    if not sizes:
        raise ValueError("clamps and fittings are sized by the largest conductor in the box, and there is none")
    thickest = min(sizes)
    lines = []
    if contents.internal_clamps:
        lines.append(_line(1, "all clamps inside", thickest, nec("314.16(B)(2)", edition)))
    lines += [
        _line(1, f"{fitting}, one for the type", thickest, nec("314.16(B)(3)", edition))
        for fitting in dict.fromkeys(contents.fittings)
    ]
    return lines


def _device_lines(contents: BoxContents, edition: int) -> list[FillLine]:
    lines = []
    for device in contents.devices:
        if device.gangs < 1:
            raise ValueError(f"{device.name} must take at least one gang, not {device.gangs!r}")
        gauge, what = device.gauge, device.name
        if gauge is None:
            gauges = [cable.gauge for cable in contents.cables if cable.conductors]
            if not gauges:
                raise ValueError(f"the size of the wire on {device.name} is not given, and no conductor tells it")
            gauge, what = min(gauges), f"{device.name}, by the largest wire here"
        count = ALLOWANCES_PER_GANG * device.gangs
        lines.append(_line(count, what, gauge, nec("314.16(B)(4)", edition)))
    return lines


def _ground_sizes(contents: BoxContents) -> list[int]:
    own = [cable.ground_gauge or cable.gauge for cable in contents.cables if cable.ground and cable.how != "stays"]
    return own + list(contents.extra_grounds)


def _ground_lines(contents: BoxContents, edition: int) -> list[FillLine]:
    sizes = _ground_sizes(contents)
    if not sizes:
        return []
    what = f"{len(sizes)} grounding {'conductor' if len(sizes) == 1 else 'conductors'}"
    return [_line(ground_allowances(len(sizes), edition), what, min(sizes), cite("grounds in box", edition))]
