"""Lists read from files as people have them, and one sentence for a file that is none."""

import datetime
import io
import zipfile

import pytest
from openpyxl import Workbook

from jobbook.core.errors import Unreadable
from jobbook.services.lists import reading
from jobbook.services.lists.reading import read_list
from tests.services.lists.lists_book import VEHICLES, written

BYTES_OF_A_MARK = b"\xef\xbb\xbf"


@pytest.mark.parametrize(
    ("encoding", "how"),
    [
        ("utf-8", "UTF-8, separated by semicolons"),
        ("utf-8-sig", "UTF-8, separated by semicolons"),
        ("utf-16", "UTF-16, separated by semicolons"),
    ],
)
def test_the_spelling_of_a_file_is_seen_and_said(tmp_path, encoding, how):
    listed = read_list(written(tmp_path, VEHICLES, encoding=encoding))
    assert listed.how == how
    assert listed.headings == ("FIN", "Kennzeichen", "Hersteller", "Halter", "Telefon")
    assert listed.rows[1] == (3, ("XX0KSTLLE00654321", "ML-44-TOR", "Kestelle", "Berit Ångström", "0170 2"))


def test_what_is_no_utf_8_is_read_as_western_windows_writes_it(tmp_path):
    listed = read_list(written(tmp_path, VEHICLES, encoding="cp1252"))
    assert listed.how == "Windows-1252, separated by semicolons"
    assert listed.rows[0][1][3] == "Jörg Weißenfels"


@pytest.mark.parametrize(("sign", "word"), [(",", "commas"), (";", "semicolons"), ("\t", "tabs")])
def test_the_separator_is_whichever_parts_the_headings(tmp_path, sign, word):
    listed = read_list(written(tmp_path, sign.join(["Name", "Note", "x"]) + "\n" + sign.join(['"a, b; c"', "d", ""])))
    assert listed.how.endswith(word)
    assert listed.rows == ((2, ("a, b; c", "d", "")),)


def test_rows_keep_the_numbers_that_a_spreadsheet_shows(tmp_path):
    text = '\nName,Address\n"Ottilie","Quay 4\nQuillhaven"\n\n,\nWilma,\n'
    listed = read_list(written(tmp_path, text))
    assert [number for number, _ in listed.rows] == [3, 6]


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"", "holds no row"),
        (b"\n\n , \n", "holds no row"),
        (b"a\0b,c\n", "is no text and no workbook"),
        (b"\x81\x8d\x8f\xff", "is no text and no workbook"),
        (b'Name\n"never closed\n', "Look for a quotation mark that is not closed"),
        (b"\xd0\xcf\x11\xe0 old", "workbook of the old form"),
        (b"PK\x03\x04 nothing more", "is no workbook that can be read"),
        (b"Name\n" + b"x" * 40_000, "Row 2 of list.csv is too long"),
        (b"Name\n" + b"," * 300, "Row 2 of list.csv is too long"),
    ],
)
def test_what_is_no_list_is_refused_in_one_sentence(tmp_path, content, words):
    file = tmp_path / "list.csv"
    file.write_bytes(content)
    with pytest.raises(Unreadable, match=words) as refused:
        read_list(file)
    assert "nothing was taken in" in str(refused.value)


def test_a_file_that_is_not_there_or_is_a_folder_is_refused(tmp_path):
    for place in (tmp_path / "none.csv", tmp_path):
        with pytest.raises(Unreadable, match="no file that can be read"):
            read_list(place)


def test_a_file_that_is_too_large_is_not_even_opened(tmp_path, monkeypatch):
    monkeypatch.setattr(reading, "MOST_BYTES", 10)
    with pytest.raises(Unreadable, match="Divide it"):
        read_list(written(tmp_path, VEHICLES))
    monkeypatch.setattr(reading, "MOST_BYTES", 1000)
    monkeypatch.setattr(reading, "MOST_ROWS", 2)
    with pytest.raises(Unreadable, match="more than 2 rows"):
        read_list(written(tmp_path, VEHICLES))


def workbook(file, *rows, sheets=()):
    book = Workbook()
    for row in rows:
        book.active.append(row)
    for name in sheets:
        book.create_sheet(name).append(["other"])
    book.save(file)
    return file


def test_cells_of_a_workbook_become_the_text_that_a_person_sees(tmp_path):
    day = datetime.datetime(2026, 11, 25, 8, 0)
    file = workbook(tmp_path / "list.xlsx", ["Name", "Year", "On"], ["Ö", 2019.0, day], [], [None, 1.5, True])
    listed = read_list(file)
    assert listed.how == "sheet “Sheet”"
    assert listed.rows == ((2, ("Ö", "2019", "2026-11-25")), (4, ("", "1.5", "yes")))


def test_of_several_sheets_the_first_is_taken_and_that_is_said(tmp_path):
    listed = read_list(workbook(tmp_path / "list.xlsx", ["Name"], ["Ö"], sheets=["More"]))
    assert listed.how == "sheet “Sheet”, the first of 2 sheets"


def test_a_workbook_with_another_name_is_known_by_its_bytes(tmp_path):
    workbook(tmp_path / "list.xlsx", ["Name"], ["Ö"]).rename(tmp_path / "list.csv")
    assert read_list(tmp_path / "list.csv").rows == ((2, ("Ö",)),)


def test_a_packed_file_that_unpacks_to_too_much_is_not_unpacked(tmp_path, monkeypatch):
    monkeypatch.setattr(reading, "MOST_UNPACKED", 1000)
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as made:
        made.writestr("xl/worksheets/sheet1.xml", "x" * 100_000)
    (tmp_path / "list.xlsx").write_bytes(packed.getvalue())
    with pytest.raises(Unreadable, match="too large when it is unpacked"):
        read_list(tmp_path / "list.xlsx")
