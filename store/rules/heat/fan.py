"""The fan of a cabinet: its curve as entered, and what it moves through the openings."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from store.records.fan import read_point
from store.records.wall import Opening
from store.trade.heat.fan_curve import Curve, as_curve, flow_sold, on_curve
from store.trade.heat.fans import SMALL_FAN_INH2O, free_flow_wanted, resistance, working_point

FAN_SHARE = 0.5
"""Of the flow that a fan's maker states in free air, what it moves through vents: common practice, no source."""
By = Literal["", "curve", "line", "share"]
"""How its flow is known: by its maker's curve, by a straight line between two figures, by a share of its free flow."""


def bad_points(opening: Opening, metric: bool) -> list[str]:
    """The points that are no flow and pressure; all of them where together they make no curve."""
    bad = [text for text in opening.fan_curve if read_point(text, metric) is None]
    return bad or ([] if curve_of(opening, metric) else list(opening.fan_curve))


def curve_of(opening: Opening, metric: bool) -> Curve:
    """The curve of its fan; empty where none is entered, or not all of it can be read."""
    points = [read_point(text, metric) for text in opening.fan_curve]
    try:
        return as_curve([each for each in points if each is not None]) if None not in points else ()
    except ValueError:
        return ()


def fan_by(opening: Opening, curve: Curve) -> By:
    """How the flow of its fan is known; empty without a fan."""
    if curve:
        return "curve"
    if opening.fan is None or opening.fan <= 0:
        return ""
    return "line" if opening.fan_shut is not None and opening.fan_shut > 0 else "share"


def fan_flow(opening: Opening, curve: Curve, areas: Sequence[float]) -> float:
    """What its fan moves, cfm: on its maker's curve where that is entered; else at its working point where its pressure
    is; else half its free flow, and less through small openings."""
    resists, free = resistance(areas) or 0.0, opening.fan or 0.0
    if curve:
        return on_curve(curve, resists).cfm
    if opening.fan_shut is not None and opening.fan_shut > 0:
        return working_point(free, opening.fan_shut, resists).cfm
    return min(free * FAN_SHARE, working_point(free, SMALL_FAN_INH2O, resists).cfm)


def fan_wanted(opening: Opening, curve: Curve, cfm: float, resists: float | None) -> float | None:
    """Free flow of a fan of its kind that would do; None where its pressure is too small for any."""
    if resists is None:
        return cfm / FAN_SHARE
    if curve:
        return flow_sold(curve, cfm, resists)
    shut = opening.fan_shut
    if shut is not None and shut > 0:
        return free_flow_wanted(cfm, shut, resists)
    # As `fan_flow` counts a fan of no known pressure, so that the fan that is named here does.
    through = free_flow_wanted(cfm, SMALL_FAN_INH2O, resists)
    return None if through is None else max(cfm / FAN_SHARE, through)
