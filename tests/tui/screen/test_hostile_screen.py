"""Text that would steer a screen, in every text field of every kind, everywhere it is shown: shown letter by letter."""

from __future__ import annotations

import json
import unicodedata
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from rich.cells import cell_len
from textual.screen import Screen

from store.book.book import Book
from store.book.changes import add, drop
from store.measure.text import clean
from store.records.base import Record
from store.records.field import Manner, fields_of
from store.records.gate import Check, Proof
from store.records.whole import KINDS
from store.rules.core.checks import close, rough_in
from tests.tui.seat import LOW, MIDDLE, WIDE, Seat, assert_fits, job_file, seat_at, small_job, tables
from tui.forms.record_form import RecordForm
from tui.screen.job_screen import JobScreen
from tui.shared.text import fit, wrap
from tui.widgets.dialogs import AskText, Confirm, LongNote, Pick, ReadPage

HOSTILE = {
    "markup": "[red]x[/] [/] [@click=app.quit]x[/] [b 600[mm] :smile:",
    "broken markup": "[/foo] [type=x, v={'a[0]'}] ]] [[",
    "escape": "a\x1b[31mred\x1b[0m\x1b[2J",
    "clipboard": "\x1b]52;c;b3duZWQ=\x07 \x1b]0;title\x1b\\",
    "eight bit": "a\x9b31mb\x90c\x9d0;t\x9c",
    "control": "a\rb\x08c\x07d\x00e\x7ff\tg",
    "bidi": "abc \u202edef\u202c \u2066ghi\u2069 \u200f",
    "long": "word " * 500,
    "one word": "x" * 2_500,
    "emoji": "👩‍👩‍👧‍👦 🇩🇪 👍🏽 ❤️ 🧑🏿‍🚒 end",
    "combining": "e\u0301" * 50 + "Z" + "\u0336" * 200 + "end",
    "wide": "測定の壁" * 30,
    "line ends": "a\nb\r\nc\u2028d\u2029e",
    "lone surrogate made visible": "\ufffd\ufeff\u061c",
}
MANNER = Manner(date(2026, 5, 4))


def typed(codec: str, text: str) -> str:
    """What a text field keeps of what was typed."""
    return clean(text, lines=codec == "note").strip()


def hostile_records(cls: type[Record]) -> list[Record]:
    """Records of a kind, as many as there are hostile texts: each text comes up in each field of the kind."""
    texts = list(HOSTILE.values())
    made: list[Record] = []
    for number in range(1, len(texts) + 1):
        values: dict[str, Any] = {}
        for place, field in enumerate(fields_of(cls)):
            kind, text = field.codec.name, texts[(number + place) % len(texts)]
            if kind in ("text", "note"):
                values[field.key] = typed(kind, text)
            elif kind == "words":
                values[field.key] = (typed("text", text.replace(",", " ")),)
            elif not field.required:
                continue
            elif kind == "ref":
                values[field.key] = f"{KINDS[field.says.kinds[0]].letter}1"
            elif kind == "choice":
                values[field.key] = field.choices[0]
            else:
                values[field.key] = field.read({"length": "12 in", "date": "2026-05-04"}.get(kind, "1"), MANNER)
        made.append(cls(tag=f"{cls.letter}{number}", **values))
    return made


SEEN: tuple[Proof, Proof] = ("reason", "seen")
LISTED = [cls for cls in KINDS.values() if cls.letter and cls.kind != "passage"]
"""The kinds that a person fills in."""


def hostile_job(folder: Path) -> Path:
    """A job of such records, with such closings, and such words in its history."""
    path = small_job(folder, [each for cls in LISTED for each in hostile_records(cls)])
    for number, text in enumerate(HOSTILE.values(), 1):
        words = typed("text", text)
        book = Book.open(path, words)
        check = next(each for each in rough_in(book.job) if each.key == f"Q{number}")
        said = f"blocks nailed, {words}"
        closing = close(
            check, f"Robin {words}", book.job.today, said if number % 2 else "", said, proof=SEEN[number % 2]
        )
        book.act(f"Close {words}", [add(closing, keep_tag=True)], said)
        if number % 3 == 0:
            one = book.job.of(Check)[f"Q{number}"]
            book.act(f"Remove {words}", [drop(closing), drop(one)], said)
        book.close()
    return path


