"""A new job from a dozen answers: a proposed wall, with the steps, people and checks of the shipped starter."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Annotated, Any, ClassVar, Literal

import msgspec

from store.book.changes import Put, add
from store.measure.length import Length, show_length
from store.records.base import Record
from store.records.field import F, Manner, Note, fields_of
from store.rules.first_plan.layout import MM_NM, Asked, Short
from store.rules.first_plan.plan import first_plan
from templates.starters.load import BadStarter, load

PLANNED: dict[str, Literal["us", "metric"]] = {"media-wall": "us", "media-wall-metric": "metric"}
"""The shipped starters that a plan can be made for, with their regions."""
_KEPT = ("contact", "step", "check", "wish")
"""What is taken over from the starter as it is."""


class Questions(Record, frozen=True, kw_only=True, omit_defaults=True):
    """What is asked for a first plan; rough sizes will do."""

    kind: ClassVar[str] = "questions"
    one: ClassVar[str] = "first plan"
    many: ClassVar[str] = "first plans"

    notes: Note = Note("")
    """Not asked for."""
    name: Annotated[str, F("name", "what you call this wall", must=True, example=("Living room wall",))] = (
        "My media wall"
    )
    room: Annotated[str, F("room", example=("living room",))] = "living room"
    width: Annotated[Length, F("wall width", "rough will do", above_zero=True, place=True, example=("12'", "3600"))]
    height: Annotated[Length, F("wall height", "floor to ceiling", above_zero=True, place=True, example=("8'", "2400"))]
    depth: Annotated[
        Length, F("build-out depth", "wall face to finished front", above_zero=True, example=("22", "550"))
    ]
    screen: Annotated[float, F("TV size", "diagonal of the picture", unit="in", above_zero=True, example=("65",))] = (
        65.0
    )
    fireplace: Annotated[
        Length | None, F("fireplace width", "blank = no fireplace", above_zero=True, example=("50", "1270"))
    ] = None
    cabinets: Annotated[Literal["both", "left", "right", "none"], F("cabinets", "at which side of the TV")] = "both"
    speakers: Annotated[Literal["0", "2", "3", "5"], F("speakers", "how many; 0 = the TV's own")] = "3"
    seat: Annotated[Length, F("seat to TV", "eyes to picture", above_zero=True, place=True, example=("10'", "3000"))]
    eye: Annotated[Length, F("seated eye height", "off the floor", above_zero=True, place=True, example=("42", "1070"))]


def usual(region: Literal["us", "metric"]) -> dict[str, Any]:
    """The answers that stand there to begin with."""
    asked = Asked()
    if region == "us":
        sizes = {
            "width": asked.width_nm, "height": asked.height_nm, "depth": asked.depth_nm, "seat": asked.seat_nm,
            "eye": asked.eye_nm, "fireplace": asked.fireplace_nm,
        }  # fmt: skip
    else:
        millimetres = {"width": 3600, "height": 2400, "depth": 550, "seat": 3000, "eye": 1070, "fireplace": 1270}
        sizes = {key: each * MM_NM for key, each in millimetres.items()}
    lengths = {key: Length(each, metric=region == "metric") for key, each in sizes.items() if each is not None}
    plain = {field.key: field.default for field in fields_of(Questions) if field.default is not msgspec.NODEFAULT}
    return {**plain, **lengths}


def manner_of(region: Literal["us", "metric"], today: date) -> Manner:
    """How answers are typed in a region."""
    return Manner(today, metric=region == "metric", day_first=region == "metric")


def asked_of(values: Mapping[str, Any], region: Literal["us", "metric"]) -> Asked:
    """The answers as the plan takes them."""
    fireplace = values["fireplace"]
    return Asked(
        name=values["name"], room=values["room"], width_nm=values["width"].nm, height_nm=values["height"].nm,
        depth_nm=values["depth"].nm, diagonal_in=values["screen"],
        fireplace_nm=fireplace.nm if fireplace is not None else None, cabinets=values["cabinets"],
        speakers=int(values["speakers"]), seat_nm=values["seat"].nm, eye_nm=values["eye"].nm, region=region,
    )  # fmt: skip


def planned(asked: Asked, today: date) -> list[Put]:
    """The changes that make the proposed job. Raises BadStarter where it does not fit, saying by how much."""
    plan = first_plan(asked)
    if plan.short:
        raise BadStarter(misfit_words(plan.short, asked.metric))
    there = {each.tag for each in plan.records}
    starter = "media-wall-metric" if asked.metric else "media-wall"
    kept = [put for put in load(starter, today) if put.kind in _KEPT]
    kept = [put for put in kept if put.fields.get("about_tag", "") in ("", *there)]
    return [*(add(each, keep_tag=True) for each in plan.records), *kept]


def misfit_words(short: tuple[Short, ...], metric: bool) -> str:
    """What does not fit, and by how much."""
    words = [f"{each.what} by {show_length(Length(each.by_nm), metric)}" for each in short]
    return f"It does not fit. {'; '.join(words)}. Change a size, or leave something out."
