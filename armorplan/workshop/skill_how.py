"""How somebody may do a kind of step: what is said when a skill is signed off."""

from enum import StrEnum


class SkillHow(StrEnum):
    """In whose company somebody does a kind of step, if at all."""

    ALONE = "alone"
    BESIDE = "with the maker beside"
    NOT_YET = "not yet"
    AS_FILED = "as the shop file says"
    """What was said before is taken back."""
