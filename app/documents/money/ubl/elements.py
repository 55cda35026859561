"""An XML document of UBL's in the making: names, amounts and tax categories as UBL 2.1 writes them."""

from __future__ import annotations

from decimal import Decimal
from xml.etree import ElementTree as ET

from babel.numbers import get_currency_precision

from rules.money.rounding import in_major_units

_SCHEMA = "urn:oasis:names:specification:ubl:schema:xsd:"
_CAC = f"{{{_SCHEMA}CommonAggregateComponents-2}}"
_CBC = f"{{{_SCHEMA}CommonBasicComponents-2}}"


class Tree:
    """`name`: the document's own, as in Invoice; parts are added in the order in which the schema wants them."""

    def __init__(self, name: str, currency: str) -> None:
        self.currency = currency
        self._space = f"{_SCHEMA}{name}-2"
        self.root = ET.Element(f"{{{self._space}}}{name}")

    def text(self, parent: ET.Element, name: str, value: str, **attributes: str) -> None:
        """Left out where there is nothing to say."""
        if value:
            ET.SubElement(parent, _CBC + name, attributes).text = value

    def amount(self, parent: ET.Element, name: str, minor: int, currency: str = "") -> None:
        """In the document's currency, unless another is said."""
        currency = currency or self.currency
        written = f"{in_major_units(minor, get_currency_precision(currency)):f}"
        self.text(parent, name, written, currencyID=currency)

    def part(self, parent: ET.Element, *names: str) -> ET.Element:
        """The innermost of parts within each other."""
        for name in names:
            parent = ET.SubElement(parent, _CAC + name)
        return parent

    def category(self, parent: ET.Element, name: str, category: str, percent: Decimal, reason: str = "") -> None:
        """A tax category (UNCL5305) at its rate, in the one scheme that there is."""
        made = self.part(parent, name)
        self.text(made, "ID", category)
        self.text(made, "Percent", f"{percent.normalize():f}")
        self.text(made, "TaxExemptionReason", reason)
        self.scheme(made)

    def scheme(self, parent: ET.Element) -> None:
        self.text(self.part(parent, "TaxScheme"), "ID", "VAT")

    def xml(self) -> bytes:
        """With the prefixes that UBL's own examples have; the same tree gives the same bytes."""
        for prefix, space in (("", self._space), ("cac", _CAC[1:-1]), ("cbc", _CBC[1:-1])):
            ET.register_namespace(prefix, space)
        return b'<?xml version="1.0" encoding="UTF-8"?>\n' + ET.tostring(self.root, encoding="utf-8") + b"\n"
