"""The plain style of a widget that draws its own lines."""

from __future__ import annotations

from rich.style import Style
from textual.css.styles import RenderStyles
from textual.widget import Widget


class Grounded(Widget):
    """Knows its plain style. Textual works it out anew each time it is asked, from every widget around: a line a time,
    that is felt.

    Among several bases it stands last: Textual takes the styles of the first base only, and with them the scrolling.
    """

    _ground: Style | None = None
    _looks: dict[str, tuple[RenderStyles, Style]] | None = None
    """Of each component: the style, and what it was worked out from."""

    @property
    def ground(self) -> Style:
        """The style of what is plain here."""
        if self._ground is None:
            self._ground = self.rich_style
        return self._ground

    def get_component_rich_style(self, *names: str, partial: bool = False, default: Style | None = None) -> Style:
        """The style of a component. Textual forgets it whenever the widget is drawn anew; here it stays while right."""
        if len(names) != 1 or partial or default is not None:
            return super().get_component_rich_style(*names, partial=partial, default=default)
        if self._looks is None:
            self._looks = {}
        # Textual puts another object there when it applies a style sheet, which it does to all that may look otherwise.
        styles, known = self._component_styles.get(names[0]), self._looks.get(names[0])
        if styles is None:
            return super().get_component_rich_style(names[0])
        if known is None or known[0] is not styles:
            known = self._looks[names[0]] = styles, super().get_component_rich_style(names[0])
        return known[1]

    def notify_style_update(self) -> None:
        """Colours changed."""
        super().notify_style_update()
        self._ground = None
        self._looks = None
