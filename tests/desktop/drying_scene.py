"""The drying in the window, with a picture that takes no time to draw."""

from PySide6.QtGui import QColor

from armorplan.desktop.drying_plot import DryingPlot


def blank_plot(figure, look):
    """Return a picture that took no time."""
    width, height = round(look.width_px * look.ratio), round(look.height_px * look.ratio)
    red, green, blue, _ = QColor(look.colours.panel).getRgb()
    return DryingPlot(
        pixels=bytes((red, green, blue, 255)) * (width * height),
        width=width,
        height=height,
        ratio=look.ratio,
        left_px=40.0,
        right_px=look.width_px - 40.0,
        top_px=4.0,
        foot_px=look.height_px - 40.0,
        from_at=figure.start_at,
        until_at=figure.until_at,
    )


def shown(qtbot, page):
    qtbot.waitUntil(lambda: page.picture.plot is not None and not page.is_waiting)
    return page._shown


def drying_step(session, kind="dry_6"):
    return next(s for s in session.steps if s.id.split("/")[3] == kind)


def see(qtbot, bridge, page, step):
    bridge.choose_steps((step.id,))
    page.show()
    return shown(qtbot, page)
