"""What the tests of the screen share."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from textual._compositor import Compositor
from textual.css.model import RuleSet
from textual.css.stylesheet import Stylesheet
from textual.renderables.background_screen import BackgroundScreen

from tui.shared.text import Region

_read: dict[tuple[Any, ...], list[RuleSet]] = {}


@pytest.fixture(autouse=True)
def _no_region_is_left() -> Iterator[None]:
    """The job of a test speaks for that test alone."""
    yield
    Region.turn = None


@pytest.fixture(scope="session", autouse=True)
def _styles_are_read_once() -> None:
    """The program that each test starts has the same styles. Textual keeps what it read of them, but not from one
    program to the next; here it does, by the very text, its place and the variables in force.
    """
    read = Stylesheet._parse_rules

    def kept(self: Stylesheet, css: str, *place: Any, **more: Any) -> list[RuleSet]:
        key = (css, place, tuple(more.items()), tuple(self._variables.items()))
        if key not in _read:
            _read[key] = read(self, css, *place, **more)
        return _read[key]

    Stylesheet._parse_rules = kept  # type: ignore[method-assign]
    # The same answer, without a call in Python: sets of rules are asked a hundred times for each widget.
    RuleSet.__hash__ = object.__hash__  # type: ignore[method-assign]


@pytest.fixture(scope="session", autouse=True)
def _what_is_behind_a_window_is_not_dimmed() -> None:
    """Textual mixes each color behind a window anew with each paint, which is a quarter of a test with windows; the
    words behind it stay."""
    BackgroundScreen.process_segments = classmethod(lambda _cls, segments, _color: segments)  # type: ignore[method-assign, assignment]


@pytest.fixture(scope="session", autouse=True)
def _nothing_is_painted_unseen() -> None:
    """Nobody looks at a test's screen before it has come to rest: it is painted
    when it is looked at, by `Seat.paint`."""

    def later(_self: Compositor, **_how: Any) -> None:
        """What changed stays marked until it is painted."""

    Compositor.render_update = later  # type: ignore[method-assign, assignment]
