"""The buying list, the labels and the signal chain on paper."""

from __future__ import annotations

import csv
import io
import re
from pathlib import Path
from typing import get_args
from xml.etree import ElementTree

import pytest

from store.book.book import Book
from store.book.changes import edit
from store.measure.errors import BadValue
from store.records.equipment import Equipment
from store.records.job import LabelPaper
from store.records.whole import Job
from store.records.wiring import Cable
from store.rules.buying.buying_list import bought, buying_list, cutting_list
from store.rules.cable.labels import Label, labels
from templates.sheets.catalogue import Context
from templates.sheets.catalogue import make as make_sheet
from templates.sheets.owner.buying import buying_csv, buying_html, buying_markdown
from templates.sheets.owner.signal_chain import signal_html, signal_svg, signal_text
from templates.sheets.wall.label_papers import PAPERS
from templates.sheets.wall.labels import labels_html, labels_svg, labels_text, too_thick
from tests.jobs.begun import begun
from tests.jobs.cable_jobs import TODAY, cable, job_of, make, plain
from tests.rows import rows

HOSTILE = "=1+1 <b>&[x](y)</b>\u202e\x1b[31m`|"


@pytest.fixture
def demo(tmp_path: Path) -> Book:
    """The demo job, open."""
    path = tmp_path / "job.json"
    return begun(path, "demo", TODAY)


def hostile() -> Job:
    """A job whose every name would be obeyed by something."""
    device = make(Equipment, "E1", name=HOSTILE, what="screen", ports=("hdmi in",))
    return plain(device, cable(kind="hdmi", end="E1", name=HOSTILE, measured="3'"), name=HOSTILE)


# --- buying ---


def test_every_line_of_the_list_is_in_all_three_forms(demo: Book) -> None:
    rows = list(csv.DictReader(io.StringIO(buying_csv(demo.job))))
    markdown, page = buying_markdown(demo.job), buying_html(demo.job)
    assert [(row["what"], int(row["count"])) for row in rows] == [
        (line.what, line.count) for line in buying_list(demo.job)
    ]
    boxes = len(rows) + len(cutting_list(demo.job))
    assert markdown.count("- [ ]") == boxes
    assert page.count("☐") == boxes
    assert "cut: K19 53 ft" in markdown


def test_amounts_add_up(demo: Book) -> None:
    rows = list(csv.DictReader(io.StringIO(buying_csv(demo.job))))
    total = sum(float(row["together"].replace(",", "")) for row in rows if row["together"])
    assert f"Known prices come to ${total:,.2f}" in buying_markdown(demo.job)


def test_a_job_with_nothing_to_buy_says_so() -> None:
    assert "All bought." in buying_markdown(job_of())


def test_ticking_is_one_action_and_one_undo(demo: Book) -> None:
    keys = [line.key for line in buying_list(demo.job)]
    demo.act("Bought", [edit(*pair) for pair in bought(demo.job, keys)])
    assert buying_list(demo.job) == ()
    assert demo.job.of(Cable)["K20"].state == "bought"
    assert "## To cut" in buying_markdown(demo.job)
    demo.undo()
    assert [line.key for line in buying_list(demo.job)] == keys


def test_a_line_that_is_gone_meanwhile_changes_nothing(demo: Book) -> None:
    assert bought(demo.job, ["Equipment: E999"]) == []


# --- labels ---


def test_both_ends_get_a_label_with_the_same_tag(demo: Book) -> None:
    found = labels(demo.job)
    in_use = [tag for tag, one in demo.job.of(Cable).items() if one.retired is None]
    assert [each.tag for each in found if each.tag.startswith("K")] == [tag for tag in in_use for _ in range(2)]
    first, second = labels(demo.job, ("K1",))
    assert (first.here, first.there) == (second.there, second.here) == ("B8", "B3")
    assert first.lines == ("K1", "at B8, to B3", "picture, receiver to TV", "hdmi-optical")
    assert labels_text((first,)) == "K1  |  at B8, to B3  |  picture, receiver to TV  |  hdmi-optical\n"
    assert [each.lines[1] for each in labels(demo.job, ("K13",))] == [
        "at electrical panel, to B5",
        "at B5, to electrical panel",
    ]


