"""Makes the workbooks beside this file: openpyxl 3.0, LibreOffice 7.4 (`soffice` in the path) and, for what those do not
write, the parts of the archive by hand. Run as `/usr/bin/python3 make.py`. Every athlete and figure is invented."""

import datetime
import os
import subprocess
import tempfile
import zipfile

from openpyxl import Workbook

HEADINGS = ["power (W)", "heart rate (bpm)", "lactate (mmol/L)"]
ROWS = [[100, 110, 1.0], [150, 131, 1.4], [200, 155, 3.1]]


def book(rows, name="Test"):
    made = Workbook()
    sheet = made.active
    sheet.title = name
    for row in rows:
        sheet.append(row)
    return made, sheet


def simple():
    book([HEADINGS, *ROWS])[0].save("plain.xlsx")


def notes_and_units_row():
    made, sheet = book(
        [["Step test of an invented athlete", None, None], [], ["power", "heart rate", "lactate"], ["W", "bpm", "mmol/L"], *ROWS]
    )
    sheet.merge_cells("A1:C1")
    made.save("merged-title-and-units-row.xlsx")


def merged_names():
    rows = [["athlete", "power (W)", "lactate"]]
    for name in ["A1", "B2"]:
        for i, (power, _, lactate) in enumerate(ROWS):
            rows.append([name if i == 0 else None, power, lactate])
    made, sheet = book(rows)
    sheet.merge_cells("A2:A4")
    sheet.merge_cells("A5:A7")
    made.save("roster-merged-names.xlsx")


def roster_wide():
    head = ["id", "sport", "body mass (kg)", "La rest", "La 100 W", "HR 100 W", "La 150 W", "HR 150 W", "La 200 W", "HR 200 W"]
    book([head, ["p1", "cycling", 70, 0.9, 1.0, 110, 1.4, 131, 3.1, 155], ["p2", "cycling", 81.5, None, 1.1, 101, 1.9, 128, None, None]])[0].save(
        "roster-wide.xlsx"
    )


def times():
    made, sheet = book([["date", "stage duration", "pace (min/km)", "lactate"]])
    for i, (pace, lactate) in enumerate([("5:30", 1.0), ("5:00", 1.4), ("4:30", 3.1)]):
        minutes, seconds = pace.split(":")
        # As typed into a cell: a spreadsheet takes 5:30 for half past five.
        sheet.append([datetime.datetime(2026, 3, 1), datetime.time(0, 4, 0), datetime.time(int(minutes), int(seconds)), lactate])
        sheet.cell(i + 2, 1).number_format = "yyyy-mm-dd"
        sheet.cell(i + 2, 2).number_format = "mm:ss"
        sheet.cell(i + 2, 3).number_format = "h:mm"
    made.save("times-and-dates.xlsx")


def formulas(name):
    made, sheet = book([HEADINGS, [100, 110, 1.0], ["=A2+50", 131, 1.4], ["=A3+50", 155, "=MAX(C2:C3)+1.7"]])
    made.save(name)


def second_sheet():
    made = Workbook()
    made.active.title = "Cover"
    sheet = made.create_sheet("Winter & spring")
    for row in [HEADINGS, *ROWS]:
        sheet.append(row)
    other = made.create_sheet("Autumn")
    for row in [HEADINGS, *[[power + 20, rate, lactate] for power, rate, lactate in ROWS]]:
        other.append(row)
    made.save("three-sheets.xlsx")


def far_away():
    made = Workbook()
    sheet = made.active
    for i, row in enumerate([HEADINGS, *ROWS]):
        for j, value in enumerate(row):
            sheet.cell(40 + i, 6 + j, value)
    made.save("table-far-from-the-corner.xlsx")


def values():
    made, sheet = book([[*HEADINGS, "remark"], [100, 110, 0.1 + 0.2, "say \"ah\"\nand\tgo"], [150, "#N/A", 1.4, True], [200, 155, "3,1", None]])
    sheet["B3"].data_type = "e"
    made.save("odd-values.xlsx")


def with_office(source, target, text):
    """Lets LibreOffice write the workbook from delimited text or another workbook."""
    with tempfile.TemporaryDirectory() as folder:
        given = os.path.join(folder, source)
        if text is None:
            os.rename(source, given)
        else:
            with open(given, "w", encoding="utf-8") as file:
                file.write(text)
        infilter = [] if text is None else ["--infilter=CSV:59,34,76,1,,1031"]
        made = os.path.join(folder, "made")
        subprocess.run(["soffice", "--headless", *infilter, "--convert-to", "xlsx", "--outdir", made, given], check=True, capture_output=True)
        os.replace(os.path.join(made, source.rsplit(".", 1)[0] + ".xlsx"), target)


RELATIONS = """<?xml version="1.0" encoding="UTF-8"?>
<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="/xl/worksheets/Sheet%201.xml"/></Relationships>"""


def by_hand():
    """Prefixes, texts in the cells, rich text with a reading, rows and cells without a place, a path from the root."""
    workbook = '<x:workbook xmlns:x="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><x:sheets><x:sheet name="S" sheetId="1" r:id="rId1"/></x:sheets></x:workbook>'
    cell = lambda text: f'<x:c t="inlineStr"><x:is><x:t>{text}</x:t></x:is></x:c>'
    rich = '<x:c t="s"><x:v>0</x:v></x:c>'
    number = lambda value: f"<x:c><x:v>{value}</x:v></x:c>"
    rows = [rich + cell("heart rate &#40;bpm&#41;") + cell("lactate")] + ["".join(number(value) for value in row) for row in ROWS]
    sheet = '<x:worksheet xmlns:x="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><x:sheetData>' + "".join(f"<x:row>{row}</x:row>" for row in rows) + "</x:sheetData></x:worksheet>"
    strings = '<sst xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><si><r><t>power </t></r><r><t><![CDATA[(W)]]></t></r><rPh sb="0" eb="1"><t>reading</t></rPh></si></sst>'
    with zipfile.ZipFile("by-hand.xlsx", "w", zipfile.ZIP_STORED) as archive:
        archive.writestr("xl/workbook.xml", workbook)
        archive.writestr("xl/_rels/workbook.xml.rels", RELATIONS.replace("Sheet%201", "sheet1"))
        archive.writestr("xl/worksheets/sheet1.xml", sheet)
        archive.writestr("xl/sharedStrings.xml", strings)


def sizes_of_64_bits():
    """As an archive over 4 GB has them, with a comment at its end."""
    limit = zipfile.ZIP64_LIMIT
    zipfile.ZIP64_LIMIT = 0
    with zipfile.ZipFile("plain.xlsx") as plain, zipfile.ZipFile("sizes-of-64-bits.xlsx", "w", zipfile.ZIP_DEFLATED) as archive:
        for part in plain.infolist():
            archive.writestr(zipfile.ZipInfo(part.filename), plain.read(part), zipfile.ZIP_DEFLATED)
        archive.comment = b"A comment that says nothing."
    zipfile.ZIP64_LIMIT = limit


simple()
notes_and_units_row()
merged_names()
roster_wide()
times()
formulas("formulas-without-values.xlsx")
formulas("formulas.xlsx")
with_office("formulas.xlsx", "formulas-with-values.xlsx", None)
second_sheet()
far_away()
values()
with_office("typed.csv", "office-decimal-comma.xlsx", "Leistung in Watt: siehe unten\npower (W);lactate (mmol/L);duration (s)\n100;1,05;240\n150;1,4;240\n200;3,1;150\n")
by_hand()
sizes_of_64_bits()
