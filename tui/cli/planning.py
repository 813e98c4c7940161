"""A new job laid out from the answers of the command line."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date

from store.book.changes import Put
from store.measure.errors import BadValue
from store.records.field import fields_of
from templates.starters.first_plan import PLANNED, Questions, asked_of, manner_of, planned, usual


def plan_job(starter: str, said: Mapping[str, str], today: date) -> Sequence[Put]:
    """The changes that make the proposed job of a shipped starter's region. Raises BadValue naming the option."""
    if starter not in PLANNED:
        options = " ".join(f"--{key}" for key in said)
        raise BadValue(f"{options} can't be used here. Use it with --starter {' or '.join(PLANNED)}.")
    region = PLANNED[starter]
    manner, values = manner_of(region, today), usual(region)
    fields = {field.key: field for field in fields_of(Questions)}
    for key, text in said.items():
        try:
            values[key] = None if key == "fireplace" and text == "none" else fields[key].read(text, manner)
        except BadValue as error:
            raise BadValue(f"--{key}: {error}") from error
    return planned(asked_of(values, region), today)
