"""A dry fit as lines to go through: lay-out, pins of each round, looks, and the sign-off."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from enum import Enum, auto

from PySide6.QtCore import QCoreApplication

from armorplan.app.bench_card import BenchCard
from armorplan.app.dry_fit_rows import DryFitPlan, PieceFit
from armorplan.app.fit_looks import Look
from armorplan.app.fit_pins import PinRow
from armorplan.app.fit_rounds import RoundRow
from armorplan.app.rows import BenchState, ChecklistRow, Diagram, Selection
from armorplan.desktop.checklist_rows import OVER, is_step
from armorplan.steps.model import StepKind


class LineKind(Enum):
    """What a line is; heads and what is only said cannot be taken in hand."""

    HEAD = auto()
    SAID = auto()
    PINS = auto()
    PART = auto()
    PIN = auto()
    LOOK = auto()
    CORRECT = auto()
    SIGN_OFF = auto()
    WAIVE = auto()


READ = frozenset({LineKind.HEAD, LineKind.SAID})
TICKED = frozenset({LineKind.PART, LineKind.PIN, LineKind.LOOK})
"""What is ticked off; the rest does something or names what follows."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One line.

    Attributes:
        key: unique in its fit.
        about: sided ids that light up with it.
        look: of a look.
    """

    key: str
    kind: LineKind
    text: str
    about: tuple[str, ...] = ()
    look: Look | None = None


def _say(text: str) -> str:
    return QCoreApplication.translate("dry_fit", text)


def lines_of(
    fit: PieceFit, ticked: Iterable[str], found: tuple[str, ...] = (), waits: str = ""
) -> tuple[Line, ...]:
    """Return the lines of a fit in the order in which they are worked.

    Args:
        fit: the fit.
        ticked: keys of what was ticked; looks that were not are counted at the sign-off.
        found: what it showed, in words.
        waits: for what it waits yet; empty: for nothing.
    """
    return (*_lines(fit), *_found(found), *_end(fit, frozenset(ticked), waits))


def with_last_fits(plan: DryFitPlan, rows: Iterable[ChecklistRow]) -> DryFitPlan:
    """Return a plan with the last fits on the wearer behind the dry ones: no pins, no rounds."""
    last = tuple(
        PieceFit(
            step=row.id,
            title=row.title,
            lay_out=(),
            flow="",
            seams=(),
            rounds=(),
            pins_needed=0,
            pins_wanted=(),
            pins_owned=None,
            proved=True,
            bound=0,
            words=(row.detail,) if row.detail else (),
        )
        for row in rows
        if row.kind == StepKind.FIT and is_step(row) and row.state not in OVER
    )
    return replace(plan, fits=(*plan.fits, *last))


def _lines(fit: PieceFit) -> Iterator[Line]:
    said = (pins_words(fit), *fit.words) if fit.rounds else fit.words
    for number, words in enumerate(said):
        yield Line(key=f"said:{number}", kind=LineKind.SAID, text=words)
    if fit.rounds:
        yield Line(key="pins", kind=LineKind.PINS, text=_say("Say how many pins you have (P)"))
    if fit.lay_out:
        yield _head("lay-out", _say("Lay out without pins"))
    for row in fit.lay_out:
        yield Line(key=f"part:{row.part}", kind=LineKind.PART, text=row.text, about=(row.part,))
    if fit.flow:
        yield _head("flow", fit.flow)
    for on in fit.rounds:
        yield from _round(on)


def _round(on: RoundRow) -> Iterator[Line]:
    yield _head(f"round:{on.number}", on.title)
    for pin in on.pins:
        key = f"pin:{on.number}:{pin.joint}"
        yield Line(key=key, kind=LineKind.PIN, text=pin_words(pin), about=(pin.joint,))
    for clip in on.clips:
        text = _say("{0}: a clip or a tie, there is no pin left").format(clip.name)
        key = f"clip:{on.number}:{clip.joint}"
        yield Line(key=key, kind=LineKind.PIN, text=text, about=(clip.joint,))
    yield _head(f"looks:{on.number}", _say("Look at it"))
    for look in on.looks:
        yield Line(
            key=f"look:{look.id}",
            kind=LineKind.LOOK,
            text=look_words(look),
            about=look.about,
            look=look,
        )


def _head(key: str, text: str) -> Line:
    return Line(key=f"head:{key}", kind=LineKind.HEAD, text=text)


def _found(found: tuple[str, ...]) -> Iterator[Line]:
    if not found:
        return
    yield _head("found", _say("Found"))
    for number, words in enumerate(found):
        yield Line(key=f"found:{number}", kind=LineKind.SAID, text=f"\N{BULLET} {words}")
    text = _say(
        "Write it into the next version of the pattern: holes moved, or looked for next time"
    )
    yield Line(key="correct", kind=LineKind.CORRECT, text=text)


def _end(fit: PieceFit, ticked: frozenset[str], waits: str) -> Iterator[Line]:
    looks = [look for on in fit.rounds for look in on.looks]
    left = sum(f"look:{look.id}" not in ticked for look in looks)
    yield _head("end", _say("Then"))
    sign = _say("Sign off the dry fit: what is permanent may begin")
    if not fit.rounds:
        sign = _say("Sign off the fit on the wearer")
    if left:
        count = (
            _say("1 look not ticked") if left == 1 else _say("{0} looks not ticked").format(left)
        )
        sign = f"{sign} – {count}"
    if waits:
        sign = f"{sign} – {_say('too early, it waits for: {0}').format(waits)}"
    yield Line(key="sign-off", kind=LineKind.SIGN_OFF, text=sign)
    yield Line(
        key="waive",
        kind=LineKind.WAIVE,
        text=_say("Leave this fit out, with a note why: the pattern was proven before"),
    )


def waits_of(card: BenchCard) -> str:
    """Return for what a fit waits yet; empty where its time has come."""
    return card.waits_for if card.state is BenchState.WAITING else ""


def looked_steps(fit: PieceFit, ticked: Iterable[str]) -> tuple[str, ...]:
    """Return the steps that are done by looks that were ticked: they go with the sign-off."""
    keys = frozenset(ticked)
    looks = (look for on in fit.rounds for look in on.looks)
    return tuple(look.step for look in looks if look.step and f"look:{look.id}" in keys)


def likeliest_fit(plan: DryFitPlan, step: str, parts: Iterable[str]) -> int:
    """Return the number of the fit that is chosen, else of one of the chosen parts, else the first."""
    chosen = frozenset(parts)
    places = [n for n, fit in enumerate(plan.fits) if fit.step == step]
    tried = (
        n
        for n, fit in enumerate(plan.fits)
        if not chosen.isdisjoint(row.part for row in fit.lay_out)
    )
    return next(iter(places), next(tried, 0))


def lit_by(fit: PieceFit, line: Line, diagram: Diagram) -> Selection:
    """Return what lights up with a line: its fit's step, its parts, its joints."""
    about = frozenset(line.about)
    return Selection(
        steps=(fit.step,),
        parts=tuple(part.id for part in diagram.parts if part.id in about),
        joints=tuple(joint.id for joint in diagram.joints if joint.id in about),
    )


