"""The donor car in three pictures on the form: said in three picks, shown at once, kept, and taken back."""

from __future__ import annotations

import re

from playwright.sync_api import Page, expect

from tests.browser import desk
from tests.support.product import Product

NOTE = "Shell replaced in 1994 by an S4 one."


def strip(page: Page) -> list[str]:
    rows = page.locator(".pictures__strip tbody tr")
    return [re.sub(r"\s+", " ", row.inner_text().replace("take back", "")).strip() for row in rows.all()]


def test_case_3_identity_and_the_car_as_it_stands_are_two_answers_kept_apart(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.new_enquiry(page)
    desk.type_number(page, "T3-12044")
    desk.take(page, "body.roadster", "market.home")
    desk.name_customer(page, "Aldous Fenn")
    desk.all_as_original(page)
    expect(page.locator(".pictures > summary")).to_contain_text("nothing differs")
    desk.say_how_it_stands(page, "series", "s4")
    page.locator(".pictures__who select").select_option("owner")
    page.get_by_label("In the words of whoever says so").fill(NOTE)
    expect(page.locator(".pictures__strip tbody tr")).to_have_count(5)
    said = ["Series S3 ≠ S4 (another than before) ≠ S3 (another than before)",
            "Bumpers Chrome ≠ Impact set (another than before) ≠ Chrome (another than before)"]  # fmt: skip
    assert strip(page)[:2] == said
    expect(page.locator(".pictures__decides")).to_contain_text("built as: S3")
    desk.saved(page)
    page.reload()
    expect(page.locator(".pictures__strip tbody tr")).to_have_count(5)
    expect(page.get_by_label("In the words of whoever says so")).to_have_value(NOTE)
    expect(page.locator(".pictures__who select")).to_have_value("owner")
    page.get_by_role("button", name="Take back what was said of Series").click()
    expect(page.locator(".pictures__strip")).to_have_count(0)
    desk.saved(page)
    page.get_by_role("button", name="Undo", exact=True).click()
    expect(page.locator(".pictures__strip tbody tr")).to_have_count(5)
    desk.saved(page)


def test_who_vouches_for_the_car_is_kept_when_it_is_said_after_the_first_saving(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.new_enquiry(page)
    desk.name_customer(page, "Aldous Fenn")
    page.get_by_label("Who says what car it is").select_option("factory-record")
    page.wait_for_timeout(700)
    desk.saved(page)
    page.reload()
    expect(page.get_by_label("Who says what car it is")).to_have_value("factory-record")
