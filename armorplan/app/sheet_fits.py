"""The dry fits of a build for its bench sheet: lay-out, pins in order, what to look at."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from armorplan.app.derived import Derived
from armorplan.app.dry_fit_rows import PieceFit
from armorplan.app.fit_asking import FitAsking
from armorplan.app.fit_lay_out import LayOutRow
from armorplan.app.fit_pins import PinRow
from armorplan.app.fit_rounds import RoundRow
from armorplan.app.sheet_pairs import Numbered, plain
from armorplan.sheets.bench_sheet_model import FitRound, SheetFit
from armorplan.workshop.pins import PinEntry

_BELOW = "right after this step"


@dataclass(frozen=True, slots=True, kw_only=True)
class StepFit:
    """The dry fit that a step is, or the steps of left and right.

    Attributes:
        steps: ids.
        pins: by round how many of each size it needs; those that may be left out are not counted.
        clips: so many places are held by clips or ties in the round that has most of them.
    """

    steps: tuple[str, ...]
    sheet: SheetFit
    pins: tuple[Mapping[str, int], ...]
    clips: int


class RunFits:
    """Which dry fits are told at which run of steps: each once, where it is first led through."""

    def __init__(self, fits: Sequence[StepFit]) -> None:
        self._fits = {step: fit for fit in fits for step in fit.steps}
        self._told: dict[str, str] = {}

    def of(self, run: Sequence[Numbered]) -> tuple[SheetFit, ...]:
        """Return what is told at a run."""
        here = {one.step.id for one in run}
        found = []
        for one in run:
            fit = self._fits.get(one.step.id)
            if fit is None or one.step.id in self._told:
                continue
            for step in fit.steps:
                self._told[step] = _BELOW if step in here else f"as at step {one.number}"
            found.append(fit.sheet)
        return tuple(found)

    def words(self, step: str) -> str:
        """Return where the dry fit of a step is told; empty for other steps."""
        told = self._told.get(step)
        return f"Pins, rounds and what to look at: {told}." if told else ""


def fits_of(derived: Derived, pins: tuple[PinEntry, ...] | None = None) -> tuple[StepFit, ...]:
    """Return the dry fits in order; those of left and right that are alike once, for both.

    Args:
        derived: the build.
        pins: the sizes as they are owned by now; ``None``: as its shelf says.
    """
    alike: dict[tuple[object, ...], list[PieceFit]] = {}
    for fit in FitAsking(derived=derived, pins=pins).at_once().fits:
        alike.setdefault(_shape(fit), []).append(fit)
    return tuple(map(_step_fit, alike.values()))


def _step_fit(some: list[PieceFit]) -> StepFit:
    rounds = some[0].rounds
    return StepFit(
        steps=tuple(fit.step for fit in some),
        sheet=_fit(some[0], is_pair=len(some) > 1),
        pins=tuple(Counter(pin.pin for pin in r.pins if not pin.is_extra) for r in rounds),
        clips=max((len(one.clips) for one in rounds), default=0),
    )


def _shape(fit: PieceFit) -> tuple[object, ...]:
    """Return what left and right have alike."""
    rounds = tuple(
        (tuple((pin.pin, plain(pin.name)) for pin in one.pins), len(one.looks))
        for one in fit.rounds
    )
    return plain(fit.title), rounds


def _fit(fit: PieceFit, *, is_pair: bool) -> SheetFit:
    words = [plain(one) for one in fit.words] if is_pair else list(fit.words)
    if is_pair:
        words.insert(0, "Left and right alike, each the mirror image of the other.")
    return SheetFit(
        title=plain(fit.title) if is_pair else fit.title,
        words=tuple(filter(None, (*words, fit.flow))),
        lay_out=tuple(_of_either(row) if is_pair else row.text for row in fit.lay_out),
        rounds=tuple(_round(one, is_pair=is_pair) for one in fit.rounds),
        boxes=("L", "R") if is_pair else ("",),
    )


def _of_either(row: LayOutRow) -> str:
    """Return what is said of a part of the left so that it is true of the right as well."""
    text = plain(row.text)
    return text.replace(f"the {row.hand} one", "the one of its side") if row.hand else text


def _pin_text(pin: PinRow) -> str:
    extra = " (may be left out)" if pin.is_extra else ""
    return f"{pin.number}. {pin.name}: {pin.pin_name}{extra}"


def _round(one: RoundRow, *, is_pair: bool) -> FitRound:
    pins = [_pin_text(pin) for pin in one.pins]
    looks = [look.text for look in one.looks]
    if is_pair:
        pins, looks = [plain(pin) for pin in pins], [plain(look) for look in looks]
    return FitRound(title=one.title, pins=tuple(pins), looks=tuple(looks))
