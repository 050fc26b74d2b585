"""A head that a cover will hide is set most easily before the cover is on at all."""

from collections.abc import Iterator

from armorplan.relations.model import BeforeAll, Force, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import COMMON_PRACTICE, SLOWER, Example, Ground, Rule
from armorplan.rules.trade import hidden_before_cover

_GROUND = Ground(code="open-before-cover", force=Force.EASIER)


def _derive(facts: Facts) -> Iterator[Relation]:
    for relation in hidden_before_cover.RULE.derive(facts):
        if isinstance(relation, BeforeAll) and len(relation.of) > 1:
            for laying in sorted(relation.of):
                yield _GROUND.before(
                    relation.first,
                    laying,
                    "While the cover still turns on one fastener it has to be held out of the way; "
                    "with no fastener in it, nothing is in the way.",
                    about=relation.reason.about,
                    price_min=SLOWER * facts.work.step(relation.first).minutes,
                )


RULE = Rule(
    code=_GROUND.code,
    name="Heads first, then their cover",
    why="A boss held by its first rivet can still be swung aside to reach a head beneath it. It "
    "is quicker, and safer for both, to set those heads before the boss is on at all.",
    mend="Swing the cover aside and keep it there with a strip of leather, so that the setter does"
    " not mark it.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="Both rivets of a boss follow the one that it hides",
            pattern=hidden_before_cover.RULE.examples[0].pattern,
            expects=frozenset({("rivet/seam", "rivet/boss_a"), ("rivet/seam", "rivet/boss_b")}),
        ),
        Example(
            title="Where nothing is hidden there is nothing to say",
            pattern=hidden_before_cover.RULE.examples[-1].pattern,
        ),
    ),
)
