"""Photographs over HTTP: the body is the file, and what comes back is a picture that nothing can run in."""

from __future__ import annotations

from io import BytesIO

from PIL import Image

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
    assert "neither JPEG, PNG nor WebP" in page.get_json()["errors"]["file"][0]


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
