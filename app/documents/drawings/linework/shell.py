"""The shell's line art: a small two-seater of the early sixties, invented, side and plan, in millimetres.

Side: seen from its left, nose to the left, y up from the ground. Plan: seen from above, nose to the left, y = 0 the
centre line, y up to the car's right. Which choice shows which element is the book's business, not this module's.
`handed` elements are drawn for left-hand steering and mirrored for right.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from app.documents.drawings.linework.stroke import (
    Ink,
    Stroke,
    blank,
    both,
    box,
    curve,
    hidden,
    inked,
    line,
    mirrored,
    ring,
    solid,
)

LENGTH, HALF_WIDTH, HEIGHT = 3900.0, 760.0, 1250.0
FRONT_AXLE, REAR_AXLE, WHEEL = 820.0, 3120.0, 300.0


@dataclass(frozen=True, slots=True)
class Art:
    """One element in both views. `handed`: its plan is mirrored for right-hand steering."""

    side: tuple[Stroke, ...] = ()
    plan: tuple[Stroke, ...] = ()
    handed: bool = False


def _arch(axle: float) -> Stroke:
    return curve((axle + 352, 250), (axle + 325, 440), (axle + 190, 600), (axle, 652), (axle - 190, 600),
                 (axle - 325, 440), (axle - 352, 250))  # fmt: skip


#: What every shell has: lower body, arches, shut lines, lamps; the plan's outline; wheels only as phantoms.
COMMON = Art(
    side=(
        curve((465, 268), (250, 285), (105, 350), (62, 450), (78, 560), (150, 660), (290, 742), (520, 790), (820, 818),
              (1150, 842), (1420, 872), (1495, 892)),
        _arch(FRONT_AXLE),
        line((1172, 250), (2768, 250)),
        _arch(REAR_AXLE),
        curve((3472, 262), (3640, 290), (3780, 350), (3842, 450), (3852, 570), (3832, 690), (3790, 742)),
        line((1190, 312), (2752, 312)),
        curve((1560, 880), (1545, 700), (1556, 470), (1590, 330)),
        curve((2424, 862), (2440, 700), (2400, 470), (2330, 330), (2200, 316)),
        line((1590, 330), (1640, 316), (2200, 316)),
        ring(176, 622, 44, 78),
        curve((215, 690), (238, 622), (205, 548)),
        ring(3806, 610, 22, 62),
        *inked(Ink.PHANTOM, ring(FRONT_AXLE, WHEEL, WHEEL), ring(REAR_AXLE, WHEEL, WHEEL)),
        *inked(Ink.PHANTOM, ring(FRONT_AXLE, WHEEL, 178), ring(REAR_AXLE, WHEEL, 178)),
        *inked(Ink.CENTRE, line((FRONT_AXLE, -70), (FRONT_AXLE, 720)), line((REAR_AXLE, -70), (REAR_AXLE, 720))),
        *inked(Ink.CENTRE, line((-140, 0), (4040, 0))),
    ),
    plan=(
        *both(
            curve((62, 0), (70, 250), (110, 470), (210, 620), (430, 700), (820, 738), (1250, 728), (1700, 716),
                  (2250, 724), (2700, 752), (3120, 760), (3480, 722), (3720, 610), (3830, 400), (3855, 0)),
            ring(205, 525, 78, 66),
            line((1560, 716), (1552, 640)),
            line((2424, 730), (2436, 640)),
            curve((3790, 470), (3730, 560), (3690, 590)),
        ),
        *inked(Ink.CENTRE, line((-190, 0), (4080, 0))),
        *inked(Ink.CENTRE, line((FRONT_AXLE, -850), (FRONT_AXLE, 850)), line((REAR_AXLE, -850), (REAR_AXLE, 850))),
    ),
)  # fmt: skip

_BONNET = both(
    curve((250, 0), (262, 190), (310, 352)),
    curve((310, 352), (800, 436), (1335, 505)),
    curve((1335, 505), (1316, 250), (1310, 0)),
)
_BLADE = curve((26, 500), (18, 440), (30, 400), (150, 392), (330, 400), (332, 430), (160, 446), (70, 470), (26, 500))
_TAIL_BLADE = curve((3884, 520), (3894, 460), (3880, 420), (3760, 412), (3560, 420), (3560, 450), (3740, 464),
                    (3840, 488), (3884, 520))  # fmt: skip
_LEAVES = curve((2720, 400), (2950, 330), (3120, 300), (3330, 335), (3540, 420))
_RIM = (ring(1905, -355, 62, 185), ring(1905, -355, 46, 163), line((1905, -355), (1500, -322)))
_WHEEL_SIDE = (
    curve((1800, 1010), (1830, 1015), (1930, 780), (1900, 770), (1800, 1010)),
    line((1862, 893), (1560, 770)),
)
_DIALS = (ring(1612, -430, 22, 55), ring(1612, -290, 22, 55))
_LAMP_FRONT = solid(box(330, 560, 470, 622))
_LAMP_REAR = solid(box(3560, 640, 3700, 702))
_LAMP_FRONT_PLAN = solid(*both(box(330, 686, 470, 722)))
_LAMP_REAR_PLAN = solid(*both(box(3560, 676, 3700, 712)))
_FRONT_BELTS = (*both(*blank(2560, 612, 74)), *both(ring(2240, 236, 34), ring(2240, 590, 34)))


def _cross(x: float, y: float, arm: float = 42) -> tuple[Stroke, ...]:
    return line((x - arm, y), (x + arm, y)), line((x, y - arm), (x, y + arm))


def _diamond(x: float, y: float, half: float = 58) -> tuple[Stroke, ...]:
    return solid(line((x - half, y), (x, y + half), (x + half, y), (x, y - half), closed=True))


def _wiper(y: float) -> tuple[Stroke, ...]:
    """A pivot and its arm, lying down towards the far side."""
    return (*solid(ring(1478, y, 24)), line((1478, y), (1572, y + 250)), line((1540, y + 120), (1600, y + 372)))


def _louvres() -> tuple[Stroke, ...]:
    return tuple(box(1348, y - 13, 1440, y + 13) for y in range(-420, 421, 70) if abs(y) > 20)


def _folds() -> tuple[Stroke, ...]:
    return tuple(line((x, -390), (x, 390)) for x in (2290, 2340, 2390, 2440))


def _links(y: float) -> tuple[Stroke, ...]:
    rods = (line((2626, y + side), (3054, y + side)) for side in (-14, 14))
    return ring(2600, y, 26), ring(3080, y, 26), *rods


_ROOF_LINE = curve((1495, 892), (1600, 1010), (1730, 1150), (1830, 1212), (2050, 1246), (2300, 1240), (2520, 1198),
                   (2800, 1100), (3150, 958), (3450, 848), (3790, 742))  # fmt: skip
_SIDE_GLASS = curve((1640, 905), (1740, 1045), (1850, 1150), (2060, 1182), (2300, 1174), (2470, 1120), (2640, 1010),
                    (2700, 915), (2400, 892), (1950, 888), (1640, 905))  # fmt: skip

ELEMENTS: Mapping[str, Art] = {
    "body/roadster": Art(
        side=(
            line((1495, 892), (1700, 1178), (1728, 1170), (1560, 890)),
            curve((1495, 892), (1560, 886), (2000, 868), (2424, 862), (2520, 884), (2600, 886), (2900, 878),
                  (3300, 846), (3600, 796), (3790, 742)),
            curve((1560, 886), (1700, 850), (2100, 838), (2424, 848)),
            curve((2200, 862), (2250, 1000), (2330, 1010), (2400, 900)),
        ),
        plan=(
            *both(curve((1450, 0), (1462, 300), (1510, 560), (1545, 600)), curve((1690, 0), (1700, 260), (1742, 500),
                  (1760, 540)), line((1545, 600), (1760, 540))),
            *both(curve((1560, 610), (1900, 628), (2300, 622), (2470, 560), (2520, 420), (2520, 0))),
            *both(curve((2010, 60), (2020, 540), (2300, 560), (2400, 500), (2420, 300), (2400, 80), (2010, 60))),
            *both(line((2760, 0), (2768, 380)), curve((2768, 380), (2785, 425), (2835, 438)),
                  line((2835, 438), (3560, 420)), curve((3560, 420), (3690, 260), (3715, 0))),
        ),
    ),
    "body/coupe": Art(
        side=(_ROOF_LINE, _SIDE_GLASS, line((2424, 895), (2470, 1118)),
              curve((1495, 892), (1560, 888), (2424, 870), (2800, 900), (3150, 905), (3450, 848))),
        plan=(
            *both(curve((1450, 0), (1462, 300), (1510, 560), (1545, 600)), curve((1750, 0), (1758, 260), (1790, 470)),
                  line((1545, 600), (1790, 470))),
            *both(curve((1790, 470), (2100, 520), (2500, 510), (2800, 500), (3300, 430), (3560, 330),
                  (3670, 190), (3700, 0))),
            *both(curve((1560, 610), (2000, 634), (2500, 628), (2900, 590), (3300, 460), (3560, 330))),
            *both(line((2560, 0), (2570, 430)), curve((2570, 430), (2590, 468), (2640, 474)),
                  curve((2640, 474), (3000, 440), (3440, 350)), curve((3440, 350), (3560, 220), (3600, 0))),
        ),
    ),
    "steering/left": Art(side=_WHEEL_SIDE, plan=_RIM),
    "steering/right": Art(side=hidden(*_WHEEL_SIDE), plan=mirrored(*_RIM)),
    "scuttle/vented": Art(side=(line((1340, 878), (1440, 892)), line((1350, 894), (1450, 908))),
                          plan=(*both(line((1330, 510), (1456, 530))), *_louvres())),
    "scuttle/plain": Art(plan=both(line((1330, 510), (1456, 530)), ring(1400, 200, 16))),
    "tunnel/narrow": Art(plan=hidden(*both(curve((1380, 190), (1600, 110), (2000, 92), (2900, 88))))),
    "tunnel/wide": Art(plan=hidden(*both(curve((1380, 250), (1600, 200), (2000, 180), (2900, 160))))),
    "tunnel/automatic": Art(plan=hidden(*both(curve((1380, 250), (1600, 200), (2000, 180), (2900, 160)),
                                              box(1880, 185, 2010, 285)), box(1820, -60, 2060, 60))),
    "suspension/leaf": Art(
        side=hidden(_LEAVES, ring(2720, 400, 30), ring(3540, 420, 30)),
        plan=hidden(*both(box(2700, 470, 3560, 520), ring(820, 430, 75))),
    ),
    "suspension/four-link": Art(
        side=hidden(line((2600, 330), (3080, 330)), line((2600, 470), (3080, 500)), ring(2600, 330, 28),
                    ring(2600, 470, 28), ring(3080, 330, 28), ring(3080, 500, 28),
                    line((690, 650), (730, 890), (910, 890), (950, 650))),
        plan=(*both(ring(820, 430, 150), ring(820, 430, 80)), *hidden(*both(*_links(500), *_links(330)))),
    ),
    "doors/early": Art(side=(line((2230, 742), (2400, 742), (2400, 768), (2230, 768), closed=True),
                             *solid(ring(2372, 694, 26))),
                       plan=both(line((2250, 745), (2400, 752)))),
    "doors/late": Art(side=(box(2240, 690, 2400, 772), line((2258, 740), (2382, 740))),
                      plan=both(line((2300, 712), (2300, 672), (2400, 676), (2400, 716)))),
    "rear-window/none": Art(plan=blank(2300, 0)),
    "rear-window/small": Art(
        side=(line((2775, 1062), (2985, 978)), line((2775, 1062), (2785, 1096)), line((2985, 978), (2998, 1010))),
        plan=both(line((2790, 0), (2794, 215)), curve((2794, 215), (2808, 252), (2850, 258)),
                  line((2850, 258), (3000, 236)), curve((3000, 236), (3048, 200), (3060, 0))),
    ),
    "rear-window/large": Art(
        side=(line((2590, 1130), (3330, 858)), line((2590, 1130), (2600, 1165)), line((3330, 858), (3345, 885))),
        plan=(
            *both(line((2620, 0), (2628, 370)), curve((2628, 370), (2645, 412), (2700, 414)),
                  line((2700, 414), (3250, 310)), curve((3250, 310), (3330, 190), (3345, 0))),
            *both(line((2760, 120), (3000, 60)), line((2760, 240), (3120, 150))),
        ),
    ),
    "bumpers/chrome": Art(
        side=(_BLADE, _TAIL_BLADE, box(40, 395, 92, 545), box(3822, 415, 3872, 560)),
        plan=(
            *both(curve((20, 0), (28, 260), (70, 500), (190, 660)), curve((-12, 0), (-4, 262), (42, 520), (168, 688))),
            *both(curve((3884, 0), (3876, 300), (3800, 560), (3640, 700)), curve((3914, 0), (3906, 310), (3824, 590),
                  (3660, 730))),
            *both(box(-38, 300, 40, 352), box(3858, 300, 3936, 352)),
        ),
    ),
    "bumpers/impact": Art(
        side=(box(-128, 380, 60, 560), line((-128, 440), (60, 440)), line((-128, 500), (60, 500)),
              box(60, 420, 150, 520),
              box(3850, 400, 4030, 580), line((3850, 460), (4030, 460)), line((3850, 520), (4030, 520)),
              box(3770, 440, 3850, 540)),
        plan=(
            *both(line((-130, 0), (-130, 600), (-90, 690), (120, 700), (120, 640), (-20, 560), (-20, 0))),
            *both(line((4032, 0), (4032, 600), (3990, 690), (3780, 720), (3780, 660), (3920, 560), (3920, 0))),
            *both(box(-20, 330, 110, 400), box(3800, 330, 3920, 400)),
        ),
    ),
    "wheel-well/deep": Art(side=hidden(line((3250, 430), (3270, 205), (3690, 215), (3720, 430))),
                           plan=hidden(ring(3490, 0, 255), ring(3490, 0, 205))),
    "wheel-well/shallow": Art(side=hidden(line((3250, 430), (3265, 345), (3700, 350), (3720, 430))),
                              plan=hidden(ring(3490, 0, 255))),
    "filler/deck": Art(side=(box(3395, 838, 3505, 872),), plan=(ring(3450, -520, 62), ring(3450, -520, 38))),
    "filler/wing": Art(side=(ring(3370, 752, 62), ring(3370, 752, 38)), plan=(box(3310, -742, 3430, -700),)),
    "filler/vapour": Art(
        side=(ring(3370, 752, 62), ring(3370, 752, 38),
              *hidden(curve((3308, 752), (3120, 770), (2860, 700)),
                      line((2860, 700), (2640, 300), (1290, 300), (1130, 640)),
                      curve((1130, 640), (900, 720), (640, 700)), box(560, 640, 640, 740))),
        plan=(box(3310, -742, 3430, -700), *hidden(curve((3310, -720), (2500, -690), (1300, -690), (640, -560))),
              ring(600, -560, 62), *_cross(600, -560, 62)),
    ),
    "dash/flat": Art(plan=(line((1600, -590), (1600, 590)), line((1632, -590), (1632, 590)), *_DIALS,
                           line((1600, 180), (1632, 180)), line((1600, 500), (1632, 500))), handed=True),
    "dash/hooded": Art(plan=(line((1600, -590), (1600, 590)), line((1632, -590), (1632, 590)), *_DIALS,
                             curve((1600, -560), (1700, -540), (1735, -360), (1700, -180), (1600, -160)),
                             curve((1600, -530), (1690, -515), (1715, -360), (1690, -205), (1600, -190))), handed=True),
    "dash/wrapped": Art(plan=(
        curve((1960, -612), (1780, -600), (1690, -540), (1660, -300), (1650, 0), (1660, 300), (1690, 540), (1780, 600),
              (1960, 612)),
        curve((1960, -580), (1800, -568), (1730, -500), (1712, -300), (1700, 0), (1712, 300), (1730, 500), (1800, 568),
              (1960, 580)), *_DIALS), handed=True),
    "rail-ends/plain": Art(side=hidden(line((3640, 330), (3775, 330)), line((3640, 395), (3775, 395))),
                           plan=hidden(*both(line((3560, 480), (3800, 480)), line((3560, 560), (3740, 560))))),
    "rail-ends/boxed": Art(
        side=(*hidden(line((3640, 330), (3775, 330)), line((3640, 395), (3775, 395))), box(3745, 318, 3812, 408)),
        plan=(*hidden(*both(line((3560, 480), (3800, 480)), line((3560, 560), (3740, 560)))),
              *both(box(3690, 462, 3790, 578), line((3690, 462), (3790, 578)), line((3690, 578), (3790, 462)))),
    ),
    "wipers/two": Art(plan=(*_wiper(-440), *_wiper(30)), handed=True),
    "wipers/three": Art(plan=(*_wiper(-520), *_wiper(-170), *_wiper(180)), handed=True),
    "markers/none": Art(side=blank(400, 592, 80), plan=both(*blank(400, 640, 70))),
    "markers/front": Art(side=_LAMP_FRONT, plan=_LAMP_FRONT_PLAN),
    "markers/front-and-rear": Art(side=(*_LAMP_FRONT, *_LAMP_REAR), plan=(*_LAMP_FRONT_PLAN, *_LAMP_REAR_PLAN)),
    "belts/original": Art(plan=both(ring(2240, 236, 34), ring(2240, 590, 34))),
    "belts/front": Art(side=_diamond(2500, 800), plan=(*both(ring(2240, 236, 34), ring(2240, 590, 34)),
                                                      *both(*_diamond(2500, 648)))),
    "belts/front-and-rear": Art(side=(*_diamond(2500, 800), *_diamond(2860, 800)),
                                plan=(*both(ring(2240, 236, 34), ring(2240, 590, 34)), *both(*_diamond(2500, 648)),
                                      *both(*_diamond(2860, 560)))),
    "roof/none": Art(plan=blank(2130, 0)),
    "roof/folding": Art(
        side=(curve((2240, 1246), (2290, 1292), (2330, 1250), (2380, 1290), (2420, 1238), (2470, 1272), (2500, 1212)),
              line((1850, 1232), (1850, 1202), (2240, 1220))),
        plan=(box(1850, -400, 2470, 400), *_folds(), line((1850, -400), (1890, -360), (1890, 360), (1850, 400))),
    ),
    "hood/none": Art(plan=blank(2470, 0)),
    "hood/hood": Art(
        side=(curve((2440, 866), (2470, 935), (2580, 958), (2700, 930), (2740, 880)), curve((2480, 880), (2580, 926),
              (2700, 890))),
        plan=both(curve((2545, 0), (2545, 420), (2490, 600), (2540, 640), (2640, 600), (2690, 400), (2700, 0)),
                  curve((2620, 0), (2618, 420), (2560, 590))),
    ),
    "hood/hood-and-hardtop": Art(
        side=(curve((2440, 866), (2470, 935), (2580, 958), (2700, 930), (2740, 880)),
              *inked(Ink.PHANTOM, curve((1715, 1180), (1900, 1216), (2200, 1222), (2450, 1160), (2640, 1010),
                     (2700, 884)))),
        plan=(*both(curve((2545, 0), (2545, 420), (2490, 600), (2540, 640), (2640, 600), (2690, 400), (2700, 0))),
              *solid(*both(box(2720, 420, 2790, 490), box(1740, 470, 1810, 540)))),
    ),
    "bonnet/steel": Art(plan=_BONNET),
    "bonnet/aluminium": Art(plan=(*_BONNET, *(line((x, y), (x + 110, y + 110)) for x in range(420, 1200, 200)
                                             for y in (-330, -220, -110, 0, 110, 220)))),
    "bonnet/raised": Art(
        side=(curve((420, 772), (540, 850), (800, 912), (1100, 932), (1300, 915), (1440, 880)),),
        plan=(*_BONNET, *both(curve((400, 0), (440, 160), (580, 240)), line((580, 240), (1200, 290)),
                               curve((1200, 290), (1262, 230), (1285, 0)))),
    ),
    "holes/open": Art(plan=both(ring(3770, 250, 46), *_cross(3770, 250, 66))),
    "holes/blanked": Art(plan=solid(*both(ring(3770, 250, 46)))),
}  # fmt: skip
