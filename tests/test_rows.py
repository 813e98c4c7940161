"""A table of rows in one test loses none of them."""

import pytest

from tests.rows import rows


def test_every_row_is_tried_and_those_that_fail_are_named() -> None:
    tried = []

    @rows("given, due", [(1, 1), (2, 1), (3, 3), (4, 3)])
    def check(given: int, due: int) -> None:
        tried.append(given)
        assert given == due

    with pytest.raises(ExceptionGroup, match="2 of 4 rows") as told:
        check()
    assert tried == [1, 2, 3, 4]
    assert [each.__notes__ for each in told.value.exceptions] == [
        ["in the row given=2, due=1"],
        ["in the row given=4, due=3"],
    ]


def test_what_does_not_raise_fails_its_row() -> None:
    @rows("text", ["1", "x"])
    def check(text: str) -> None:
        with pytest.raises(ValueError, match="invalid"):
            int(text)

    with pytest.raises(BaseExceptionGroup, match="1 of 2 rows"):
        check()


def test_a_table_without_rows_is_refused() -> None:
    with pytest.raises(ValueError, match="there is no row of given"):
        rows("given", [])
