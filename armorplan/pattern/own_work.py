"""What the maker adds to a pattern: steps, relations, overrulings, known corrections, versions.

Steps are named here by kind and subject, the last two parts of their ids, without a side:
``rivet/left_row_1``, ``dye/colour.coat-1``, ``own/line_petal``. ``rivet/*`` names all steps of a
kind, ``seam/left_row`` all joints of a seam. On a mirrored piece a relation holds on each side.
"""

from dataclasses import dataclass
from enum import StrEnum

from armorplan.pattern.parts import Point


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnStep:
    """A step the maker adds.

    Attributes:
        piece: the piece it belongs to.
        parts: parts it touches; empty for the whole piece.
        minutes: hands-on minutes.
        wait_min: minutes that time alone takes afterwards, 0 for none.
        cautions: sentences shown at the step.
    """

    id: str
    name: str
    piece: str
    parts: tuple[str, ...] = ()
    minutes: int = 5
    wait_min: int = 0
    tool: str = ""
    cautions: tuple[str, ...] = ()
    notes: str = ""
    only_with: tuple[str, ...] = ()


class OwnKind(StrEnum):
    """What an own relation says of its steps; the words are those of the relation language."""

    BEFORE = "before"
    BEFORE_ALL = "before all of"
    AFTER_ANY = "after any of"
    TOGETHER = "together"
    APART = "apart"


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnRelation:
    """A relation the maker adds.

    Attributes:
        kind: which of the five it is.
        step: the first step of 'before' and 'before all of', the later one of 'after any of';
            empty for 'together' and 'apart'.
        others: the other steps.
        force: a value of ``relations.model.Force``: 'cannot', 'would spoil', 'easier', 'usual practice'.
        why: the reason as a sentence.
        price_min: minutes that keeping it saves, for force 'easier'.
        lag_min: least minutes between, for 'before'.
        max_lag_min: most minutes between, for 'before'.
        on: the resource that 'apart' steps cannot use at once.
    """

    id: str
    kind: OwnKind
    step: str = ""
    others: tuple[str, ...] = ()
    force: str = "usual practice"
    why: str = ""
    price_min: float = 0.0
    lag_min: int = 0
    max_lag_min: int | None = None
    on: str = ""
    only_with: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Overruling:
    """A relation of a rule (or the maker's own, by id) that the maker sets aside.

    Attributes:
        rule: the rule's code, or the id of an own relation.
        step: the first step of the relation, or empty for any.
        other: one of the other steps, or empty for any.
        note: why; needed where the relation would bind.
    """

    id: str
    rule: str
    step: str = ""
    other: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Correction:
    """A known mistake of the drawing and its mend: these holes lie so far from where they should.

    The reader moves the holes by ``move_mm`` (right and down the page) when it reads the drawing.
    """

    id: str
    name: str
    holes: tuple[str, ...]
    move_mm: Point
    notes: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class VersionNote:
    """What one version of the pattern brought, as it is written for whoever comes to it later.

    Attributes:
        version: which one.
        note: in the maker's words.
        from_builds: ids of the builds that taught it.
        on: the day, as ``2026-11-29``; empty: not said.
        changed: what is other than before, as sentences.
    """

    id: str
    version: int
    note: str = ""
    from_builds: tuple[str, ...] = ()
    on: str = ""
    changed: tuple[str, ...] = ()
