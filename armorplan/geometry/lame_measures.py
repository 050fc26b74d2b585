"""All that chains of lames tell: each movement, each two neighbours, pivots, slots, inner leathers."""

from collections.abc import Iterator

from armorplan.geometry.lame_chains import Chain, declared_chains, found_chains
from armorplan.geometry.lame_leathers import leather_measures
from armorplan.geometry.lame_links import links
from armorplan.geometry.lame_nesting import nesting_measures
from armorplan.geometry.lame_overlaps import overlap_measure
from armorplan.geometry.lame_pivots import pivot_measures
from armorplan.geometry.lame_slots import slot_measures
from armorplan.geometry.lame_sums import chain_measure
from armorplan.geometry.measures import Measure
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.shelf import Shelf


def _of_chain(pattern: Pattern, chain: Chain, shelf: Shelf) -> Iterator[Measure]:
    yield chain_measure(chain, shelf.constants)
    for turn in chain.turns:
        told = overlap_measure(
            turn, f"lames:{chain.id}:{turn.upper}-{turn.lower}", shelf.constants
        )
        if told is not None:
            yield told
        yield from slot_measures(pattern, turn, chain.id)
    yield from leather_measures(pattern, chain)


def lame_measures(pattern: Pattern, shelf: Shelf) -> Iterator[Measure]:
    """Yield what lames and their pivots tell, sound or not; an unsound drawing tells less."""
    held = links(pattern)
    chains = (*declared_chains(pattern, held), *found_chains(pattern, held))
    for chain in chains:
        yield from _of_chain(pattern, chain, shelf)
    hung = {turn.link.key: turn.link for c in chains for turn in c.turns if turn.link}
    yield from pivot_measures(pattern, hung, shelf.constants)
    yield from nesting_measures(hung, shelf.constants)
