"""For all tests: helper modules beside this file can be imported, and properties run alike every time."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

import pytest
from hypothesis import settings

if TYPE_CHECKING:
    from xdist.remote import Producer
    from xdist.scheduler import LoadFileScheduling

# No deadline: the first example loads lexicons. The same few examples everywhere: a red run can be repeated. At night
# (HYPOTHESIS_PROFILE=nightly) others are drawn each time, and many.
settings.register_profile("steady", deadline=None, derandomize=True, max_examples=25)
settings.register_profile("nightly", deadline=None, derandomize=False, max_examples=1000, print_blob=True)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "steady"))

# Programs are started in a run; without its bytecode each would compile the whole of Cardwright.
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)

# The modules that take longest, in the order in which they are begun, with the group whose drafts they share: a group
# runs in one worker. The others follow in any order.
GROUPS = {
    "tests/test_labelled_shows.py": "labelled",
    "tests/test_invented_shows.py": "shows",
    "tests/publish/test_published_agrees.py": "shows",
    "tests/method/test_consistency.py": "shows",
    "tests/language/test_spelling.py": "shows",
    "tests/test_pipeline.py": "shows",
    "tests/publish/test_markdown.py": "shows",
    "tests/publish/test_jsonld.py": "shows",
    "tests/publish/test_page.py": "shows",
    "tests/publish/test_vtt.py": "shows",
    "tests/reader/test_held_out.py": "held out",
    "tests/test_docs.py": "docs",
    "tests/review/test_server.py": "server",
}
FIRST = {path: number for number, path in enumerate(GROUPS)}


@pytest.hookimpl(trylast=True)
def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    items.sort(key=lambda item: FIRST.get(item.nodeid.partition("::")[0], len(FIRST)))


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config: pytest.Config, log: Producer) -> LoadFileScheduling:
    """Files as they come, those of a group together."""
    from xdist.scheduler import LoadFileScheduling

    class InGroups(LoadFileScheduling):
        def _split_scope(self, nodeid: str) -> str:
            path = nodeid.partition("::")[0]
            return GROUPS.get(path, path)

    config.option.loadscopereorder = False
    return InGroups(config, log)
