"""The two commands: one opens the notebooks, one passes every test.

    python3 -m hemcalc open
    python3 -m hemcalc test

Both work in a fresh checkout with nothing but Python on the machine: what they need is
installed into the checkout's own environment first. What goes wrong is said in a sentence.
"""

from hemcalc.launch.commands import main

__all__ = ["main"]
