"""What an exercise about drying is told in: what is known, what is asked, what slows and speeds."""

from collections.abc import Iterable, Iterator

from armorplan.app.derived import Derived
from armorplan.app.drills.dry_airs import clock_words
from armorplan.app.drills.dry_cases import DryCase
from armorplan.app.drills.dry_looks import Look
from armorplan.app.drills.dry_race import BOTH, CLEAR, goal_rung, ready_min
from armorplan.app.drills.dry_reasons import doses_of
from armorplan.app.drills.dry_setting import DrySet
from armorplan.app.drying_reasons import Reason, reasons_of
from armorplan.drying.body import BOTH_FACES
from armorplan.drying.spans import Stage
from armorplan.kernel.units import span_words
from armorplan.practice.drill import Choice, Level
from armorplan.rules.facts import COATS
from armorplan.steps.naming import lowered, names

_TOGETHER = "Both at about the same time: too near to tell."
_PCT = 100
_RULE_OF_THUMB = (
    "Rule of thumb: the catalogue's time, times what this leather makes of it, divided by what a minute "
    "of this air does."
)
_NEAR = (
    f"Two that are likely ready within {_PCT * CLEAR:g} % of the longer drying are ready at about the same "
    "time."
)
_NEXT = {"shape": "Shape it", "coat": "Coat it again", "handle": "Handle it"}
_SHAPES = ((Stage.TOUCH, "to the touch"), (Stage.HANDLE, "to handle"))


def question_words(asked: DrySet) -> str:
    """Return the question."""
    now = clock_words(asked.looks[0].now_min, asked.looks[0].now_min)
    if asked.level is Level.STRAP:
        return f"It is {now}: what may be done with it now?"
    if asked.level is Level.ROW:
        return "Which of the two is ready first?"
    return f"It is {now}: what is it time for now?"


def given_words(derived: Derived, asked: DrySet) -> tuple[str, ...]:
    """Return what is known: the air, what was made wet when, and what the catalogue says."""
    looks = asked.looks
    told = {_catalogue_words(look.case): None for look in looks}
    near = [_NEAR] if asked.level is Level.ROW else []
    return (looks[0].air.said, *(_look_words(derived, look) for look in looks), *told, *near)


def _look_words(derived: Derived, look: Look) -> str:
    case = look.case
    when = clock_words(look.start_min, look.now_min)
    return f"'{case.wet.title}' was done at {when}: {body_words(derived, case)}."


def body_words(derived: Derived, case: DryCase) -> str:
    """Say what dries: its parts, how thick, on how many faces, how it was made wet."""
    body = case.body
    thick = "" if body.thickness_mm is None else f", {body.thickness_mm:.3g} mm"
    faces = body.faces or case.entry.faces
    open_words = "open on both faces" if faces == BOTH_FACES else "open on one face"
    wet = ", dipped" if body.dipped else ", wiped on" if case.wet.kind in COATS else ""
    return f"{names(derived.assembly, case.step.parts)}{thick}, {open_words}{wet}"


def _catalogue_words(case: DryCase) -> str:
    entry = case.entry
    found = []
    if entry.window_min is not None and case.goal == "shape":
        opens, closes = entry.window_min
        found.append(f"to be shaped after {span_words(opens)} to {span_words(closes)}")
    else:
        known = {Stage.TOUCH: entry.touch_min, Stage.HANDLE: entry.handle_min}
        found += [f"dry {words} after {span_words(known[stage])}" for stage, words in _SHAPES]
    if any(rung.stage is Stage.RECOAT_BY for rung in case.rungs) and entry.recoat_by_min:
        found.append(f"next coat within {span_words(entry.recoat_by_min)}")
    leather = f", leather of {entry.reference_mm:g} mm" if entry.reference_mm else ""
    return f"Catalogue, 23 °C and 50 %{leather}: {entry.name} {', '.join(found)}."


