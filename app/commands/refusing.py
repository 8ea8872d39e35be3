"""What a command says where it cannot do what it was asked for."""

import sys
from collections.abc import Callable

from app.commands.readers import shown
from lessons.problems.seeds import TooRare


def carried_out(act: Callable[[], int], narrow: str = "a name has no variant") -> int:
    """What a command comes to, 0 or 1; a set, a list or a folder that it cannot use is said in a sentence, and is 1.

    narrow : what cannot be had where the bounds of a set leave too little."""
    try:
        return act()
    except TooRare:
        fault = f"The bounds of this set are so narrow that {narrow}: widen them."
    except ValueError as refused:  # a BadSet is one
        fault = str(refused)
    except OSError as closed:
        fault = f"{shown(str(closed.filename))} cannot be written: {closed.strerror}."
    print(fault, file=sys.stderr)
    return 1
