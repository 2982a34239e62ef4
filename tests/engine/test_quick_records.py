"""Records that are made quickly are like any other frozen dataclass."""

from __future__ import annotations

import copy
import inspect
import pickle
from dataclasses import FrozenInstanceError, dataclass, field, replace

import pytest
from tepidarium_engine.quick_records import quickly_made


@dataclass(frozen=True, slots=True)
class Plain:
    length: float
    name: str = "kitchen"


@quickly_made
@dataclass(frozen=True, slots=True)
class Quick:
    """A length."""

    length: float
    name: str = "kitchen"


def test_it_is_frozen_equal_hashable_and_can_be_copied() -> None:
    one = Quick(2.0)
    assert type(one) is Quick
    assert one == Quick(length=2.0, name="kitchen") != Quick(3.0)
    assert hash(one) == hash(Quick(2.0))
    assert repr(one) == "Quick(length=2.0, name='kitchen')"
    assert pickle.loads(pickle.dumps(one)) == copy.deepcopy(one) == replace(Quick(3.0), length=2.0) == one
    with pytest.raises(FrozenInstanceError):
        one.length = 3.0  # type: ignore[misc]
    with pytest.raises(AttributeError):
        object.__setattr__(one, "width", 3.0)


def test_its_constructor_has_the_signature_of_any_other() -> None:
    assert str(inspect.signature(Quick)) == str(inspect.signature(Plain))
    assert Quick.__doc__ == "A length."
    with pytest.raises(TypeError, match="length"):
        Quick()  # type: ignore[call-arg]
    with pytest.raises(TypeError, match="width"):
        Quick(1.0, width=2.0)  # type: ignore[call-arg]


def test_a_constructor_that_does_more_is_refused() -> None:
    @dataclass(frozen=True, slots=True)
    class Checked:
        length: float

        def __post_init__(self) -> None:
            """Something of its own."""

    @dataclass(frozen=True, slots=True)
    class Hidden:
        length: float
        double: float = field(default=0.0, init=False)

    for refused in (Checked, Hidden):
        with pytest.raises(TypeError, match="does more"):
            quickly_made(refused)
