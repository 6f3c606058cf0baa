"""What fanwright new takes for each hostile file and for honest drawings at its bounds: processor time, memory, answer.
Time is user and system time of the run, so that other work on the machine does not count.

    python3 bench/traced/bounds.py build/release/src/cli/fanwright [part of a name]

Hostile files must be refused or answered within 2 s and 500 MB, honest ones must be taken. A drawing that is taken counts
as the flat leaf in the first column of times; the second one adds the search for the leaf that opens into it, which takes
the same time whatever file it came from.
"""
import os
import sys
import tempfile

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "../../tests/cli"))
from hostile_files import HOSTILE, MOST_KILOBYTES, run, written

import honest_files
import large_files

MOST_SECONDS = 2
program = os.path.abspath(sys.argv[1])
wanted = sys.argv[2] if len(sys.argv) > 2 else ""


def measured(folder, name, make, honest):
    written(folder, {name: make()})
    size = os.path.getsize(os.path.join(folder, name)) / 1e6
    status, text, _, kilobytes, processor = run(program, folder, name, "--shows", "flat")
    code = os.waitstatus_to_exitcode(status)
    good = code == 0 if honest else code in (0, 2) and processor <= MOST_SECONDS and kilobytes <= MOST_KILOBYTES
    opened = ""
    if honest and code == 0:
        *_, longer = run(program, folder, name, "--replace")
        opened = f"{longer:6.2f} s"
    print(f"{name:30} {size:6.1f} MB {processor:6.2f} s {opened:8} {kilobytes // 1000:4} MB  {'taken' if code == 0 else code}"
          f"{'' if good else '  WRONG'}  {text.strip()[len(name) + 13:120]}", flush=True)
    for left in os.listdir(folder):
        os.remove(os.path.join(folder, left))
    return good


hostile = {name: lambda content=content: content for name, (content, _) in HOSTILE.items()} | large_files.HOSTILE
good = True
with tempfile.TemporaryDirectory() as place:
    folder = os.path.join(place, "work")
    os.mkdir(folder)
    for heading, files, honest in [("hostile", hostile, False), ("honest", honest_files.HONEST, True)]:
        print(f"{heading:30} {'file':>9} {'flat':>8} {'opened':>8} {'memory':>7}")
        for name, make in files.items():
            if wanted in name:
                good = measured(folder, name, make, honest) and good
sys.exit(0 if good else 1)
