"""The colours of every theme, measured; what a colour means; and what is left of it in a terminal with few or none.

Luminance and contrast as W3C defines them: WCAG 2.2, "relative luminance" and "contrast ratio"; what is asked for is
1.4.3 (text, 4.5:1) and 1.4.11 (what shows where one is, 3:1).
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import combinations, product
from pathlib import Path

import pytest
from rich.color import Color, ColorSystem
from rich.style import Style
from textual.color import TRANSPARENT

from tests.rows import rows
from tests.tui.seat import MIDDLE, Seat, job_file, seat_at
from tui.screen import themes
from tui.screen.themes import CHOICES, SIXTEEN, Colours
from tui.widgets.dialogs import Pick

TUI = Path(__file__).resolve().parents[3] / "tui"
MEANINGS = ("stop", "fix", "done", "kin", "focus")
INKS = ("ink", "muted", "stop", "fix", "done", "kin", "focus_line", "wire")
PAIRS = [
    *product(INKS, ("surface", "panel")), ("ink", "raised"), ("muted", "raised"), ("on_focus", "focus"),
    ("focus", "on_focus"), ("on_away", "away"), ("surface", "ink"),
]  # fmt: skip
"""What is written on what: nothing else is painted, as a test below sees to."""
NAMES = [name for name in Colours.__struct_fields__ if "style" not in name]
TERMINALS = {
    "VGA": "000000 aa0000 00aa00 aa5500 0000aa aa00aa 00aaaa aaaaaa 555555 ff5555 55ff55 ffff55 5555ff ff55ff 55ffff "
    "ffffff",
    "xterm": "000000 cd0000 00cd00 cdcd00 0000ee cd00cd 00cdcd e5e5e5 7f7f7f ff0000 00ff00 ffff00 5c5cff ff00ff 00ffff "
    "ffffff",
}
"""The sixteen colors as the console of a PC and as xterm show them (their published tables)."""


def luminance(red: int, green: int, blue: int) -> float:
    """Relative luminance of an sRGB color, 0 to 1."""
    linear = [
        c / 12.92 if (c := each / 255) <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for each in (red, green, blue)
    ]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: Color, other: Color) -> float:
    """The contrast ratio of two colors, 1 to 21."""
    light, dark = sorted((luminance(*one.get_truecolor()), luminance(*other.get_truecolor())), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_the_measure_itself() -> None:
    """Values that WCAG's own definitions give: the ends of the scale, and a gray known to pass just so on white."""
    black, white, gray = (Color.parse(each) for each in ("#000000", "#ffffff", "#767676"))
    assert contrast(black, white) == pytest.approx(21)
    assert contrast(white, white) == 1
    assert 4.5 <= contrast(gray, white) < 4.6


def colour(colours: Colours, name: str, *, few: bool = False) -> Color:
    """A color of a theme; with `few` as a terminal of 256 shows it."""
    color = Color.parse(getattr(colours, name))
    return color.downgrade(ColorSystem.EIGHT_BIT) if few else color


@rows(("name", "few"), [*product(CHOICES, (False, True))])
def test_every_theme_can_be_read(name: str, few: bool) -> None:
    got = {field: colour(CHOICES[name][1], field, few=few) for field in NAMES}
    need = 7.0 if name.startswith("high") and not few else 4.5
    assert {pair: r for pair in PAIRS if (r := contrast(got[pair[0]], got[pair[1]])) < need} == {}
    where = [*product(("focus", "away"), ("surface", "panel")), ("muted", "surface")]
    assert {pair: r for pair in where if (r := contrast(got[pair[0]], got[pair[1]])) < 3} == {}
    told_apart = (*MEANINGS, "ink", "muted", "wire", "surface")
    assert len({got[each].get_truecolor() for each in told_apart}) == len(told_apart)


@pytest.mark.parametrize("terminal", TERMINALS)
def test_sixteen_colors_keep_every_meaning(terminal: str) -> None:
    table = [Color.parse(f"#{each}") for each in TERMINALS[terminal].split()]

    def shown(name: str) -> Color:
        number = Color.parse(getattr(SIXTEEN, name).removeprefix("ansi_")).number
        assert number is not None
        return table[number]

    assert {pair: r for pair in PAIRS if (r := contrast(shown(pair[0]), shown(pair[1]))) < 4.5} == {}
    assert contrast(shown("focus"), shown("surface")) >= 3 <= contrast(shown("away"), shown("surface"))
    assert all(shown(one) != shown(other) for one, other in combinations((*MEANINGS, "ink"), 2))


COLOR = re.compile(r"(?:color|background|border|background-tint)\s*:\s*([^;{}]+);")
KNOWN = {"stop", "fix", "done", "kin", "muted", "raised", "focus", "on-focus", "focus-line", "away", "on-away", "wire"}
PLAIN = {"foreground", "surface", "panel", "background"}


