"""What office, workshop and inspector do with an order and its shells, in the words of their pages.

No check is made here but that what was pressed is done before the next press.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from decimal import Decimal

from playwright.sync_api import Browser, Locator, Page, ViewportSize, expect

from tests.browser import desk
from tests.support.product import Product

#: A tablet held upright.
TABLET: ViewportSize = {"width": 800, "height": 1180}
OFFICE: ViewportSize = {"width": 1280, "height": 900}


@dataclass(frozen=True)
class Signer:
    """Who signs on the floor, as the list of names has him, and his personal code."""

    name: str
    code: str


#: The values of one sample in CIE L*a*b*; the coat is read as its sample was.
SAMPLE = {"L*": "50", "a*": "2.6772", "b*": "-79.7751"}
TAKE = "Take it, and next"

LEAD, INSPECTOR, WELDER = Signer("tomasz", "1947"), Signer("oona", "2618"), Signer("idris", "3305")


@contextmanager
def seat(browser: Browser, server: Product, name: str, size: ViewportSize = OFFICE) -> Iterator[Page]:
    """A browser of his own for one who is signed in; whatever goes wrong in its scripts fails the test."""
    wrong: list[str] = []
    with browser.new_context(locale="en-GB", viewport=size, reduced_motion="reduce") as context:
        page = context.new_page()
        page.set_default_timeout(15_000)
        page.on("pageerror", lambda error: wrong.append(str(error)))
        server.sign_in(page, name)
        yield page
    assert wrong == []


# The office.


def quoted(page: Page, customer: str, number: str, shells: int, *choices: str) -> str:
    """Issue a quotation, take the yes: the number of the order."""
    desk.new_enquiry(page)
    desk.type_number(page, number)
    desk.take(page, *choices)
    desk.name_customer(page, customer)
    desk.all_as_original(page)
    page.get_by_role("textbox", name="Shells").fill(str(shells))
    desk.answered(page)
    page.get_by_label("E-mail").fill("office@example.org")
    desk.saved(page)
    desk.issue(page)
    page.get_by_role("button", name=re.compile("yes|accept", re.IGNORECASE)).first.click()
    page.locator("form.act button.button--heavy").click()
    page.get_by_role("link", name=re.compile("To order")).click()
    page.locator("#gates-title").wait_for()
    return page.url.rsplit("/", 1)[1]


def at_order(page: Page, server: Product, number: str) -> None:
    page.goto(f"{server.url}/orders/{number}")
    page.locator("#shells-title").wait_for()


def pay(page: Page, amount: str) -> None:
    """At the page of the order."""
    payments = page.locator(".payment")
    before = payments.count()
    page.get_by_role("button", name="Record a payment").click()
    page.get_by_label("Amount, as it came").fill(amount)
    page.get_by_role("button", name="Record it").click()
    expect(payments).to_have_count(before + 1)


def confirm(page: Page) -> None:
    """The deposit's invoice, the two gates that the office sees to, the confirmation."""
    page.get_by_role("button", name="Write the deposit invoice").click()
    page.locator(".document").first.wait_for()
    for gate in ("Deposit cleared", "Signed specification"):
        page.get_by_role("button", name="Date what came through").first.click()
        page.get_by_label("What came through").select_option(label=gate)
        page.get_by_role("button", name="Write it down").click()
        page.locator(".gate--open", has_text=gate).last.wait_for()
    page.get_by_role("button", name="Confirm the order").click()
    page.get_by_role("link", name=re.compile("^Order confirmation")).first.wait_for()


def change(page: Page, server: Product, order: str, shell: int, option: str, choice: str, why: str) -> None:
    """Draw a change note up and have the customer's signature."""
    at_order(page, server, order)
    page.get_by_role("link", name="Change notes and what may still change").nth(shell - 1).click()
    page.get_by_label(option).select_option(choice)
    page.get_by_label("What the customer wants").fill(why)
    page.get_by_role("button", name="Draw up the change note").click()
    note = page.locator(".change-note").first
    note.get_by_role("button", name="Record the signature").click()
    note.get_by_label("Who signed for the customer").fill("The customer")
    note.get_by_role("button", name="Record the signature").last.click()
    expect(note).to_contain_text("Signed by The customer")


