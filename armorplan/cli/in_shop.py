"""What follows from a pattern in this shop, with the air and the pace that its workshop keeps."""

from argparse import Namespace
from pathlib import Path

from armorplan.app.derived import Derived
from armorplan.app.opening import derive_folder
from armorplan.app.ordered_builds import shop_file_of
from armorplan.app.shop_air import AirRule, ShopAir, air_words
from armorplan.cli.reading import choices_for, pattern_folder, shelf_for, tell
from armorplan.cli.shop_now import shop_kept
from armorplan.kernel.clock import SystemClock
from armorplan.kernel.errors import ArmorplanError
from armorplan.workshop.shelf import Shelf
from armorplan.workshop.shop import Shop


def derived_for(chosen: Namespace) -> Derived:
    """Return all that follows from the pattern a command was given, in its shop.

    Raises:
        UnreadableError: the folder, its pattern or the shop file cannot be read.
        ArmorplanError: there is no such option or choice.
    """
    shelf = shelf_for(chosen.catalogues)
    shop, air = shop_of(chosen, shelf)
    tell_air(air)
    return derived_in(chosen, shelf, shop)


def shop_of(chosen: Namespace, shelf: Shelf) -> tuple[Shop, ShopAir]:
    """Return the shop that a command reckons with, and who told its air; see ``shop_kept``."""
    return shop_kept(chosen.shop, getattr(chosen, "workshop", None), lambda: shelf, SystemClock())


def derived_in(chosen: Namespace, shelf: Shelf, shop: Shop) -> Derived:
    """Return all that follows from the pattern a command was given, in a shop.

    Raises:
        UnreadableError: the folder or its pattern cannot be read.
        ArmorplanError: a shop was given, or there is no such option or choice.
    """
    _refuse_shop(chosen.pattern)
    folder = pattern_folder(chosen.pattern)
    return derive_folder(folder, shelf, shop, chosen=choices_for(chosen.choices))


def _refuse_shop(given: Path) -> None:
    file = shop_file_of(given)
    if file is not None and file.is_file():
        raise ArmorplanError(
            f"'{given}' is a shop. This command takes one pattern, such as elbow_cop."
        )


def tell_air(air: ShopAir) -> None:
    """Say beside the answer that the air is the one kept in the workshop, where it is."""
    if air.rule is AirRule.KEPT:
        tell(air_words(air))
