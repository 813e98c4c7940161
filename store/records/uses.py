"""Which fields of a record matter for its sort, which can wait under More, and which have no use for it.

A form shows at once what matters and what was filled in. A kind that is not in `MATTERS` shows everything. A new field
of a kind that is there waits under More until it is named here.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

import msgspec

from store.measure.terms import regional
from store.records.base import Record
from store.records.field import Field, Manner, fields_of
from store.records.metric_units import unit_in

Use = Literal["first", "more", "none"]

SORT_OF: dict[str, str] = {
    "equipment": "what", "box": "what", "opening": "use", "raceway": "type", "shelf": "what",
}  # fmt: skip
"""By kind, the field that says of what sort a record is. The other kinds of `MATTERS` have one sort, named ``."""

_DEVICE = "name what width height depth watts"
_HUNG = "name what width height depth weight wall x y off_wall"
_SOCKET = "name what new wall x y"

MATTERS: dict[str, dict[str, str]] = {
    "equipment": {
        "screen": f"{_HUNG} diagonal lines watts holes opening power ports price",
        "fireplace": f"{_DEVICE} plate_volts breaker heat_side clear_top mounting opening power price",
        "heater": f"{_DEVICE} plate_volts breaker heat_side clear_top clear_front mounting power price",
        "receiver": f"{_DEVICE} weight clear_top clear_back opening stands_on power ports remote price",
        "player": f"{_DEVICE} clear_top opening stands_on power ports remote price",
        "streamer": f"{_DEVICE} opening stands_on power ports remote wireless price",
        "console": f"{_DEVICE} clear_top opening stands_on power ports remote price",
        "recorder": f"{_DEVICE} clear_top opening stands_on power ports remote price",
        "router": f"{_DEVICE} opening stands_on power ports wireless price",
        "switch": f"{_DEVICE} opening stands_on power ports price",
        "extender": f"{_DEVICE} opening power plug ports price",
        "splitter": f"{_DEVICE} opening power ports price",
        "power supply": f"{_DEVICE} opening power plug rating ports price",
        "speaker": "name what count width height depth weight mounting opening wall x y ports price",
        "subwoofer": f"{_DEVICE} weight opening stands_on power ports price",
        "soundbar": f"{_DEVICE} weight mounting opening wall x y power ports remote price",
        "light": "name what opening stands_on plug tape per_ft volts fed longest_run pieces faces lip lip_behind price",
        "driver": "name what width height depth opening power plug rating volts dims dimmer price",
        "strip": "name what width height depth opening cord plug places rating price",
        "mount": "name what width height depth weight holes reach opening wall x y price",
        "part": "name what count width height depth weight opening reached price",
        "floating shelf": f"{_HUNG} material brackets load price",
        "floating cabinet": f"{_HUNG} price",
        "mantel": f"{_HUNG} price",
        "hearth": f"{_HUNG} price",
        "picture": f"{_HUNG} price",
        "sconce": f"{_HUNG} watts power plug price",
        "thermostat": f"{_HUNG} power price",
        "other": f"{_DEVICE} weight opening stands_on power ports price",
    },
    "box": {
        "receptacle": f"{_SOCKET} circuit gangs receptacles switched volume devices",
        "switch": f"{_SOCKET} circuit gangs volume devices",
        "low-voltage": f"{_SOCKET} gangs reached",
        "junction": f"{_SOCKET} reached circuit volume plate",
        "pass-through": f"{_SOCKET} reached",
        "quick-connect": f"{_SOCKET} circuit receptacles volume",
    },
    "opening": {
        "screen": "name use wall x y width height depth header",
        "fireplace": "name use wall x y width height depth header material",
        "equipment": "name use wall x y width height depth thickness door air_in air_out fan",
        "shelf": "name use wall x y width height depth material thickness held load",
        "drawer": "name use wall x y width height depth thickness material load tied door hinge",
        "speaker": "name use wall x y width height depth",
        "other": "name use wall x y width height depth material thickness",
    },
    "raceway": {
        "ENT": "name type size inside start end route points length bends string later",
        "EMT": "name type size inside start end route points length bends string later",
        "grommet": "name type inside start end",
        "other": "name type size inside start end route points length bends string later",
    },
    "cable": {"": "name type rating start end in_wall route level raceway points carries state"},
    "shelf": {
        "adjustable shelf": "opening what up thickness material load",
        "fixed shelf": "opening what up thickness material held load",
        "divider": "opening what along up height thickness",
    },
    "fixing": {"": "of what count into wood length rows apart out rated"},
    "circuit": {"": "name breaker slot volts conductor length load afci gfci"},
    "panel": {"": "name wall face x y width height opens behind passes part"},
    "wall": {"": "name spacing first_stud stud_depth framing bearing burns meets_left meets_right"},
    "contact": {"": "name trade state phone mail licence licence_until insured_until call_on"},
    "step": {"": "what stage days after wait who booked"},
    "handoff": {"": "trade contact"},
    "job": {
        "": "name room owner units region currency budget permit permit_no permit_by permit_office seat eye finish"
    },
}
"""By kind and sort, the keys of the fields that a form shows at once; an unnamed sort shows those of `other`."""

BEFORE_BUYING = (
    "width height depth weight diagonal holes watts plate_volts breaker mounting heat_side clear_top "
    "rating volts tape per_ft places reach power ports price"
)
"""Fields of equipment that are known before it is bought, where they matter for its sort."""

_CORDED = ("cord", "wall-wart", "unknown")
_COLD = (
    "fireplace", "heater", "light", "mount", "floating shelf", "floating cabinet", "mantel", "hearth", "picture",
)  # fmt: skip
"""Sorts that are known to give heat, or to give none."""

ONLY: dict[str, dict[str, tuple[str, tuple[str, ...]]]] = {
    "equipment": {
        **dict.fromkeys(("diagonal", "aspect", "shows"), ("what", ("screen", "other"))),
        "holes": ("what", ("screen", "mount", "other")),
        "reach": ("what", ("screen", "mount", "other")),
        **dict.fromkeys(
            ("tape", "per_ft", "fed", "longest_run", "faces", "lip", "lip_behind"), ("what", ("light", "other"))
        ),
        **dict.fromkeys(("tape_ohm", "leds", "cut_step"), ("tape", ("*",))),
        **dict.fromkeys(("channel", "joined"), ("pieces", ("*",))),
        "pieces": ("what", ("light", "other")),
        **dict.fromkeys(("material", "brackets"), ("what", ("floating shelf", "mantel"))),
        "load": ("what", ("floating shelf", "floating cabinet", "mantel")),
        "parts": ("pieces", ("*",)),
        **dict.fromkeys(("lamp_up", "lamp_out", "lamp_across"), ("what", ("light", "other"))),
        "volts": ("what", ("light", "driver", "other")),
        "dims": ("what", ("driver", "light", "other")),
        "dimmer": ("what", ("driver", "light", "other")),
        "places": ("what", ("strip", "other")),
        "rating": ("what", ("strip", "driver", "power supply", "other")),
        "heats": ("what", tuple(each for each in MATTERS["equipment"] if each not in _COLD)),
        "cord": ("power", _CORDED),
        "half": ("power", _CORDED),
        "wall": ("opening", ("",)),
        **dict.fromkeys(("x", "y", "face", "on", "off_wall"), ("wall", ("*",))),
        **dict.fromkeys(
            ("keep_above", "keep_screen", "keep_sides", "mantel"), ("what", ("fireplace", "heater", "other"))
        ),
        "offset": ("opening", ("*",)),
        "stands_on": ("opening", ("*",)),
        "raised": ("stands_on", ("*",)),
        "replaced_by": ("retired", ("*",)),
    },
    "reading": dict.fromkeys(("over", "leans"), ("what", ("out of plumb",))),
    "buildout": dict.fromkeys(("stud_width", "stud_depth", "spacing", "first_stud"), ("work", ("framing",))),
    "box": {
        "receptacles": ("what", ("receptacle", "quick-connect", "switch")),
        "switched": ("what", ("receptacle", "quick-connect", "switch")),
        **dict.fromkeys(
            ("circuit", "volume", "size", "ring", "fittings", "clamps", "conductors"),
            ("what", ("receptacle", "switch", "junction", "quick-connect", "low-voltage")),
        ),
    },
    "opening": {
        **dict.fromkeys(("hinge", "door_laid", "gap"), ("door", ("solid", "glass", "mesh"))),
        **dict.fromkeys(
            ("held", "middle", "strip", "rail", "load"), ("use", ("shelf", "equipment", "drawer", "other"))
        ),
        **dict.fromkeys(("pin_first", "pin_step"), ("use", ("shelf", "equipment", "other"))),
        "strip_thick": ("strip", ("*",)),
        "strip_material": ("strip", ("*",)),
        "load_place": ("load", ("*",)),
        "fan_shut": ("fan", ("*",)),
        "fan_curve": ("fan", ("*",)),
        "fan_noise": ("fan", ("*",)),
    },
    "shelf": {
        **dict.fromkeys(("held", "middle", "strip", "load"), ("what", ("adjustable shelf", "fixed shelf"))),
        "height": ("what", ("divider",)),
    },
    "cable": {
        "level": ("route", ("through studs",)),
        "hole": ("route", ("through studs", "points")),
        "raceway": ("route", ("raceway",)),
        "points": ("route", ("points",)),
        "replaced_by": ("retired", ("*",)),
    },
    "raceway": {
        "bends": ("type", ("ENT", "EMT", "other")),
        "string": ("type", ("ENT", "EMT", "other")),
    },
    "fixing": {
        "wood": ("into", ("stud", "blocking", "unknown")),
        "rated": ("what", ("toggle bolt", "drywall anchor", "masonry anchor", "unknown")),
    },
    "panel": {
        "part": ("passes", ("a part",)),
        "hinge": ("opens", ("hinged", "door", "touch latch")),
    },
    "contact": dict.fromkeys(
        ("licence", "licence_until", "insured_until"),
        ("trade", ("electrician", "carpenter", "low-voltage", "drywall", "painter", "hvac", "other")),
    ),
    "job": {
        "permit_no": ("permit", ("needed",)),
        "permit_by": ("permit", ("not needed",)),
        "permit_office": ("permit", ("not needed",)),
    },
    "money": {"leaves_out": ("what", ("quote",))},
    "closing": {
        **dict.fromkeys(("office", "reference", "inspected"), ("proof", ("inspection", ""))),
        "reason": ("outcome", ("not needed",)),
    },
}
"""By kind and field: the other field that it depends on, and the values with which it is of use; `*` is any."""


def use_of(cls: type[Record], field: Field, texts: Mapping[str, str], manner: Manner) -> Use:
    """How much a blank field matters in a record whose fields have these texts, as they stand in a form."""
    if field.required:
        return "first"
    if not field.fits(manner):
        return "none"
    only = ONLY.get(cls.kind, {}).get(field.key)
    if only is not None:
        stands = _stored(cls, only[0], texts, manner)
        if not (stands if "*" in only[1] else stands in only[1]):
            return "none"
    sorts = MATTERS.get(cls.kind)
    if sorts is None:
        return "first"
    sort = _stored(cls, SORT_OF.get(cls.kind, ""), texts, manner)
    return "first" if field.key in sorts.get(sort, sorts.get("other", "")).split() else "more"


def _stored(cls: type[Record], key: str, texts: Mapping[str, str], manner: Manner) -> str:
    """What is written in a field; of a choice the word of the file, whichever word of the region a form shows."""
    text = texts.get(key, "").strip()
    field = next((each for each in fields_of(cls) if each.key == key), None) if text else None
    if field is None or text in field.choices:
        return text
    return next((each for each in field.choices if field.in_words(each, manner) == text), text)


class Shown(msgspec.Struct, frozen=True):
    """The fields of a form, by how much they matter; each list in the order of declaration."""

    first: tuple[Field, ...]
    """What matters, and what someone filled in."""
    more: tuple[Field, ...]


def shown(cls: type[Record], texts: Mapping[str, str], manner: Manner) -> Shown:
    """What a form shows at once of a record with these texts, and what waits under More."""
    first, more = [], []
    for field in fields_of(cls):
        use = use_of(cls, field, texts, manner)
        if use == "first" or is_filled(field, texts.get(field.key, ""), manner):
            first.append(field)
        elif use == "more":
            more.append(field)
    return Shown(tuple(first), tuple(more))


def is_filled(field: Field, text: str, manner: Manner) -> bool:
    """True when something else stands in the field than in a new record."""
    return text.strip() not in ("", field.edit(field.empty, manner))


def wanted_before_buying(cls: type[Record], field: Field, texts: Mapping[str, str], manner: Manner) -> bool:
    """True for a field of equipment that must be known before this sort of thing is bought, and is not yet."""
    return (
        cls.kind == "equipment"
        and texts.get("state", "to buy") == "to buy"
        and field.key in BEFORE_BUYING.split()
        and use_of(cls, field, texts, manner) == "first"
        and not is_filled(field, texts.get(field.key, ""), manner)
    )


_LENGTHS = {False: ("17-1/8", "435"), True: ("4'-2\"", "1270")}
"""A size and a place, in feet and inches and in millimetres."""
_EXAMPLES = {
    "mass": ("65 lb", "29.5 kg"),
    "date": ("Dec 4 or next Friday", "4 Dec or next Friday"),
    "past": ("Dec 4, yesterday or 3 days ago", "4 Dec, yesterday or 3 days ago"),
    "money": ("49.90", "49.90"),
}


def hint(field: Field, manner: Manner) -> str:
    """What a field is for and how it is typed, in one short line: its help, and an example where the help has none."""
    about, unit = field.help(manner), unit_in(field.says.unit, manner.metric)
    if "like " in about:
        return about + (f" ({unit})" if unit else "")
    example = regional(_example(field, manner), manner.day_first)
    if not example:
        return about + (f" ({unit})" if unit else "")
    return ", ".join(each for each in (about, f"like {example} {unit}".rstrip()) if each)


def _example(field: Field, manner: Manner) -> str:
    said = field.says.example
    if said:
        return said[manner.metric] if len(said) == 2 else said[0]
    if field.codec.name == "length":
        return _LENGTHS[field.says.place][manner.metric]
    us, metric = _EXAMPLES.get(field.says.when if field.says.when == "past" else field.codec.name, ("", ""))
    return metric if manner.day_first else us
