"""Findings about single cables: rating, length, what they must carry, bends, and what is not known of them yet."""

from __future__ import annotations

from collections.abc import Iterable

from store.records.whole import Job
from store.records.wiring import Cable
from store.rules.cable.kinds import kind_of, read_slack, read_waste, sold_text
from store.rules.cable.legs import Leg
from store.rules.cable.lengths import bend_radius_nm, gbit_s, needs, offers, read_offer
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import listed, named, said
from store.rules.wall.places import bad_points
from store.rules.wall.unfold import at_odds
from store.trade.cable.category import SOURCE_TEN_GIGABIT, ten_gigabit_limit_nm
from store.trade.cable.cords import cord_named
from store.trade.cable.jackets import SUBSTITUTES, in_wall, markings, substitution_source, tidy

PRACTICE = "common practice"
_SLACK_LIKE = (
    "Write a kind of cable, its family or `all`; then box, device or elsewhere; then a length: cat6 box 18 in."
)
_WASTE_LIKE = "Write a kind of cable, its family or `all`, and per cent of the path: cat6 5."


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
            f"{listed(tags)}: {kind!r} is not a kind of cable that is known here, so its jacket, limit and spool go "
            "unchecked.",
            "Write the kind as it is listed, like cat6, rg6, hdmi, 14/2 speaker or 12-2 nm; or check these by hand.",
            PRACTICE,
            {"kind": kind},
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
    wanted = kind.needs + (f" ({', '.join(order)} will do as well)" if order else "")
    known = bool(printed)
    says = f"is marked {printed}" if known else "has no marking noted"
    yield Finding(
        "cable_not_rated" if known else "cable_rating_not_noted",
        "stop" if known else "fix",
        (tag,),
        f"{named(job, tag)} is to run in the wall and {says}; there it needs {kind.needs}"
        + (", which names a flexible cord." if cord else f", and {verdict.reason}." if known else "."),
        f"Use a cable marked {wanted}, or keep it out of the wall."
        if known
        else f"Read the jacket and note what is printed on it. It must be {wanted}.",
        verdict.source or substitution_source(kind.needs),
        {"rating": cable.rating, "needs": kind.needs, **({"cord": cord} if cord else {})},
    )


@rule
def cable_length_unknown(job: Job) -> Iterable[Finding]:
    """Cables whose length does not follow from the plan yet."""
    missing = {tag: need.route.why for tag, need in needs(job).items() if need.route.path is None}
    if missing:
        first = [f"{tag} ({why})" for tag, why in list(missing.items())[:4]]
        more = f", and {len(missing) - 4} more" if len(missing) > 4 else ""
        one = len(missing) == 1
        yield Finding(
            "cable_length_unknown",
            "look",
            tuple(missing),
            f"The length of {'a cable is' if one else f'{len(missing)} cables is'} not known yet: "
            f"{', '.join(first)}{more}.",
            "Give each both ends and their places, or measure along the route and note it as the measured length.",
            PRACTICE,
            missing,
        )


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
                f"{named(job, tag)}: {listed([repr(each) for each in words])} cannot be read and is left out.",
                f"Write the {what} like {like}.",
                PRACTICE,
                {what: ", ".join(words)},
            )


@rule
def cable_settings_unreadable(job: Job) -> Iterable[Finding]:
    """What was set for kinds of cable, left over at the ends or as waste, and cannot be read."""
    one = job.settings
    odd_slack = [text for text in one.slack if read_slack(text, one.metric) is None]
    odd_waste = [text for text in one.waste_by_kind if read_waste(text) is None]
    for words, name, what, like in (
        (odd_slack, "slack", "to be left over at the ends of cables", _SLACK_LIKE),
        (odd_waste, "waste", "as waste of a kind of cable", _WASTE_LIKE),
    ):
        if words:
            yield Finding(
                f"{name}_unreadable",
                "fix",
                ("job",),
                f"What the job sets {what}: {listed([repr(each) for each in words])} cannot be read and is left out.",
                like,
                PRACTICE,
                {"left out": ", ".join(words)},
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
            f"{listed(tags)} {'goes' if len(tags) == 1 else 'go'} round the corner between {listed(walls)}, and nobody "
            "noted at which ends these meet, so the nearer way is taken."
            + (f" Round their other ends the way is longer: {longer}." if longer else ""),
            f"Note on {walls[0]} which wall its left end and its right end meet, seen from the room.",
            PRACTICE,
            {"walls": ", ".join(walls)},
        )


@rule
def corners_at_odds(job: Job) -> Iterable[Finding]:
    """Notes of walls that meet which cannot all be true."""
    for left, right in at_odds(job):
        says = (
            f"It is noted of {left} that it meets itself"
            if left == right
            else f"It is noted that the right end of {left} meets the left end of {right}; other notes say otherwise"
        )
        yield Finding(
            "corners_at_odds",
            "fix",
            tuple(dict.fromkeys((left, right))),
            f"{says}. This note is left out.",
            "Correct which wall meets the left and the right end of each, seen from the room.",
            PRACTICE,
            {"left": left, "right": right},
        )


@rule
@from_each(Cable)
def no_length_sold(job: Job, cable: Cable) -> Iterable[Finding]:
    """A cable that is longer than any length in which it is sold."""
    metric = job.settings.metric
    tag, need = cable.tag, needs(job).get(cable.tag)
    if need is None:
        return
    if need.kind is None or need.cut is None or need.cable.state != "planned":
        return
    longest = max((each.length for each in offers(need.cable, need.kind, metric)), default=None)
    if longest is None or longest >= need.cut:
        return
    remedy = (
        "Bring its two ends nearer, or take another kind of cable for this run."
        if need.assembled
        else "Find a longer spool and note it under sold in; nothing is spliced inside a wall."
    )
    yield Finding(
        "no_length_sold",
        "fix",
        (tag,),
        f"{named(job, tag)} takes {sold_text(need.cut, metric)}, and {need.kind.name} is sold up to "
        f"{sold_text(longest, metric)}.",
        remedy,
        need.kind.sold_source,
        {"cut": sold_text(need.cut, metric), "longest": sold_text(longest, metric)},
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
    most = f"carries at most {said(job, limit)}{at}" if limit else f"is not made for {rate:g} Gbit/s"
    yield Finding(
        "cable_too_long" if over else "cable_nearly_too_long",
        "fix" if over else "look",
        (tag,),
        f"{named(job, tag)} is {said(job, need.route.path)} long, {said(job, need.cut)} with waste and slack; "
        f"{need.kind.name} {most}.",
        "Shorten the run, put active gear between, or take a kind that is made for it."
        if over
        else "Cut what is left over at its ends short, and test it before the wall is covered.",
        source,
        {"path": said(job, need.route.path), "limit": said(job, limit)},
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
            f"{named(job, tag)} turns within {said(job, min(short))}; its bend radius is {said(job, radius)}.",
            "Move its height or its box, so that each straight stretch is at least as long as the radius.",
            f"{need.kind.bend_source if need.kind else PRACTICE}; the maker's figure wins",
            {"stretch": said(job, min(short)), "radius": said(job, radius)},
        )


def _length(leg: Leg) -> int:
    return abs(leg.start[0] - leg.end[0]) + abs(leg.start[1] - leg.end[1])
