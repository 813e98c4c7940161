"""The form: choices, picks, notes, mistakes, and leaving it."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from store.records.access import Panel
from store.records.equipment import Equipment
from store.records.field import Manner, Note, fields_of
from store.records.wall import Opening, Reading, Wall
from store.records.wiring import Box
from tests.tui.seat import LOW, Seat, seat_at, small_job
from tui.forms.hints import first_field, laid_out
from tui.forms.record_form import RecordForm
from tui.screen.job_screen import JobScreen
from tui.widgets.dialogs import Confirm, LongNote, Pick
from tui.widgets.typed_note import TypedNote

US = Manner(date(2026, 11, 30))


async def open_form(seat: Seat, *keys: str) -> None:
    """Press keys that lead to a form."""
    await seat.keys(*keys)
    await seat.until(lambda: seat.top_is(RecordForm))


async def test_mistakes_are_all_marked_the_first_is_named_and_what_was_typed_stays(tmp_path: Path) -> None:
    path = small_job(tmp_path, [Wall(tag="W1", name="One")])
    async with seat_at(path) as seat:
        await open_form(seat, "a", "enter")
        await seat.fill(value="seven", date="someday")
        assert seat.top_is(RecordForm)
        body = seat.form.body
        assert set(body.wrong) == {"what", "value", "date"}
        assert body.at == [field.key for field in seat.form._fields].index("what")
        assert "Not saved. Fix: what and 2 more marked !" in seat.text
        assert "!what" in seat.text
        assert "!reading" in seat.text
        assert "seven" in seat.text
        assert "someday" in seat.text
        await seat.fill(what="width", value="7'", date="2026-05-04")
        await seat.until(lambda: seat.top_is(JobScreen))
        assert isinstance(seat.record("D1"), Reading)


async def test_a_mistake_that_is_mended_is_no_longer_called_one(tmp_path: Path) -> None:
    path = small_job(tmp_path, [Wall(tag="W1", name="One")])
    async with seat_at(path) as seat:
        await open_form(seat, "a", "enter")
        await seat.to_field("value")
        await seat.write("seven")
        assert '"seven" is not a length' in seat.text
        await seat.keys("down", "up")
        assert "value" in seat.form.body.wrong
        await seat.write("7'")
        assert "value" not in seat.form.body.wrong
        assert "= 84 in" in seat.text or "7'" in seat.text
        assert "is not a length" not in seat.text


async def test_typing_on_a_value_that_is_there_replaces_it_and_on_a_name_adds_to_it(tmp_path: Path) -> None:
    path = small_job(tmp_path, [Opening(tag="N1", name="Bay", width=None)])
    async with seat_at(path) as seat:
        await open_form(seat, "3", "e")
        await seat.write(" left")
        await seat.to_field("x")
        await seat.write("12")
        await seat.keys("up", "down")
        await seat.write("15 1/2")
        await seat.keys("ctrl+s")
        await seat.until(lambda: seat.top_is(JobScreen))
        found = seat.record("N1")
        assert isinstance(found, Opening)
        assert found.name == "Bay left"
        assert found.x is not None
        assert found.x.nm == 31 * 12_700_000


async def test_choices_go_round_with_space_and_letters_narrow_them(tmp_path: Path) -> None:
    path = small_job(tmp_path, [Equipment(tag="E1", name="thing")])
    async with seat_at(path) as seat:
        await open_form(seat, "4", "e")
        await seat.to_field("state")
        seen = []
        for _ in range(4):
            seen.append(seat.form.line.value)
            await seat.keys("space")
        assert seen == ["to buy", "ordered", "owned", "to buy"]
        await seat.to_field("what")
        seen = []
        for _ in range(4):
            await seat.write("r")
            seen.append(seat.form.line.value)
        assert seen == ["receiver", "recorder", "router", "receiver"]
        await seat.write("z")
        assert seat.form.line.value == "receiver", "no choice begins with z"
        await seat.to_field("heats")
        await seat.write("y")
        assert seat.form.line.value == "yes"
        await seat.keys("space")
        assert seat.form.line.value == "no"


async def test_f2_lists_the_choices_and_the_records_that_a_reference_may_name(tmp_path: Path) -> None:
    path = small_job(
        tmp_path, [Wall(tag="W1", name="One"), Opening(tag="N1", name="Bay"), Equipment(tag="E1", name="x")]
    )
    async with seat_at(path) as seat:
        await open_form(seat, "4", "e")
        await seat.to_field("opening")
        assert "F2 = list: N1 Bay" in seat.text
        await seat.keys("f2")
        assert seat.top_is(Pick)
        assert "N1 Bay" in seat.text
        await seat.keys("enter")
        assert seat.form.body.texts["opening"] == "N1"
        assert "= N1 Bay" in seat.text
        await seat.to_field("mounting")
        await seat.keys("f2")
        await seat.write("recess")
        await seat.keys("enter")
        assert seat.form.body.texts["mounting"] == "made to be recessed"


async def test_f2_on_a_field_without_a_list_changes_nothing_and_says_so(tmp_path: Path) -> None:
    path = small_job(tmp_path, [Wall(tag="W1", name="One"), Equipment(tag="E1", name="x")])
    async with seat_at(path) as seat:
        await open_form(seat, "4", "e", "f2")
        assert seat.top_is(RecordForm)
        assert "no list for this one" in seat.text
        assert seat.form.body.texts["name"] == "x"


async def test_several_tags_are_picked_one_after_the_other(tmp_path: Path) -> None:
    path = small_job(
        tmp_path, [Panel(tag="A1", name="Hatch"), Box(tag="B1", name="b", what="junction"), Wall(tag="W1", name="k")]
    )
    async with seat_at(path) as seat:
        await open_form(seat, "7", "e")
        await seat.to_field("behind")
        for word in ("b1", "w1"):
            await seat.keys("f2")
            await seat.write(word)
            await seat.keys("enter")
        assert seat.form.body.texts["behind"] == "B1, W1"
        await seat.keys("ctrl+s")
        await seat.until(lambda: seat.top_is(JobScreen))
        found = seat.record("A1")
        assert isinstance(found, Panel)
        assert found.behind == ("B1", "W1")


async def test_a_tag_of_nothing_or_of_another_kind_is_refused_with_its_name(tmp_path: Path) -> None:
    path = small_job(tmp_path, [Wall(tag="W1", name="One"), Equipment(tag="E1", name="x")])
    async with seat_at(path) as seat:
        await open_form(seat, "4", "e")
        await seat.fill(opening="N9")
        assert seat.top_is(RecordForm)
        assert "N9" in seat.text
        assert "No N9 in this job" in seat.text
        await seat.fill(opening="W1")
        assert "W1 is the wrong kind" in seat.text
        await seat.fill(opening="somewhere")
        assert "is not a tag" in seat.text
        assert seat.record("E1") == Equipment(tag="E1", name="x")


async def test_what_is_typed_is_not_thrown_away_unasked(tmp_path: Path) -> None:
    path = small_job(tmp_path, [Wall(tag="W1", name="One")])
    async with seat_at(path) as seat:
        await open_form(seat, "e")
        await seat.keys("escape")
        assert seat.top_is(JobScreen), "nothing typed, nothing asked"
        await open_form(seat, "e")
        await seat.write("x")
        await seat.keys("escape")
        assert seat.top_is(Confirm)
        await seat.keys("enter")
        assert seat.top_is(Confirm), "a hasty Enter throws nothing away"
        await seat.keys("n")
        assert seat.form.body.texts["name"] == "Onex"
        await seat.keys("ctrl+q")
        assert seat.top_is(Confirm)
        assert "Discard changes" in seat.text
        await seat.keys("escape", "escape", "y")
        assert seat.top_is(JobScreen)
        assert seat.record("W1") == Wall(tag="W1", name="One")


async def test_a_note_in_the_middle_of_a_form_can_be_passed_by(tmp_path: Path) -> None:
    path = small_job(tmp_path, [Panel(tag="A1", name="Hatch")])
    async with seat_at(path) as seat:
        await open_form(seat, "7", "e")
        await seat.to_field("holds")
        await seat.keys("down")
        assert seat.top_is(RecordForm)
        assert seat.form._fields[seat.form.body.at].key == "passes"


async def test_typing_on_a_note_opens_it_with_the_first_letter(tmp_path: Path) -> None:
    path = small_job(tmp_path, [Panel(tag="A1", name="Hatch", notes=Note("old"))])
    async with seat_at(path) as seat:
        await open_form(seat, "7", "e")
        await seat.to_field("notes")
        await seat.write("N")
        assert seat.top_is(LongNote)
        await seat.write("ew")
        assert seat.top.query_one(TypedNote).text == "oldNew"
        await seat.keys("escape")
        assert seat.top_is(Confirm)
        await seat.keys("y")
        assert seat.form.body.texts["notes"] == "old"


@pytest.mark.parametrize("key", ["backspace", "delete", "ctrl+u", "ctrl+k"])
async def test_a_note_is_never_shortened_by_a_key_on_its_first_line(tmp_path: Path, key: str) -> None:
    path = small_job(tmp_path, [Panel(tag="A1", name="Hatch", notes=Note("one\ntwo"))])
    async with seat_at(path) as seat:
        await open_form(seat, "7", "e")
        await seat.to_field("notes")
        await seat.keys(key)
        if seat.top_is(LongNote):
            await seat.keys("escape")
        assert seat.form.body.texts["notes"] == "one\ntwo"
        assert "one … (2 lines)" in seat.text


async def test_a_paste_of_several_lines_keeps_them_all(tmp_path: Path) -> None:
    """On a line they become one line, in a note they stay lines."""
    path = small_job(tmp_path, [Panel(tag="A1", name="H")])
    async with seat_at(path) as seat:
        await open_form(seat, "7", "e")
        await seat.paste("atch\r\nbelow\nscreen\n")
        await seat.calm()
        assert seat.form.line.value == "Hatch below screen"
        await seat.to_field("notes")
        await seat.paste("a\nb")
        await seat.until(lambda: seat.top_is(LongNote))
        assert seat.top.query_one(TypedNote).text == "a\nb"
        await seat.paste("\x1b[31mc")
        await seat.calm()
        assert seat.top.query_one(TypedNote).text == "a\nb␛[31mc"


async def test_down_on_the_last_field_stays_and_saves_nothing(tmp_path: Path) -> None:
    path = small_job(tmp_path, [Wall(tag="W1", name="One")])
    async with seat_at(path) as seat:
        await open_form(seat, "e")
        await seat.write("x")
        for _ in range(30):
            await seat.keys("down")
        assert seat.top_is(RecordForm)
        assert seat.form.body.at == seat.form.body.seen[-1]
        assert seat.record("W1") == Wall(tag="W1", name="One")


async def test_a_typed_date_is_read_back_in_full_before_it_is_saved(tmp_path: Path) -> None:
    path = small_job(tmp_path, [Equipment(tag="E1", name="x")])
    async with seat_at(path) as seat:
        await open_form(seat, "4", "e")
        await seat.to_field("return_by")
        await seat.write("4 dec 2026")
        assert "Friday, December 4, 2026" in seat.text


async def test_the_mouse_goes_to_a_field_and_to_a_row_and_sorts_by_a_title(tmp_path: Path) -> None:
    names = ("b", "c", "a")
    path = small_job(tmp_path, [Equipment(tag=f"E{n}", name=name) for n, name in enumerate(names, 1)])
    async with seat_at(path) as seat:
        await seat.keys("4")
        await seat.pilot.click(seat.table, offset=(10, 2))
        assert seat.table.cursor_key == "E2"
        await seat.pilot.click(seat.table, offset=(10, 0))
        await seat.calm()
        assert seat.rows() == ["E3", "E1", "E2"]
        await seat.pilot.click(seat.table, offset=(10, 0))
        await seat.calm()
        assert seat.rows() == ["E2", "E1", "E3"]
        await seat.pilot.click(seat.table, offset=(10, 0))
        await seat.calm()
        assert seat.rows() == ["E1", "E2", "E3"], "the third click puts them back"
        await seat.keys("e")
        await seat.until(lambda: seat.top_is(RecordForm))
        await seat.pilot.click(seat.form.body, offset=(3, 3))
        await seat.calm()
        assert seat.form._fields[seat.form.body.at].key == "width"
        await seat.keys("escape")
        await seat.pilot.click("#sections", offset=(2, 0))
        await seat.calm()
        assert seat.job_screen.view.title == "What to do next"
        await seat.go("Openings")
        await seat.pilot.click("#views", offset=(seat.lines()[3].index("Cables"), 0))
        await seat.calm()
        assert seat.job_screen.view.title == "Cables"
        await seat.pilot.click("#views", offset=(seat.lines()[3].index("]"), 0))
        await seat.until(lambda: seat.job_screen.view.title == "Circuits")
        await seat.pilot.click("#stages", offset=(2, 1))
        await seat.calm()
        assert seat.job_screen.view.title == "Gate"


async def test_choices_are_whole_or_lead_to_the_list_of_all(tmp_path: Path) -> None:
    """On 80 columns kinds of box fit whole or F2 shows the rest, as of twenty sorts of equipment."""
    async with seat_at(small_job(tmp_path), size=LOW) as seat:
        await open_form(seat, "3", "right_square_bracket", "right_square_bracket", "a")
        assert seat.form._fields[seat.form.body.at].key == "name", "a new form starts at its first field"
        await seat.to_field("what")
        assert "Space or letters = choose: receptacle" in seat.text
        assert "recessed inlet" in seat.text or "F2 = all" in seat.text
        await seat.keys("escape")
        await open_form(seat, "4", "a")
        while seat.form._fields[seat.form.body.at].key != "what":
            await seat.keys("down")
        assert "F2 = all" in seat.text
        assert "Space or letters = choose: other · TV" in seat.text


async def test_the_fields_follow_the_sort_and_more_shows_the_rest(tmp_path: Path) -> None:
    path = small_job(tmp_path, [Wall(tag="W1", name="One")])
    async with seat_at(path, LOW) as seat:
        await open_form(seat, "4", "a")
        await seat.write("Box")
        await seat.keys("enter")
        await seat.write("recei")
        assert seat.form.line.value == "receiver"
        await seat.keys("enter")
        body = seat.form.body
        keys = [body._fields[number].key for number in body.seen]
        assert 8 <= len(keys) <= 14
        assert "remote" in keys
        assert "diagonal" not in keys
        assert "•width" in seat.text
        assert "more fields: F3" in seat.text or len(keys) > 12
        await seat.keys("f3")
        assert "serial" in [body._fields[number].key for number in body.seen]
        assert "diagonal" not in [body._fields[number].key for number in body.seen]
        await seat.keys("f3")
        assert [body._fields[number].key for number in body.seen] == keys


async def test_a_reference_takes_a_name_or_a_record_made_on_the_way_and_one_wall_fills_itself_in(
    tmp_path: Path,
) -> None:
    path = small_job(tmp_path, [Wall(tag="W1", name="One"), Opening(tag="N1", name="Left cabinet")])
    async with seat_at(path) as seat:
        await open_form(seat, "4", "a")
        await seat.write("Player")
        await seat.to_field("opening")
        await seat.write("left")
        assert "= N1 Left cabinet" in seat.text
        await seat.keys("f2")
        assert "+ add a new opening here" in seat.text
        await seat.write("new")
        await seat.keys("enter")
        await seat.until(lambda: seat.top_is(RecordForm) and seat.form._spec.cls is Opening)
        assert seat.form.body.texts["wall"] == "W1"
        await seat.write("Right cabinet")
        await seat.keys("ctrl+s")
        await seat.until(lambda: seat.top_is(RecordForm) and seat.form._spec.cls is Equipment)
        assert seat.form.body.texts["opening"] == "N2"
        await seat.fill(opening="left")
        await seat.until(lambda: seat.top_is(JobScreen))
        made = seat.record("E1")
        assert isinstance(made, Equipment)
        assert made.opening == "N1"


def test_what_the_job_waits_for_is_shown_at_once_marked_and_where_the_form_begins() -> None:
    filled = {field.key: field.edit(field.empty, US) for field in fields_of(Equipment)} | {"what": "receiver"}
    filled |= {"name": "Receiver", "width": '17"', "height": '6"', "depth": '15"', "weight": "20 lb", "watts": "400"}
    asked = ("clear_left", "clear_right")
    first, more, needed = laid_out(Equipment, filled, US, asked)
    assert {*asked} <= {*first} & needed
    assert not {*asked} & {*more}
    assert first_field(Equipment, filled, US, new=False, asked=asked) == "clear_left"
    assert "clear_left" not in laid_out(Equipment, {**filled, "clear_left": '2"'}, US, asked)[2]
    assert "clear_left" in laid_out(Equipment, filled, US)[1], "and under More while nothing waits for it"
