"""A run killed at any moment leaves the old kit whole, and the next run finds its way.

Usage: kit_survives_killing.py FANWRIGHT DESIGN"""

import subprocess
import sys
import tempfile
import time
from pathlib import Path

from kit_reads_back import files

MOMENTS = 8  # spread evenly over the time one run takes


def main(fanwright, design):
    with tempfile.TemporaryDirectory() as work:
        kit = Path(work) / "kit"
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
        if files(kit) != whole or left != ["kit"]:
            print(f"after the last run there is {left}")
            faults += 1
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
