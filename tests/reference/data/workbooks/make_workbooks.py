"""Writes the workbooks of this folder with openpyxl 3.1.5 and XlsxWriter 3.2.9. SYNTHETIC data."""
import datetime
from openpyxl import Workbook
from openpyxl.utils.datetime import CALENDAR_MAC_1904
import xlsxwriter

header = ["Who", "Injured", "TPD rest (mm)", "Back", "Taped", "Note"]
rows = [
    ["P01", datetime.date(2024, 3, 4), 2.4, datetime.datetime(2024, 6, 3, 14, 30), True, "Größe & <Wert>"],
    ["P02", datetime.date(1999, 12, 31), 0.1 + 0.2, None, False, "two\nlines"],
    ["007", datetime.date(2024, 2, 29), 3, datetime.datetime(2024, 6, 3), None, "  spaces  "],
]


def with_openpyxl(path, mac):
    book = Workbook()
    if mac:
        book.epoch = CALENDAR_MAC_1904
    sheet = book.active
    sheet.title = "Patients"
    sheet.append(["SYNTHETIC"])
    sheet.merge_cells("A1:F1")
    sheet.append([])
    sheet.append(header)
    for row in rows:
        sheet.append(row)
    for row in range(4, 7):
        sheet.cell(row, 2).number_format = "dd\\.mm\\.yyyy;@"
        sheet.cell(row, 4).number_format = "[$-407]d\\. mmm yyyy hh:mm"
    sheet["C7"] = "=SUM(C4:C6)"
    sheet["D7"] = "#REF!"
    sheet["D7"].data_type = "e"
    sheet.row_dimensions[5].hidden = True
    sheet.column_dimensions["F"].hidden = True
    book.create_sheet("Empty")
    book.create_sheet("Legend").append(["TPD", "distance"])
    book.save(path)


def with_xlsxwriter(path, mac):
    book = xlsxwriter.Workbook(path, {"date_1904": mac})
    day = book.add_format({"num_format": "dd/mm/yy"})
    moment = book.add_format({"num_format": "yyyy-mm-dd hh:mm:ss"})
    sheet = book.add_worksheet("Patients")
    sheet.merge_range("A1:F1", "SYNTHETIC")
    sheet.write_row(2, 0, header)
    for place, (who, injured, rest, back, taped, note) in enumerate(rows, 3):
        sheet.write_string(place, 0, who)
        sheet.write_datetime(place, 1, injured, day)
        sheet.write_number(place, 2, rest)
        if back is not None:
            sheet.write_datetime(place, 3, back, moment)
        if taped is not None:
            sheet.write_boolean(place, 4, taped)
        sheet.write_string(place, 5, note)
    sheet.write_formula("C7", "=SUM(C4:C6)", None, 5.7)
    sheet.write_formula("D7", "=1/0", None, "#DIV/0!")
    sheet.set_row(4, None, None, {"hidden": True})
    sheet.set_column("F:F", None, None, {"hidden": True})
    book.add_worksheet("Empty")
    book.add_worksheet("Legend").write_row(0, 0, ["TPD", "distance"])
    book.close()


for mac, name in ((False, "1900"), (True, "1904")):
    with_openpyxl(f"openpyxl-{name}.xlsx", mac)
    with_xlsxwriter(f"xlsxwriter-{name}.xlsx", mac)
