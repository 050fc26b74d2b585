"""The form of the shop's air: what is typed in it becomes a room, or one clear message."""

from dataclasses import dataclass, replace

from armorplan.app.air_form import AirFault, TypedAir, read_air, read_volume
from armorplan.app.shop_air import DayNight, day_night
from armorplan.workshop.air import Climate, Room


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedRoom:
    """The form as typed. ``day`` is the air of the whole day where ``has_night`` is false."""

    has_night: bool
    day: TypedAir
    night: TypedAir
    day_from_h: int
    night_from_h: int
    volume: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RoomFault:
    """What is wrong, and in which row: ``day``, ``night`` or ``volume``."""

    row: str
    fault: AirFault


def room_of(typed: TypedRoom, before: Room) -> Room | RoomFault:
    """Return the room that was typed, with the readings of the one before."""
    day = read_air(typed.day)
    if isinstance(day, AirFault):
        return RoomFault(row="day", fault=day)
    volume = read_volume(typed.volume)
    by_hour: tuple[Climate, ...] = ()
    if typed.has_night:
        night = read_air(typed.night)
        if isinstance(night, AirFault):
            return RoomFault(row="night", fault=night)
        if typed.day_from_h == typed.night_from_h:
            text = (
                f"Day and night both begin at {typed.day_from_h:02d}:00; one of them has to move."
            )
            return RoomFault(row="night", fault=AirFault(field="hours", text=text))
        by_hour = DayNight(
            day=day, night=night, day_from_h=typed.day_from_h, night_from_h=typed.night_from_h
        ).hours()
    if isinstance(volume, AirFault):
        return RoomFault(row="volume", fault=volume)
    return replace(before, usual=day, by_hour=by_hour, volume_m3=volume, paces=())


def shown_days(room: Room) -> DayNight | None:
    """Return the day and night that the form shows of a room; ``None`` where all day is alike."""
    two = day_night(room)
    if two is not None or len(set(room.by_hour)) <= 1:
        return two
    noon, night = room.by_hour[13], room.by_hour[3]
    return DayNight(day=noon, night=night)
