"""The form of the shop's air: what is typed in it becomes a room, or one clear message."""

from dataclasses import dataclass, replace

from armorplan.app.air_form import AirFault, TypedAir, read_air, read_volume
from armorplan.app.shop_air import DayNight, day_night, when_words
from armorplan.workshop.air import Climate, Room
from armorplan.workshop.heat import heat_caution, hottest_c


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


def beside_words(room: Room) -> str:
    """Say what else is to be known of a room: which of its air counts when, and whether it is too hot."""
    return " ".join(filter(None, (_counting_words(room), heat_caution(hottest_c(room)))))


def _counting_words(room: Room) -> str:
    """Say of a room with readings what counts when, and how to get back; empty for one without."""
    if not room.readings:
        return ""
    first, last = (
        when_words(reading.at, room.zone) for reading in (room.readings[0], room.readings[-1])
    )
    fields = (
        "at all other times the air typed above does"
        if room.by_hour
        else "at all other times the average of each hour that was read in their last two weeks does, "
        "and the air typed above only where none was read"
    )
    return (
        f"Readings count where there are any, from {first} to {last}; {fields}. "
        "'Forget all readings' goes back to the air typed above."
    )
