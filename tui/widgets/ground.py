"""The plain style of a widget that draws its own lines."""

from __future__ import annotations

from rich.style import Style
from textual.widget import Widget


class Grounded(Widget):
    """Knows its plain style. Textual works it out anew each time it is asked, from every widget around: a line a time,
    that is felt.

    Among several bases it stands last: Textual takes the styles of the first base only, and with them the scrolling.
    """

    _ground: Style | None = None

    @property
    def ground(self) -> Style:
        """The style of what is plain here."""
        if self._ground is None:
            self._ground = self.rich_style
        return self._ground

    def notify_style_update(self) -> None:
        """Colours changed."""
        super().notify_style_update()
        self._ground = None
