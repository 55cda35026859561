"""What is common to all sheets of the firm's."""

from __future__ import annotations

from itertools import pairwise

import pypdfium2
from reportlab.lib.colors import Color
from reportlab.platypus import Flowable

from app.documents.contents import Sheet
from app.documents.typesetting import fonts
from app.documents.typesetting.lettering import INK, STAMP, WHITE
from app.documents.typesetting.stationery import SIZES, Field, Stationery, print_sheets

LOOK = Stationery(SIZES[Sheet.A4], "Title", "Firm", "Subject", "en", (Field("From", "Firm", 0.9),), "Sheet", "{page}")


class Inks(Flowable):
    """A strip of squares, each in an ink, filled above and drawn below; `apart` is set and put back before each."""

    def __init__(self, inks: list[Color], apart: Color) -> None:
        super().__init__()
        self.inks, self.apart, self.width, self.height = inks, apart, 20.0 * len(inks), 40.0

    def draw(self) -> None:
        self.canv.setLineWidth(20)
        for place, ink in enumerate(self.inks):
            self.canv.saveState()
            self.canv.setFillColor(self.apart)
            self.canv.setStrokeColor(self.apart)
            self.canv.restoreState()
            self.canv.setFillColor(ink)
            self.canv.rect(20 * place, 20, 20, 20, stroke=0, fill=1)
            self.canv.setStrokeColor(ink)
            self.canv.line(20 * place, 10, 20 * place + 20, 10)


def test_everything_is_drawn_in_the_ink_that_was_asked_for_last() -> None:
    fonts.register()
    inks = [INK, INK, STAMP, STAMP, WHITE, INK]
    image = pypdfium2.PdfDocument(print_sheets(LOOK, [Inks(inks, STAMP), Inks(inks, INK)]))[0].render(scale=1).to_pil()
    for below in (10, 30, 50, 70):
        strip = [image.getpixel((71 + 20 * place + 10, 43 + below)) for place in range(len(inks))]
        assert [one == other for one, other in pairwise(strip)] == [True, False, True, False, False]
        assert strip[0] == strip[-1] == tuple(round(255 * part) for part in INK.rgb())
