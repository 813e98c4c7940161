"""That no rule of power is without its two cases: a job that raises it, and one that does not."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import store.rules

FAMILIES = ("box", "circuit", "plug", "cord", "switched", "heater", "protection", "wall_wiring")
TESTS = "\n".join(
    re.sub(r"\s+", " ", Path(__file__).with_name(f"test_{family}_rules.py").read_text("utf-8")) for family in FAMILIES
)


def grave() -> list[str]:
    """Names of the rules whose findings can be `stop` or `fix`, from their source."""
    folder = Path(next(iter(store.rules.__path__)))
    text = "\n".join((folder / f"{family}_rules.py").read_text("utf-8") for family in FAMILIES)
    names = re.findall(r'"([a-z0-9_]+)",\s*"(?:stop|fix)"', text)
    return sorted(set(names))


@pytest.mark.parametrize("name", grave())
def test_each_grave_rule_has_both_cases(name: str) -> None:
    assert re.search(rf'"{name}",? "(stop|fix)"', TESTS), "no job is shown that raises it"
    assert re.search(rf'not told\((?:(?!not told|only\().)*?"{name}"', TESTS), "no job is shown that does not raise it"


def test_the_list_is_the_whole_list() -> None:
    assert len(grave()) >= 32
