"""What ``python3 -m hemcalc`` runs: see `hemcalc.launch`."""

import sys

from hemcalc.launch import main

if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
