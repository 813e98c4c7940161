"""A metric job reads in British and IEC words everywhere on the screen; what people typed stays as typed."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

from store.records.field import Manner, fields_of
from store.records.wiring import Box
from tests.tui.seat import seat_at
from tui.cli.main import main
from tui.views.index import SECTIONS

DAY = date(2026, 11, 30)
US_WORDS = re.compile(
    r"\breceptacle|\bdrywall|line voltage|\bbreaker|\braceway|GFCI|AFCI|nail plate|\bblocking|\bspool|\bfiber|\bcolor\b"
    r"|\bpermit\b|nameplate|\bin³|\bNEC\b",
    re.IGNORECASE,
)


async def test_no_list_of_a_metric_job_speaks_american(tmp_path: Path) -> None:
    path = tmp_path / "wall.json"
    assert main(["new", str(path), "--starter", "media-wall-metric"]) == 0
    async with seat_at(path, (140, 44)) as seat:
        await seat.until(lambda: seat.job_screen.settled)
        for place, (_, views) in enumerate(SECTIONS, 1):
            await seat.keys(str(place))
            for title, _ in views:
                assert not US_WORDS.search(seat.text), (title, US_WORDS.findall(seat.text))
                await seat.keys("right_square_bracket")
        await seat.keys("3", "a")
        await seat.keys(*"A drywall saw")
        assert "A drywall saw" in seat.text


def test_a_choice_is_shown_and_read_in_the_words_of_the_region_and_kept_as_it_is() -> None:
    what = next(each for each in fields_of(Box) if each.key == "what")
    us, metric = Manner(DAY), Manner(DAY, metric=True, day_first=True)
    assert (what.edit("receptacle", us), what.edit("receptacle", metric)) == ("receptacle", "socket-outlet")
    assert what.file("receptacle", metric) == "receptacle"
    assert {what.read(each, metric) for each in ("receptacle", "socket-outlet", "socket")} == {"receptacle"}
    assert "socket-outlet" in what.choices_in(metric)
    assert "receptacle" in what.choices_in(us)