def test_styles_name_meanings_and_no_colors() -> None:
    """Every color in a style of the program is one of the themes', by its meaning; keys and headings have none."""
    seen = 0
    for path in [*TUI.rglob("*.py"), *TUI.rglob("*.tcss")]:
        if path.name == "themes.py":
            continue
        for words in COLOR.findall(path.read_text("utf-8")):
            if "$" in words or "#" in words:
                seen += 1
                assert set(re.findall(r"\$([\w-]+)", words)) <= KNOWN | PLAIN, (path, words)
                assert "#" not in words, (path, words)
        for rule in re.findall(r"(?:--key|--head|--group|\.title|\.question|\.head) \{([^}]*)\}", path.read_text()):
            assert not re.search(r"\$(stop|fix|done|kin|focus)", rule), (path, rule)
    assert seen > 40


VISITS = (
    ("1",), ("right_square_bracket",), ("2",), ("3", "down", "right_square_bracket"), ("w",), ("w", "6"),
    ("right_square_bracket",), ("4", "e"), ("escape",), ("T",), ("escape",), ("enter",), ("escape",), ("slash",),
    ("escape", "W"), ("escape",), ("question_mark",), ("escape",),
)  # fmt: skip
"""Keys from one screen to the next."""


def pieces(seat: Seat) -> Iterator[tuple[str, Style]]:
    """The text on the window on top, each piece with its style."""
    inner = seat.top.query("Vertical.dialog, Vertical.form, Vertical.many")
    box = inner.first().region if inner else seat.top.region
    for line in seat.top._compositor.render_strips()[box.y : box.bottom]:
        yield from ((s.text, s.style) for s in line.crop(box.x, box.right) if s.style is not None and s.text.strip())


def painted(seat: Seat) -> list[tuple[str, str]]:
    """Every piece of the screen with its style."""
    return [(s.text, str(s.style)) for line in seat.top._compositor.render_strips() for s in line]


async def test_nothing_else_is_painted(tmp_path: Path) -> None:
    """Not the colors that are meant but those that come out, on lists, drawing, forms, dialogs and pages."""
    named: dict[object, set[str]] = {}
    for field in NAMES:
        named.setdefault(colour(themes.DARK, field).get_truecolor(), set()).add(field)
    seen: dict[tuple[frozenset[str], frozenset[str]], str] = {}
    async with seat_at(job_file(tmp_path), MIDDLE, first="") as seat:
        for keys in VISITS:
            await seat.keys(*keys)
            for text, style in pieces(seat):
                assert style.color
                assert style.bgcolor
                ink, ground = (named.get(each.get_truecolor(), set()) for each in (style.color, style.bgcolor))
                seen[frozenset(ink), frozenset(ground)] = f"{keys}: {text.strip()} {style}"
        themes.dress(seat.app, "16-colors")
        await seat.calm()
        # Not the terminal's own ground, which may be a light one.
        assert not [text for text, style in pieces(seat) if style.bgcolor is None or style.bgcolor.is_default]
    allowed = {*PAIRS, *product(("away", "muted"), ("panel", "surface"))}  # the latter: scroll bars and frames
    strange = [told for (inks, grounds), told in seen.items() if not allowed & {*product(inks, grounds)}]
    assert strange == []
    assert len(seen) > 10


async def test_a_choice_is_put_on_and_remembered_for_the_next_start(tmp_path: Path) -> None:
    path = job_file(tmp_path)
    async with seat_at(path, first="") as seat:
        assert seat.app.theme == "dark"
        await seat.keys("slash", "escape", "T")
        assert isinstance(seat.top, Pick)
        await seat.write("light")
        await seat.keys("enter", "slash")
        assert seat.app.theme == themes.chosen() == "light"
        live = painted(seat)
    async with seat_at(path, first="") as seat:
        assert seat.app.theme == "light"
        await seat.keys("slash")
        assert painted(seat) == live
    themes._file().write_text("no such theme\n")
    assert themes.chosen() == "dark"


async def test_without_colors_signs_and_reversed_rows_tell(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    async with seat_at(job_file(tmp_path), first="") as seat:
        assert seat.app.theme == "no-colors"
        filters = seat.app.get_line_filters()
        lines = [
            line.apply_filter(each, TRANSPARENT) for each in filters for line in seat.top._compositor.render_strips()
        ]
        styles = [s.style for line in lines for s in line if s.style is not None]
        assert styles
        assert {str(each.color) for each in styles} | {str(each.bgcolor) for each in styles} <= {
            "None",
            str(Color.default()),
        }
        current = next(line for line in lines if line.text.startswith("▌"))
        assert all(s.style is not None and s.style.reverse for s in current)
        assert "■ Drywall locked" in seat.text
        assert "▸1 Now" in seat.text
        assert "Enter = go there" in seat.lines()[-1]
        await seat.keys("T")
        assert seat.said == themes.FEW
