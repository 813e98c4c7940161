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
    "access.access_rules",
    "access.panel_contents_rules",
    "access.retired_rules",
    "power.box_rules",
    "buying.order_rules",
    "buying.return_rules",
    "cable.place_rules",
    "cable.cable_rules",
    "signal.run_rules",
    "cable.kind_rules",
    "cable.framing_rules",
    "cable.crossing_rules",
    "wall.boxes_rules",
    "power.circuit_rules",
    "power.device_rules",
    "power.shared_rules",
    "power.ring_rules",
    "power.nameplate_rules",
    "power.bundle_rules",
    "heat.fireplace_rules",
    "heat.around_rules",
    "heat.cooling_rules",
    "heat.stack_rules",
    "plug.cord_rules",
    "fit.door_rules",
    "fit.furniture_rules",
    "fit.fit_rules",
    "heat.heater_rules",
    "service.upkeep_rules",
    "gate.mock_up_rules",
    "gate.proposed_rules",
    "money.money_rules",
    "wall.opening_rules",
    "wall.shape_rules",
    "wall.hung_rules",
    "wall.stud_rules",
    "access.panel_rules",
    "access.panel_room_rules",
    "trades.paper_rules",
    "photo.photo_rules",
    "plug.plug_rules",
    "plug.cord_way_rules",
    "power.protection_rules",
    "cable.raceway_rules",
    "schedule.schedule_rules",
    "screen.screen_rules",
    "fit.shelf_rules",
    "fit.inside_rules",
    "signal.port_rules",
    "build.hanging_rules",
    "build.cabinet_rules",
    "build.finish_rules",
    "build.coat_rules",
    "light.light_rules",
    "signal.rate_rules",
    "signal.signal_rules",
    "signal.sound_rules",
    "signal.network_rules",
    "wall.reading_rules",
    "power.switched_rules",
    "power.switch_rules",
    "trades.booking_rules",
    "trades.step_rules",
    "trades.sequence_rules",
    "service.upgrade_rules",
    "power.wall_wiring_rules",
    "power.bore_rules",
    "buying.wish_rules",
)
"""Findings of equal gravity are told in this order."""
FIGURES = (
    "access.access_figures",
    "service.upgrade_figures",
    "cable.cable_figures",
    "signal.run_figures",
    "heat.cooling_figures",
    "fit.fit_figures",
    "money.money_figures",
    "power.power_figures",
    "heat.heater_figures",
    "cable.raceway_figures",
    "schedule.schedule_figures",
    "buying.order_figures",
    "screen.screen_figures",
    "fit.shelf_figures",
    "build.hanging_figures",
    "build.cabinet_figures",
    "light.light_figures",
    "wall.reading_figures",
    "wall.framing_figures",
    "build.takeoff_figures",
    "power.wall_wiring_figures",
)
"""The figures of a record stand in this order."""
CHECKS = (
    "core.checks",
    "cable.cable_checks:of_cables",
    "power.power_checks:of_boxes",
    "cable.cable_checks:of_raceways",
    "access.panel_checks:of_panels",
    "wall.load_checks:of_loads",
    "build.backing_checks",
    "wall.load_checks:of_walls",
    "power.power_checks:of_inspection",
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
        raise RegistryError(f"marked, and in no list of {__name__}: {function.__module__}:{function.__name__}")
