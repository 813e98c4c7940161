"""Two lines that are always in sight: the stages with where the job is, and what holds the next one."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from rich.style import Style
from textual import events
from textual.message import Message
from textual.strip import Strip

from store.measure.counts import plural
from tui.shared.text import Part, fit, one_line, strip
from tui.widgets.ground import Grounded

if TYPE_CHECKING:
    from store.rules.gate.gate import Standing


class StageLine(Grounded):
    """Stages, and the holds of the next one. A click asks for the gate."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {
        "stage-line--past",
        "stage-line--here",
        "stage-line--ahead",
        "stage-line--stop",
        "stage-line--open",
        "stage-line--clear",
    }
    DEFAULT_CSS = """
    StageLine {
        height: 2;
        background: $panel;
        & .stage-line--past { color: $done; }
        & .stage-line--here { background: $raised; color: $foreground; text-style: bold; }
        & .stage-line--ahead { color: $muted; }
        & .stage-line--stop { color: $stop; text-style: bold; }
        & .stage-line--open { text-style: bold; }
        & .stage-line--clear { color: $done; }
    }
    """

    class Asked(Message):
        """The person wants to see the gate."""

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002 - Textual's own name
        super().__init__(id=id)
        self._standing: Standing | None = None
        self._note = ""

    def show(self, standing: Standing, note: str = "") -> None:
        """Show where the job stands; `note` is what there is to say when no stage is left."""
        if (standing, note) != (self._standing, self._note):
            self._standing, self._note = standing, note
            self.refresh()

    def render_line(self, y: int) -> Strip:
        """The stages, or the holds."""
        width, base = self.size.width, self.ground
        if self._standing is None:
            return Strip.blank(width, base)
        return self._stages(self._standing, width, base) if y == 0 else self._holds(self._standing, width, base)

    def _stages(self, now: Standing, width: int, base: Style) -> Strip:
        from store.rules.gate.gate import STAGES  # the first paint has no stages to show

        here = STAGES.index(now.stage)
        parts: list[Part] = []
        for number, stage in enumerate(STAGES):
            kind = "past" if number < here else "here" if number == here else "ahead"
            sign = {"past": "✓", "here": "▸", "ahead": " "}[kind]
            parts.append((f"{sign}{one_line(stage)} ", self.get_component_rich_style(f"stage-line--{kind}")))
        return strip(parts, width, base)

    def _holds(self, now: Standing, width: int, base: Style) -> Strip:
        from store.rules.gate.gate import locked_line

        if now.claimed:
            text = f"! {now.claimed} is recorded, not earned: {one_line(now.unearned)}"
            return strip([(fit(text, width), self.get_component_rich_style("stage-line--stop"))], width, base)
        if now.next is None:
            # One thing at a time: both would be cut at 80 cells.
            text = fit(f"{_late(now)} (g)" if now.found_after else self._note or "In use", width)
            return strip([(text, self.get_component_rich_style("stage-line--clear"))], width, base)
        if not now.holds:
            text = one_line(f"Ready for {now.next}. g = move on")
            return strip([(text, self.get_component_rich_style("stage-line--clear"))], width, base)
        late = f"{_late(now)}. " if now.found_after else ""
        grave = any(each.kind in ("stop", "outside") for each in now.holds)
        text = f"{'■' if grave else '□'} {late}{one_line(locked_line(now))} (g)"
        style = self.get_component_rich_style(f"stage-line--{'stop' if grave else 'open'}")
        return strip([(fit(text, width), style)], width, base)

    def on_click(self, event: events.Click) -> None:
        """Ask for the gate."""
        self.post_message(self.Asked())


def _late(now: Standing) -> str:
    """`Found after close-in: K2/pulled`; several are counted, as the gate lists them."""
    found = now.found_after
    return one_line(f"Found after close-in: {found[0].key if len(found) == 1 else plural(len(found), 'item')}")
