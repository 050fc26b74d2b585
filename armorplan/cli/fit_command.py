"""``armorplan fit``: lay-out and dry fit of each piece, with the pins there are."""

from argparse import Namespace
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from textwrap import wrap

from armorplan.app.derived import Derived
from armorplan.app.dry_fit_rows import DryFitPlan, PieceFit
from armorplan.app.fit_asking import FitAsking
from armorplan.app.fit_pins import ClipRow, PinRow
from armorplan.app.fit_rounds import RoundRow
from armorplan.cli.exits import CLEAN
from armorplan.cli.in_shop import derived_for
from armorplan.cli.reading import say, say_json, tell
from armorplan.kernel.errors import ArmorplanError, SolverLostError

_WIDE, _IN = 100, "    "


@dataclass(frozen=True, slots=True, kw_only=True)
class FitReport:
    """What ``--json`` answers."""

    pattern: str
    fits: tuple[PieceFit, ...]


def fit(chosen: Namespace) -> int:
    """Print the dry fits of a build, or fit its pattern to a wearer; return 0.

    Mistakes in the pattern are told as errors.
    """
    if _is_fitting(chosen):
        from armorplan.cli.fitting import fit_to_wearer

        return fit_to_wearer(chosen)
    derived = derived_for(chosen)
    found = _fits(derived, chosen.pins)
    if chosen.json:
        say_json(FitReport(pattern=derived.pattern.name, fits=found.fits))
        return CLEAN
    say(f"{derived.pattern.name}: lay-out and dry fit")
    told: list[tuple[str, ...]] = []
    for piece in found.fits:
        say("")
        title, *lines = _piece(piece)
        say(title)
        if _unsided(lines) in told:
            say(f"{_IN}As that of the other side, its parts mirrored.")
            continue
        told.append(_unsided(lines))
        for line in lines:
            say(line)
    if not found.fits:
        say("Nothing in it is joined: there is no dry fit.")
    return CLEAN


def _is_fitting(chosen: Namespace) -> bool:
    """Tell whether the pattern is fitted to a wearer; options of that alone want one.

    Raises:
        ArmorplanError: one of them is given without.
    """
    asked = {"-o": chosen.output, "--side": chosen.side, "--again": chosen.again}
    given = [option for option, value in asked.items() if value]
    if given and chosen.wearer is None:
        raise ArmorplanError(f"{given[0]} is for a fitting: say with --wearer to whom.")
    return chosen.wearer is not None


def _fits(derived: Derived, most: int | None) -> DryFitPlan:
    """Return the dry fits, as few rounds as the solver proves where counting does not settle it."""
    asking = FitAsking(derived=derived, most=most)
    found = asking.at_once()
    if found.proved:
        return found
    from armorplan.solving.keeper import SolverKeeper

    try:
        with SolverKeeper() as keeper:
            return asking.proved(keeper.solve)
    except SolverLostError as error:
        tell(f"{error} The rounds are as they were found without it.")
        return found


def _piece(piece: PieceFit) -> Iterator[str]:
    yield f"{piece.title}"
    for words in piece.words:
        yield from _wrapped(words)
    yield "  Lay out without pins, up towards the top, the undermost first:"
    for number, row in enumerate(piece.lay_out, start=1):
        yield from _wrapped(f"{number}. {row.text}")
    if piece.flow:
        yield from _wrapped(piece.flow)
    for each in piece.rounds:
        yield from _round(each)


def _unsided(lines: Iterable[str]) -> tuple[str, ...]:
    """Return what is said of a fit, the same for both hands."""
    return tuple(line.replace(": the right one,", ": the left one,") for line in lines)


def _round(told: RoundRow) -> Iterator[str]:
    yield f"  {told.title}"
    names = (*(pin.name for pin in told.pins), *(clip.name for clip in told.clips))
    wide = max(map(len, names), default=0)
    for pin in told.pins:
        yield _pin_line(pin, wide)
    for clip in told.clips:
        yield _clip_line(clip, wide)
    for look in told.looks:
        mark = "[ ] on the wearer: " if look.on_wearer else "[ ] "
        yield from wrap(
            f"{mark}{look.text}", _WIDE, initial_indent=_IN, subsequent_indent=f"{_IN}    "
        )


def _pin_line(pin: PinRow, wide: int) -> str:
    spare = " (may be left out)" if pin.is_extra else ""
    stuck = " (no hand reaches it after the others)" if pin.is_stuck else ""
    return f"{_IN}{pin.number:>2}  {pin.name:<{wide}}  {pin.pin_name}{spare}{stuck}"


def _clip_line(clip: ClipRow, wide: int) -> str:
    return f"{_IN} –  {clip.name:<{wide}}  clip or tie"


def _wrapped(text: str) -> list[str]:
    return wrap(text, _WIDE, initial_indent=_IN, subsequent_indent=f"{_IN}   ")
