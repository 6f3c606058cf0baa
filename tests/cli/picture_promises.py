"""What `fanwright picture` promises: the same bytes for a seed, one line for a refusal, a whole picture or none.

    picture_promises.py FANWRIGHT DESIGN
"""
import pathlib
import signal
import subprocess
import sys
import tempfile
import time
import unittest

DESIGN = sys.argv.pop()
FANWRIGHT = sys.argv.pop()


def command(out, *options):
    return [FANWRIGHT, "picture", DESIGN, "--out", str(out), *options]


def run(out, *options):
    return subprocess.run(command(out, *options), stdout=subprocess.PIPE, stderr=subprocess.PIPE, timeout=120,
                          check=False, stdin=subprocess.DEVNULL, text=True)


class PicturePromises(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory(prefix="picture-")
        self.addCleanup(folder.cleanup)
        self.folder = pathlib.Path(folder.name)

    def draw(self, name, *options):
        done = run(self.folder / name, "--size", "small", "--quality", "preview", "--pixels", "96", *options)
        self.assertEqual((done.returncode, done.stderr), (0, ""))
        return (self.folder / name).read_bytes()

    def test_a_seed_gives_the_same_bytes(self):
        self.assertEqual(self.draw("a.png", "--seed", "3"), self.draw("b.png", "--seed", "3"))
        self.assertNotEqual(self.draw("a.png", "--seed", "3"), self.draw("b.png", "--seed", "4"))

    def test_refusals_are_one_line_and_leave_nothing(self):
        for name, options in (("a.jpg", []), ("a.png", ["--paper", "none such"]), ("a.png", ["--view", "below"]),
                              ("a.png", ["--size", "none"]), ("a.png", ["--pixels", "5"]), ("no/a.png", ["--pixels", "16"])):
            done = run(self.folder / name, *options)
            self.assertEqual(done.returncode, 2, options)
            self.assertEqual(len(done.stderr.splitlines()), 1, done.stderr)
            self.assertTrue(done.stderr.startswith("fanwright: ") and done.stderr.endswith(".\n"), done.stderr)
            self.assertEqual(list(self.folder.iterdir()), [])

    def test_an_interrupt_leaves_the_old_picture_whole(self):
        out = self.folder / "a.png"
        out.write_text("old")
        for wait in (0.3, 2.0):
            with subprocess.Popen(command(out, "--pixels", "2400"), stdout=subprocess.DEVNULL, stderr=subprocess.PIPE,
                                  text=True) as process:
                time.sleep(wait)
                process.send_signal(signal.SIGINT)
                _, complaint = process.communicate(timeout=60)
            self.assertEqual(process.returncode, 2, complaint)
            self.assertIn("Stopped before the picture was complete", complaint)
            self.assertEqual([(path.name, path.read_text()) for path in self.folder.iterdir()], [("a.png", "old")])

    def test_an_opening_is_a_moving_png_or_a_folder_of_frames(self):
        self.assertIn(b"acTL", self.draw("a.png", "--view", "opening", "--frames", "2"))
        done = run(self.folder / "frames", "--size", "small", "--quality", "preview", "--pixels", "48", "--view", "opening",
                   "--frames", "2")
        self.assertEqual(done.returncode, 0, done.stderr)
        self.assertEqual(sorted(path.name for path in (self.folder / "frames").iterdir()),
                         ["frame-001.png", "frame-002.png"])


if __name__ == "__main__":
    unittest.main()
