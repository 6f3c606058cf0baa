"""fanwright new meets hostile and broken files: one sentence, at most 500 MB, nothing written. Seconds are printed."""
import os
import sys
import tempfile

from hostile_files import HOSTILE, MOST_KILOBYTES, run, written

FANWRIGHT = os.path.abspath(sys.argv[1])

with tempfile.TemporaryDirectory() as place:
    folder = os.path.join(place, "work")
    os.mkdir(folder)
    written(folder, {name: content for name, (content, _) in HOSTILE.items()})
    before = sorted(os.listdir(folder))
    wrong = []
    for name, (_, sentence) in HOSTILE.items():
        status, text, seconds, kilobytes, processor = run(FANWRIGHT, folder, name)
        print(f"{name:24} {seconds:6.2f} s ({processor:.2f} s of processor) {kilobytes // 1000:4} MB  {text.strip()[:150]}")
        if not (os.WIFEXITED(status) and os.WEXITSTATUS(status) == 2 and text.count("\n") == 1 and sentence in text
                and kilobytes <= MOST_KILOBYTES):
            wrong.append(name)
    assert not wrong, wrong
    assert sorted(os.listdir(folder)) == before, "something was written"
