"""A drawing without a word becomes the same work as its hand-made folder, by few confirmations.

Twenty parts in inches that call themselves millimetres, lines drawn twice and cut in pieces, two
lames that differ by 3 mm.
"""

from collections.abc import Callable, Iterable

import pytest
from app.bringing.maker import HOLE_PARTS, Maker, known
from samples.unnamed_drawing import hand_made, unnamed_svg

from armorplan.app.bringing.answering import begun
from armorplan.app.bringing.standing import standing
from armorplan.app.bringing.writing import bringing_texts
from armorplan.app.derived import Derived, derive_build
from armorplan.files.loose.reading import read_loose
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import from_texts
from armorplan.kernel.findings import has_errors
from armorplan.pattern.pattern import Pattern
from armorplan.relations.model import AfterAny, Before, BeforeAll, Relation
from armorplan.workshop.shop import one_maker

MOST = 40
Said = tuple[object, ...]


@pytest.fixture(scope="module")
def maker(unnamed, shelf):
    maker = Maker(begun(unnamed), shelf)
    maker.work()
    return maker


@pytest.fixture(scope="module")
def brought(maker, shelf):
    return _read(bringing_texts(maker.bringing, shelf), shelf)


@pytest.fixture(scope="module")
def by_hand(shelf):
    return _read(hand_made(), shelf)


def _read(texts, shelf) -> Pattern:
    found = read_pattern(from_texts("watch", texts), shelf)
    assert not has_errors(found.findings), [str(f) for f in found.findings]
    assert found.pattern is not None
    return found.pattern


def test_at_most_forty_confirmations(maker):
    assert maker.count <= MOST, maker.asked


@pytest.mark.long
@pytest.mark.parametrize("seed", range(6))
def test_however_it_is_cut_and_shuffled(seed, shelf, tmp_path, by_hand):
    file = tmp_path / "watch parts.svg"
    file.write_text(unnamed_svg(seed), encoding="utf-8")
    other = Maker(begun(read_loose(file)), shelf)
    other.work()
    assert other.count <= MOST, other.asked
    made = _read(bringing_texts(other.bringing, shelf), shelf)
    rename = _renaming(other, made, shelf)
    assert sorted(_joined(made, rename)) == sorted(_joined(by_hand, None))


def test_the_same_parts_joints_and_pieces(maker, brought, by_hand, shelf):
    rename = _renaming(maker, brought, shelf)
    assert {rename[part.id]: (part.kind, part.thickness_mm) for part in brought.parts} == {
        part.id: (part.kind, part.thickness_mm) for part in by_hand.parts
    }
    assert sorted(_joined(brought, rename)) == sorted(_joined(by_hand, None))
    assert _forms(brought, rename) == _forms(by_hand, {part.id: part.id for part in by_hand.parts})
    (closes,) = brought.strap_places
    (by_hand_closes,) = by_hand.strap_places
    assert closes.girth_mm == by_hand_closes.girth_mm
    assert [rename[hole] for hole in closes.holes] == list(by_hand_closes.holes)
    assert [t.angle_deg for t in brought.movements] == [t.angle_deg for t in by_hand.movements]
    assert sorted(p.mirrored for p in brought.pieces) == sorted(p.mirrored for p in by_hand.pieces)


def test_the_same_relations(maker, brought, by_hand, shelf):
    derive = {
        name: derive_build(pattern, shelf, one_maker("UTC"), build="watch-1")
        for name, pattern in (("brought", brought), ("hand", by_hand))
    }
    names = _subjects(maker, brought, by_hand, shelf)
    got = _relations(derive["brought"], lambda token: names.get(token, token))
    wanted = _relations(derive["hand"], lambda token: token)
    assert got == wanted, (_some(got - wanted), _some(wanted - got))


def _some(said: set[Said]) -> list[Said]:
    return sorted(said, key=str)[:8]


# --- renaming -------------------------------------------------------------------------------------


