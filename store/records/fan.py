"""The curve of a fan as a field of an opening: points from its maker's data sheet."""

from typing import Annotated

from store.measure.errors import BadValue
from store.records.field import F
from store.records.metric_units import read_in

FanCurve = Annotated[
    tuple[str, ...],
    F(
        "fan curve",
        "points of its data sheet, flow/pressure, in the units of fan and fan pressure",
        example=("0/0.2, 20/0.12, 40/0", "0/50, 34/30, 68/0"),
    ),
]
"""Flow and pressure of each point, as typed."""


def read_point(text: str, metric: bool) -> tuple[float, float] | None:
    """A point typed as flow/pressure, like `20/0.12`, in the units of the job; None when it cannot be read as one."""
    flow, slash, pressure = text.partition("/")
    try:
        found = read_in(flow, "cfm", metric), read_in(pressure, "inH2O", metric)
    except BadValue:
        return None
    return found if slash and min(found) >= 0 else None
