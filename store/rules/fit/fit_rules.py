"""Findings about room: what does not fit, what only just does, what cannot be told, and what does not get in."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from store.records.equipment import Equipment
from store.records.inside import ShelfBoard
from store.records.wall import Opening
from store.records.whole import Job
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import at_least, compared, few_of, listed, named, said, sized, were
from store.rules.fit.fit import Piece, pieces, shared
from store.rules.wall.inside import inside_at
from store.rules.wall.pieces import gives_heat, hangs

MAKER = "Manufacturer's figures, as entered"


@rule
@from_each(Equipment)
def does_not_fit(job: Job, record: Equipment) -> Iterable[Finding]:
    """A piece that needs more room than its opening has."""
    tag, piece = record.tag, pieces(job).get(record.tag)
    if piece is None:
        return
    short = _short(job, piece)
    if not short:
        return
    one = job.of(Equipment)[tag]
    bend = f" So is the bend of {piece.deepest_cable} behind it." if _bends(piece) else ""
    yield Finding(
        "does_not_fit",
        "fix",
        (tag, piece.opening),
        _too_big(job, piece),
        (_do_on_shelf(job, piece) or f"Make {piece.opening} larger")
        + (", use a right-angle plug" if _by_plug(piece) else "")
        + f", put {tag} somewhere else, or pick a smaller one. Keep the manufacturer's clearances."
        + (" Never change the appliance to make it fit." if gives_heat(one) else ""),
        MAKER,
        short,
        why=f"{_sentence(job, piece)} Plugs and the manufacturer's clearances are counted.{bend}",
        about=(tag,),
    )


def _too_big(job: Job, piece: Piece) -> str:
    """`Too deep for N3 by 4-1/16"`; of several directions the first."""
    for name, word in (("depth", "deep"), ("width", "wide"), ("height", "tall")):
        needs, inside = getattr(piece.at_least, f"{name}_nm"), getattr(piece.inside, f"{name}_nm")
        if inside is not None and needs > inside:
            if name == "height" and _across(job, piece):
                return f"Stands across the divider {piece.above}"
            where = _where(piece, name) or f"for {piece.opening}"
            return f"Too {word} {where} by {compared(job, inside, needs).short}"
    return f"Does not fit in {piece.opening} at its offset"


def _sentence(job: Job, piece: Piece) -> str:
    """What it needs and what there is, in each direction that is short."""
    found = []
    for name in ("width", "height", "depth"):
        needs, inside = getattr(piece.at_least, f"{name}_nm"), getattr(piece.inside, f"{name}_nm")
        if name == "height" and _across(job, piece):
            there = inside_at(job, job.of(Equipment)[piece.tag])
            if there is not None:
                ends = said(job, there[1].left_nm), said(job, there[1].right_nm)
                found.append(f"It stands from {ends[0]} to {ends[1]} of the inside width, and the divider is between.")
        elif inside is not None and needs > inside:
            both = compared(job, inside, needs)
            least = "" if getattr(piece.needs, f"{name}_nm") is not None else "at least "
            space = f"the space {_where(piece, name)}" if _where(piece, name) else piece.opening
            found.append(f"Needs {least}{both.need} of {name}; {space} has {both.have}.")
    if piece.stack and "height" in _short(job, piece):
        found.append(f"That includes {listed(list(piece.stack))} under it and the space between them.")
    found += [f"At its offset it is short on the {side}." for side in ("left", "right") if side in _short(job, piece)]
    return " ".join(found)


def _where(piece: Piece, name: str) -> str:
    """`under G2`, `over G1`: the space that a thing is said to stand in; empty where the opening itself decides."""
    if name == "depth" or not piece.standing:
        return ""
    if name == "height" and piece.above:
        return f"under {piece.above}"
    return f"over {piece.floor}" if piece.floor else ""


def _across(job: Job, piece: Piece) -> bool:
    """Whether what is over its floor is no shelf but a divider, which goes down to that floor."""
    over = job.of(ShelfBoard).get(piece.above)
    return piece.standing and over is not None and over.what == "divider" and not piece.inside.height_nm


def _do_on_shelf(job: Job, piece: Piece) -> str:
    """What would do for what is too tall under a shelf, or stands where a divider is."""
    if _across(job, piece):
        return f"Move {piece.above}, or {piece.tag} to one side of it"
    needs, inside = piece.at_least.height_nm, piece.inside.height_nm
    if not piece.above or inside is None or needs is None or needs <= inside:
        return ""
    return f"Move {piece.above} up by at least {at_least(job, needs - inside)}"


def _bends(piece: Piece) -> bool:
    inside, needs = piece.inside.depth_nm, piece.at_least.depth_nm
    return bool(piece.deepest_cable) and inside is not None and needs is not None and needs > inside


def _by_plug(piece: Piece) -> bool:
    """True when a plug that takes no more than the clearance would make it fit."""
    inside, needs = piece.inside.depth_nm, piece.at_least.depth_nm
    return inside is not None and needs is not None and needs - piece.cable_takes_nm <= inside < needs


def _short(job: Job, piece: Piece) -> dict[str, str]:
    """What is too much in each direction, in words; empty when nothing is known to be."""
    found = {}
    for name in ("width", "height", "depth"):
        needs, inside = getattr(piece.at_least, f"{name}_nm"), getattr(piece.inside, f"{name}_nm")
        if inside is not None and needs > inside:
            least = "" if getattr(piece.needs, f"{name}_nm") is not None else "at least "
            found[name] = f"it needs {least}{said(job, needs)} of {name}, and there is {said(job, inside)}"
    one = job.of(Equipment)[piece.tag]
    if "width" not in found and one.offset is not None and not piece.standing:
        left = one.offset.nm - (one.clear_left.nm if one.clear_left else 0)
        takes = one.offset.nm + sum(each.nm for each in (one.width, one.clear_right) if each is not None)
        right = 0 if piece.inside.width_nm is None else piece.inside.width_nm - takes
        for name, spare in (("left", left), ("right", right)):
            if spare < 0:
                found[name] = f"at its offset it is short by {said(job, -spare)} on the {name}"
    return found


@rule
@from_each(Opening)
def row_does_not_fit(job: Job, opening: Opening) -> Iterable[Finding]:
    """Several pieces that do not stand side by side in one opening."""
    tag, found = opening.tag, shared(job).get(opening.tag)
    if found is None:
        return
    if found.row.verdict != "does not fit" or _one_above_the_other(job, found.tags):
        return
    needs, inside = found.row.needed_nm, pieces(job)[found.tags[0]].inside.width_nm
    numbers = {"pieces": ", ".join(found.tags)}
    if needs is not None and inside is not None:
        numbers |= {"needs": said(job, needs), "inside": said(job, inside)}
        both = compared(job, inside, needs)
        how = f"with clearances they need {both.need}; {tag} is {both.have} wide inside, {both.short} short"
    elif found.row.spare_nm is not None:
        numbers["lacks"] = said(job, -found.row.spare_nm)
        how = f"at their offsets two of them are {at_least(job, -found.row.spare_nm)} short"
    else:
        how = "the widths entered are already too much"
    yield Finding(
        "row_does_not_fit",
        "fix",
        (tag, *found.tags),
        f"Do not fit side by side: {' '.join(found.tags[:5])}",
        (f"Put one of them somewhere else, give each shelf of {tag} its own opening, or make it wider."),
        MAKER,
        numbers,
        why=f"{how[0].upper()}{how[1:]}.",
        about=(tag,),
    )


def _one_above_the_other(job: Job, tags: Sequence[str]) -> bool:
    """True for things that hang, like a soundbar under a screen, where their opening is high enough for all of them."""
    heights = [pieces(job)[tag].needs.height_nm for tag in tags]
    inside = pieces(job)[tags[0]].inside.height_nm
    known = [each for each in heights if each is not None]
    hung = all(hangs(job.of(Equipment)[tag]) for tag in tags) and len(known) == len(heights)
    return hung and inside is not None and sum(known) <= inside


@rule
@from_each(Equipment)
def tight(job: Job, one: Equipment) -> Iterable[Finding]:
    """A piece that fits with next to nothing to spare."""
    tag, piece = one.tag, pieces(job).get(one.tag)
    if piece is None:
        return
    if piece.verdict != "tight":
        return
    spares = [
        (nm, name)
        for name, nm in (
            ("width", piece.width_spare_nm),
            ("height", piece.height_spare_nm),
            ("depth", piece.depth_spare_nm),
            # A piece with a place of its own has that much at either side; one without can be pushed over.
            ("width on the left", piece.left_nm if one.offset is not None else None),
            ("width on the right", piece.right_nm if one.offset is not None else None),
        )
        if nm is not None
    ]
    least, name = min(spares)
    spare = sized(job, least)
    yield Finding(
        "tight",
        "look",
        (tag, piece.opening),
        f"Tight fit in {piece.opening}: {spare} of {name} spare",
        f"Measure {piece.opening} as built before you buy, at three places. The smallest counts.",
        "common practice",
        {"spare": spare, "of": name},
        why=f"{tag} fits {named(job, piece.opening)} with {spare} of {name} to spare.",
        about=(tag,),
    )


@rule
def fit_not_known(job: Job) -> Iterable[Finding]:
    """The pieces of which a figure is missing that decides whether they fit: one reminder for all."""
    lacking = {
        tag: missing
        for tag, piece in pieces(job).items()
        if piece.verdict == "not known" and (missing := _own(job, piece))
    }
    if lacking:
        yield Finding(
            "fit_not_known",
            "look",
            (*lacking, *dict.fromkeys(pieces(job)[tag].opening for tag in lacking)),
            "Sizes missing to check the fit",
            "Read the sizes in the manual before you buy. Where the manual asks for no clearance, enter 0.",
            MAKER,
            {"missing": "; ".join(f"{tag} {', '.join(each)}" for tag, each in lacking.items())},
            why=f"Not entered: {few_of((f'{tag} {_listed(each)}' for tag, each in lacking.items()), 4)}.",
            about=tuple(lacking),
        )


def _listed(missing: list[str]) -> str:
    return ", ".join(missing)


def _own(job: Job, piece: Piece) -> list[str]:
    """What is missing of a piece itself; its neighbours have findings of their own.

    So have the clearances of a heater, with stronger words.
    """
    sides = [each.removeprefix("clearance ") for each in piece.missing if each.startswith("clearance ")]
    rest = [each for each in piece.missing if not each.startswith("clearance")]
    rest = [each for each in rest if not each.startswith("width of ") or each == f"width of {piece.opening}"]
    if sides and not gives_heat(job.of(Equipment)[piece.tag]):
        rest.append(f"clearance {', '.join(sides)}")
    return rest


@rule
@from_each(Equipment)
def does_not_get_in(job: Job, one: Equipment) -> Iterable[Finding]:
    """A piece that no way of holding it straight brings through the door of its opening."""
    tag, piece = one.tag, pieces(job).get(one.tag)
    if piece is None:
        return
    way = piece.way_in
    if way is None or way.verdict != "does not fit":
        return
    lacks = at_least(job, -way.spare_nm) if way.spare_nm is not None else "some"
    yield Finding(
        "does_not_get_in",
        "fix",
        (tag, piece.opening),
        f"Does not fit through the door of {piece.opening}",
        (
            f"Make the clear door of {piece.opening} larger, or put it in before the door goes on and "
            "enter how it comes out again."
        ),
        MAKER,
        {"lacks": lacks},
        why=f"Whichever way you turn it, it is too big by {lacks} or more.",
        about=(tag,),
    )


@rule
def way_in_doubtful(job: Job) -> Iterable[Finding]:
    """A piece that only just gets through the door of its opening; a door whose clear size is not entered, once."""
    unmeasured: dict[str, tuple[list[str], list[str]]] = {}
    for tag, piece in pieces(job).items():
        way = piece.way_in
        if way is None or way.verdict not in ("tight", "not known"):
            continue
        lacking = [each.removesuffix(" of opening") for each in way.missing if each.endswith(" of opening")]
        if way.verdict == "not known":
            if lacking:  # a size of the piece is told where it does not decide about a door alone
                unmeasured.setdefault(piece.opening, ([], lacking))[0].append(tag)
            continue
        spare = sized(job, way.spare_nm or 0)
        yield Finding(
            "way_in_doubtful",
            "look",
            (tag, piece.opening),
            f"Tight through the door of {piece.opening}",
            f"Measure what gets past frame, hinges and slides of {piece.opening} with its door open, and enter it.",
            "common practice",
            {"spare": spare},
            why=f"It fits through the door of {named(job, piece.opening)} with {spare} to spare.",
            about=(tag,),
        )
    for opening, (tags, lacking) in unmeasured.items():
        missing = " and ".join(f"clear door {each}" for each in lacking)
        yield Finding(
            "way_in_doubtful",
            "look",
            (*tags, opening),
            "Clear door size not entered",
            f"Measure what gets past frame, hinges and slides of {opening} with its door open, and enter it.",
            "common practice",
            {"missing": missing},
            why=f"Whether {few_of(tags)} {were(len(tags), 'fits', 'fit')} through the door of {named(job, opening)} is "
            f"not known: no {missing}.",
            about=(opening,),
        )
