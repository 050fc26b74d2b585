"""What is said of an exercise about ways back: what is known, what a way costs, why it is none."""

from collections.abc import Collection, Iterable, Iterator, Sequence

from armorplan.app.derived import Derived
from armorplan.app.drills.reasons import because_of, listed_steps
from armorplan.app.drills.way_back_choices import Option
from armorplan.app.drills.way_back_limits import known_words
from armorplan.app.drills.way_back_prices import (
    MARGIN_MIN,
    MARGIN_SHARE,
    PCT,
    all_words,
    sum_words,
    takes_of,
)
from armorplan.app.drills.way_back_trouble import Trouble
from armorplan.app.mending import WAY_BACK
from armorplan.app.way_back_rows import WayBack
from armorplan.kernel.units import HOUR_MIN
from armorplan.orders.recovery.from_build import Stated
from armorplan.orders.recovery.model import Bar, Rates
from armorplan.orders.recovery.salvaging import told_of
from armorplan.orders.recovery.scene import RecoveryScene
from armorplan.orders.recovery.too_late import telling
from armorplan.practice.drill import Because
from armorplan.relations.model import Quantity
from armorplan.workshop.salvages import Salvage

QUESTION = "Which way back costs the least, and does lead back?"
NAME = "The way back"
_SOURCE = "common practice, no source"
_NAMED = 3


def given_words(
    derived: Derived,
    scene: RecoveryScene,
    state: Stated,
    trouble: Trouble,
    salvages: Collection[Salvage],
) -> Iterator[str]:
    """Yield what is known: what is done, what went wrong, what tells which of some salvages will do, what counts."""
    done = sorted(state.stands, key=lambda one: (derived.place.get(one, 0), one))
    last = listed_steps(derived, done[-_NAMED:])
    yield f"{len(done)} of {len(derived.order)} steps are done, the last of them {last}."
    if trouble.late:
        yield f"'{scene.step(trouble.early).title}' was done too soon. Left out: {_late_words(derived, state)}."
    for one in state.amiss:
        yield told_of(scene, one)
        yield from known_words(scene, one, state.stands, salvages)
    yield weighed_words(scene.rates)


def _late_words(derived: Derived, state: Stated) -> str:
    late = [one.step for one in state.stuck if not one.harder] or [s.step for s in state.stuck]
    more = len(late) - _NAMED
    return listed_steps(derived, late[:_NAMED]) + (f" and {more} more" if more > 0 else "")


def weighed_words(rates: Rates) -> str:
    """Return how unlike things are weighed, and how far a right way may be dearer."""
    return (
        f"What counts: minutes at the bench; an hour of waiting as {rates.per_wait_min * HOUR_MIN:g} of "
        "them; of what is lost when it goes wrong its share, so of 90 min that are lost 10 times in a "
        f"hundred 9{'' if rates.per_money else '; not what is used up'}. A way with a move that goes wrong more than {rates.most_risk_pct:g} times in a "
        "hundred is taken only where nothing else leads back. A way that is dearer by no "
        f"more than {MARGIN_MIN:g} min, or by {MARGIN_SHARE * PCT:g} %, is right as well."
    )


def late_bar(scene: RecoveryScene, state: Stated, trouble: Trouble) -> Bar | None:
    """Return what bars what was left out: by the rule asked about, if it does; ``None``: leather is spoilt."""
    if state.amiss:
        return None
    bars = [bar for one in state.stuck for bar in telling(scene, one)]
    mine = (bar for bar in bars if scene.rule_of(bar) == trouble.rule)
    return next(mine, bars[0]) if bars else None


def hint_words(bar: Bar | None, rates: Rates) -> str:
    """Return what decides it, without naming an answer."""
    reckon = (
        f"Reckon those: minutes at the bench, {rates.per_wait_min * HOUR_MIN:g} for each hour of waiting, "
        "and what is lost by its share."
    )
    if bar is not None:
        return f"{bar.why} Ask of each way whether it takes that away, or lives with it. {reckon}"
    return (
        "Look first how far each way is good, and whether one of its moves goes wrong too often. "
        f"{reckon}"
    )


def sentence_of(option: Option, best: Option, rates: Rates) -> str:
    """Return what a way is worth, in a sentence; how it comes to that stands in its reason."""
    mine, least = (takes_of(one.way, rates).in_all for one in (option, best))
    if option is best:
        return f"Right: it comes to about {mine} min, and no way costs less."
    if option.right:
        return (
            f"Right: it comes to about {mine} min. '{best.way.title}' comes to about {least}, and that "
            "is near enough."
        )
    if not option.leads:
        return f"It does not lead back. {option.why} '{best.way.title}' does."
    if option.way.is_risky:
        return f"It does lead back, but it is too risky. '{best.way.title}' leads back as well."
    return f"It does lead back, but comes to about {mine} min. '{best.way.title}' comes to about {least}."


