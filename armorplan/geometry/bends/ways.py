"""In which order layers are bent and fastened, judged by how far they slide on each other."""

from enum import StrEnum

from armorplan.geometry.bends.kinds import DAMP_ROUTES
from armorplan.geometry.bends.slides import LayerSlide
from armorplan.workshop.constants import Constants

_SAME_PCT = 1e-9
"""A slide that is the limit to the last digit of a float is within it."""


class Way(StrEnum):
    """How two layers are bent and fastened to each other.

    Damp shaping comes before the finish and hardware after it, so that layers shaped damp are
    fastened bent whatever they slide: of them only the punching is asked. An outer layer curved by
    hand over one that was shaped damp gives as dry leather does. An outer row that is made for the
    bent state asks for the same whatever the route.
    """

    FLAT = "rivet flat, then bend"
    DAMP = "bend it damp"
    FIRST = "bend first"
    MADE_BENT = "punch flat, bend both, then rivet"
    UNTOLD = "no radius said"
    PUNCHED_FLAT = "punch both flat"
    PUNCHED_AFTER = "punch the outer layer once both are shaped"

    @property
    def parts_holes(self) -> bool:
        """Whether holes of the outer layer that are punched flat no longer meet once it is bent."""
        return self in {Way.FIRST, Way.PUNCHED_AFTER}


def way_of(slide: LayerSlide, constants: Constants) -> Way:
    """Return how two layers are bent and fastened, by the bench's limits."""
    if slide.wider:
        return Way.MADE_BENT
    if slide.route in DAMP_ROUTES:
        return Way.PUNCHED_FLAT if _holes_meet(slide, constants) else Way.PUNCHED_AFTER
    way = _way_by_hand(slide, constants)
    if slide.under_route not in DAMP_ROUTES or way is Way.UNTOLD:
        return way
    return Way.PUNCHED_AFTER if way is Way.FIRST else Way.PUNCHED_FLAT


def _way_by_hand(slide: LayerSlide, constants: Constants) -> Way:
    """Return how layers are bent and fastened that are both curved by hand after the finish."""
    if slide.along or _is_taken_up(slide, constants):
        return Way.FLAT
    if slide.slide_pct is None:
        return Way.UNTOLD
    if slide.slide_pct <= constants.flat_slide.value + _SAME_PCT:
        return Way.FLAT
    within = slide.slide_pct <= constants.damp_slide.value + _SAME_PCT
    return Way.DAMP if within else Way.FIRST


def _holes_meet(slide: LayerSlide, constants: Constants) -> bool:
    """Tell whether holes punched flat meet once both layers have their shape."""
    return slide.along or _is_taken_up(slide, constants)


def _is_taken_up(slide: LayerSlide, constants: Constants) -> bool:
    """Tell whether holes and leather make up the whole slide; it is unknown where nothing tells."""
    return slide.total_mm is not None and slide.total_mm < constants.misfit.value
