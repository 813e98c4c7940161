"""Every shipped starter makes a job; a starter with a mistake says where it is, and makes no file."""

from __future__ import annotations

import re
import tomllib
from collections import Counter
from datetime import date
from importlib.resources import files
from pathlib import Path

import pytest

from store.book.book import Book
from store.measure.errors import BadValue, StudbookError
from store.measure.length import inches
from store.records.equipment import Equipment
from store.records.field import fields_of
from store.records.job import Settings
from store.records.wall import Opening
from store.records.whole import KINDS, Job, references
from store.rules.core.findings import findings
from store.rules.gate.gate import standing
from store.trade.cable.types import CABLE_TYPES
from templates.starters import SHIPPED, load
from templates.starters.load import BadStarter
from tests.jobs.begun import begun
from tests.rows import rows

TODAY = date(2026, 10, 14)
SKELETONS = ("media-wall", "media-wall-metric")


def made(starter: str, folder: Path) -> Job:
    """The job that a starter makes, read back from its file."""
    path = folder / "job.json"
    return begun(path, starter, TODAY).job


def source(starter: str) -> str:
    """The text of a shipped starter."""
    return files("templates.starters").joinpath(f"{starter}.toml").read_text("utf-8")


@pytest.mark.parametrize("starter", SHIPPED)
def test_a_shipped_starter_makes_a_job_that_opens_again(starter: str, tmp_path: Path) -> None:
    job = made(starter, tmp_path)
    assert len(list(job.each())) == len(load(starter, TODAY))
    assert not job.outside


@pytest.mark.parametrize("starter", SHIPPED)
def test_every_entry_of_a_starter_becomes_a_record(starter: str, tmp_path: Path) -> None:
    raw = tomllib.loads(source(starter))
    wanted: Counter[str] = Counter()
    for kind, value in raw.items():
        rows = value if isinstance(value, list) else [value]
        wanted[kind] += len(rows)
        for row in rows:
            wanted.update({key: len(each) for key, each in row.items() if key in KINDS and isinstance(each, list)})
    wanted = Counter({kind: count for kind, count in wanted.items() if count})
    assert wanted == Counter(record.kind for record in made(starter, tmp_path).each())


@pytest.mark.parametrize("starter", SHIPPED)
def test_no_tag_in_a_starter_names_nothing(starter: str, tmp_path: Path) -> None:
    job = made(starter, tmp_path)
    for record in job.each():
        for key, tag, kinds in references(record):
            named = job.get(tag)
            assert named is not None, (record.tag, key, tag)
            assert not kinds or named.kind in kinds, (record.tag, key, tag)


@rows("starter", SHIPPED)
def test_a_starter_is_plain_text_of_moderate_lines(starter: str) -> None:
    text = source(starter)
    assert text.startswith("# ")
    assert text.isascii()
    assert max(map(len, text.splitlines())) <= 125


def test_the_empty_job_is_empty(tmp_path: Path) -> None:
    job = made("empty", tmp_path)
    assert [record.tag for record in job.each()] == ["job"]
    assert standing(job).stage == "Survey"


@pytest.mark.parametrize("starter", SKELETONS)
def test_a_skeleton_invents_no_makers_figures(starter: str, tmp_path: Path) -> None:
    bare = {
        "name", "what", "count", "heats", "opening", "stands_on", "wall", "x", "y", "plug", "power", "reached", "notes",
    }  # fmt: skip
    for one in made(starter, tmp_path).of(Equipment).values():
        filled = {field.key for field in fields_of(Equipment) if getattr(one, field.key) != field.default}
        assert filled <= bare, one.tag


@pytest.mark.parametrize("starter", SKELETONS)
def test_a_skeleton_is_held_at_once_and_later_until_sizes_are_noted(starter: str, tmp_path: Path) -> None:
    job = made(starter, tmp_path)
    now = standing(job)
    assert (now.stage, now.next) == ("Survey", "Design")
    assert {hold.key for hold in now.holds} == {"W1/width", "W1/height"}
    assert len(now.open) >= 14
    assert {one.use for one in job.of(Opening).values()} == {"screen", "fireplace", "equipment", "drawer", "shelf"}
    assert any(one.opening and one.width is None for one in job.of(Equipment).values())