def leading_words(option: Option, options: Sequence[Option], rates: Rates) -> str:
    """Return what a way that leads back is worth beside the cheapest, both by the same numbers."""
    best = cheapest(options)
    way, mine = option.way, sum_words(takes_of(option.way, rates))
    if option is best:
        return (
            f"No way costs less than '{way.title}': {mine}.{_others_come_to(options, best, rates)}"
        )
    least = f"'{best.way.title}' comes to {sum_words(takes_of(best.way, rates))}."
    if option.right:
        return f"'{way.title}' is hardly dearer than the cheapest: {mine}. {least}"
    stays = _stays_words(way)
    if way.is_risky:
        return (
            f"A move of '{way.title}' goes wrong {takes_of(way, rates).most_risk_pct:.0f} times in a "
            f"hundred, and more than {rates.most_risk_pct:g} is taken only where nothing else leads "
            f"back. {least}{stays}"
        )
    return f"'{way.title}' costs more than it need: {mine}. {least}{stays}"


def halting_words(option: Option, options: Sequence[Option], rates: Rates) -> str:
    """Return what a way that does not lead back comes to all the same, and the cheapest that does."""
    mine, best = sum_words(takes_of(option.way, rates)), cheapest(options)
    return (
        f"'{option.way.title}' comes to {mine}, and does not lead back. Of those that do none costs "
        f"less than '{best.way.title}': {sum_words(takes_of(best.way, rates))}."
    )


def _stays_words(way: WayBack) -> str:
    """Say what stays for good; what a step that comes late does not heed is told as its reason."""
    reasons = {text for move in way.moves for text in move.in_spite_of}
    stays = [one for one in way.leaves if one not in reasons]
    return f" And for good: {stays[0]}" if stays else ""


def cheapest(options: Iterable[Option]) -> Option:
    """Return the cheapest way that is right."""
    return min((one for one in options if one.right), key=lambda one: one.way.price)


def _others_come_to(options: Sequence[Option], best: Option, rates: Rates) -> str:
    """Say what the other ways that lead back come to; nothing where there is none."""
    others = [one for one in options if one.leads and one is not best and not one.way.is_risky]
    sums = sorted(takes_of(one.way, rates).in_all for one in others)
    if not sums:
        return " No other one leads back as mildly."
    which = (
        "The other one that leads back comes"
        if len(sums) == 1
        else "The others that lead back come"
    )
    return f" {which} to {all_words(sums)}."


def reasons_for(
    derived: Derived,
    scene: RecoveryScene,
    late: Bar | None,
    option: Option,
    options: Sequence[Option],
) -> tuple[Because, ...]:
    """Return why an option is right or not: what bars it, or what it costs; then why it came to that.

    Of one that does not lead back also what it and the cheapest come to: who chose it learns the sum.

    Args:
        derived: the build.
        scene: the same as ways back are looked for in it.
        late: what bars what was left out; ``None`` where leather is spoilt.
        option: the one that was chosen.
        options: all that are offered.
    """
    bars = [*option.bars[:1], *((late,) if late else ())]
    told = [because_of(derived, scene.told[bar.id]) for bar in bars]
    if option.leads:
        told.insert(0, _price_because(option, options, scene.rates))
    else:
        sums = halting_words(option, options, scene.rates)
        told = (
            [*told, _way_back(sums)] if option.bars else [_way_back(f"{option.why} {sums}"), *told]
        )
    return tuple({(one.rule, one.text): one for one in told}.values())


def _way_back(text: str, *numbers: Quantity) -> Because:
    said = tuple(f"{one.name} {one.value:.0f} {one.unit}" for one in numbers)
    return Because(
        rule=WAY_BACK, name=NAME, text=text, source=_SOURCE, numbers=said, exact=numbers
    )


def _price_because(option: Option, options: Sequence[Option], rates: Rates) -> Because:
    best = cheapest(options)
    numbers = [Quantity(name="the cheapest way", value=best.way.price, unit="min")]
    if option is not best:
        numbers.append(Quantity(name="this way", value=option.way.price, unit="min"))
    return _way_back(leading_words(option, options, rates), *numbers)


def others_words(options: tuple[Option, ...], best: Option) -> str:
    """Say what else is right; empty where nothing is."""
    also = [f"'{one.way.title}'" for one in options if one.right and one is not best]
    if not also:
        return ""
    return f"{' and '.join(also)} {'is' if len(also) == 1 else 'are'} hardly dearer, and right as well."
