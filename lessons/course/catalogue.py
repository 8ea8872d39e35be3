"""The lessons in the order of the course. A new one is its file and a line here."""

from lessons.course import (
    along_the_line,
    double_stub,
    impedance_and_admittance,
    lossy_line,
    quarter_wave,
    reading_the_chart,
    series_stub,
    shunt_stub,
    standing_wave,
    stub_alone,
    two_reactances,
    unknown_load,
    wavelengths_to_copper,
    which_one_to_build,
)
from lessons.grammar.catalogue import Catalogue

CATALOGUE = Catalogue(
    (
        reading_the_chart.LESSON,
        along_the_line.LESSON,
        impedance_and_admittance.LESSON,
        standing_wave.LESSON,
        unknown_load.LESSON,
        stub_alone.LESSON,
        shunt_stub.LESSON,
        series_stub.LESSON,
        quarter_wave.LESSON,
        two_reactances.LESSON,
        double_stub.LESSON,
        lossy_line.LESSON,
        which_one_to_build.LESSON,
        wavelengths_to_copper.LESSON,
    ),
    unsaid="shunt-stub",
)
