"""The page's server: this machine, this run, this origin; a malformed request gets a reason and changes nothing."""

from __future__ import annotations

import http.client
import json
import signal
import socket
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from unittest.mock import patch

import pytest
from click.testing import CliRunner, Result
from conftest import SHOW, WRITTEN, Served, read, serving, skip_where_busy, tell, write_sound

from extract.cli import cardwright
from extract.review.keeping.journal import journal_path


class Page:
    """A browser of the plainest kind: one request after another, with what a page of the run would send."""

    def __init__(self, served: Served) -> None:
        self.served = served
        self.cookie = f"cardwright-{served.port}={served.token}"

    def ask(
        self, method: str, path: str, body: bytes | None = None, **headers: str
    ) -> tuple[int, dict[str, str], bytes]:
        whole = {"Cookie": self.cookie, **{name.replace("_", "-"): value for name, value in headers.items()}}
        connection = http.client.HTTPConnection("127.0.0.1", self.served.port, timeout=20)
        try:
            connection.request(method, path, body, {name: value for name, value in whole.items() if value})
            answer = connection.getresponse()
            return answer.status, {k.lower(): v for k, v in answer.getheaders()}, answer.read()
        finally:
            connection.close()

    def get(self, path: str, **headers: str) -> tuple[int, dict[str, str], bytes]:
        return self.ask("GET", path, **headers)

    def post(self, path: str, value: Any, **headers: str) -> tuple[int, str]:
        body = value if isinstance(value, bytes) else json.dumps(value).encode()
        usual = {"X_Cardwright_Run": self.served.token, "Content_Type": "application/json"}
        status, _, answer = self.ask("POST", path, body, **{**usual, **headers})
        return status, answer.decode()

    def draft(self) -> Any:
        return json.loads(self.get("/draft")[2])

    def edit(self, edit: Any, base: int = 0) -> tuple[int, str]:
        return self.post("/edit", {"base": base, "window": "w", "by": "Ada", "edit": edit})


@pytest.fixture(scope="module")
def served(tmp_path_factory: pytest.TempPathFactory, drafted: Any) -> Iterator[Served]:
    from extract.drafts import save_draft

    folder = tmp_path_factory.mktemp("served")
    (folder / SHOW.name).write_bytes(SHOW.read_bytes())
    write_sound(folder / "harvest-supper.wav", 4)
    (folder / "secret.txt").write_text("not to be served")
    save_draft(folder / "harvest-supper.draft.json", drafted)
    with serving(folder / "harvest-supper.draft.json", "--written", str(WRITTEN)) as found:
        yield found


@pytest.fixture
def page(served: Served) -> Page:
    return Page(served)


def test_the_address_at_the_terminal_opens_the_page_and_takes_the_token_out_of_sight(page: Page) -> None:
    status, headers, _ = page.ask("GET", f"/?run={page.served.token}", Cookie="")
    assert (status, headers["location"]) == (303, "/")
    assert "HttpOnly" in headers["set-cookie"]
    assert "samesite=strict" in headers["set-cookie"].lower()
    status, headers, body = page.get("/")
    assert status == 200
    assert b"<h1>harvest-supper.draft.json</h1>" in body
    policy = headers["content-security-policy"]
    assert "default-src 'none'" in policy
    assert "unsafe" not in policy
    assert "http" not in policy
    assert headers["x-content-type-options"] == "nosniff"


def test_it_listens_to_this_machine_alone(served: Served) -> None:
    listening = [row.split()[1:4] for row in Path("/proc/net/tcp").read_text().splitlines()[1:]]
    ours = [
        local
        for local, _, state in listening
        if state == "0A" and int(local.partition(":")[2], 16) == served.port
    ]
    assert ours == [f"0100007F:{served.port:04X}"]


@pytest.mark.parametrize("path", ["/", "/draft", "/words", "/recording", "/static/main.js", "/take/page"])
@pytest.mark.parametrize("cookie", ["", "cardwright-1=x", "wrong"])
def test_without_the_token_nothing_is_served(page: Page, path: str, cookie: str) -> None:
    given = f"cardwright-{page.served.port}=wrong" if cookie == "wrong" else cookie
    status, _, body = page.get(path, Cookie=given)
    assert status == 403
    assert b"address that stands at the terminal" in body


