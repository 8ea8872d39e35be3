"""Kinds of answer: each a class that reads, writes, measures and understands."""

from lessons.grammar.kinds.base import CLOSE, LENGTH_TOLERANCE, Accuracy, Kind, Oddity, Reading, Said, Value
from lessons.grammar.kinds.choices import Choice, simplified
from lessons.grammar.kinds.dimensions import Dimension
from lessons.grammar.kinds.immittances import ImaginaryPart, Immittance, Reflection, inverse
from lessons.grammar.kinds.lengths import LengthOfLine, Millimetres, ScaleReading, Wavelength
from lessons.grammar.kinds.ohms import Ohms
from lessons.grammar.kinds.part_values import PartValue
from lessons.grammar.kinds.ratios import Number, OfSize, ReflectionSize, StandingWaveRatio
from lessons.grammar.kinds.reactances import Reactance
from lessons.grammar.kinds.resistances import Resistance
from lessons.grammar.kinds.siemens import Siemens

__all__ = [
    "CLOSE",
    "LENGTH_TOLERANCE",
    "Accuracy",
    "Choice",
    "Dimension",
    "ImaginaryPart",
    "Immittance",
    "Kind",
    "LengthOfLine",
    "Millimetres",
    "Number",
    "Oddity",
    "OfSize",
    "Ohms",
    "PartValue",
    "Reactance",
    "Reading",
    "Reflection",
    "ReflectionSize",
    "Resistance",
    "Said",
    "ScaleReading",
    "Siemens",
    "StandingWaveRatio",
    "Value",
    "Wavelength",
    "inverse",
    "simplified",
]
