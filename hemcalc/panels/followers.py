"""Who wants to know when something that all panels share has changed, for as long as they live."""

from __future__ import annotations

from collections.abc import Callable
from weakref import WeakMethod


class Followers:
    """Methods that are called together, none of which keeps its object alive."""

    def __init__(self) -> None:
        self._methods: list[WeakMethod[Callable[[], None]]] = []

    def add(self, method: Callable[[], None]) -> None:
        """Have this method called, as long as its object lives."""
        self._methods.append(WeakMethod(method))

    def tell(self) -> None:
        """Call each; those whose object is gone, or was let go by its page, are forgotten."""
        alive = [
            (kept, method)
            for kept in self._methods
            if (method := kept()) and not getattr(getattr(method, "__self__", None), "closed", False)
        ]
        self._methods = [kept for kept, _ in alive]
        for _, method in alive:
            method()