@pytest.mark.parametrize(
    "host", ["evil.example", "evil.example:80", "127.0.0.1", "127.0.0.1.nip.io:{}", "192.168.1.4:{}"]
)
def test_a_foreign_host_is_refused(page: Page, host: str) -> None:
    assert page.get("/draft", Host=host.format(page.served.port))[0] == 403


@pytest.mark.parametrize(
    "headers",
    [
        {"Origin": "http://evil.example"},
        {"Origin": "null"},
        {"Origin": "http://127.0.0.1:1"},
        {"Sec_Fetch_Site": "cross-site"},
        {"Sec_Fetch_Site": "same-site"},
        {"X_Cardwright_Run": ""},
        {"X_Cardwright_Run": "x" * 32},
    ],
)
def test_a_write_from_elsewhere_is_refused(page: Page, headers: dict[str, str]) -> None:
    before = page.draft()
    body = {
        "base": 0,
        "window": "w",
        "by": "",
        "edit": {"do": "set dish", "dish": before["dishes"][0]["key"], "title": "x"},
    }
    assert page.post("/edit", body, **headers)[0] == 403
    assert page.draft() == before


@pytest.mark.parametrize("kind", ["text/plain", "application/x-www-form-urlencoded", ""])
def test_a_form_of_another_site_cannot_look_like_an_edit(page: Page, kind: str) -> None:
    assert page.post("/edit", {}, Content_Type=kind)[0] == 415


@pytest.mark.parametrize(
    ("body", "reason"),
    [
        (b"", "no JSON"),
        (b"{", "no JSON"),
        (b"[" * 100_000, "no JSON"),
        (b"\xff\xfe", "no JSON"),
        (b"[]", "no change"),
        (b"{}", "base"),
        (b'{"base": -1, "window": "w", "by": ""}', "base"),
        (b'{"base": 0, "window": "", "by": ""}', "window"),
        (b'{"base": 0, "window": "w", "by": "", "edit": {"do": "burn"}}', "no edit"),
        (b'{"base": 0, "window": "w", "by": "", "edit": {"do": "set line", "line": "nobody"}}', "no longer"),
        (b'{"base": 0, "window": "w", "by": "", "edit": null, "more": 1}', "more"),
    ],
)
def test_a_malformed_request_gets_a_reason_and_changes_nothing(page: Page, body: bytes, reason: str) -> None:
    before = page.draft()
    status, answer = page.post("/edit", body)
    assert status in (409, 422)
    assert reason in json.loads(answer)["reason"]
    assert page.draft() == before


def test_an_endless_request_is_cut_short(page: Page) -> None:
    assert page.post("/edit", b" " * 300_000)[0] == 413


@pytest.mark.parametrize(
    "path",
    [
        "/secret.txt",
        "/static/../server.py",
        "/static/%2e%2e/server.py",
        "/static/..%2fserver.py",
        "/static//etc/passwd",
        "/recording/../secret.txt",
        "/take/secret.txt",
        "/take/..%2fsecret.txt",
        "/dish/..%2f..%2fsecret.txt",
    ],
)
def test_only_what_was_named_is_served(page: Page, path: str) -> None:
    status, _, body = page.get(path)
    assert status in (404, 409)
    assert b"not to be served" not in body
    assert b"import" not in body


@pytest.mark.parametrize(
    ("path", "method"), [("/draft", "POST"), ("/edit", "GET"), ("/edit", "DELETE"), ("/", "PUT")]
)
def test_a_wrong_method_is_told(page: Page, path: str, method: str) -> None:
    body = b"{}" if method in ("POST", "PUT", "DELETE") else None
    headers = {"X_Cardwright_Run": page.served.token, "Content_Type": "application/json"}
    assert page.ask(method, path, body, **headers)[0] == 405


def test_the_recording_can_be_sought_in(page: Page) -> None:
    """RFC 9110, section 14: a range, and one that cannot be met."""
    status, headers, body = page.get("/recording", Range="bytes=1000-1999")
    assert (status, len(body)) == (206, 1000)
    assert headers["content-range"] == f"bytes 1000-1999/{4 * 8000 + 44}"
    assert headers["content-type"].startswith("audio/")
    assert page.get("/recording", Range="bytes=99999999-")[0] == 416


