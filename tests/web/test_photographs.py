"""Photographs over HTTP: the body is the file, and what comes back is a picture that nothing can run in."""

from __future__ import annotations

from io import BytesIO

import pikepdf
import pytest
from PIL import Image
from reportlab.lib.utils import ImageReader
from reportlab.pdfgen.canvas import Canvas

from tests.documents.test_photograph import file
from tests.web.conftest import Desk
from tests.web.reader import Reader, fresh_key

PNG = file("PNG", (40, 30))


def at(clerk: Reader) -> str:
    return f"/api/enquiries/{clerk.enquiry()['id']}/photographs"


def test_a_photograph_goes_in_as_it_is_and_comes_out_as_a_jpeg_that_nothing_runs_in(clerk: Reader) -> None:
    path = at(clerk)
    made = clerk.post(f"{path}?shows=part&part=P1&note=Left", PNG, Content_Type="image/png", **fresh_key())
    assert made.status_code == 201, made.text
    told = made.get_json()
    assert (told["shows"], told["part"], told["note"], told["by_name"]) == ("part", "P1", "Left", "Imogen Faulk")
    assert clerk.get(path).get_json() == {"photographs": [told]}
    for url in (told["url"], told["small_url"]):
        answer = clerk.get(url)
        assert answer.headers["Content-Type"] == "image/jpeg"
        assert answer.headers["X-Content-Type-Options"] == "nosniff"
        assert answer.headers["Content-Security-Policy"].startswith("default-src 'none'; sandbox")
        assert answer.headers["Content-Disposition"] == f'inline; filename="photograph-{told["id"]}.jpg"'
        assert answer.headers["Cache-Control"] == "no-store"
        assert Image.open(BytesIO(answer.data)).format == "JPEG"


def test_sent_twice_with_one_key_it_is_kept_once(clerk: Reader) -> None:
    path, key = at(clerk), fresh_key()
    first, second = (clerk.post(f"{path}?shows=plate", PNG, **key).get_json() for _ in range(2))
    assert first == second
    assert len(clerk.get(path).get_json()["photographs"]) == 1


def test_what_cant_be_taken_says_what_to_send_instead(clerk: Reader) -> None:
    path = at(clerk)
    heic = clerk.post(f"{path}?shows=car", b"\0\0\0\x18ftypheic\0\0\0\0", **fresh_key())
    assert heic.status_code == 422
    assert "HEIC" in heic.get_json()["errors"]["file"][0]
    assert "Send a JPEG" in heic.get_json()["errors"]["file"][0]
    page = clerk.post(f"{path}?shows=car", b"<html><script>alert(1)</script>", Content_Type="text/html", **fresh_key())
    assert page.status_code == 422
    assert "neither JPEG, PNG, WebP nor PDF" in page.get_json()["errors"]["file"][0]


def test_a_file_may_be_larger_than_any_other_body_but_not_without_end(desk: Desk, clerk: Reader) -> None:
    path, config = at(clerk), desk.app.extensions["desk"].config
    assert clerk.post(f"{path}?shows=car", b"x" * (config.largest_body + 1), **fresh_key()).status_code == 422
    too_large = clerk.post(f"{path}?shows=car", b"x" * (config.largest_file + 1), **fresh_key())
    assert (too_large.status_code, too_large.get_json()["type"].rsplit("/")[-1]) == (413, "too-large")


def test_what_is_pointed_to_stays_and_says_why(clerk: Reader) -> None:
    enquiry = clerk.enquiry()
    path = f"/api/enquiries/{enquiry['id']}"
    plate = clerk.post(f"{path}/photographs?shows=plate", PNG, **fresh_key()).get_json()["id"]
    built = {"said_by": "plate-photograph", "photograph": plate}
    donor = {"number_text": "T3-12044", "series": "s3", "number": 12044, "established": True, "built": built}
    saved = clerk.patch(path, {"customer": enquiry["customer"], "donor": donor}, If_Match='"1"')
    assert saved.get_json()["donor"]["built"]["photograph"] == plate
    refused = clerk.send("DELETE", f"{path}/photographs/{plate}")
    assert (refused.status_code, refused.get_json()["type"].rsplit("/")[-1]) == (409, "photograph-pointed-at")
    other = clerk.post(f"{path}/photographs?shows=car", PNG, **fresh_key()).get_json()["id"]
    assert clerk.send("DELETE", f"{path}/photographs/{other}").status_code == 204


