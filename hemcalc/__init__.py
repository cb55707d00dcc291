"""hemcalc: count, thread and margin sums for hemstitched, mitred edges."""

import sys

# First of all, and in words that any older Python can read, so that it says this and no traceback.
if sys.version_info < (3, 11):  # noqa: UP036 - a checkout is run without pip, which would check it
    sys.exit(
        "hemcalc needs Python 3.11 or newer, and this one is Python "
        + sys.version.split()[0]
        + "; install a newer one and call it by its name, for example: python3.12 -m hemcalc open"
    )
