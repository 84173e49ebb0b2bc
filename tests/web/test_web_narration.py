"""A visit is given its narration: as a file, as pasted text, and in every way that it can go wrong."""

import httpx
import pytest
from starlette.datastructures import FormData
from web_practice import a_heard_visit, a_visit

from haywisp.usecases import App, TooLarge
from haywisp.usecases.listening import LARGEST_FILE
from haywisp.usecases.said import said
from haywisp.usecases.visits import hear, visit_page
from haywisp.web.routes.visits import narration_of

HTMX = {"HX-Request": "true"}


def vtt(name: str = "bramble.vtt") -> dict[str, tuple[str, bytes]]:
    return {"file": (name, b"WEBVTT\n\n00:00.000 --> 00:01.000\nhello\n")}


def test_a_file_is_heard_and_what_was_mended_is_told(app: App, client: httpx.Client) -> None:
    visit_id = a_visit(app)
    answer = client.post(f"/visits/{visit_id}/narration", files=vtt())
    assert answer.status_code == 200
    assert "Line 3: a time that ran backwards was mended." in answer.text
    assert len(said(app, visit_id).entries) == 5


def test_with_htmx_the_answer_takes_the_place_of_the_form(app: App, client: httpx.Client) -> None:
    answer = client.post(f"/visits/{a_visit(app)}/narration", files=vtt(), headers=HTMX)
    assert answer.headers["hx-retarget"] == "[data-upload]"
    assert "<html" not in answer.text


def test_pasted_text_is_heard(app: App, client: httpx.Client) -> None:
    visit_id = a_visit(app)
    client.post(f"/visits/{visit_id}/narration", data={"pasted": "[0:05] Right, neck first"})
    assert visit_page(app, visit_id).file_name == "pasted.txt"


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("WEBVTT\n\n00:00.000 --> 00:01.000\nhello", "pasted.vtt"),
        ("1\n00:00:00,000 --> 00:00:01,000\nhello", "pasted.srt"),
        ('{"words": []}', "pasted.words.json"),
        ("[0:05] hello", "pasted.txt"),
    ],
)
def test_pasted_text_tells_its_own_kind(text: str, name: str) -> None:
    assert narration_of(FormData({"pasted": text}))[0] == name


def test_a_file_that_can_not_be_read_loses_nothing(app: App, client: httpx.Client) -> None:
    visit_id = a_visit(app)
    answer = client.post(
        f"/visits/{visit_id}/narration", files=vtt("broken.vtt"), data={"pasted": "typed before", "again": "yes"}
    )
    assert answer.status_code == 422
    assert "broken.vtt, line 4: “nonsense” is no time." in answer.text
    assert "typed before</textarea>" in answer.text
    assert said(app, visit_id).entries == ()


def test_with_htmx_a_refusal_is_the_message_alone(app: App, client: httpx.Client) -> None:
    answer = client.post(f"/visits/{a_visit(app)}/narration", files=vtt("broken.vtt"), headers=HTMX)
    assert answer.status_code == 422
    assert answer.text.startswith('<p class="message">broken.vtt, line 4')


def test_nothing_sent_is_said(app: App, client: httpx.Client) -> None:
    answer = client.post(f"/visits/{a_visit(app)}/narration", data={"pasted": "  "})
    assert answer.status_code == 422
    assert "There was no file and no text." in answer.text


def test_a_second_narration_only_on_purpose(app: App, client: httpx.Client) -> None:
    visit_id = a_heard_visit(app)

    refused = client.post(f"/visits/{visit_id}/narration", files=vtt("second.vtt"))
    assert refused.status_code == 422
    assert "already has a narration" in refused.text
    assert visit_page(app, visit_id).file_name == "bramble.vtt"

    client.post(f"/visits/{visit_id}/narration", files=vtt("second.vtt"), data={"again": "yes"})
    assert visit_page(app, visit_id).file_name == "second.vtt"


def test_for_a_visit_that_is_not_there(client: httpx.Client) -> None:
    assert client.post("/visits/none/narration", files=vtt()).status_code == 404


def test_a_long_paste_is_no_trouble(app: App, client: httpx.Client) -> None:
    visit_id = a_visit(app)
    text = "[0:05] " + "kneading the left neck " * 100_000
    client.post(f"/visits/{visit_id}/narration", data={"pasted": text})
    assert visit_page(app, visit_id).file_name == "pasted.txt"


def test_more_than_ten_megabytes_is_refused_with_a_sentence(app: App, client: httpx.Client) -> None:
    visit_id = a_visit(app)
    answer = client.post(f"/visits/{visit_id}/narration", files={"file": ("big.vtt", b"a" * (10 * 1024 * 1024 + 1))})
    assert answer.status_code == 413
    assert "larger than 10 MB" in answer.text
    assert visit_page(app, visit_id).file_name == ""


def test_the_largest_file_is_the_same_for_page_and_command_line(app: App, client: httpx.Client) -> None:
    visit_id = a_visit(app)
    assert f'data-limit="{LARGEST_FILE}"' in client.get(f"/visits/{visit_id}").text
    sent = client.post(f"/visits/{visit_id}/narration", files={"file": ("big.vtt", b"a" * LARGEST_FILE)})
    assert sent.status_code in {200, 303}
    with pytest.raises(TooLarge, match="bigger is larger than 10 MB"):
        hear(app, a_visit(app, "Thistle"), "bigger", b"a" * (LARGEST_FILE + 1))


def test_a_body_that_hides_its_length_is_cut_off_too(app: App, client: httpx.Client) -> None:
    visit_id = a_visit(app)

    def endless() -> object:
        yield b'--x\r\nContent-Disposition: form-data; name="file"; filename="big.vtt"\r\n\r\n'
        for _ in range(11):
            yield b"a" * 1024 * 1024
        yield b"\r\n--x--\r\n"

    headers = {"content-type": "multipart/form-data; boundary=x"}
    answer = client.post(f"/visits/{visit_id}/narration", content=endless(), headers=headers)
    assert answer.status_code == 413
    assert "larger than 10 MB" in answer.text
