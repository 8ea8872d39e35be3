"""Full counts, too long for every run: each module `long_*` has a `main` that returns them."""
