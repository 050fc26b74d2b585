"""All that chains of lames tell: each movement, each two neighbours, pivots, slots, inner leathers."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import NamedTuple

from armorplan.geometry.lames.chains import Chain, Turn, declared_chains, found_chains, hung
from armorplan.geometry.lames.gaps import LITTLE_COVER
from armorplan.geometry.lames.hanging import misled
from armorplan.geometry.lames.leathers import leather_measures
from armorplan.geometry.lames.links import links
from armorplan.geometry.lames.nesting import blames, nesting_measures
from armorplan.geometry.lames.overlaps import overlap_measure
from armorplan.geometry.lames.pivots import askew_mm, pivot_measures, skews_of
from armorplan.geometry.lames.radii import radius_findings
from armorplan.geometry.lames.shaped import shaped_measures
from armorplan.geometry.lames.slots import slot_measures
from armorplan.geometry.lames.strip import strip
from armorplan.geometry.lames.sums import chain_measure, summed
from armorplan.geometry.lames.swaps import swap_measures, swaps
from armorplan.geometry.measures import Measure
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.constants import Constants
from armorplan.workshop.shelf import Shelf


class _Told(NamedTuple):
    """What is told elsewhere.

    Attributes:
        askew: plates by how much their pivots are off square.
        swapped: lames in each other's places.
        misleading: of plates that cannot hang as their stacks say.
    """

    askew: Mapping[str, float]
    swapped: frozenset[str]
    misleading: tuple[Measure, ...]

    def without_what_follows(self, turn: Turn, measure: Measure) -> Measure:
        """Return a measure without the cover that lames in each other's places lack."""
        if self.swapped.isdisjoint((turn.upper, turn.lower)):
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

    found: list[Measure] = []
    for turn in chain.turns:
        name = f"lames:{chain.id}:{turn.upper}-{turn.lower}"
        measure = overlap_measure(turn, name, constants)
        if measure is not None:
            picture = strip((turn,), constants)
            found.append(replace(told.without_what_follows(turn, measure), picture=picture))
        forgiven = forgiven_mm(turn)
        found.extend(slot_measures(pattern, turn, chain_id=chain.id, forgiven_mm=forgiven))
    found.extend(leather_measures(pattern, chain, forgiven_mm))
    misleading = (each for each in told.misleading if len({*each.about} & {*chain.parts}) > 1)
    yield summed(chain_measure(chain, constants), [*misleading, *found])
    yield from found


def _with_radius(measure: Measure, radius: Finding | None, *, told: bool) -> Measure:
    """Return what pivots tell, with a bend that says another radius; of some that is told already."""
    if radius is None and not told:
        return measure
    verdict = measure.verdict if measure.findings else "its bend says another radius"
    if radius is None or told:
        return replace(measure, verdict=verdict, carries=Severity.NOTE)
    return replace(measure, verdict=verdict, findings=(*measure.findings, radius))


def lame_measures(pattern: Pattern, shelf: Shelf) -> Iterator[Measure]:
    """Yield what lames and their pivots tell, sound or not; an unsound drawing tells less."""
    constants, held = shelf.constants, hung(pattern, links(pattern))
    bad, misleading = misled(pattern, held)
    sound = {key: link for key, link in held.items() if key not in bad}
    skews, swapped = skews_of(pattern, held), tuple(swaps(sound))
    told = _Told(
        askew=askew_mm(skews, constants),
        swapped=frozenset(part for swap in swapped for part in swap.parts),
        misleading=misleading,
    )
    for chain in (*declared_chains(pattern, sound), *found_chains(pattern, sound)):
        yield from _of_chain(pattern, chain, constants=constants, told=told)
    yield from misleading
    explained = {key for swap in swapped for key in swap.links}
    blamed = blames(pattern, sound, constants)
    by_bend = {
        each.seat.part.id
        for key, each in blamed.items()
        if key not in explained and each.bend_mm is not None
    }
    radii = radius_findings(pattern, held)
    for measure in pivot_measures(skews, held, constants):
        part = measure.about[0]
        yield _with_radius(measure, radii.get(part), told=part in by_bend)
    yield from nesting_measures(sound, blamed, explained, constants)
    yield from shaped_measures(sound, told.swapped, constants)
    yield from swap_measures(swapped)
