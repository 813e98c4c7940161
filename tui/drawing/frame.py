"""How the world maps to the cells of a drawing, and where among them a label may stand."""

from __future__ import annotations

import msgspec


class Frame(msgspec.Struct, frozen=True):
    """How the world maps to cells: one scale, a row is worth two columns. World in whole nanometres, up is more."""

    columns: int
    rows: int
    left_nm: int
    """At the middle of the first column."""
    bottom_nm: int
    """At the middle of the last row."""
    column_nm: int
    """World width of a column."""

    @classmethod
    def fit(
        cls,
        extent: tuple[int, int, int, int],
        columns: int,
        rows: int,
        zoom: float = 1.0,
        centre: tuple[int, int] | None = None,
    ) -> Frame:
        """The frame in which left, bottom, right and top just fit, magnified by `zoom` about a centre."""
        left, bottom, right, top = extent
        across, up = max(columns - 1, 1), max(rows - 1, 1)
        whole = max(-(-(right - left) // across), -(-(top - bottom) // (2 * up)), 1)
        column = max(round(whole / zoom), 1)
        x, y = centre or ((left + right) // 2, (bottom + top) // 2)
        return cls(columns, rows, x - column * across // 2, y - column * up, column)

    def column(self, x_nm: int) -> int:
        """The column of a place across."""
        return (2 * (x_nm - self.left_nm) + self.column_nm) // (2 * self.column_nm)

    def row(self, y_nm: int) -> int:
        """The row of a height; the first row is the top one."""
        return self.rows - 1 - (y_nm - self.bottom_nm + self.column_nm) // (2 * self.column_nm)

    def dot(self, point: tuple[int, int]) -> tuple[int, int]:
        """The dot of a place, two across and four down in a cell, counted from the top left."""
        x, y = point
        # A cell's middle lies between its dots; the half column and half row that it reaches to are added first.
        across = (2 * (x - self.left_nm) + self.column_nm) // self.column_nm
        up = (2 * (y - self.bottom_nm) + 2 * self.column_nm) // self.column_nm
        return across, self.rows * 4 - 1 - up

    def world(self, column: int, row: int) -> tuple[int, int]:
        """The place at the middle of a cell."""
        return self.left_nm + column * self.column_nm, self.bottom_nm + (self.rows - 1 - row) * 2 * self.column_nm


class Place(msgspec.Struct, frozen=True):
    """Where a label may stand."""

    column: int
    row: int
    align: int
    """-1: starts in that column, 0: centred on it, 1: ends in it."""
    room: int
    """Cells it may take."""
    over: bool = False
    """True when it may stand on the lines of its own thing; it never stands on those of another, nor on a label."""
