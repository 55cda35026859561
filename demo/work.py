"""The demo's work in hand, oldest first: one row for each enquiry, with what has happened to it since.

Days are counted back from the day of loading, so that whatever lapses has lapsed and whatever stands still stands.
"""

from __future__ import annotations

from app.domain.quotations.chasing import Kind, Way
from app.domain.quotations.photograph import Shows
from app.domain.quotations.quotation import DeliveryPlace, Reason
from demo import customers as c
from demo.people import PERSON
from demo.steps import Accepted, Asked, Declined, Issued, Job, Paid, Photographed, Revised, Ruled, Sent, Shells

IMOGEN, NELL, GRETA, WADE, THEMBA = (PERSON[name] for name in ("imogen", "nell", "greta", "wade", "themba"))

HERE, HOLLIN = DeliveryPlace("GB"), DeliveryPlace("GB", "Hollin")
DE, FR, IE, SE, NL, AT = map(DeliveryPlace, ("DE", "FR", "IE", "SE", "NL", "AT"))
US, CA, MX, ZA, AU, NZ = map(DeliveryPlace, ("US", "CA", "MX", "ZA", "AU", "NZ"))

PAINTED = "finish=painted primer=epoxy-and-filler packing=crate"
VAN, PORT = "delivery=van", "packing=frame delivery=port"
TO_GERMANY, TO_AMERICA = "packing=frame delivery=door-germany", "packing=frame delivery=door-united-states"
FOUR_LINK = "suspension=four-link bonnet=raised"
CHROME_S4 = "bumpers=chrome wheel-well=deep rail-ends=plain"
OWN_TUNNEL = "scuttle=plain tunnel=narrow"
NEW_TUNNEL = "scuttle=plain tunnel=wide"

