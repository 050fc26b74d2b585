"""The worksheet on paper: every exercise can be found as text, no answer stands before its page."""

import re
from datetime import UTC, datetime, timedelta

import pytest
from sheets.sheet_scene import pages_of

from armorplan.practice.grades import Grade, ReasonState
from armorplan.practice.progress import PieceProgress, Progress, ReasonRow
from armorplan.sheets.bench_sheet_ink import A4, LETTER
from armorplan.sheets.progress_sheet import SIGNS, progress_pdf
from armorplan.sheets.worksheet import ANSWERS, worksheet_pdf
from armorplan.sheets.worksheet_model import (
    Box,
    DayStrip,
    SheetChoice,
    SheetExercise,
    SheetReason,
    Worksheet,
)

SEEN_AT = datetime(2026, 11, 28, 9, tzinfo=UTC)


def exercise(kind, box, **more):
    return SheetExercise(
        kind=kind,
        about="Cop of the lantern watch · a row",
        question=f"What of {kind}?",
        how="Write it down.",
        name="exercise 4, a row",
        given=("Two steps are done already.",),
        choices=tuple(
            SheetChoice(letter=letter, title=f"Choice {letter} of {kind}", detail="at the rim")
            for letter in "ABC"
        ),
        box=box,
        cautions=("Wear eye protection.",),
        answer=("B A C", f"B  the answer to {kind}"),
        others="One other is right.",
        because=(SheetReason(text=f"No anvil reaches {kind}.", foot="Reach · 36 mm · no source"),),
        **more,
    )


def sheet(*exercises):
    return Worksheet(
        title="Cop of the lantern watch", version="Version 3", person="Piet", exercises=exercises
    )


@pytest.mark.parametrize("paper", [A4, LETTER], ids=lambda paper: paper.name)
def test_exercises_come_first_and_the_answers_on_pages_behind(paper):
    day = DayStrip(from_min=540, to_min=1050, ends_by_min=990, closed=((750, 810),), rows=("A",))
    kinds = [*zip("uvwx", Box, strict=True)]
    made = sheet(
        *(exercise(name, box, day=day if box is Box.TIME else None) for name, box in kinds)
    )
    texts = [page.extract_text() for page in pages_of(worksheet_pdf(made, paper))]
    begun = next(at for at, text in enumerate(texts) if f"\n{ANSWERS}" in f"\n{text}")
    before, behind = "\n".join(texts[:begun]), "\n".join(texts[begun:])
    for name, _ in kinds:
        assert f"What of {name}?" in before
        assert all(f"Choice {letter} of {name}" in before for letter in "ABC")
        assert f"the answer to {name}" not in before
        assert f"No anvil reaches {name}" not in before
        assert f"the answer to {name}" in behind
        assert f"No anvil reaches {name}" in behind
    assert "Reach · 36 mm · no source" in behind
    assert "9:00" in before
    assert before.count("Wear eye protection.") == 1
    assert "Name: Piet" in before
    assert all("costume, not protective equipment" in text for text in texts)


def test_an_exercise_is_not_parted_where_a_page_has_room_for_it():
    made = sheet(*(exercise(f"k{at}", Box.TICK) for at in range(9)))
    texts = [page.extract_text() for page in pages_of(worksheet_pdf(made, A4))]
    for at in range(9):
        (page,) = [text for text in texts if f"What of k{at}?" in text]
        assert all(f"Choice {letter} of k{at}" in page for letter in "ABC")


def row(name, state, **more):
    return ReasonRow(rule=name, name=f"Rule {name}", state=state, **more)


def test_every_reason_stands_on_the_page_of_progress_with_its_sign():
    reasons = (
        row("a", ReasonState.MASTERED, last=Grade.KNEW, last_at=SEEN_AT,
            due_at=SEEN_AT + timedelta(days=9)),
        row("b", ReasonState.SHAKY, last=Grade.MISSED, last_at=SEEN_AT, due_at=SEEN_AT,
            is_due=True),
        row("c", ReasonState.UNSEEN),
        row("d", ReasonState.UNSEEN),
    )  # fmt: skip
    piece = PieceProgress(piece="elbow", name="Elbow cop", reasons=reasons)
    progress = Progress(
        person="piet",
        name="Piet",
        at=SEEN_AT,
        drills=4,
        last_at=SEEN_AT,
        reasons=reasons,
        pieces=(piece,),
        sentences=("Four exercises so far.",),
    )
    data = progress_pdf(progress, "Europe/Lisbon", A4)
    text = "\n".join(page.extract_text() for page in pages_of(data))
    assert "Reasons known: Piet" in text
    assert "1 mastered, 1 shaky, 2 unseen" in text
    for reason in reasons:
        assert re.search(rf"{reason.name}.*{SIGNS[reason.state]} {reason.state}", text, re.DOTALL)
    assert "7 Dec 2026" in text
    assert "now" in text
    assert "no certificate" in text


def test_a_bar_is_parted_as_its_reasons_are():
    """Widths are read off the page's content stream: ISO 32000-1, 8.5.2."""
    reasons = tuple(
        row(str(at), state)
        for at, state in enumerate([ReasonState.MASTERED] * 3 + [ReasonState.UNSEEN])
    )
    piece = PieceProgress(piece="elbow", name="Elbow cop", reasons=reasons)
    progress = Progress(
        person="piet", name="Piet", at=SEEN_AT, drills=0, last_at=None, reasons=reasons,
        pieces=(piece,),
    )  # fmt: skip
    (page, *_) = pages_of(progress_pdf(progress, "UTC", A4))
    stream = page.get_contents().get_data().decode("latin-1")
    corner = r"([\d.]+) ([\d.]+) [ml]"
    boxes = re.findall(rf"{corner}\s+{corner}\s+{corner}\s+{corner}\s+h", stream)
    wide = [float(box[2]) - float(box[0]) for box in boxes]
    assert len(wide) >= 2
    assert wide[0] == pytest.approx(3 * wide[1], rel=1e-3)
