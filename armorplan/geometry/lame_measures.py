"""All that chains of lames tell: each movement, each two neighbours, pivots, slots, inner leathers."""

from collections.abc import Iterator, Mapping

from armorplan.geometry.lame_chains import Chain, Turn, declared_chains, found_chains
from armorplan.geometry.lame_leathers import leather_measures
from armorplan.geometry.lame_links import links
from armorplan.geometry.lame_nesting import nesting_measures
from armorplan.geometry.lame_overlaps import overlap_measure
from armorplan.geometry.lame_pivots import askew_mm, pivot_measures, skews_of
from armorplan.geometry.lame_slots import slot_measures
from armorplan.geometry.lame_sums import chain_measure
from armorplan.geometry.measures import Measure
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.constants import Constants
from armorplan.workshop.shelf import Shelf


def _of_chain(
    pattern: Pattern, chain: Chain, *, constants: Constants, askew: Mapping[str, float]
) -> Iterator[Measure]:
    def forgiven_mm(turn: Turn) -> float:
        """Pivots that soft leather forgives, or that are told already, move the back as much."""
        off = max(askew.get(turn.upper, 0.0), askew.get(turn.lower, 0.0))
        return constants.soft_play.value / 2 + off

    yield chain_measure(chain, constants)
    for turn in chain.turns:
        told = overlap_measure(turn, f"lames:{chain.id}:{turn.upper}-{turn.lower}", constants)
        if told is not None:
            yield told
        forgiven = forgiven_mm(turn)
        yield from slot_measures(pattern, turn, chain_id=chain.id, forgiven_mm=forgiven)
    yield from leather_measures(pattern, chain, forgiven_mm)


def lame_measures(pattern: Pattern, shelf: Shelf) -> Iterator[Measure]:
    """Yield what lames and their pivots tell, sound or not; an unsound drawing tells less."""
    constants, held = shelf.constants, links(pattern)
    chains = (*declared_chains(pattern, held), *found_chains(pattern, held))
    hung = {turn.link.key: turn.link for c in chains for turn in c.turns if turn.link}
    skews = skews_of(pattern, hung)
    askew = askew_mm(skews, constants)
    for chain in chains:
        yield from _of_chain(pattern, chain, constants=constants, askew=askew)
    yield from pivot_measures(skews, hung, constants)
    yield from nesting_measures(hung, constants)
