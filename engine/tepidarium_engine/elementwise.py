"""Elementary functions that serve a float and an array alike.

A float goes through the C library (``math``), so that an answer has the same bits on every processor;
an array goes through numpy. Powers need no helper: ``**`` does the same by itself.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import numpy.typing as npt

__all__ = ["Array", "Real", "exp", "log", "maximum", "minimum", "sqrt", "where"]

Array = npt.NDArray[np.float64]
Real = Any
"""A float or a float64 array; what goes in decides what comes out."""


def log(x: Real) -> Real:
    return math.log(x) if isinstance(x, float | int) else np.log(x)


def exp(x: Real) -> Real:
    return math.exp(x) if isinstance(x, float | int) else np.exp(x)


def sqrt(x: Real) -> Real:
    return math.sqrt(x) if isinstance(x, float | int) else np.sqrt(x)


def minimum(a: Real, b: Real) -> Real:
    if isinstance(a, float | int) and isinstance(b, float | int):
        return min(a, b)
    return np.minimum(a, b)


def maximum(a: Real, b: Real) -> Real:
    if isinstance(a, float | int) and isinstance(b, float | int):
        return max(a, b)
    return np.maximum(a, b)


def where(condition: Any, a: Real, b: Real) -> Real:
    if isinstance(condition, bool):
        return a if condition else b
    return np.where(condition, a, b)
