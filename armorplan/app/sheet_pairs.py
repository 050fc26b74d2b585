"""Steps of left and right that stand in one line of a bench sheet, with two boxes."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from armorplan.app.reports import StepReport
from armorplan.assembly.model import Side
from armorplan.steps.model import Step


@dataclass(frozen=True, slots=True, kw_only=True)
class Numbered:
    """A step with where it stands, and what is said of it."""

    number: int
    step: Step
    report: StepReport


def pairs_of(
    run: Sequence[Numbered],
    detail_of: Callable[[Step], str],
    *,
    is_timed: Callable[[Step], bool] = lambda _step: False,
) -> list[tuple[Numbered, ...]]:
    """Return steps that left and right have alike together, the left first; others by themselves.

    Args:
        run: steps that follow each other.
        detail_of: what is to know of a step; of both it has to be the same.
        is_timed: a step has to be begun by the clock. It stands with its twin only where nothing
            else comes between: the lines of a run are then in the order of the clock.
    """
    found: dict[tuple[str, str], list[Numbered]] = {}
    for one in run:
        is_sided = one.step.side is not Side.SINGLE
        key = (plain(one.step.title) if is_sided else one.step.title, _group(one.step))
        found.setdefault(key, []).append(one)
    pairs: list[tuple[Numbered, ...]] = []
    for some in found.values():
        sides = [one.step.side for one in some]
        is_pair = sorted(sides) == [Side.LEFT, Side.RIGHT] and _alike(some, detail_of)
        if is_pair and (_are_neighbours(some) or not any(is_timed(one.step) for one in some)):
            pairs.append(tuple(sorted(some, key=lambda one: one.step.side)))
        else:
            pairs += [(one,) for one in some]
    return sorted(pairs, key=lambda pair: min(one.number for one in pair))


def _group(step: Step) -> str:
    return "" if step.side is not Side.SINGLE else step.id


def _are_neighbours(pair: list[Numbered]) -> bool:
    one, other = pair
    return abs(one.number - other.number) == 1


def _alike(pair: list[Numbered], detail_of: Callable[[Step], str]) -> bool:
    one, other = (each.step for each in pair)
    is_told_alike = plain(detail_of(one)) == plain(detail_of(other))
    return is_told_alike and one.minutes == other.minutes and one.attended == other.attended


def plain(title: str) -> str:
    """Return words without a side."""
    return title.replace(" (left)", "").replace(" (right)", "")
