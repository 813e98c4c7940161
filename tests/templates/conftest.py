"""What the tests of the sheets share."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.templates.browser import NO_BROWSER, Browser, chromium


@pytest.fixture(scope="session")
def browser(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    """A browser that every test of a page uses, where there is one."""
    program = chromium()
    if program is None:
        pytest.skip(NO_BROWSER)
    with Browser(program, tmp_path_factory.mktemp("browser")) as one:
        yield one