# The floor.


def switch_tool(page: Page, server: Product, tool: str, state: str, why: str = "") -> None:
    """`state`: ok, down. What comes of it is read before it is confirmed."""
    page.goto(f"{server.url}/tools")
    row = page.locator(".tool", has_text=tool)
    row.get_by_role("button").first.click()
    row.locator(f"input[value={state}]").check()
    if why:
        row.get_by_label(re.compile("reason|why", re.IGNORECASE)).first.fill(why)
    row.locator("button.button--heavy").click()
    expect(page.locator(f".tool--{state}", has_text=tool)).to_be_visible()


def floor_card(page: Page, text: str) -> Locator:
    """By its serial, or by order and shell where it has none yet."""
    return page.locator(".floor-shell", has_text=text).first


def release(page: Page, order: str, shell: int) -> str:
    """At the floor: all parts of its kit are there; its serial."""
    place = f"Order {order}, shell {shell} of"
    floor_card(page, place).get_by_role("link", name="Check the kit").click()
    page.get_by_role("button", name="All the rest is present").click()
    page.get_by_role("button", name="Release").wait_for()
    page.get_by_role("link", name="Back to the floor").click()
    card = floor_card(page, place)
    card.get_by_role("button", name="Release").click()
    serial = card.locator("h3")
    expect(serial).to_have_text(re.compile(r"^S-2026-\d{5}$"))
    return serial.inner_text()


def sign(card: Locator, signer: Signer, press: str | re.Pattern[str], *, exact: bool = False) -> None:
    """In the form that is open."""
    card.get_by_label("Who did it").select_option(signer.name)
    card.get_by_label("Personal code").fill(signer.code)
    card.get_by_role("button", name=press, exact=exact).click()
    expect(card.get_by_label("Personal code")).to_have_count(0)


def weld(card: Locator) -> None:
    """Sign for every zone of the stage where it is."""
    card.get_by_role("button", name=re.compile("^Sign for welds")).click()
    card.get_by_role("button", name="Tick all of them").click()
    sign(card, WELDER, re.compile(r"^Sign for \d"))


def go_through(card: Locator, stage: str, signer: Signer = WELDER) -> None:
    """Weld what is to be welded there, then sign the stage."""
    done = card.get_by_role("button", name=f"{stage} done")
    welds = card.get_by_role("button", name=re.compile("^Sign for welds"))
    expect(done.or_(welds)).to_be_visible()
    if welds.count():
        weld(card)
    done.click()
    sign(card, signer, "Sign", exact=True)


# The inspection.


def at_inspection(page: Page, server: Product, serial: str) -> Locator:
    """Its verdict's card."""
    page.goto(f"{server.url}/inspections/{serial}")
    page.locator(".inspect-point").wait_for()
    return page.locator(".inspect-verdict")


def look_at_phase(page: Page, phase: str) -> None:
    button = page.locator(".inspect-phase", has_text=phase)
    button.click()
    expect(button).to_have_attribute("aria-pressed", "true")


def read_what_is_left(page: Page) -> list[str]:
    """Point after point as the page offers them, each within its limits: what sorts of points they were."""
    kinds = []
    unread = page.locator(".inspect-row .mark-of--unread")
    for left in range(unread.count(), 0, -1):
        kinds.append(page.locator(".inspect-point__kind").inner_text())
        read_point(page.locator(".inspect-point"))
        expect(unread).to_have_count(left - 1)
    expect(page.locator(".mark-of--unsent")).to_have_count(0)
    return kinds


