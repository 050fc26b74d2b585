"""Fits a pattern to a wearer: from its files and their measures to the files of a new folder."""

import tomllib
from collections.abc import Iterator
from dataclasses import dataclass, replace
from uuid import UUID, uuid5

from armorplan.app.draft import Refused, refused
from armorplan.app.wearer_check import new_findings
from armorplan.app.wearer_measures import measure_findings, measure_rows, wanted_of
from armorplan.app.wearer_model import (
    Fitted,
    MeasureRow,
    SizedPart,
    SizedPlace,
    SizedRow,
)
from armorplan.app.wearer_places import closing_findings, sized_places
from armorplan.app.wearer_sides import differs, two_sided
from armorplan.app.wearer_texts import corrections_told, sized_changes, sized_drawings
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import PATTERN_FILE, PatternFiles, from_texts
from armorplan.files.toml_patch import Change, all_patched
from armorplan.geometry.sizing.model import Sized, WantedBy
from armorplan.geometry.sizing.sizing import sized
from armorplan.kernel.errors import ArmorplanError
from armorplan.kernel.findings import Finding, Severity, gravest_first, has_errors
from armorplan.pattern.parts import Point
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.shelf import Shelf
from armorplan.workshop.wearers import SIDES, Wearer

_DIGITS = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """Who a pattern is fitted to: a wearer, and the side where left and right differ.

    ``version`` is that of the new pattern; 1, or one more than what it replaces.
    """

    wearer: Wearer
    side: str = ""
    version: int = 1

    @property
    def measured(self) -> Wearer:
        """The wearer with the measures that count: of the side, else the larger of both."""
        if self.side:
            return self.wearer.of_side(self.side)
        sides = [self.wearer.of_side(side) for side in SIDES]
        both = {
            key: max(one.measures[key] for one in sides if key in one.measures)
            for key in {**sides[0].measures, **sides[1].measures}
        }
        padded = {k: mm for k, mm in self.wearer.padded.items() if k not in self.wearer.differing}
        return replace(self.wearer, measures=both, padded=padded, left={}, right={})


def fitted(files: PatternFiles, asked: Asked, shelf: Shelf) -> Fitted | Refused:
    """Return a pattern fitted to a wearer, or why that cannot be.

    Args:
        files: the pattern as it was drawn.
        asked: the wearer.
        shelf: the catalogues it is read and checked with.

    Raises:
        UnreadableError: a file is not text.
    """
    read = read_pattern(files, shelf)
    if read.pattern is None:
        return Refused(findings=tuple(f for f in read.findings if f.severity is Severity.ERROR))
    pattern = read.pattern
    if not asked.side and differs(pattern, asked.wearer):
        sides = two_sided(files, pattern, shelf)
        if isinstance(sides, Refused):
            return sides
        return _fit(_Fitting(sides.files, sides.pattern, asked, shelf, sides.right))
    return _fit(_Fitting(files, pattern, asked, shelf))


def _fit(fitting: "_Fitting") -> Fitted | Refused:
    rows = fitting.rows
    if not rows:
        return _follows_nothing(fitting.pattern)
    told = tuple(fitting.measure_findings())
    if has_errors(told):
        return Refused(findings=gravest_first(told))
    if not wanted_of(rows):
        return Refused(findings=told)
    return fitting.made(told)


def _follows_nothing(pattern: Pattern) -> Refused:
    return refused(
        f"No part of {pattern.name} follows a measure.",
        "Say in [drawn_for] what it was drawn for, and in [scalings] which parts follow; the format is in the help.",
        code="follows-nothing",
    )