def pin_words(pin: PinRow) -> str:
    """Say a pin: where it goes, which it is, and that it may be left out or is hard to get at."""
    text = _say("{0}. {1}: {2}, into {3} mm").format(
        pin.number, pin.name, pin.pin_name, f"{pin.hole_mm:g}"
    )
    if pin.is_extra:
        text = f"{text} {_say('(may be left out)')}"
    return f"{text} {_say('▲ a hand hardly gets there')}" if pin.is_stuck else text


def look_words(look: Look) -> str:
    """Say a look with its kind, and where it is looked at on the wearer."""
    kind = _say(look.kind.value).capitalize()
    where = f"{kind}, {_say('on the wearer')}" if look.on_wearer else kind
    return f"{where}: {look.text}"


def pins_words(fit: PieceFit) -> str:
    """Say how many pins are owned of those that all of it takes at once."""
    if fit.pins_owned is None:
        return _say("Nobody said how many pins are owned; as many as wanted are reckoned with.")
    told = _say("{0} pins that fit are owned; all of it at once takes {1}.")
    return told.format(fit.pins_owned, fit.pins_needed)


def first_line(lines: tuple[Line, ...]) -> int:
    """Return the line with which a fit begins: the first that is ticked off, else what can be done."""
    ticked = (n for n, line in enumerate(lines) if line.kind in TICKED)
    return next(ticked, next_line(lines, -1, 1))


def next_line(lines: tuple[Line, ...], at: int, by: int) -> int:
    """Return the next line that can be taken in hand, past the last the first; ``by`` is 1 or -1."""
    places = [n for n, line in enumerate(lines) if line.kind not in READ]
    if not places:
        return at
    ahead = [n for n in (places if by > 0 else reversed(places)) if (n - at) * by > 0]
    return ahead[0] if ahead else places[0 if by > 0 else -1]