@pytest.mark.parametrize("starter", SKELETONS)
def test_a_skeleton_names_no_person_and_gives_no_number(starter: str, tmp_path: Path) -> None:
    for one in made(starter, tmp_path).of(KINDS["contact"]).values():
        values = {field.key: getattr(one, field.key) for field in fields_of(type(one))}
        assert "(to find" in values["name"] or values["name"] in ("Building department", "Building control")
        assert not values["phone"]
        assert not values["mail"]


def test_the_two_skeletons_are_one_wall_in_two_systems(tmp_path: Path) -> None:
    (tmp_path / "us").mkdir()
    (tmp_path / "metric").mkdir()
    inches = made("media-wall", tmp_path / "us")
    metric = made("media-wall-metric", tmp_path / "metric")
    assert (inches.settings.region, metric.settings.region) == ("us", "metric")
    assert metric.settings.metric
    assert {kind: list(table) for kind, table in inches.tables.items()} == {
        kind: list(table) for kind, table in metric.tables.items()
    }
    lengths = [value for one in metric.of(Opening).values() for value in (one.x, one.y, one.width, one.height)]
    assert all(value is not None and value.metric for value in lengths)


@pytest.mark.parametrize(("starter", "volts"), [("media-wall", 120.0), ("media-wall-metric", 230.0)])
def test_a_skeleton_is_at_the_voltage_of_its_region(starter: str, volts: float, tmp_path: Path) -> None:
    circuits = made(starter, tmp_path).of(KINDS["circuit"]).values()
    assert {one.volts for one in circuits} == {volts}  # type: ignore[attr-defined]


@pytest.mark.parametrize("starter", ["media-wall", "demo"])
def test_the_cables_of_a_starter_are_kinds_that_the_tables_know(starter: str, tmp_path: Path) -> None:
    cables = made(starter, tmp_path).of(KINDS["cable"]).values()
    assert {one.type for one in cables} <= set(CABLE_TYPES)  # type: ignore[attr-defined]


@pytest.mark.parametrize("starter", SHIPPED)
def test_no_text_of_a_starter_looks_like_a_model_number_or_a_proper_name(starter: str, tmp_path: Path) -> None:
    """A capital inside a sentence is one of a few words of the trade or of our own first names."""
    ours = {"Robin", "Sam", "Kim", "Lee", "Alex", "Jo", "Mbit", "Gbit", "GFCI", "TV", "AV"}
    for record in made(starter, tmp_path).each():
        for field in fields_of(type(record)):
            text = getattr(record, field.key)
            if field.codec.name not in ("text", "note") or not text or field.key in ("currency", "rating", "type"):
                continue
            tagless = re.sub(r"\b[A-Z]\d{1,2}\b|\b[A-D] to [A-D]\b", "", text)
            inner = re.findall(r"(?<=[\w,;:(] )[A-Z]\w+", tagless)
            assert set(inner) <= ours, (record.tag, field.key, inner)
            assert not re.search(r"\b[A-Za-z]+-?\d{3,}\w*", tagless), (record.tag, field.key, text)


# --- mistakes ---

GOOD = '[job]\nname = "A wall"\n[[wall]]\ntag = "W1"\nname = "Wall"\n'

