"""Which joint first: one of a few that cannot wait until the others are set, or takes longer then."""

from collections.abc import Iterator, Sequence

from armorplan.app.derived import Derived
from armorplan.app.drills.first_choices import FirstCases
from armorplan.app.drills.first_truth import Decided, decided
from armorplan.app.drills.playing import frames
from armorplan.app.drills.reach_turns import joints_set, tools_for, turns
from armorplan.app.drills.reasons import because_all, cautions_of, hint_of, rules_of, title_of
from armorplan.app.drills.series import in_series
from armorplan.app.drills.source import DrillMaker, DrillSource
from armorplan.geometry.reach.model import Standing
from armorplan.geometry.reach.words import standing_words
from armorplan.geometry.told import listed
from armorplan.kernel.errors import ArmorplanError
from armorplan.practice.drill import (
    AnswerForm,
    Asked,
    Choice,
    Drill,
    Frame,
    Judged,
    Met,
    Solved,
)
from armorplan.practice.levels import chance_of
from armorplan.relations.model import BeforeAll
from armorplan.rules.reaching import BY_REACH
from armorplan.steps.naming import names, piece_name

_CANNOT = "One of these joints cannot wait until all the others are set. Which one is it, and why?"
_LONGER = "One of these joints takes longer once all the others are set. Which one is it, and why?"
_COVERS = "hidden-before-cover"
_NAMED = 6
"""So many joints that are set already are named, the last of them first; the rest are counted."""
_OWN_HINT = (
    "The maker of this pattern wrote down what has to come first here: think of what lies behind "
    "what once all are set, and from which side each is closed."
)


class FirstMaker:
    """Makes, judges and solves exercises of this kind."""

    def make(self, source: DrillSource, asked: Asked) -> Drill | None:
        """Return the exercise; ``None`` where no joint of this build has to be set before others."""
        derived, chance = source.derived, chance_of(asked)
        case = FirstCases(derived, asked, chance).first()
        if case is None:
            return None
        shown = chance.sample(case.steps, len(case.steps))
        step = derived.work.step(case.found.step)
        parts = (part for each in shown for part in derived.work.step(each).parts)
        return Drill(
            asked=asked,
            title=piece_name(derived.assembly, step.piece, step.side),
            question=_question(case.found),
            choices=tuple(_choice(derived, each) for each in shown),
            form=AnswerForm.ONE,
            given=(
                *_done_words(derived, case.done, shown),
                *_tool_words(derived, shown, case.found),
            ),
            done=case.done,
            parts=tuple(dict.fromkeys(parts)),
            rules=rules_of(case.found.chain),
            cautions=cautions_of(derived, sorted(shown)),
            hint=_hint(case.found),
        )

    def judge(self, source: DrillSource, drill: Drill, answer: Sequence[str]) -> Judged:
        """Return what an answer is worth.

        Raises:
            ArmorplanError: it is no answer to this exercise: what, and what one looks like.
        """
        found = _decided(source, drill)
        chosen, right = _chosen(drill, answer), _by_step(drill, found.step)
        is_right = chosen.id == right.id
        return Judged(
            right=is_right,
            sentence=_sentence(source.derived, drill, chosen, found),
            because=because_all(source.derived, found.chain),
            nearest=(right.id,),
            moved=() if is_right else (right.id,),
            distance=0 if is_right else 1,
            credit=1.0 if is_right else 0.0,
            met=tuple(Met(rule=rule, kept=is_right) for rule in rules_of(found.chain)),
            play=() if is_right else _play(source, drill, chosen, found),
        )

    def solve(self, source: DrillSource, drill: Drill) -> Solved:
        """Return the answer: just one joint is right."""
        found = _decided(source, drill)
        return Solved(
            answer=(_by_step(drill, found.step).id,),
            because=because_all(source.derived, found.chain),
        )


MAKER: DrillMaker = FirstMaker()


def _question(found: Decided) -> str:
    return _CANNOT if found.binds else _LONGER


def _hint(found: Decided) -> str:
    """Return the reason without the answer; the maker's own words would name it."""
    return _OWN_HINT if found.chain[0].reason.own_id else hint_of(found.chain[0])


def _choice(derived: Derived, step: str) -> Choice:
    joint = derived.assembly.joint(joints_set(derived, (step,))[0])
    fastener = derived.shelf.fastener(joint.joint.fastener)
    first = ", the outermost first" if len(set(joint.parts)) > 1 else ""
    through = f"through {names(derived.assembly, joint.parts)}{first}"
    return Choice(
        id=joint.id,
        title=title_of(derived, step),
        detail=through if fastener is None else f"{fastener.name}, {through}",
        steps=(step,),
        parts=joint.parts,
        joints=(joint.id,),
    )


