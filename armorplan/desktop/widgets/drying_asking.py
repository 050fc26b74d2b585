"""What the page of a drying asks its desk: which drying, in which air, drawn how."""

from dataclasses import replace

from PySide6.QtWidgets import QWidget

from armorplan.app.drying_choices import DryingChoice, Dryings, WhatIf
from armorplan.app.shop_air import AirRule, ShopAir
from armorplan.desktop.air_desk import AirDesk
from armorplan.desktop.drying_desk import DryingAsked
from armorplan.desktop.drying_plot import PlotLook
from armorplan.desktop.theme import colours_of
from armorplan.workshop.air import Room

TEXT_SHARE = 0.9
LEAST_WIDE_PX, LEAST_HIGH_PX = 200, 120


def look_of(page: QWidget, picture: QWidget) -> PlotLook:
    """Return how a picture is drawn: as large as it is shown, in the page's palette and letters."""
    return PlotLook(
        width_px=max(picture.width(), LEAST_WIDE_PX),
        height_px=max(picture.height(), LEAST_HIGH_PX),
        ratio=page.devicePixelRatioF(),
        text_pt=page.font().pointSizeF() * TEXT_SHARE,
        colours=colours_of(page.palette()),
    )


def told_room(dryings: Dryings, air: ShopAir | None) -> Room:
    """Return the room as it was told, with the zone and the paces of the one reckoned with."""
    room = dryings.room
    told = air.told if air is not None else room
    return replace(told, zone=room.zone, paces=room.paces)


def asked_of(
    choice: DryingChoice,
    dryings: Dryings,
    what_if: WhatIf,
    *,
    told: Room,
    look: PlotLook,
) -> DryingAsked:
    """Return the question for a drying of those of a build."""
    return DryingAsked(
        choice=choice,
        room=dryings.room,
        what_if=what_if,
        look=look,
        told=told,
        now_at=dryings.now_at if what_if.asks else None,
        people=dryings.people,
    )


def may_use(airs: AirDesk | None, air: ShopAir | None) -> bool:
    """Tell whether an air that is asked for can become the shop's: none where a shop file rules."""
    is_ruled = air is None or air.rule is AirRule.SHOP_FILE
    return airs is not None and not airs.is_keeping and not is_ruled
