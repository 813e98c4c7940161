"""A metric job reads in British and IEC words everywhere on the screen; what people typed stays as typed."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

import msgspec

from store.measure.length import Length
from store.records.field import Manner, fields_of
from store.records.whole import KINDS, Job
from store.records.wiring import Box, Raceway
from store.rules.core.findings import Finding, findings
from store.rules.fixes.fix import offer
from tests.rules.core.edits import with_records
from tests.rules.fixes.cases import case
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


US_FORMS = re.compile(
    US_WORDS.pattern
    + r"|\b(?:ENT|EMT)\b|\blag\b|\bmil\b|neighbor|\bcenter|mitered|\bcrown\b|\d/\d|\binch|\blb\b|\bft\b"
    r"|\b120\b",
    re.IGNORECASE,
)
BOTH_WAYS = {("job", "units"), ("job", "region"), ("equipment", "shows"), ("equipment", "diagonal")}
"""Fields that name both regions, 120 pictures a second, or the inches that TVs are sold by everywhere."""


def test_no_form_of_a_metric_job_speaks_american() -> None:
    """Titles, hints and choices of every field that a metric form has; pairs with a slash are places, no fractions."""
    metric = Manner(DAY, metric=True, day_first=True, currency="EUR")
    leaks = []
    for cls in KINDS.values():
        for field in fields_of(cls):
            if (cls.kind, field.key) in BOTH_WAYS or not field.fits(metric):
                continue
            texts = (field.title(metric), field.help(metric), *field.choices_in(metric))
            plain = [re.sub(r"\d+/\d{2,}|0/0", "", text) for text in texts]
            leaks += [(cls.kind, field.key, text) for text in plain if US_FORMS.search(text)]
    assert leaks == []


def test_a_raceway_of_a_metric_job_grows_by_its_inside_diameter() -> None:
    job, finding = case("raceway_overfull")
    before = next(iter(job.of(Raceway).values()))
    assert _larger(job, finding).size != before.size
    settings = msgspec.structs.replace(job.settings, units="millimetres", region="metric")
    narrow = msgspec.structs.replace(before, size="", inside=Length(20_000_000, metric=True))
    metric = with_records(job, settings, narrow)
    one = _larger(metric, next(each for each in findings(metric) if each.rule == "raceway_overfull"))
    assert (one.size, one.inside) == ("", Length(32_000_000))


def _larger(job: Job, finding: Finding) -> Raceway:
    found = offer(job, finding)
    assert found is not None
    one = found.fix.changed[0]
    assert isinstance(one, Raceway)
    return one
