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


def box_faults(file, box, prediction, mm_per_unit, up):
    figure = prediction.get("with_fans") or prediction["opened"]
    height, widest_predicted = figure["height_mm"], figure.get("width_mm", figure.get("diameter_mm"))
    low, high = box
    spans = [mm_per_unit * (b - a) for a, b in zip(low, high)]
    faults = []
    if abs(spans[up] - height) > ALLOWED_MM or abs(mm_per_unit * low[up]) > ALLOWED_MM:
        faults.append(f"{file.name}: height {spans[up]:.3f} mm, predicted {height:.3f} mm")
    widest = max(span for axis, span in enumerate(spans) if axis != up)
    # Leaves and fans need not point along the axes, so it may be a little narrower; with one fan it is not round, and
    # the box's own axes may then see it a little wider.
    allowed = ALLOWED_MM if figure is prediction["opened"] else 0.1 * widest_predicted
    if not 0.9 * widest_predicted < widest < widest_predicted + allowed:
        faults.append(f"{file.name}: width {widest:.3f} mm, predicted {widest_predicted:.3f} mm")
    return faults


def fan_triangles(file):
    """Faces of the objects that are fans."""
    count, in_fan = 0, False
    for line in file.read_text(encoding="utf-8").splitlines():
        if line.startswith("o "):
            in_fan = line.startswith("o fan_")
        count += in_fan and line.startswith("f ")
    return count


def check(fanwright, validator, design, size, folder):
    faults, triangles = [], {}
    for ending, mm_per_unit, up in (("glb", 1000.0, 1), ("stl", 1.0, 2), ("obj", 1.0, 2), ("3mf", 1.0, 2)):
        file = folder / f"mesh.{ending}"
        prediction = opened(fanwright, design, size, "--mesh", file)
        box, triangles[ending] = seen_by_assimp(file)
        if prediction["opening_deg"] == 360:
            faults += box_faults(file, box, prediction, mm_per_unit, up)
    halves = 2 * prediction["leaves"]
    # Two halves, one of each hand, and the fans, which stand once in every file.
    in_fans = fan_triangles(folder / "mesh.obj")
    if bool(in_fans) != any("seat" in fan for fan in prediction.get("fans", [])):
        faults.append("mesh.obj: fans that have a seat are parts of the mesh, and no others")
    whole = halves * (triangles["3mf"] - in_fans) // 2 + in_fans
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
