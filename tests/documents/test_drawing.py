"""The shell drawing: what each choice shows, how its line says how it stands, and that the hand mirrors."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from io import BytesIO
from itertools import combinations
from xml.etree import ElementTree

import pypdfium2 as pdfium
import pytest
from reportlab.pdfgen.canvas import Canvas

from app.documents.drawings.data import drawing_data
from app.documents.drawings.drawing import (
    Arrangement,
    Drawing,
    Part,
    Standing,
    elements_of,
    shell_drawing,
    unknown_elements,
)
from app.documents.drawings.flowable import DrawnShell
from app.documents.drawings.linework.shell import ELEMENTS
from app.documents.drawings.linework.stroke import box, curve, extent, hatching, line, ring
from app.documents.drawings.svg import svg
from app.documents.typesetting import fonts
from rules.answer import State
from rules.donor.usual import usual_specification
from rules.model import Book, Option, Role
from rules.specification import Donor
from tests.documents.orders import book

SVG = "{http://www.w3.org/2000/svg}"
TITLE_BLOCK = [book().roles[Role.SERIES], book().roles[Role.MARKET]]
DRAWN = {option for option, _ in elements_of(book())}
SHOWN = [option for option in book().options if option.id in DRAWN or option.id in TITLE_BLOCK]
PAIRS = [(o, a.id, b.id) for o in SHOWN for a, b in combinations(o.choices, 2)]


def as_usual(**over: str) -> dict[str, str]:
    keys = {"series": "s3", "market": "home", "body": "coupe"}
    return usual_specification(book(), keys, Donor()) | {k.replace("_", "-"): v for k, v in over.items()}


def drawn(
    settled: dict[str, str], state: State = State.USUAL, arrangement: Arrangement = Arrangement.STACKED
) -> Drawing:
    return stood(Standing(settled, dict.fromkeys(settled, state)), arrangement=arrangement)


def stood(
    standing: Standing,
    language: str = "en",
    arrangement: Arrangement = Arrangement.STACKED,
    of: Book | None = None,
) -> Drawing:
    drawing = shell_drawing(of or book(), standing, language, arrangement)
    assert drawing is not None
    return drawing


def pixels(drawing: Drawing, width: int = 1280) -> bytes:
    """The drawing as the paper renders it, one point a pixel."""
    fonts.register()
    shell = DrawnShell(drawing, width, weight=1)
    out = BytesIO()
    canvas = Canvas(out, pagesize=(width, shell.height), initialFontName=fonts.TEXT)  # type: ignore[arg-type]  # the stubs say float
    shell.drawOn(canvas, 0, 0)
    canvas.save()
    return bytes(pdfium.PdfDocument(out.getvalue())[0].render(scale=1).to_pil().tobytes())


@cache
def picture(option: str, choice: str, width: int = 1280) -> bytes:
    return pixels(drawn(as_usual() | {option: choice}), width)


def part(drawing: Drawing, option: str) -> Part:
    (found,) = (part for part in drawing.parts if part.option == option)
    return found


def test_every_structural_option_is_shown() -> None:
    assert [option.id for option in SHOWN] == [option.id for option in book().options if option.structural]


@pytest.mark.parametrize("option", SHOWN, ids=lambda option: option.id)
def test_every_choice_of_a_drawn_option_has_an_element_of_its_own(option: Option) -> None:
    elements = {part(drawn(as_usual() | {option.id: choice.id}), option.id).element for choice in option.choices}
    assert len(elements) == len(option.choices)


@pytest.mark.parametrize(("option", "one", "other"), PAIRS, ids=[f"{o.id}-{a}-{b}" for o, a, b in PAIRS])
def test_two_choices_never_look_alike(option: Option, one: str, other: str) -> None:
    assert picture(option.id, one) != picture(option.id, other)


@pytest.mark.parametrize(("option", "one", "other"), PAIRS, ids=[f"{o.id}-{a}-{b}" for o, a, b in PAIRS])
def test_two_choices_differ_at_the_width_of_a_phone_by_more_than_a_speck(option: Option, one: str, other: str) -> None:
    first, second = (picture(option.id, choice, 390)[::3] for choice in (one, other))
    assert sum(a != b for a, b in zip(first, second, strict=True)) >= 25


@pytest.mark.parametrize("handed", [name for name, art in ELEMENTS.items() if art.handed])
def test_what_lies_on_the_drivers_side_is_the_exact_mirror_for_the_other_hand(handed: str) -> None:
    option, choice = handed.split("/")
    left, right = (part(drawn(as_usual(steering=hand) | {option: choice}), option) for hand in ("left", "right"))
    middle = _centre_line(drawn(as_usual()))
    mirror = [stroke.moved(lambda point: (point[0], 2 * middle - point[1])) for stroke in left.strokes]
    assert _rounded(mirror) == _rounded(right.strokes)
    assert _rounded(left.strokes) != _rounded(right.strokes)


def test_every_dash_and_every_set_of_wipers_knows_the_drivers_side() -> None:
    sided = {f"{option.id}/{c.id}" for option in SHOWN if option.id in ("dash", "wipers") for c in option.choices}
    assert {name for name, art in ELEMENTS.items() if art.handed} == sided


def test_the_steering_wheel_is_mirrored_in_the_plan_and_hidden_behind_the_door_from_the_left() -> None:
    left, right = (part(drawn(as_usual(steering=hand)), "steering") for hand in ("left", "right"))
    middle = _centre_line(drawn(as_usual()))
    assert all(y > middle for stroke in left.strokes[2:] for _, y in stroke.points())
    mirror = [stroke.moved(lambda point: (point[0], 2 * middle - point[1])) for stroke in left.strokes[2:]]
    assert _rounded(mirror) == _rounded(right.strokes[2:])
    assert {stroke.ink.value for stroke in right.strokes[:2]} == {"hidden"}


def test_the_hand_moves_nothing_else() -> None:
    left, right = (drawn(as_usual(steering=hand)) for hand in ("left", "right"))
    moved = {a.option for a, b in zip(left.parts, right.parts, strict=True) if a.strokes != b.strokes}
    assert moved == {"steering", "dash", "wipers"}


def test_usual_chosen_forced_and_closed_are_four_different_pictures_without_any_colour() -> None:
    settled = as_usual(bumpers="impact")
    states = [pixels(drawn(settled, state)) for state in (State.USUAL, State.CHOSEN, State.FORCED)]
    bitten = stood(Standing(settled, {}, {"bumpers": ("D1", "D2")}))
    assert len({*states, pixels(bitten)}) == 4
    ElementTree.fromstring(svg(bitten))
    assert 'data-state="closed"' in svg(bitten)
    assert ">D1 D2</text>" in svg(bitten)
    assert {word for word in svg(bitten).split('"') if word.startswith("#")} == set()


def test_a_rules_id_stands_beside_the_hatching_in_both_views() -> None:
    standing = Standing(as_usual(bumpers="impact"), {}, {"bumpers": ("N2",)})
    bitten = part(stood(standing), "bumpers")
    assert [letters.text for letters in bitten.letters] == ["N2", "N2"]
    assert len(bitten.hatch) > 20


def test_an_open_question_is_not_drawn() -> None:
    settled = as_usual()
    del settled["bumpers"]
    assert "bumpers" not in {part.option for part in drawn(settled).parts}


def test_the_book_may_name_another_element_for_a_choice() -> None:
    other = tuple(replace(row, element="bumpers/impact") if row.choice == "chrome" else row for row in book().drawing)
    drawing = stood(Standing(as_usual(bumpers="chrome")), of=replace(book(), drawing=other))
    assert part(drawing, "bumpers").element == "bumpers/impact"


def test_every_element_that_the_demo_book_names_is_in_the_line_art_and_the_other_way_round() -> None:
    assert unknown_elements(book()) == ()
    assert {row.element for row in book().drawing} == set(ELEMENTS)


def test_a_book_that_draws_nothing_has_no_drawing_and_its_paper_does_without() -> None:
    from app.documents.quotation.quotation import quotation_pdf
    from tests.documents.orders import small_window
    from tests.documents.reading import pages

    bare = replace(book(), drawing=())
    assert shell_drawing(bare, Standing(as_usual()), "en") is None
    paper = "\n".join(pages(quotation_pdf(replace(small_window(), book=bare))))
    assert "Side, from the left" not in paper
    assert "not to be measured from" not in paper


def test_an_element_that_the_line_art_lacks_is_left_out_and_named() -> None:
    strange = replace(book().drawing[0], element="body/estate")
    other = replace(book(), drawing=(strange, *book().drawing[1:]))
    assert unknown_elements(other) == (strange,)
    drawing = stood(Standing(as_usual(body="roadster")), of=other)
    assert "body" not in {part.option for part in drawing.parts}


def test_while_the_hand_is_open_neither_is_drawn_and_what_follows_it_is_sketched_for_both() -> None:
    settled = as_usual()
    del settled["steering"]
    drawing = drawn(settled, State.CHOSEN)
    assert "steering" not in {part.option for part in drawing.parts}
    middle = _centre_line(drawing)
    for option in ("dash", "wipers"):
        sketched = part(drawing, option)
        assert {stroke.ink.value for stroke in sketched.strokes} == {"phantom"}
        mirror = [stroke.moved(lambda point: (point[0], 2 * middle - point[1])) for stroke in sketched.strokes]
        assert sorted(_rounded(mirror)) == sorted(_rounded(sketched.strokes))
        assert sketched.words.endswith("(chosen, heavy line), drawn lightly for either hand while the steering is open")


@pytest.mark.parametrize("language", ["en", "de"])
def test_the_screen_reader_is_told_the_same_as_a_list(language: str) -> None:
    settled = as_usual()
    drawing = stood(Standing(settled, {"body": State.CHOSEN}), language)
    tree = ElementTree.fromstring(svg(drawing))
    assert tree.get("role") == "img"
    assert tree.get("aria-labelledby") == "shell-drawing-title shell-drawing-said"
    said = tree.findtext(f"{SVG}desc")
    assert said == "; ".join(drawing.lines)
    assert len(drawing.lines) == len(SHOWN)
    assert {"en": "Body: Coupé (chosen, heavy line)", "de": "Aufbau: Coupé (gewählt, dicke Linie)"}[language] in said


def test_screen_and_paper_draw_the_same_strokes() -> None:
    drawing = drawn(as_usual())
    tree = ElementTree.fromstring(svg(drawing))
    strokes = sum(len(part.strokes) + len(part.hatch) for part in drawing.parts)
    assert len(tree.findall(f".//{SVG}path")) == strokes
    assert {group.get("data-element") for group in tree.findall(f"{SVG}g")} == {part.element for part in drawing.parts}


@pytest.mark.parametrize("arrangement", Arrangement)
def test_nothing_is_drawn_beyond_the_sheet(arrangement: Arrangement) -> None:
    for option in SHOWN:
        for choice in option.choices:
            drawing = drawn(as_usual() | {option.id: choice.id}, arrangement=arrangement)
            for strokes in (part.strokes for part in drawing.parts):
                left, top, right, foot = extent(strokes)
                assert left >= 0 <= top, option.id
                assert right <= drawing.width, option.id
                assert foot <= drawing.height, option.id


def test_the_paper_shows_the_drawing_of_its_shell() -> None:
    from app.documents.quotation.quotation import quotation_pdf
    from tests.documents.orders import small_window
    from tests.documents.reading import pages

    assert "Side, from the left Plan" in pages(quotation_pdf(replace(small_window())))[1]


def test_the_paper_explains_hatching_only_where_something_is_hatched() -> None:
    from app.documents.quotation.quotation import quotation_pdf
    from tests.documents.orders import small_window
    from tests.documents.reading import pages

    paper = small_window()
    bitten = replace(paper.shells[0], bites={"bumpers": ("D14",)})
    plain, hatched = (pages(quotation_pdf(replace(paper, shells=(shell,))))[1] for shell in (*paper.shells, bitten))
    assert "Hatched: can’t stand" in hatched
    assert "D14" in hatched
    assert "Hatched" not in plain


def test_strokes_know_their_box_and_hatching_keeps_to_its_own() -> None:
    assert extent((line((0, 0), (3, 4)), box(-1, 2, 5, 6))) == (-1, 0, 5, 6)
    assert extent((ring(10, 10, 2, 1),)) == (8, 9, 12, 11)
    assert curve((0, 0), (1, 1), (2, 0)).steps[-1][-1] == (2, 0)
    for stroke in hatching(0, 0, 100, 40, 7):
        left, low, right, high = extent((stroke,))
        assert left >= 0 <= low
        assert right <= 100
        assert high <= 40


def _centre_line(drawing: Drawing) -> float:
    """The plan's centre line on the sheet: halfway between the two edges of the shell's plan."""
    common = drawing.parts[0]
    plan = [stroke for stroke in common.strokes if min(y for _, y in stroke.points()) > 1500]
    _, top, _, foot = extent(tuple(plan))
    return (top + foot) / 2


def _rounded(strokes: object) -> list[tuple[object, ...]]:
    return [
        tuple((step[0], *((round(x, 6), round(y, 6)) for x, y in step[1:])) for step in stroke.steps)
        for stroke in strokes  # type: ignore[attr-defined]
    ]


def test_the_plain_data_says_what_the_svg_says() -> None:
    drawing = drawn(as_usual())
    data = drawing_data(drawing)
    tree = ElementTree.fromstring(svg(drawing))
    assert [path["d"] for part in data["parts"] for path in part["paths"]] == [
        path.get("d") for path in tree.iter(f"{SVG}path")
    ]
    assert data["lines"] == list(drawing.lines) == [part["words"] for part in data["parts"] if part["words"]]
    assert {part["state"] for part in data["parts"]} == {None, "usual"}
