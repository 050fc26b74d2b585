"""Which of two things that dry is ready first, where that is sure."""

from collections.abc import Iterator

from armorplan.app.drills.dry_cases import Rung, is_latest
from armorplan.app.drills.dry_looks import Look, stage_of
from armorplan.drying.body import LIKELY, Body, Multiples, multiples

BOTH = "both"
"""Stands for the one that is ready first where nobody can tell which it is."""
CLEAR = 0.1
"""Two that are likely ready within this share of the longer drying are too near to tell."""
_LEVEL, _APART = 0.04, 0.25
"""Of what is asked as too near to tell it is no more than this share, of what is not no less than that:
nobody need reckon finer."""
_SHORTEST_MIN = 15
"""Of what dries sooner nobody can say by minutes that two are level."""


def goal_rung(look: Look) -> Rung:
    """Return the rung at which what waits for it may go on."""
    return look.case.rungs[look.case.place(look.case.goal)]


def ready_min(look: Look) -> int | None:
    """Return when it is likely ready, counted from the midnight before; ``None`` for never."""
    likely = look.span(goal_rung(look)).likely_min
    return None if likely is None else look.start_min + likely


def are_near(one: Look, other: Look) -> bool:
    """Tell whether two are wet close enough together to be compared, neither being too late already.

    They began within the longer of the catalogue's times: further apart, which was wet first would
    answer it whatever the air.
    """
    longer = max(_told_min(look) for look in (one, other))
    return abs(one.start_min - other.start_min) <= longer and not any(map(_is_over, (one, other)))


def _told_min(look: Look) -> int:
    """Return in how many minutes it is ready by the catalogue."""
    stage = goal_rung(look).stage
    return look.case.catalogue_min(stage) if stage else 0


def _is_over(look: Look) -> bool:
    """Tell whether its window is likely over as it is looked at."""
    ends = [
        look.span(rung).likely_min for rung in look.case.rungs[1:] if is_latest(stage_of(rung))
    ]
    return any(end is not None and look.passed_min >= end for end in ends)


def first_ready(one: Look, other: Look) -> str | None:
    """Return the drying that is ready first; ``None`` where that is not sure.

    Of one treatment both dry in the same air, by the same hands and by the same law of thickness:
    what is not known of these is the same for both, so that each law is tried on both at once. Of
    two treatments the latest of one has to lie before the soonest of the other.
    """
    first = first_likely(one, other)
    if first is None:
        return None
    ahead, behind = (one, other) if one.case.step.id == first else (other, one)
    return first if _is_sure(ahead, behind) else None


def first_likely(one: Look, other: Look) -> str | None:
    """Return the drying that is likely ready first; ``None``: none is so by far, or one never is."""
    apart = _apart(one, other)
    if apart is None or abs(apart) < _APART:
        return None
    return (one if apart < 0 else other).case.step.id


def are_level(one: Look, other: Look) -> bool:
    """Tell whether both are likely ready at the same time, so nearly that nobody can tell which is first."""
    apart = _apart(one, other)
    lasts = [look.span(goal_rung(look)).likely_min or 0 for look in (one, other)]
    return apart is not None and abs(apart) <= _LEVEL and min(lasts) >= _SHORTEST_MIN


def _apart(one: Look, other: Look) -> float | None:
    """Return by what share of the longer drying one is likely ready behind the other; ``None``: never."""
    ends = (ready_min(one), ready_min(other))
    if ends[0] is None or ends[1] is None:
        return None
    return (ends[0] - ends[1]) / max(ends[0] - one.start_min, ends[1] - other.start_min)


def first_told(one: Look, other: Look) -> str | None:
    """Return which is ready first by the catalogue's times alone; ``None``: both at once."""
    ends = [look.start_min + _told_min(look) for look in (one, other)]
    if ends[0] == ends[1]:
        return None
    return (one if ends[0] < ends[1] else other).case.step.id


def all_agree(one: Look, other: Look, first: str | None) -> bool:
    """Tell whether all that one might go by names the first: no exercise is made of that.

    What was wet first, what takes less time or is thinner, and what the catalogue says. ``None``
    stands for both at about the same time.
    """
    quick = min((one, other), key=lambda look: look.span(goal_rung(look)).likely_min or 0)
    named = {first_told(one, other)} | ({quick.case.step.id} if first else _thinner(one, other))
    if one.start_min != other.start_min:
        named.add(min((one, other), key=lambda look: look.start_min).case.step.id)
    return named == {first}


def _thinner(one: Look, other: Look) -> set[str | None]:
    thick = [look.case.body.thickness_mm or 0.0 for look in (one, other)]
    if thick[0] == thick[1]:
        return set()
    return {(one if thick[0] < thick[1] else other).case.step.id}


def _is_sure(ahead: Look, behind: Look) -> bool:
    if ahead.case.entry.id != behind.case.entry.id:
        latest = ahead.span(goal_rung(ahead)).latest_min
        soonest = behind.span(goal_rung(behind)).soonest_min
        return latest is not None and (
            soonest is None or ahead.start_min + latest < behind.start_min + soonest
        )
    pairs = zip(_ends(ahead), _ends(behind), strict=True)
    return all(one < other for one, other in pairs)


def _ends(look: Look) -> Iterator[float]:
    """Yield when it is ready by each law of thickness, as quick, as likely and as slow as may be."""
    case, room, stage = look.case, look.air.room, goal_rung(look).stage
    catalogue = case.catalogue_min(stage) if stage else 0
    quick, likely, slow = room.factors(case.entry)
    for law in _by_law(look):
        needed = catalogue * law
        doses = (needed * quick, needed * likely, needed * slow)
        for minutes in room.until(case.entry, doses, look.start_at):
            yield look.start_min + minutes


def _by_law(look: Look) -> Multiples:
    """Return how many times the catalogue's minutes, by the linear, the middle and the square law."""
    body = look.case.body
    plain = Body(thickness_mm=body.thickness_mm, faces=body.faces)
    least, likely, most = multiples(look.case.entry, plain)
    laws = (least, likely, most) if likely >= 1 else (most, likely, least)
    more = multiples(look.case.entry, body)[LIKELY] / likely
    return laws[0] * more, laws[1] * more, laws[2] * more
