"""A run killed at any moment leaves the old kit whole, and the next run finds its way to the same bytes.

Usage: kit_survives_killing.py FANWRIGHT DESIGN"""

import json
import subprocess
import sys
import tempfile
import time
from pathlib import Path

MOMENTS = 3  # spread evenly over the time one run takes


def files(folder):
    return {path.relative_to(folder): path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()}


def of_one_size(design, folder):
    """The design with its first size alone, so that a run is short."""
    drawn_up = json.loads(Path(design).read_text())
    file = Path(folder) / "one-size.ornament.json"
    file.write_text(json.dumps({**drawn_up, "sizes": drawn_up["sizes"][:1]}))
    return file


def main(fanwright, many_sizes):
    with tempfile.TemporaryDirectory() as work:
        kit = Path(work) / "kit"
        design = of_one_size(many_sizes, work)
        command = [fanwright, "kit", design, "--out", kit]
        start = time.monotonic()
        subprocess.run(command, check=True, capture_output=True)
        taken = time.monotonic() - start
        whole = files(kit)
        faults = 0
        for moment in range(MOMENTS):
            process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
            time.sleep(taken * (moment + 0.5) / MOMENTS)
            process.kill()
            process.wait()
            if not kit.is_dir() or files(kit) != whole:
                print(f"killed at {(moment + 0.5) / MOMENTS:.2f} of its time, the run broke the old kit")
                faults += 1
        subprocess.run(command, check=True, capture_output=True)
        left = sorted(path.name for path in Path(work).iterdir())
        if files(kit) != whole or left != ["kit", design.name]:
            print(f"after the last run there is {left}")
            faults += 1
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