@rows("name", PAPERS)
def test_labels_lie_on_their_page_and_do_not_overlap(name: str) -> None:
    paper = PAPERS[name]
    for axis, count in ((0, paper.columns), (1, paper.rows)):
        assert paper.first[axis] + (count - 1) * paper.pitch[axis] + paper.label[axis] <= paper.page[axis] + 0.01
        assert paper.pitch[axis] >= paper.label[axis]
    assert paper.print_high < paper.label[1]


@pytest.mark.parametrize("name", PAPERS)
def test_a_sheet_has_every_label_within_its_own_place(name: str, demo: Book) -> None:
    paper, found = PAPERS[name], labels(demo.job)
    pages = labels_svg(found, paper)
    assert len(pages) == -(-len(found) // paper.most)
    texts = [text for page in pages for text in ElementTree.fromstring(page).iter("{http://www.w3.org/2000/svg}text")]
    tags = [text.text for text in texts]
    for each in {label.tag for label in found}:
        assert tags.count(each) == 4, "twice on each of two labels"
    for text in texts:
        x, y, size = (float(text.attrib[key]) for key in ("x", "y", "font-size"))
        column, across = divmod(x - paper.first[0], paper.pitch[0])
        row, down = divmod(y - paper.first[1], paper.pitch[1])
        assert 0 <= column < paper.columns
        assert 0 <= row < paper.rows
        assert 0 < across < paper.label[0]
        assert size * 0.7 < down <= (paper.print_high or paper.label[1])


def test_labels_that_are_used_already_are_left_out(demo: Book) -> None:
    paper, found = PAPERS["letter-30"], labels(demo.job, ("K1",))
    plain_page, skipped = labels_svg(found, paper)[0], labels_svg(found, paper, skip=4)[0]
    assert plain_page != skipped
    assert f'x="{paper.first[0] + paper.pitch[0] + 1.5:.2f}"' in skipped
    with pytest.raises(BadValue, match="30 labels"):
        labels_svg(found, paper, skip=30)


def test_a_thick_cable_does_not_take_a_wrap_round_label() -> None:
    # Clear part 33.867 - 12.7 = 21.167 mm: once round up to 6.74 mm.
    paper = PAPERS["letter-wrap-49"]
    assert not too_thick(paper, 6.7)
    assert too_thick(paper, 6.8)
    assert not too_thick(PAPERS["letter-30"], 50)


def test_the_paper_is_that_of_the_job_and_too_thick_cables_are_named_beside_it() -> None:
    job = plain(cable(), cable("K2", kind="12-2 nm"), label_paper="letter-wrap-49")
    page = make_sheet("labels", "", job, Context())
    assert PAPERS["letter-wrap-49"].name in page
    assert "cover its print: K2.</p>" in page
    assert PAPERS["a4-21"].name in make_sheet("labels", "", plain(units="millimetres"), Context())
    assert PAPERS["letter-80"].name in make_sheet("labels", "", job, Context(paper="letter-80"))
    with pytest.raises(BadValue, match="There are: letter-30"):
        make_sheet("labels", "", job, Context(paper="foolscap"))
    assert set(get_args(LabelPaper)) == {"usual", *PAPERS}


# --- signal ---


def test_the_chain_is_the_same_in_all_three_forms(demo: Book) -> None:
    text, page, picture = signal_text(demo.job), signal_html(demo.job), signal_svg(demo.job)
    root = ElementTree.fromstring(picture)
    drawn = [each.text for each in root.iter("{http://www.w3.org/2000/svg}text")]
    wanted = [line.lstrip("│├└─ ") for line in text.splitlines()[2:]]
    assert drawn == wanted
    assert page.count("<li>") == len(wanted)


def test_nothing_that_was_typed_is_obeyed() -> None:
    job = hostile()
    for paper in (buying_markdown(job), buying_html(job), buying_csv(job), labels_text(labels(job)), signal_text(job)):
        assert "\x1b" not in paper
        assert "\u202e" not in paper
    for page in (buying_html(job), signal_html(job), labels_html(labels(job), PAPERS["a4-21"])):
        assert "<b>" not in page
    for picture in (signal_svg(job), *labels_svg(labels(job), PAPERS["a4-65"])):
        ElementTree.fromstring(picture)
    cells = [cell for row in csv.reader(io.StringIO(buying_csv(job))) for cell in row]
    assert any(cell.startswith("'=1+1") for cell in cells)
    assert not any(cell.startswith(("=", "+", "-", "@")) for cell in cells)
    assert "\\<b\\>" in buying_markdown(job)


@rows("name", list(PAPERS))
def test_no_type_on_a_label_is_smaller_than_six_points(name: str) -> None:
    long = Label("K104", "from", "B112", "N14", "the spare network cable behind the picture " * 2, "speaker-14-2")
    pages = labels_svg([long] * 3, PAPERS[name])
    sizes = [float(each) for page in pages for each in re.findall(r'font-size="([\d.]+)"', page)]
    assert len(sizes) >= 6
    assert min(sizes) >= 6 * 25.4 / 72 - 0.005
    assert sum(page.count(">K104<") for page in pages) == 6


@rows("name", list(PAPERS))
def test_both_faces_of_a_label_say_the_same(name: str) -> None:
    one = Label("K7", "from", "B8", "N11", "left speaker", "speaker-14-2")
    paper = PAPERS[name]
    texts = re.findall(r'<text x="([\d.]+)" y="([\d.]+)"[^>]*>([^<]*)<', labels_svg([one], paper)[0])
    half = len(texts) // 2
    assert [each[2] for each in texts[:half]] == [each[2] for each in texts[half:]]
    moved = {tuple(round(float(b) - float(a), 2) for a, b in zip(one[:2], other[:2], strict=True))
             for one, other in zip(texts[:half], texts[half:], strict=True)}  # fmt: skip
    assert moved == {(round(paper.label[0] / 2, 2), 0.0) if paper.flag else (0.0, round(paper.print_high / 2, 2))}
    assert any("B8" in each[2] for each in texts), "the end it goes on is told on every paper"


def test_labels_are_moved_by_what_the_test_print_showed() -> None:
    paper, job = PAPERS["letter-30"], plain(cable())
    trial = make_sheet("labels-test", "html", job, Context())
    assert trial.count("<rect") == paper.most
    assert "100 mm" in trial
    corner = f'x="{paper.first[0] + 0.5:.2f}" y="{paper.first[1] - 1:.2f}"'
    assert corner in make_sheet("labels", "html", job, Context(nudge="0.5,-1"))
    assert corner in make_sheet("labels-test", "html", job, Context(nudge="0.5,-1"))
    for bad in ("5", "a,b", "9,0"):
        with pytest.raises(BadValue, match="nudge"):
            make_sheet("labels", "html", job, Context(nudge=bad))


def test_a_roll_has_a_page_a_label() -> None:
    one = Label("K7", "from", "B8", "N11", "left speaker", "speaker-14-2")
    paper = PAPERS["roll-12"]
    assert len(labels_svg([one] * 3, paper)) == 3
    assert "size: 60.0mm 12.0mm" in labels_html([one], paper)


def test_the_edges_of_labels_are_not_printed() -> None:
    job = plain(cable())
    assert 'class="edge"' in make_sheet("labels", "html", job, Context())
    printed = make_sheet("labels", "pdf", job, Context())
    assert 'class="edge"' not in printed
    assert printed.count("<text") == make_sheet("labels", "html", job, Context()).count("<text")
