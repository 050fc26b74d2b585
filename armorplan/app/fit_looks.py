"""What to look at in each round of a dry fit, and whether on the bench or on the wearer."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum

from armorplan.app.derived import Derived
from armorplan.app.fit_naming import listed, names_in, started
from armorplan.app.fit_seams import FitSeam
from armorplan.app.fit_worn import closing_parts, placed_joints
from armorplan.pattern.parts import PartKind
from armorplan.pattern.wearing import CheckTime
from armorplan.steps.model import Step, StepKind
from armorplan.steps.naming import plain_subject
from armorplan.steps.wearing_words import girth_words

_MOST_NAMED = 4


class LookKind(StrEnum):
    """What is looked at."""

    HAND = "hand"
    GAP = "gap and overlap"
    TOGETHER = "together"
    BEND = "bend"
    SIT = "sit"
    REACH = "reach"
    MARK = "mark"
    FASTEN = "fasten"
    CHECK = "check"


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """One thing to look at.

    Attributes:
        id: unique in its fit.
        about: sided ids of the parts and joints it is about, and ids of seams.
        seams: ids of the seams it is about, for a finding.
        on_wearer: it is looked at on the wearer.
        step: id of the step it is ticked with, where it has one of its own; else empty.
    """

    id: str
    kind: LookKind
    text: str
    about: tuple[str, ...]
    seams: tuple[str, ...] = ()
    on_wearer: bool = False
    step: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitting:
    """A dry fit with its seams; ``is_worn``: it goes on the wearer."""

    derived: Derived
    fit: Step
    seams: tuple[FitSeam, ...]
    is_worn: bool

    def name(self, part: str) -> str:
        """Return a part's name inside a sentence."""
        return names_in(self.derived.assembly, self.fit).part(part)


def _look(kind: LookKind, text: str, seams: Sequence[FitSeam], *, on_wearer: bool = False) -> Look:
    ids = tuple(seam.id for seam in seams)
    parts = dict.fromkeys(part for seam in seams for part in seam.parts)
    word = kind.name.lower() + (":worn" if on_wearer else "")
    return Look(
        id=f"{word}:{'+'.join(ids)}",
        kind=kind,
        text=started(text),
        about=(*parts, *ids),
        seams=ids,
        on_wearer=on_wearer,
    )


def first_looks(fitting: Fitting) -> Iterator[Look]:
    """Yield what is looked at before a pin is in."""
    sides = {fitting.derived.assembly.part(part).side.value for part in fitting.fit.parts}
    mirror = " Its parts mirror those of the other side." if sides & {"left", "right"} else ""
    yield Look(
        id="hand",
        kind=LookKind.HAND,
        text=f"Each part lies as in the lay-out: its hand, its grain side, its up towards the top.{mirror}",
        about=fitting.fit.parts,
    )


def seam_looks(seams: Sequence[FitSeam]) -> Iterator[Look]:
    """Yield what is looked at where seams are on that were not before: frames each by itself."""
    fixed = [seam for seam in seams if not seam.turns]
    for seam in (seam for seam in fixed if seam.is_frame):
        yield _look(
            LookKind.GAP,
            f"{seam.name}: the holes meet without force; no gap between the layers, and the same "
            "overlap from end to end.",
            (seam,),
        )
    laid = [seam for seam in fixed if not seam.is_frame and len(seam.parts) > 1]
    if laid:
        names = listed([seam.name for seam in laid])
        text = f"{names}: the holes meet; what is laid on lies flat, straight and clear of the next edge."
        yield _look(LookKind.GAP, text, laid)
    folds = [seam for seam in fixed if len(seam.parts) == 1]
    if folds:
        names = listed([seam.name for seam in folds])
        text = f"{names}: the holes meet, and what lies in the fold moves freely."
        yield _look(LookKind.GAP, text, folds)


def bend_looks(fitting: Fitting, seams: Sequence[FitSeam], *, on_wearer: bool) -> Iterator[Look]:
    """Yield what is looked at where something turns or slides: by hand, or by the wearer."""
    turning = [seam for seam in seams if seam.turns]
    if not turning:
        return
    names = listed([seam.name for seam in turning])
    if all(len(seam.joints) == 1 for seam in turning):
        text = f"{names}: open it fully and close it; it turns freely and nothing pinches."
        yield _look(LookKind.BEND, text, turning, on_wearer=on_wearer)
        return
    keeps_mm = fitting.derived.shelf.constants.kept_cover.value
    who = "the wearer bends fully and straightens" if on_wearer else "bend it fully by hand"
    text = (
        f"{names}: {who}; it turns freely, nothing pinches inside the bend, no gap opens, and "
        f"{keeps_mm:g} mm stay covered outside."
    )
    yield _look(LookKind.BEND, text, turning, on_wearer=on_wearer)