# fmt: off
WORK = (
    Job(108, IMOGEN, c.WILFRED, "T3-08811", "GBP", HERE, (Shells(f"s3 home roadster {VAN}"),),
        (Issued(1), Accepted(9, "The signed paper came by post."), Paid(14))),
    Job(104, GRETA, c.LINDENHOF, "T3-14420", "EUR", DE,
        (Shells(f"s3 europe coupe {PAINTED} scope=outside-and-shuts colour=sleet delivery=door-germany"),),
        (Issued(0), Accepted(6), Paid(13, 4_800_00, "GBP", agreed=(5_520_00, "1.15")))),
    Job(101, IMOGEN, c.ISOLDE, "T1-04417", "GBP", HERE, (Shells(f"s1 home roadster {OWN_TUNNEL} {VAN}"),),
        (Issued(2), Declined(20, Reason.DATE, "Won't wait for the tunnel to be cut out and looked at."))),
    Job(97, WADE, c.BAYOU_ROAD, "", "USD", US, (Shells(f"s4 north-america roadster {PORT}", 3),),
        (Issued(1), Accepted(12), Paid(20))),
    Job(92, NELL, c.HOLLIN_LANE, "", "GBP", HERE, (Shells("s3 home roadster", 3),),
        (Issued(0), Accepted(4, "For stock; will fetch them one by one."), Paid(9))),
    Job(88, THEMBA, c.KAROO_ROAD, "T3-22190", "GBP", ZA,
        (Shells(f"s3 southern-africa coupe {PAINTED} scope=outside colour=slate delivery=port"),),
        (Issued(1), Accepted(15))),
    Job(85, IMOGEN, c.HUMPHREY, "T2-00871", "GBP", HERE, (Shells(f"s2 home coupe rear-window=large {VAN}"),),
        (Issued(1), Declined(9, Reason.PRICE, "Hopes to mend the old shell for less."))),
    Job(80, IMOGEN, c.MATHILDE, "T2-13300", "GBP", FR, (Shells("s2 europe roadster"),),
        (Issued(1),), note="Collects it herself with a trailer; the tax is for a person to decide."),
    Job(77, GRETA, c.ANSELM, "T4-03001", "EUR", DE, (Shells(f"s4 europe coupe {TO_GERMANY}"),),
        (Photographed(0, Shows.PLATE), Issued(2))),
    Job(74, IMOGEN, c.BEATRIX, "T4-15002", "GBP", HERE, (Shells(f"s4 home coupe roof=folding {VAN}"),),
        (Issued(1), Declined(14, Reason.DETAIL, "Wants the roof to slide, not to fold."))),
    Job(70, WADE, c.ROSCOE, "T2-09001", "USD", US,
        (Shells(f"s2 north-america roadster steering=right {TO_AMERICA}"),),
        (Issued(3), Ruled(5, "A1", granted=True, reason="The owner has its papers; the hand was changed in 1971."),
         Declined(10, Reason.IDENTITY, "The plate turned out to be another car's."))),
    Job(66, IMOGEN, c.FINTAN, "T3-30110", "GBP", IE, (Shells(f"s3 home roadster {PORT}"),),
        (Issued(1), Accepted(21))),
    Job(63, NELL, c.CUTHBERT, "T2-18110", "GBP", HERE, (Shells(f"s2 home roadster {VAN}"),),
        (Issued(1), Revised(6, "bonnet=aluminium"), Issued(7), Accepted(11), Paid(15))),
    Job(60, THEMBA, c.KAROO_ROAD, "", "GBP", ZA, (Shells(f"s4 southern-africa roadster {PORT}", 2),), (Issued(1),)),
    Job(57, IMOGEN, c.SIGRID, "T2-07777", "GBP", SE,
        (Shells(f"s2 europe coupe {PAINTED} scope=all-over colour=lichen delivery=port"),),
        (Issued(2), Accepted(16, "Rang to say yes; the paper is to follow."), Paid(20, 2_000_00))),
    Job(54, IMOGEN, c.JORY, "T1-00250", "GBP", HERE, (Shells(f"s1 home roadster {NEW_TUNNEL} {VAN}"),),
        (Issued(1), Sent(1, Kind.OFFER), Sent(45, Kind.LAPSE_NOTICE)),
        note="One before the first we know: a photograph of the plate was asked for."),
    Job(50, GRETA, c.LINDENHOF, "", "EUR", DE, (Shells(f"s2 europe roadster {TO_GERMANY}", 3),),
        (Issued(1), Declined(12, Reason.PRICE, "Kein Lagerplatz zu diesem Preis."))),
    Job(47, IMOGEN, c.DARCY, "T3-05512", "GBP", AU,
        (Shells(f"s3 home coupe {PAINTED} scope=outside colour=rowan wax=cavities delivery=port"),), (Issued(1),)),
    Job(45, WADE, c.HOLLIS, "T4-11806", "USD", US, (Shells(f"s4 north-america roadster {TO_AMERICA}"),),
        (Issued(1), Revised(5, "primer=epoxy"), Issued(6))),
    Job(41, IMOGEN, c.DORCAS, "T3-33333", "GBP", HERE,
        (Shells(f"s3 home roadster own-doors=yes trial-fit=customers-trim {VAN}"),),
        (Issued(2), Sent(2, Kind.OFFER), Sent(25, Kind.REMINDER, Way.TELEPHONE))),
    Job(38, NELL, c.IVO, "T4-02244", "GBP", HOLLIN, (Shells(f"s4 home coupe {VAN}"),),
        (Issued(1), Revised(9, "packing=wrapped"), Issued(10), Accepted(15))),
    Job(34, IMOGEN, c.UNA, "T3-19007", "GBP", HERE, (Shells(f"s3 home roadster bonnet=aluminium {VAN}"),),
        (Issued(1), Accepted(8), Paid(10, billed=False))),
    Job(30, THEMBA, c.ANNELIE, "T3-40100", "GBP", ZA, (Shells(f"s3 southern-africa roadster {PORT}"),),
        (Issued(1), Accepted(13))),
    Job(28, IMOGEN, c.OTTILIE, "T2-06150", "GBP", HERE, (Shells(f"s2 home coupe {VAN}"),),
        (Photographed(0, Shows.CAR, note="As it stands in her barn."), Issued(1), Sent(2, Kind.OFFER, Way.POST),
         Sent(9, Kind.PART_REQUEST, Way.POST), Sent(23, Kind.REMINDER)),
        note="She has a sound window ring and will have it cut out."),
    Job(27, GRETA, c.LINDENHOF, "T3-20417", "EUR", DE,
        (Shells(f"s3 europe coupe {PAINTED} scope=outside-and-shuts colour=frost delivery=door-germany"),),
        (Issued(1),)),
    Job(25, IMOGEN, c.SILAS, "T3-11290", "GBP", HERE, (Shells(f"s3 home roadster belts=front {VAN}"),),
        (Asked(1, "A3", "Wants his grandchildren strapped in properly."), Issued(1), Sent(2, Kind.OFFER)),
        note="Waits for Piers to look at the anchorages."),
    Job(23, THEMBA, c.KAROO_ROAD, "", "GBP", ZA, (Shells(f"s3 southern-africa roadster {PORT}"),),
        (Issued(2), Revised(8, "hood=hood-and-hardtop"), Issued(9))),
    Job(22, IMOGEN, c.MARJORY, "T4-09090", "GBP", HERE, (Shells(f"s4 home roadster {VAN}"),),
        (Issued(1), Declined(7, Reason.OTHER, "Has sold the car."))),
    Job(20, WADE, c.ROSCOE, "T3-36600", "USD", US,
        (Shells(f"s3 north-america roadster markers=front {TO_AMERICA}"),),
        (Issued(1), Ruled(4, "A5", granted=False, reason="Not without a letter from his authority."))),
    Job(19, IMOGEN, c.JOOST, "T1-07720", "GBP", NL, (Shells(f"s1 europe roadster {OWN_TUNNEL} {PORT}"),),
        (Photographed(0, Shows.PLATE), Issued(2), Photographed(4, Shows.PART, "P1", "Rust through at the left flange."),
         Revised(6, "tunnel=wide"), Issued(7))),
    Job(17, IMOGEN, c.MAUD, "T4-05050", "GBP", HERE, (Shells(f"s4 home roadster {CHROME_S4} {FOUR_LINK} {VAN}"),),
        (Asked(0, "A2", "Has the axle and the brackets already."),
         Ruled(1, "A2", granted=True, reason="Looked at with Tomasz: the floor takes it, with the deep well."),
         Issued(1), Sent(1, Kind.OFFER), Sent(12, Kind.REMINDER, Way.TELEPHONE)),
        note="Four-link on an S4: Piers looks at it first."),
    Job(16, IMOGEN, c.TAMSIN, "T2-20011 automatic", "GBP", NZ, (Shells(f"s2 home roadster {PORT}"),),
        (Issued(1),)),
    Job(14, GRETA, c.HENRIKE, "T4-18004", "EUR", DE, (Shells(f"s4 europe roadster {TO_GERMANY}"),),
        (Issued(1), Accepted(9, "Unterschrieben zurück."))),
    Job(12, IMOGEN, c.AGNES, "T2-05900", "GBP", HERE, (Shells("s2 home coupe"),),
        (Photographed(0, Shows.PLATE), Issued(0), Photographed(2, Shows.PART, "P4", "Before the glass came out."))),
    Job(10, IMOGEN, c.GERLINDE, "T2-11011", "EUR", AT,
        (Shells(f"s2 europe roadster {PAINTED} scope=outside colour=reference delivery=port"),),
        (Issued(1),), note="The reference card is on its way."),
    Job(9, NELL, c.HOLLIN_LANE, "", "GBP", HERE, (Shells("s3 home roadster", 3),), (Issued(0), Revised(2))),
    Job(8, IMOGEN, c.MATHILDE, "T2-13300", "GBP", FR, (Shells("s2 europe roadster packing=wrapped"),), (Issued(1),)),
    Job(7, NELL, c.HOLLIN_LANE, "", "GBP", HERE, (Shells("s4 home roadster", 2), Shells("s4 home coupe roof=folding")),
        (Issued(1),), {"photo-book": 1, "dimensional-certificate": 3}),
    Job(6, IMOGEN, c.MAELLE, "T4-16161", "USD", CA, (Shells(f"s4 north-america coupe {PORT}"),), (Issued(1),)),
    Job(5, IMOGEN, c.ALDOUS, "T3-12044", "GBP", HERE, (Shells(f"s3 home roadster {VAN}"),),
        (Photographed(0, Shows.RECORD, note="Page 212"), Issued(0), Accepted(3))),
    Job(5, WADE, c.BAYOU_ROAD, "T4-11806", "USD", US,
        (Shells(f"s4 north-america roadster {PORT}", left_open="bonnet"),)),
    Job(4, THEMBA, c.ANNELIE, "T2-16100", "GBP", ZA, (Shells(f"s2 southern-africa coupe {PORT}"),)),
    Job(3, IMOGEN, c.XIMENA, "T3-28282", "USD", MX,
        (Shells("s3 north-america coupe packing=crate delivery=door-elsewhere"),),
        note="To her door: the carrier has been asked for a price."),
    Job(3, GRETA, c.ANSELM, "T4-03001", "EUR", DE, (Shells(f"s4 europe coupe {TO_GERMANY}"),)),
    Job(2, IMOGEN, c.UNA, "T4-07007", "GBP", HERE, (Shells(f"s4 home roadster {FOUR_LINK} {VAN}"),),
        (Photographed(0, Shows.PLATE),),
        note="Wants the impact bumpers and the four-link both."),
    Job(1, IMOGEN, c.BEATRIX, "T4-15002", "GBP", HERE, (Shells("s4 home coupe", left_open="finish roof"),)),
    Job(1, IMOGEN, c.TOBIAS, "T2-21301", "GBP", HERE, note="Rang at nine. Says the plate is hard to read."),
)
# fmt: on
