"""Reads a workbook, or a file of comma-separated values, with general libraries
and prints as JSON what is in it: for each sheet its name, what stays in sight,
the widths of its columns, and its rows."""

import csv
import json
import sys


def workbook(path):
    import openpyxl

    book = openpyxl.load_workbook(path)
    out = []
    for sheet in book.worksheets:
        rows = [[cell.value for cell in row] for row in sheet.iter_rows()]
        kinds = [[cell.data_type for cell in row] for row in sheet.iter_rows()]
        formats = [[cell.number_format for cell in row] for row in sheet.iter_rows()]
        widths = [sheet.column_dimensions[c].width for c in sorted(sheet.column_dimensions)]
        out.append({
            "name": sheet.title, "frozen": sheet.freeze_panes, "titles": sheet.print_title_rows,
            "rows": rows, "kinds": kinds, "formats": formats, "widths": widths,
        })
    return {"title": book.properties.title, "sheets": out}


def values(path):
    with open(path, encoding="utf-8", newline="") as f:
        return {"sheets": [{"rows": list(csv.reader(f, quoting=csv.QUOTE_NONNUMERIC, strict=True))}]}


path = sys.argv[1]
json.dump(workbook(path) if path.endswith(".xlsx") else values(path), sys.stdout)
