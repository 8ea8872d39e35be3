"""What the solver refuses, in sentences a student understands.

    CoreError (ValueError)
        NotAnImpedance          not a number, or not of a kind that a load or a line can have
            NegativeResistance  a load that would give power back
        NotALength              a distance that no piece of line can have
        UnknownChoice           a word that is not one of those on offer
        NotACircle              a value whose curve on the chart is a straight line, or no curve at all
        OutOfRange              a number outside the range in which it means something
        ShapesDiffer            arrays whose shapes do not go together
        NotANetwork             something else where a network, an element or a load model is wanted
        NotATouchstoneFile      a file of measurements that does not keep to its standard; has `.line` too

Every error keeps the offending value in `.value`, so that a view can point at it.
"""

from __future__ import annotations


class CoreError(ValueError):
    """Root of everything that `core` refuses; `.value` holds what was given."""

    def __init__(self, message: str, *, value: object) -> None:
        super().__init__(message)
        self.value = value


class NotAnImpedance(CoreError):
    """A load or line impedance that is not a number, or not one such a thing can have."""


class NegativeResistance(NotAnImpedance):
    """A load whose resistance is below zero: it would send back more power than it gets."""


class NotALength(CoreError):
    """A length that no piece of line can have."""


class UnknownChoice(CoreError):
    """A word that is not one of those on offer."""


class NotACircle(CoreError):
    """A value whose curve is a straight line or nothing, where a circle is wanted."""


class OutOfRange(CoreError):
    """A number outside the range in which it means something, such as a frequency below zero."""


class ShapesDiffer(CoreError):
    """Arrays whose shapes do not go together."""


class NotANetwork(CoreError):
    """Something else where a matching network, one of its elements, a load model or a board is wanted."""


class NotATouchstoneFile(CoreError):
    """A file of measurements that does not keep to its standard; `.line` is the number of the line at fault."""

    def __init__(self, fault: str, *, line: int, value: object) -> None:
        super().__init__(f"Line {line}: {fault}", value=value)
        self.line = line