class _Fitting:
    """One fitting under way."""

    def __init__(
        self,
        files: PatternFiles,
        pattern: Pattern,
        asked: Asked,
        shelf: Shelf,
        right: frozenset[str] = frozenset(),
    ) -> None:
        self.pattern, self._asked, self._shelf, self._right = pattern, asked, shelf, right
        self._texts = files.as_texts()
        self._values = tomllib.loads(self._texts[PATTERN_FILE].removeprefix("\ufeff"))
        # Of two sides the left one is drawn for what the pattern says, as it was before.
        self._wearer = asked.wearer.of_side(SIDES[0]) if right else asked.measured
        self.rows = measure_rows(pattern, self._wearer, shelf)
        other = asked.wearer.of_side(SIDES[1])
        self._others = measure_rows(pattern, other, shelf) if right else ()

    def measure_findings(self) -> Iterator[Finding]:
        """Yield what of the measures is missing, rare, guessed, or cannot be meant."""
        yield from measure_findings(self.rows, self._wearer)
        yield from measure_findings(self._other_rows(), self._asked.wearer.of_side(SIDES[1]))

    def _other_rows(self) -> tuple[MeasureRow, ...]:
        """Return what differs on the right."""
        differing = self._asked.wearer.differing
        return tuple(
            replace(row, name=f"{row.name} (right)") for row in self._others if row.id in differing
        )

    def made(self, told: tuple[Finding, ...]) -> Fitted | Refused:
        """Return the fitted pattern with everything that is told of it."""
        pattern, asked, wanted = self.pattern, self._asked, wanted_of(self.rows)
        on_right = wanted_of(self._others)
        draft = sized(
            pattern,
            wanted,
            self._shelf.constants,
            named=frozenset(_named(pattern)),
            apart=dict.fromkeys(self._right, on_right),
        )
        name = f"{pattern.name}, for {asked.wearer.name}" + (
            f" ({asked.side})" if asked.side else ""
        )
        places = tuple(sized_places(pattern, self._girths))
        try:
            texts = sized_drawings(self._texts, self._values, pattern, draft, title=name)
            changes = (
                *sized_changes(self._values, pattern, draft.sized),
                *self._head(name, wanted, places),
            )
            texts[PATTERN_FILE] = all_patched(self._texts[PATTERN_FILE], changes)
        except ArmorplanError as error:
            return refused(str(error), "Change it in the file itself.", code="cannot-patch")
        slug = "_".join(filter(None, (pattern.slug, asked.wearer.id, asked.side)))
        new = new_findings(pattern, from_texts(slug, texts), self._shelf)
        found = gravest_first((*told, *self._told(), *draft.sized.findings, *new))
        return Fitted(
            slug=slug,
            name=name,
            wearer=asked.wearer.id,
            side=asked.side,
            texts=tuple(sorted(texts.items())),
            measures=(*self.rows, *self._other_rows()),
            parts=tuple(_parts(pattern, draft.sized)),
            rows=tuple(_rows(draft.sized)),
            places=places,
            findings=tuple({(f.code, f.text): f for f in found}.values()),
        )

    def _told(self) -> Iterator[Finding]:
        known = {row.id for row in self.rows}
        differing = tuple(one for one in self._asked.wearer.differing if one in known)
        if self._right:
            yield Finding(
                code="sides-drawn-apart",
                severity=Severity.NOTE,
                text=f"{self._asked.wearer.name} differs left and right in {', '.join(differing)}: left and right "
                "have drawings of their own now.",
                remedy="Mark left and right on the leather; they are no longer each other's mirror. What the pattern "
                "was drawn for is that of the left now.",
                about=differing,
            )
        elif differing and not self._asked.side:
            yield Finding(
                code="sides-differ",
                severity=Severity.WARNING,
                text=f"{self._asked.wearer.name} differs left and right in {', '.join(differing)}; the larger "
                "was taken for both.",
                remedy="Fit the left and the right into a folder of their own each.",
                about=differing,
            )
        names = {row.id: row.name for row in self.rows}
        yield from closing_findings(self.pattern, self._girths, lambda one: names.get(one, one))
        for words in corrections_told(self.pattern):
            yield Finding(
                code="correction-drawn",
                severity=Severity.NOTE,
                text=words,
                remedy="Nothing to do; the new pattern no longer lists it.",
            )

    def _girths(self, strap: str) -> WantedBy:
        """Return the measures of the side that a strap is made for."""
        return wanted_of(self._others if strap in self._right else self.rows)

    def _head(
        self, name: str, wanted: WantedBy, places: tuple[SizedPlace, ...]
    ) -> Iterator[Change]:
        """Yield the new head, the measures it is drawn for now, and whom it was fitted to."""
        asked = self._asked
        uuid = fitted_uuid(self.pattern.uuid, asked.wearer.id, asked.side)
        yield Change(path=("pattern", "uuid"), value=uuid)
        yield Change(path=("pattern", "name"), value=name)
        yield Change(path=("pattern", "version"), value=asked.version)
        for measure, one in wanted.items():
            yield Change(path=("drawn_for", measure, "mm"), value=round(one.wanted_mm, 1))
        for place in places:
            if place.after_mm != place.before_mm:
                path = ("strap_places", place.id, "girth_mm")
                yield Change(path=path, value=list(place.after_mm))
        for version in self._values.get("versions", {}):
            yield Change(path=("versions", version), value=None)
        if "fitted" in self._values:
            yield Change(path=("fitted",), value=None)
        yield Change(path=("fitted",), value=self._fitted_to(), is_new=True)

    def _fitted_to(self) -> dict[str, str | int]:
        asked = self._asked
        found: dict[str, str | int] = {
            "uuid": self.pattern.uuid,
            "version": self.pattern.version,
            "wearer": asked.wearer.id,
            "name": asked.wearer.name,
        }
        return found | ({"side": asked.side} if asked.side else {})


def fitted_uuid(uuid: str, wearer: str, side: str = "") -> str:
    """Return the uuid of a pattern fitted to a wearer: the same whenever it is fitted again."""
    return str(uuid5(UUID(uuid), f"wearer/{wearer}/{side}"))


def _named(pattern: Pattern) -> Iterator[str]:
    """Yield the joints that a maker's own relation or overruling names."""
    joints = {joint.id for joint in pattern.joints}
    steps = [step for r in pattern.own_relations for step in (r.step, *r.others)]
    steps += [step for o in pattern.overrulings for step in (o.step, o.other)]
    for step in steps:
        joint = step.partition("/")[2].split(".")[0]
        if joint in joints:
            yield joint


def _parts(pattern: Pattern, made: Sized) -> Iterator[SizedPart]:
    for one in made.parts:
        yield SizedPart(
            id=one.part,
            name=pattern.part(one.part).name,
            before_mm=_plain(one.before_mm),
            after_mm=_plain(one.after_mm),
            before=one.before,
            after=one.after,
            holes_before=pattern.part(one.part).holes,
            holes_after=made.pattern.part(one.part).holes,
        )


def _rows(made: Sized) -> Iterator[SizedRow]:
    for row in made.rows:
        yield SizedRow(
            id=row.seam,
            name=row.name,
            holes_before=row.count,
            holes_after=len(row.joints),
            before_mm=_plain(row.before_mm),
            after_mm=_plain(row.after_mm),
            residual_mm=round(row.residual_mm, _DIGITS),
        )


def _plain(pair: Point) -> Point:
    return round(pair[0], _DIGITS), round(pair[1], _DIGITS)
