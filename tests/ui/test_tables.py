"""Lists: fetched by pages, never twice, never past the end."""

from dataclasses import dataclass

import pytest
from PySide6.QtCore import QModelIndex, Qt
from PySide6.QtWidgets import QLineEdit, QWidget

from jobbook.ui.controls import column
from jobbook.ui.tables import ANY_ROLE, PAGE, Column, RecordModel, RecordTable


@dataclass(frozen=True)
class Rows:
    rows: tuple[int, ...]
    next: int | None


class Numbers:
    """A query over the numbers below `count`, which remembers what it was asked."""

    def __init__(self, count):
        self.count = count
        self.asked = []

    def __call__(self, after, limit):
        self.asked.append((after, limit))
        first = 0 if after is None else after + 1
        rows = tuple(range(first, min(first + limit, self.count)))
        return Rows(rows, rows[-1] if rows and rows[-1] + 1 < self.count else None)


COLUMNS = (Column("Number", str, width=8, right=True, strong=True), Column("Double", lambda n: str(n * 2)))


@pytest.mark.parametrize("count", [0, 1, PAGE, PAGE + 1, 3 * PAGE])
def test_the_model_keeps_the_contract_of_a_model(count, qtmodeltester, dressed):
    model = RecordModel(COLUMNS, Numbers(count))
    model.reload()
    qtmodeltester.check(model)
    while model.canFetchMore(QModelIndex()):
        model.fetchMore(QModelIndex())
    assert [model.record(row) for row in range(model.rowCount())] == list(range(count))


def test_opening_a_list_costs_one_query_however_long_it_is():
    query = Numbers(1_000_000)
    model = RecordModel(COLUMNS, query)
    model.reload()
    assert query.asked == [(None, PAGE)]
    assert model.rowCount() == PAGE


def test_the_next_page_begins_after_the_last_row_of_the_one_before():
    query = Numbers(PAGE * 2)
    model = RecordModel(COLUMNS, query)
    model.reload()
    model.fetchMore(QModelIndex())
    assert query.asked == [(None, PAGE), (PAGE - 1, PAGE)]
    assert not model.canFetchMore(QModelIndex())


def test_the_record_itself_stands_under_the_user_role():
    model = RecordModel(COLUMNS, Numbers(3))
    model.reload()
    assert model.index(2, 1).data(ANY_ROLE) == 2
    assert model.index(2, 1).data() == "4"


def test_enter_opens_the_row_that_is_chosen(qtbot, dressed):
    model = RecordModel(COLUMNS, Numbers(3))
    model.reload()
    table = RecordTable("Numbers", model)
    qtbot.addWidget(table)
    table.choose_first()
    qtbot.keyClick(table, Qt.Key.Key_Down)
    with qtbot.waitSignal(table.opened) as opened:
        qtbot.keyClick(table, Qt.Key.Key_Return)
    assert opened.args == [1]


def test_reading_again_stays_at_the_same_place_however_far_one_had_read(qtbot, dressed):
    query = Numbers(PAGE * 5)
    model = RecordModel(COLUMNS, query)
    model.reload()
    table = RecordTable("Numbers", model)
    qtbot.addWidget(table)
    table.show()
    model.fetchMore(QModelIndex())
    table.selectRow(PAGE + 50)
    table.verticalScrollBar().setValue(table.verticalScrollBar().maximum() // 2)
    at = table.verticalScrollBar().value()
    read = model.rowCount()
    query.asked.clear()
    table.refresh()
    assert query.asked == [(None, read)]
    assert read > PAGE
    assert table.chosen() == PAGE + 50
    assert at > 0
    assert table.verticalScrollBar().value() == at


def test_whoever_comes_into_a_list_by_tab_sees_where_they_are(qtbot, dressed):
    model = RecordModel(COLUMNS, Numbers(3))
    model.reload()
    table, field = RecordTable("Numbers", model), QLineEdit()
    page = QWidget()
    page.setLayout(column(field, table))
    qtbot.addWidget(page)
    with qtbot.waitActive(page):
        page.show()
        page.activateWindow()
    field.setFocus()
    assert table.chosen() is None
    qtbot.keyClick(field, Qt.Key.Key_Tab)
    assert table.chosen() == 0
