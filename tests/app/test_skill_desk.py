"""A skill that is signed off counts in every plan from then on, in other windows too."""

from dataclasses import replace

import pytest
from app.timer_scene import PLATE, Workshop, derived_of

from armorplan.app.entries import NOT_RECORDED
from armorplan.app.session import Session
from armorplan.steps.model import StepKind
from armorplan.store.gate import OnlyReads
from armorplan.store.workshop_file import WorkshopFile
from armorplan.workshop.shop import Person, usual_hours
from armorplan.workshop.skill_how import SkillHow

FORM = StepKind.FORM.value
# Slower at it than Ib, so that it may be worth while to stand beside him.
MAUD = Person(id="maud", name="Maud", hours=usual_hours(), paces=((FORM, 3.0),))
IB = Person(id="ib", name="Ib", hours=usual_hours(), can=(StepKind.CUT.value,))


class Window:
    """A session in a shop of two, over a connection of its own."""

    def __init__(self, shop: Workshop, gate=None) -> None:
        self.file = WorkshopFile.open(shop.path, shop.clock, *([gate] if gate else []))
        plain = derived_of(PLATE)
        derived = replace(plain, shop=replace(plain.shop, people=(MAUD, IB)))
        record = self.file.build(PLATE)
        self.session = Session(record, derived, self.file, shop.clock, shop.new_id, who="Maud")
        self.practice = self.session.practice

    def who_may(self, kind: str) -> set[tuple[str, ...]]:
        """Who may do the steps of a kind in the next plan, each with who has to be beside."""
        steps = {s.id for s in self.session.derived.work.steps if s.kind == kind}
        problem = self.session.problem()
        found = set()
        for activity in problem.activities:
            if activity.id.partition("#")[0] in steps:
                found |= {(way.who, *way.also) for way in activity.ways}
        return found

    def row(self, kind: str, person: str = "ib"):
        return next(row for row in self.practice.skills(person) if row.kind == kind)


@pytest.fixture
def windows(shop):
    opened = (Window(shop), Window(shop))
    yield opened
    for window in opened:
        window.file.close()


def test_without_a_word_the_shops_file_counts(windows):
    here, _ = windows
    assert here.who_may(FORM) == {("maud",)}
    row = here.row(FORM)
    assert (row.how, row.holds) == (None, SkillHow.NOT_YET)
    assert row.sentence == "Not yet, as the shop file says."
    assert here.row("cut").holds is SkillHow.ALONE
    assert here.practice.can_take_back("ib") == ""


def test_a_word_changes_the_next_plan_of_every_window(windows):
    here, other = windows
    mark = here.session.problem_mark()
    said = here.practice.sign_off(
        "ib", FORM, SkillHow.ALONE, "Maud", "twelve plates, none cracked"
    )
    assert said == "Ib does 'form' alone, said by Maud. Plans go by it from now on."
    assert here.session.problem_mark() is not mark
    assert here.who_may(FORM) == {("maud",), ("ib",)}
    assert other.session.read_along()
    assert other.who_may(FORM) == {("maud",), ("ib",)}
    row = other.row(FORM)
    assert (row.how, row.holds, row.by) == (SkillHow.ALONE, SkillHow.ALONE, "Maud")
    assert row.note == "twelve plates, none cracked"
    assert "Alone: said by Maud on 1 Mar 2027. twelve plates, none cracked" in row.sentence


def test_with_the_maker_beside_is_another_thing_than_alone(windows):
    here, _ = windows
    here.practice.sign_off("ib", FORM, SkillHow.BESIDE, "maud")
    assert here.session.shop().called("Ib").does_beside(FORM)
    assert here.who_may(FORM) == {("maud",), ("ib", "maud")}


def test_a_skill_may_be_taken_from_who_has_it_by_the_file(windows):
    here, _ = windows
    assert here.who_may("cut") == {("maud",), ("ib",)}
    here.practice.sign_off("ib", "cut", SkillHow.NOT_YET, "maud")
    assert here.who_may("cut") == {("maud",)}


