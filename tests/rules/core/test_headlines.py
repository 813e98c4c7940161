"""The shape of a finding: a headline of 60 characters with its tag once, a why, and what to do."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

import store.rules
from store.rules.core.checks import rough_in
from store.rules.core.figure_titles import TITLES, titled
from store.rules.core.figures import figures
from store.rules.core.findings import findings
from store.rules.core.headline import MOST, headline
from store.rules.gate.gate import STAGES, _holds, locked_text
from store.rules.gate.held import held_text
from tests.rules.core.edits import starter
from tests.sources import calls

ROOMS = Path(next(iter(store.rules.__path__)))


def _calls() -> list[tuple[str, ast.Call]]:
    return list(calls(ROOMS, "Finding"))


def test_every_finding_has_a_why_of_its_own() -> None:
    made = _calls()
    assert len(made) > 100
    assert [at for at, call in made if not any(word.arg == "why" for word in call.keywords)] == []


def test_a_headline_that_is_one_text_begins_with_a_capital_and_has_no_full_stop() -> None:
    heads = [(at, ast.literal_eval(call.args[3])) for at, call in _calls() if isinstance(call.args[3], ast.Constant)]
    assert len(heads) > 30
    wrong = [(at, head) for at, head in heads if not head[0].isupper() or head.endswith(".") or len(head) > MOST - 6]
    assert wrong == []


@pytest.mark.parametrize("name", ["demo", "media-wall", "media-wall-metric"])
def test_headlines_of_the_shipped_jobs(name: str) -> None:
    job = starter(name)
    found = findings(job)
    assert found
    for each in found:
        assert len(each.headline) <= MOST
        assert each.headline[0].isupper() or not each.headline[0].isalpha()
        assert not each.headline.endswith(".")
        assert each.rule not in each.headline
        tags = re.findall(r"\b[A-Z]\d+\b", each.headline)
        assert len(tags) == len(set(tags))
        assert each.why
        assert each.do


def test_a_long_name_is_cut_and_the_problem_never() -> None:
    job = starter("demo")
    tag = next(each for each in job.tables["equipment"] if len(getattr(job.get(each), "name", "")) > 20)
    line = headline(job, "x" * 40, (tag,))
    assert line.startswith("X" + "x" * 39 + f", {tag}")
    assert len(line) <= MOST


@pytest.mark.parametrize("name", ["demo", "media-wall", "media-wall-metric"])
def test_what_must_be_done_and_what_locks_a_stage_have_a_headline_too(name: str) -> None:
    """60 characters, a capital, no full stop, the tag once: of every item, and of every hold of every stage."""
    job = starter(name)
    items = rough_in(job)
    held = [hold for stage in STAGES[1:] for hold in _holds(job, stage, (), (), None)]
    assert len(items) > 90
    assert {hold.kind for hold in held} >= {"item", "other"}
    lines = [each.what for each in items] + [each.what for each in held]
    wrong = [line for line in lines if len(line) > MOST or line.endswith(".") or line[:1].islower()]
    assert wrong == []
    for line in lines:
        tags = re.findall(r"\b[A-Z]\d+\b", line)
        assert len(tags) == len(set(tags)), line


def test_a_figure_is_told_in_the_units_of_the_job() -> None:
    """1 lbf is 4.448222 N, 1 cfm 1.699011 m³/h, 1 lb 0.45359237 kg: NIST SP 811."""
    assert titled("needed_n", 44.48222, False)[1] == "10 lb"
    assert titled("needed_n", 44.48222, True)[1] == "44.48 N"
    assert titled("air_needed_cfm", 100.0, True)[1] == "169.9 m³/h"
    assert titled("each_door_lb", 20.0, True)[1] == "9.07 kg"


@pytest.mark.parametrize("name", ["demo", "media-wall-metric"])
def test_every_figure_that_a_page_shows_has_a_title(name: str) -> None:
    shown = {each for found in figures(starter(name)).values() for each in found if not each.endswith("_minor")}
    assert len(shown) > 90
    named_alike = {"planned", "quoted", "paid", "overpaid", "contingency", "contingency_left", "start", "finish"}
    counted = {"top_plates", "king_studs", "trimmers", "cripples", "headers", "sills", "sheets", "coats", "cables"}
    assert {each for each in shown - named_alike - counted if each not in TITLES and not each[0].isdigit()} == set()


@pytest.mark.parametrize("name", ["demo", "media-wall", "media-wall-metric"])
def test_what_a_refusal_begins_with_is_a_headline_too(name: str) -> None:
    """The stage and what locks it, in 60 characters and once; then one line for each hold."""
    job = starter(name)
    for stage in STAGES[1:]:
        if not (held := _holds(job, stage, (), (), None)):
            continue
        for text in (locked_text(stage, held), held_text(stage, [each.what for each in held])):
            head, *lines = text.split("\n")
            assert head.startswith(stage)
            assert head.count(stage) == 1
            assert head.endswith(":")
            assert len(head) <= MOST
            assert lines
