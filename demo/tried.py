"""What was asked for on some of the demo's drafts before what could be built was settled on: donor car → choices."""

from __future__ import annotations

from collections.abc import Mapping

from demo.steps import Choices

TRIED: Mapping[str, tuple[Choices, ...]] = {
    "T1-04417": ("scuttle=vented",),
    "T1-00250": ("scuttle=vented",),
    "T1-07720": ("scuttle=vented", "suspension=four-link bonnet=raised tunnel=narrow"),
    "T3-36600": ("steering=right",),
    "T4-11806": ("steering=right",),
    "T4-05050": ("bumpers=impact wheel-well=shallow",),
    "T4-15002": ("roof=folding rear-window=small",),
    "T2-00871": ("roof=folding rear-window=small",),
    "T3-11290": ("belts=front-and-rear",),
    "T3-33333": ("belts=front-and-rear",),
    "T3-40100": ("wax=cavities",),
    "T3-19007": ("panels=off",),
    "T2-18110": ("suspension=four-link",),
}
