"""What dries: how thick, from how many faces, and how wet it was made."""

from dataclasses import dataclass

from armorplan.workshop.shelf import TreatmentEntry

BOTH_FACES = 2
FACES = (1, BOTH_FACES)
Multiples = tuple[float, float, float]
"""Least, likely, most: how many times the catalogue's minutes."""
LIKELY = 1
"""The place of the likely one, in paces too."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """A part, as far as its drying goes.

    Attributes:
        thickness_mm: ``None``: as the catalogue has it.
        faces: open to the air: 1 where it lies on a board or on its form; ``None``: as the
            catalogue has it.
        dipped: it lay in the bath and was not wiped.
    """

    thickness_mm: float | None = None
    faces: int | None = None
    dipped: bool = False

    def __post_init__(self) -> None:
        """Refuse leather without thickness or faces."""
        if self.thickness_mm is not None and not self.thickness_mm > 0:
            message = f"leather is thicker than {self.thickness_mm} mm"
            raise ValueError(message)
        if self.faces not in (None, *FACES):
            message = f"leather has one or two faces, not {self.faces}"
            raise ValueError(message)


USUAL_BODY = Body()


def _thickness(entry: TreatmentEntry, body: Body) -> Multiples:
    """Return linear (the surface is what holds it up) to square (its way out through the leather).

    One face shut off counts as twice the thickness (Crank, The Mathematics of Diffusion, 1975).
    """
    if entry.reference_mm is None:
        return 1.0, 1.0, 1.0
    thickness_mm = body.thickness_mm or entry.reference_mm
    way = thickness_mm / (body.faces or entry.faces)
    ratio = way / (entry.reference_mm / entry.faces)
    least, most = sorted((ratio, ratio**2))
    return least, ratio**1.5, most


def _uptake(entry: TreatmentEntry, body: Body) -> Multiples:
    """Return how much longer it takes dipped than wiped: nothing more, to all it took up more."""
    if not body.dipped or not entry.dip_ml_per_dm2 or not entry.wipe_ml_per_dm2:
        return 1.0, 1.0, 1.0
    more = max(1.0, entry.dip_ml_per_dm2 / (BOTH_FACES * entry.wipe_ml_per_dm2))
    return 1.0, more**0.5, more


def multiples(entry: TreatmentEntry, body: Body) -> Multiples:
    """Return how many times its catalogue minutes a body needs, whatever the air."""
    thick, more = _thickness(entry, body), _uptake(entry, body)
    return thick[0] * more[0], thick[1] * more[1], thick[2] * more[2]
