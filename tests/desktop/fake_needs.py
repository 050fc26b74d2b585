"""An invented take-off with two trays, for the page that shows it."""

from armorplan.app.needs_rows import NeedsPage, NeedsRow, NeedsSection

TRAYS = (("vat", "Long vat"), ("bowl", "Bowl"))
FILL = {"vat": "3.4 l", "bowl": "1.1 l"}


def needs_of(tray: str) -> NeedsPage:
    tray = tray or "vat"
    return NeedsPage(
        title="Lantern watch, first set",
        tray=tray,
        trays=TRAYS,
        sections=(
            NeedsSection(
                id="leather",
                title="Leather",
                heads=("Leather", "In the parts", "Buy"),
                rows=(
                    NeedsRow(
                        cells=("Shoulder <3 mm>", "5.8 dm² in 4 parts", "8.3 dm² (0.90 ft²)"),
                        remarks=("Largest part: lower petal & rim.",),
                    ),
                ),
                notes=("A foot is 9 dm².",),
            ),
            NeedsSection(
                id="treatments",
                title="Dye, oil, finish and water",
                heads=("Treatment", "Wiped on", "Dipped"),
                rows=(
                    NeedsRow(cells=("Alcohol dye, blue", "as the pattern says", "")),
                    NeedsRow(cells=("Have ready", "62 ml", FILL[tray]), under=True),
                ),
            ),
        ),
    )
