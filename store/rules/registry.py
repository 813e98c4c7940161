"""The one order of everything that follows from a job: rules, figures and checks, by the module that holds them.

Each list is complete: a test compares it with what is on disk, and asking raises `RegistryError` when a room that is
listed holds nothing, or when something is marked that no list names. Otherwise a module that was moved would take its
rules away without a word, and leave the gate open.
"""

from __future__ import annotations

from collections.abc import Callable
from importlib import import_module
from typing import Any, Generic, TypeVar

T = TypeVar("T", bound=Callable[..., Any])
ROOT = "store.rules."

RULES = (
    "access_rules",
    "behind_rules",
    "box_rules",
    "buying_rules",
    "cable_place_rules",
    "cable_rules",
    "circuit_rules",
    "fireplace_rules",
    "cooling_rules",
    "cord_rules",
    "door_rules",
    "fit_rules",
    "heater_rules",
    "in_use_rules",
    "mock_up_rules",
    "money_rules",
    "opening_rules",
    "opening_stud_rules",
    "panel_size_rules",
    "people_rules",
    "photo_rules",
    "plug_rules",
    "protection_rules",
    "raceway_rules",
    "schedule_rules",
    "screen_rules",
    "shelf_rules",
    "signal_rules",
    "survey_rules",
    "switched_rules",
    "trade_rules",
    "upgrade_rules",
    "wall_wiring_rules",
    "wish_rules",
)
"""Findings of equal gravity are told in this order."""
FIGURES = (
    "access_figures",
    "cable_figures",
    "cooling_figures",
    "fit_figures",
    "money_figures",
    "power_figures",
    "raceway_figures",
    "schedule_figures",
    "screen_figures",
    "shelf_figures",
    "survey_figures",
    "wall_figures",
    "wall_wiring_figures",
)
"""The figures of a record stand in this order."""
CHECKS = (
    "checks",
    "plan_checks:of_cables",
    "plan_checks:of_boxes",
    "plan_checks:of_raceways",
    "plan_checks:of_panels",
    "plan_checks:of_loads",
    "plan_checks:of_walls",
    "plan_checks:of_inspection",
)
"""The rough-in list stands in this order: by function where a room has several, for the list goes by the work."""


class RegistryError(RuntimeError):
    """A list of the registry and the rooms do not agree; the program must not go on as if nothing were found."""


class Register(Generic[T]):
    """What was marked, given in the order of its list, whoever imported a room first."""

    def __init__(self, listed: tuple[str, ...]) -> None:
        self._places = {f"{ROOT}{name}": number for number, name in enumerate(listed)}
        self._marked: list[T] = []
        self._ordered: tuple[T, ...] = ()

    def add(self, function: T) -> None:
        """Take a marked function in."""
        self._marked.append(function)
        self._ordered = ()

    def all(self) -> tuple[T, ...]:
        """Everything marked, in order. Raises RegistryError when a list is not what the rooms hold."""
        if not self._ordered:
            for name in self._places:
                import_module(name.partition(":")[0])
            numbered = [(self._place(each), each) for each in self._marked]
            if empty := set(self._places.values()) - {number for number, _ in numbered}:
                names = [name for name, number in self._places.items() if number in empty]
                raise RegistryError(f"listed, and nothing is marked there: {', '.join(names)}")
            self._ordered = tuple(each for _, each in sorted(numbered, key=lambda pair: pair[0]))
        return self._ordered

    def _place(self, function: T) -> int:
        for name in (f"{function.__module__}:{function.__name__}", function.__module__):
            if name in self._places:
                return self._places[name]
        raise RegistryError(f"marked, and in no list: {function.__module__}:{function.__name__}")