WRONG = {
    "unknown table": (GOOD + '[[opning]]\nname = "x"\n', "table [opning]", "did you mean `opening`"),
    "unknown table, far off": (GOOD + '[[zzz]]\nname = "x"\n', "table [zzz]", "there are: job, wall"),
    "unknown field": (GOOD + '[[wall]]\nname = "b"\nspaceing = "16"\n', "[[wall]] entry 2", "`spacing`"),
    "field by its title": (GOOD + '[[box]]\nwhat = "switch"\ncables = "12-2 G"\n', "`conductors` (cables in it)?"),
    "unknown field of the job": ('[job]\nname = "a"\nunit = "x"\n', "table [job]", "`unit`; did you mean `units`"),
    "bad length": (GOOD + '[[box]]\nwhat = "switch"\nx = "3 feets"\n', "[[box]] entry 1", "field `x`"),
    "comma in a length": (GOOD + '[[box]]\nwhat = "switch"\nx = "1,234"\n', "[[box]] entry 1", "field `x`"),
    "negative length": (GOOD + '[[box]]\nwhat = "switch"\nx = -3\n', "[[box]] entry 1", "field `x`"),
    "zero size": (GOOD + '[[opening]]\nname = "a"\nwidth = 0\n', "[[opening]] entry 1", "field `width`"),
    "bad choice": (GOOD + '[[box]]\nwhat = "plug"\n', "[[box]] entry 1, field `what`", '"plug" is not in the list'),
    "bad date": (GOOD + '[[step]]\nwhat = "a"\ndone = "soon"\n', "[[step]] entry 1", "field `done`"),
    "bad money": (GOOD + '[[equipment]]\nname = "a"\nprice = "lots"\n', "[[equipment]] entry 1", "field `price`"),
    "bad reference": (GOOD + '[[opening]]\nname = "a"\nwall = "left"\n', "[[opening]] entry 1", "field `wall`"),
    "required field missing": (GOOD + '[[box]]\nx = "3"\n', "[[box]] entry 1", "field `what` (kind) is missing"),
    "required field empty": (GOOD + '[[opening]]\nname = ""\n', "[[opening]] entry 1", "field `name`"),
    "job without a name": ('[job]\nroom = "den"\n', "table [job]", "field `name` (name) is missing"),
    "no job": ('[[wall]]\nname = "Wall"\n', "table [job]", "a job needs a name"),
    "duplicate tag": (GOOD + '[[wall]]\ntag = "W1"\nname = "b"\n', "[[wall]] entry 2, field `tag`", "given twice"),
    "tag of another kind": (GOOD + '[[box]]\ntag = "K1"\nwhat = "switch"\n', "[[box]] entry 1, field `tag`", "B1"),
    "tag that is no number": (GOOD + '[[box]]\ntag = "Bx"\nwhat = "switch"\n', "[[box]] entry 1, field `tag`", "'Bx'"),
    "tag zero": (GOOD + '[[box]]\ntag = "B0"\nwhat = "switch"\n', "[[box]] entry 1, field `tag`", "'B0'"),
    "tag with a raised digit": (GOOD + '[[wall]]\ntag = "W²"\nname = "b"\n', "[[wall]] entry 2, field `tag`", "'W²'"),
    "tag with no end": (
        GOOD + f'[[wall]]\ntag = "W{"1" * 5000}"\nname = "b"\n',
        "[[wall]] entry 2, field `tag`",
        "W11",
    ),
    "wrong entry that others name": (
        '[job]\nname = "a"\n[[wall]]\nname = "b"\nspacing = "wide"\n[[box]]\nwhat = "switch"\nwall = "W1"\n',
        "[[wall]] entry 1",
        "field `spacing`",
    ),
    "number where yes or no is meant": (GOOD + '[[box]]\nwhat = "switch"\nnew = 3\n', "[[box]] entry 1", "`new`"),
    "table where text is meant": (GOOD + "[[opening]]\nname = {a = 1}\n", "[[opening]] entry 1", "field `name`"),
    "list of numbers": (GOOD + "[[opening]]\nname = [1, 2]\n", "[[opening]] entry 1", "field `name`"),
    "text where a table is meant": ('wall = "W1"\n' + GOOD.split("[[")[0], "[[wall]] entry 1", "a table of fields"),
    "nested field": (GOOD + '[[wall.reading]]\nwhat = "width"\nvalue = "x"\n', "[[wall.reading]] entry 1", "`value`"),
    "nested, misspelt": (GOOD + '[[wall.obstacles]]\nwhat = "vent"\n', "[[wall]] entry 1", "field `obstacles`"),
    "closing without its check": (GOOD + '[[closing]]\ndate = "today"\nby = "a"\n', "[[closing]] entry 1", "`check`"),
}


@pytest.mark.parametrize("case", WRONG)
def test_a_mistake_is_told_by_file_table_entry_and_field(case: str, tmp_path: Path) -> None:
    text, *words = WRONG[case]
    path = tmp_path / "mine.toml"
    path.write_text(text, "utf-8")
    with pytest.raises(BadStarter) as told:
        load(str(path), TODAY)
    lines = str(told.value).splitlines()
    assert lines[0].startswith(f"{path}: table [")
    assert len(lines) == 1
    for word in words:
        assert word in lines[0]


