"""What is told of a drawing brought in: what it was taken for, and what is open still."""

from dataclasses import dataclass

from armorplan.app.bringing.model import Bringing, Question
from armorplan.app.bringing.standing import standing
from armorplan.app.bringing.writing import left_open
from armorplan.kernel.findings import Finding
from armorplan.workshop.shelf import Shelf


@dataclass(frozen=True, slots=True, kw_only=True)
class TakenFor:
    """One question: what is taken, whether a person said so, and whether it needs no thought."""

    id: str
    kind: str
    question: str
    taken: str
    words: str
    answered: bool
    sure: bool
    settles: int


@dataclass(frozen=True, slots=True, kw_only=True)
class BringReport:
    """A drawing brought in.

    Attributes:
        pattern: its name.
        drawing: the file it came from.
        mm_each: what one unit of the file is, mm.
        parts: how many are written.
        joints: how many fasteners hold them.
        taken: what everything was taken for, in order.
        open: what the pattern does not say yet, as sentences.
        findings: what was left out of the file, or is open in it.
        written: paths of the files.
    """

    pattern: str
    drawing: str
    mm_each: float
    parts: int
    joints: int
    taken: tuple[TakenFor, ...]
    open: tuple[str, ...]
    findings: tuple[Finding, ...]
    written: tuple[str, ...] = ()


def report_of(bringing: Bringing, shelf: Shelf) -> BringReport:
    """Return what a bringing comes to as it stands."""
    stands = standing(bringing, shelf)
    return BringReport(
        pattern=stands.title,
        drawing=bringing.drawing.name,
        mm_each=stands.mm_each,
        parts=len(stands.parts),
        joints=sum(len(row.pairs) for row in stands.rows),
        taken=tuple(_taken(question) for question in stands.questions),
        open=left_open(bringing, shelf),
        findings=(*bringing.drawing.findings, *stands.sorted_out.findings),
    )


def _taken(question: Question) -> TakenFor:
    words = next((c.words for c in question.choices if c.key == question.taken), question.taken)
    return TakenFor(
        id=question.id,
        kind=question.kind.value,
        question=question.text,
        taken=question.taken,
        words=words,
        answered=question.answer is not None,
        sure=question.sure,
        settles=question.settles,
    )
