"""The practice and the client that the tests of the pages share."""

from collections.abc import Iterator
from pathlib import Path

import httpx
import pytest
from web_practice import client_of, practice

from haywisp.usecases import App


@pytest.fixture
def app(tmp_path: Path) -> Iterator[App]:
    with practice(tmp_path) as made:
        yield made


@pytest.fixture
def client(app: App) -> Iterator[httpx.Client]:
    with client_of(app) as made:
        yield made
