"""The colours of the screen: one meaning a colour, in every theme; and which theme a person chose.

Stop, fix, done, focus and kin have a colour each, which nothing else has: keys and headings are bold. Whatever a colour
says, a sign or a word says too. What is asked of the contrast is W3C, WCAG 2.2, 1.4.3 and 1.4.11.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import msgspec
from textual.theme import Theme

from store.book.ground.own_folder import own_folder

if TYPE_CHECKING:
    from textual.app import App


class Colours(msgspec.Struct, frozen=True):
    """What the colours of a theme are, by what they mean."""

    surface: str
    """Under lists, drawing and windows."""
    panel: str
    """Under the lines above and below, and under the page."""
    raised: str
    """Under the name of the section and of the view that are shown."""
    ink: str
    muted: str
    stop: str
    fix: str
    done: str
    kin: str
    """What belongs to the selected thing."""
    focus: str
    """Under the current row and the line that is typed in."""
    on_focus: str
    focus_line: str
    """The outline of what is selected on the drawing."""
    away: str
    """Under the current row while keys go elsewhere."""
    on_away: str
    wire: str
    """Cables on the drawing."""
    row_style: str = "bold"
    cursor_style: str = "none"


DARK = Colours(
    surface="#121212", panel="#1c1c1c", raised="#303030", ink="#eeeeee", muted="#b2b2b2",
    stop="#ff8787", fix="#ffaf00", done="#87d75f", kin="#d7afff",
    focus="#5fafd7", on_focus="#000000", focus_line="#87d7ff", away="#767676", on_away="#ffffff", wire="#afd7d7",
)  # fmt: skip
LIGHT = Colours(
    surface="#ffffff", panel="#eeeeee", raised="#dadada", ink="#1c1c1c", muted="#4e4e4e",
    stop="#af0000", fix="#875f00", done="#005f00", kin="#8700af",
    focus="#005faf", on_focus="#ffffff", focus_line="#005fd7", away="#626262", on_away="#ffffff", wire="#5f5f87",
)  # fmt: skip
CONTRAST = Colours(
    surface="#000000", panel="#000000", raised="#303030", ink="#ffffff", muted="#dadada",
    stop="#ff8787", fix="#ffd75f", done="#87ff87", kin="#ffafff",
    focus="#5fd7ff", on_focus="#000000", focus_line="#5fd7ff", away="#b2b2b2", on_away="#000000", wire="#d7d7ff",
)  # fmt: skip
CONTRAST_LIGHT = Colours(
    surface="#ffffff", panel="#ffffff", raised="#dadada", ink="#000000", muted="#303030",
    stop="#870000", fix="#5a4300", done="#004d00", kin="#5f0087",
    focus="#00408c", on_focus="#ffffff", focus_line="#00408c", away="#444444", on_away="#ffffff", wire="#16394c",
)  # fmt: skip
SIXTEEN = Colours(
    surface="ansi_black", panel="ansi_black", raised="ansi_black", ink="ansi_white", muted="ansi_white",
    stop="ansi_bright_red", fix="ansi_bright_yellow", done="ansi_bright_green", kin="ansi_bright_magenta",
    focus="ansi_cyan", on_focus="ansi_black", focus_line="ansi_cyan", away="ansi_white", on_away="ansi_black",
    wire="ansi_white",
)  # fmt: skip
"""For a terminal of 16 colours, which decides itself how each of them looks: black under all, so that it is known."""
NONE = Colours(
    **dict.fromkeys(set(Colours.__struct_fields__) - {"row_style", "cursor_style"}, "ansi_default"),
    row_style="bold reverse", cursor_style="reverse",
)  # fmt: skip
"""For a terminal without colours, and for NO_COLOR: what is current is reversed."""

CHOICES = {
    "dark": ("dark", DARK),
    "light": ("light", LIGHT),
    "high-contrast": ("high contrast, dark", CONTRAST),
    "high-contrast-light": ("high contrast, light", CONTRAST_LIGHT),
}
"""What a person chooses from, by the name that is remembered."""
AS_TEXTUAL_BEGINS = ("dark", "high-contrast")
"""Themes that are dark and of many colours, as the one that Textual has on at first."""
NO_COLORS = "no-colors"
FORCED = {"16-colors": SIXTEEN, NO_COLORS: NONE}
"""What the terminal leaves no choice about."""
FEW = "This terminal shows 16 colors or none, so there is one theme."


def theme_of(name: str, colours: Colours) -> Theme:
    """A theme in which every colour that a widget of Textual's asks for is one of these too."""
    one = colours
    return Theme(
        name=name,
        primary=one.focus,
        secondary=one.muted,
        accent=one.ink,
        warning=one.fix,
        error=one.stop,
        success=one.done,
        foreground=one.ink,
        background=one.surface,
        surface=one.surface,
        panel=one.panel,
        boost=one.raised,
        dark=name not in ("light", "high-contrast-light"),
        ansi=one.ink.startswith("ansi"),
        variables={
            # Textual leaves the grounds of a theme of few colors to the terminal, whose own may be a light one.
            "background": one.surface, "surface": one.surface, "panel": one.panel, "foreground": one.ink,
            "stop": one.stop, "fix": one.fix, "done": one.done, "kin": one.kin, "muted": one.muted,
            "raised": one.raised, "focus": one.focus, "on-focus": one.on_focus, "focus-line": one.focus_line,
            "away": one.away, "on-away": one.on_away, "wire": one.wire, "row-style": one.row_style,
            "foreground-disabled": one.muted, "foreground-muted": one.muted, "surface-active": one.raised,
            "text": one.ink, "text-muted": one.muted, "text-disabled": one.muted,
            "text-error": one.fix, "text-warning": one.fix, "text-success": one.done,
            "border": one.focus_line, "border-blurred": one.muted,
            "block-cursor-background": one.focus, "block-cursor-foreground": one.on_focus,
            "block-cursor-text-style": one.row_style, "block-cursor-blurred-background": one.focus,
            "block-cursor-blurred-foreground": one.on_focus, "block-cursor-blurred-text-style": one.row_style,
            "block-hover-background": one.raised,
            "input-cursor-background": one.ink, "input-cursor-foreground": one.surface,
            "input-cursor-text-style": one.cursor_style,
            "input-selection-background": one.away, "input-selection-foreground": one.on_away,
            "scrollbar": one.away, "scrollbar-hover": one.muted, "scrollbar-active": one.focus,
            "scrollbar-background": one.panel, "scrollbar-background-hover": one.panel,
            "scrollbar-background-active": one.panel, "scrollbar-corner-color": one.panel,
            "ansi-background": "transparent", "ansi-foreground": "transparent",
            "link-color": one.ink, "link-color-hover": one.on_focus, "link-background-hover": one.focus,
        },
    )  # fmt: skip


