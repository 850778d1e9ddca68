"""Reads a table with Python's csv library and writes it as a spreadsheet of a country
with a decimal comma does: a mark of the byte order, semicolons, columns turned round.

    rewrite_table.py FILE"""

import csv
import io
import sys

with open(sys.argv[1], newline="", encoding="utf-8") as table:
    rows = list(csv.DictReader(table, strict=True))
columns = list(reversed(rows[0]))
out = io.StringIO()
writer = csv.DictWriter(out, columns, dialect="excel", delimiter=";")
writer.writeheader()
for row in rows:
    writer.writerow({name: cell.replace(".", ",") if name == "time_s" else cell for name, cell in row.items()})
sys.stdout.reconfigure(encoding="utf-8", newline="")
sys.stdout.write("\ufeff" + out.getvalue())
