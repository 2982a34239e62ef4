"""Pure calculations for water-based underfloor heating stapled on insulation under screed.

Values in, frozen results out: no I/O, no clock, no environment, no state. SI units throughout.
"""

__version__ = "0.2.0"

__all__ = ["__version__"]
