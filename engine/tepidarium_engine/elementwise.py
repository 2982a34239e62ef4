"""Elementary functions that serve a float and an array alike.

A float goes through the C library (``math``), so that an answer has the same bits on every processor;
an array goes through numpy. Powers need no helper: ``**`` does the same by itself.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import numpy.typing as npt

__all__ = ["Array", "Real", "anywhere", "exp", "expm1", "log", "log1p", "maximum", "minimum", "sqrt", "where"]

Array = npt.NDArray[np.float64]
Real = Any
"""A float or a float64 array; what goes in decides what comes out."""

_NUMBER = (float, int)


def log(x: Real) -> Real:
    return math.log(x) if isinstance(x, _NUMBER) else np.log(x)


def log1p(x: Real) -> Real:
    return math.log1p(x) if isinstance(x, _NUMBER) else np.log1p(x)


def exp(x: Real) -> Real:
    return math.exp(x) if isinstance(x, _NUMBER) else np.exp(x)


def expm1(x: Real) -> Real:
    return math.expm1(x) if isinstance(x, _NUMBER) else np.expm1(x)


def sqrt(x: Real) -> Real:
    return math.sqrt(x) if isinstance(x, _NUMBER) else np.sqrt(x)


def minimum(a: Real, b: Real) -> Real:
    if isinstance(a, _NUMBER) and isinstance(b, _NUMBER):
        return min(a, b)
    return np.minimum(a, b)


def maximum(a: Real, b: Real) -> Real:
    if isinstance(a, _NUMBER) and isinstance(b, _NUMBER):
        return max(a, b)
    return np.maximum(a, b)


def anywhere(condition: Any) -> bool:
    return condition if isinstance(condition, bool) else bool(condition.any())


def where(condition: Any, a: Real, b: Real) -> Real:
    if isinstance(condition, bool):
        return a if condition else b
    return np.where(condition, a, b)
