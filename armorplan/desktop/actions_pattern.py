"""What a person can do with a pattern of their own: within the menu Pattern."""

from armorplan.desktop.action import Action

OWN_PATTERN: tuple[Action, ...] = ()
