"""What the vet answered, by the form on the pages of a visit and its plan."""

import re
from html import escape

import httpx
import pytest
from web_practice import a_heard_visit, a_visit

from haywisp.usecases import App
from haywisp.usecases.visits import visit_page


@pytest.mark.parametrize(("back", "where"), [("", ""), ("plan", "/plan")])
def test_an_answer_is_kept_and_shown_where_it_was_written(
    app: App, client: httpx.Client, back: str, where: str
) -> None:
    visit = a_heard_visit(app)
    page = client.get(f"/visits/{visit}{where}").text
    assert "Write down an answer" in page
    assert ": vet first" in page

    sent = client.post(f"/visits/{visit}/vet", data={"text": "<b>Fit</b> for work", "agrees": "yes", "back": back})

    assert (sent.status_code, sent.headers["location"]) == (303, f"/visits/{visit}{where}#vet")
    page = client.get(f"/visits/{visit}{where}").text
    assert "“&lt;b&gt;Fit&lt;/b&gt; for work”" in page
    assert ": vet first" not in page


def test_an_answer_to_wait_says_so(app: App, client: httpx.Client) -> None:
    visit = a_heard_visit(app)
    client.post(f"/visits/{visit}/vet", data={"text": "Box rest first", "agrees": "wait"})
    page = client.get(f"/visits/{visit}").text
    assert "bodywork has to wait: “Box rest first”" in page
    assert "Only the vet, or what the law wants, lifts this one." in page
    assert "Before touching: vet first" in page


@pytest.mark.parametrize(
    "data",
    [{"text": "fit <so far>", "agrees": ""}, {"text": " ", "agrees": "yes"}, {}, {"text": "fit\0", "agrees": "wait"}],
)
@pytest.mark.parametrize("back", ["", "plan"])
def test_half_an_answer_is_refused_with_a_sentence_and_stays_in_the_form(
    app: App, client: httpx.Client, data: dict[str, str], back: str
) -> None:
    visit = a_heard_visit(app)
    sent = client.post(f"/visits/{visit}/vet", data={**data, "back": back})
    assert sent.status_code == 422
    assert visit_page(app, visit).vet_said == ()
    assert ("Before this plan" in sent.text) is (back == "plan")

    form = sent.text[sent.text.index("Write down an answer") :]
    assert re.search(r'<p class="message" role="alert">[^<]{20,}</p>', form)
    assert f"required>{escape(data.get('text', '').strip())}</textarea>" in form
    assert re.findall(r'value="(\w+)" checked', form) == ([data["agrees"]] if data.get("agrees") else [])


def test_an_answer_about_no_visit_is_not_kept(client: httpx.Client) -> None:
    assert client.post("/visits/none/vet", data={"text": "fit", "agrees": "yes"}).status_code == 404


def test_a_reason_to_work_all_the_same_is_kept_and_shown_on_visit_and_plan(app: App, client: httpx.Client) -> None:
    visit = a_visit(app)
    assert "Work all the same" not in client.get(f"/visits/{visit}").text
    client.post(f"/visits/{visit}/asked", data={"yes": ["unexplained-lameness"]})
    assert "Work all the same" in client.get(f"/visits/{visit}").text

    sent = client.post(f"/visits/{visit}/override", data={"reason": "The <vet> saw him on Monday, and it is known."})

    assert (sent.status_code, sent.headers["location"]) == (303, f"/visits/{visit}")
    for where in ("", "/plan"):
        page = client.get(f"/visits/{visit}{where}").text
        assert "Work without waiting for the vet, who should come first" in page
        assert "“The &lt;vet&gt; saw him on Monday, and it is known.”" in page
        assert ": work within limits" in page


@pytest.mark.parametrize(
    ("yes", "reason", "says"),
    [
        (["unexplained-lameness"], "because", "too short to be read later"),
        (["unexplained-lameness", "colic"], "He does not look so bad to me.", "No reason sets this aside: Colic."),
        ([], "He does not look so bad to me.", "Nothing asks for the vet before this visit"),
    ],
)
def test_a_reason_that_is_refused_stays_in_the_form(
    app: App, client: httpx.Client, yes: list[str], reason: str, says: str
) -> None:
    visit = a_visit(app)
    client.post(f"/visits/{visit}/asked", data={"yes": yes})
    sent = client.post(f"/visits/{visit}/override", data={"reason": reason})
    assert sent.status_code == 422
    assert says in sent.text and f">{reason}</textarea>" in sent.text
    assert visit_page(app, visit).at_start.set_aside == ()


def test_where_a_row_is_absolute_the_form_is_not_offered(app: App, client: httpx.Client) -> None:
    visit = a_visit(app)
    client.post(f"/visits/{visit}/asked", data={"yes": ["unexplained-lameness", "fever"]})
    assert "Work all the same" not in client.get(f"/visits/{visit}").text
