"""Lists with worked-out figures beside what was entered: boxes, circuits, cables, raceways."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from msgspec.structs import replace

from store.measure.length import Length, show_length
from store.measure.numbers import show_number
from store.records.build import Fixing
from store.records.wiring import Box, Cable, Circuit, Raceway
from store.rules.cable.kinds import sold_text
from store.rules.core.amounts import NEWTON_PER_LBF
from store.rules.core.figures import figures_on
from store.rules.core.was_done import cable_state
from store.rules.core.wording import plural
from tui.acts.reaching import WAY_KEY
from tui.acts.replacing import change
from tui.shared.bars import bar, share
from tui.view.state import State
from tui.view.view import Key, KindView
from tui.widgets.record_table import Column, Line

Figured = tuple[str, str, int]
"""Name of the figure, title of its column, width. `bar NAME` is a share as a bar, by its name in `SHARES`."""
BAR = "bar "


LICENSED = ". Planning aid. Line voltage: licensed electrician"
"""Under every list of power."""


class FiguredView(KindView):
    """A plain list with columns for figures at its right."""

    extra: tuple[Figured, ...] = ()
    narrow: Mapping[str, tuple[str, int]] = {}
    """Title and width of fields that stand in a smaller column here, so that 80 cells hold the figures too."""
    caution: str = ""
    us_only: frozenset[str] = frozenset()
    """Names of figures that only the US code counts by."""

    def _extra(self, state: State) -> Sequence[Figured]:
        return [each for each in self.extra if state.job.settings.region == "us" or each[0] not in self.us_only]

    def columns(self, state: State) -> tuple[Column, ...]:
        """The fields, then the figures."""
        tag, *plain = super().columns(state)
        fields = []
        for field, column in zip(self.fields, plain, strict=True):
            title, width = self.narrow.get(field.key, (column.title, column.width))
            fields.append(Column(title, width, column.right, column.grow))
        return (tag, *fields, *(Column(title, width, right=True) for _, title, width in self._extra(state)))

    def line(self, state: State, row: Any) -> Line:
        """The fields, then the figures; a record that something is wrong with is marked."""
        plain = super().line(state, row)
        found = figures_on(state.job, row.tag)
        shown = (_cell(found, name, width, state.job.settings.metric) for name, _, width in self._extra(state))
        wrong = state.wrong(row.tag)
        tag, *entered = plain.cells
        if getattr(row, "retired", None):
            entered = [
                "retired" if field.key == "state" else cell for field, cell in zip(self.fields, entered, strict=True)
            ]
        return Line((f"{tag}{'!' if wrong else ''}", *entered, *shown), state.tone(row.tag) or plain.tone)

    def order(self, state: State, row: Any, column: int) -> Any:
        """Figures by value."""
        at = column - 1 - len(self.fields)
        if at < 0:
            return super().order(state, row, column)
        found, name = figures_on(state.job, row.tag), self._extra(state)[at][0]
        if name.startswith(BAR):
            part = share(found, name.removeprefix(BAR))
            return part[0] / part[1] if part is not None else None
        value = found.get(name)
        return value.nm if isinstance(value, Length) else value

    def summary(self, state: State, rows: Any) -> str:
        """How many, and how many have something wrong."""
        wrong = sum(state.wrong(row.tag) for row in rows)
        mend = f", {plural(wrong, 'problem')} (!)" if wrong else ""
        return f"{len(rows)} shown{mend}{self.caution}"


class Boxes(FiguredView):
    """Boxes with their fill against their volume."""

    name = "box"
    title = "Boxes"
    about = (
        "Boxes for power and signal; places are to the center. Box fill is what the code counts in the box "
        "against the volume stamped in it. Enter = box fill line by line."
    )
    first = "a = add a box where something plugs in or a cable ends. Its volume is stamped in it."
    sheets = ("electrician",)
    kinds = (Box,)
    keys = (WAY_KEY,)
    shown = ("name", "what", "circuit", "y")
    narrow = {"name": ("name", 14), "what": ("kind", 11), "circuit": ("on", 4), "y": ("up", 9)}  # noqa: RUF012 - never changed
    extra = (("fill_in3", "fill in³", 8), ("volume_in3", "of in³", 7), ("bar box fill", "", 6))
    us_only = frozenset({"fill_in3", "volume_in3", "bar box fill"})
    caution = LICENSED


class Circuits(FiguredView):
    """Circuits with what is on them."""

    name = "circuit"
    title = "Circuits"
    about = (
        "Branch circuits: watts on each, amps to plan for (with what the code adds for heat and loads of 3 hours "
        "or more), the limit, the room left, and the voltage drop at the far end (3% is advised). Enter = how it "
        "was calculated."
    )
    first = "a = add each breaker that feeds the wall, as the directory of the electrical panel has it."
    sheets = ("electrician",)
    kinds = (Circuit,)
    keys = (WAY_KEY,)
    shown = ("name", "breaker", "conductor")
    narrow = {"name": ("name", 11), "breaker": ("A", 4), "conductor": ("wire", 8)}  # noqa: RUF012 - never changed
    extra = (
        ("connected_w", "load W", 7), ("design_a", "plan A", 6), ("limit_a", "of A", 5), ("bar load", "", 6),
        ("drop_pct", "drop %", 6), ("bar voltage drop", "of 3%", 6), ("room_a", "A free", 6), ("drop_v", "V", 5),
    )  # fmt: skip
    caution = LICENSED


def _as_done(state: State, cable: Cable) -> Cable:
    return replace(cable, state=cable_state(state.job, cable))


class Cables(FiguredView):
    """Cables with their lengths."""

    name = "cable"
    title = "Cables"
    about = (
        "Every wire, its ends, and how long to cut it: along its route, with waste and the slack at each end. A "
        "* marks a length measured by hand; it overrides the plan. The tag goes on both ends. A replaced one is "
        "kept on file."
    )
    first = "a = add a cable from one tag to another. Type and rating are printed on the jacket."
    keys = (WAY_KEY, Key("x", "Replace", change))
    sheets = ("labels",)
    kinds = (Cable,)
    shown = ("name", "type", "start", "end", "state")
    narrow: Mapping[str, tuple[str, int]] = {
        "name": ("name", 10), "type": ("type", 11), "start": ("from", 4), "end": ("to", 4), "state": ("state", 9),
    }  # fmt: skip
    extra = (("cut", "cut", 8), ("buy", "buy", 12), ("path", "path", 12))

    def line(self, state: State, row: Any) -> Line:
        """A path that was measured by hand is marked; a cable whose pulling is signed off is pulled."""
        plain = super().line(state, _as_done(state, row))
        if row.measured is None:
            return plain
        return Line((*plain.cells[:-1], f"{plain.cells[-1]}*"), plain.tone)

    def order(self, state: State, row: Any, column: int) -> Any:
        """By the state that is shown."""
        return super().order(state, _as_done(state, row), column)


class Raceways(FiguredView):
    """Raceways with their fill."""

    name = "raceway"
    title = "Raceways"
    about = (
        "Raceways that let you change cables later: how full each is by area, and how many more like "
        "its thickest cable fit. Enter = bends left, the hole for its largest plug, holes, grommet."
    )
    first = "a = add one wherever you may want another cable later: at the TV, at the cabinet."
    kinds = (Raceway,)
    keys = (WAY_KEY,)
    shown = ("name", "type", "size", "start", "end", "string")
    narrow: Mapping[str, tuple[str, int]] = {
        "name": ("name", 9), "type": ("type", 7), "size": ("size", 5), "start": ("from", 4), "end": ("to", 4),
        "string": ("string", 6),
    }  # fmt: skip
    extra = (
        ("fill_pct", "fill %", 6), ("limit_pct", "of %", 4), ("bar fill", "", 5), ("more_cables", "more", 4),
        ("path", "length", 9),
    )  # fmt: skip


class Fixings(FiguredView):
    """Screws and anchors, how many times over they hold, and the load on the one that is loaded hardest."""

    name = "fixing"
    title = "Fixings"
    about = (
        "The screws of each bracket, shelf and cabinet: the margin, and the load on the hardest one. "
        "Enter = how it was calculated, and the blocking behind it. The mount's own manual wins."
    )
    first = "a = add the TV bracket. Its hole pattern and screws are in its manual."
    kinds = (Fixing,)
    shown = ("of", "what", "count", "into", "length")
    narrow: Mapping[str, tuple[str, int]] = {
        "of": ("holds", 5), "what": ("screw", 14), "count": ("no.", 3), "into": ("into", 12), "length": ("length", 7),
    }  # fmt: skip
    extra = (("margin", "holds x", 7), ("needed_n", "load", 7))


IN_WORDS: Mapping[str, Callable[[Any, bool], str]] = {
    "cut": lambda value, metric: sold_text(value.nm, metric),
    "needed_n": lambda value, metric: f"{value:.0f} N" if metric else f"{value / NEWTON_PER_LBF:.0f} lb",
}
"""Figures whose unit stands in the cell: a cable by the foot, a force in the unit of the job."""


def _cell(found: Mapping[str, Any], name: str, width: int, metric: bool) -> str:
    """A figure, or a share as a bar; empty where it is not known."""
    if name in IN_WORDS and (value := found.get(name)) is not None:
        return IN_WORDS[name](value, metric)
    if not name.startswith(BAR):
        return _shown(found.get(name), metric)
    part = share(found, name.removeprefix(BAR))
    return bar(*part, width) if part is not None else ""


def _shown(value: Any, metric: bool) -> str:
    if value is None:
        return ""
    if isinstance(value, Length):
        return show_length(value, metric)
    return show_number(round(value, 2)) if isinstance(value, int | float) else str(value)
