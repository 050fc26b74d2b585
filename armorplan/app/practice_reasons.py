"""Which reasons exercises of a build can need: those that bind, and those exercises were seen to."""

from collections import Counter
from collections.abc import Iterator, Sequence
from functools import cached_property
from statistics import median_low

from armorplan.app.derived import Derived
from armorplan.app.drills.reasons import rule_words
from armorplan.practice.coming import Askable
from armorplan.practice.drill import Asked, Drill, DrillKind, Level
from armorplan.practice.progress import NamedReason, PieceReasons
from armorplan.practice.reason_names import REASON_NAMES
from armorplan.practice.results import reason_key
from armorplan.relations.index import named_steps
from armorplan.relations.model import OWN
from armorplan.rules.registry import rule_named

_Where = frozenset[tuple[str, str]]
"""Pieces and kinds of the steps that a relation is between."""
_NOWHERE = ("", "")


class BuildReasons:
    """The reasons of one build; asked in any thread, one at a time for each person.

    What no exercise of a kind was seen to need is not tried again.
    """

    def __init__(self, derived: Derived) -> None:
        self.derived = derived
        self._needed: dict[DrillKind, set[str]] = {}
        self._never: set[tuple[DrillKind, str, str, Level]] = set()

    @cached_property
    def _binding(self) -> Counter[tuple[str, _Where]]:
        """How often each rule binds between steps of which pieces and kinds."""
        places = {step.id: (step.piece, step.kind.value) for step in self.derived.work.steps}
        found: Counter[tuple[str, _Where]] = Counter()
        for relation in self.derived.relations:
            if relation.reason.binds:
                where = frozenset(places.get(step, _NOWHERE) for step in named_steps(relation))
                if _NOWHERE not in where:
                    found[relation.reason.rule, where] += 1
        return found

    @cached_property
    def _by_piece(self) -> dict[str, Counter[str]]:
        """How often each rule binds in each piece; under the empty name, in the whole build."""
        found: dict[str, Counter[str]] = {"": Counter()}
        for (rule, where), times in self._binding.items():
            for piece in ("", *sorted({piece for piece, _ in where})):
                found.setdefault(piece, Counter())[rule] += times
        return found

    def askable(self, kinds: Sequence[DrillKind], piece: str) -> tuple[Askable, ...]:
        """Return what these kinds of exercise may need, in a piece or (empty) anywhere."""
        counts = self._by_piece.get(piece, Counter())
        seen = {rule for kind in kinds for rule in self._needed.get(kind, ())}
        # Of a fastener's length, say, no relation tells: it counts as the middle of the others.
        middle = median_low(counts.values()) if counts else 0
        pattern = self.derived.pattern.uuid
        return tuple(
            Askable(
                key=reason_key(rule, pattern),
                rule=rule,
                binds=counts.get(rule, middle),
                kinds=tuple(kinds),
            )
            for rule in sorted(seen | set(counts))
        )

    def is_known(self, kind: DrillKind) -> bool:
        """Tell whether an exercise of a kind was looked at."""
        return kind in self._needed

    def needed(self, kind: DrillKind) -> frozenset[str]:
        """Return the rules whose reasons exercises of a kind were seen to need."""
        return frozenset(self._needed.get(kind, ()))

    def look_at(self, kind: DrillKind, drill: Drill | None) -> None:
        """Take in which reasons an exercise of a kind needs."""
        self._needed.setdefault(kind, set()).update(drill.rules if drill else ())

    def never(self, asked: Asked) -> None:
        """Take in that no exercise like this was found that needs the reason asked for."""
        self._never.add(_like(asked))

    def is_never(self, asked: Asked) -> bool:
        """Tell whether that was taken in before."""
        return _like(asked) in self._never

    def pieces(self) -> tuple[PieceReasons, ...]:
        """Return the pieces with the reasons that bind in each, in the pattern's order."""
        return tuple(
            PieceReasons(piece=piece.id, name=piece.name, reasons=tuple(self._named(piece.id)))
            for piece in self.derived.pattern.pieces
        )

    def _named(self, piece: str) -> Iterator[NamedReason]:
        for rule in sorted(self._by_piece.get(piece, ())):
            key = reason_key(rule, self.derived.pattern.uuid)
            yield NamedReason(key=key, rule=rule, name=reason_name(rule))

    def of_kind(self, kind: str) -> frozenset[str]:
        """Return what reasons about a kind of step are remembered by."""
        return self._by_kind.get(kind, frozenset())

    @cached_property
    def _by_kind(self) -> dict[str, frozenset[str]]:
        found: dict[str, set[str]] = {}
        for rule, where in self._binding:
            for _, kind in where:
                found.setdefault(kind, set()).add(reason_key(rule, self.derived.pattern.uuid))
        return {kind: frozenset(keys) for kind, keys in found.items()}


def _like(asked: Asked) -> tuple[DrillKind, str, str, Level]:
    return asked.kind, asked.focus, asked.piece, asked.level


def reason_name(rule: str) -> str:
    """Return a rule's name for people; a maker's own relation is told apart by the words of its id."""
    if rule.startswith(OWN):
        return f"{rule_words(rule)}: {rule.removeprefix(OWN).replace('_', ' ')}"
    known = rule_named(rule)
    if known is not None:
        return known.name
    return REASON_NAMES.get(rule) or rule.replace("-", " ").capitalize()
