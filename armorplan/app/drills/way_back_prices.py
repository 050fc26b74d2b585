"""What a way back takes, in the whole numbers that stand beside it, and what these come to.

An exercise is judged by the search's own prices; a way is offered only where whoever reckons with
what is told comes to the same.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from armorplan.app.way_back_rows import WayBack
from armorplan.app.ways_back_words import hardware_words
from armorplan.kernel.units import HOUR_MIN, span_words
from armorplan.orders.recovery.model import Rates

MARGIN_MIN, MARGIN_SHARE = 3.0, 0.1
"""A way dearer than the cheapest by no more than this, or by this share of it, is right as well."""
PCT = 100
_HOURS_FROM_MIN = 4 * HOUR_MIN


def most_right(least: float) -> float:
    """Return up to which price a way is right, where the cheapest costs so much."""
    return least + max(MARGIN_MIN, MARGIN_SHARE * least)


@dataclass(frozen=True, slots=True, kw_only=True)
class Takes:
    """What a way takes, as it is told.

    Attributes:
        bench_min: hands-on.
        wait_min: that time alone takes; ``waiting`` is what that counts as.
        risk_pct: so often something goes wrong; ``lost_min`` is what is lost then on average.
        most_risk_pct: so often its riskiest move does.
    """

    bench_min: int
    wait_min: int
    waiting: int
    risk_pct: int
    lost_min: int
    most_risk_pct: float

    @property
    def at_risk(self) -> int:
        """What may be lost, by its share."""
        return round(self.lost_min * self.risk_pct / PCT)

    @property
    def in_all(self) -> int:
        """What it comes to, in minutes at the bench."""
        return self.bench_min + self.waiting + self.at_risk


def takes_of(way: WayBack, rates: Rates) -> Takes:
    """Return what a way takes; its price is that of its moves, whether or not it leads back."""
    wait_min = _said_min(way.wait_min)
    at_risk = max(way.price - way.minutes - way.wait_min * rates.per_wait_min, 0.0)
    risk_pct = max(round(way.risk_pct), 1) if round(at_risk) else 0
    return Takes(
        bench_min=round(way.minutes),
        wait_min=wait_min,
        waiting=round(wait_min * rates.per_wait_min),
        risk_pct=risk_pct,
        lost_min=round(PCT * at_risk / risk_pct) if risk_pct else 0,
        most_risk_pct=max((move.risk_pct for move in way.moves), default=0.0),
    )


def _said_min(wait_min: float) -> int:
    """Return a wait as it is said: a long one in whole hours."""
    return (
        round(wait_min / HOUR_MIN) * HOUR_MIN if wait_min >= _HOURS_FROM_MIN else round(wait_min)
    )


def is_told_alike(way: WayBack, rates: Rates) -> bool:
    """Tell whether it is called risky just where one of the moves that are told is."""
    return way.is_risky is (takes_of(way, rates).most_risk_pct > rates.most_risk_pct)


def told_words(way: WayBack, rates: Rates) -> str:
    """Return what a way takes, in all that is needed to reckon what it comes to."""
    takes = takes_of(way, rates)
    bits = [_bench_words(takes), *([_wait_words(takes)] if takes.wait_min else [])]
    risk = _risk_words(takes, rates)
    used = hardware_words(way.hardware)
    bits += [f"goes wrong {risk}" if risk else "hardly ever goes wrong"]
    bits += [f"uses up {used}"] if used else []
    return f"Takes {', '.join(bits)}."


def _bench_words(takes: Takes) -> str:
    return f"{takes.bench_min} min at the bench"


def _wait_words(takes: Takes) -> str:
    return f"{span_words(takes.wait_min)} of waiting"


def _risk_words(takes: Takes, rates: Rates) -> str:
    if not takes.risk_pct:
        return ""
    words = often_words(takes.risk_pct)
    if takes.most_risk_pct <= rates.most_risk_pct < takes.risk_pct:
        words += f", no one move more often than {takes.most_risk_pct:.0f}"
    return f"{words} ({takes.lost_min} min are lost then)"


def often_words(risk_pct: int) -> str:
    """Return how often something goes wrong: ``once in a hundred``, ``15 times in a hundred``."""
    return "once in a hundred" if risk_pct == 1 else f"{risk_pct} times in a hundred"


def sum_words(takes: Takes, *, waiting: int | None = None, at_risk: int | None = None) -> str:
    """Return how a way is reckoned: each of what it takes with what that counts as, and the sum.

    Args:
        takes: what it takes.
        waiting: counted as that instead; 0: left out.
        at_risk: the same of what may be lost.
    """
    waits = takes.waiting if waiting is None else waiting
    risks = takes.at_risk if at_risk is None else at_risk
    bits = [_bench_words(takes)]
    if takes.wait_min and (waits or waiting is None):
        bits.append(f"{_wait_words(takes)} as {waits}")
    if takes.risk_pct and (risks or at_risk is None):
        bits.append(f"{often_words(takes.risk_pct)} {takes.lost_min} min as {risks}")
    return f"{', '.join(bits)}: {takes.bench_min + waits + risks} min in all"


def untrue_sums(takes: Takes, rates: Rates) -> Iterator[tuple[str, str]]:
    """Yield how a way might be reckoned wrongly, and what is wrong with it."""
    hour = f"{rates.per_wait_min * HOUR_MIN:g}"
    if takes.waiting:
        why = f"An hour of waiting counts as {hour} min, since nobody has to stand by."
        yield sum_words(takes, waiting=takes.wait_min), why
    if takes.at_risk:
        why = f"It goes wrong only {often_words(takes.risk_pct)}: that share of the loss counts."
        yield sum_words(takes, at_risk=takes.lost_min), why
    if takes.waiting:
        yield sum_words(takes, waiting=0), f"Waiting counts as well: an hour as {hour} min."
    if takes.at_risk:
        yield sum_words(takes, at_risk=0), "What may be lost counts as well, by its share."


def all_words(numbers: Sequence[int]) -> str:
    """Return sums as a list: ``31, 206 and 544 min``."""
    said = [str(one) for one in numbers]
    return f"{' and '.join(filter(None, (', '.join(said[:-1]), said[-1])))} min"
