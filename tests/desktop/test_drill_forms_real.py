"""Exercises of the shipped samples go into their forms and come out as answers that are judged."""

import pytest
from app.drills.drill_sources import asked, source_of

from armorplan.app.drills.playing import drill_diagram
from armorplan.app.drills.registry import KINDS
from armorplan.app.drills.setting import drill_for, judged, solved
from armorplan.desktop.drill_marks import Mark
from armorplan.desktop.widgets.drill_form_day import DayForm
from armorplan.desktop.widgets.drill_form_order import OrderForm
from armorplan.desktop.widgets.drill_form_some import ChoicesForm
from armorplan.desktop.widgets.drill_forms import make_form
from armorplan.desktop.widgets.drill_picture import DrillPicture
from armorplan.practice.drill import AnswerForm, DrillKind, Level

SAMPLE = "elbow_cop"
FORMS = {
    AnswerForm.ORDER: OrderForm,
    AnswerForm.SOME: ChoicesForm,
    AnswerForm.ONE: ChoicesForm,
    AnswerForm.TIMES: DayForm,
}


@pytest.fixture(scope="module")
def source():
    return source_of(SAMPLE)


@pytest.fixture(params=KINDS, ids=[kind.value for kind in KINDS])
def drill(request, source):
    """An exercise of each kind; all of them are there for this sample."""
    tries = (drill_for(source, asked(request.param, seed, Level.PIECE)) for seed in range(1, 6))
    return next(found for found in tries if found is not None)


def wrong_answer(drill, right):
    if drill.form is AnswerForm.ORDER:
        return tuple(reversed(right))
    if drill.form is AnswerForm.TIMES:
        latest = max(one.partition("=")[2] for one in right)
        return tuple(f"{one.partition('=')[0]}={latest}" for one in right)
    return tuple(one.id for one in drill.choices if one.id not in right)[:1]


def marks(form):
    if isinstance(form, OrderForm):
        rows = [form.steps.row(at) for at in range(form.steps.rowCount())]
        return {row.note.mark for row in rows if row.note}
    if isinstance(form, ChoicesForm):
        return {b.face.note.mark for b in form.buttons.values() if b.face.note}
    return {form._notes[name].mark for name in form.bars}


def test_a_right_answer_goes_in_and_out_unchanged_and_is_marked_right(drill, source, qtbot):
    form = make_form(drill)
    qtbot.addWidget(form)
    assert isinstance(form, FORMS[drill.form])
    right = solved(source, drill).answer
    form.show_answer(right, editable=True)
    assert sorted(form.answer()) == sorted(right)
    assert form.is_whole()
    verdict = judged(source, drill, form.answer())
    assert verdict.right
    form.show_judged(drill, verdict)
    assert marks(form) == {Mark.RIGHT}


def test_a_wrong_answer_is_marked_where_it_is_wrong_and_played(drill, source, qtbot):
    picture = DrillPicture(is_calm=lambda: True)
    qtbot.addWidget(picture)
    picture.show_drill(drill_diagram(source, drill.done), drill)
    form = make_form(drill, picture)
    qtbot.addWidget(form)
    form.show_answer(wrong_answer(drill, solved(source, drill).answer), editable=True)
    verdict = judged(source, drill, form.answer())
    assert not verdict.right
    form.show_judged(drill, verdict)
    assert marks(form) & {Mark.WRONG, Mark.BREAK, Mark.MOVED}
    shown = []
    picture.play(
        verdict.play,
        lambda frame: (
            shown.append(frame) or drill_diagram(source, frame.done, frame.amiss, frame.ghosts)
        ),
    )
    for _ in verdict.play[1:]:
        picture.bar.turn(1)
    assert tuple(shown) == verdict.play
    assert set(picture.canvas.ghosts) == set(verdict.play[-1].ghosts if verdict.play else ())
    picture.stop()


def test_joints_of_which_one_comes_first_have_letters_on_the_picture(source, qtbot):
    drill = drill_for(source, asked(DrillKind.FIRST, 3, Level.PIECE))
    picture = DrillPicture(is_calm=lambda: True)
    qtbot.addWidget(picture)
    picture.resize(500, 500)
    picture.show()
    picture.show_drill(drill_diagram(source, drill.done), drill)
    assert len(picture.canvas.letter_spots()) == len(drill.choices)
    room = picture.canvas.viewport().rect()
    assert all(room.contains(box.toRect()) for box in picture.canvas.letter_boxes().values())


def test_a_break_is_named_at_the_step_that_comes_too_early(source, qtbot):
    drill = drill_for(source, asked(DrillKind.ORDER, 3, Level.PIECE))
    form = make_form(drill)
    qtbot.addWidget(form)
    form.show_answer(wrong_answer(drill, solved(source, drill).answer), editable=True)
    verdict = judged(source, drill, form.answer())
    form.show_judged(drill, verdict)
    rows = [form.steps.row(at) for at in range(form.steps.rowCount())]
    broken = [row for row in rows if row.note.mark is Mark.BREAK]
    assert len(broken) == 1
    assert verdict.sentence.startswith(f"Not yet: '{broken[0].title}' comes too early")
    moved = {row.id for row in rows if row.note.mark in (Mark.MOVED, Mark.BREAK)}
    assert set(verdict.moved) <= moved
