"""Nothing but answers and refusals of the core's own tree: a sample of the calls that `tests.long` makes in full."""

from tests.core import fuzz

SAMPLE = 4_000


def test_answers_or_refuses():
    """Whatever is asked, the core answers or says in a sentence why it does not."""
    wrong, answered = fuzz.faults(SAMPLE, seed=7)

    assert [] == list(wrong)
    assert 0.85 * len(fuzz.targets()) <= len(answered)  # not refusals alone
