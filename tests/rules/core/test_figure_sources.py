"""What works out figures says of which kinds of records, so that a page asks only for its own."""

from __future__ import annotations

from collections import Counter
from datetime import date
from pathlib import Path

import pytest

from store.book.book import Book
from store.records.whole import LETTERS, Job
from store.rules.core.figures import figures, figures_about, sources
from tests.jobs.begun import begun

DAY = date(2026, 11, 2)
KIND = {letter: kind.kind for letter, kind in LETTERS.items()}


def job(starter: str, folder: Path) -> Job:
    begun(folder / "job.json", starter, DAY).close()
    return Book.open(folder / "job.json", "Robin", lambda: DAY).job


@pytest.mark.parametrize("starter", ["demo", "media-wall", "media-wall-metric"])
def test_a_source_tells_of_the_kinds_that_it_names_and_of_no_others(starter: str, tmp_path: Path) -> None:
    one = job(starter, tmp_path)
    for kinds, source in sources():
        told = {"job" if tag in ("job", "other") else KIND[tag[0]] for tag, _, _ in source(one)}
        assert told <= set(kinds), source.__name__


def test_the_figures_of_a_kind_are_those_of_the_whole_list(tmp_path: Path) -> None:
    one = job("demo", tmp_path)
    every = figures(one)
    for kind in {kind for kinds, _ in sources() for kind in kinds if kind != "job"}:
        mine = {tag: named for tag, named in every.items() if tag not in ("job", "other") and KIND[tag[0]] == kind}
        about = figures_about(one, kind)
        assert mine or kind == "wish", kind  # the demo wants nothing in some years
        assert {tag: named for tag, named in about.items() if tag in mine} == mine


@pytest.mark.parametrize("starter", ["demo", "media-wall-metric"])
def test_no_name_means_two_figures_of_one_thing(starter: str, tmp_path: Path) -> None:
    one = job(starter, tmp_path)
    names = Counter((tag, name) for _, source in sources() for tag, name, _ in source(one))
    assert [each for each, count in names.items() if count > 1] == []
