"""Practice at the bench: what is missed comes back, results are kept, other windows hear of it."""

import threading
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from datetime import timedelta
from itertools import pairwise

import pytest
from orders.recovery.build_scenes import derived_sample

from armorplan.app.drills.setting import drill_for
from armorplan.app.drills.source import DrillSource
from armorplan.app.entries import NOT_RECORDED
from armorplan.app.practice_desk import PracticeDesk
from armorplan.app.practice_record import NO_FILE
from armorplan.kernel.errors import WorkshopError
from armorplan.practice.drill import Asked, Because, DrillKind, Judged, Level, Met
from armorplan.practice.grades import Grade, ReasonState

DRY = "dry-before-handling"
ORDER = Asked(kind=DrillKind.ORDER, seed=5, level=Level.STRAP)


@pytest.fixture
def practice(bench):
    return bench.session.practice


def judged(drill, *, right):
    """What an answer that keeps or breaks every reason of an exercise is worth."""
    because = tuple(Because(rule=rule, name=f"Name of {rule}", text="So.") for rule in drill.rules)
    met = tuple(Met(rule=rule, kept=right) for rule in drill.rules)
    return Judged(right=right, sentence="", because=because, met=met)


def answer(practice, drill, *, right, grade=None, person="maker"):
    worth = judged(drill, right=right)
    known = grade or (Grade.KNEW if right else Grade.MISSED)
    return practice.keep(person, drill, ("x",), worth, known, 30.0)


def test_it_knows_who_works_here_and_what_there_is(practice):
    assert [(one.id, one.name) for one in practice.people()] == [("maker", "Maker")]
    assert practice.pieces() == (("elbow_cop", "Elbow cop"),)
    assert set(practice.kinds()) == set(DrillKind)
    assert practice.why_not_kept == ""


def test_the_same_is_set_again_by_what_was_asked(practice):
    assert practice.setting(ORDER)() == practice.setting(ORDER)()
    assert practice.setting(ORDER)().asked == ORDER


def test_what_memory_chose_is_set_again_by_its_number(practice):
    first = practice.coming("maker", kind=DrillKind.NEXT)()
    answer(practice, first, right=False)
    drill = practice.coming("maker")()
    assert drill.asked.focus
    number = practice.number_of(drill.asked)
    like = Asked(kind=drill.asked.kind, seed=1, level=drill.asked.level)
    assert practice.setting(practice.numbered(number, like))() == drill


def plain(name):
    """The id of a step without the build it is of."""
    return name.partition("/")[2] or name


@pytest.mark.parametrize("kind", DrillKind, ids=lambda kind: kind.value)
def test_a_window_sets_by_a_number_what_the_command_line_sets_by_it(practice, kind):
    """The build at the bench is another one than that of the pattern alone, its steps named anew."""
    asked = Asked(kind=kind, seed=3, level=Level.ROW)
    here = practice.setting(asked)()
    there = drill_for(DrillSource(derived=derived_sample("elbow_cop")), asked)
    assert (here.question, here.given, here.hint) == (there.question, there.given, there.hint)
    for one, other in ((here.shown, there.shown), (here.done, there.done)):
        assert [*map(plain, one)] == [*map(plain, other)]
    shown = [[(one.title, one.detail) for one in each.choices] for each in (here, there)]
    assert shown[0] == shown[1]


def test_an_exercise_is_played_to_the_end_and_kept(bench, practice):
    drill = practice.coming("maker", kind=DrillKind.ORDER)()
    solved = practice.solving(drill)()
    worth = practice.judging(drill, solved.answer)()
    assert worth.right
    asked = practice.why(drill, worth)()
    assert asked.right in {choice.id for choice in asked.choices}
    assert practice.diagram(drill.done).parts
    said = practice.keep("maker", drill, solved.answer, worth, Grade.COULD_TEACH, 41.5)
    assert said == "Kept for Maker: could teach it."
    (kept,) = bench.workshop.drills.since("maker", 0)
    assert (kept.asked, kept.answer, kept.right) == (drill.asked, solved.answer, True)
    assert kept.piece == "elbow_cop"
    assert kept.pattern == bench.session.derived.pattern.uuid
    assert {reason.rule for reason in kept.reasons} >= set(drill.rules)
    assert sum(reason.decided for reason in kept.reasons) == 1
    progress = practice.progress("maker")
    assert progress.drills == 1
    assert progress.count(ReasonState.SHAKY) == len(kept.reasons)


def test_what_was_missed_is_asked_next_in_another_way(bench, practice):
    first = practice.coming("maker")()
    focus = first.asked.focus
    assert focus in first.rules
    answer(practice, replace(first, rules=(focus,)), right=False)
    bench.clock.advance(120)
    again = practice.coming("maker")()
    assert again.asked.focus == focus
    assert focus in again.rules
    assert again.asked.kind is not first.asked.kind
    assert again.asked.level is Level.STRAP


