"""What a shop sells by, and lengths said in it: 1/8 yd, 10 cm, a metre."""

from __future__ import annotations

from dataclasses import dataclass

from hemcalc.measure.errors import one_of
from hemcalc.measure.exact import leading_number
from hemcalc.measure.lengths import Length, as_length
from hemcalc.measure.units import MILLIMETRES, UNITS, unit_named
from hemcalc.measure.words import about

_IN_PARTS = ("in", "ft", "yd")  # said in halves, quarters and eighths; the others in decimals


@dataclass(frozen=True, slots=True)
class ShopUnit:
    """How much the shop sells at a time, and the unit that people say it in."""

    each: Length
    name: str
    #: As the leader wrote it.
    written: str

    @property
    def ruler(self) -> str:
        """The unit of the ruler that goes with it: inches for yards, feet and inches, else centimetres."""
        return "in" if self.name in _IN_PARTS else "cm"

    def up(self, length: Length) -> Length:
        """The length rounded up to whole units of the shop."""
        return length.rounded_up(self.each)

    def text(self, length: Length) -> str:
        """A length to ask for, in the unit that the shop says.

        Examples
        --------
        >>> as_shop_unit("1/8 yd").text(Length("58.5 in")), as_shop_unit("metre").text(Length(1500))
        ('1 5/8 yd', '1.5 m')
        """
        exact = length.mm / MILLIMETRES[self.name]
        if self.name in _IN_PARTS and exact.denominator <= 64:
            whole, part = divmod(exact, 1)
            return f"{' '.join(str(number) for number in (whole, part) if number) or '0'} {self.name}"
        return f"{about(exact)} {self.name}"

    def beside(self, length: Length, unit: str) -> str:
        """The same, and in brackets in the reader's own unit, where that is another.

        Examples
        --------
        >>> as_shop_unit("1/8 yd").beside(Length("58.5 in"), "in")
        '1 5/8 yd (58 1/2 in)'
        """
        one_of(unit, UNITS, "unit")
        return self.text(length) if self.name == unit else f"{self.text(length)} ({length.text(unit)})"


def as_shop_unit(value: object, about: str = "unit") -> ShopUnit:
    """The value as what a shop sells by; a unit without a number is one of it.

    Examples
    --------
    >>> as_shop_unit("yard").each == as_shop_unit("1 yd").each == Length("36 in")
    True
    """
    if isinstance(value, ShopUnit):
        return value
    if isinstance(value, str):
        bare = unit_named(value.strip())
        each = as_length(f"1 {bare}" if bare else value, about)
        name = bare or unit_named(leading_number(value, about)[1])
        assert name is not None  # as_length has read it
        return ShopUnit(each, name, value.strip())
    each = as_length(value, about)
    return ShopUnit(each, "cm", each.text("cm"))