def _renaming(maker: Maker, brought: Pattern, shelf) -> dict[str, str]:
    """Return the hand-made ids of parts, holes and slots by those that were written."""
    stands = standing(maker.bringing, shelf)
    said = known(stands)
    found: dict[str, str] = {}
    for part, written in zip(stands.parts, brought.parts, strict=True):
        found[written.id] = said[part.id]
        for hole, other in zip(part.holes, written.holes, strict=True):
            assert abs(hole.diameter_mm - other.diameter_mm) < 0.01
            found[other.id] = said[hole.id]
    return found


def _joined(pattern: Pattern, rename: dict[str, str] | None) -> Iterable[tuple[str, ...]]:
    """Give each joint as its kind, motion, fastener and the parts of its stack, from outside in."""
    for joint in pattern.joints:
        parts = [pattern.hole(hole).part for hole in joint.stack]
        yield (
            joint.kind.value,
            joint.motion.value,
            joint.fastener,
            str(joint.placed_on_wearer),
            *(rename[part] if rename else part for part in parts),
        )


def _forms(pattern: Pattern, rename: dict[str, str]) -> set[tuple[object, ...]]:
    return {(f.kind, f.route, frozenset(rename[part] for part in f.parts)) for f in pattern.forms}


def _subjects(maker: Maker, brought: Pattern, by_hand: Pattern, shelf) -> dict[str, str]:
    """Return what the hand-made folder calls whatever a step is about, by what was written.

    A short row of two holes fits from either end: a strap drawn once more, turned over, is the same
    strap. Its joints are told apart by the hole in the part of more holes.
    """
    ids = _renaming(maker, brought, shelf)
    counts = {part.id: len(part.holes) for part in by_hand.parts}
    joints = {hole: joint.id for joint in by_hand.joints for hole in joint.stack}
    names = {part.id: ids[part.id] for part in brought.parts}
    for joint in brought.joints:
        telling = max((ids[hole] for hole in joint.stack), key=lambda h: counts[HOLE_PARTS[h]])
        names[joint.id] = joints[telling]
    seams = {frozenset(seam.joints): seam.id for seam in by_hand.seams}
    names |= {
        seam.id: seams[frozenset(names[joint] for joint in seam.joints)] for seam in brought.seams
    }
    forms = {(form.kind, frozenset(form.parts)): form.id for form in by_hand.forms}
    names |= {
        form.id: forms[form.kind, frozenset(names[part] for part in form.parts)]
        for form in brought.forms
    }
    uses = {treatment.use: treatment.id for treatment in by_hand.treatments}
    names |= {treatment.id: uses[treatment.use] for treatment in brought.treatments}
    names |= {t.id: by_hand.threads[0].id for t in brought.threads}
    names |= {p.id: by_hand.strap_places[0].id for p in brought.strap_places}
    of_piece = {part.id: part.piece for part in by_hand.parts}
    names |= {part.piece: of_piece[names[part.id]] for part in brought.parts}
    return names


def _relations(derived: Derived, name: Callable[[str], str]) -> set[Said]:
    return {_said(relation, name) for relation in derived.relations}


def _said(relation: Relation, name: Callable[[str], str]) -> Said:
    def step(step_id: str) -> str:
        _, piece, side, kind, subject = step_id.split("/")
        words = ".".join(name(token) for token in subject.split("."))
        return f"{name(piece)}/{side}/{kind}/{words}"

    reason = relation.reason
    told: Said = (type(relation).__name__, reason.rule, reason.force.value)
    match relation:
        case Before(first=first, then=then):
            return (*told, step(first), step(then))
        case BeforeAll(first=first, of=of):
            return (*told, step(first), frozenset(map(step, of)))
        case AfterAny(then=then, of=of):
            return (*told, step(then), frozenset(map(step, of)))
        case _:
            return (*told, frozenset(map(step, relation.of)))
