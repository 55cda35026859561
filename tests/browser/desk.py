"""What a person does at the desk, in the words of the desk. No check is made here."""

from __future__ import annotations

import re

from playwright.sync_api import Locator, Page, expect

DESK = {"width": 1280, "height": 800}
PHONE = {"width": 390, "height": 844}


def new_enquiry(page: Page) -> None:
    """Open a fresh job card."""
    page.get_by_role("navigation").get_by_role("button", name=re.compile("^(New enquiry|Neue Anfrage)$")).click()
    page.locator(".donor__number input").wait_for()


def type_number(page: Page, text: str) -> None:
    """The donor's identity number; waits until it was read."""
    page.locator(".donor__number input").fill(text)
    expect(page.locator(".reading")).not_to_have_class(re.compile("reading--none"))


def choice(page: Page, name: str) -> Locator:
    """`name` as in rear-window.small."""
    return page.locator(f'[data-choice="{name}"]')


def unfold(page: Page, *options: str) -> None:
    """Open the rows of these options, where the page is so narrow that they are folded."""
    for option in options:
        fold = page.locator(f"#row-{option} .option__fold[aria-expanded=false]")
        if fold.count():
            fold.click()


def take(page: Page, *names: str) -> None:
    """Choose, one after the other."""
    for name in names:
        unfold(page, name.split(".")[0])
        choice(page, name).click()


def answered(page: Page) -> None:
    """Wait until the answer to what is written now is there."""
    expect(page.locator("#title-block")).to_have_attribute("aria-busy", "false")


def all_as_original(page: Page) -> None:
    """The rest as the original car had it."""
    page.locator(".deeds .button--heavy").click()
    expect(page.locator(".title-block .block--open")).to_contain_text(re.compile("every question|jede Frage"))
    answered(page)


def name_customer(page: Page, name: str) -> None:
    """With a name it is filed; waits until the server has it."""
    page.get_by_label(re.compile("^Name$")).fill(name)
    saved(page)


def saved(page: Page) -> None:
    """Wait until all is safe at the server."""
    expect(page.locator(".save-state")).to_have_text(re.compile(r"^(Saved|Gespeichert)\.\s*$"))


def say_how_it_stands(page: Page, feature: str, choice: str) -> None:
    """How a feature of the donor car stands now; waits until the strip shows it."""
    if not page.locator(".pictures").get_attribute("open"):
        page.locator(".pictures > summary").click()
    page.locator(".pictures__feature select").select_option(feature)
    page.locator(".pictures__value select").select_option(choice)
    page.locator(".pictures__strip").wait_for()


def total(page: Page) -> Locator:
    """The large figure of the title block."""
    return page.locator(".title-block .totals__big")


def stamp(page: Page) -> Locator:
    """The verdict's stamp in the title block."""
    return page.locator(".title-block .stamp")


def small_window_coupe(page: Page, name: str = "") -> None:
    """T2-05900 as it was built: the coupé whose small window needs the customer's ring."""
    new_enquiry(page)
    type_number(page, "T2-05900")
    take(page, "body.coupe", "market.home")
    if name:
        name_customer(page, name)
    all_as_original(page)
    if name:
        saved(page)


def issue(page: Page) -> None:
    """Press issue and wait for the stamped sheet: the papers are written meanwhile."""
    page.get_by_role("button", name="Issue the quotation").click()
    expect(page.locator(".cells--issued")).to_contain_text("issued", timeout=30_000)
