"""The bent board against beam elements assembled by themselves, the closed forms, and statics."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.measure.length import INCH_NM
from store.trade.build import beam
from store.trade.build.beam import Held, PointLoad
from store.trade.fit import shelf
from tests.tries import tries

STIFF = 1.82e6 * 0.395508
ELEMENTS = 240


def by_elements(
    length: float, stiff: float, held: list[Held], even: float, points: list[PointLoad]
) -> tuple[float, list[float]]:
    """Largest sag at a node, and the reactions: cubic beam elements, stiffness method; places must be on nodes."""
    h, size = length / ELEMENTS, 2 * (ELEMENTS + 1)
    k = stiff / h**3 * np.array(
        [[12, 6 * h, -12, 6 * h], [6 * h, 4 * h**2, -6 * h, 2 * h**2],
         [-12, -6 * h, 12, -6 * h], [6 * h, 2 * h**2, -6 * h, 4 * h**2]]
    )  # fmt: skip
    q = even / length
    one = np.array([q * h / 2, q * h**2 / 12, q * h / 2, -q * h**2 / 12])
    whole, load = np.zeros((size, size)), np.zeros(size)
    for at in range(ELEMENTS):
        part = slice(2 * at, 2 * at + 4)
        whole[part, part] += k
        load[part] += one
    for each in points:
        load[2 * round(each.at_in / h)] += each.lbf
    fixed = [2 * round(each.at_in / h) for each in held]
    fixed += [2 * round(each.at_in / h) + 1 for each in held if each.clamped]
    free = [at for at in range(size) if at not in fixed]
    moved = np.zeros(size)
    moved[free] = np.linalg.solve(whole[np.ix_(free, free)], load[free])
    back = load - whole @ moved
    return float(max(moved[::2].max(), 0.0)), [float(back[2 * round(each.at_in / h)]) for each in held]


SUPPORTS: list[list[Held]] = [
    [Held(0), Held(48)],
    [Held(0), Held(24), Held(48)],
    [Held(8), Held(40)],
    [Held(6), Held(24), Held(42)],
    [Held(0, True), Held(48)],
    [Held(0, True), Held(48, True)],
    [Held(0, True)],
    [Held(0), Held(16), Held(32), Held(48)],
]


@pytest.mark.parametrize("held", SUPPORTS)
@pytest.mark.parametrize("points", [[], [PointLoad(40, 12)], [PointLoad(40, 36), PointLoad(15, 48)]])
def test_any_row_of_supports_agrees_with_beam_elements(held: list[Held], points: list[PointLoad]) -> None:
    found = beam.bent(48, STIFF, held, 80, points)
    sag, reactions = by_elements(48, STIFF, held, 80, points)
    assert found.sag_in == pytest.approx(sag, rel=1e-4, abs=1e-9)
    assert found.reactions_lbf == pytest.approx(reactions, rel=1e-6, abs=1e-6)


@given(
    st.floats(10, 120), st.floats(1e5, 1e7), st.floats(0, 300),
    st.lists(st.tuples(st.floats(0, 100), st.floats(0, 1)), max_size=4),
    st.lists(st.integers(0, 20), min_size=2, max_size=4, unique=True),
)  # fmt: skip
@tries(30)
def test_the_supports_carry_the_whole_load_and_balance_it(
    length: float, stiff: float, even: float, loads: list[tuple[float, float]], places: list[int]
) -> None:
    points = [PointLoad(lbf, share * length) for lbf, share in loads]
    held = [Held(length * (at / 20)) for at in places]
    found = beam.bent(length, stiff, held, even, points)
    total = even + sum(one.lbf for one in points)
    turning = even * length / 2 + sum(one.lbf * one.at_in for one in points)
    assert sum(found.reactions_lbf) == pytest.approx(total, rel=1e-6, abs=1e-6 * (1 + total))
    carried = sum(force * one.at_in for force, one in zip(found.reactions_lbf, held, strict=True))
    assert carried == pytest.approx(turning, rel=1e-6, abs=1e-5 * (1 + turning))


@pytest.mark.parametrize(
    ("held", "support", "load"),
    [
        ([Held(0), Held(36)], "simple", "even"),
        ([Held(0), Held(36)], "simple", "centre"),
        ([Held(0, True), Held(36, True)], "fixed", "even"),
        ([Held(0, True), Held(36)], "fixed and simple", "even"),
        ([Held(0, True)], "cantilever", "even"),
        ([Held(0, True)], "cantilever", "end"),
    ],
)
def test_it_gives_the_closed_forms(held: list[Held], support: shelf.Support, load: shelf.Load) -> None:
    points = {"even": [], "centre": [PointLoad(75, 18)], "end": [PointLoad(75, 36)]}[load]
    found = beam.bent(36, STIFF, held, 75 if load == "even" else 0, points)
    wanted = shelf.sag_nm(36 * INCH_NM, 0.395508, 1.82e6, 75, support, load) / INCH_NM
    assert found.sag_in == pytest.approx(wanted, rel=2e-5)


@pytest.mark.parametrize(
    "refused",
    [
        lambda: beam.bent(0, 1, [Held(0)], 1),
        lambda: beam.bent(10, 1, [Held(0)], 1),
        lambda: beam.bent(10, 1, [Held(0), Held(0)], 1),
        lambda: beam.bent(10, 1, [Held(0), Held(11)], 1),
        lambda: beam.bent(10, 1, [Held(0), Held(10)], -1),
        lambda: beam.bent(10, 1, [Held(0), Held(10)], 1, [PointLoad(1, 12)]),
    ],
)
def test_a_board_that_cannot_be_is_refused(refused: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match=r"above 0|off the board|one place|does not hold"):
        refused()