def scan(pages: int = 1, size: tuple[float, float] = (595, 842)) -> bytes:
    """As a scanner writes it: each page a picture, the left half red, the right half green."""
    into = BytesIO()
    canvas = Canvas(into, pagesize=size)
    for _ in range(pages):
        canvas.drawImage(ImageReader(BytesIO(PNG)), 0, 0, *size)
        canvas.showPage()
    canvas.save()
    return into.getvalue()


def with_more(change: str) -> bytes:
    """The scan with what no scanner writes into it, as pikepdf (qpdf) puts it there."""
    action = pikepdf.Dictionary(S=pikepdf.Name.JavaScript, JS="app.launchURL('http://example.org/', true)")
    launch = pikepdf.Dictionary(S=pikepdf.Name.Launch, F="/bin/sh")
    with pikepdf.open(BytesIO(scan())) as pdf:
        if change == "script":
            pdf.Root.OpenAction = action
            pdf.Root.Names = pikepdf.Dictionary(JavaScript=pikepdf.Dictionary(Names=["go", action]))
        elif change == "launch":
            pdf.Root.OpenAction = launch
            pdf.pages[0].AA = pikepdf.Dictionary(O=launch)
        elif change == "attached":
            pdf.attachments["run-me.js"] = b"require('child_process')"
        elif change == "huge":
            pdf.pages[0].MediaBox = [0, 0, 10**7, 10**7]
        elif change == "thin":
            pdf.pages[0].MediaBox = [0, 0, 5000, 1]
        into = BytesIO()
        locked = pikepdf.Encryption(user="geheim", owner="geheim") if change == "locked" else None
        pdf.save(into, encryption=locked or False)
    return into.getvalue()


def test_a_scan_comes_out_as_a_picture_of_each_page_and_none_of_the_file(clerk: Reader) -> None:
    path = at(clerk)
    made = clerk.post(
        f"{path}?shows=factory-record&note=Archive", scan(2), Content_Type="application/pdf", **fresh_key()
    )
    assert made.status_code == 201, made.text
    kept = clerk.get(path).get_json()["photographs"]
    assert kept[0] == made.get_json()
    assert [one["note"] for one in kept] == ["Archive (1/2)", "Archive (2/2)"]
    for one in kept:
        picture = Image.open(BytesIO(clerk.get(one["url"]).data))
        assert (picture.format, picture.size) == ("JPEG", (1696, 2400))
        assert [max(range(3), key=picture.resize((2, 1)).tobytes()[3 * x : 3 * x + 3].__getitem__) for x in (0, 1)] == [
            0,
            1,
        ]


@pytest.mark.parametrize("change", ["script", "launch", "attached", "huge"])
def test_of_a_hostile_scan_only_what_can_be_seen_is_kept(clerk: Reader, change: str) -> None:
    path = at(clerk)
    made = clerk.post(f"{path}?shows=plate", with_more(change), **fresh_key())
    assert made.status_code == 201, made.text
    answer = clerk.get(made.get_json()["url"])
    assert (answer.headers["Content-Type"], answer.data[:3]) == ("image/jpeg", b"\xff\xd8\xff")
    assert max(Image.open(BytesIO(answer.data)).size) <= 2400
    for trace in (b"%PDF", b"JavaScript", b"Launch", b"child_process", b"/bin/sh"):
        assert trace not in answer.data


@pytest.mark.parametrize(
    ("sent", "said"),
    [
        (scan()[:300], "damaged or came only in part"),
        (b"%PDF-1.7\n%%EOF", "damaged or came only in part"),
        (with_more("locked"), "Save it without one"),
        (with_more("thin"), "so narrow that nothing can be read off it"),
        (scan(13), "more than 12 pages"),
    ],
)
def test_a_scan_that_cant_be_taken_says_how_to_mend_it_and_leaves_nothing(
    clerk: Reader, sent: bytes, said: str
) -> None:
    path = at(clerk)
    refused = clerk.post(f"{path}?shows=plate", sent, **fresh_key())
    assert refused.status_code == 422
    assert said in refused.get_json()["errors"]["file"][0]
    assert clerk.get(path).get_json() == {"photographs": []}
