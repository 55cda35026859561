"""The difference of two colours, CIEDE2000 (CIE 142-2001; ISO/CIE 11664-6), with all weights 1."""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, cos, degrees, exp, hypot, radians, sin, sqrt

_FAR = 25.0**7


@dataclass(frozen=True, slots=True)
class Lab:
    """A colour by CIE L*a*b*."""

    lightness: float
    a: float
    b: float


def difference(sample: Lab, other: Lab) -> float:
    """ΔE00 of the two. They are alike where it is 0."""
    mean_chroma = (hypot(sample.a, sample.b) + hypot(other.a, other.b)) / 2
    stretch = 1 + 0.5 * (1 - sqrt(mean_chroma**7 / (mean_chroma**7 + _FAR)))
    first, second = hypot(sample.a * stretch, sample.b), hypot(other.a * stretch, other.b)
    hues = _hue(sample, stretch), _hue(other, stretch)
    light, chroma = other.lightness - sample.lightness, second - first
    turn = _turn(*hues) if first * second else 0.0
    hue = 2 * sqrt(first * second) * sin(radians(turn) / 2)
    mean_hue = _mean_hue(*hues) if first * second else sum(hues)
    lightness, mean = (sample.lightness + other.lightness) / 2, (first + second) / 2
    parts = light / _for_lightness(lightness), chroma / (1 + 0.045 * mean), hue / _for_hue(mean, mean_hue)
    return sqrt(sum(part * part for part in parts) + _rotation(mean, mean_hue) * parts[1] * parts[2])


def _hue(one: Lab, stretch: float) -> float:
    """Degrees from 0 to 360; a grey has none, and is given 0."""
    return degrees(atan2(one.b, one.a * stretch)) % 360 if one.a or one.b else 0.0


def _turn(first: float, second: float) -> float:
    """From one hue to the other, the shorter way."""
    turn = second - first
    return turn - 360 if turn > 180 else turn + 360 if turn < -180 else turn


def _mean_hue(first: float, second: float) -> float:
    together = first + second
    if abs(first - second) <= 180:
        return together / 2
    return (together + 360) / 2 if together < 360 else (together - 360) / 2


def _for_lightness(mean: float) -> float:
    away = (mean - 50) ** 2
    return 1 + 0.015 * away / sqrt(20 + away)


def _for_hue(chroma: float, hue: float) -> float:
    weight = (
        1
        - 0.17 * cos(radians(hue - 30))
        + 0.24 * cos(radians(2 * hue))
        + 0.32 * cos(radians(3 * hue + 6))
        - 0.20 * cos(radians(4 * hue - 63))
    )
    return 1 + 0.015 * chroma * weight


def _rotation(chroma: float, hue: float) -> float:
    """It matters in the blue alone."""
    far = 2 * sqrt(chroma**7 / (chroma**7 + _FAR))
    return -sin(radians(60 * exp(-(((hue - 275) / 25) ** 2)))) * far
