"""The most that each kind of number may be: far beyond any armour, near enough to reckon with.

A number without an end breaks whatever adds, multiplies or plans with it. The limits are stated
ones, chosen generously; they are no facts of the trade. ``MAX_COATS``, ``MAX_PARTS`` and the
drawings' own limits stand where these are read.
"""

from armorplan.files.values import Bounds
from armorplan.kernel.units import DAY_MIN, HOUR_MIN
from armorplan.workshop.air import ASK_ABOVE_C, COLDEST_C, FASTEST_M_S, HOTTEST_C, LARGEST_M3

LENGTH_MM = 10_000
THICKNESS_MM = 30
OUNCES = 75
"""Leather of 75 ounces is 29.8 mm thick."""
AREA_CM2 = 10_000
TURN_DEG = 720
BEND_DEG = 360
"""What a limb bends; the three joints of a finger bend 270 degrees together."""
WORK_MIN = 7 * DAY_MIN
WAIT_MIN = 365 * DAY_MIN
COUNT = 1_000
MAX_VERSION = (1 << 31) - 1
"""What a database's column of four bytes holds."""
SLOWEST, QUICKEST = 10, 0.01
"""Factors on minutes: a week's work taken a hundredfold is two years in sittings."""
PRICE = 1_000_000
LIQUID_ML = 1_000

LENGTH = Bounds(above=0, most=LENGTH_MM, unit="mm")
LENGTH_OR_NONE = Bounds(least=0, most=LENGTH_MM, unit="mm")
SPOT = Bounds(least=-LENGTH_MM, most=LENGTH_MM, unit="mm")
"""A coordinate on a drawing, or a move there; ``flatten`` holds what is drawn to the same."""
THICKNESS = Bounds(above=0, most=THICKNESS_MM, unit="mm")
WEIGHT = Bounds(above=0, most=OUNCES, unit="oz")
OVER_STACK = Bounds(least=-THICKNESS_MM, most=THICKNESS_MM, unit="mm")
THICKNESS_OR_NONE = Bounds(least=0, most=THICKNESS_MM, unit="mm")
NEUTRAL = Bounds(least=0, most=1, unit="thicknesses from inside")
"""Where a bend keeps its length: within the leather."""
AREA = Bounds(above=0, most=AREA_CM2, unit="cm²")
ANGLE = Bounds(least=0, most=TURN_DEG, unit="degrees")
DIRECTION = Bounds(least=-TURN_DEG, most=TURN_DEG, unit="degrees")
BEND = Bounds(above=0, most=BEND_DEG, unit="degrees")
SHARE = Bounds(least=0, most=BEND_DEG, unit="degrees")
WORK = Bounds(least=0, most=WORK_MIN, unit="minutes")
EACH = Bounds(least=0, most=HOUR_MIN, unit="minutes")
"""What one hole or one centimetre may take."""
WAIT = Bounds(least=0, most=WAIT_MIN, unit="minutes")
TIMES = Bounds(least=QUICKEST, most=SLOWEST)
PRICES = Bounds(least=0, most=PRICE)
PER_SEAM = Bounds(above=0, most=100)
"""Lengths of thread for one of the seam."""
LIQUID = Bounds(least=0, most=LIQUID_ML, unit="ml")
FILM = Bounds(least=0, most=45, unit="°C")
"""What a finish needs to form a film; one that asks for more is not used on leather."""
WATER_SHARE = Bounds(least=0, most=1)
SOLVENT = Bounds(least=0, most=2, unit="g in a ml")
VAPOUR = Bounds(above=0, most=1000, unit="g in a m³")
AIR_C = Bounds(least=COLDEST_C, most=HOTTEST_C, unit="°C")
HUMIDITY = Bounds(least=0, most=100, unit="%")
AIR_SPEED = Bounds(least=0, most=FASTEST_M_S, unit="m/s")
ROOM_M3 = Bounds(above=0, most=LARGEST_M3, unit="m³")
PLAUSIBLE_C = ASK_ABOVE_C
