"""Line art of the parts that a customer may send: invented like the shell's, in millimetres, y upwards.

Which part a rule asks for, and how much is left on beyond it, is the book's business, not this module's.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from app.documents.drawings.linework.stroke import Box, Ink, Stroke, both, box, curve, inked, line, ring


@dataclass(frozen=True, slots=True)
class PartArt:
    """`outline`: the part itself; `details`: what it is recognised by; `spare`: boxes that must not be cut into.

    `sides`: what the left, right, lower and upper edge of the drawing are called on the car.
    """

    outline: tuple[Stroke, ...]
    sides: tuple[str, str, str, str]
    details: tuple[Stroke, ...] = ()
    spare: tuple[Box, ...] = ()


#: Seen from above, nose to the left.
_FROM_ABOVE = ("front", "rear", "left", "right")
_FROM_BEHIND = ("left", "right", "below", "above")
_FROM_OUTSIDE = ("front", "rear", "below", "above")

_CENTRE = inked(Ink.CENTRE, line((-40, 0), (1340, 0)))

_TUNNEL = PartArt(
    outline=both(curve((0, 0), (0, 190), (30, 245), (190, 232), (520, 190), (900, 172), (1240, 168), (1270, 140),
                       (1270, 0))),
    details=(
        *both(curve((30, 205), (190, 192), (520, 150), (900, 132), (1240, 128))),
        ring(300, 0, 92, 74),
        ring(300, 0, 58, 44),
        box(610, -70, 700, 70),
        ring(980, 0, 26),
        *both(*(ring(x, y, 7) for x, y in ((110, 218), (260, 205), (410, 184), (560, 168), (710, 160), (860, 153),
                                           (1010, 150), (1160, 148)))),
        *_CENTRE,
    ),
    spare=((0, 128, 1270, 245), (0, -245, 1270, -128)),
    sides=_FROM_ABOVE,
)  # fmt: skip

_WINDOW_RING = PartArt(
    outline=(curve((-520, -120), (-500, -165), (-440, -185), (0, -198), (440, -185), (500, -165), (520, -120),
                   (470, 100), (440, 150), (380, 172), (0, 190), (-380, 172), (-440, 150), (-470, 100), closed=True),),
    details=(
        curve((-462, -108), (-445, -135), (-400, -146), (0, -158), (400, -146), (445, -135), (462, -108), (418, 88),
              (395, 120), (345, 134), (0, 150), (-345, 134), (-395, 120), (-418, 88), closed=True),
        *inked(Ink.CENTRE, line((0, -260), (0, 250))),
    ),
    spare=((-520, -198, -370, -60), (370, -198, 520, -60), (-480, 60, -330, 190), (330, 60, 480, 190)),
    sides=_FROM_BEHIND,
)  # fmt: skip

_DOOR = PartArt(
    outline=(curve((0, 0), (-30, 240), (-12, 470), (15, 555)), line((15, 555), (880, 570)),
             curve((880, 570), (905, 380), (870, 160), (800, 40), (700, 0)), line((700, 0), (0, 0))),
    details=(
        box(-62, 120, -8, 200), box(-62, 380, -8, 460), ring(-35, 160, 12), ring(-35, 420, 12),
        box(862, 330, 902, 400), box(690, 430, 800, 462), curve((40, 60), (380, 90), (740, 70)),
    ),
    spare=((-62, 110, 10, 210), (-62, 370, 10, 470)),
    sides=_FROM_OUTSIDE,
)  # fmt: skip

_BONNET = PartArt(
    outline=both(curve((0, 0), (12, 200), (60, 352), (550, 436), (1085, 505)),
                 curve((1085, 505), (1066, 250), (1060, 0))),
    details=(
        *both(curve((90, 210), (520, 250), (1020, 280))), *both(box(1030, 330, 1090, 400)), ring(70, 0, 24),
        *inked(Ink.CENTRE, line((-60, 0), (1150, 0))),
    ),
    spare=((1020, 320, 1100, 410), (1020, -410, 1100, -320)),
    sides=_FROM_ABOVE,
)  # fmt: skip

_BOOT_LID = PartArt(
    outline=both(curve((0, 0), (6, 240), (26, 430)), curve((26, 430), (360, 452), (640, 395), (700, 240), (706, 0))),
    details=(*both(box(-20, 250, 50, 320)), ring(650, 0, 26), *inked(Ink.CENTRE, line((-60, 0), (770, 0)))),
    spare=((-30, 240, 60, 330), (-30, -330, 60, -240)),
    sides=_FROM_ABOVE,
)  # fmt: skip

#: What a book may name as a sketch.
PARTS: Mapping[str, PartArt] = {
    "tunnel": _TUNNEL,
    "window-ring": _WINDOW_RING,
    "door": _DOOR,
    "bonnet": _BONNET,
    "boot-lid": _BOOT_LID,
}