def test_a_word_is_taken_back_in_a_word_and_what_held_before_holds(windows):
    here, other = windows
    here.practice.sign_off("ib", FORM, SkillHow.BESIDE, "Maud")
    here.practice.sign_off("ib", FORM, SkillHow.ALONE, "Maud")
    assert here.practice.can_take_back("ib") == "Ib does 'form' alone: said by Maud."
    said = here.practice.take_back_skill("ib")
    assert said == ("Ib does 'form' with the maker beside, as before. Plans go by it from now on.")
    assert here.row(FORM).holds is SkillHow.BESIDE
    said = here.practice.take_back_skill("ib")
    assert said == (
        "Ib does not do 'form' yet, as the shop file says. Plans go by it from now on."
    )
    assert here.who_may(FORM) == {("maud",)}
    other.session.read_along()
    assert other.who_may(FORM) == {("maud",)}
    assert here.practice.take_back_skill("ib").startswith(NOT_RECORDED)
    # Nothing was wiped out, and who took it back is told.
    words = here.file.skills.all()
    assert [word.how for word in words] == [
        SkillHow.BESIDE,
        SkillHow.ALONE,
        SkillHow.AS_FILED,
        SkillHow.BESIDE,
        SkillHow.AS_FILED,
    ]
    assert words[-1].by == "Maud"


def test_a_window_opened_later_knows(shop):
    first = Window(shop)
    first.practice.sign_off("ib", FORM, SkillHow.ALONE, "maud")
    first.file.close()
    later = Window(shop)
    # Before it has looked once, too, it shows what was said.
    assert later.row(FORM).how is SkillHow.ALONE
    later.session.read_along()
    assert later.who_may(FORM) == {("maud",), ("ib",)}
    later.file.close()


@pytest.mark.parametrize(
    ("person", "kind", "by", "told"),
    [
        ("stranger", FORM, "maud", "stranger"),
        ("ib", "sing", "maud", "'sing' is no kind of step"),
        ("ib", FORM, " ", "Say who signs it off"),
        ("ib", FORM, "Ib", "Nobody signs off their own work. Let it be said by Maud, or name"),
        ("maud", "cut", "MAUD", "Nobody signs off their own work. Let it be said by Ib, or name"),
        ("maud", FORM, "Ib", "Ib does not do 'form' alone. Nobody else here does it alone: name"),
    ],
)
def test_what_cannot_be_is_refused_in_words(windows, person, kind, by, told):
    here, _ = windows
    said = here.practice.sign_off(person, kind, SkillHow.ALONE, by)
    assert said.startswith(NOT_RECORDED)
    assert told in said
    assert here.file.skills.all() == ()


@pytest.mark.parametrize("how", [SkillHow.ALONE, SkillHow.BESIDE])
def test_somebody_from_outside_may_sign_what_nobody_else_here_can(windows, how):
    here, _ = windows
    assert here.practice.sign_off("ib", FORM, how, "Ib").startswith(NOT_RECORDED)
    said = here.practice.sign_off("ib", FORM, how, "the master at the guild hall")
    assert "said by the master at the guild hall" in said
    assert here.row(FORM).holds is how


def test_to_do_less_may_be_said_of_oneself_and_what_it_leaves_is_told(windows):
    here, _ = windows
    said = here.practice.sign_off("maud", FORM, SkillHow.NOT_YET, "Maud")
    assert said.endswith("But nobody in this shop does 'form' alone now.")
    # Not even by her own word before does she do it again.
    assert "Nobody signs off their own" in here.practice.sign_off(
        "maud", FORM, SkillHow.ALONE, "Maud"
    )


def test_who_works_alone_is_told_that_somebody_else_has_to_have_seen_it(bench):
    practice = bench.session.practice
    said = practice.sign_off("maker", FORM, SkillHow.ALONE, "Maker")
    assert said == (
        f"{NOT_RECORDED} Nobody signs off their own work. Nobody else works in this shop: name "
        "somebody from outside who saw it."
    )


def test_a_window_that_reads_along_signs_nothing_off(shop):
    along = Window(shop, OnlyReads(shop.path))
    said = along.practice.sign_off("ib", FORM, SkillHow.ALONE, "maud")
    assert said.startswith(NOT_RECORDED)
    assert "only read here" in said
    assert along.who_may(FORM) == {("maud",)}
    along.file.close()


def test_rows_are_of_everybody_in_the_order_work_passes_through(windows):
    here, _ = windows
    rows = here.practice.skills()
    assert [row.name for row in rows] == sorted((row.name for row in rows), reverse=True)
    kinds = [row.kind for row in rows if row.person == "ib"]
    assert kinds == [kind.value for kind in StepKind if kind.value in kinds]
    assert StepKind.DRY.value not in kinds
    # What was signed off stands there, whether or not this build has such a step.
    here.practice.sign_off("ib", "rivet", SkillHow.BESIDE, "maud")
    assert here.row("rivet").holds is SkillHow.BESIDE
    assert "rivet" not in [row.kind for row in here.practice.skills("maud")]
