"""The electrician's sheet: what stands on it, by whom it is decided, and that nothing typed is obeyed."""

from __future__ import annotations

import ast
import re
from datetime import date
from html.parser import HTMLParser
from pathlib import Path

import pytest

import store.rules
from store.records.access import Panel
from store.records.wall import Wall
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.core.findings import findings
from templates.sheets.layout.page import markdown_text
from templates.sheets.trades.electrician import concerns, electrician_html, electrician_markdown
from tests.jobs.begun import begun
from tests.jobs.power_case import circuit, job_of, make, receptacle
from tests.rows import rows
from tests.rules.heat.test_heater_rules import heater
from tests.rules.plug.test_plug_rules import strip, thing


@pytest.fixture(name="demo")
def _demo(tmp_path: Path) -> Job:
    book = begun(tmp_path / "demo.json", "demo", date(2026, 3, 2))
    job = book.job
    book.close()
    return job


def small(**wall: str) -> Job:
    """A wall with a receptacle, a junction for the heater, and what hangs on them."""
    return job_of(
        make(Wall, "W1", name="wall", **wall),
        circuit(length="50'"),
        circuit("C2", only_for="E2"),
        receptacle(wall="W1", x="30", y="16 1/2"),
        make(Box, "B2", what="junction", circuit="C2", wall="W1", x="70", y="18", reached="A1"),
        make(Panel, "A1", name="panel", wall="W1", x="64", y="12", width="12", height="12"),
        thing(watts=90.0),
        heater("E2", plug="B2"),
    )


def test_places_are_to_the_centre_from_the_floor_and_the_corner() -> None:
    text = electrician_markdown(small())
    row = next(line for line in text.splitlines() if line.startswith("| B1 |"))
    assert "1'-4 1/2\"" in row
    assert "2'-6\"" in row
    assert "from the finished floor" in re.sub(r"\s+", " ", text)
    assert "C1 media" in row


def test_loads_and_limits_stand_beside_each_circuit() -> None:
    text = electrician_markdown(small())
    row = next(line for line in text.splitlines() if line.startswith("| C2 media"))
    assert "1500 W, 12.5 A" in row
    assert "15.6 A" in row
    assert "20 A" in row


def test_every_power_sheet_cautions_and_asks() -> None:
    text = re.sub(r"\s+", " ", electrician_markdown(small()))
    assert "licensed electrician" in text
    assert "Turn off the breaker" in text
    assert "Never alter" in text
    assert "Never run a cord or power strip" in text
    assert "Is W1 wall load-bearing?" in text
    assert "room and capacity for C1 media and C2 media" in text
    assert "424 or" in text


def test_a_question_goes_when_it_is_settled() -> None:
    assert "carry the house" not in electrician_markdown(small(bearing="no"))


def test_what_is_wrong_comes_first_and_is_answered_visibly() -> None:
    job = job_of(circuit(), receptacle(), strip("E8", plug="E9"), strip())
    text = electrician_markdown(job)
    assert "Problems" in text
    assert text.index("Problems") < text.index("## Circuits")
    assert "| Stop |" in text
    assert "Problems" not in electrician_markdown(small())


def test_figures_stand_in_markdown_as_they_are() -> None:
    """A number with a decimal point is no number of a list, and a backslash before a digit would be printed."""
    text = electrician_markdown(small())
    assert "12.5 A" in text
    assert not re.search(r"\\\d", text)
    assert re.search(r"\| 11\.25 of 22\.50 in³ \|", text)


@rows(
    ("typed", "printed"),
    [
        ("4.1 A", "4.1 A"),
        ("12-2 G", "12-2 G"),
        ("4. x", r"4\. x"),
        ("12) x", r"12\) x"),
        ("3.", r"3\."),
        ("- x", r"\- x"),
        (" = x", r"\= x"),
    ],
)
def test_only_what_would_begin_a_list_is_held_back(typed: str, printed: str) -> None:
    assert markdown_text(typed).strip() == printed


def test_tamper_resistant_receptacles_are_on_the_sheet() -> None:
    assert "NEC 2020 406.12" in electrician_markdown(small())


def test_metric_sheet_has_its_own_tables() -> None:
    job = job_of(
        circuit(volts=230.0, conductor="2.5 mm2", gfci=True, length="20 m"), receptacle(), thing(),
        region="metric", units="millimetres",
    )  # fmt: skip
    text = electrician_markdown(job)
    assert "BS 7671" in text
    assert "NEC" not in text
    assert "2.5 mm²" in text
    assert "in³" not in text


HOSTILE = "<script>alert(1)</script>[x](javascript:1)|`{{7*7}}`\x1b[31m\u202e&\"'"


def test_nothing_that_people_typed_is_obeyed() -> None:
    records = [
        make(Wall, "W1", name=HOSTILE),
        circuit(name=HOSTILE, slot=HOSTILE, conductor=HOSTILE),
        receptacle(name=HOSTILE, notes=HOSTILE, devices=(HOSTILE,), conductors=(HOSTILE,), size=HOSTILE, wall="W1"),
        thing(name=HOSTILE),
        heater("E2", name=HOSTILE),
    ]
    page, text = electrician_html(job_of(*records)), electrician_markdown(job_of(*records))
    for made in (page, text):
        assert "\x1b" not in made
        assert "\u202e" not in made
        assert "{{7*7}}" in made.replace("\\", "")
    assert "<script>" not in page
    assert "<script>" not in text
    assert not re.search(r"(?<!\\)\]\(", text), "a link"


class _Balance(HTMLParser):
    """Counts that every element that opens closes, and gathers what would be fetched."""

    VOID = ("meta", "br", "link", "img", "hr", "input")

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.fetched: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag not in self.VOID:
            self.open.append(tag)
        self.fetched += [value or "" for name, value in attrs if name in ("src", "href")]

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag


def test_the_page_is_whole_and_fetches_nothing(demo: Job) -> None:
    parser = _Balance()
    page = electrician_html(demo)
    parser.feed(page)
    assert parser.open == []
    assert [each for each in parser.fetched if not each.startswith(("data:", "#"))] == []
    assert "@import" not in page
    for tag in ("B1", "B5", "B15", "C1", "C5", "E2"):
        assert tag in page


def test_an_empty_job_prints() -> None:
    assert "No circuit is on the list yet" in electrician_markdown(job_of())


FAMILIES = ("box", "circuit", "plug", "cord", "switched", "heater", "protection", "wall_wiring")


def grave_rules() -> set[str]:
    """Names of all rules of power that can find something grave, read from their source."""
    found = set()
    for family in FAMILIES:
        (module,) = Path(next(iter(store.rules.__path__))).rglob(f"{family}_rules.py")
        source = module.read_text("utf-8")
        for node in ast.walk(ast.parse(source)):
            if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "Finding":
                name = node.args[0]
                if isinstance(name, ast.Constant):
                    found.add(str(name.value))
    return found


def test_no_finding_of_power_is_left_out_of_the_sheet(demo: Job) -> None:
    """Whatever a rule of power finds in the demo and is grave, concerns the electrician."""
    rules = grave_rules()
    assert len(rules) > 30
    grave = [each for each in findings(demo) if each.severity != "look" and each.rule in rules]
    assert all(concerns(demo, each) for each in grave)
    assert not any(each.rule == "does_not_fit" and concerns(demo, each) for each in findings(demo))