def test_every_mistake_is_told_at_once(tmp_path: Path) -> None:
    path = tmp_path / "mine.toml"
    path.write_text(GOOD + '[[box]]\nwhat = "plug"\nx = "??"\n[[opening]]\nwide = "3"\n', "utf-8")
    with pytest.raises(BadStarter) as told:
        load(str(path), TODAY)
    assert [line.split(": ", 1)[1].split(":")[0] for line in str(told.value).splitlines()] == [
        "table [[box]] entry 1, field `what`",
        "table [[box]] entry 1, field `x`",
        "table [[opening]] entry 1",
        "table [[opening]] entry 1",
    ]


def test_what_is_not_toml_is_told_with_its_line(tmp_path: Path) -> None:
    path = tmp_path / "mine.toml"
    path.write_text('[job]\nname = "A wall\n', "utf-8")
    with pytest.raises(BadStarter, match=r"mine\.toml: not TOML: .*line 2"):
        load(str(path), TODAY)


@pytest.mark.parametrize(("value", "why"), [("9" * 5000, "thousands of digits"), ("[" * 5000 + "]" * 5000, "too deep")])
def test_what_no_reader_takes_is_told(value: str, why: str, tmp_path: Path) -> None:
    file = tmp_path / "mine.toml"
    file.write_text(f"[job]\nname = {value}\n")
    with pytest.raises(BadStarter, match=why):
        load(str(file), date(2026, 1, 1))


def test_what_is_no_text_is_told(tmp_path: Path) -> None:
    path = tmp_path / "mine.toml"
    path.write_bytes(b"\xff\xfe\x00[job]")
    with pytest.raises(BadStarter, match=r"mine\.toml: cannot be read as text"):
        load(str(path), TODAY)


def test_a_starter_that_is_not_there_names_those_that_are(tmp_path: Path) -> None:
    with pytest.raises(BadStarter, match="media-wall-metric") as told:
        load(str(tmp_path / "none.toml"), TODAY)
    assert "none.toml" in str(told.value)


REFUSED = {
    "a wall that is not there": ('[[box]]\nwhat = "switch"\nwall = "W9"\n', ("B1", "wall", "W9")),
    "a wall that is a box": ('[[box]]\nwhat = "switch"\n[[opening]]\nname = "a"\nwall = "B1"\n', ("N1", "wall", "B1")),
    "a step after itself": ('[[step]]\ntag = "S1"\nwhat = "a"\nafter = ["S1"]\n', ("S1", "after", "its own")),
    "a closing of no check": ('[[closing]]\ncheck = "Q7"\ndate = "today"\nby = "a"\nevidence = "b"\n', ("Q7",)),
    "a closing without evidence": (
        '[[check]]\nwhat = "a"\n[[closing]]\ncheck = "Q1"\ndate = "today"\nby = "Bo"\n',
        ("Q1", "proof"),
    ),
    "a closing of a day to come": (
        '[[check]]\nwhat = "a"\n[[closing]]\ncheck = "Q1"\ndate = "in 3 days"\nby = "Bo"\nevidence = "the blocks"\n',
        ("Q1", "still to come"),
    ),
    "drywall with an open check": (
        '[[check]]\nwhat = "a"\n'
        + "".join(
            f'[[passage]]\nstage = "{stage}"\ndate = "today"\nby = "Bo"\nreason = "in a hurry"\n'
            for stage in ("Design", "Mock-up", "Rough-in", "Drywall")
        ),
        ("Drywall", "Q1"),
    ),
}


@pytest.mark.parametrize("case", REFUSED)
def test_what_does_not_hold_together_makes_no_file(case: str, tmp_path: Path) -> None:
    text, words = REFUSED[case]
    starter = tmp_path / "mine.toml"
    starter.write_text(GOOD + text, "utf-8")
    job = tmp_path / "job.json"
    with pytest.raises(StudbookError) as told:
        Book.create(job, load(str(starter), TODAY), "Robin", "New job", lambda: TODAY)
    assert not job.exists()
    for word in words:
        assert word in str(told.value)


