"""The file for CAD: read back by a reader that is not ours, in its own units, with the layers of the trade."""

from __future__ import annotations

import io
import re
from datetime import date

import pytest
from ezdxf import bbox, recover
from ezdxf.document import Drawing
from ezdxf.entities.polyline import Polyline
from ezdxf.math import Vec2, is_point_in_polygon_2d

from store.measure.length import INCH_NM, MM_NM
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.drawing.elevation import Spot, scene
from store.rules.drawing.shapes import Run
from templates.sheets.catalogue import Context, make
from templates.sheets.drawing.dxf import LAYERS
from tests.jobs.begun import begun
from tests.rules.drawing.test_elevation import WALL, job_of, place
from tests.rules.drawing.test_elevation import make as record
from tests.templates.sheets.drawing.test_drawing_sheets import ATTIC, SIDES

TODAY = date(2026, 10, 14)


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Job:
    return begun(tmp_path_factory.mktemp("demo") / "demo.json", "demo", TODAY).job


@pytest.fixture(scope="module")
def metric(tmp_path_factory: pytest.TempPathFactory) -> Job:
    return begun(tmp_path_factory.mktemp("metric") / "m.json", "media-wall-metric", TODAY).job


def read_back(text: str) -> Drawing:
    read, audit = recover.read(io.BytesIO(text.encode()))
    assert not audit.has_errors
    return read


def test_the_file_for_cad_is_read_by_an_independent_reader_at_true_size(demo: Job, metric: Job) -> None:
    for job, unit in ((demo, INCH_NM), (metric, MM_NM)):
        text = make("drawing-sheets", "dxf", job, Context(wall="W1"))
        assert text.isascii()
        read = read_back(text)
        assert read.dxfversion == "AC1009"
        assert read.header["$INSUNITS"] == read.units == (4 if job.settings.metric else 1)
        assert read.header["$MEASUREMENT"] == job.settings.metric
        whole = scene(job, "W1")
        space = read.modelspace()
        outline = bbox.extents(space.query('POLYLINE[layer=="A-WALL"]'))
        assert outline.size.x == pytest.approx(whole.width / unit, abs=1e-4)
        assert outline.size.y == pytest.approx(whole.height / unit, abs=1e-4)
        boxes = {(round(one.dxf.center.x, 4), round(one.dxf.center.y, 4)) for one in space.query("CIRCLE")}
        placed = {(round(each.x / unit, 4), round(each.y / unit, 4)) for each in whole.shapes if isinstance(each, Spot)}
        assert boxes == placed
        tags = {one.dxf.text.split()[0] for one in space.query("TEXT")}
        assert {each.tag for each in whole.shapes if each.tag} <= tags
        for name in {one.dxf.layer for one in space}:
            assert re.fullmatch(r"[A-Z0-9$_-]{1,31}", name)
            assert name in read.layers


def test_a_ceiling_that_steps_and_slopes_is_the_outline_of_the_file() -> None:
    space = read_back(make("drawing-sheets", "dxf", job_of(ATTIC, *SIDES), Context())).modelspace()
    (outline,) = space.query('POLYLINE[layer=="A-WALL"]')
    assert isinstance(outline, Polyline)
    corners = [(round(x, 4), round(y, 4)) for x, y, *_ in outline.points()]
    assert corners == [(0, 0), (144, 0), (144, 84), (72, 108), (72, 96), (0, 96)]
    assert not space.query('POLYLINE[layer=="A-WALL-FURR"]')


def test_a_name_in_any_letters_survives_in_the_file_for_cad() -> None:
    box = record(Box, "B1", what="receptacle", name="Küche\n電", **place("5' 2", "1' 4"))
    text = make("drawing-sheets", "dxf", job_of(WALL, *SIDES, box), Context())
    read = read_back(text)
    assert any("Küche" in one.dxf.text and "電" in one.dxf.text for one in read.modelspace().query("TEXT"))


TRADES = {
    "electrician": ({"E-POWR", "E-POWR-CABL"}, {"T-JACK", "T-CABL", "T-CABL-PATH"}),
    "low-voltage": ({"T-JACK", "T-CABL", "T-CABL-PATH", "E-POWR"}, {"E-POWR-CABL"}),
    "carpenter": ({"A-WALL-FRAM", "A-WALL-OPNG"}, {"E-POWR", "E-POWR-CABL", "T-JACK", "T-CABL", "T-CABL-PATH"}),
    "drywall": ({"A-WALL-OPNG", "E-POWR", "T-JACK", "A-ANNO-NOSC"}, {"E-POWR-CABL", "T-CABL", "T-CABL-PATH"}),
}
"""Layers that the file of a trade has, and those that are of other trades alone."""


def test_the_file_of_a_trade_has_its_layers_and_no_other_trades(demo: Job) -> None:
    for trade, (seen, others) in TRADES.items():
        read = read_back(make(f"drawing-{trade}", "dxf", demo, Context(wall="W1")))
        drawn = {one.dxf.layer for one in read.modelspace()}
        assert seen <= drawn, trade
        assert not others & drawn, trade
        assert {one.dxf.name for one in read.layers} & set(LAYERS) == drawn, trade
    whole = read_back(make("drawing-sheets", "dxf", demo, Context(wall="W1")))
    every = set().union(*(seen for seen, _ in TRADES.values())) - {"A-ANNO-NOSC"}
    assert every <= {one.dxf.layer for one in whole.modelspace()}


def test_the_drywall_crew_has_the_strips_where_no_screw_may_go_in_its_file(demo: Job) -> None:
    read = read_back(make("drawing-drywall", "dxf", demo, Context(wall="W1")))
    found = read.modelspace().query('POLYLINE[layer=="A-ANNO-NOSC"]')
    strips = [[Vec2(x, y) for x, y, *_ in one.points()] for one in found if isinstance(one, Polyline)]
    runs = [each for each in scene(demo, "W1").shapes if isinstance(each, Run) and each.layer in ("cables", "raceways")]
    assert runs
    for x, y in [spot for each in runs for spot in each.points]:
        inside = Vec2(x / INCH_NM + 3.5, y / INCH_NM), Vec2(x / INCH_NM - 3.5, y / INCH_NM)
        assert all(any(is_point_in_polygon_2d(one, strip) >= 0 for strip in strips) for one in inside)
