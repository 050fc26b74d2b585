"""Which forms bend leather about a line, and which routes wet it."""

from armorplan.pattern.joining import FormKind, Route

BENT_KINDS = (FormKind.BEND, FormKind.FOLD)
DAMP_ROUTES = frozenset((Route.DAMP, Route.HARDENED, Route.WET_FOLD))
"""Routes that shape the leather damp: before its finish, and so before its hardware."""
