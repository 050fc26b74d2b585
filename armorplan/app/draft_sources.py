"""Where the words of a draft's keys come from: the pattern itself, the shelf, the rules."""

from collections.abc import Callable, Iterable, Mapping
from types import MappingProxyType
from typing import Any

from armorplan.app.draft import Draft
from armorplan.app.draft_keys import Key, Kind
from armorplan.rules.own_names import step_name
from armorplan.steps.naming import kind_slug
from armorplan.workshop.shelf import TreatmentKind

Word = tuple[str, str]
"""A word as it is written, and what it means to a reader."""
_COATS = (TreatmentKind.DYE, TreatmentKind.OIL, TreatmentKind.FINISH)


def words_of(key: Key, draft: Draft, values: Mapping[str, Any]) -> tuple[Word, ...]:
    """Return what a key may hold, as far as that can be told; what it holds is always among it."""
    found = key.words
    if not found and key.kind in (Kind.STEP, Kind.STEPS):
        found = step_words(draft)
    elif not found and key.of in _SOURCES:
        found = tuple(_SOURCES[key.of](draft, values))
    held = values.get(key.name) if key.kind in (Kind.CHOICE, Kind.STEP) else None
    if isinstance(held, str) and held not in {word for word, _ in found}:
        found = (*found, (held, held))
    return found


def step_words(draft: Draft) -> tuple[Word, ...]:
    """Return the names of all steps, as a maker writes them, with their titles.

    None while they are not reckoned yet.
    """
    if draft.is_hasty or draft.derived is None:
        return ()
    steps = draft.derived.work.steps
    named = {step_name(step): step.title for step in reversed(steps)}
    kinds = {f"{kind_slug(step.kind)}/*": f"all: {step.kind}" for step in steps}
    seams = {f"seam/{seam.id}": seam.name for seam in draft.derived.pattern.seams}
    return (*sorted(named.items()), *sorted(seams.items()), *sorted(kinds.items()))


def _entries(table: str, called: str = "name") -> Callable[[Draft, Any], Iterable[Word]]:
    def words(draft: Draft, _values: Any) -> Iterable[Word]:
        for entry in draft.entry(table, ""):
            told = draft.entry(table, entry).get(called)
            yield entry, told if isinstance(told, str) else entry

    return words


def _own_choices(_draft: Draft, values: Any) -> Iterable[Word]:
    choices = values.get("choices")
    for choice, told in choices.items() if isinstance(choices, dict) else ():
        yield choice, str(told.get("name", choice)) if isinstance(told, dict) else choice


def _choices(draft: Draft, _values: Any) -> Iterable[Word]:
    for option in draft.entry("options", ""):
        told = draft.entry("options", option)
        for choice, name in _own_choices(draft, told):
            yield f"{option}.{choice}", f"{told.get('name', option)}: {name}"


def _fasteners(draft: Draft, values: Any) -> Iterable[Word]:
    """Yield what on the shelf serves this kind of joint; glues, threads and laces among it."""
    kind, shelf = values.get("kind"), draft.bench.shelf
    if kind not in ("rivet", "screw"):
        yield "", "not said"
    yield from ((e.id, e.name) for e in shelf.fasteners if e.kind == kind)
    yield from ((e.id, e.name) for e in shelf.treatments if e.kind == kind)
    supply = {"stitch": "thread", "lace": "lace"}.get(str(kind))
    yield from ((e.id, e.name) for e in shelf.supplies if e.kind == supply)


def _drawn_for(draft: Draft, _values: Any) -> Iterable[Word]:
    yield "", "nothing"
    for entry in draft.entry("drawn_for", ""):
        measure = draft.bench.shelf.measure(entry)
        yield entry, measure.name if measure else entry


def _not_drawn_for(draft: Draft, _values: Any) -> Iterable[Word]:
    """Yield the measures of the catalogue that the pattern does not name yet."""
    named = draft.entry("drawn_for", "")
    return ((one.id, one.name) for one in draft.bench.shelf.measures if one.id not in named)


def _treatments(*kinds: TreatmentKind) -> Callable[[Draft, Any], Iterable[Word]]:
    def words(draft: Draft, _values: Any) -> Iterable[Word]:
        if TreatmentKind.HARDENER in kinds:
            yield "", "nothing"
        for entry in draft.bench.shelf.treatments:
            if entry.kind in kinds:
                yield entry.id, entry.name

    return words


def _rules(draft: Draft, _values: Any) -> Iterable[Word]:
    derived = None if draft.is_hasty else draft.derived
    reasons = [r.reason for r in derived.relations] if derived else []
    for code in sorted({reason.rule.rpartition(":")[2] for reason in reasons}):
        yield code, code.replace("-", " ").replace("_", " ")


def _holes(draft: Draft, _values: Any) -> Iterable[Word]:
    parts = draft.pattern.parts if draft.pattern else ()
    for part in parts:
        for hole in part.holes:
            yield hole.id, f"{hole.id} ({part.name})"


_SOURCES: Mapping[str, Callable[[Draft, Any], Iterable[Word]]] = MappingProxyType(
    {
        "own choice": _own_choices,
        "choice": _choices,
        "piece": _entries("pieces"),
        "part": _entries("parts"),
        "joint": _entries("joints"),
        "material": _entries("materials", ""),
        "hole": _holes,
        "drawn for": _drawn_for,
        "measure": _not_drawn_for,
        "leather": lambda draft, _: ((e.id, e.name) for e in draft.bench.shelf.leathers),
        "hardware": lambda draft, _: ((e.id, e.name) for e in draft.bench.shelf.hardware),
        "fastener": _fasteners,
        "treatment": _treatments(*_COATS),
        "hardener": _treatments(TreatmentKind.HARDENER),
        "rule": _rules,
    }
)