def test_the_page_and_the_talk_can_be_taken(page: Page) -> None:
    status, headers, body = page.get("/take/page")
    assert status == 200
    assert headers["content-disposition"] == 'attachment; filename="harvest-supper.md"'
    assert body.startswith(b"# Harvest supper")
    assert page.get("/take/talk")[2].startswith(b"id: harvest-supper")


def test_the_finished_page_and_the_differences_are_served(page: Page) -> None:
    key = page.draft()["dishes"][0]["key"]
    html = json.loads(page.get(f"/dish/{key}")[2])["html"]
    assert "<h3>Ingredients</h3>" in html
    assert len(json.loads(page.get("/written")[2])) > 5


def test_an_edit_answers_with_what_it_changed_and_stands_in_the_file(path: Path) -> None:
    with serving(path) as served:
        page = Page(served)
        dishes = page.draft()["dishes"]
        status, answer = page.edit({"do": "set dish", "dish": dishes[1]["key"], "title": "Cake"})
        assert status == 200
        given = json.loads(answer)
        assert given["done"].startswith("corrected the dish Cake (title)")
        assert [set(dish) == {"key"} for dish in given["draft"]["dishes"]] == [True, False]
        assert read(path).dishes[1].title == "Cake"
        assert page.post("/undo", {"base": 1, "window": "w", "by": "Ada"})[0] == 200
        assert read(path).dishes[1].title == dishes[1]["title"]
        assert [row["kind"] for row in json.loads(page.get("/earlier")[2])] == ["undo", "edit", "first"]
        assert page.post("/back", {"base": 2, "window": "w", "by": "Ada", "number": 1})[0] == 200
        assert page.post("/back", {"base": 3, "window": "w", "by": "Ada", "number": 99})[0] == 422
        assert read(path).dishes[1].title == "Cake"


def test_killed_while_it_serves_it_loses_nothing_that_it_told_as_saved(path: Path) -> None:
    with serving(path) as served:
        page = Page(served)
        key = page.draft()["dishes"][0]["key"]
        for number in range(25):
            assert page.edit({"do": "set dish", "dish": key, "title": f"Title {number}"}, number)[0] == 200
        served.process.send_signal(signal.SIGKILL)
    assert read(path).dishes[0].title == "Title 24"
    with serving(path) as served:
        page = Page(served)
        assert page.draft()["dishes"][0]["title"] == "Title 24"
        assert page.post("/undo", {"base": 25, "window": "w", "by": "Ada"})[0] == 200
    assert read(path).dishes[0].title == "Title 23"


def run(*options: str | Path) -> Result:
    """The command in this process, where it does not come to serving a page."""
    with patch("extract.review.running.serve", side_effect=AssertionError):
        return CliRunner().invoke(cardwright, ["review", *map(str, options)])


def test_a_second_review_of_the_same_draft_is_told_of_the_first(path: Path) -> None:
    with serving(path) as served:
        done = run(path, "--no-browser")
        assert done.exit_code == 2
        assert f"another review of this draft is open (process {served.process.pid})" in done.stderr
    with serving(path):
        pass  # the lock of a review that was killed holds nobody up


def test_bad_input_is_told_in_one_line(path: Path, tmp_path: Path) -> None:
    taken = socket.create_server(("127.0.0.1", 0))
    cases = [
        ((tmp_path / "none.draft.json",), "No such file"),
        ((tmp_path / "nowhere" / "none.draft.json",), "No such file"),
        ((SHOW,), "no JSON"),
        ((path, "--media", tmp_path / "none.mp4"), "no such recording"),
        ((path, "--transcript", tmp_path / "none.vtt"), "cannot be read"),
        ((path, "--port", str(taken.getsockname()[1])), "cannot be used"),
    ]
    with taken:
        for options, reason in cases:
            done = run(*options, "--no-browser")
            assert (done.exit_code, done.stdout) == (2, "")
            errors = [row for row in done.stderr.splitlines() if row.startswith("Error: ")]
            assert len(errors) == 1, done.stderr
            assert reason in errors[0]
    assert [one.name for one in path.parent.iterdir() if one.name.endswith(".lock")] == []


