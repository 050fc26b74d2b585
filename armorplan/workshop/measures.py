"""Measures of a body: where each is taken, what is usual, and how rare a value is.

Figures are of ANSUR II (NATICK/TR-15/007): adults in a light garment, nothing under the tape.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise
from statistics import NormalDist

_STANDARD = NormalDist()
QUANTILES = (5.0, 25.0, 50.0, 75.0, 95.0)
"""The percentiles that a catalogue gives, in this order."""
RARE_PCT = (1.0, 99.0)
"""A value outside of these is asked about."""
_UNITS = (
    (10.0, "it was typed in cm"),
    (25.4, "it was typed in inches"),
    (0.1, "a nought too many was typed"),
    (1 / 2.54, "centimetres were taken for inches"),
    (2.54, "inches were taken for centimetres"),
)
"""By what a value is multiplied if its unit was another than the one said."""


class MeasureKind(StrEnum):
    """Whether a measure goes along a limb or round it."""

    LENGTH = "length"
    GIRTH = "girth"


class Sex(StrEnum):
    """Whose figures a value is held against; nothing else follows from it."""

    FEMALE = "female"
    MALE = "male"


@dataclass(frozen=True, slots=True, kw_only=True)
class Usual:
    """What a measure is among adults of one sex: mean, deviation and percentiles in mm."""

    mean_mm: float
    sd_mm: float
    quantiles_mm: tuple[float, ...]

    def value_mm(self, percentile: float) -> float:
        """Return the value at a percentile, above 0 and below 100.

        Between the percentiles given it runs as a normal distribution would, and beyond the
        outermost ones with the standard deviation.
        """
        z = _STANDARD.inv_cdf(percentile / 100)
        known = self._known()
        if z <= known[0][0]:
            return known[0][1] + (z - known[0][0]) * self.sd_mm
        for (z0, mm0), (z1, mm1) in pairwise(known):
            if z <= z1:
                return mm0 + (mm1 - mm0) * (z - z0) / (z1 - z0)
        return known[-1][1] + (z - known[-1][0]) * self.sd_mm

    def percentile(self, value_mm: float) -> float:
        """Return which share of adults, in %, measure less; the inverse of ``value_mm``."""
        known = self._known()
        if value_mm <= known[0][1]:
            z = known[0][0] + (value_mm - known[0][1]) / self.sd_mm
        elif value_mm >= known[-1][1]:
            z = known[-1][0] + (value_mm - known[-1][1]) / self.sd_mm
        else:
            (z0, mm0), (z1, mm1) = next(p for p in pairwise(known) if value_mm <= p[1][1])
            z = z0 + (z1 - z0) * (value_mm - mm0) / (mm1 - mm0)
        return 100 * _STANDARD.cdf(z)

    def _known(self) -> tuple[tuple[float, float], ...]:
        zs = (_STANDARD.inv_cdf(q / 100) for q in QUANTILES)
        return tuple(zip(zs, self.quantiles_mm, strict=True))


@dataclass(frozen=True, slots=True, kw_only=True)
class BodyMeasure:
    """A measure of the catalogue.

    Attributes:
        taken: where and how it is taken, as a sentence.
        over_bare_mm: by how much a girth over the usual padding exceeds the bare one, least and
            most; ``None``: a length, or nobody says.
        female, male: what is usual; ``None`` where no figures are known.
        between_mm: where no figures are known, between what it may lie.
    """

    id: str
    name: str
    kind: MeasureKind
    taken: str
    source: str
    over_bare_mm: tuple[float, float] | None = None
    female: Usual | None = None
    male: Usual | None = None
    between_mm: tuple[float, float] | None = None

    def usual(self, sex: Sex | None) -> tuple[Usual, ...]:
        """Return the figures of a sex, of both where none is said."""
        asked = {Sex.FEMALE: (self.female,), Sex.MALE: (self.male,)}
        found = asked[sex] if sex else (self.female, self.male)
        return tuple(usual for usual in found if usual is not None)

    def percentile(self, value_mm: float, sex: Sex | None) -> float | None:
        """Return the percentile of a bare value; ``None`` without a sex or without figures."""
        found = self.usual(sex) if sex else ()
        return found[0].percentile(value_mm) if found else None

    @property
    def usual_over_mm(self) -> float:
        """What a girth over the usual padding exceeds the bare one by; 0 where nobody says."""
        return sum(self.over_bare_mm) / 2 if self.over_bare_mm else 0.0

    def plausible_mm(self, sex: Sex | None, *, over_mm: float = 0.0) -> tuple[float, float] | None:
        """Return between what a value is not asked about; ``None`` where nothing is known.

        ``over_mm``: what of the value is padding.
        """
        found, known = self.usual(sex), self.between_mm
        if found:
            least, most = (
                choose(usual.value_mm(rare) for usual in found)
                for choose, rare in zip((min, max), RARE_PCT, strict=True)
            )
            known = least, most
        return (known[0] + over_mm, known[1] + over_mm) if known else None

    def meant(
        self, value_mm: float, sex: Sex | None, *, over_mm: float = 0.0
    ) -> tuple[tuple[float, str], ...]:
        """Return what a rare value may have meant: other values in mm, with why, likeliest first.

        Empty where the value is plausible, or nothing is known of the measure.

        Args:
            value_mm: as it was typed.
            sex: whose figures; of both where it is not said.
            over_mm: what of the value is padding.
        """
        bounds = self.plausible_mm(sex, over_mm=over_mm)
        if bounds is None or bounds[0] <= value_mm <= bounds[1]:
            return ()
        return tuple(self._guesses(value_mm, bounds))

    @staticmethod
    def _guesses(value_mm: float, bounds: tuple[float, float]) -> Iterator[tuple[float, str]]:
        for factor, why in _UNITS:
            if bounds[0] <= value_mm * factor <= bounds[1]:
                yield round(value_mm * factor, 1), why