@pytest.fixture(scope="module")
def hostile_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The job of hostile texts, made once."""
    return hostile_job(tmp_path_factory.mktemp("hostile"))


async def open_and_leave(seat: Seat, size: tuple[int, int], *keys: str) -> None:
    """Press keys, look at what comes, and go back."""
    await seat.keys(*keys)
    assert_fits(seat, size)
    for _ in range(4):
        if seat.top_is(JobScreen):
            return
        await seat.keys("y" if seat.top_is(Confirm) else "escape")
    raise AssertionError(f"{keys}: no way back from {seat.top}")


SAMPLE = ("g", "W", "6c", "2d", "1v", "2a", "7l", "4e", "4h")
"""Keys that lead to one window of each sort."""


async def look_at_lists(seat: Seat, size: tuple[int, int]) -> None:
    """Every view at its top and at its end, and one window of each sort."""
    for number in range(len(seat.job_screen.views)):
        seat.job_screen.action_view(number)
        await seat.calm()
        assert_fits(seat, size)
        if len(seat.rows()) > 1:
            await seat.keys("end")
            assert_fits(seat, size)
    for keys in SAMPLE:
        await open_and_leave(seat, size, *keys)


async def look_at_windows(seat: Seat, size: tuple[int, int], rows: int = 1) -> None:
    """Of every view the form, and of some rows the page and the history; then the gate and the questions."""
    for number in range(len(seat.job_screen.views)):
        seat.job_screen.action_view(number)
        await seat.calm()
        for _ in range(min(rows, len(seat.rows()))):
            await open_and_leave(seat, size, "enter")
            if number < 5:
                await open_and_leave(seat, size, "h")
            await seat.keys("down")
        await open_and_leave(seat, size, "e")
    await open_and_leave(seat, size, "question_mark")


async def test_hostile_text_is_shown_letter_by_letter_in_every_list(hostile_file: Path) -> None:
    """With all panes; at the lowest size it is looked at in a file edited by hand, below."""
    async with seat_at(hostile_file, MIDDLE) as seat:
        await look_at_lists(seat, MIDDLE)
        assert seat.app.return_code is None, "no piece of text may press a key"


async def test_hostile_text_is_shown_letter_by_letter_in_every_window(hostile_file: Path) -> None:
    async with seat_at(hostile_file, LOW) as seat:
        await look_at_windows(seat, LOW, rows=1)
        assert seat.app.return_code is None, "no piece of text may press a key"


@pytest.mark.parametrize("digit", ["7", "3"])
async def test_hostile_text_stays_in_its_line_of_the_form_and_in_its_window(hostile_file: Path, digit: str) -> None:
    async with seat_at(hostile_file) as seat:
        await seat.keys(digit)
        for tag in [each for each in seat.rows() if each[0] in "ATN"][::5]:
            seat.table.move_to(tag)
            await seat.keys("e")
            await seat.until(lambda: seat.top_is(RecordForm))
            for number, field in enumerate(seat.form._fields):
                if field.codec.name in ("text", "note", "words"):
                    seat.form._go(number)
                    await seat.calm()
                    assert_fits(seat, LOW)
            await open_note_and_leave(seat)
            assert not seat.form.unsaved, "looking changes nothing"
            await seat.keys("escape")


async def open_note_and_leave(seat: Seat) -> None:
    """The notes in their window, and the names of records in the list of choices."""
    for number, field in enumerate(seat.form._fields):
        if field.codec.name in ("note", "refs"):
            seat.form._go(number)
            await seat.keys("f2")
            await seat.until(lambda: isinstance(seat.top, Pick | LongNote))
            assert_fits(seat, LOW)
            await seat.keys("escape")
            if field.codec.name == "note":
                return


async def test_markup_is_read_as_it_was_written(tmp_path: Path) -> None:
    words = "[red]x[/] [/] [@click=app.quit]y[/] [b"
    path = small_job(tmp_path, [Check(tag="Q1", what=words, wants=words)])
    async with seat_at(path, WIDE) as seat:
        await seat.keys("6")
        assert seat.cells("Q1")[2] == words
        assert words in seat.text
        await seat.keys("enter")
        assert words in seat.text
        await seat.keys("escape", "c")
        assert f"Needs: {words}" in seat.text
        await seat.write(words)
        await seat.keys("enter")
        assert f"by Robin: {words}" in seat.cells("Q1")[5]
        await seat.keys("h")
        assert words in seat.text


async def test_a_file_edited_by_hand_to_hold_such_text_opens_and_steers_nothing(tmp_path: Path) -> None:
    """Nothing cleaned these texts on their way in: each stands in the file as it is."""
    path = job_file(tmp_path)
    raw, texts, turn = tables(path), list(HOSTILE.values()), 0
    for kind, table in raw.items():
        if kind in KINDS and KINDS[kind].letter and kind != "passage":
            keys = [field.key for field in fields_of(KINDS[kind]) if field.codec.name in ("text", "note")]
            for doc in table.values():
                doc.update({key: texts[(turn + place) % len(texts)] for place, key in enumerate(keys)})
                turn += 1
    raw["job"]["1"]["name"] = HOSTILE["escape"]
    for entry in raw["history"].values():
        entry["who"], entry["what"], entry["why"] = HOSTILE["clipboard"], HOSTILE["escape"], HOSTILE["control"]
    path.write_text(json.dumps(raw))
    async with seat_at(path, LOW) as seat:
        await look_at_lists(seat, LOW)


async def test_a_field_that_holds_a_control_sign_shows_it_in_the_form_and_saves_the_visible_one(tmp_path: Path) -> None:
    path = job_file(tmp_path)
    raw = tables(path)
    raw["equipment"]["1"]["name"] = "a\x1bb"
    path.write_text(json.dumps(raw))
    async with seat_at(path) as seat:
        await seat.keys("4")
        seat.table.move_to("E1")
        await seat.keys("e")
        await seat.until(lambda: seat.top_is(RecordForm))
        assert seat.form.line.value == "a␛b"
        await seat.write("c")
        await seat.keys("ctrl+s")
        assert "hanged outside of Studbook" in seat.text, "nobody has said yet who wrote that sign"
        assert tables(path)["equipment"]["1"]["name"] == "a\x1bb"
        await seat.keys("escape", "y")
        await take_over(seat, "name")
        seat.job_screen.go_to("E1")
        await seat.keys("e")
        await seat.until(lambda: seat.top_is(RecordForm))
        assert seat.form.line.value == "a␛b"
        await seat.write("c")
        await seat.keys("ctrl+s")
        await seat.until(lambda: seat.top_is(JobScreen))
        assert tables(path)["equipment"]["1"]["name"] == "a␛bc"


async def take_over(seat: Seat, field: str) -> None:
    """Confirm from the gate who changed a field outside of the program, and why."""
    await seat.until(lambda: seat.top_is(JobScreen))
    await seat.keys("g", "v")
    await seat.until(lambda: seat.top_is(Pick))
    await seat.keys("down", "enter")
    await seat.until(lambda: f"keep “{field}”" in seat.text)
    await seat.keys("down", "enter")
    await seat.until(lambda: seat.top_is(AskText))
    await seat.write("Robin")
    await seat.keys("enter")
    await seat.until(lambda: "Why was" in seat.text)
    await seat.write("pasted by a script")
    await seat.keys("enter")
    await seat.until(lambda: seat.top_is(JobScreen))


@pytest.mark.parametrize("place", ["form", "filter", "question", "pick"])
async def test_a_paste_cannot_carry_control_signs_into_any_line(tmp_path: Path, place: str) -> None:
    path = small_job(tmp_path, [Check(tag="Q1", what="x")])
    nasty = "".join(HOSTILE[name] for name in ("escape", "clipboard", "eight bit", "bidi", "line ends"))
    async with seat_at(path) as seat:
        await seat.keys("6", *{"form": "e", "filter": ["slash"], "question": "c", "pick": "P"}[place])
        await seat.paste(nasty)
        await seat.calm()
        assert_fits(seat, LOW)
        kinds: dict[str, type[Screen[Any]]] = {
            "form": RecordForm,
            "filter": JobScreen,
            "question": AskText,
            "pick": Pick,
        }
        assert seat.top_is(kinds[place])


@pytest.mark.parametrize("name", HOSTILE)
@pytest.mark.parametrize("width", [2, 3, 5, 20, 76])
def test_fitted_and_wrapped_text_has_the_width_asked_for(name: str, width: int) -> None:
    assert cell_len(fit(HOSTILE[name], width)) == width
    assert cell_len(fit(HOSTILE[name], width, right=True)) == width
    for line in wrap(HOSTILE[name], width):
        assert cell_len(line) <= width
        assert not [letter for letter in line if unicodedata.category(letter) == "Cc"]


async def test_every_view_of_the_demo_fits_with_all_panes(tmp_path: Path) -> None:
    """At the lowest size it is looked at in a file edited by hand, above."""
    async with seat_at(job_file(tmp_path), WIDE) as seat:
        await look_at_lists(seat, WIDE)


async def test_a_question_about_something_long_keeps_its_keys_in_sight(tmp_path: Path) -> None:
    path = small_job(tmp_path, [Check(tag="Q1", what="word " * 1500, wants="more " * 500)])
    async with seat_at(path) as seat:
        await seat.keys("6", "c")
        assert "Enter = save  Esc = cancel" in seat.text
        assert "more lines" in seat.text
        await seat.keys("escape", "enter")
        assert seat.top_is(ReadPage)
        assert "Esc = back" in seat.text
