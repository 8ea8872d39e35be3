"""The lessons in the order of the course. A new one is its file and a line here."""

from lessons.course import (
    along_the_line,
    double_stub,
    impedance_and_admittance,
    quarter_wave,
    series_stub,
    shunt_stub,
    standing_wave,
    unknown_load,
    wavelengths_to_copper,
)
from lessons.grammar.catalogue import Catalogue

CATALOGUE = Catalogue(
    (
        along_the_line.LESSON,
        impedance_and_admittance.LESSON,
        standing_wave.LESSON,
        unknown_load.LESSON,
        shunt_stub.LESSON,
        series_stub.LESSON,
        quarter_wave.LESSON,
        double_stub.LESSON,
        wavelengths_to_copper.LESSON,
    ),
    unsaid="shunt-stub",
)
