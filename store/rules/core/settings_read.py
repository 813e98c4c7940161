"""The settings of a job as a query reads them: field by field, so that another budget reopens no question of code."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, cast

from store.records.job import Settings
from store.rules.core.same import same

FIELDS: tuple[str, ...] = Settings.__struct_fields__
PARTS: dict[str, tuple[str, str]] = {name: (Settings.kind, f".{name}") for name in FIELDS}
"""What is noted of a field. No tag begins with a point."""


class SettingsRead:
    """Answers as the settings do, and notes each field that is read of them."""

    __slots__ = ("_note", "_one")

    kind, one, many, about = Settings.kind, Settings.one, Settings.many, Settings.about

    def __init__(self, one: Settings, note: Any) -> None:
        self._one = one
        self._note = note
        """Takes the part that was read: a kind, and a point with the name of the field."""

    @property
    def metric(self) -> bool:
        """True when lengths are typed and shown in millimetres."""
        return cast(bool, Settings.metric.fget(self))  # type: ignore[attr-defined]


def _read(name: str) -> property:
    part = PARTS[name]

    def read(self: SettingsRead) -> Any:
        self._note(*part)
        return getattr(self._one, name)

    return property(read, doc=f"The field `{name}`; noted alone.")


for _name in FIELDS:
    setattr(SettingsRead, _name, _read(_name))


def fields_touched(was: Settings | None, now: Settings | None) -> Iterator[tuple[str, str]]:
    """The fields that are others; all of them where there were no settings, or are none."""
    for name, part in PARTS.items():
        if was is None or now is None or not same(getattr(was, name), getattr(now, name)):
            yield part
