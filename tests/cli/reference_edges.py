"""Compares `fanwright open --json` with reference forms: for each case the outer edge found by an independent
finite-element program (tests/opened/cases/README.md).

    reference_edges.py FANWRIGHT TOOLS_FOLDER CASES_FOLDER

Distance is measured in the (radius, height) half-plane at the same place of the flat leaf, after a common shift of
height is removed. At most 0.5 % of the ornament's size (the larger of height and diameter) is allowed.
"""
import csv
import json
import math
import pathlib
import subprocess
import sys
import tempfile

MOST_SHARE = 0.005


def predicted(fanwright, design_text):
    with tempfile.TemporaryDirectory(prefix="reference-") as folder:
        file = pathlib.Path(folder, "case.ornament.json")
        file.write_text(design_text, encoding="utf-8")
        done = subprocess.run([fanwright, "open", str(file), "--json"], capture_output=True, check=True)
    return json.loads(done.stdout)["sizes"][0]["opened"]


def nearest(edge, x, z):
    """(flat distance, radius, height) of the predicted edge at the flat place nearest to x, z."""
    best = (math.inf, 0.0, 0.0)
    for a, b in zip(edge, edge[1:]):
        dx, dz = b["x"] - a["x"], b["z"] - a["z"]
        length2 = dx * dx + dz * dz
        share = 0.0 if length2 == 0 else min(1.0, max(0.0, ((x - a["x"]) * dx + (z - a["z"]) * dz) / length2))
        away = math.hypot(a["x"] + share * dx - x, a["z"] + share * dz - z)
        if away < best[0]:
            best = (away, *(a[key] + share * (b[key] - a[key]) for key in ("radius", "height")))
    return best


def compare(opened, reference):
    """Largest distance (mm) between the edges, and the largest distance (mm) of a flat place from the flat edge."""
    found = [nearest(opened["edge"], row["flat_x"], row["flat_z"]) for row in reference]
    shift = sum(height - row["zeta"] for (_, _, height), row in zip(found, reference)) / len(reference)
    distance = max(
        math.hypot(radius - row["rho"], height - shift - row["zeta"]) for (_, radius, height), row in zip(found, reference)
    )
    return distance, max(away for away, _, _ in found)


def main(fanwright, tools, cases):
    sys.path.insert(0, tools)
    from case_to_design import design_of

    failed = 0
    files = sorted(pathlib.Path(cases).glob("*.json"))
    for file in files:
        opened = predicted(fanwright, json.dumps(design_of(json.loads(file.read_text(encoding="utf-8")))))
        with file.with_suffix(".csv").open(encoding="utf-8") as table:
            reference = [{key: float(value) for key, value in row.items()} for row in csv.DictReader(table)]
        distance, off_edge = compare(opened, reference)
        share = distance / max(opened["height_mm"], opened["diameter_mm"])
        print(f"{file.stem}: {distance:.3f} mm, {100 * share:.3f} % of the size")
        failed += share > MOST_SHARE or off_edge > 0.01
    return 0 if files and not failed else 1


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
