"""All that chains of lames tell: each movement, each two neighbours, pivots, slots, inner leathers."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import NamedTuple

from armorplan.geometry.lame_chains import Chain, Turn, declared_chains, found_chains
from armorplan.geometry.lame_leathers import leather_measures
from armorplan.geometry.lame_links import PairKey, links
from armorplan.geometry.lame_nesting import nesting_measures, swaps
from armorplan.geometry.lame_overlaps import LITTLE_COVER, overlap_measure
from armorplan.geometry.lame_pivots import askew_mm, pivot_measures, skews_of
from armorplan.geometry.lame_slots import slot_measures
from armorplan.geometry.lame_sums import chain_measure
from armorplan.geometry.measures import Measure
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.constants import Constants
from armorplan.workshop.shelf import Shelf


class _Told(NamedTuple):
    """What is told elsewhere: plates by how much their pivots are askew, pairs of swapped lames."""

    askew: Mapping[str, float]
    swapped: frozenset[PairKey]

    def without_what_follows(self, turn: Turn, measure: Measure) -> Measure:
        """Return a measure without the cover that lames in each other's places lack."""
        if turn.link is None or turn.link.key not in self.swapped:
            return measure
        left = tuple(f for f in measure.findings if f.code != LITTLE_COVER)
        return replace(measure, findings=left)


def _of_chain(
    pattern: Pattern, chain: Chain, *, constants: Constants, told: _Told
) -> Iterator[Measure]:
    def forgiven_mm(turn: Turn) -> float:
        """Pivots that soft leather forgives, or that are told already, move the back as much."""
        off = max(told.askew.get(turn.upper, 0.0), told.askew.get(turn.lower, 0.0))
        return constants.soft_play.value / 2 + off

    yield chain_measure(chain, constants)
    for turn in chain.turns:
        name = f"lames:{chain.id}:{turn.upper}-{turn.lower}"
        measure = overlap_measure(turn, name, constants)
        if measure is not None:
            yield told.without_what_follows(turn, measure)
        forgiven = forgiven_mm(turn)
        yield from slot_measures(pattern, turn, chain_id=chain.id, forgiven_mm=forgiven)
    yield from leather_measures(pattern, chain, forgiven_mm)


def lame_measures(pattern: Pattern, shelf: Shelf) -> Iterator[Measure]:
    """Yield what lames and their pivots tell, sound or not; an unsound drawing tells less."""
    constants, held = shelf.constants, links(pattern)
    chains = (*declared_chains(pattern, held), *found_chains(pattern, held))
    hung = {turn.link.key: turn.link for c in chains for turn in c.turns if turn.link}
    skews = skews_of(pattern, hung)
    swapped = tuple(swaps(hung))
    told = _Told(askew_mm(skews, constants), frozenset(k for s in swapped for k in s.links))
    for chain in chains:
        yield from _of_chain(pattern, chain, constants=constants, told=told)
    yield from pivot_measures(skews, hung, constants)
    yield from nesting_measures(hung, swapped, constants)