def _done_words(derived: Derived, done: Sequence[str], steps: Sequence[str]) -> Iterator[str]:
    """Yield how far the work is, and what is set on the parts that are asked about."""
    if not done:
        yield "Nothing is done yet."
        return
    count = "1 step is" if len(done) == 1 else f"{len(done)} steps are"
    yield f"{count} done, the last of them '{title_of(derived, done[-1])}'."
    parts = {part for step in steps for part in derived.work.step(step).parts}
    setting = [step for step in reversed(done) if joints_set(derived, (step,))]
    here = [step for step in setting if not parts.isdisjoint(derived.work.step(step).parts)]
    if here:
        titles = [f"'{title}'" for title in in_series(title_of(derived, step) for step in here)]
        yield f"On these parts is set already: {listed(titles, named=_NAMED)}."
    else:
        yield "On these parts no joint is set yet."


def _tool_words(derived: Derived, steps: Sequence[str], found: Decided) -> tuple[str, ...]:
    """Say of the tools at hand how far they get in, where that decides it."""
    if BY_REACH.isdisjoint(rules_of(found.chain)):
        return ()
    return tuple(
        f"{tool.name}: gets {tool.reach_mm:.0f} mm in, through an opening of {tool.opening_mm:.0f} mm "
        "or more."
        for tool in tools_for(derived, steps)
        if tool.reach_mm is not None
    )


def _decided(source: DrillSource, drill: Drill) -> Decided:
    steps = tuple(choice.steps[0] for choice in drill.choices)
    found = decided(source.derived, steps, drill.done)
    if found is None or _question(found) != drill.question:
        message = (
            "This exercise no longer fits the build: none of its joints, or more than one, has to "
            "be set before the others. Ask for a new one."
        )
        raise ArmorplanError(message)
    return found


def _by_step(drill: Drill, step: str) -> Choice:
    return next(choice for choice in drill.choices if choice.steps == (step,))


def _chosen(drill: Drill, answer: Sequence[str]) -> Choice:
    known = {choice.id: choice for choice in drill.choices}
    if len(answer) != 1 or answer[0] not in known:
        raise ArmorplanError("Answer with one of the joints: one letter, such as A.")
    return known[answer[0]]


def _sentence(derived: Derived, drill: Drill, chosen: Choice, found: Decided) -> str:
    right = _by_step(drill, found.step)
    if chosen.id == right.id:
        behind = "it could not be set any more" if found.binds else "it takes longer"
        return f"Right: once all the others are set, {behind}.{_swings(drill, found)}"
    elsewhere = _elsewhere(derived, drill, chosen)
    if found.binds:
        waits = f"'{chosen.title}' can wait: it can still be set once the others are."
        return f"{waits}{elsewhere} '{right.title}' cannot.{_swings(drill, found)}"
    same = f"'{chosen.title}' can wait: it takes no longer once the others are set."
    return f"{same}{elsewhere} '{right.title}' does."


def _swings(drill: Drill, found: Decided) -> str:
    """Say of a cover that hangs on one fastener by now that it is not shut yet; else empty."""
    relation = found.chain[0]
    hangs = isinstance(relation, BeforeAll) and len(relation.of.intersection(drill.done)) == 1
    if relation.reason.rule != _COVERS or not hangs:
        return ""
    return " What covers it hangs on one fastener so far, and still swings aside."


def _elsewhere(derived: Derived, drill: Drill, chosen: Choice) -> str:
    """Say what a joint does come before, where that is done neither here nor by now; else empty."""
    index, (step,) = derived.index, chosen.steps
    here = {one.steps[0] for one in drill.choices}.union(drill.done)
    for at in index.by_first[index.number[step]]:
        then = [index.steps[member] for member in index.members[at]]
        if index.binds[at] and here.isdisjoint(then) and joints_set(derived, then):
            return f" It comes before '{title_of(derived, then[0])}', and that is not asked about."
    return ""


def _play(source: DrillSource, drill: Drill, chosen: Choice, found: Decided) -> tuple[Frame, ...]:
    """Return what comes of setting the chosen joint first and the right one behind all others."""
    place = source.derived.place
    others = [choice.steps[0] for choice in drill.choices if choice.steps[0] != found.step]
    others.sort(key=lambda step: (step != chosen.steps[0], place[step]))
    played = frames(source, (*others, found.step), done=drill.done)
    if found.binds:
        return played if played[-1].amiss else ()
    return (*played[:-1], _longer(source.derived, played[-2].done, drill, found))


def _longer(derived: Derived, made: tuple[str, ...], drill: Drill, found: Decided) -> Frame:
    """Return the last picture where a joint only takes longer."""
    title = title_of(derived, found.step)
    others = [choice.steps[0] for choice in drill.choices if choice.steps[0] != found.step]
    after = max(
        (t.after for t in turns(derived, found.step, drill.done, others)),
        default=None,
        key=lambda m: m.effort,
    )
    by_reach = not BY_REACH.isdisjoint(rules_of(found.chain))
    if after is None or not by_reach or after.standing is Standing.FLAT:
        said = f"Now '{title}' is left. {found.chain[0].reason.text}"
    else:
        said = f"Now '{title}' is left: {standing_words(derived.shelf, after)}."
    return Frame(done=made, at=found.step, said=said)