def together_looks(fitting: Fitting, pairs: Sequence[tuple[FitSeam, FitSeam]]) -> Iterator[Look]:
    """Yield what is looked at where neighbouring seams are on together for the first time."""
    seams = tuple(seam for seam in fitting.seams if any(seam in pair for pair in pairs))
    shared = [p for one, other in pairs for p in one.parts if p in other.parts]
    parts = [fitting.name(part) for part in fitting.fit.parts if part in shared]
    if not seams:
        return
    few = len(seams) <= _MOST_NAMED
    told = listed([seam.name for seam in seams]) if few else f"{len(seams)} seams"
    text = (
        f"{told} at once: none draws the others' holes apart, and nothing pulls out of shape on "
        f"{listed(parts)}."
    )
    yield _look(LookKind.TOGETHER, text, seams)


def worn_looks(fitting: Fitting, seams: Sequence[FitSeam]) -> Iterator[Look]:
    """Yield what is looked at once on the wearer, over the padding that will be worn."""
    yield Look(
        id="sit",
        kind=LookKind.SIT,
        text=f"{_hung(fitting.fit)}It sits over the padding where it belongs, and stays there when "
        "the wearer moves.",
        about=fitting.fit.parts,
        on_wearer=True,
    )
    yield from bend_looks(fitting, seams, on_wearer=True)
    if any(seam.turns for seam in seams):
        yield Look(
            id="reach",
            kind=LookKind.REACH,
            text="The wearer moves as far as without it, every way that this part of the body goes, "
            "and reaches across, up and down; no edge presses.",
            about=fitting.fit.parts,
            on_wearer=True,
        )
    yield from _fastening(fitting)
    yield from _marking(fitting)


def _hung(fit: Step) -> str:
    """Return what the step says of where it hangs from."""
    first, stop, _ = fit.detail.partition(". ")
    return f"{first}. " if stop and first.startswith("Hang it") else ""


def _fastening(fitting: Fitting) -> Iterator[Look]:
    """Ask whether the wearer can fasten it alone: that decides on which side it opens."""
    closing = closing_parts(fitting.derived, fitting.fit)
    placed = placed_joints(fitting.derived, fitting.fit)
    before = ", before anything is marked" if placed else ""
    if closing:
        yield Look(
            id="fasten",
            kind=LookKind.FASTEN,
            text="Can the wearer fasten it alone, one-handed? If not, put buckle and tongue the "
            f"other way round, or let it open on the other side{before}.",
            about=tuple(part for part in fitting.fit.parts if part in closing),
            on_wearer=True,
        )


def _marking(fitting: Fitting) -> Iterator[Look]:
    derived, fit = fitting.derived, fitting.fit
    placed, assembly = placed_joints(derived, fit), derived.assembly
    if not placed:
        return
    parts = tuple(dict.fromkeys(part for joint in placed for part in joint.parts))
    straps = [part for part in parts if assembly.part(part).part.kind is PartKind.STRAP]
    names = listed([fitting.name(part) for part in straps or parts])
    plain = {assembly.part(part).part.id for part in parts}
    girths = " ".join(girth_words(derived.pattern, plain))
    marks = derived.work.of_kind(StepKind.MARK)
    here = (s.id for s in marks if (s.piece, s.side) == (fit.piece, fit.side))
    holes = "1 hole" if len(placed) == 1 else f"{len(placed)} holes"
    yield Look(
        id="mark",
        kind=LookKind.MARK,
        text=f"Hold {names} so that it closes well, and mark {holes} with a pen. {girths}".strip(),
        about=(*parts, *(joint.id for joint in placed)),
        on_wearer=True,
        step=next(here, ""),
    )


def own_looks(fitting: Fitting) -> Iterator[Look]:
    """Yield the pattern's own checks at the dry fit; each is a step of its own."""
    derived, fit = fitting.derived, fitting.fit
    checks = {check.id: check for check in derived.pattern.fit_checks}
    for step in derived.work.of_kind(StepKind.CHECK):
        check = checks.get(plain_subject(step))
        if check is None or check.when is not CheckTime.DRY_FIT:
            continue
        if (step.piece, step.side) == (fit.piece, fit.side):
            text = " ".join(filter(None, (f"{check.name.removesuffix('.')}.", check.notes)))
            yield Look(
                id=f"check:{check.id}",
                kind=LookKind.CHECK,
                text=text,
                about=step.parts,
                on_wearer=fitting.is_worn,
                step=step.id,
            )
