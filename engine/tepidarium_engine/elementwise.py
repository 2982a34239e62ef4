"""Elementary functions that serve a float and an array alike.

A float goes through the C library (``math``), so that an answer has the same bits on every processor;
an array goes through numpy. All numbers that go into one formula are floats, or all are arrays.
"""

from __future__ import annotations

import math
from typing import TypeVar, overload

import numpy as np
import numpy.typing as npt

__all__ = [
    "ROUND_OFF",
    "Array",
    "Conditions",
    "Real",
    "anywhere",
    "everywhere",
    "exp",
    "expm1",
    "floor",
    "log",
    "log1p",
    "maximum",
    "minimum",
    "power",
    "sqrt",
    "where",
]

ROUND_OFF = 1e-9
"""What arithmetic may have done to a number that is compared with a bound or rounded to a whole one, or its share."""
Array = npt.NDArray[np.float64]
Conditions = npt.NDArray[np.bool_]
"""What a comparison of arrays gives."""
Real = TypeVar("Real", float, Array)
"""A float or a float64 array; what goes into a formula decides what comes out. Arrays broadcast."""

_NUMBER = (float, int)


def log(x: Real) -> Real:
    return math.log(x) if isinstance(x, _NUMBER) else np.log(x)


def log1p(x: Real) -> Real:
    return math.log1p(x) if isinstance(x, _NUMBER) else np.log1p(x)


def exp(x: Real) -> Real:
    return math.exp(x) if isinstance(x, _NUMBER) else np.exp(x)


def expm1(x: Real) -> Real:
    return math.expm1(x) if isinstance(x, _NUMBER) else np.expm1(x)


def floor(x: Real) -> Real:
    return float(math.floor(x)) if isinstance(x, _NUMBER) else np.floor(x)


def sqrt(x: Real) -> Real:
    return math.sqrt(x) if isinstance(x, _NUMBER) else np.sqrt(x)


def power(base: Real, exponent: Real | float) -> Real:
    """``base`` [> 0] to the ``exponent``."""
    result: Real = base**exponent
    return result


def minimum(a: Real, b: Real | float) -> Real:
    if type(a) is float and type(b) is float:  # nearly all; the rest of the function asks more slowly
        return b if b < a else a
    if isinstance(a, _NUMBER) and isinstance(b, _NUMBER):
        return min(a, b)
    return np.minimum(a, b)


def maximum(a: Real, b: Real | float) -> Real:
    if type(a) is float and type(b) is float:
        return b if b > a else a
    if isinstance(a, _NUMBER) and isinstance(b, _NUMBER):
        return max(a, b)
    return np.maximum(a, b)


def anywhere(condition: bool | Conditions) -> bool:
    return condition if isinstance(condition, bool) else bool(condition.any())


def everywhere(condition: bool | Conditions) -> bool:
    return condition if isinstance(condition, bool) else bool(condition.all())


@overload
def where(condition: bool, a: float, b: float) -> float: ...
@overload
def where(condition: Conditions, a: Array, b: Array) -> Array: ...
def where(condition: bool | Conditions, a: float | Array, b: float | Array) -> float | Array:
    if isinstance(condition, bool):
        return a if condition else b
    return np.where(condition, a, b)
