"""Voltage lost along a branch circuit, in feet and AWG or in metres and mm², and what is advised about it.

Both practices give a recommendation, not a limit that an inspector enforces on a house circuit. Every load
is taken as drawing its full current whatever voltage reaches it, and copper is at its working temperature,
so the figure is the highest likely. Resistance alone counts: up to 6 AWG or 10 mm² reactance is far below
the rounding.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from store.trade.measured.bounds import exceeds, not_negative, past, positive
from store.trade.measured.citations import Note, cite
from store.trade.power import tables_metric as metric

US_BRANCH_PERCENT = 3.0  # NEC 210.19(A), informational note
US_TOTAL_PERCENT = 5.0  # NEC 215.2(A) and 210.19(A), informational notes: feeder and branch circuit together
ORIGIN = -1


class Stretch(Struct, frozen=True):
    """A length of cable and the current drawn where it ends.

    `length` is one way, in the unit of length that `ohms_per_length` (one conductor) uses. `after` is the
    index of the stretch that feeds this one, or ORIGIN for the panel; it must come earlier in the list.
    """

    length: float
    ohms_per_length: float
    amps: float
    after: int = ORIGIN


def chain(parts: Sequence[tuple[float, float]], ohms_per_length: float) -> tuple[Stretch, ...]:
    """Lay parts of (length, amps at its end) one after another, each fed by the one before, in one cable."""
    return tuple(Stretch(length, ohms_per_length, amps, at - 1) for at, (length, amps) in enumerate(parts))


def two_wire_drop_v(amps: float, one_way_ft: float, ohms_per_kft: float) -> float:
    """Volts lost there and back in a two-wire circuit: 2 × length × ohm/kft ÷ 1000 × amps.

    Ordinary physics. Holds for direct current and for single-phase loads at small sizes. ValueError if
    negative.
    """
    not_negative("the current", amps)
    not_negative("the length", one_way_ft)
    return 2 * one_way_ft * not_negative("the resistance", ohms_per_kft) / 1000 * amps


def drops_v(stretches: Sequence[Stretch]) -> tuple[float, ...]:
    """Volts lost from the panel to the end of each stretch, out and back, with every load on.

    Each stretch carries its own load and all that it feeds (Kirchhoff). ValueError when a stretch names a
    feeder that does not come before it, or a negative number.
    """
    carried = [not_negative("the current", each.amps) for each in stretches]
    for at in range(len(stretches) - 1, -1, -1):
        feeder = stretches[at].after
        if not ORIGIN <= feeder < at:
            raise ValueError(f"stretch {at} must be fed from an earlier one or from the panel, not from {feeder}")
        if feeder != ORIGIN:
            carried[feeder] += carried[at]
    lost: list[float] = []
    for each, amps in zip(stretches, carried, strict=True):
        before = 0.0 if each.after == ORIGIN else lost[each.after]
        loop = 2 * not_negative("the length", each.length) * not_negative("the resistance", each.ohms_per_length)
        lost.append(before + amps * loop)
    return tuple(lost)


def metric_limit_percent(metres: float, *, lighting: bool) -> float:
    """Advised drop from the origin in percent: 3 lighting, 5 other, and a little more beyond 100 m.

    BS 7671:2018 Appendix 4, section 6.4, public supply: 0.005 % a metre beyond 100 m, at most 0.5 %.
    """
    base = metric.LIGHTING_DROP if lighting else metric.OTHER_DROP
    beyond_m = max(0.0, not_negative("the length", metres) - metric.LONG_RUN_FROM_M)
    return base.percent + min(metric.LONG_RUN_MOST_PERCENT, beyond_m * metric.LONG_RUN_PERCENT_PER_M)


def us_advice(drop_v: float, volts: float, edition: int) -> Note | None:
    """What to say about a branch-circuit drop at the farthest outlet; None when it is within 3 %.

    NEC informational notes, which advise and do not bind (90.5(C)).
    """
    percent = not_negative("the drop", drop_v) / positive("the voltage", volts) * 100
    if not exceeds(percent, US_BRANCH_PERCENT):
        return None
    text = f"{drop_v:.2f} V ({past(percent, US_BRANCH_PERCENT)}%) is lost at the far end; "
    if exceeds(percent, US_TOTAL_PERCENT):
        return Note(
            "warn",
            text + "even feeder and branch together are advised to stay within 5%: use a thicker conductor",
            cite("total drop", edition),
        )
    return Note("note", text + "3% is advised on a branch circuit (advice, not a rule)", cite("branch drop", edition))


def metric_advice(drop_v: float, metres: float, *, lighting: bool, volts: float = 230.0) -> Note | None:
    """What to say about a drop from the origin of a 230 V installation; None when within the advised limit."""
    percent = not_negative("the drop", drop_v) / positive("the voltage", volts) * 100
    limit = metric_limit_percent(metres, lighting=lighting)
    if not exceeds(percent, limit):
        return None
    use = metric.LIGHTING_DROP.use if lighting else metric.OTHER_DROP.use
    return Note(
        "warn",
        f"{drop_v:.2f} V ({past(percent, limit)} %) is lost at the far end; {limit:.3g} % is advised for {use}",
        "BS 7671:2018 Appendix 4, section 6.4",
    )