def test_tags_not_given_take_the_next_free_number(tmp_path: Path) -> None:
    path = tmp_path / "mine.toml"
    path.write_text(GOOD + '[[box]]\nwhat = "switch"\n[[box]]\ntag = "B1"\nwhat = "junction"\n', "utf-8")
    assert [(put.tag, put.fields["what"]) for put in load(str(path), TODAY) if put.kind == "box"] == [
        ("B2", "switch"),
        ("B1", "junction"),
    ]


def test_nested_entries_belong_to_the_entry_they_stand_in(tmp_path: Path) -> None:
    path = tmp_path / "mine.toml"
    path.write_text(
        '[job]\nname = "a"\n[[wall]]\nname = "b"\n[[wall]]\nname = "c"\n'
        '[[wall.reading]]\nwhat = "width"\nvalue = "8\'"\n',
        "utf-8",
    )
    puts = load(str(path), TODAY)
    tags = {put.fields["name"]: put.tag for put in puts if put.kind == "wall"}
    assert set(tags.values()) == {"W1", "W2"}
    assert [put.fields["wall"] for put in puts if put.kind == "reading"] == [tags["c"]]


def test_a_field_may_go_by_the_name_that_its_form_has(tmp_path: Path) -> None:
    file = tmp_path / "mine.toml"
    file.write_text(
        '[job]\nname = "j"\n[[wall]]\nname = "w"\n[[box]]\nkind = "receptacle"\nwall = "W1"\n'
        '"from left" = "20 in"\nfrom_floor = "16 in"\n[[cable]]\ntype = "cat6"\nfrom = "B1"\nto = "B1"\n'
    )
    Book.create(tmp_path / "job.json", load(str(file), date(2026, 1, 1)), "Robin", "Start").close()
    job = Book.open(tmp_path / "job.json", "Robin").job
    box, cable = job.tables["box"]["B1"], job.tables["cable"]["K1"]
    assert (box.x, box.y, box.what) == (inches(20), inches(16), "receptacle")  # type: ignore[attr-defined]
    assert (cable.start, cable.end) == ("B1", "B1")  # type: ignore[attr-defined]


def test_a_field_given_under_both_its_names_is_a_mistake(tmp_path: Path) -> None:
    file = tmp_path / "mine.toml"
    file.write_text('[job]\nname = "j"\n[[cable]]\ntype = "cat6"\nstart = "B1"\nfrom = "B2"\n')
    with pytest.raises(BadStarter, match=r"cable.* entry 1, field `from`: it is given twice, also as `start`"):
        load(str(file), date(2026, 1, 1))


def test_bare_numbers_take_the_unit_of_the_job(tmp_path: Path) -> None:
    for units, meant in (("feet-inches", "30 in"), ("millimetres", "30 mm")):
        path = tmp_path / f"{units}.toml"
        path.write_text(f'[[opening]]\nname = "a"\nwidth = 30\n[job]\nname = "a"\nunits = "{units}"\n', "utf-8")
        assert [put.fields["width"] for put in load(str(path), TODAY) if put.kind == "opening"] == [meant]


def test_a_starter_error_is_a_bad_value() -> None:
    assert issubclass(BadStarter, BadValue)
    assert Settings.kind == "job"


def test_an_answered_finding_of_a_starter_stays_answered(tmp_path: Path) -> None:
    starter = tmp_path / "mine.toml"
    text = """
[job]
name = "Mine"

[[contact]]
tag = "T1"
name = "Lee"
trade = "carpenter"
insured_until = "2020-01-01"
"""
    starter.write_text(text, "utf-8")
    book = Book.create(tmp_path / "open.json", load(str(starter), TODAY), "Robin", "New job", lambda: TODAY)
    (found,) = (each for each in findings(book.job) if each.rule == "insurance_ran_out")
    assert not found.answered
    answer = f'\n[[answer]]\ntag = "{found.key}"\ndate = "today"\nby = "Robin"\nsays = "new paper seen"\n'
    starter.write_text(text + answer, "utf-8")
    book = Book.create(tmp_path / "answered.json", load(str(starter), TODAY), "Robin", "New job", lambda: TODAY)
    (found,) = (each for each in findings(book.job) if each.rule == "insurance_ran_out")
    assert found.answered
