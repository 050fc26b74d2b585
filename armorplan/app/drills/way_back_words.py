"""What is said of an exercise about ways back: what is known, what a way costs, why it is none."""

from collections.abc import Iterator

from armorplan.app.derived import Derived
from armorplan.app.drills.reasons import because_of, listed_steps
from armorplan.app.drills.way_back_options import MARGIN_MIN, MARGIN_SHARE, Option
from armorplan.app.drills.way_back_trouble import Trouble
from armorplan.app.mending import WAY_BACK
from armorplan.app.way_back_rows import WayBack
from armorplan.app.ways_back_words import takes_words
from armorplan.kernel.units import HOUR_MIN, span_words
from armorplan.orders.recovery.from_build import Stated
from armorplan.orders.recovery.model import Bar, Rates
from armorplan.orders.recovery.salvaging import told_of
from armorplan.orders.recovery.scene import RecoveryScene
from armorplan.orders.recovery.too_late import telling
from armorplan.practice.drill import Because
from armorplan.relations.model import Quantity

QUESTION = "Which way back costs the least, and does lead back?"
NAME = "The way back"
_SOURCE = "common practice, no source"
_NAMED = 3
_PCT = 100


def given_words(
    derived: Derived, scene: RecoveryScene, state: Stated, trouble: Trouble
) -> Iterator[str]:
    """Yield what is known: what is done, what went wrong, and what counts as cheap."""
    done = sorted(state.stands, key=lambda one: (derived.place.get(one, 0), one))
    last = listed_steps(derived, done[-_NAMED:])
    yield f"{len(done)} of {len(derived.order)} steps are done, the last of them {last}."
    if trouble.late:
        yield f"'{scene.step(trouble.early).title}' was done too soon. Left out: {_late_words(derived, state)}."
    yield from (told_of(scene, one) for one in state.amiss)
    yield weighed_words(scene.rates)


def _late_words(derived: Derived, state: Stated) -> str:
    late = [one.step for one in state.stuck if not one.harder] or [s.step for s in state.stuck]
    more = len(late) - _NAMED
    return listed_steps(derived, late[:_NAMED]) + (f" and {more} more" if more > 0 else "")


def weighed_words(rates: Rates) -> str:
    """Return how unlike things are weighed, and how far a right way may be dearer."""
    return (
        f"What counts: minutes at the bench; an hour of waiting as {rates.per_wait_min * HOUR_MIN:g} of "
        "them; what may be spoilt by its share. A move that goes wrong more often than "
        f"{rates.most_risk_pct:g} % is taken only where nothing else leads back. A way that is dearer by no "
        f"more than {MARGIN_MIN:g} min, or by {MARGIN_SHARE * _PCT:g} %, is right as well."
    )


def late_bar(scene: RecoveryScene, state: Stated, trouble: Trouble) -> Bar | None:
    """Return what bars what was left out: by the rule asked about, if it does; ``None``: leather is spoilt."""
    if state.amiss:
        return None
    bars = [bar for one in state.stuck for bar in telling(scene, one)]
    mine = (bar for bar in bars if scene.rule_of(bar) == trouble.rule)
    return next(mine, bars[0]) if bars else None


def hint_words(state: Stated, bar: Bar | None) -> str:
    """Return what decides it, without naming an answer."""
    if bar is not None:
        return f"{bar.why} Ask of each way whether it takes that away, or lives with it."
    losses = [move.cost.loss_min for move in state.problem.moves]
    return (
        f"If it is spoilt, making it anew takes {span_words(round(max(losses, default=0.0)))}, waiting "
        "weighed in: what a way risks counts by that. And look how far each way is good for."
    )


def cost_words(way: WayBack, rates: Rates) -> str:
    """Return what the price of a way is made of, in minutes."""
    waits = way.wait_min * rates.per_wait_min
    bits = [f"{_min(way.minutes)} min at the bench"]
    if way.wait_min >= 1:
        bits.append(f"{span_words(round(way.wait_min))} of waiting counted as {_min(waits)}")
    at_risk = way.price - way.minutes - waits
    if _min(at_risk) != "0":
        bits.append(f"what may be spoilt as {_min(at_risk)}")
    return f"{', '.join(bits)}: {_min(way.price)} min in all"


def _min(minutes: float) -> str:
    return f"{round(minutes, 1) + 0.0:g}"


def leading_words(option: Option, best: Option, rates: Rates) -> str:
    """Return what a way that leads back is worth beside the cheapest."""
    way, least = option.way, best.way
    if option is best:
        return f"No way costs less: {cost_words(way, rates)}."
    if option.right:
        more = _min(way.price - least.price)
        return (
            f"It is {more} min dearer than the cheapest, '{least.title}', and that is close enough: "
            f"{cost_words(way, rates)}."
        )
    stays = f" And it stays for good: {' '.join(way.leaves[:1])}" if way.leaves else ""
    if way.is_risky:
        return (
            f"It does lead back, but {way.risk_pct:.0f} times in a hundred it goes wrong, and no move that "
            f"does so more than {rates.most_risk_pct:g} times is taken where another way leads back. "
            f"'{least.title}' does: "
            f"{takes_words(least)}.{stays}"
        )
    return (
        f"It does lead back, but it is {_min(way.price - least.price)} min dearer than it need be: "
        f"{cost_words(way, rates)}. '{least.title}' comes to {cost_words(least, rates)}.{stays}"
    )


def reasons_for(
    derived: Derived, scene: RecoveryScene, late: Bar | None, options: tuple[Option, Option]
) -> tuple[Because, ...]:
    """Return why an option is right or not: what bars it, or what it costs; then why it came to that.

    Args:
        derived: the build.
        scene: the same as ways back are looked for in it.
        late: what bars what was left out; ``None`` where leather is spoilt.
        options: the one that was chosen, and the cheapest.
    """
    option, best = options
    bars = [*option.bars[:1], *((late,) if late else ())]
    told = [because_of(derived, scene.told[bar.id]) for bar in bars]
    if option.leads:
        told.insert(0, _price_because(option, best, scene.rates))
    elif not option.bars:
        told.insert(0, _way_back(option.why))
    return tuple({(one.rule, one.text): one for one in told}.values())


def _way_back(text: str, *numbers: Quantity) -> Because:
    said = tuple(f"{one.name} {_min(one.value)} {one.unit}" for one in numbers)
    return Because(
        rule=WAY_BACK, name=NAME, text=text, source=_SOURCE, numbers=said, exact=numbers
    )


def _price_because(option: Option, best: Option, rates: Rates) -> Because:
    numbers = [Quantity(name="the cheapest way", value=best.way.price, unit="min")]
    if option is not best:
        numbers.append(Quantity(name="this way", value=option.way.price, unit="min"))
    return _way_back(leading_words(option, best, rates), *numbers)


def others_words(options: tuple[Option, ...], best: Option) -> str:
    """Say what else is right; empty where nothing is."""
    also = [f"'{one.way.title}'" for one in options if one.right and one is not best]
    if not also:
        return ""
    return f"{' and '.join(also)} {'is' if len(also) == 1 else 'are'} hardly dearer, and right as well."
