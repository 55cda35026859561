"""Sums, percents, dates, sizes and masses as a reader of the paper's locale writes them. It rounds no money."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import ROUND_HALF_UP, Decimal
from functools import cache, lru_cache

from babel import Locale
from babel.dates import format_date, get_timezone_location
from babel.numbers import format_currency, format_decimal, get_currency_precision

#: One inch and one pound are exact by definition (international yard and pound, 1959).
MM_PER_INCH = Decimal("25.4")
KG_PER_POUND = Decimal("0.45359237")

_MINUS = "\N{MINUS SIGN}"

#: A locale by its name, read once: a paper writes a hundred figures in one.
_known = cache(Locale.parse)


def locale_for(language: str, country: str = "") -> str:
    """As the reader writes figures and dates: English as in the United States there, else as in Britain.

    `country`: ISO 3166-1 alpha-2; empty for what is nobody's letter.
    """
    if language == "en":
        return "en_US" if country == "US" else "en_GB"
    return f"{language}_{language.upper()}"


@dataclass(frozen=True, slots=True)
class Figures:
    """Writes figures for one locale (as Babel names it) and one currency (ISO 4217)."""

    locale: str
    currency: str

    def money(self, minor: int) -> str:
        """Whole minor units with the currency's sign; exact, so that nothing is left to round."""
        return _money(minor, self.currency, self.locale)

    def bare(self, minor: int) -> str:
        """Whole minor units without the currency's sign, with as many decimals as it has."""
        amount = Decimal(minor).scaleb(-get_currency_precision(self.currency))
        written = format_currency(amount, self.currency, format="#,##0.00", locale=_known(self.locale))
        return written.replace("-", _MINUS)

    def off(self, minor: int) -> str:
        """What is taken off, as a negative sum; a dash where nothing is."""
        return self.money(-minor) if minor else "–"

    def percent(self, percent: Decimal) -> str:
        """20 → 20 % (or 20%), as the locale spaces it, with every decimal it has."""
        pattern = _known(self.locale).percent_formats[None].pattern
        return str(pattern).split(";")[0].replace("#,##0", self.exact(percent.normalize() + 0))

    def exact(self, value: Decimal) -> str:
        """A number with every decimal it has, as the locale writes it: 1.15, 1,15."""
        return format_decimal(value, locale=_known(self.locale), decimal_quantization=False)

    def measure(self, mm: Decimal) -> str:
        """Millimetres as on a drawing: every decimal as it is written, no mark between thousands to be misread."""
        places = max(0, -int(mm.as_tuple().exponent))
        pattern = f"0.{'0' * places}" if places else "0"
        return format_decimal(mm, format=pattern, locale=_known(self.locale)).replace("-", _MINUS)

    def expected(self, mm: Decimal) -> str:
        """Millimetres that were worked out: to a hundredth, which is finer than anybody measures."""
        return self.measure(mm.quantize(Decimal("0.01")))

    def number(self, value: int | Decimal) -> str:
        """A plain number with the locale's separators."""
        return format_decimal(value, locale=_known(self.locale)).replace("-", _MINUS)

    def day(self, day: date) -> str:
        """The date in full: 2 December 2026, 2. Dezember 2026, December 2, 2026."""
        return format_date(day, format="long", locale=_known(self.locale))

    def short_day(self, day: date) -> str:
        """The date as a title block has room for it: 2 Dec 2026, 02.12.2026, Dec 2, 2026."""
        return format_date(day, format="medium", locale=_known(self.locale))

    def inches(self, mm: int) -> str:
        """Millimetres as inches to a tenth, half up."""
        return self._tenth(Decimal(mm) / MM_PER_INCH)

    def length(self, mm: Decimal, both: bool) -> str:
        """2 mm, and where `both` 2 mm (0.079 in): hundredths of an inch, under an inch thousandths, half up."""
        metric = f"{self.exact(mm)}\u00a0mm"
        places = Decimal("0.01") if mm >= MM_PER_INCH else Decimal("0.001")
        inches = (mm / MM_PER_INCH).quantize(places, rounding=ROUND_HALF_UP)
        return (
            f"{metric} ({format_decimal(inches, locale=_known(self.locale), decimal_quantization=False)}\u00a0in)"
            if both
            else metric
        )

    def pounds(self, kg: int) -> str:
        """Kilograms as whole pounds, half up."""
        return self.number(int((Decimal(kg) / KG_PER_POUND).quantize(Decimal(1), rounding=ROUND_HALF_UP)))

    def country(self, code: str) -> str:
        """ISO 3166-1 alpha-2 → the country's name in the reader's language; an unknown code stays as it is."""
        return str(_known(self.locale).territories.get(code, code))

    def zone(self, zone: str) -> str:
        """Europe/London → London: the place whose clock counts, as the reader's language names it."""
        return str(get_timezone_location(zone, locale=_known(self.locale), return_city=True)) or zone

    def _tenth(self, value: Decimal) -> str:
        rounded = value.quantize(Decimal("0.1"), rounding=ROUND_HALF_UP)
        return format_decimal(rounded, format="#,##0.0", locale=_known(self.locale))


@lru_cache(maxsize=4096)
def _money(minor: int, currency: str, locale: str) -> str:
    """Kept: the prices of a list stand on every paper, and a sum more than once on one."""
    amount = Decimal(minor).scaleb(-get_currency_precision(currency))
    return format_currency(amount, currency, locale=_known(locale)).replace("-", _MINUS)
