"""A panel's controls, set as a hand sets them."""

from hemcalc.panels.panel import Panel


def move(panel: Panel, **values: object) -> None:
    """Set these controls in turn; in a control's name _ stands for a space."""
    for name, value in values.items():
        panel.controls[name.replace("_", " ")].widget.value = value
