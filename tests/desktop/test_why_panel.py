"""The reasons of a step: unmet first, in words, and every line leads to the other step."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QPushButton, QToolButton

from armorplan.app.rows import BenchState, Why, WhyLine
from armorplan.desktop.why_words import force_words, grouped, rule_words
from armorplan.desktop.widgets.why_line import MOST_SHOWN, StepButton
from armorplan.desktop.widgets.why_panel import WhyPanel
from armorplan.relations.model import Force


@pytest.fixture
def panel(bridge, qtbot):
    made = WhyPanel(bridge)
    qtbot.addWidget(made)
    made.resize(420, 500)
    made.show()
    return made


def line(other, *, met=False, rule="dry-before-handling", also=False, text="Wet leather marks."):
    return WhyLine(
        rule=rule,
        other=other,
        other_title=f"Dry the {other}",
        met=met,
        text=text,
        force=Force.SPOIL,
        source="common practice, no source",
        numbers=("handle 180 min",),
        also=also,
    )


def said(panel):
    labels = [w.text() for w in panel.findChildren(QLabel) if w.isVisible()]
    return labels + [w.accessibleName() for w in panel.findChildren(StepButton) if w.isVisible()]


def show(panel, session, monkeypatch, **changes):
    base = {
        "step": session.steps[0].id,
        "title": "Rivet the boss",
        "state": BenchState.WAITING,
        "needs": (),
        "holds_up": (),
        "detail": "",
        "cautions": (),
    }
    monkeypatch.setattr(session, "why", lambda _step: Why(**(base | changes)))
    panel._bridge.choose_steps((session.steps[0].id,))


def test_nothing_chosen_says_how_to_choose(panel):
    assert any("Choose a step" in text for text in said(panel))


def test_a_chosen_step_tells_its_reasons(panel, bridge, session):
    step = next(s for s in session.steps if s.needs and s.cautions)
    why = session.why(step.id)
    bridge.choose_steps((step.id,))
    texts = said(panel)
    assert step.title in texts
    need = why.needs[0]
    assert f"{need.other_title}, not yet" in texts
    for wanted in (need.text, force_words(need.force), "; ".join(need.numbers), *step.cautions):
        assert wanted in texts
    assert any(need.source in text for text in texts)
    assert f"Rule: {rule_words(need.rule)}" in {b.text() for b in panel.findChildren(QPushButton)}
    assert "Caution" in texts
    heir = why.holds_up[0]
    assert f"{heir.other_title}, waits" in texts


def test_what_is_not_yet_met_comes_first(panel, session, monkeypatch):
    needs = (line("cap", met=True, text="One."), line("strap", text="Two."))
    show(panel, session, monkeypatch, needs=needs)
    names = [button.accessibleName() for button in panel.findChildren(StepButton)]
    assert names == ["Dry the strap, not yet", "Dry the cap, met"]


def test_only_a_done_step_bears_the_tick(panel, session, monkeypatch):
    met, held = line("cap", met=True, text="One."), line("strap", met=True, text="Two.")
    show(panel, session, monkeypatch, needs=(met,), holds_up=(held,))
    marks = {button.step: button._mark for button in panel.findChildren(StepButton)}
    assert marks == {met.other: BenchState.DONE, held.other: None}


def test_a_line_leads_to_the_other_step_by_mouse_and_by_enter(panel, bridge, session, qtbot):
    step = next(s for s in session.steps if s.needs)
    bridge.choose_steps((step.id,))
    button = panel.findChild(StepButton)
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
    assert bridge.selection.steps == (step.needs[0],)
    bridge.choose_steps((step.id,))
    button = next(b for b in panel.findChildren(StepButton) if b.isVisible())
    qtbot.keyClick(button, Qt.Key.Key_Return)
    assert bridge.selection.steps == (step.needs[0],)


def test_reasons_with_one_sentence_say_it_once_and_fold_long_lists(
    panel, session, monkeypatch, qtbot
):
    needs = tuple(line(f"lame {i}") for i in range(MOST_SHOWN + 3))
    show(panel, session, monkeypatch, needs=needs)
    texts = said(panel)
    assert texts.count("Wet leather marks.") == 1
    shown = [b for b in panel.findChildren(StepButton) if b.isVisible()]
    assert len(shown) == MOST_SHOWN
    more = next(b for b in panel.findChildren(object) if getattr(b, "text", str)() == "and 3 more")
    qtbot.mouseClick(more, Qt.MouseButton.LeftButton)
    assert all(button.isVisible() for button in panel.findChildren(StepButton))


def test_what_follows_from_the_rest_is_folded_away(panel, session, monkeypatch, qtbot):
    needs = (line("cop"), line("strap", rule="cut-before-use", also=True, text="It is not cut."))
    show(panel, session, monkeypatch, needs=needs)
    assert "It is not cut." not in said(panel)
    fold = panel.findChild(QToolButton)
    assert "1" in fold.text()
    assert fold.arrowType() == Qt.ArrowType.RightArrow
    fold.click()
    assert fold.arrowType() == Qt.ArrowType.DownArrow
    assert "It is not cut." in said(panel)


def test_a_tick_renews_the_lines_and_keeps_the_place(panel, bridge, session):
    step = next(s for s in session.steps if len(s.needs) > 2)
    panel.resize(420, 160)
    bridge.choose_steps((step.id,))
    panel.verticalScrollBar().setValue(40)
    bridge.done((step.needs[0],))
    assert any(text.endswith(", met") for text in said(panel))
    assert panel.verticalScrollBar().value() == 40
    page = panel.widget()
    bridge.note(session.steps[-1].id, "nothing to do with it")
    assert panel.widget() is page


def test_a_step_without_reasons_says_so(panel, session, monkeypatch):
    show(panel, session, monkeypatch)
    assert {"It waits for nothing.", "Nothing waits for it."} <= set(said(panel))


def test_titles_wrap_and_nothing_is_cut_off_in_a_narrow_panel(panel, session, monkeypatch):
    long = "Rivet the lantern boss over the heads of the lower row of the elbow cop on the left"
    need = line("cop")
    show(panel, session, monkeypatch, title=long, needs=(need,), detail=long)
    panel.resize(240, 500)
    page = panel.widget()
    panel.grab()
    for label in page.findChildren(QLabel):
        assert label.height() >= label.heightForWidth(label.width())
    assert page.width() <= panel.viewport().width()


def test_text_can_be_selected(panel, bridge, session):
    bridge.choose_steps((session.steps[0].id,))
    title = panel.findChild(QLabel, "why_title")
    assert title.textInteractionFlags() & Qt.TextInteractionFlag.TextSelectableByMouse


@pytest.mark.parametrize("force", list(Force))
def test_every_force_has_words_of_its_own(force):
    words = {force_words(other) for other in Force}
    assert len(words) == len(Force)
    assert force_words(force) != force.value
    assert force_words("a force of another day") == "a force of another day"


def test_groups_keep_lines_of_one_sentence_together():
    lines = (line("a"), line("b", met=True), line("c"), line("d", text="Another."))
    assert [[one.other for one in group.lines] for group in grouped(lines)] == [
        ["a", "c"],
        ["d"],
        ["b"],
    ]


def test_buttons_without_a_frame_are_underlined(bridge, qtbot):
    panel = WhyPanel(bridge)
    qtbot.addWidget(panel)
    panel.show()
    bridge.choose_steps((bridge.session.steps[-1].id,))
    flat = [button for button in panel.findChildren(QPushButton) if button.isFlat()]
    assert flat
    assert all(button.font().underline() for button in flat)


def test_a_rule_of_the_shapes_leads_to_its_numbers(panel, session, monkeypatch, qtbot):
    needs = (line("cop", rule="bend-before-rivets"), line("strap", rule="cut-before-use"))
    show(panel, session, monkeypatch, needs=needs)
    assert panel.findChild(QPushButton, "reckoned_cut-before-use") is None
    button = panel.findChild(QPushButton, "reckoned_bend-before-rivets")
    with qtbot.waitSignal(panel.reckoned) as told:
        button.click()
    assert told.args == ["bend-before-rivets"]


def test_put_away_it_waits_until_it_is_shown_again(panel, session, monkeypatch):
    show(panel, session, monkeypatch, title="Rivet the boss")
    panel.hide()
    show(panel, session, monkeypatch, title="Rivet the strap")
    assert panel.findChild(QLabel, "why_title").text() == "Rivet the boss"
    panel.show()
    assert panel.findChild(QLabel, "why_title").text() == "Rivet the strap"
