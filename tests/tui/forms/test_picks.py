"""The lists behind free fields: offered with F2, read back while typing, and what is on none is kept."""

from __future__ import annotations

from pathlib import Path

from store.records.equipment import Equipment
from store.records.field import fields_of
from store.records.wall import Wall
from store.records.whole import KINDS
from store.records.wiring import Box, Cable
from tests.rows import rows
from tests.tui.seat import Seat, seat_at, small_job
from tui.forms.picks import NOT_KNOWN, OFFERED, offered, read_back
from tui.forms.record_form import RecordForm
from tui.screen.job_screen import JobScreen
from tui.widgets.dialogs import Pick


def test_every_list_that_a_field_names_is_there_and_each_list_is_named() -> None:
    named = {field.says.picks for cls in KINDS.values() for field in fields_of(cls)} - {""}
    assert named == set(OFFERED)


@rows("picks", OFFERED)
@rows("metric", [False, True])
def test_what_is_offered_is_understood(picks: str, metric: bool) -> None:
    choices = offered(picks, metric)
    assert len(choices) > 10
    assert len({key for key, _ in choices}) == len(choices)
    for key, _ in choices:
        assert read_back(picks, key, metric).startswith("= "), key


def test_a_list_begins_with_the_sizes_of_the_job() -> None:
    assert offered("conductor", metric=False)[0][0] == "14 AWG copper"
    assert offered("conductor", metric=True)[0][0] == "1 mm2"
    first = {metric: next(key for key, _ in offered("cable", metric)) for metric in (False, True)}
    assert first[False] == "nm-14-2"
    assert not first[True].startswith("nm-")


@rows(
    ("picks", "text", "says"),
    [
        ("cable", "Type NM-B 600V 12/2", "= NM-B 12/2 with ground"),
        ("cable", "SJTW 16/3", "= flexible cord (sjtw): never in a wall"),
        ("cable", "the blue one", NOT_KNOWN),
        ("cables", "hdmi, 2x cat6", "= 1 x hdmi, 2 x cat6"),
        ("cables", "hdmi, a lamp", NOT_KNOWN),
        ("jacket", "c(UL)us CL3 FT4", "= CL3 CMG"),
        ("jacket", "SPT-2", "= flexible cord (spt 2): never in a wall"),
        ("jacket", "in-wall", NOT_KNOWN),
        ("conductor", "12", "= 12 AWG copper"),
        ("device", "receptacle 12, 3-way switch 14", "= receptacle, 3-way switch"),
        ("device", "receptacle 12, widget", NOT_KNOWN),
        ("port", "2x RJ-45, hdmi in", "= Network (RJ-45), HDMI"),
        ("port", "flux out", NOT_KNOWN),
        ("cable", "  ", ""),
    ],
)
def test_what_is_typed_is_read_back(picks: str, text: str, says: str) -> None:
    assert read_back(picks, text, metric=False) == says


def test_a_conductor_that_cannot_be_read_says_why() -> None:
    assert read_back("conductor", "old wire", metric=False).startswith('! "old wire"')


async def open_form(seat: Seat, *keys: str) -> None:
    """Press keys that lead to a form."""
    await seat.keys(*keys)
    await seat.until(lambda: seat.top_is(RecordForm))


async def test_a_kind_of_cable_is_picked_from_the_list_and_an_unknown_one_is_kept(tmp_path: Path) -> None:
    path = small_job(tmp_path, [Wall(tag="W1", name="One"), Cable(tag="K1", name="feed", type="the blue one")])
    async with seat_at(path) as seat:
        seat.job_screen.go_to("K1")
        await open_form(seat, "e")
        await seat.to_field("type")
        assert NOT_KNOWN in seat.text
        await seat.keys("f2")
        assert seat.top_is(Pick)
        await seat.write("nm-b 12/2")
        await seat.keys("enter")
        assert seat.form.body.texts["type"] == "nm-12-2"
        assert "= NM-B 12/2 with ground" in seat.text
        await seat.to_field("rating")
        await seat.write("c(UL) whatever")
        assert NOT_KNOWN in seat.text
        await seat.keys("ctrl+s")
        await seat.until(lambda: seat.top_is(JobScreen))
        found = seat.record("K1")
        assert isinstance(found, Cable)
        assert (found.type, found.rating) == ("nm-12-2", "c(UL) whatever")


async def test_a_pick_is_added_to_the_devices_that_stand_there(tmp_path: Path) -> None:
    path = small_job(tmp_path, [Wall(tag="W1", name="One"), Box(tag="B1", what="switch", devices=("switch 14",))])
    async with seat_at(path) as seat:
        seat.job_screen.go_to("B1")
        await open_form(seat, "e")
        await seat.to_field("devices")
        assert "= switch" in seat.text
        await seat.keys("f2")
        await seat.write("dimmer")
        await seat.keys("enter")
        assert seat.form.body.texts["devices"] == "switch 14, dimmer"


def test_ports_are_picked_as_well() -> None:
    assert next(field for field in fields_of(Equipment) if field.key == "ports").says.picks == "port"
