"""The type of one number a run: numpy is loaded only where runs are gone through."""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from numpy import bool_, float64, intp
    from numpy.typing import NDArray

    Doubles = NDArray[float64]
    Flags = NDArray[bool_]
    Rows = NDArray[intp]
