"""What one screw holds: pulled out of wood, pushed sideways in wood, and both in a thin steel stud.

Allowable loads, pounds-force. Wood: the forms of the National Design Specification for Wood Construction (NDS 2018,
American Wood Council), side grain, dry, not near an end or edge, lead hole bored, load-duration factor 1.0. Steel:
AISI S100 E4 (screws), divided by 3.0. The mount's own instructions say which screw goes where, and they win.
"""

from __future__ import annotations

from math import hypot, sqrt
from typing import Literal, NamedTuple

Wood = Literal["SPF", "Hem-Fir", "Douglas Fir-Larch", "Southern Pine"]
GRAVITY: dict[Wood, float] = {"SPF": 0.42, "Hem-Fir": 0.43, "Douglas Fir-Larch": 0.50, "Southern Pine": 0.55}
"""Specific gravity, NDS Table 12.3.3A: Douglas Fir-Larch seen in a secondary copy, the others from memory (high)."""
UNKNOWN_GRAVITY = GRAVITY["SPF"]
"""The lightest common stud: the safe reading when nobody knows the wood."""
WITHDRAWAL_SOURCE = "NDS 2018 12.2"
LATERAL_SOURCE = "NDS 2018 12.3"
STEEL_SOURCE = "AISI S100 E4"

Family = Literal["lag", "wood"]


class Screw(NamedTuple):
    """One size of screw into wood: shank and root diameter in inches, and its bending strength, psi."""

    family: Family
    shank_in: float
    root_in: float
    bending_psi: float


SCREWS: dict[str, Screw] = {
    "lag 1/4": Screw("lag", 0.25, 0.173, 70_000),
    "lag 5/16": Screw("lag", 0.3125, 0.227, 60_000),
    "lag 3/8": Screw("lag", 0.375, 0.265, 45_000),
    "wood screw 6": Screw("wood", 0.138, 0.113, 100_000),
    "wood screw 8": Screw("wood", 0.164, 0.131, 90_000),
    "wood screw 10": Screw("wood", 0.190, 0.152, 80_000),
    "wood screw 12": Screw("wood", 0.216, 0.171, 80_000),
    "wood screw 14": Screw("wood", 0.242, 0.196, 70_000),
}
"""Diameters of NDS Tables L2 and L3; root and bending strength of Tables 12K and 12L, from memory (medium)."""
THREAD_TIP: dict[str, float] = {"lag 1/4": 5 / 32, "lag 5/16": 3 / 16, "lag 3/8": 7 / 32}
"""The tapered tip of a lag, inches, which does not hold: NDS Table L2, from memory (medium)."""
STEEL_FE_PSI = 61_850.0
"""Bearing strength of thin sheet steel (ASTM A653 Grade 33): NDS Table 12K. Plate of 1/4 in has 87,000."""
STEEL_SCREW_IN = {"steel screw 6": 0.138, "steel screw 8": 0.164, "steel screw 10": 0.190, "steel screw 12": 0.216}
STEEL_STUDS: dict[str, tuple[float, float]] = {
    "18 mil": (0.0188, 33_000),
    "27 mil": (0.0283, 33_000),
    "30 mil": (0.0312, 33_000),
    "33 mil": (0.0346, 45_000),
    "43 mil": (0.0451, 45_000),
}
"""Design thickness, inches, and strength, psi: CSSBI bulletin and ASTM C645. Store mils: 20 gauge is two things."""
STEEL_FACTOR = 3.0


class Held(NamedTuple):
    """What one screw holds, pounds-force: straight out, and sideways."""

    pull_lbf: float
    shear_lbf: float


def lag_withdrawal(gravity: float, shank_in: float) -> float:
    """Allowable pull of a lag screw, lbf per inch of thread in the wood: 1800 · G^1.5 · D^0.75, NDS 12.2.1 and Table
    12.2A.

    End grain takes 0.75 of it. Raises ValueError unless both are above 0.
    """
    _check(gravity, shank_in)
    return float(1800 * gravity**1.5 * shank_in**0.75)


def wood_screw_withdrawal(gravity: float, shank_in: float) -> float:
    """Allowable pull of a wood screw, lbf per inch of thread in the wood: 2850 · G² · D, NDS 12.2.2 and Table 12.2B.

    Never in end grain. Raises ValueError unless both are above 0.
    """
    _check(gravity, shank_in)
    return 2850 * gravity**2 * shank_in


def lateral(
    screw: Screw, gravity: float, into_in: float, side_in: float, side_fe_psi: float | None = None, across: bool = True
) -> float:
    """Allowable sideways load of one screw in wood, lbf: the least of the six yield modes of NDS 12.3.1.

    `into_in` is how far it goes into the wood, `side_in` how thick what it holds is: steel with its bearing strength
    `side_fe_psi`, or wood of the same kind when that is left out. `across`: the load is across the grain, the lower
    figure; a weight on an upright stud is along it. Diameter: the root. Less than full depth (8 diameters of a lag, 10
    of a wood screw) lowers it in proportion, and below 4 and 6 diameters it holds nothing (NDS 12.1.4 and 12.1.5, from
    memory, medium). A gap of drywall between the two lowers it in a way that no table covers. Raises ValueError unless
    gravity and sizes are above 0.
    """
    _check(gravity, into_in, side_in)
    full, least = (8, 4) if screw.family == "lag" else (10, 6)
    if into_in < least * screw.shank_in:
        return 0.0
    main_fe = bearing_psi(gravity, screw.shank_in, across)
    side_fe = main_fe if side_fe_psi is None else side_fe_psi
    least_lbf = min(_modes(screw.root_in, screw.bending_psi, into_in, side_in, main_fe, side_fe, _turn(screw, across)))
    return least_lbf * min(1.0, into_in / (full * screw.shank_in))


