"""The version of the client distribution."""

__all__ = ["__version__"]

__version__ = "0.2.0"
