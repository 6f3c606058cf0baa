"""How soon the studio answers, measured over its own addresses: request to estimate while a point of the outline is
dragged, and the last request to the settled form. Prints milliseconds; load from elsewhere shows in the slow ones.

    python3 bench/studio/answer_times.py build/release/src/cli/fanwright examples/orchard [repeats]
"""

import json
import os
import re
import shutil
import sys
import tempfile
import time

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "../../tests/studio"))
from talk import Events, Studio

program, examples = sys.argv[1], sys.argv[2]
repeats = int(sys.argv[3]) if len(sys.argv) > 3 else 5
steps = 60  # of a drag, one each 16 ms


def cpu_seconds(process):
    with open(f"/proc/{process.pid}/stat") as stat:
        fields = stat.read().rsplit(")", 1)[1].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def summary(name, seconds):
    times = sorted(1e3 * s for s in seconds)
    at = lambda share: times[min(len(times) - 1, int(share * len(times)))]
    print(f"  {name:<34} {at(0.5):8.1f} {at(0.95):8.1f} {times[-1]:8.1f}   ({len(times)})")


def dragged(text, share):
    """The outline with its widest anchor moved out, by at most 6 % of its x."""
    design = json.loads(text)
    path = design["silhouette"]["path"]
    numbers = [(float(m[0]), m.span()) for m in re.finditer(r"-?\d+(\.\d+)?", path)]
    x, (start, end) = max(numbers[::2])
    design["silhouette"]["path"] = path[:start] + f"{x * (1 + 0.06 * share):.3f}" + path[end:]
    return json.dumps(design, indent=2)


def settled(events, revision):
    return events.wait(lambda e: e[0] == "form" and e[1]["revision"] == revision and e[1]["stage"] == "settled", 120)


def measure(file, size, shows):
    with tempfile.TemporaryDirectory() as folder, open(os.path.join(examples, file)) as source:
        text = source.read().replace('"shows": "flat"', f'"shows": "{shows}"')
        with open(os.path.join(folder, file), "w") as copy:
            copy.write(text)
        with Studio(program, folder, file) as studio:
            design = studio.ask("GET", "/api/bench")[1]["first"]
            events = Events(studio, design)
            start = time.monotonic()
            studio.shape(design, 1, text, size)
            first = time.monotonic() - start
            form = settled(events, 1)
            print(f"{file}, {size}, drawn {shows}: first form {1e3 * first:.0f} ms, settled {1e3 * (form[2] - start):.0f} ms")
            estimates, settles, revision = [], [], 1
            before = cpu_seconds(studio.process)
            for _ in range(repeats):
                for step in range(steps):
                    revision += 1
                    moved = dragged(text, (step + 1) / steps)
                    sent = time.monotonic()
                    studio.shape(design, revision, moved, size)
                    estimates.append(time.monotonic() - sent)
                    time.sleep(max(0, 0.016 - estimates[-1]))
                form = settled(events, revision)
                settles.append(form[2] - sent)
            print(f"  milliseconds                         median   95 %      most")
            summary("request to estimate", estimates)
            summary("last request to settled form", settles)
            used = cpu_seconds(studio.process) - before
            print(f"  {'CPU, for each step of a drag':<34} {1e3 * used / (repeats * steps):8.1f}")
            events.close()


for shown in ("flat", "opened"):
    measure("pear.ornament.json", "medium", shown)
