"""What a pattern was drawn for and which parts follow it: read from a draft, and written into it."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from math import isfinite
from typing import Any

from armorplan.app.draft import Draft, Refused, refused
from armorplan.app.draft_rows import free_id
from armorplan.files.toml_patch import Change, all_patched
from armorplan.geometry.sizing.factors import LENGTHENED
from armorplan.kernel.errors import ArmorplanError
from armorplan.workshop.measures import BodyMeasure

Followed = tuple[str, str]
"""What is followed by height and by width."""
_WAYS = ("along", "around")
_LEAST_MM, _MOST_MM = 20.0, 3000.0


@dataclass(frozen=True, slots=True, kw_only=True)
class FollowingPart:
    """A part, and which measures it follows.

    Attributes:
        kind: what it is, in the word of the pattern file.
        is_long: a strap or a keeper: only its length follows, by ``around``.
        along, around: ids of the measures that its height and its width follow; empty: it stays.
    """

    id: str
    name: str
    kind: str
    is_long: bool = False
    along: str = ""
    around: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Following:
    """All parts of a pattern with what they follow, and what each measure was, in mm."""

    parts: tuple[FollowingPart, ...]
    drawn_mm: Mapping[str, float]

    @property
    def used(self) -> tuple[str, ...]:
        """The measures that some part follows, in the order of the parts."""
        named = (m for part in self.parts for m in (part.along, part.around) if m)
        return tuple(dict.fromkeys(named))

    def turned(
        self, parts: Iterable[str], *, along: str | None = None, around: str | None = None
    ) -> "Following":
        """Return it with some parts following other measures; ``None`` leaves one as it is.

        What only grows lengthways has no height that could follow.
        """
        chosen = set(parts)

        def turned(one: FollowingPart) -> FollowingPart:
            high = one.along if along is None or one.is_long else along
            return replace(one, along=high, around=one.around if around is None else around)

        return replace(self, parts=tuple(turned(p) if p.id in chosen else p for p in self.parts))


def following_of(draft: Draft) -> Following:
    """Return what the parts of a sound draft follow."""
    pattern = draft.pattern
    if pattern is None:
        return Following(parts=(), drawn_mm={})
    follows = {part: scaling for scaling in pattern.scalings for part in scaling.parts}
    parts = [
        FollowingPart(
            id=part.id,
            name=part.name,
            kind=str(part.kind),
            is_long=part.kind in LENGTHENED,
            along=follows[part.id].along if part.id in follows else "",
            around=follows[part.id].around if part.id in follows else "",
        )
        for part in pattern.parts
    ]
    return Following(parts=tuple(parts), drawn_mm={one.id: one.mm for one in pattern.drawn_for})


def suggested_mm(measure: BodyMeasure) -> float | None:
    """Return what a pattern may have been drawn for: the middle of adults, a girth over padding.

    ``None`` where no figures are known.
    """
    middles = [usual.value_mm(50) for usual in measure.usual(None)]
    if not middles:
        return None
    return round(sum(middles) / len(middles) + measure.usual_over_mm)


def with_following(draft: Draft, following: Following) -> Draft | Refused:
    """Return a draft whose parts follow these measures, or why that cannot be.

    Scalings whose parts follow the same as before stay where they are, comments and notes with them.
    """
    faults = [words for measure in following.used if (words := _fault(draft, following, measure))]
    if faults:
        return refused(" ".join(faults), code="drawn-for-missing")
    try:
        text = all_patched(draft.text, (*_drawn(draft, following), *_scalings(draft, following)))
    except ArmorplanError as error:
        return refused(str(error), "Change it in the file itself.", code="cannot-patch")
    return draft.with_text(text)


def _fault(draft: Draft, following: Following, measure: str) -> str:
    known = draft.bench.shelf.measure(measure)
    name = known.name if known else measure
    value = following.drawn_mm.get(measure)
    if value is None:
        return f"Say how many mm {name} was when the pattern was drawn."
    if not isfinite(value) or not _LEAST_MM <= value <= _MOST_MM:
        return f"{name} cannot be {value:g} mm; write it from {_LEAST_MM:g} to {_MOST_MM:g} mm."
    return ""


def _drawn(draft: Draft, following: Following) -> Iterator[Change]:
    """Yield the measures that are new or other than before; one that nothing follows stays."""
    written = draft.entry("drawn_for", "")
    for measure in following.used:
        value: Any = following.drawn_mm[measure]
        value = int(value) if value == int(value) else round(value, 1)
        if measure not in written:
            yield Change(path=("drawn_for", measure), value={"mm": value}, is_new=True)
        elif written[measure].get("mm") != value:
            yield Change(path=("drawn_for", measure, "mm"), value=value)


def _scalings(draft: Draft, following: Following) -> Iterator[Change]:
    """Yield what changes in the scalings; what goes, goes first: a part may stand in one only."""
    groups: dict[Followed, list[str]] = {}
    for part in following.parts:
        if part.along or part.around:
            groups.setdefault((part.along, part.around), []).append(part.id)
    written = draft.entry("scalings", "")
    named = {entry: _followed(told) for entry, told in written.items()}
    kept = {
        entry: [part for part in told.get("parts", ()) if part in groups.get(named[entry], ())]
        for entry, told in written.items()
    }
    # Of two scalings that follow the same, one that keeps parts takes in the others.
    homes = {named[entry]: entry for entry in sorted(kept, key=lambda one: bool(kept[one]))}
    taken = {part for parts in kept.values() for part in parts}
    for key in groups.keys() & homes.keys():
        kept[homes[key]] += [part for part in groups[key] if part not in taken]
    yield from _turned(written, kept)
    names = set(written)
    for key, parts in groups.items():
        if key not in homes:
            entry = free_id("_".join(filter(None, key)), names)
            names.add(entry)
            ways = {way: one for way, one in zip(_WAYS, key, strict=True) if one}
            yield Change(path=("scalings", entry), value={"parts": parts, **ways}, is_new=True)


def _turned(written: Mapping[str, Any], kept: Mapping[str, list[str]]) -> Iterator[Change]:
    for entry, parts in kept.items():
        if not parts:
            yield Change(path=("scalings", entry), value=None)
    for entry, parts in kept.items():
        if parts and parts != list(written[entry].get("parts", ())):
            yield Change(path=("scalings", entry, "parts"), value=parts)


def _followed(told: Mapping[str, Any]) -> Followed:
    along, around = (told.get(way, "") for way in _WAYS)
    return along, around
