"""Which fastener: of a few with their posts, which hold the stack of a joint, and let it move or not."""

from collections.abc import Iterator, Sequence

from armorplan.app.derived import Derived
from armorplan.app.drills.fastener_choices import (
    FastenerCase,
    fastener_case,
    fitting_of,
    rules_in,
)
from armorplan.app.drills.fastener_faults import Fitting, Offer
from armorplan.app.drills.fastener_sums import layers_of, mm_words, over_words, reckoned
from armorplan.app.drills.reasons import cautions_of
from armorplan.app.drills.source import DrillMaker, DrillSource
from armorplan.assembly.model import SidedJoint
from armorplan.geometry.holes.sizes import HOLE_OFF_MM, TURNING_MM
from armorplan.geometry.told import begun, listed
from armorplan.kernel.errors import ArmorplanError
from armorplan.pattern.joining import Joint, Motion
from armorplan.practice.drill import (
    AnswerForm,
    Asked,
    Because,
    Choice,
    Drill,
    Judged,
    Met,
    Solved,
)
from armorplan.practice.levels import chance_of
from armorplan.practice.reason_names import POST_LENGTH
from armorplan.steps.naming import lowered, piece_name

_MOVES = {
    Motion.FIXED: "Its layers are held fast and do not move on it.",
    Motion.TURNING: "Its layers turn on it.",
    Motion.SLIDING: "Its layers turn on it and slide along a slot.",
}


class FastenerMaker:
    """Makes, judges and solves exercises of this kind."""

    def make(self, source: DrillSource, asked: Asked) -> Drill | None:
        """Return the exercise; ``None`` where no joint has both posts that hold and some that do not."""
        derived = source.derived
        case = fastener_case(derived, asked, chance_of(asked))
        if case is None:
            return None
        joint = case.joint
        step = derived.work.setting(joint.id)
        assert step is not None  # noqa: S101 - only joints that a step sets are asked about
        several = len(case.right) > 1
        which = "Which of these hold" if several else "Which of these holds"
        return Drill(
            asked=asked,
            title=piece_name(derived.assembly, joint.piece, joint.side),
            question=f"{which} '{step.title}'?",
            choices=tuple(_choice(case, one) for one in case.offers),
            form=AnswerForm.SOME if several else AnswerForm.ONE,
            given=(*_given(derived, joint), *_posts(fitting_of(derived, joint), case.offers)),
            done=derived.order[: derived.place[step.id]],
            parts=joint.parts,
            rules=tuple(sorted({POST_LENGTH, *rules_in(derived, case)})),
            cautions=cautions_of(derived, (step.id,)),
            hint=_hint(fitting_of(derived, joint)),
        )

    def judge(self, source: DrillSource, drill: Drill, answer: Sequence[str]) -> Judged:
        """Return what an answer is worth.

        Raises:
            ArmorplanError: it is no answer to this exercise: what, and what one looks like.
        """
        asking = _Asking(source.derived, drill)
        chosen = asking.chosen(answer)
        wrong = [one for one in chosen if one not in asking.right]
        missing = [one for one in asking.right if one not in chosen]
        is_right = not (wrong or missing)
        distance = len(wrong) + len(missing) if drill.form is AnswerForm.SOME else len(wrong)
        most = len(drill.choices) if drill.form is AnswerForm.SOME else 1
        return Judged(
            right=is_right,
            sentence=asking.sentence(wrong, missing),
            because=tuple(asking.because(wrong, chosen)),
            nearest=tuple(asking.right),
            moved=tuple(dict.fromkeys((*wrong, *missing))),
            distance=distance,
            credit=1 - distance / most,
            met=asking.met(wrong, missing),
        )

    def solve(self, source: DrillSource, drill: Drill) -> Solved:
        """Return all that is right, and why."""
        asking = _Asking(source.derived, drill)
        return Solved(
            answer=tuple(asking.right),
            because=tuple(asking.holds(one) for one in asking.right),
        )


MAKER: DrillMaker = FastenerMaker()


