"""The curve of a fan as a field of an opening: points from its maker's data sheet."""

from typing import Annotated

from store.records.field import F

FanCurve = Annotated[
    tuple[str, ...],
    F(
        "fan curve",
        "points of its data sheet as flow/pressure, in the units of fan and fan pressure; blank = a straight line",
        example=("0/0.2, 20/0.12, 40/0", "0/50, 34/30, 68/0"),
    ),
]
"""Flow and pressure of each point, as typed."""
