"""A photograph: chosen, kept where the line fails, sent again, pointed to; and where to cut what is sent of the car."""

from __future__ import annotations

from playwright.sync_api import FilePayload, Page, expect

from tests.browser import desk
from tests.browser.test_every_reader import faults
from tests.documents.test_photograph import file
from tests.support.product import Product


def sent(name: str, content: bytes) -> FilePayload:
    return {"name": name, "mimeType": "image/png", "buffer": content}


def test_a_photograph_survives_a_failed_line_and_is_pointed_to(server: Product, page: Page) -> None:
    server.sign_in(page, "imogen")
    desk.small_window_coupe(page, name="Octavia Plum")
    desk.saved(page)
    file_ = page.locator("details.photographs")
    file_.locator("summary").click()
    page.context.set_offline(True)
    file_.locator("input[type=file]").first.set_input_files(sent("plate.png", file("PNG")))
    expect(file_).to_contain_text("The connection failed. The picture is kept here and sent again")
    page.context.set_offline(False)
    expect(file_.locator("img")).to_have_count(1)
    file_.locator("input[type=file]").first.set_input_files(sent("x.heic", b"\0\0\0\x18ftypheic\0\0\0\0"))
    expect(file_).to_contain_text("That is a HEIC file, as some telephones make them. Send a JPEG")
    file_.get_by_role("button", name="Don’t send it").click()
    page.get_by_label("Who says what car it is").select_option("plate-photograph")
    page.get_by_label("Photograph that shows it").first.select_option(index=1)
    expect(file_).to_contain_text("Who says so points to it.")
    desk.saved(page)
    parts = page.locator("details.donor-parts")
    expect(parts.locator("summary").first).to_contain_text("1 to send")
    parts.locator("summary").first.click()
    parts.get_by_text("Where to cut", exact=True).click()
    expect(parts).to_contain_text("Cut line left: at least 150 mm beyond the part")
    assert faults(page) == "[]"
