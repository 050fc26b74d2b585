"""The shop's air without a workshop file: kept in memory, laid out as the same scenario in it."""

from dataclasses import dataclass, field, replace
from datetime import UTC, datetime

from armorplan.app.shop_air import AirRule, ShopAir
from armorplan.kernel.errors import WorkshopError
from armorplan.workshop.air import Room

AT = datetime(2026, 11, 29, 14, 5, tzinfo=UTC)


@dataclass
class FakeAirs:
    """Fulfils ``air_desk.AirBench``."""

    rule: AirRule = AirRule.USUAL
    kept: list[Room] = field(default_factory=list)
    trouble: str = ""
    behind: bool = False
    kept_at: datetime = AT

    def air(self):
        last = self.kept[-1] if self.kept else None
        kept_at = self.kept_at if self.kept else None
        return lambda: ShopAir(rule=self.rule, room=last or Room(), kept=last, kept_at=kept_at)

    def keep(self, room, before=None, *, instead=False):
        def keep():
            if self.trouble:
                raise WorkshopError(self.trouble)
            self.kept.append(room)
            self.before, self.instead = before, instead
            self.kept_at = AT
            self.rule = AirRule.KEPT
            return "Kept as the air of the shop."

        return keep

    def is_behind(self, _session):
        return self.behind

    def go_on(self, session):
        self.behind = False

        def settle():
            session.room = self.kept[-1] if self.kept else session.room
            session._show(session._bench, "")

        return lambda: settle


def cold(room):
    """Return a room that is colder at night."""
    night = replace(room.usual, temperature_c=9.0)
    return replace(room, by_hour=(night,) * 8 + (room.usual,) * 12 + (night,) * 4)
