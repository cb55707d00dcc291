"""What ``python3 -m hemcalc pages FOLDER`` runs in the environment: ``python -m hemcalc.send FOLDER``."""

import sys
from functools import partial
from pathlib import Path

import hemcalc
from hemcalc.launch.sending import REFUSED
from hemcalc.measure.errors import HemError
from hemcalc.send.folder import send_folder

if __name__ == "__main__":
    notebooks = Path(hemcalc.__file__).parents[1] / "notebooks"
    try:
        send_folder(notebooks, Path(sys.argv[1]), partial(print, flush=True))
    except HemError as error:
        print(error, file=sys.stderr)
        sys.exit(REFUSED)
