"""What a bench reports: one line a measure, each beside its floor and held against its bar."""

from __future__ import annotations

from typing import NamedTuple


class Row(NamedTuple):
    """One measure."""

    name: str
    value: float
    """As measured, in `unit`."""
    unit: str = ""
    floor: float | None = None
    """The same unit, measured in the same run: what nothing can be quicker than. None where there is none."""
    bar: float | None = None
    """The most allowed: of the ratio where there is a floor, else of the value. None only tells."""

    @property
    def ratio(self) -> float | None:
        """The measure over its floor."""
        return self.value / self.floor if self.floor else None

    @property
    def ok(self) -> bool:
        """True when it is not past its bar."""
        held = self.ratio if self.ratio is not None else self.value
        return self.bar is None or held <= self.bar


def as_row(each: Row | tuple[str, float, float, str]) -> Row:
    """A row of a bench that gives `(name, measured, bar, unit)`, its floor already taken into a ratio (`x`)."""
    if isinstance(each, Row):
        return each
    name, measured, bar, unit = each
    return Row(name, measured, unit, bar=bar)


def table(rows: list[Row]) -> str:
    """The rows as lines of text."""
    lines = [("measure", "value", "floor", "ratio", "bar", "")]
    for row in rows:
        lines.append(
            (
                row.name,
                f"{row.value:,.3g} {row.unit}".strip() if row.value < 1000 else f"{row.value:,.0f} {row.unit}".strip(),
                "" if row.floor is None else f"{row.floor:,.3g} {row.unit}".strip(),
                "" if row.ratio is None else f"{row.ratio:.2f} x",
                "" if row.bar is None else f"{row.bar:g}",
                "ok" if row.ok else "OVER",
            )
        )
    widths = [max(len(line[at]) for line in lines) for at in range(6)]
    return "\n".join(
        "  ".join([line[0].ljust(widths[0]), *(line[at].rjust(widths[at]) for at in range(1, 6))]) for line in lines
    )