class _Asking:
    """An exercise with what each of its offers is worth, reckoned anew."""

    def __init__(self, derived: Derived, drill: Drill) -> None:
        self._drill = drill
        self._joint = derived.assembly.joint(drill.choices[0].joints[0])
        self._fitting = fitting_of(derived, self._joint)
        self._offers = {one.id: _offer(derived, one.id) for one in drill.choices}
        self._faults = {name: self._fitting.faults(offer) for name, offer in self._offers.items()}
        self.right = [name for name, faults in self._faults.items() if not faults]

    def chosen(self, answer: Sequence[str]) -> tuple[str, ...]:
        """Return an answer, each choice once, as they are shown; ArmorplanError where it is none."""
        unknown = [one for one in answer if one not in self._offers]
        one_only = self._drill.form is AnswerForm.ONE
        if unknown or not answer or (one_only and len(set(answer)) > 1):
            what = "one of them: one letter, such as A" if one_only else "all that hold: A C"
            raise ArmorplanError(f"Answer with {what}.")
        return tuple(one for one in self._offers if one in answer)

    def holds(self, name: str) -> Because:
        """Return why an offer holds."""
        return reckoned(
            self._fitting.pattern, self._joint.joint, self._fitting.post(self._offers[name])
        )

    def because(self, wrong: Sequence[str], chosen: Sequence[str]) -> Iterator[Because]:
        """Yield what is wrong with what was chosen, then why the right ones hold."""
        for one in wrong:
            yield from self._faults[one]
        held = [one for one in self.right if one in chosen and not wrong] or self.right
        yield from (self.holds(one) for one in held)

    def sentence(self, wrong: Sequence[str], missing: Sequence[str]) -> str:
        """Say what an answer is worth."""
        right = listed([f"'{self._drill.choice(one).title}'" for one in self.right])
        hold = "holds" if len(self.right) == 1 else "hold"
        if wrong:
            chosen = listed([f"'{self._drill.choice(one).title}'" for one in wrong])
            return f"{chosen} will not do here: {right} {hold}."
        if missing:
            more = listed([f"'{self._drill.choice(one).title}'" for one in missing])
            return f"What you chose holds, and {more} as well."
        return f"Right: {right} {hold}."

    def met(self, wrong: Sequence[str], missing: Sequence[str]) -> tuple[Met, ...]:
        """Return the reasons an answer met: all of them where it is right, else those it missed."""
        if not wrong and not missing:
            return tuple(Met(rule=rule, kept=True) for rule in self._drill.rules)
        missed = {why.rule for one in wrong for why in self._faults[one]}
        missed |= {POST_LENGTH} if missing else set()
        return tuple(Met(rule=rule, kept=False) for rule in sorted(missed))


def _offer(derived: Derived, name: str) -> Offer:
    used, _, length = name.rpartition(":")
    fastener = derived.shelf.fastener(used)
    if fastener is None:
        message = f"The shelf has no fastener '{used}' any more. Ask for a new exercise."
        raise ArmorplanError(message)
    return Offer(fastener=fastener, length_mm=float(length))


def _choice(case: FastenerCase, offer: Offer) -> Choice:
    fastener = offer.fastener
    return Choice(
        id=offer.id,
        title=f"{fastener.name}, post of {offer.length_mm:g} mm",
        detail=f"head {fastener.head_mm:g} mm, for holes of {fastener.hole_mm:g} mm",
        parts=case.joint.parts,
        joints=(case.joint.id,),
    )


def _given(derived: Derived, joint: SidedJoint) -> Iterator[str]:
    pattern, plain = derived.pattern, joint.joint
    layers = [f"{name} {mm_words(mm)} mm" for name, mm in layers_of(pattern, plain)]
    yield f"It goes through {listed(layers, named=len(layers))}, the outermost named first."
    if plain.washer_mm:
        yield f"With it come {mm_words(plain.washer_mm)} mm of washers."
    soft = f"Leather gives {derived.shelf.constants.pinch.value:g} % under a fastener"
    yield f"{soft}{'; washers do not give' if plain.washer_mm else ''}."
    yield _MOVES[plain.motion]
    if not plain.kind.is_permanent:
        yield "It has to come undone again."
    wide = sorted({pattern.hole(hole).diameter_mm for hole in plain.stack})
    yield f"Its holes are {listed([mm_words(each) for each in wide])} mm wide."
    yield _room(plain)
    for hung in pattern.suspensions:
        if hung.part in pattern.stack_parts(plain.id):
            piece = next((p.name for p in pattern.pieces if p.id == hung.piece), hung.piece)
            yield f"{begun(pattern.part(hung.part).name)} carries the weight of {piece}."


def _room(joint: Joint) -> str:
    """Return how far a hole may be from the one that a fastener is made for."""
    words = (
        "A hole holds that is no more than "
        f"{mm_words(HOLE_OFF_MM)} mm wider or tighter than the fastener's own"
    )
    moves = joint.motion is not Motion.FIXED and not joint.washer_mm
    more = f"; of one not made to turn, than its own and {mm_words(TURNING_MM)} mm of play"
    return f"{words}{more if moves else ''}."


def _posts(fitting: Fitting, offers: Sequence[Offer]) -> Iterator[str]:
    """Yield how far beyond the layers the posts of the fasteners offered go, by the catalogue."""
    told = {one.fastener.id: one for one in sorted(offers, key=lambda one: one.id)}
    for one in told.values():
        over = over_words(fitting.post(one)).replace(" it", " the layers drawn together", 1)
        yield f"Catalogue: the post of a {lowered(one.fastener.name)} {over}."


def _hint(fitting: Fitting) -> str:
    thick = " + ".join(mm_words(mm) for _, mm in layers_of(fitting.pattern, fitting.joint))
    washers = " Washers stay as thick." if fitting.joint.washer_mm else ""
    return (
        f"Add up the leather, {thick} mm, take off what it gives, then add how far the post has to go "
        f"beyond.{washers} Look as well at holes, at what moves, and at what has to come undone."
    )