def put_on(app: App[Any], colours: str | None) -> None:
    """Dress the app: as the person chose, or as the terminal can. `colours` is what the terminal has, as Rich knows it;
    "none" where colours are not wanted."""
    forced = {"none": "no-colors", "standard": "16-colors"}.get(colours or "")
    name = forced or chosen()
    if name not in AS_TEXTUAL_BEGINS:
        dress(app, name)
        return
    # Set without telling, as nothing is shown yet: told, Textual would read every style twice before the first paint.
    theme = theme_of(name, CHOICES[name][1])
    app.register_theme(theme)
    app.set_reactive(type(app).theme, name)
    app.set_class(True, "-dark-mode", f"-theme-{name}", update=False)
    app.stylesheet.set_variables(app.get_css_variables())


def dress(app: App[Any], name: str) -> None:
    """Put a theme on; only the one that is worn is made."""
    app.register_theme(theme_of(name, FORCED[name] if name in FORCED else CHOICES[name][1]))
    app.theme = name


def _file() -> Path:
    return own_folder("XDG_CONFIG_HOME", ".config") / "theme"


def chosen() -> str:
    """The theme that this person chose last; the dark one at first, or where what is remembered is no theme."""
    try:
        name = _file().read_text("utf-8").strip()
    except (OSError, ValueError):
        name = ""
    return name if name in CHOICES else "dark"


def remember(name: str) -> None:
    """Remember a choice; not being able to is no reason to stop."""
    from tui.shared.own_file import write_own  # after the first paint

    write_own(_file, f"{name}\n".encode())


def choose_theme(app: App[Any]) -> str:
    """Ask for a theme, put it on and remember it. Gives what there is to say where there is no choice."""
    if app.theme in FORCED:
        return FEW
    from tui.widgets.dialogs import Pick

    def taken(name: str | None) -> None:
        if name is not None:
            dress(app, name)
            remember(name)

    names = sorted(CHOICES, key=lambda name: name != app.theme)
    labels = [(name, CHOICES[name][0] + (", as it is now" if name == app.theme else "")) for name in names]
    app.push_screen(Pick("Colors of the screen", labels), taken)
    return ""
