"""A dry fit of one seam for tests of the bench view."""

from armorplan.app.dry_fit_rows import PieceFit
from armorplan.app.fit_lay_out import LayOutRow
from armorplan.app.fit_looks import Look, LookKind
from armorplan.app.fit_pins import PinRow
from armorplan.app.fit_rounds import RoundRow

PIN = PinRow(
    number=1,
    joint="piece_0.lower_0",
    name="lower row, hole 1 of 4",
    pin="bolt_4x12",
    pin_name="Bolt M4 × 12 with wing nut",
    diameter_mm=4.0,
    length_mm=12.0,
    hole_mm=4.0,
)
LOOKS = tuple(
    Look(
        id=name,
        kind=LookKind.GAP,
        text=f"Is there a gap at the {name}?",
        about=(f"piece_0.{part}",),
        seams=("lower",),
        on_wearer=name == "cuff",
    )
    for name, part in (("rim", "petal_low"), ("cuff", "petal_top"))
)


def fit_of(step):
    return PieceFit(
        step=step,
        title="Elbow cop",
        lay_out=(
            LayOutRow(
                part="piece_0.petal_low",
                name="lower petal",
                hand="",
                grain_out=True,
                up_deg=90,
                over=(),
                under=(),
                text="Lower petal: grain up.",
            ),
        ),
        flow="Each lame lies over the one below it.",
        seams=(("lower", "lower row"),),
        rounds=(
            RoundRow(
                number=1,
                title="Round 1 of 1, on the bench",
                seams=("lower",),
                pins=(PIN,),
                clips=(),
                looks=LOOKS,
                on_wearer=False,
            ),
        ),
        pins_needed=1,
        pins_wanted=(("bolt_4x12", 1),),
        pins_owned=None,
        proved=True,
        bound=1,
        words=(),
    )
