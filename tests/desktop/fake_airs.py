"""The shop's air without a workshop file: kept in memory, laid out as the same scenario in it."""

from dataclasses import dataclass, field, replace

from desktop.fake_session import FakeSession

from armorplan.app.shop_air import AirRule, ShopAir
from armorplan.kernel.errors import WorkshopError
from armorplan.workshop.air import Room


@dataclass
class FakeAirs:
    """Fulfils ``air_desk.AirBench``."""

    rule: AirRule = AirRule.USUAL
    kept: list[Room] = field(default_factory=list)
    trouble: str = ""

    def air(self):
        last = self.kept[-1] if self.kept else None
        return lambda: ShopAir(rule=self.rule, room=last or Room(), kept=last)

    def keep(self, room, before=None):
        def keep():
            if self.trouble:
                raise WorkshopError(self.trouble)
            self.kept.append(room)
            self.before = before
            self.rule = AirRule.KEPT
            return "Kept as the air of the shop."

        return keep

    def go_on(self, session):
        def ready():
            room = self.kept[-1] if self.kept else session.room
            again = FakeSession(steps=session.steps, clock=session.clock, room=room)
            again._bench = session._bench
            return lambda: again

        return ready


def cold(room):
    """Return a room that is colder at night."""
    night = replace(room.usual, temperature_c=9.0)
    return replace(room, by_hour=(night,) * 8 + (room.usual,) * 12 + (night,) * 4)