def test_the_talk_is_written_without_opening_the_page(path: Path, tmp_path: Path) -> None:
    done = run(path, "--talk", tmp_path / "out.talk")
    assert (done.exit_code, done.stdout) == (0, f"wrote {tmp_path / 'out.talk'}\n")
    assert (tmp_path / "out.talk").read_text(encoding="utf-8").startswith("id: out\n")
    assert not journal_path(path).exists()
    (path.parent / SHOW.name).unlink()
    done = run(path, "--talk", tmp_path / "other.talk")
    assert done.exit_code == 2
    assert "--transcript" in done.stderr


def long_show(drafted: Any, folder: Path) -> Path:
    """Three hours with 20 dishes: the sample's two, ten times, one after another; its captions likewise."""
    from extract.drafts import save_draft

    dishes, captions = [], []
    blocks = SHOW.read_text(encoding="utf-8").split("\n\n")[1:]

    def moved(value: Any, cues: int, seconds: float) -> Any:
        if isinstance(value, list):
            return [moved(one, cues, seconds) for one in value]
        if isinstance(value, dict):
            shift = {"cue": cues, "start": seconds, "end": seconds}
            return {
                name: one + shift[name] if name in shift else moved(one, cues, seconds)
                for name, one in value.items()
            }
        return value

    plain = drafted.to_dict()
    for turn in range(18):
        if turn < 10:
            dishes += moved(plain["dishes"], turn * len(blocks), turn * 600.0)
        for block in blocks:
            begin, _, rest = block.partition(" --> ")
            end, _, words = rest.partition("\n")
            times = [
                f"{int(t[:2]) * 60 + int(t[3:5]) + turn * 10:03d}:{t[6:]}"
                for t in (begin.strip(), end.strip()[:12])
            ]
            stamps = [f"{int(t[:3]) // 60:02d}:{int(t[:3]) % 60:02d}:{t[4:]}" for t in times]
            captions.append(f"{stamps[0]} --> {stamps[1]}\n{words}")
    (folder / "long.vtt").write_text("WEBVTT\n\n" + "\n\n".join(captions), encoding="utf-8")
    from extract.model import RecipeDraft

    source = {**plain["source"], "file": "long.vtt", "end": 10800.0, "cues": len(captions)}
    whole = RecipeDraft.model_validate({**plain, "dishes": dishes, "source": source})
    save_draft(folder / "long.draft.json", whole)
    return folder / "long.draft.json"


def test_three_hours_and_twenty_dishes_are_edited_in_a_tenth_of_a_second(
    drafted: Any, tmp_path: Path
) -> None:
    path = long_show(drafted, tmp_path)
    with serving(path) as served:
        page = Page(served)
        begun = time.perf_counter()
        draft = page.draft()
        words = json.loads(page.get("/words")[2])["cues"]
        opened = time.perf_counter() - begun
        assert (len(draft["dishes"]), len(words)) == (20, 18 * 154)
        time.sleep(1.0)  # what is loaded beside has its time; a reviewer reads first
        line = draft["dishes"][13]["parts"][0]["lines"][0]
        took = []
        for number in range(10):
            begun = time.perf_counter()
            edit = {"do": "set line", "line": line["key"], "amount": f"{number + 3} cups"}
            status, _ = page.edit(edit, number)
            took.append(time.perf_counter() - begun)
            assert status == 200
    figures = f"opened in {opened:.2f} s, edits in {sorted(round(one * 1000) for one in took)} ms"
    tell(figures)
    skip_where_busy(figures)
    assert opened < 2.0
    assert sorted(took)[len(took) // 2] < 0.1


def test_what_the_review_writes_is_no_transcript(path: Path) -> None:
    from extract.commands.work.drafting import find_sources

    with serving(path) as served:
        page = Page(served)
        key = page.draft()["dishes"][0]["key"]
        assert page.edit({"do": "set dish", "dish": key, "title": "Pies"})[0] == 200
        assert journal_path(path).exists()
        assert [source.name for source in find_sources([str(path.parent)])] == ["harvest-supper"]