def bearing_psi(gravity: float, shank_in: float, across: bool) -> float:
    """How hard wood presses back on a screw's side, psi: NDS Table 12.3.3.

    Thin screws 16600 · G^1.84; from 1/4 in on 11200 · G along the grain and 6100 · G^1.45 / √D across it.
    """
    _check(gravity, shank_in)
    if shank_in < 0.25:
        return float(16_600 * gravity**1.84)
    return float(6_100 * gravity**1.45 / sqrt(shank_in)) if across else 11_200 * gravity


def _turn(screw: Screw, across: bool) -> float:
    """Kθ = 1 + θ / 360: only of screws of 1/4 in and more, NDS Table 12.3.1B and its note."""
    return 1.25 if across and screw.shank_in >= 0.25 else 1.0


def _modes(d: float, bend: float, main: float, side: float, main_fe: float, side_fe: float, turn: float) -> list[float]:
    """Im, Is, II, IIIm, IIIs and IV of NDS Table 12.3.1A, single shear, with Rd of Table 12.3.1B."""
    if d < 0.25:
        kd = 2.2 if d <= 0.17 else 10 * d + 0.5
        rd = (kd * turn,) * 3
    else:
        rd = (4 * turn, 3.6 * turn, 3.2 * turn)
    re, rt = main_fe / side_fe, main / side
    k1 = (sqrt(re + 2 * re**2 * (1 + rt + rt**2) + rt**2 * re**3) - re * (1 + rt)) / (1 + re)
    k2 = -1 + sqrt(2 * (1 + re) + 2 * bend * (1 + 2 * re) * d**2 / (3 * main_fe * main**2))
    k3 = -1 + sqrt(2 * (1 + re) / re + 2 * bend * (2 + re) * d**2 / (3 * main_fe * side**2))
    return [
        d * main * main_fe / rd[0],
        d * side * side_fe / rd[0],
        k1 * d * side * side_fe / rd[1],
        k2 * d * main * main_fe / ((1 + 2 * re) * rd[2]),
        k3 * d * side * main_fe / ((2 + re) * rd[2]),
        d**2 / rd[2] * sqrt(2 * main_fe * bend / (3 * (1 + re))),
    ]


def in_wood(
    screw: str,
    gravity: float,
    thread_in: float,
    side_in: float,
    side_fe_psi: float | None = None,
    *,
    across: bool = True,
) -> Held:
    """What one screw of `SCREWS` holds in wood; `across` as in `lateral`. Raises KeyError for another screw, and
    ValueError as the two sums do; with no thread in the wood it holds nothing."""
    one = SCREWS[screw]
    if thread_in <= 0:
        return Held(0.0, 0.0)
    each = lag_withdrawal if one.family == "lag" else wood_screw_withdrawal
    return Held(each(gravity, one.shank_in) * thread_in, lateral(one, gravity, thread_in, side_in, side_fe_psi, across))


def in_steel(screw: str, stud: str) -> Held:
    """What one sheet-metal screw of `STEEL_SCREW_IN` holds in one wall of a steel stud of `STEEL_STUDS`.

    Pull-out 0.85 · t · d · Fu; sideways the lesser of tilting 4.2 · √(t³ d) · Fu and bearing 2.7 · t · d · Fu; each
    divided by 3.0 (AISI S100 E4.3, E4.4). Prying at a lever tears lower. Raises KeyError for what is not listed.
    """
    d, (t, fu) = STEEL_SCREW_IN[screw], STEEL_STUDS[stud]
    tilt, bear = 4.2 * sqrt(t**3 * d) * fu, 2.7 * t * d * fu
    return Held(0.85 * t * d * fu / STEEL_FACTOR, min(tilt, bear) / STEEL_FACTOR)


def at_angle(held: Held, pull_lbf: float, shear_lbf: float) -> float:
    """What a screw holds in the direction of its load, lbf: W · Z / (W · cos² + Z · sin²), NDS 12.4.1 (from memory,
    high). `pull_lbf` and `shear_lbf` only give the direction. 0 where it holds nothing that way."""
    most = max(pull_lbf, shear_lbf)
    if not most:
        return max(held)
    # By the larger first: of two loads next to nothing the length would be rounded.
    load = hypot(pull_lbf / most, shear_lbf / most)
    s, c = pull_lbf / most / load, shear_lbf / most / load
    if (s and held.pull_lbf <= 0) or (c and held.shear_lbf <= 0):
        return 0.0
    if not s or not c:
        return held.pull_lbf if s else held.shear_lbf
    return held.pull_lbf * held.shear_lbf / (held.pull_lbf * c**2 + held.shear_lbf * s**2)


def thread_in_wood(screw_in: float, tip_in: float, covering_in: float, threaded_in: float | None = None) -> float:
    """Thread that bites, inches: what is left of a screw behind plate, drywall and finish, without its tip.

    Never more than its threaded part without the tip, never below 0; without `threaded_in` the usual share of a
    screw of its length, two thirds and at most 6 in.
    """
    thread = min(6.0, 2 * screw_in / 3) if threaded_in is None else threaded_in
    return max(0.0, min(screw_in - covering_in, thread) - tip_in)


def _check(*values: float) -> None:
    if min(values) <= 0:
        raise ValueError("a screw in wood needs a specific gravity and sizes above 0")