def choices_of(derived: Derived, asked: DrySet) -> tuple[Choice, ...]:
    """Return what can be chosen: rungs of one thing, the two, or all that is looked at."""
    if asked.level is Level.STRAP:
        look = asked.looks[0]
        return tuple(_choice(look, rung.id, rung.title) for rung in look.case.rungs)
    choices = tuple(
        _choice(look, look.case.step.id, _title(look), _details(derived, look))
        for look in asked.looks
    )
    if asked.level is Level.ROW:
        return (*choices, Choice(id=BOTH, title=_TOGETHER))
    return choices


def _choice(look: Look, name: str, title: str, detail: str = "") -> Choice:
    step = look.case.step
    return Choice(id=name, title=title, detail=detail, steps=(step.id,), parts=step.parts)


def _details(derived: Derived, look: Look) -> str:
    since = clock_words(look.start_min, look.now_min)
    return f"wet since {since}: {body_words(derived, look.case)}"


def hint_words(asked: DrySet) -> str:
    """Return what slows and speeds drying here, a rule of thumb and its factors; it names no answer."""
    reasons = dict.fromkeys(reason for look in asked.looks for reason in _reasons(look))
    slow = [reason.words for reason in reasons if reason.longer]
    fast = [reason.words for reason in reasons if not reason.longer]
    why = [
        *([f"Slower than the catalogue: {'; '.join(slow)}."] if slow else []),
        *([f"Faster: {'; '.join(fast)}."] if fast else []),
    ]
    found = why or ["Air and leather are about those of the catalogue: count the minutes."]
    factors = dict.fromkeys(_factor_words(look) for look in asked.looks)
    return " ".join([*found, _RULE_OF_THUMB, *factors])


def _factor_words(look: Look) -> str:
    """Say by how much leather and air change the catalogue's times of one thing."""
    doses = doses_of(look, goal_rung(look))
    thick = look.case.body.thickness_mm
    leather = doses.thickness * doses.uptake * doses.shop
    what = f"{look.case.entry.name} on {thick:.3g} mm" if thick else look.case.entry.name
    return f"{what}: times {_thumb(leather)}, divided by {_thumb(doses.pace)}."


def _thumb(value: float) -> str:
    """Return a factor as one reckons with it at a bench."""
    return f"{value:.2g}"


def _reasons(look: Look) -> Iterator[Reason]:
    likely = look.span(goal_rung(look)).likely_min
    room = look.air.room.room
    yield from reasons_of(look.case.entry, look.case.body, room, look.start_at, likely)


def right_words(asked: DrySet) -> str:
    """Return the right answer in words."""
    if asked.level is Level.STRAP:
        look = asked.looks[0]
        return next(rung.title for rung in look.case.rungs if rung.id == asked.right[0])
    chosen = [look for look in asked.looks if look.case.step.id in asked.right]
    if asked.right == (BOTH,):
        ends = sorted(asked.looks, key=lambda look: ready_min(look) or 0)
        first, last = (clock_words(ready_min(look) or 0, look.now_min) for look in ends)
        when = f"at {first}" if first == last else f"at {first} and {last}"
        return f"Both are ready at about the same time, likely {when}."
    if asked.level is Level.ROW:
        ends = sorted(asked.looks, key=lambda look: ready_min(look) or 0)
        first, last = (clock_words(ready_min(look) or 0, look.now_min) for look in ends)
        wet = chosen[0].case.wet.title
        return f"What '{wet}' made wet is ready first, likely at {first}, the other at {last}."
    return f"It is time now to {_listed(lowered(_title(look)) for look in chosen)}."


def _title(look: Look) -> str:
    """Say what could be done next with something, and after what."""
    return f"{_NEXT[look.case.goal]} after '{look.case.wet.title}'"


def _listed(words: Iterable[str]) -> str:
    found = list(words)
    return " and ".join(filter(None, (", ".join(found[:-1]), *found[-1:])))