def read_point(point: Locator) -> None:
    limit = point.locator(".inspect-limit").inner_text()
    choices, colour = point.locator(".inspect-choice"), point.get_by_label("L*")
    if choices.count():
        choices.nth(1 if "blanked" in limit else 0).click()
    elif colour.count():
        for name, value in SAMPLE.items():
            point.get_by_label(name, exact=True).fill(value)
        point.get_by_role("button", name=TAKE).click()
    else:
        press(point, within(limit))
        point.get_by_role("button", name=TAKE).click()


def press(point: Locator, keys: str) -> None:
    for key in keys.removeprefix("-"):
        point.locator(".keypad__key", has_text=re.compile(f"^{re.escape(key)}$")).click()
    if keys.startswith("-"):
        point.get_by_role("button", name="Plus or minus").click()


def within(limit: str) -> str:
    """A figure within a limit as the page says it: the middle, the aim, or a little more than the least."""
    figures = [Decimal(one) for one in re.findall(r"-?\d+(?:\.\d+)?", limit.replace("\u2212", "-"))]
    if " to " in limit:
        return f"{(figures[0] + figures[1]) / 2:f}"
    return f"{figures[0] + 1}" if "at least" in limit else f"{figures[0]}"


def signed_verdict(page: Page, verdict: str, why: str = "") -> None:
    """By the inspector, in the phase that is shown."""
    card = page.locator(".inspect-verdict")
    given = card.locator(".history > li")
    before = given.count()
    card.get_by_label("Verdict").select_option(verdict)
    if why:
        card.get_by_label("Why").fill(why)
    card.get_by_label("Personal code").fill(INSPECTOR.code)
    card.get_by_role("button", name="Sign the verdict").click()
    expect(given).to_have_count(before + 1)


# The way out.


def leaving_card(page: Page, serial: str) -> Locator:
    return page.locator(".leaving", has_text=serial).first


def bill(page: Page, serial: str) -> None:
    """At the page of the order: on a second press."""
    card = leaving_card(page, serial)
    card.get_by_role("button", name=re.compile("^Write the invoice of this")).click()
    card.locator(".sure button").first.click()
    expect(card).to_contain_text(re.compile(r"I-2026-\d{5}"))


def pack(card: Locator, consignee: str) -> None:
    card.get_by_role("button", name="Write down how it is packed").click()
    form = card.locator("form.packing")
    form.get_by_label("What it is").fill("Dolly")
    for field, value in zip(
        form.locator("input[type=number]").all(), ("4200", "1650", "1300", "310", "260"), strict=True
    ):
        field.fill(value)
    form.get_by_label("Consignee").fill(consignee)
    form.locator("button.button--heavy").click()
    expect(form).to_have_count(0)


def sign_out(card: Locator) -> None:
    card.get_by_role("button", name="Despatch it").click()
    card.get_by_label("Who sees it go").select_option(LEAD.name)
    card.get_by_label("Personal code").fill(LEAD.code)
    card.get_by_role("button", name="Sign it out").click()
    expect(card).to_contain_text(re.compile(r"D-2026-\d{5}: left on"))


# The manager.


def cancel(page: Page, server: Product, order: str, keep: str, why: str) -> None:
    """The first shell of the order, by worksheet; then the credit note that follows it."""
    at_order(page, server, order)
    page.get_by_role("link", name="Change notes and what may still change").first.click()
    section = page.locator("section[aria-labelledby=cancel-title]")
    section.get_by_role("button").first.click()
    section.get_by_label("To be kept").fill(keep)
    section.get_by_label(re.compile("Why", re.IGNORECASE)).fill(why)
    section.locator("tbody").wait_for()
    section.locator("button.button--heavy").last.click()
    page.get_by_role("button", name="Write its credit note").click()
    page.locator(".sure button").first.click()
    page.locator(".document", has_text=re.compile(r"Credit note R?[A-Z]-2026-\d{5}")).last.wait_for()
