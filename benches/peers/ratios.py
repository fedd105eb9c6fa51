"""Prints the lines of one run as a table, with ratios to the batch."""

import sys

rows = []
for line in open(sys.argv[1]):
    if not line.startswith("#"):
        name, error, rate = line.rstrip("\n").split("\t")[:3]
        rows.append((name, float(error), float(rate)))
chosen = [row for row in rows if row[0].startswith("batch, chosen")][0]
print("\n| design | error, mm | flights/s a core | batch is faster by |\n|---|---|---|---|")
for name, error, rate in sorted(rows, key=lambda row: row[2]):
    print(f"| {name} | {error:.4f} | {rate:,.0f} | {chosen[2] / rate:.1f} |")
late = [name for name, error, _ in rows if error > 0.05]
print("\nAll within 0.05 mm." if not late else f"\nBeyond 0.05 mm: {late}")
