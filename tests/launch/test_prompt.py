"""What a kernel says goes to the page at once."""

from jupyter_server.services.kernels.websocket import KernelWebsocketHandler

from hemcalc.launch.lab import arguments
from hemcalc.launch.prompt import Prompt


class Socket(KernelWebsocketHandler):
    """The lab's way to the page, which notes what it is told."""

    def __init__(self):
        self.told = []

    def set_nodelay(self, value):
        self.told.append(value)


def test_the_lab_keeps_no_message_of_a_kernel_back(monkeypatch, tmp_path):
    socket = Socket()
    monkeypatch.setattr(Prompt.__base__, "connect", lambda self: self.websocket_handler.told.append("open"))
    Prompt(websocket_handler=socket).connect()
    assert socket.told == [True, "open"]
    named = f"--ServerApp.kernel_websocket_connection_class={Prompt.__module__}.{Prompt.__name__}"
    assert named in arguments(tmp_path)