def test_no_exercise_is_set_twice_running_answered_or_not(practice):
    seen = []
    for turn in range(6):
        drill = practice.coming("maker", kind=DrillKind.MISTAKE)()
        if turn % 2:
            answer(practice, drill, right=True)
        seen.append(drill)
    for one, other in pairwise(seen):
        assert one.asked.seed < other.asked.seed
        assert replace(one, asked=other.asked) != other


def test_what_is_wished_for_is_set(practice):
    for kind in (DrillKind.NEXT, DrillKind.FASTENER):
        drill = practice.coming("", kind=kind, level=Level.ROW, piece="elbow_cop")()
        assert (drill.asked.kind, drill.asked.piece) == (kind, "elbow_cop")
    assert practice.coming("", piece="no_such_piece")() is None


def test_results_of_another_window_count_here(bench, practice):
    other = bench.reopened()
    heard = []
    bench.session.subscribe(lambda: heard.append("changed"))
    bench.session.read_along()
    drill = practice.setting(ORDER)()
    answer(other.practice, drill, right=False)
    assert bench.session.read_along()
    assert heard == ["changed"]
    assert practice.progress("maker").drills == 1
    assert not bench.session.read_along()


def test_what_was_answered_is_read_where_the_exercise_is_made(bench, practice, monkeypatch):
    """Never in the window's thread: thousands of results take a while."""
    drill = practice.setting(ORDER)()
    answer(practice, drill, right=False)
    read_in = []
    read = bench.workshop.drills.since

    def since(person, seq):
        read_in.append(threading.get_ident())
        return read(person, seq)

    monkeypatch.setattr(bench.workshop.drills, "since", since)
    make = practice.coming("maker")
    assert read_in == []
    with ThreadPoolExecutor(1) as pool:
        assert pool.submit(make).result().asked.focus in drill.rules
        assert pool.submit(practice.progress, "maker").result().drills == 1
    assert read_in
    assert threading.get_ident() not in read_in


def test_a_result_changes_no_plan(bench, practice):
    mark = bench.session.problem_mark()
    answer(practice, practice.setting(ORDER)(), right=True)
    bench.session.read_along()
    assert bench.session.problem_mark() is mark


def test_whoever_has_results_is_among_the_people(practice):
    drill = practice.setting(ORDER)()
    answer(practice, drill, right=True, person="guest")
    assert [one.id for one in practice.people()] == ["maker", "guest"]
    assert practice.progress("guest").name == "guest"


def test_skills_tell_what_was_practised_of_their_kind(practice):
    drill = replace(practice.setting(ORDER)(), rules=(DRY,))
    before = {row.kind: row.practised for row in practice.skills("maker")}
    answer(practice, drill, right=True)
    after = {row.kind: row.practised for row in practice.skills("maker")}
    assert set(before.values()) == {""}, "of what nobody was asked practice says nothing"
    changed = {kind for kind, said in after.items() if said != before[kind]}
    derived = practice._derived()
    bound = {
        derived.work.step(step).kind.value
        for relation in derived.relations
        if relation.reason.rule == DRY and relation.reason.binds
        for step in (relation.first, relation.then)
    }
    assert changed == bound & set(after)
    assert changed
    assert all("1 is shaky" in after[kind] for kind in changed)


def test_without_a_person_nothing_is_kept(bench, practice):
    said = answer(practice, practice.setting(ORDER)(), right=True, person="")
    assert said.startswith(NOT_RECORDED)
    assert bench.workshop.drills.number() == 0


def test_what_the_disk_refuses_is_told(bench, practice, monkeypatch):
    def full(_result):
        message = "The disk is full."
        raise WorkshopError(message)

    monkeypatch.setattr(bench.workshop.drills, "keep", full)
    said = answer(practice, practice.setting(ORDER)(), right=True)
    assert said == f"{NOT_RECORDED} The disk is full."
    assert practice.progress("maker").drills == 0


def test_without_a_workshop_file_exercises_are_set_and_nothing_is_kept(bench):
    class NoFile:
        drills = None
        skills = bench.workshop.skills

    derived = bench.session.derived
    desk = PracticeDesk(lambda: derived, lambda _: None, lambda: None, NoFile(), bench.clock)
    assert desk.why_not_kept == NO_FILE
    drill = desk.coming("maker", kind=DrillKind.ORDER)()
    assert answer(desk, drill, right=True) == f"{NOT_RECORDED} {NO_FILE}"
    assert desk.progress("maker").drills == 0
    assert [one.id for one in desk.people()] == ["maker"]


def test_what_sits_is_left_alone_until_it_is_due(bench, practice):
    """Answered rightly each time it comes, a reason comes ever less often."""
    drill = replace(practice.setting(ORDER)(), rules=(DRY,))
    gaps = []
    for _ in range(5):
        answer(practice, drill, right=True)
        row = next(row for row in practice.progress("maker").reasons if row.rule == DRY)
        gaps.append(row.due_at - bench.clock.now())
        bench.clock.advance(gaps[-1].total_seconds())
    assert gaps == sorted(gaps)
    assert gaps[0] < timedelta(hours=1)
    assert gaps[-1] > timedelta(days=100)
    assert row.state is ReasonState.MASTERED
