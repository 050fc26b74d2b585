"""How a printer draws what is to be 100 mm, and what makes up for it at full size."""

from dataclasses import dataclass, replace

from armorplan.sheets.bench_sheet_ink import Paper

BAR_MM = 100.0
LEAST_MM, MOST_MM = 90.0, 110.0
"""A printer that is off by more does not print at 100 % (common practice, no source)."""
_UNITS = (("inches", 25.4), ("cm", 10.0))


@dataclass(frozen=True, slots=True, kw_only=True)
class PrinterScale:
    """How long the bars of 100 mm come out on a printer, in mm: along the page, and up it.

    ``printer`` is what the maker calls it; empty where nobody said.
    """

    along_mm: float = BAR_MM
    up_mm: float = BAR_MM
    printer: str = ""

    @property
    def is_true(self) -> bool:
        """Tell whether it draws 100 mm as 100 mm both ways."""
        return (self.along_mm, self.up_mm) == (BAR_MM, BAR_MM)

    @property
    def stretch(self) -> tuple[float, float]:
        """By how much a drawing is stretched along and up, so that it comes out as meant."""
        return BAR_MM / self.along_mm, BAR_MM / self.up_mm

    def comes_out(self, paper: Paper) -> Paper:
        """Return how large the page of a paper comes out: what parts are laid on."""
        return replace(
            paper,
            wide_mm=paper.wide_mm * self.along_mm / BAR_MM,
            high_mm=paper.high_mm * self.up_mm / BAR_MM,
        )


TRUE_SCALE = PrinterScale()


def scale_words(scale: PrinterScale) -> str:
    """Return for which bars a page is drawn: ``98.7 mm along, 99.1 mm up``; empty for true ones."""
    if scale.is_true:
        return ""
    return f"{scale.along_mm:g} mm along, {scale.up_mm:g} mm up"


def bar_question(measured_mm: float) -> str:
    """Return what is asked where no printer draws a bar of 100 mm so; empty where one may."""
    if LEAST_MM <= measured_mm <= MOST_MM:
        return ""
    for unit, each_mm in _UNITS:
        if LEAST_MM <= measured_mm * each_mm <= MOST_MM:
            mm = f"{measured_mm * each_mm:.1f}"
            return f"Is {measured_mm:g} a length in {unit}? Then write it in mm: {mm}."
    return (
        f"The bar is 100 mm, and {measured_mm:g} mm is further off than printers are ({LEAST_MM:g} to "
        f"{MOST_MM:g} mm). Was it printed at 100 %, not fitted to the page? Then measure it again."
    )
