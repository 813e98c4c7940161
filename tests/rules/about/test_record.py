"""The facts about a record agree with what each room says of it, for every record of the demo."""

from __future__ import annotations

from datetime import date

import pytest

from store.records.access import Photo
from store.records.field import Ref
from store.records.whole import Job, references
from store.records.wiring import Cable
from store.rules.about.record import IN_PLACE, about, facts
from store.rules.access.steps import reach
from store.rules.core.checks import items
from store.rules.core.figures import figures
from store.rules.core.findings import findings
from tests.jobs.begun import begun

DAY = date(2026, 10, 14)


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Job:
    path = tmp_path_factory.mktemp("about") / "demo.json"
    book = begun(path, "demo", DAY, "Ann")
    book.close()
    return book.job


def test_every_record_of_the_demo_is_known_whole(demo: Job) -> None:
    records = {
        tag: record for table in demo.tables.values() for tag, record in table.items() if demo.get(tag) is record
    }
    assert len(records) > 100
    told, worked = findings(demo), figures(demo)
    for tag, record in records.items():
        known = facts(demo, tag)
        assert known.record is record
        assert known.names == tuple((name, demo.get(name)) for _, name, _ in references(record))
        naming = {each.tag for each in records.values() for _, name, _ in references(each) if name == tag}
        assert {each.tag for each in known.named_by} >= naming
        assert known.figures == worked.get(tag, {})
        assert known.findings == tuple(each for each in told if tag in each.tags)
        assert known.items == tuple(each for each in items(demo) if each.key.split("/")[0] == tag)
        assert (known.access is not None) == isinstance(record, IN_PLACE)
        if known.access is not None:
            assert known.access == reach(demo, tag)


def test_a_photo_is_known_of_what_it_shows_and_of_itself(demo: Job) -> None:
    tag = next(iter(demo.of(Cable)))
    photo = Photo(tag="F1", file="photos/run.jpg", of=(Ref(tag),))
    job = demo.having(photo)
    assert facts(job, tag).photos == (photo,)
    assert facts(job, "F1").photos == (photo,)
    assert facts(demo, tag).photos == ()


def test_nothing_is_known_of_what_is_not_there(demo: Job) -> None:
    assert about(demo, "K999") is None
    with pytest.raises(KeyError):
        facts(demo, "K999")
