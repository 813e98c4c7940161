"""The registry is complete, in one order whoever imports first, and raises rather than finding nothing."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from store.rules.core import registry
from store.rules.core.registry import CHECKS, FIGURES, ROOT, RULES, Register, RegistryError
from tests.rows import rows

FOLDER = Path(registry.__file__).parents[len(registry.__name__.split(".")) - len(ROOT.split("."))]
ENDINGS = {"_rules": RULES, "_figures": FIGURES, "_checks": CHECKS}


def on_disk(ending: str) -> set[str]:
    paths = FOLDER.rglob(f"*{ending}.py")
    return {path.relative_to(FOLDER).with_suffix("").as_posix().replace("/", ".") for path in paths}


@rows("ending", sorted(ENDINGS))
def test_every_module_whose_name_says_so_is_listed_and_no_other(ending: str) -> None:
    listed = [name.partition(":")[0] for name in ENDINGS[ending]]
    found = on_disk(ending)
    assert found, f"no module named ...{ending} was found: this test looks in the wrong place"
    assert found - set(listed) == set(), f"on disk, and never asked: name them in the lists of {registry.__file__}"
    assert set(listed) - found <= {name for name in listed if name.endswith("checks")}, "listed, and not there"
    assert len(set(ENDINGS[ending])) == len(ENDINGS[ending])


def _rule_names(first: str) -> str:
    """The names of the rules, in order, in a process that imported something else first."""
    told = "print(*[f'{each.__module__}:{each.__name__}' for each in findings._RULES.all()])"
    statement = f"{first}\nfrom {registry.__name__.rpartition('.')[0]} import findings\n{told}"
    done = subprocess.run([sys.executable, "-c", statement], capture_output=True, text=True, timeout=60, check=True)
    return done.stdout


def test_the_order_is_the_same_whichever_part_of_the_program_came_first() -> None:
    plain = _rule_names("")
    assert len(plain.split()) > 150
    views = "from tui.views.index import Views\nfor each in reversed(range(len(Views()))): Views()[each]"
    assert _rule_names(views) == plain
    backwards = f"import importlib\nfor each in {RULES[::-1]!r}: importlib.import_module({ROOT!r} + each)"
    assert _rule_names(backwards) == plain


def _marked(module: str, name: str) -> Callable[[], None]:
    def function() -> None:
        """Nothing."""

    function.__module__, function.__name__ = module, name
    return function


def test_a_room_that_is_listed_and_not_there_raises() -> None:
    with pytest.raises(ModuleNotFoundError):
        Register((RULES[0], "no_such_room_rules")).all()


def test_a_room_that_is_listed_and_marks_nothing_raises() -> None:
    register: Register[Callable[[], None]] = Register((RULES[0],))
    with pytest.raises(RegistryError, match="nothing is marked"):
        register.all()


def test_what_is_marked_in_no_list_raises() -> None:
    register: Register[Callable[[], None]] = Register((RULES[0],))
    register.add(_marked(ROOT + RULES[0], "known"))
    assert [each.__name__ for each in register.all()] == ["known"]
    register.add(_marked("store.rules.somewhere", "unknown"))
    with pytest.raises(RegistryError, match=r"in no list of .+: store\.rules\.somewhere:unknown"):
        register.all()


def test_functions_of_one_module_may_stand_apart() -> None:
    module = ROOT + RULES[0]
    register: Register[Callable[[], None]] = Register((f"{RULES[0]}:last", RULES[1], f"{RULES[0]}:first"))
    for each in (_marked(module, "first"), _marked(ROOT + RULES[1], "between"), _marked(module, "last")):
        register.add(each)
    assert [each.__name__ for each in register.all()] == ["last", "between", "first"]
