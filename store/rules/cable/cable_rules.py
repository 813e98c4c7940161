"""Findings about single cables: rating, length, what they must carry, bends, and what is not known of them yet."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.errors import quoted
from store.records.whole import Job
from store.records.wiring import Cable, Raceway
from store.rules.cable.kinds import kind_of, read_plug, read_slack, read_waste, sold_text
from store.rules.cable.legs import Leg
from store.rules.cable.lengths import bend_radius_nm, gbit_s, needs, offers, read_offer
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each, of_each
from store.rules.core.was_done import cable_state
from store.rules.core.wording import few_of, listed, run_at_most, said, sized
from store.rules.wall.places import bad_points
from store.rules.wall.unfold import at_odds
from store.trade.cable.category import SOURCE_TEN_GIGABIT, ten_gigabit_limit_nm
from store.trade.cable.cords import cord_named
from store.trade.cable.jackets import SUBSTITUTES, in_wall, markings, substitution_source, tidy

PRACTICE = "common practice"
_SLACK_LIKE = (
    "Write a type of cable, its family or `all`; then box, device or elsewhere; then a length: cat6 box 18 in."
)
_PLUG_LIKE = "Write a type of cable, its family or `all`, and how far its plug stands off the socket: hdmi 2-1/4."
_WASTE_LIKE = "Write a type of cable, its family or `all`, and percent of the run: cat6 5."


@rule
def cable_kind_unknown(job: Job) -> Iterable[Finding]:
    """A cable whose kind is not in the tables: nothing can be said of its jacket, its spool or its limit."""
    strange: dict[str, list[str]] = {}
    for tag, need in needs(job).items():
        if need.kind is None and not need.cable.in_wall:
            strange.setdefault(need.cable.type, []).append(tag)
    for kind, tags in strange.items():
        yield Finding(
            "cable_kind_unknown",
            "look",
            tuple(tags),
            f"Unknown cable type {kind[:20]}",
            ("Pick the type from the list, like cat6, rg6, hdmi, 14/2 speaker or 12-2 nm, or check these by hand."),
            PRACTICE,
            {"kind": kind},
            why="It is not in the list, so its jacket, limit and spool are not checked.",
        )


@rule
@from_each(Cable)
def cable_not_rated(job: Job, cable: Cable) -> Iterable[Finding]:
    """A cable in the wall whose marking is not one for the inside of a wall, or is not noted."""
    if job.settings.region != "us":
        return
    tag = cable.tag
    kind = kind_of(cable)
    if cable.retired is not None or not cable.in_wall or kind is None or not kind.needs:
        return
    raceway = cable.route == "raceway"
    # What is printed may have been typed with the type; the rating, where there is one, is the jacket.
    printed = cable.rating if cable.rating.strip() else " ".join(markings(cable.type))
    verdict = in_wall(kind.needs, printed, kind.outside_nm, small_dwelling=True, in_raceway=raceway)
    if verdict.ok:
        return
    cord = cord_named(printed)
    order = SUBSTITUTES[tidy(kind.needs)]
    wanted = f"{kind.needs} or better (like {few_of(order, 4)})" if order else kind.needs
    known = bool(printed)
    yield Finding(
        "cable_not_rated" if known else "cable_rating_not_noted",
        "stop" if known else "fix",
        (tag,),
        f"{printed[:18].strip()} can't run in a wall" if known else "No jacket rating entered",
        (
            f"Pull cable marked {wanted}, or keep {tag} out of the wall."
            if known
            else f"Read the jacket and enter what is printed on it. It must be {wanted}."
        ),
        verdict.source or substitution_source(kind.needs),
        {"rating": cable.rating, "needs": kind.needs, **({"cord": cord} if cord else {})},
        why=(
            f"{tag} is marked {printed}, which is a flexible cord. In a wall it must be {kind.needs}."
            if cord
            else f"{tag} is marked {printed}. In a wall it must be {kind.needs}, and {verdict.reason}."
            if known
            else f"A cable of this type in a wall must be {kind.needs}."
        ),
        final=bool(cord),
    )


@of_each(Cable)
def _without_length(job: Job, cable: Cable) -> str | None:
    """Why the length of a cable does not follow from the plan."""
    need = needs(job).get(cable.tag)
    return need.route.why if need is not None and need.route.path is None else None


@rule
def cable_length_unknown(job: Job) -> Iterable[Finding]:
    """Cables whose length does not follow from the plan yet."""
    missing = dict(_without_length(job))
    if missing:
        first = [f"{tag} ({why})" for tag, why in list(missing.items())[:4]]
        more = f", and {len(missing) - 4} more" if len(missing) > 4 else ""
        one = len(missing) == 1
        yield Finding(
            "cable_length_unknown",
            "look",
            tuple(missing),
            "No cable length yet" if one else f"{len(missing)} cables have no length yet",
            ("Enter both ends of each and their places, or measure along the route and enter the measured length."),
            PRACTICE,
            missing,
            why=f"Not entered: {', '.join(first)}{more}.",
        )


@rule
@from_each(Cable)
def route_not_as_entered(job: Job, cable: Cable) -> Iterable[Finding]:
    """A raceway or points of a cable that its route takes no notice of: it counts as running another way."""
    if cable.retired is not None:
        return
    raceway = str(cable.raceway) if cable.raceway in job.of(Raceway) else ""
    entered = {"raceway": raceway, "points": " ".join(cable.points)}
    for what, said_so in entered.items():
        if said_so and cable.route != what:
            yield Finding(
                "route_not_as_entered",
                "fix",
                (cable.tag, raceway) if what == "raceway" else (cable.tag,),
                f"{what.capitalize()} entered, but routed {ROUTED[cable.route]}",
                f"Choose {what} as its route, or clear its {what}.",
                PRACTICE,
                {"route": cable.route, what: said_so},
                why=f"The route decides where {cable.tag} runs. Length and fill are worked out without its {what}.",
                about=(cable.tag,),
            )


ROUTED = {
    "through studs": "through studs",
    "up and over": "over the top",
    "down and under": "under the floor",
    "cabinet": "in the cabinet",
    "raceway": "in its raceway",
    "points": "by its points",
}
"""Where a route leads, in words."""


@rule
@from_each(Cable)
def cable_points_unreadable(job: Job, cable: Cable) -> Iterable[Finding]:
    """A point on the way, or an offer of the shop, that cannot be read and is left out."""
    tag = cable.tag
    if cable.retired is not None:
        return
    bad = bad_points(job, cable) if cable.route == "points" else []
    odd = [text for text in cable.sold if read_offer(text, job.settings.currency) is None]
    for words, what, like in (
        (bad, "points", "4'/2' 6\", W2 1'/3', or a tag that has a place"),
        (odd, "lengths sold", "250 ft 49.90 or 60 ft owned"),
    ):
        if words:
            yield Finding(
                f"cable_{what.split()[0]}_unreadable",
                "fix",
                (tag,),
                f"Can't read the {what}",
                f"Write the {what} like {like}.",
                PRACTICE,
                {what: ", ".join(words)},
                why=f"{listed([quoted(each) for each in words])} left out.",
            )


@rule
def cable_settings_unreadable(job: Job) -> Iterable[Finding]:
    """What was set for kinds of cable, left over at the ends or as waste, and cannot be read."""
    one = job.settings
    odd_slack = [text for text in one.slack if read_slack(text, one.metric) is None]
    odd_waste = [text for text in one.waste_by_kind if read_waste(text) is None]
    odd_plugs = [text for text in one.plugs if read_plug(text, one.metric) is None]
    for words, name, what, like in (
        (odd_plugs, "plug_length", "as length of a plug", _PLUG_LIKE),
        (odd_slack, "slack", "as slack at the ends of cables", _SLACK_LIKE),
        (odd_waste, "waste", "as waste of a type of cable", _WASTE_LIKE),
    ):
        if words:
            yield Finding(
                f"{name}_unreadable",
                "fix",
                ("job",),
                f"Can't read the {name.replace('_', ' ')} setting",
                like,
                PRACTICE,
                {"left out": ", ".join(words)},
                why=f"{listed([quoted(each) for each in words])} left out of what the job sets {what}.",
            )


@rule
def corner_taken(job: Job) -> Iterable[Finding]:
    """Two walls with cables between them, where nobody noted at which end they meet."""
    between: dict[tuple[str, ...], list[str]] = {}
    for tag, need in needs(job).items():
        if not need.route.noted and need.cable.measured is None:
            between.setdefault(tuple(sorted(need.route.walls)), []).append(tag)
    for walls, tags in between.items():
        more = [(each, needs(job)[each].route.other_by) for each in tags]
        longer = listed([f"{each} by {said(job, by)}" for each, by in more[:4] if by > 0])
        yield Finding(
            "corner_taken",
            "look",
            (*walls, *tags),
            f"Which ends of {' and '.join(walls)} meet?",
            (f"Enter on {walls[0]} which wall its left end and its right end meet, seen from the room."),
            PRACTICE,
            {"walls": ", ".join(walls)},
            why=(
                f"{listed(tags)} {'goes' if len(tags) == 1 else 'go'} around the corner between "
                f"{listed(walls)}. No meeting ends are entered, so the shorter way is used."
            )
            + (f" The other way is longer: {longer}." if longer else ""),
            about=(),
        )


@rule
def corners_at_odds(job: Job) -> Iterable[Finding]:
    """Notes of walls that meet which cannot all be true."""
    for left, right in at_odds(job):
        says = (
            f"{left} is entered as meeting itself"
            if left == right
            else f"The right end of {left} is entered as meeting the left end of {right}; other entries contradict that"
        )
        yield Finding(
            "corners_at_odds",
            "fix",
            tuple(dict.fromkeys((left, right))),
            f"Corners of {' and '.join(dict.fromkeys((left, right)))} contradict",
            "Correct which wall the left and the right end of each meet, seen from the room.",
            PRACTICE,
            {"left": left, "right": right},
            why=f"{says}. This entry is left out.",
            about=(),
        )


@rule
@from_each(Cable)
def no_length_sold(job: Job, cable: Cable) -> Iterable[Finding]:
    """A cable that is longer than any length in which it is sold."""
    metric = job.settings.metric
    tag, need = cable.tag, needs(job).get(cable.tag)
    if need is None:
        return
    if need.kind is None or need.cut is None or cable_state(job, need.cable) != "planned":
        return
    longest = max((each.length for each in offers(need.cable, need.kind, metric)), default=None)
    if longest is None or longest >= need.cut:
        return
    remedy = (
        "Move its two ends closer, or use another type of cable for this run."
        if need.assembled
        else "Find a longer spool and enter it under sold in. Never splice inside a wall."
    )
    yield Finding(
        "no_length_sold",
        "fix",
        (tag,),
        f"Longer than any {'length' if need.assembled else 'spool'} sold",
        remedy,
        need.kind.sold_source,
        {"cut": sold_text(need.cut, metric), "longest": sold_text(longest, metric)},
        why=(f"Needs {sold_text(need.cut, metric)}; {need.kind.name} is sold up to {sold_text(longest, metric)}."),
    )


@rule
@from_each(Cable)
def cable_too_long(job: Job, cable: Cable) -> Iterable[Finding]:
    """A cable that is longer than its kind carries: category and patch cable, USB."""
    tag, need = cable.tag, needs(job).get(cable.tag)
    if need is None:
        return
    if need.kind is None or need.cut is None or need.route.path is None:
        return
    limit, source = need.kind.limit_nm, need.kind.limit_source
    rate = gbit_s(need.cable.carries) or 0
    if need.kind.family == "category" and rate >= 10 and not need.assembled:
        ten = ten_gigabit_limit_nm(need.kind.key[3:].replace("a", "A"))
        limit, source = ten or 0, SOURCE_TEN_GIGABIT
    if limit is None or max(need.cut, need.route.path) <= limit:
        return
    over = need.route.path > limit
    at = f" at {rate:g} Gbit/s" if rate >= 10 else ""
    most = f"carries at most {run_at_most(job, limit)}{at}" if limit else f"is not made for {rate:g} Gbit/s"
    yield Finding(
        "cable_too_long" if over else "cable_nearly_too_long",
        "fix" if over else "look",
        (tag,),
        "Too long for its type" if over else "Nearly too long for its type",
        (
            "Shorten the run, add an extender, or use a type made for it."
            if over
            else "Leave less slack at its ends, and test it before close-in."
        ),
        source,
        {"path": said(job, need.route.path), "limit": said(job, limit)},
        why=(
            f"{said(job, need.route.path)} along the route, {sold_text(need.cut, job.settings.metric)} with waste and "
            f"slack. {need.kind.name} {most}."
        ),
    )


@rule
@from_each(Cable)
def cable_bend_tight(job: Job, cable: Cable) -> Iterable[Finding]:
    """A path that turns within less than the cable's bend radius."""
    tag, need = cable.tag, needs(job).get(cable.tag)
    if need is None:
        return
    radius, legs = bend_radius_nm(need), need.route.legs
    if radius is None or len(legs) < 2 or not need.route.in_wall:
        return
    short = [length for length in map(_length, legs) if 0 < length < radius]
    if short:
        yield Finding(
            "cable_bend_tight",
            "look",
            (tag,),
            "Bends tighter than its bend radius",
            ("Move the run or the box, so that each straight stretch is at least as long as the radius."),
            f"{need.kind.bend_source if need.kind else PRACTICE}; the data sheet wins",
            {"stretch": said(job, min(short)), "radius": said(job, radius)},
            why=(f"A straight stretch is only {sized(job, min(short))}; the bend radius is {sized(job, radius)}."),
        )


def _length(leg: Leg) -> int:
    return abs(leg.start[0] - leg.end[0]) + abs(leg.start[1] - leg.end[1])
