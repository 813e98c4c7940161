"""Whatever a form takes, nothing of what is built, breathes or shines brings the program down."""

from __future__ import annotations

from functools import partial
from typing import Any

from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from store.measure.length import INCH_NM, Length
from store.measure.mass import Mass
from store.records.base import R
from store.records.build import Fixing
from store.records.equipment import Equipment
from store.records.field import Field, fields_of
from store.records.wall import Opening, Wall
from store.rules.buying.buying_list import buying_list
from store.rules.core.checks import rough_in
from store.rules.core.figures import figures
from store.rules.core.findings import findings
from store.rules.handoff.built import LISTS, built
from tests.jobs.wall_jobs import job_of, made, read
from tests.tries import tries

SIZES = st.sampled_from([None, *(Length(inch * INCH_NM // 4) for inch in (0, 1, 3, 14, 48, 100, 40_000))])
NUMBERS = st.sampled_from([None, 0.0, 0.5, 12.0, 24.0, 1e9])
MASSES = st.sampled_from([None, *(Mass(ug) for ug in (0, 10**9, 10**13))])


def _more_than_nothing(field: Field, value: Any) -> bool:
    return not field.is_nothing(value)


def any_of(cls: type[R], tag: str, **fixed: Any) -> st.SearchStrategy[R]:
    """A record with odd values in every length, number and weight, and any choice."""
    by_codec: dict[str, st.SearchStrategy[Any]] = {"length": SIZES, "number": NUMBERS, "mass": MASSES}
    odd: dict[str, st.SearchStrategy[Any]] = {}
    for field in fields_of(cls):
        if field.key in fixed or field.required:
            continue
        if field.codec.name == "choice":
            odd[field.key] = st.sampled_from(field.choices)
        elif field.codec.name in by_codec:
            plain = by_codec[field.codec.name]
            if field.says.above_zero:
                plain = plain.filter(partial(_more_than_nothing, field))
            odd[field.key] = plain if field.default is None else plain.filter(lambda value: value is not None)
        elif field.codec.name == "count":
            odd[field.key] = st.sampled_from([0, 1, 4, 10**9])
    bare = made(cls, tag, **fixed)
    return st.fixed_dictionaries(odd).map(lambda values: replace(bare, **values))


ODD = st.tuples(
    any_of(Wall, "W1", name="wall"),
    any_of(Opening, "N1", name="one", wall="W1", material="plywood"),
    any_of(Opening, "N2", name="two", wall="W1", material="MDF", air_through="N1"),
    any_of(Equipment, "E1", name="TV", opening="N1", plug="E2", count=1),
    any_of(Equipment, "E2", name="driver", opening="N2", count=2),
    any_of(Fixing, "X1", of="E1"),
    any_of(Fixing, "X2", of="N2"),
)


@given(ODD, st.sampled_from([1, 96, 168, 10_000]))
@tries(20)
def test_nothing_odd_brings_it_down(records: tuple[Any, ...], wide: int) -> None:
    job = job_of(*records, read("D1", "width", wide), read("D2", "height", 96), seat=108, eye=42)
    findings(job)
    figures(job)
    buying_list(job)
    rough_in(job)
    for trade in LISTS:
        list(built(job, trade))
