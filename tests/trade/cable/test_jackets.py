"""Jacket markings: a better one may stand in, a lesser one never."""

from __future__ import annotations

import networkx as nx
import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.trade.cable.jackets import LIMITED, SUBSTITUTES, in_wall, markings, may_replace, substitution_source, tidy
from tests.rows import rows

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


@rows(("needed", "offered"), [("CL3", "CL2"), ("CM", "CL3P"), ("CM", "CL2"), ("CL2", "CMX"), ("CM", "")])
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


@rows("offered", sorted(LIMITED - {"CATVX"}))
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


@rows("needed", SUBSTITUTES)
def test_every_row_names_the_standard_and_its_edition(needed: str) -> None:
    assert "NFPA 70" in substitution_source(needed)
    assert "20" in substitution_source(needed)


PRINTED = {
    "c(UL)us CL3 FT4": ("CL3", "CMG"), "CMR/FT4": ("CMR", "CMG"),
    "Type NM-B 600V": ("NM-B",), "CL3R FT4": ("CL3R", "CMG"),
    "CMX outdoor": ("CMX",), "CL3X OR CMX": ("CL3X", "CMX"), "CMP/FPLP": ("CMP",), "CMR/CL3R": ("CMR", "CL3R"),
    "(UL) CL2 75C": ("CL2",), "300 ft CL2": ("CL2",), "CL-3": ("CL3",), "CL3-X": ("CL3X",), "CL 3": ("CL3",),
    "CMG FT4": ("CMG",), "c(UL) FT4 CMG": ("CMG",), "CATV/CM": ("CATV", "CM"), "CATVR or CMR": ("CATVR", "CMR"),
    "OFNR FT4": ("OFNR", "CMG"), "OFNP": ("OFNP",), "PLTC": ("PLTC",), "NMC-B": ("NMC-B",), "UF-B 600V": ("UF-B",),
    "THHN/THWN-2": ("THHN", "THWN-2"), "TYPE CL3 (UL) C(ETL)US CM": ("CL3", "CM"), "CMR-LP(0.5A)": ("CMR",),
    "NM-B 600V 14/2 W/G": ("NM-B",), "E123456 (UL) CMR 75C": ("CMR",), "16/2 FT4": ("CMG",), "16/2 FT-4": ("CMG",),
    "AWM 2464 CL2": ("CL2",), "CM AWM 20276": ("CM",), "CL3P FT6": ("CL3P", "CMP"), "cmg-ft4 cl3r": ("CMG", "CL3R"),
}  # fmt: skip
NO_MARK = (
    "AWM 20276 80C 30V VW-1", "AWM 2464 FT4", "FT1", "VW-1", "30 cm", "120VAC", "CMH", "in-wall", "4K", "LSZH", "NM",
    "no CL2 mark", "CL2?", "should be CL3", "not CL2", "unrated", "like CL2", "needs CMR", "SPT-2", "c(UL)us", "100 ft",
)  # fmt: skip


@rows(("printed", "marks"), PRINTED.items())
def test_every_marking_of_a_jacket_is_read_as_it_is_printed(printed: str, marks: tuple[str, ...]) -> None:
    assert markings(printed) == marks


@rows("printed", NO_MARK)
def test_what_is_no_marking_for_a_wall_is_none(printed: str) -> None:
    assert markings(printed) == ()
    assert not in_wall("CL2", printed, 1, small_dwelling=True).ok


@rows("needed", ["CL2", "CL3", "CM", "CMR"])
def test_any_marking_of_a_jacket_is_enough(needed: str) -> None:
    """`CMP/FPLP`: one of them is good, whichever stands first; the best one of two gives the reason."""
    for printed in ("CMP/CL2X", "CL2X or CMP", "c(UL)us CL2X FT6"):
        verdict = in_wall(needed, printed, QUARTER_INCH_NM, small_dwelling=False)
        assert verdict.ok
        assert verdict.reason.startswith("CMP is good")
    assert not in_wall(needed, "CL2X FT1", QUARTER_INCH_NM, small_dwelling=False).ok


def test_an_unknown_marking_is_told_as_it_was_typed() -> None:
    verdict = in_wall("CL2", "4K in-wall", 1, small_dwelling=True)
    assert not verdict.ok
    assert "'4K in-wall'" in verdict.reason


def test_why_a_limited_marking_will_not_do() -> None:
    thick = in_wall("CL2", "CL2X", QUARTER_INCH_NM, small_dwelling=True)
    assert "1/4 in or thicker" in thick.reason
    assert "not in a one- or two-family dwelling" in in_wall("CL2", "CL2X", 1, small_dwelling=False).reason
    assert "raceway" in in_wall("CL2", "CL2X", QUARTER_INCH_NM, small_dwelling=True, in_raceway=True).reason


@given(st.sampled_from(sorted(PRINTED)), st.booleans(), st.sampled_from(["", "  ", "\t"]))
def test_case_and_spaces_round_it_change_nothing(printed: str, capital: bool, space: str) -> None:
    assert markings(space + (printed.upper() if capital else printed.lower()) + space) == PRINTED[printed]


@given(st.text(max_size=40))
def test_no_text_breaks_it_and_what_is_found_is_in_the_tables(printed: str) -> None:
    assert all(mark in SUBSTITUTES for mark in markings(printed))


@rows("mark", SUBSTITUTES)
def test_every_marking_of_the_tables_is_read_as_itself_and_is_good_where_it_is_asked_for(mark: str) -> None:
    assert markings(mark) == (mark,)
    assert may_replace(mark, mark)
    assert in_wall(mark, mark, 1, small_dwelling=False).ok


def test_each_family_of_markings_names_its_own_table() -> None:
    for mark, table in (
        ("CL2", "725.154"),
        ("PLTC", "725.154"),
        ("CM", "800.154"),
        ("CATV", "820.154"),
        ("OFN", "770.154"),
    ):
        assert table in substitution_source(mark)
    assert "334.10" in substitution_source("NM-B")
    assert "310.4" in substitution_source("THHN")
