"""Kernels for nbval, forked from one process that has read what each of them would read first.

A kernel spends three seconds of the processor's time on imports before its first cell. Read once for all
twelve notebooks, they take none: each kernel is still a process of its own, in which nothing has run yet.
Where a process can't be forked safely, kernels start as ever. That a page opens in a kernel that starts
from nothing is seen in a browser and in `treated.py`.
"""

import gc
import multiprocessing
import os
import sys
from collections.abc import Sequence
from multiprocessing.connection import Connection
from threading import Thread

from jupyter_client.provisioning import local_provisioner
from nbval import kernel

READ_FIRST = [
    *("ipykernel.kernelapp", "ipykernel.ipkernel", "matplotlib_inline.backend_inline", "pytest"),
    *("hemcalc.panels", "hemcalc.paper", "hemcalc.course", "hemcalc.books"),
]

_HOUSE = multiprocessing.get_context("forkserver") if sys.platform == "linux" else multiprocessing


class ForkedKernel(_HOUSE.Process):
    """A kernel's process, asked after as jupyter_client asks after those that it starts itself."""

    stdin = stdout = stderr = None
    line: Connection  # which ends with this process, however that ends

    def poll(self) -> int | None:
        """The code with which it ended; none while it runs."""
        return self.exitcode

    def wait(self) -> int | None:
        """Wait for its end."""
        self.join()
        return self.exitcode

    def send_signal(self, signum: int) -> None:
        """Send it a signal."""
        os.kill(self.pid, signum)


def launch(
    command: Sequence[str], *, env: dict[str, str], cwd: str | None = None, **_: object
) -> ForkedKernel:
    """Begin a kernel as this command would."""
    here, there = _HOUSE.Pipe()
    options = command[command.index("-f") :]
    begun = ForkedKernel(target=_be_kernel, args=(options, env, cwd, there))
    begun.start()
    here.recv()
    begun.line = here
    return begun


def _be_kernel(options: list[str], env: dict[str, str], cwd: str, told: Connection) -> None:
    from ipykernel.kernelapp import IPKernelApp

    Thread(target=_end_with, args=[told], daemon=True).start()
    gc.freeze()
    gc.set_threshold(200_000, 20, 1000)
    os.setsid()
    told.send("on its own")  # before this, who interrupted the kernel's group would be in it
    os.chdir(cwd)
    os.environ |= env
    silent = os.open(os.devnull, os.O_RDWR)
    os.dup2(silent, 1)
    os.dup2(silent, 2)
    IPKernelApp.launch_instance(options)


def _end_with(line: Connection) -> None:
    """End when who began this kernel is gone, as any kernel does; nothing is ever said to it."""
    line.poll(None)
    os._exit(1)


# nbval sets out each message for its log, which nobody keeps: more than half of its own time.
kernel.pformat = lambda message: ""

if sys.platform == "linux":
    _HOUSE.set_forkserver_preload(READ_FIRST)
    local_provisioner.launch_kernel = launch
