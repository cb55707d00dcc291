"""A long search beside the page's own work, so that the page goes on, sees how far it is, and can stop it."""

from __future__ import annotations

import ctypes
import threading
from collections.abc import Callable
from typing import Any

from hemcalc.measure.errors import HemError


class Search:
    """A search for a layout beside the page's own work: it tells how far it is, and can be stopped.

    `work` is given a function to which it tells, in a sentence, how far it is; what it comes to when it is
    interrupted is taken as it is. `tell` is told each sentence, `done` given the result, or the error.
    """

    def __init__(
        self,
        work: Callable[[Callable[[str], None]], Any],
        tell: Callable[[str], None],
        done: Callable[[Any], None],
    ) -> None:
        self._work, self._tell, self._done = work, tell, done
        self._stopped = threading.Event()
        self._telling = threading.Lock()
        self._searching = True
        self._thread = threading.Thread(target=self._run, daemon=True)
        self._thread.start()

    @property
    def is_on(self) -> bool:
        """Whether it is still at work."""
        return self._thread.is_alive()

    def stop(self) -> None:
        """Have it come to an end at once, with the best so far."""
        with self._telling:  # never in the middle of a message to the page
            # A search ends by KeyboardInterrupt; this is how Python raises one in another thread.
            if self._searching and not self._stopped.is_set():
                self._stopped.set()
                self._tell("Stopping…")
                ctypes.pythonapi.PyThreadState_SetAsyncExc(
                    ctypes.c_ulong(self._thread.ident or 0), ctypes.py_object(KeyboardInterrupt)
                )

    def wait(self, seconds: float | None = None) -> None:
        """Wait for its end."""
        self._thread.join(seconds)

    def _run(self) -> None:
        result: Any = None
        while self._searching:
            try:
                result = self._attempt()
                with self._telling:
                    self._searching = False
            except KeyboardInterrupt:
                # Before there was a layout, or once it was found: again, with every stage left out.
                continue
        self._done(result)

    def _attempt(self) -> Any:
        try:
            return self._work(self._progress)
        except HemError as error:
            return error

    def _progress(self, sentence: str) -> None:
        with self._telling:
            if not self._stopped.is_set():
                self._tell(sentence)
                return
        raise KeyboardInterrupt
