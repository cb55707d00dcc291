"""Closes every address but this machine's to a Python that has this on its path; notes who asks.

The test command puts it on the path of all that it runs (`launch/stages.py`), kernels included, and fails
if anything was noted in the file that HEMCALC_CLOSED names.
"""

import os
import socket
import sys

OURS = {None, "", "localhost", "::", "::1", "0.0.0.0", socket.gethostname()}


def closed(event: str, given: tuple) -> None:
    """Refuse to reach, or to look up, another machine."""
    if event in ("socket.connect", "socket.sendto", "socket.sendmsg"):
        host = given[1][0] if isinstance(given[1], tuple) else None  # else a socket in a file
    elif event in ("socket.getaddrinfo", "socket.gethostbyname"):
        host = given[0]
    else:
        return
    host = host.decode() if isinstance(host, bytes) else host
    if host not in OURS and not host.startswith("127."):
        with open(os.environ["HEMCALC_CLOSED"], "a", encoding="utf-8") as noted:
            noted.write(f"{event} {host} by {' '.join(sys.orig_argv)[:200]!r}\n")
        raise PermissionError(f"{host} is closed while the tests run")


# jsonschema brings in a grammar of web addresses that takes two seconds to read; no schema here needs it.
sys.modules["rfc3987_syntax"] = None

if os.environ.get("HEMCALC_CLOSED"):
    sys.addaudithook(closed)
