"""Whose air counts, since when it was kept, and whether what is kept next corrects that."""

from PySide6.QtWidgets import QCheckBox, QLabel, QVBoxLayout, QWidget

from armorplan.app.shop_air import ShopAir, rule_words
from armorplan.desktop.air_desk import AirDesk
from armorplan.desktop.bridge import Bridge


class AirRuleLabel(QWidget):
    """Tells the air of a desk; asks, where some was kept, whether that was mistyped."""

    def __init__(self, desk: AirDesk, bridge: Bridge, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._bridge = bridge
        self._words = QLabel(self)
        self._words.setWordWrap(True)
        self.mistyped = QCheckBox(self)
        self.mistyped.setObjectName("air_mistyped")
        self.mistyped.setToolTip(
            self.tr("What you keep now then counts from when that was kept, not from now.")
        )
        self.mistyped.hide()
        down = QVBoxLayout(self)
        down.setContentsMargins(0, 0, 0, 0)
        down.addWidget(self._words)
        down.addWidget(self.mistyped)
        desk.shown.connect(self._show)
        desk.kept.connect(lambda _said: self.mistyped.setChecked(False))

    def text(self) -> str:
        """Return whose air counts, in words."""
        return self._words.text()

    @property
    def corrects(self) -> bool:
        """Whether what is kept next was so all along."""
        return not self.mistyped.isHidden() and self.mistyped.isChecked()

    def _show(self, air: ShopAir) -> None:
        self._words.setText(rule_words(air))
        self.mistyped.setVisible(air.kept_at is not None)
        if air.kept_at is not None:
            local = air.kept_at.astimezone(self._bridge.zone)
            when = f"{local.day} {local:%b %H:%M}"
            self.mistyped.setText(self.tr("What was kept on {0} was &mistyped").format(when))
