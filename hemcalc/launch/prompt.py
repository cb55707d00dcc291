"""The way from a kernel to the page, without delay: the lab's server loads this, and nothing else does."""

from __future__ import annotations

from typing import Any

from jupyter_server.services.kernels.connection.channels import ZMQChannelsWebsocketConnection


class Prompt(ZMQChannelsWebsocketConnection):
    """Sends each message of a kernel at once.

    Else the system keeps a small one back until the page has confirmed the one before, which may be 40 ms
    later: as long as all else between a key press and its picture.
    """

    def connect(self) -> Any:
        """Begin, with no message kept back."""
        self.websocket_handler.set_nodelay(True)
        return super().connect()
