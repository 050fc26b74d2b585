"""Reads a treatment of the catalogue: its times, its air, its liquid, and what evaporates of it."""

from collections.abc import Iterable

from armorplan.files.limits import (
    FILM,
    LIQUID,
    PRICES,
    SOLVENT,
    THICKNESS,
    VAPOUR,
    WAIT,
    WAIT_MIN,
    WATER_SHARE,
    WORK,
)
from armorplan.files.tables import Table
from armorplan.files.values import (
    choice,
    flag,
    maybe_number,
    maybe_text,
    maybe_whole,
    number,
    text,
    texts,
    whole,
)
from armorplan.files.words import pair, words_of
from armorplan.workshop.shelf import CURE_BEFORE, Carrier, TreatmentEntry, TreatmentKind

_BOTH_FACES = 2
_OF_A_SOLVENT = (
    "solvent_g_per_ml",
    "lel_g_per_m3",
    "lel_source",
    "limit_g_per_m3",
    "limit_source",
)


def read_treatment(key: str, row: Table) -> TreatmentEntry:
    """Read a treatment with its times in minutes and uptake in ml for a dm²."""
    entry = TreatmentEntry(
        id=key,
        name=text(row, "name"),
        kind=choice(row, "kind", TreatmentKind) or TreatmentKind.DYE,
        carrier=choice(row, "carrier", Carrier) or Carrier.WATER,
        touch_min=whole(row, "touch_min", least=0, most=WAIT_MIN),
        handle_min=whole(row, "handle_min", least=0, most=WAIT_MIN),
        window_min=_window(row),
        per_part_min=number(row, "per_part_min", WORK),
        set_up_min=number(row, "set_up_min", WORK),
        cautions=texts(row, "cautions"),
        source=text(row, "source"),
        dip_per_part_min=maybe_number(row, "dip_per_part_min", WORK),
        wipe_ml_per_dm2=number(row, "wipe_ml_per_dm2", LIQUID, default=0.0),
        dip_ml_per_dm2=number(row, "dip_ml_per_dm2", LIQUID, default=0.0),
        after_dye=flag(row, "after_dye", default=False),
        price_per_litre=maybe_number(row, "price_per_litre", PRICES),
        cure_min=_minutes(row, "cure_min"),
        cure_before=words_of(row, "cure_before", CURE_BEFORE),
        recoat_by_min=_minutes(row, "recoat_by_min"),
        film_from_c=maybe_number(row, "film_from_c", FILM),
        film_min=_minutes(row, "film_min"),
        drip_min=_minutes(row, "drip_min") or 0,
        watch_every_min=_minutes(row, "watch_every_min") or 0,
        watch_for_min=_minutes(row, "watch_for_min") or 0,
        water_share=number(row, "water_share", WATER_SHARE, default=0.0),
        reference_mm=maybe_number(row, "reference_mm", THICKNESS),
        faces=whole(row, "faces", least=1, most=_BOTH_FACES, default=_BOTH_FACES),
        solvent=maybe_text(row, "solvent") or "",
        solvent_g_per_ml=number(row, "solvent_g_per_ml", SOLVENT, default=0.0),
        lel_g_per_m3=maybe_number(row, "lel_g_per_m3", VAPOUR),
        lel_source=maybe_text(row, "lel_source") or "",
        limit_g_per_m3=maybe_number(row, "limit_g_per_m3", VAPOUR),
        limit_source=maybe_text(row, "limit_source") or "",
        missed_remedy=maybe_text(row, "missed_remedy") or "",
        missed_is_loss=flag(row, "missed_is_loss", default=False),
    )
    _check_times(row, entry)
    _check_watch(row, entry)
    _check_solvent(row, entry)
    return entry


def _minutes(row: Table, key: str) -> int | None:
    return maybe_whole(row, key, least=0, most=WAIT_MIN)


def _window(row: Table) -> tuple[int, int] | None:
    if not row.has("window_min"):
        return None
    first, last = pair(row, "window_min", WAIT)
    if not (first.is_integer() and last.is_integer() and first >= 0):
        row.wrong("window_min", row.raw("window_min"), wanted="two whole numbers of minutes")
    return int(first), int(last)


def _check_times(row: Table, entry: TreatmentEntry) -> None:
    """Tell a time that is over before one that it cannot come before."""
    touch, handle = ("touch_min", entry.touch_min), ("handle_min", entry.handle_min)
    _check_order(row, "handled-before-dry", touch, handle, "it is handled once it is dry")
    cure, by_then = ("cure_min", entry.cure_min), ("recoat_by_min", entry.recoat_by_min)
    _check_order(row, "cured-before-handled", handle, cure, "it cures after it can be handled")
    _check_order(row, "recoat-before-dry", touch, by_then, "the next coat goes on a dry one")
    if entry.film_min is not None and entry.film_from_c is None:
        _idle(row, "film_min", "no film_from_c says how warm the film needs it")
    if entry.water_share and entry.carrier is not Carrier.ALCOHOL:
        _idle(row, "water_share", f"its carrier is {entry.carrier}, not alcohol")


def _check_order(
    row: Table,
    code: str,
    first: tuple[str, int],
    then: tuple[str, int | None],
    why: str,
) -> None:
    (earlier, first_min), (later, then_min) = first, then
    if then_min is None or then_min >= first_min or not _all_written(row, (earlier, later)):
        return
    row.fault(
        earlier if later == "handle_min" else later,
        code,
        f"{row.name_of(earlier)} is {first_min} min, but {later} is {then_min} min.",
        mend=f"Write a {later} of at least {earlier}: {why}.",
    )


def _all_written(row: Table, keys: Iterable[str]) -> bool:
    return all(row.has(key) for key in keys)


def _check_watch(row: Table, entry: TreatmentEntry) -> None:
    every_min, for_min = entry.watch_every_min, entry.watch_for_min
    if bool(every_min) != bool(for_min):
        key = "watch_every_min" if every_min else "watch_for_min"
        other = "watch_for_min" if every_min else "watch_every_min"
        row.fault(
            key,
            "half-a-watch",
            f"{row.name_of(key)} stands without a {other} above 0.",
            mend=f"Add {other}, in minutes, or take it out.",
        )
    elif every_min > for_min:
        row.fault(
            "watch_every_min",
            "watched-too-seldom",
            f"{row.name_of('watch_every_min')} is {every_min} min, but it is watched for "
            f"{for_min} min only.",
            mend="Write a watch_every_min no longer than watch_for_min.",
        )


def _check_solvent(row: Table, entry: TreatmentEntry) -> None:
    """Tell figures of a vapour that belong to no solvent, and a limit without its source."""
    for key in _OF_A_SOLVENT:
        if row.has(key) and not entry.solvent:
            _idle(row, key, 'no solvent is named: add solvent = "…"')
    figures = (
        ("lel_g_per_m3", entry.lel_g_per_m3, "lel_source", entry.lel_source),
        ("limit_g_per_m3", entry.limit_g_per_m3, "limit_source", entry.limit_source),
    )
    for key, figure, named, source in figures:
        if figure is not None and not source:
            row.fault(
                key,
                "no-source",
                f"{row.name_of(key)} does not say where it is from.",
                mend=f'Add {named} = "…": the safety data sheet or the table it is taken from.',
            )


def _idle(row: Table, key: str, because: str) -> None:
    row.fault(
        key,
        "says-nothing",
        f"{row.name_of(key)} says nothing here: {because}.",
        mend="Put that right, or take it out.",
    )
