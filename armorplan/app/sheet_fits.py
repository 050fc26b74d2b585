"""The dry fits of a build for its bench sheet: lay-out, pins in order, what to look at."""

from collections.abc import Iterator

from armorplan.app.derived import Derived
from armorplan.app.dry_fit_rows import PieceFit, dry_fit_plan
from armorplan.app.fit_lay_out import LayOutRow
from armorplan.app.fit_rounds import RoundRow
from armorplan.sheets.bench_sheet_model import FitRound, SheetFit

_SIDES = (" (left)", " (right)")


def fits_of(derived: Derived) -> Iterator[SheetFit]:
    """Yield the dry fits in order; those of left and right that are alike once, for both."""
    fits = dry_fit_plan(derived).fits
    alike: dict[tuple[object, ...], list[PieceFit]] = {}
    for fit in fits:
        alike.setdefault(_shape(fit), []).append(fit)
    for some in alike.values():
        yield _fit(some[0], is_pair=len(some) > 1)


def _shape(fit: PieceFit) -> tuple[object, ...]:
    """Return what left and right have alike."""
    rounds = tuple(
        (tuple((pin.pin, _plain(pin.name)) for pin in one.pins), len(one.looks))
        for one in fit.rounds
    )
    return _plain(fit.title), rounds


def _plain(text: str) -> str:
    for side in _SIDES:
        text = text.replace(side, "")
    return text


def _fit(fit: PieceFit, *, is_pair: bool) -> SheetFit:
    words = [_plain(one) for one in fit.words] if is_pair else list(fit.words)
    if is_pair:
        words.insert(0, "Left and right alike, each the mirror image of the other.")
    return SheetFit(
        title=_plain(fit.title) if is_pair else fit.title,
        words=tuple(filter(None, (*words, fit.flow))),
        lay_out=tuple(_of_either(row) if is_pair else row.text for row in fit.lay_out),
        rounds=tuple(_round(one, is_pair=is_pair) for one in fit.rounds),
        boxes=("L", "R") if is_pair else ("",),
    )


def _of_either(row: LayOutRow) -> str:
    """Return what is said of a part of the left so that it is true of the right as well."""
    text = _plain(row.text)
    return text.replace(f"{row.hand} hand", "hand of its side") if row.hand else text


def _round(one: RoundRow, *, is_pair: bool) -> FitRound:
    pins = [f"{pin.number}. {pin.name}: {pin.pin_name}" for pin in one.pins]
    looks = [look.text for look in one.looks]
    if is_pair:
        pins, looks = [_plain(pin) for pin in pins], [_plain(look) for look in looks]
    return FitRound(title=one.title, pins=tuple(pins), looks=tuple(looks))
