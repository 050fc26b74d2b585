"""Which exercise is asked for on the command line, by names and ids of the build."""

from argparse import Namespace
from collections.abc import Iterable
from dataclasses import replace

from armorplan.app.derived import Derived
from armorplan.app.drills.naming import KIND_WORDS, NO_ORDER
from armorplan.app.drills.numbering import number_of, numbered
from armorplan.app.drills.registry import KINDS
from armorplan.app.drills.setting import drill_for
from armorplan.app.drills.source import DrillSource
from armorplan.app.mending import WAY_BACK
from armorplan.cli.reading import tell
from armorplan.kernel.errors import ArmorplanError
from armorplan.practice.drill import Asked, Drill, DrillKind, Level
from armorplan.rules.registry import all_rules

FIRST_SEED = 1
_OFFERED = 12
_WHY_NONE = {
    DrillKind.ORDER: "its steps may be done in any order, or in one alone that is plain to see",
    DrillKind.NEXT: "whenever one stops in it, all that is left may come next, or one step alone",
    DrillKind.MISTAKE: "no step can stand too early in it so that one alone is wrong",
    DrillKind.FIRST: "none of its joints has to be set before another, or is harder to reach later",
    DrillKind.FASTENER: "no fastener is set in it of which the shelf holds another length or kind",
    DrillKind.DRY: "nothing in it dries by a law of the air",
    DrillKind.DAY: "it has no waits that a day could be planned around",
    DrillKind.WAY_BACK: "nothing can go wrong in it that has a cheap and a dear way back",
}


def asked_plainly(derived: Derived, chosen: Namespace) -> Asked:
    """Return what is asked for; of the first kind where none is named.

    Raises:
        ArmorplanError: there is no such number, piece, part, row or rule.
    """
    like = Asked(
        kind=chosen.kind or KINDS[0],
        seed=FIRST_SEED,
        level=chosen.level or Level.ROW,
        piece=piece_named(derived, chosen.piece),
        part=_part(derived, chosen.part),
    )
    asked = like if chosen.seed is None else numbered(derived, chosen.seed, like)
    return replace(asked, focus=_focus(derived, chosen.focus) or asked.focus)


def piece_named(derived: Derived, given: str | None) -> str:
    """Return the id of a piece; empty where none is named.

    Raises:
        ArmorplanError: there is no such piece.
    """
    if given is None:
        return ""
    pieces = {piece.id: piece.name for piece in derived.pattern.pieces}
    return _named(given, pieces.items(), "piece")


def _part(derived: Derived, given: str | None) -> str:
    if given is None:
        return ""
    assembly = derived.assembly
    known = [(part.id, part.part.name) for part in assembly.parts]
    known += [(part.part.id, part.part.name) for part in assembly.parts]
    known += [(seam.id, seam.seam.name) for seam in assembly.seams]
    known += [(seam.seam.id, seam.seam.name) for seam in assembly.seams]
    return _named(given, known, "part or row")


def _named(given: str, known: Iterable[tuple[str, str]], what: str) -> str:
    wanted, every = given.strip(), tuple(known)
    ids = [one for one, _ in every]
    if wanted in ids:
        return wanted
    # Of a part made on both sides the plain id stands for both; ids stand behind sided ones.
    called = [one for one, name in every if name.casefold() == wanted.casefold()]
    if called:
        return called[-1]
    offered = list(dict.fromkeys(ids))
    more = len(offered) - _OFFERED
    listed = ", ".join(offered[:_OFFERED]) + (f", and {more} more" if more > 0 else "")
    raise ArmorplanError(f"No {what} of this build is called '{given}'. There are: {listed}.")


def _focus(derived: Derived, given: str | None) -> str:
    if given is None:
        return ""
    wanted, here = given.strip(), _rules_here(derived)
    rules = {rule.code: rule.name.casefold() for rule in all_rules()}
    code = next((one for one, name in rules.items() if name == wanted.casefold()), wanted)
    if code not in rules and code not in here:
        raise ArmorplanError(f"There is no rule '{given}'. 'armorplan rules' lists them.")
    if code not in here:
        tell(f"Nothing in this build follows from the rule '{code}': any reason is asked.")
    return code


def _rules_here(derived: Derived) -> set[str]:
    return {relation.reason.rule for relation in derived.relations} | {WAY_BACK}


def as_numbered(derived: Derived, asked: Asked) -> Asked:
    """Return what is asked for, with its number for a seed: its rule is not told before the answer."""
    return replace(asked, seed=number_of(derived, asked), focus="")


def exercise_of(source: DrillSource, asked: Asked, *, kind_is_asked: bool) -> Drill:
    """Return the exercise: of the kind asked for, else of one that the seed chooses.

    Raises:
        ArmorplanError: the build holds none like this; it says which others there are.
    """
    kinds = (asked.kind,) if kind_is_asked else _turned(asked.seed)
    drills = (drill_for(source, replace(asked, kind=kind)) for kind in kinds)
    found = next((drill for drill in drills if drill is not None), None)
    if found is None:
        raise none_like(source, asked, kind_is_asked=kind_is_asked)
    return found


def _turned(seed: int) -> tuple[DrillKind, ...]:
    at = seed % len(KINDS)
    return (*KINDS[at:], *KINDS[:at])


def none_like(source: DrillSource, asked: Asked, *, kind_is_asked: bool) -> ArmorplanError:
    """Return what to say where a build holds no such exercise: why, and what else can be asked."""
    name = source.derived.pattern.name
    about = asked.part or asked.piece
    where = f" about '{about}'" if about else ""
    if not source.derived.order:
        return ArmorplanError(NO_ORDER.format(name))
    others = [
        kind
        for kind in KINDS
        if kind is not asked.kind and drill_for(source, replace(asked, kind=kind)) is not None
    ]
    if not kind_is_asked:
        said = f"{name} holds no exercise{where}: whatever was answered would be right."
    else:
        what = f"'{KIND_WORDS[asked.kind]}'"
        said = f"{name} holds no exercise {what}{where}: {_WHY_NONE[asked.kind]}."
    if kind_is_asked and others:
        listed = ", ".join(kind.value for kind in others)
        return ArmorplanError(f"{said} Ask another kind with --kind: {listed}.")
    wider = "the whole build instead of a part" if about else "another level"
    return ArmorplanError(f"{said} Ask for {wider}.")
