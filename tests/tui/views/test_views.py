"""The five views by key: add, edit, remove, undo, redo, sort, filter, subsets, each seen in the file."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

from store.measure.length import Length, parse_length
from store.measure.money import Money
from store.records.access import Panel
from store.records.equipment import Equipment
from store.records.field import Ref
from store.records.gate import Check, Closing
from store.records.uses import shown
from store.records.wall import Reading, Wall
from tests.jobs.proofs import take_picture
from tests.tui.seat import job_file, seat_at, small_job, stored
from tui.forms.record_form import RecordForm
from tui.screen.job_screen import JobScreen
from tui.widgets.dialogs import AskText, Confirm, LongNote
from tui.widgets.typed_note import TypedNote


def inches(text: str) -> Length:
    return parse_length(text, metric=False)


async def test_a_wall_and_its_readings_are_typed_in_and_kept(tmp_path: Path) -> None:
    """From an empty job to a wall with two readings, the lesser of which governs."""
    path = small_job(tmp_path)
    async with seat_at(path) as seat:
        await seat.keys("a", "down", "enter")
        await seat.fill(name="Media wall")
        await seat.until(lambda: seat.top_is(JobScreen))
        assert seat.table.cursor_key == "W1"
        assert "Added W1" in seat.said
        for text in ("168 1/8", "14'"):
            await seat.keys("a", "enter")
            await seat.fill(what="width", value=text)
            await seat.until(lambda: seat.top_is(JobScreen))
        assert seat.rows() == ["W1", "D1", "D2"]
        assert seat.table.cursor_key == "D2"
        assert seat.cells("D2")[3:5] == ("14'-0\"", 'governs, spread 1/8"')
    job = stored(path).job
    assert [each.value for each in job.of(Reading).values()] == [inches("168 1/8"), inches("14'")]
    assert {each.wall for each in job.of(Reading).values()} == {"W1"}
    assert job.of(Reading)["D1"].date == date.today()


async def test_an_edit_reaches_the_file_and_undo_and_redo_go_both_ways(tmp_path: Path) -> None:
    path = small_job(tmp_path, [Wall(tag="W1", name="North")])
    async with seat_at(path) as seat:
        await seat.keys("e")
        await seat.fill(name="South")
        await seat.until(lambda: seat.top_is(JobScreen))
        assert seat.record("W1") == Wall(tag="W1", name="South")
        assert seat.cells("W1")[2] == "South"
        await seat.keys("u")
        assert seat.record("W1") == Wall(tag="W1", name="North")
        assert "Undid: edit W1 South" in seat.said
        await seat.keys("r")
        assert seat.record("W1") == Wall(tag="W1", name="South")
        await seat.keys("r")
        assert "Nothing" in seat.said


async def test_removing_is_taken_back_with_u_and_the_tag_is_never_given_again(tmp_path: Path) -> None:
    walls = [Wall(tag="W1", name="One"), Wall(tag="W2", name="Two"), Wall(tag="W3", name="Three")]
    path = small_job(tmp_path, walls)
    async with seat_at(path) as seat:
        await seat.keys("down", "d")
        assert seat.rows() == ["W1", "W3"]
        assert seat.table.cursor_key == "W3", "the cursor stays on its line"
        await seat.keys("u")
        assert sorted(seat.rows()) == ["W1", "W2", "W3"]
        assert seat.table.cursor_key == "W2", "and goes to what came back"
        seat.table.move_to("W3")
        await seat.keys("d", "a", "down", "enter")
        await seat.fill(name="Four")
        await seat.until(lambda: seat.top_is(JobScreen))
        assert sorted(seat.rows()) == ["W1", "W2", "W4"]


async def test_what_hangs_on_a_wall_is_named_before_it_goes_with_it(tmp_path: Path) -> None:
    path = small_job(
        tmp_path,
        [
            Wall(tag="W1", name="One"),
            Reading(tag="D1", wall=Ref("W1"), what="width", value=inches("10'")),
            Panel(tag="A1", name="Hatch", wall=Ref("W1")),
        ],
    )
    async with seat_at(path) as seat:
        await seat.keys("d")
        assert seat.top_is(Confirm)
        assert "Also deletes 1 record: D1" in seat.text
        assert "Also clears the link to it on: A1" in seat.text
        await seat.keys("n")
        assert seat.rows() == ["W1", "D1"]
        await seat.keys("d", "y")
        assert seat.rows() == []
        assert seat.record("A1") == Panel(tag="A1", name="Hatch")
        await seat.keys("u")
        assert seat.rows() == ["W1", "D1"]
        assert seat.record("A1") == Panel(tag="A1", name="Hatch", wall=Ref("W1"))


async def test_readings_sort_by_value_and_not_by_their_digits(tmp_path: Path) -> None:
    """9 in comes before 10 in; rows without a value come last, both ways."""
    values = ('10"', '9"', '100"')
    readings = [
        Reading(tag=f"D{n}", wall=Ref("W1"), what="width", value=inches(text), date=date(2026, n, 9))
        for n, text in enumerate(values, 2)
    ]
    path = small_job(tmp_path, [Wall(tag="W1", name="One"), *readings])
    async with seat_at(path) as seat:
        await seat.keys("s", "s", "s", "s")
        assert seat.rows() == ["D3", "D2", "D4", "W1"]
        await seat.keys("S")
        assert seat.rows() == ["D4", "D2", "D3", "W1"]
        assert "reading ▼" in seat.text


async def test_dates_sort_by_day_and_not_by_their_words(tmp_path: Path) -> None:
    days = (date(2026, 4, 9), date(2026, 12, 1), date(2027, 1, 30))
    readings = [
        Reading(tag=f"D{n}", wall=Ref("W1"), what="width", value=inches("9'"), date=day)
        for n, day in enumerate(days, 1)
    ]
    path = small_job(tmp_path, [Wall(tag="W1", name="One"), *reversed(readings)])
    async with seat_at(path, (140, 44)) as seat:
        await seat.keys(*"ssssss")
        assert seat.rows() == ["D1", "D2", "D3", "W1"]


async def test_the_cursor_keeps_its_record_while_the_order_changes(tmp_path: Path) -> None:
    path = small_job(tmp_path, [Equipment(tag=f"E{n}", name=name) for n, name in ((1, "b"), (2, "c"), (3, "a"))])
    async with seat_at(path) as seat:
        await seat.keys("4", "down")
        assert seat.table.cursor_key == "E2"
        await seat.keys("s", "s")
        assert seat.rows() == ["E3", "E1", "E2"]
        assert seat.table.cursor_key == "E2"
        await seat.keys("d")
        assert seat.rows() == ["E3", "E1"], "d removes the record under the cursor, not the one on that line before"


async def test_the_filter_narrows_with_every_letter_and_escape_shows_all_again(tmp_path: Path) -> None:
    async with seat_at(job_file(tmp_path)) as seat:
        await seat.keys("4")
        everything = seat.rows()
        await seat.keys("slash")
        counts = [len(everything)]
        for letter in "speaker":
            await seat.write(letter)
            counts.append(len(seat.rows()))
        assert counts == sorted(counts, reverse=True)
        assert counts[-1] >= 1
        wanted = [tag for tag, each in seat.book.job.of(Equipment).items() if "speaker" in str(each).lower()]
        assert sorted(seat.rows()) == sorted(wanted)
        await seat.keys("enter")
        assert seat.top.focused is seat.table
        assert sorted(seat.rows()) == sorted(wanted), "Enter keeps the filter"
        await seat.keys("escape")
        assert seat.rows() == everything


async def test_two_words_must_both_be_there_and_nothing_found_says_so(tmp_path: Path) -> None:
    boxes = [Equipment(tag="E1", name="red lamp"), Equipment(tag="E2", name="red fan")]
    async with seat_at(small_job(tmp_path, boxes)) as seat:
        await seat.keys("4", "slash")
        await seat.write("fan red")
        assert seat.rows() == ["E2"]
        await seat.write(" blue")
        assert seat.rows() == []
        assert "No matches" in seat.text


async def test_subsets_come_in_turn_and_the_line_below_names_them(tmp_path: Path) -> None:
    path = small_job(
        tmp_path,
        [
            Equipment(tag="E1", name="a"),
            Equipment(tag="E2", name="b", state="ordered"),
            Equipment(tag="E3", name="c", state="owned"),
        ],
    )
    async with seat_at(path) as seat:
        await seat.keys("4")
        seen = {}
        for _ in range(4):
            seen[seat.subset] = seat.rows()
            assert f"[{seat.subset}]" in seat.said
            await seat.keys("f")
        assert seen == {"all": ["E1", "E2", "E3"], "to buy": ["E1"], "ordered": ["E2"], "owned": ["E3"]}


async def test_one_key_moves_a_thing_along_and_another_back(tmp_path: Path) -> None:
    today = date.today()
    path = small_job(tmp_path, [Equipment(tag="E1", name="Screen", price=Money(89900))])
    async with seat_at(path) as seat:
        await seat.keys("4")
        assert seat.cells("E1")[2] == "○ to buy"
        await seat.keys("space")
        assert seat.cells("E1")[2] == "◐ ordered"
        await seat.keys("space")
        assert seat.cells("E1")[2] == "● owned"
        assert seat.record("E1") == Equipment(
            tag="E1", name="Screen", price=Money(89900), state="owned", ordered=today, arrived=today
        )
        await seat.keys("space")
        assert "nothing after that" in seat.said
        await seat.keys("backspace")
        assert seat.cells("E1")[2] == "◐ ordered"
        await seat.keys("u", "u", "u")
        assert seat.record("E1") == Equipment(tag="E1", name="Screen", price=Money(89900))


async def test_totals_by_state_and_a_return_day_that_is_near(tmp_path: Path) -> None:
    soon, late = date.today() + timedelta(days=3), date.today() - timedelta(days=1)
    path = small_job(
        tmp_path,
        [
            Equipment(tag="E1", name="a", price=Money(10000), count=2),
            Equipment(tag="E2", name="b", state="owned", price=Money(5050), return_by=soon),
            Equipment(tag="E3", name="c", state="owned", return_by=late),
        ],
    )
    async with seat_at(path) as seat:
        await seat.keys("4")
        assert "2 to buy $200.00" in seat.said
        assert "2 owned $50.50 + 1 with no price" in seat.said
        assert seat.cells("E2")[5] == "! 3 days left"
        assert seat.cells("E3")[5] == "! too late"


async def test_every_field_of_equipment_is_reached_by_key_and_a_long_note_comes_back(tmp_path: Path) -> None:
    """A note of several lines, typed in its window, is the same in the file and in the window again."""
    path = small_job(tmp_path, [Equipment(tag="E1", name="Receiver")])
    note = 'First line, typed.\n\nThird line: 3/8" of air above.\nEnd'
    async with seat_at(path) as seat:
        await seat.keys("4", "e")
        await seat.until(lambda: seat.top_is(RecordForm))
        await seat.keys("f3", *["pageup"] * 6)
        seen = []
        for _ in range(len(seat.form._fields)):
            seen.append(seat.form._fields[seat.form.body.at].key)
            await seat.keys("down")
        more = shown(Equipment, seat.form.body.texts, seat.book.job.manner)
        assert set(seen) == {field.key for field in (*more.first, *more.more)}
        assert seen[-1] == "notes"
        await seat.keys("enter")
        await seat.until(lambda: seat.top_is(LongNote))
        for number, line in enumerate(note.split("\n")):
            if number:
                await seat.keys("enter")
            await seat.write(line)
        await seat.keys("ctrl+s")
        await seat.until(lambda: seat.top_is(RecordForm))
        assert "First line, typed. … (4 lines)" in seat.text
        await seat.keys("ctrl+s")
        await seat.until(lambda: seat.top_is(JobScreen))
        assert seat.record("E1").notes == note
        await seat.keys("e")
        await seat.until(lambda: seat.top_is(RecordForm))
        await seat.to_field("notes")
        await seat.keys("enter")
        await seat.until(lambda: seat.top_is(LongNote))
        assert isinstance(seat.top, LongNote)
        assert seat.top.query_one(TypedNote).text == note


async def test_an_item_is_closed_in_two_keys_and_typing_and_the_next_comes_under_the_cursor(tmp_path: Path) -> None:
    checks = [Check(tag=f"Q{n}", what=f"thing {n}", wants="a photo") for n in (1, 2, 3)]
    path = small_job(tmp_path, checks)
    async with seat_at(path) as seat:
        await seat.keys("6")
        assert seat.table.cursor_key == "Q1"
        await seat.keys("c")
        assert "Proof: a photo (a picture file)" in seat.text
        take_picture(tmp_path)
        await seat.write("wall.png")
        await seat.keys("enter")
        assert seat.rows() == ["Q2", "Q3", "Q1"]
        assert seat.table.cursor_key == "Q2", "the next open one"
        assert "Signed off Q1" in seat.said
        closing = stored(path).job.of(Closing)["Q1"]
        assert (closing.outcome, closing.by, closing.evidence) == ("closed", "Robin", "photos/wall.png")
        assert closing.date == date.today()
        await seat.keys("u")
        assert seat.rows() == ["Q1", "Q2", "Q3"]
        assert seat.table.cursor_key == "Q1"
        assert not stored(path).job.of(Closing)


async def test_closing_needs_words_and_escape_closes_nothing(tmp_path: Path) -> None:
    path = small_job(tmp_path, [Check(tag="Q1", what="thing")])
    async with seat_at(path) as seat:
        await seat.keys("6", "c", "enter")
        assert seat.top_is(AskText)
        assert "Type a few words first." in seat.text
        await seat.write("  ")
        await seat.keys("enter")
        assert seat.top_is(AskText)
        await seat.keys("escape")
        assert seat.top_is(JobScreen)
        assert not stored(path).job.of(Closing)


async def test_not_needed_asks_for_a_reason_and_o_opens_again(tmp_path: Path) -> None:
    path = small_job(tmp_path, [Check(tag="Q1", what="thing")])
    async with seat_at(path) as seat:
        await seat.keys("6", "n")
        await seat.write("no gas here")
        await seat.keys("enter")
        closing = stored(path).job.of(Closing)["Q1"]
        assert (closing.outcome, closing.reason, closing.evidence) == ("not needed", "no gas here", "")
        assert seat.cells("Q1")[1] == "–"
        await seat.keys("c")
        assert "already signed off" in seat.said
        await seat.keys("o")
        assert seat.cells("Q1")[1] == "□"
        assert not stored(path).job.of(Closing)


async def test_a_rough_in_item_is_removed_only_with_a_reason_and_stays_named_at_the_gate(tmp_path: Path) -> None:
    path = small_job(tmp_path, [Check(tag="Q1", what="thing"), Check(tag="Q2", what="other")])
    async with seat_at(path) as seat:
        await seat.keys("6", "d")
        assert seat.top_is(AskText)
        assert "Write down why" in seat.text
        await seat.keys("escape")
        assert seat.rows() == ["Q1", "Q2"]
        await seat.keys("d")
        await seat.write("written twice")
        await seat.keys("enter")
        assert seat.rows() == ["Q2"]
        assert seat.said.startswith("Delete Q1")
        assert "1 removed from the list" in seat.job_screen.query_one("#say").__dict__["_summary"]
        await seat.keys("g")
        seat.table.move_to("off")
        await seat.keys("enter")
        assert "Q1 thing: written twice (Robin" in seat.text


async def test_rough_in_by_trade_by_place_open_and_closed(tmp_path: Path) -> None:
    checks = [
        Check(tag="Q1", what="one", trade="painter", where="attic"),
        Check(tag="Q2", what="two", trade="carpenter", where="cellar"),
        Check(tag="Q3", what="three", trade="carpenter", where="attic"),
    ]
    path = small_job(tmp_path, checks)
    async with seat_at(path) as seat:
        await seat.keys("6")
        assert seat.rows() == ["Q2", "Q3", "Q1"]
        await seat.keys("c")
        await seat.write("both blocks nailed")
        await seat.keys("enter", "f")
        assert (seat.subset, seat.rows()) == ("open only", ["Q3", "Q1"])
        await seat.keys("f")
        assert (seat.subset, seat.rows()) == ("by place", ["Q1", "Q3", "Q2"])
        await seat.keys("f")
        assert (seat.subset, seat.rows()) == ("closed", ["Q2"])
