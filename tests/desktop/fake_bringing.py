"""An invented drawing of the lantern watch: two plates with a row each, and what is asked of it."""

from dataclasses import replace
from pathlib import Path

from armorplan.app.bringing.answering import SHAPE, answered_all
from armorplan.app.bringing.asking import Asking, choices
from armorplan.app.bringing.model import Bringing, Question, QuestionKind
from armorplan.desktop.bring_view import PartFacts, seen
from armorplan.geometry.brought.model import (
    LooseDrawing,
    Shape,
    ShapeKind,
    SortedOut,
    Stroke,
    Sureness,
    UnitGuess,
)
from armorplan.geometry.matching.model import Meeting, RowMatch
from armorplan.geometry.placing import fit
from armorplan.kernel.errors import UnreadableError
from armorplan.kernel.findings import Finding, Severity

INCH_MM = 25.4
REFUSED = Finding(
    code="not-a-drawing",
    severity=Severity.ERROR,
    text="lantern.pdf is a PDF, not a drawing of lines.",
    remedy="Save it as SVG or DXF where it was drawn.",
)


def box(left, top, wide, high):
    return ((left, top), (left + wide, top), (left + wide, top + high), (left, top + high))


def hole(key, x, y, inside, kind=ShapeKind.HOLE):
    ring = box(x - 2.5, y - 2.5, 5, 5)
    return Shape(
        key=key,
        kind=kind,
        strokes=(key,),
        points=ring,
        closed=True,
        circle=((x, y), 5.0),
        inside=inside,
        why="It is round and lies in a part.",
    )


def drawn():
    """Return the shapes: two plates, six holes, a slot, an engraved line, the frame."""

    def closed(key, kind, ring, **more):
        return Shape(key=key, kind=kind, strokes=(key,), points=ring, closed=True, **more)

    upper = closed("upper", ShapeKind.PART, box(20, 20, 160, 90), name="breast plate")
    lower = closed("lower", ShapeKind.PART, box(220, 20, 160, 70), name="")
    rows = [hole(f"a{i}", 40 + 30 * i, 95, "upper") for i in range(4)]
    rows += [hole(f"b{i}", 240 + 30 * i + (0.4 if i == 3 else 0), 35, "lower") for i in range(4)]
    slot = closed("slot", ShapeKind.SLOT, box(280, 60, 30, 6), inside="lower")
    line = Shape(
        key="fold",
        kind=ShapeKind.ENGRAVING,
        strokes=("fold",),
        points=((30, 60), (170, 60)),
        closed=False,
        inside="upper",
    )
    frame = closed("frame", ShapeKind.FRAME, box(0, 0, 400, 140))
    return (upper, *rows[:4], line, lower, *rows[4:], slot, frame)


DRAWING = LooseDrawing(
    name="lantern",
    strokes=(Stroke(key="upper", points=box(20, 20, 160, 90), closed=True),),
    unit=UnitGuess(
        mm_each=INCH_MM, why="The file says inches", sureness=Sureness.GUESSED, others=(1.0,)
    ),
    findings=(
        Finding(
            code="hidden-lines",
            severity=Severity.NOTE,
            text="3 hidden lines were left out.",
            remedy="Show them where the file was drawn if they are wanted.",
        ),
    ),
)


def match():
    shapes = {s.key: s for s in drawn()}
    pairs = tuple((f"a{i}", f"b{i}") for i in range(4))
    laid = fit([shapes[a].circle[0] for a, _ in pairs], [shapes[b].circle[0] for _, b in pairs])
    return RowMatch(
        first="upper",
        second="lower",
        pairs=pairs,
        meeting=Meeting.FLAT,
        residual_mm=0.3,
        likely=0.9,
        fit=laid,
        why="Four holes fit.",
    )


def asked(bringing: Bringing, shapes: tuple[Shape, ...]) -> tuple[Question, ...]:
    asking = Asking(bringing)
    unit = Question(
        id="unit",
        kind=QuestionKind.UNIT,
        text="All of it is then 400 mm wide. Is that right?",
        choices=choices(("25.4", "1 unit is 1 inch"), ("1", "1 unit is 1 mm")),
        suggested="25.4",
        typed="mm that one unit of the file is",
        numeric=True,
    )
    asking.put(unit)
    holes = tuple(s.key for s in shapes if s.kind is ShapeKind.HOLE)
    asking.put(
        Question(
            id="holes",
            kind=QuestionKind.SHAPES,
            text=f"These {len(holes)} round shapes of 5.0 mm are holes.",
            choices=choices(
                ("hole", "Holes", "They are round and lie in parts."),
                ("engraving", "Engraved or drawn on, not cut"),
            ),
            suggested="hole",
            sure=True,
            shapes=holes,
            settles=len(holes),
        )
    )
    asking.put(
        Question(
            id="material",
            kind=QuestionKind.MATERIAL,
            text="All parts are of 9 oz leather.",
            choices=choices(("veg_9oz", "9 oz leather"), ("veg_6oz", "6 oz leather")),
            suggested="veg_9oz",
            sure=True,
            shapes=("upper", "lower"),
        )
    )
    asking.put(
        Question(
            id="row",
            kind=QuestionKind.ROW,
            text="The row of 4 holes of 'breast plate' fits that of 'part 2' within 0.3 mm.",
            choices=choices(
                (match().key, "They are joined", "Four holes fit."), ("none", "They are not")
            ),
            suggested=match().key,
            shapes=("upper", "lower"),
            matches=(match(),),
        )
    )
    return asking.questions


class FakeCore:
    """Answers in the thread it is asked in. ``refuses`` names a file that cannot be read."""

    def __init__(self) -> None:
        self.written: list[tuple[Bringing, Path, Path]] = []
        self.wait = None

    def read(self, begun, _should_stop):
        if self.wait is not None:
            self.wait.wait(5)
        if begun.file.suffix == ".pdf":
            raise UnreadableError((REFUSED,))
        return answered_all(Bringing(drawing=DRAWING, name=begun.name), begun.answers)

    def glimpse(self, bringing, should_stop):
        view = self.look(bringing, should_stop)
        return replace(view, questions=view.questions[:2], is_whole=False)

    def look(self, bringing, _should_stop):
        shapes = tuple(
            replace(s, kind=ShapeKind(bringing.answer(f"{SHAPE}{s.key}") or s.kind))
            if not (name := bringing.answer(f"part:{s.key}:name"))
            else replace(s, name=name)
            for s in drawn()
        )
        said = bringing.answer("unit") or str(INCH_MM)
        view = seen(
            bringing,
            SortedOut(shapes=shapes),
            asked(bringing, shapes),
            float(said.replace(",", ".")),
        )
        facts = {
            key: PartFacts(part=key, kind="plate", leather="shell_plate:4", piece="Lantern")
            for key in ("upper", "lower")
        }
        leathers = (("shell_plate:4", "Shell, 4 mm"), ("strap:2.8", "Strap, 2.8 mm"))
        title = bringing.name or "Lantern"
        numbered = {
            key: bringing.answer(f"part:{key}:name") or f"part {number}"
            for number, key in enumerate(("upper", "lower"), start=1)
        }
        return replace(view, title=title, facts=facts, leathers=leathers, numbered=numbered)

    def write(self, bringing, file, folder):
        self.written.append((bringing, file, folder))
        return ("The gorget has 1 slot without a use yet.",)
