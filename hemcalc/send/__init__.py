"""Pages to send round: the notebooks as plain HTML, whose panels move by pictures made beforehand."""

from hemcalc.send.folder import send_folder
from hemcalc.send.strips import strip_html

__all__ = ["send_folder", "strip_html"]
