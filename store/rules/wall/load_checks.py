"""Rough-in checks of the framing: backing for what hangs, and fire blocking."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.length import to_file
from store.measure.mass import show_mass
from store.records.equipment import Equipment
from store.records.wall import Opening, Wall
from store.records.whole import Job
from store.rules.core.checks import RoughIn, checks_of, length_text, tags_of
from store.rules.core.headline import with_name
from store.rules.core.keyed import from_each
from store.rules.wall.contents import hung_in
from store.rules.wall.hung import CARRIED
from store.rules.wall.pieces import on_face
from store.rules.wall.places import spot_of

HEAVY_KG = 4.5
"""A thing on a wall bracket from this weight on wants backing (about 10 lb); common practice, no source."""


FLOATING = ("floating shelf", "floating cabinet", "mantel")
BACKED_USES = ("screen", "fireplace", "shelf")


def load_text(one: Equipment) -> str:
    """A load as its backing vouches for it: `E1, 28.5 kg, wall bracket, holes 400x400`; unknown weight is said."""
    each = f"{one.weight.kilograms:g} kg" if one.weight is not None else "weight not entered"
    weight = f"{one.count} × {each}" if one.count > 1 else each
    holes = f"holes {one.holes}" if one.holes else ""
    return ", ".join(part for part in (one.tag, weight, one.mounting, holes) if part and part != "unknown")


def _shown_load(job: Job, one: Equipment) -> str:
    """The same in the units of the job: `E1, 52 lb, wall bracket, holes 400x400`."""
    text, weight = load_text(one), one.weight
    return text if weight is None else text.replace(f"{weight.kilograms:g} kg", show_mass(weight))


@checks_of
def of_loads(job: Job) -> Iterable[RoughIn]:
    """Backing for every opening that carries a load, and for what hangs on a bracket elsewhere."""
    yield from _of_openings(job)
    yield from _of_brackets(job)


@from_each(Opening)
def _of_openings(job: Job, one: Opening) -> Iterable[RoughIn]:
    if one.use not in BACKED_USES:
        return
    loads = hung_in(job, one.tag)
    inputs = (one, job.of(Wall).get(one.wall), *loads)
    vouches = {
        "use": one.use,
        "place": spot_of(job, one.tag),
        "width": length_text(one.width),
        "height": length_text(one.height),
        "hangs in it": "; ".join(load_text(each) for each in loads),
    }
    what = with_name("Blocking in where it screws on", one.tag, one.name)
    more = "; ".join(_shown_load(job, each) for each in loads)
    yield RoughIn(
        f"{one.tag}/backing",
        what,
        "carpenter",
        one.name,
        "photo with a tape in it",
        tags_of(inputs),
        vouches,
        more=more,
    )


@from_each(Equipment)
def _of_brackets(job: Job, one: Equipment) -> Iterable[RoughIn]:
    heavy = one.weight is not None and one.weight.kilograms >= HEAVY_KG
    gone = one.retired is not None and one.retired <= job.today
    carried = on_face(one) and one.what in CARRIED
    if gone or one.what == "mount" or not (carried or (one.mounting == "wall bracket" and heavy)):
        return
    around = job.of(Opening).get(one.opening) if one.opening else None
    if around is not None and around.use in BACKED_USES:
        return
    inputs = (one, around)
    weight = f"{one.weight.kilograms:g} kg" if one.weight is not None else ""
    vouches = {"weight": weight, "hole pattern": one.holes, "place": spot_of(job, one.tag)}
    what = with_name(f"Blocking in{'' if one.what in FLOATING else ' for its bracket'}", one.tag, one.name)
    yield RoughIn(
        f"{one.tag}/backing", what, "carpenter", one.name, "photo with a tape in it", tags_of(inputs), vouches
    )


@checks_of
@from_each(Wall)
def of_walls(job: Job, wall: Wall) -> Iterable[RoughIn]:
    """Fire blocking of every wall."""
    vouches = {
        "stud depth": to_file(wall.stud_depth),
        "spacing": to_file(wall.spacing),
        "framing changed": wall.framed.isoformat() if wall.framed else "",
    }
    every = "3 m" if job.settings.metric else "10 ft"
    what = with_name("Fireblocking in", wall.tag, wall.name)
    more = f"Floor, ceiling, soffits, every {every}; bored holes sealed"
    tags = (wall.tag,)
    yield RoughIn(f"{wall.tag}/fireblocking", what, "carpenter", wall.name, "photo of each", tags, vouches, more=more)
