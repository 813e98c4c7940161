"""Jacket markings: a better one may stand in, a lesser one never."""

from __future__ import annotations

import networkx as nx
import pytest

from store.trade.cable.jackets import LIMITED, SUBSTITUTES, in_wall, may_replace, substitution_source, tidy

QUARTER_INCH_NM = 6_350_000


def test_the_tables_are_complete_without_chaining() -> None:
    """Following stand-ins of stand-ins finds nothing that a row does not already name."""
    graph = nx.DiGraph([(needed, one) for needed, row in SUBSTITUTES.items() for one in row])
    for needed, row in SUBSTITUTES.items():
        reached = nx.descendants(graph, needed) if needed in graph else set()
        assert set(row) == reached - {needed}, needed


def test_only_general_markings_of_one_rank_replace_each_other() -> None:
    mutual = {
        frozenset((one, two)) for one, row in SUBSTITUTES.items() for two in row if one in SUBSTITUTES.get(two, ())
    }
    assert mutual == {frozenset(("CM", "CMG")), frozenset(("OFN", "OFNG")), frozenset(("OFC", "OFCG"))}


@pytest.mark.parametrize("rank", ["P", "R"])
def test_no_lesser_space_replaces_a_plenum_or_riser_marking(rank: str) -> None:
    better = {"P": ("P",), "R": ("P", "R")}[rank]
    for needed, row in SUBSTITUTES.items():
        if needed.endswith(rank):
            assert all(one.endswith(better) for one in row), needed


@pytest.mark.parametrize(
    ("needed", "offered"), [("CL3", "CL2"), ("CM", "CL3P"), ("CM", "CL2"), ("CL2", "CMX"), ("CM", "")]
)
def test_the_other_way_round_is_refused(needed: str, offered: str) -> None:
    assert not may_replace(needed, offered)


def test_a_misspelt_requirement_is_an_error_and_not_a_no() -> None:
    with pytest.raises(KeyError):
        may_replace("CL22", "CMP")


def test_what_is_printed_on_the_jacket_is_read_loosely() -> None:
    assert tidy(" cmr ") == "CMR"
    assert may_replace("CM", "ft4")
    assert may_replace("CMR", "FT6")
    assert not may_replace("CMR", "FT4")


@pytest.mark.parametrize("offered", sorted(LIMITED - {"CATVX"}))
def test_a_limited_cable_passes_in_a_house_only_if_thin(offered: str) -> None:
    needed = offered[:-1]
    assert in_wall(needed, offered, QUARTER_INCH_NM - 1, small_dwelling=True).ok
    assert not in_wall(needed, offered, QUARTER_INCH_NM, small_dwelling=True).ok
    assert not in_wall(needed, offered, QUARTER_INCH_NM - 1, small_dwelling=False).ok
    assert in_wall(needed, offered, QUARTER_INCH_NM, small_dwelling=False, in_raceway=True).ok


def test_thinness_helps_no_cable_of_the_wrong_kind() -> None:
    assert not in_wall("CM", "CL3X", 1, small_dwelling=True).ok
    assert not in_wall("NM-B", "CMX", 1, small_dwelling=True).ok


def test_an_unmarked_cable_is_refused_with_the_marking_it_needs() -> None:
    verdict = in_wall("CL2", "  ", 1, small_dwelling=True)
    assert not verdict.ok
    assert "CL2" in verdict.reason


@pytest.mark.parametrize("needed", SUBSTITUTES)
def test_every_row_names_the_standard_and_its_edition(needed: str) -> None:
    assert "NFPA 70" in substitution_source(needed)
    assert "20" in substitution_source(needed)
