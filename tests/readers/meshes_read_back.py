"""Meshes, read by programs that are not ours: the Khronos glTF validator finds no fault, and assimp sees the size, the
number of halves and the triangles that the prediction states. A line drawing is an SVG that librsvg draws.

Usage: meshes_read_back.py FANWRIGHT VALIDATOR_FOLDER DESIGN"""

import json
import re
import subprocess
import sys
import tempfile
from pathlib import Path

HERE = Path(__file__).resolve().parent
# Half a caliper of card to either side of the mid-surface, which the prediction speaks of.
ALLOWED_MM = 0.3


def run(*command):
    done = subprocess.run([str(word) for word in command], capture_output=True, text=True, check=False)
    return done.returncode, done.stdout, done.stderr


def opened(fanwright, design, size, *options):
    code, out, err = run(fanwright, "open", design, "--size", size, "--json", *options)
    if code not in (0, 1):  # 1: the mesh is written, and the design warned of
        raise SystemExit(f"fanwright open {size} {options}: exit {code}: {err}")
    return json.loads(out)["sizes"][0]


def sizes_of(design):
    sizes = json.loads(Path(design).read_text(encoding="utf-8")).get("sizes")
    return [size["name"] for size in sizes] if sizes else [None]


def seen_by_assimp(file):
    """Box in the file's own units and number of triangles (of unplaced meshes)."""
    code, out, err = run("assimp", "info", file)
    text = out + err
    if code != 0 or re.search(r"\berror\b", text, re.IGNORECASE):
        raise SystemExit(f"assimp info {file}: exit {code}\n{text}")
    box = [
        [float(number) for number in re.search(rf"{which} point\s+\(([^)]*)\)", text)[1].split()]
        for which in ("Minimum", "Maximum")
    ]
    return box, int(re.search(r"Faces:\s+(\d+)", text)[1])


def box_faults(file, box, opened_form, mm_per_unit, up):
    low, high = box
    spans = [mm_per_unit * (b - a) for a, b in zip(low, high)]
    faults = []
    if abs(spans[up] - opened_form["height_mm"]) > ALLOWED_MM or abs(mm_per_unit * low[up]) > ALLOWED_MM:
        faults.append(f"{file.name}: height {spans[up]:.3f} mm, predicted {opened_form['height']:.3f} mm")
    widest = max(span for axis, span in enumerate(spans) if axis != up)
    # No wider than the circle that holds it; leaves need not point along the axes, so it may be a little narrower.
    if not 0.9 * opened_form["diameter_mm"] < widest < opened_form["diameter_mm"] + ALLOWED_MM:
        faults.append(f"{file.name}: width {widest:.3f} mm, predicted diameter {opened_form['diameter']:.3f} mm")
    return faults


def check(fanwright, validator, design, size, folder):
    faults, triangles = [], {}
    for ending, mm_per_unit, up in (("glb", 1000.0, 1), ("stl", 1.0, 2), ("obj", 1.0, 2), ("3mf", 1.0, 2)):
        file = folder / f"mesh.{ending}"
        prediction = opened(fanwright, design, size, "--mesh", file)
        box, triangles[ending] = seen_by_assimp(file)
        if prediction["opening_deg"] == 360:
            faults += box_faults(file, box, prediction["opened"], mm_per_unit, up)
    halves = 2 * prediction["leaves"]
    whole = halves * triangles["3mf"] // 2  # two objects, one of each hand
    for ending, wanted in (("stl", whole), ("obj", whole), ("glb", triangles["3mf"])):
        if triangles[ending] != wanted:
            faults.append(f"mesh.{ending}: assimp sees {triangles[ending]} triangles instead of {wanted}")
    code, out, err = run("node", HERE / "gltf" / "validate.js", validator, folder / "mesh.glb")
    print(out.strip())
    if code != 0:
        faults.append(f"the glTF validator: {out}{err}")
    drawing = folder / "lines.svg"
    opened(fanwright, design, size, "--lines", drawing)
    code, _, err = run("rsvg-convert", drawing, "--output", folder / "lines.png")
    if code != 0:
        faults.append(f"librsvg: {err}")
    return faults


def main(fanwright, validator, design):
    name = sizes_of(design)[0] or opened_name(fanwright, design)
    with tempfile.TemporaryDirectory() as folder:
        faults = check(fanwright, validator, design, name, Path(folder))
    for fault in faults:
        print(f"{Path(design).name}, {name}: {fault}")
    return 1 if faults else 0


def opened_name(fanwright, design):
    """The name of the only size of a design that lists none."""
    return json.loads(run(fanwright, "open", design, "--json")[1])["sizes"][0]["name"]


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
