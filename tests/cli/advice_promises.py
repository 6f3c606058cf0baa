"""What advise, family and compare promise at the command line.

    advice_promises.py FANWRIGHT EXAMPLES_FOLDER
"""
import json
import pathlib
import subprocess
import sys
import tempfile
import unittest

EXAMPLES = pathlib.Path(sys.argv.pop())
FANWRIGHT = sys.argv.pop()


def run(*arguments):
    return subprocess.run([FANWRIGHT, *map(str, arguments)], stdout=subprocess.PIPE, stderr=subprocess.PIPE, timeout=120,
                          check=False, stdin=subprocess.DEVNULL, text=True)


class Promises(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory(prefix="advice-")
        self.addCleanup(folder.cleanup)
        self.folder = pathlib.Path(folder.name)
        self.moth = EXAMPLES / "moth.ornament.json"

    def assert_refused(self, done):
        self.assertEqual(done.returncode, 2, done.stderr)
        self.assertEqual(done.stdout, "")
        self.assertEqual(len(done.stderr.splitlines()), 1, done.stderr)
        self.assertTrue(done.stderr.startswith("fanwright: ") and done.stderr.endswith(".\n"), done.stderr)


class Advise(Promises):
    def test_gives_ranges_with_reasons_for_every_size(self):
        done = run("advise", self.moth, "--json")
        self.assertEqual((done.returncode, done.stderr), (0, ""))
        sizes = json.loads(done.stdout)["sizes"]
        self.assertEqual([size["name"] for size in sizes], ["small", "large"])
        for size in sizes:
            for what in ("leaves", "rows", "grammage"):
                self.assertLessEqual(size[what]["low"], size[what]["usual"])
                self.assertLessEqual(size[what]["usual"], size[what]["high"])
            self.assertTrue(any(look["present"] for look in size["looks"]))
            for look in size["looks"]:
                self.assertGreater(look["holding_moment_Nmm"], 0)
                self.assertGreater(look["hands_on_h"], 0)
        self.assertEqual(done.stdout, run("advise", self.moth, "--json").stdout)

    def test_says_the_same_in_words(self):
        done = run("advise", self.moth, "--size", "large")
        self.assertEqual((done.returncode, done.stderr), (0, ""))
        for words in ("Leaves: ", "At least ", "At most ", "Glue rows: ", "Paper: ", "g/m2", "hub", "stack"):
            self.assertIn(words, done.stdout)
        self.assertNotIn("small", done.stdout.split("\n")[0])

    def test_refuses_what_it_cannot_read(self):
        self.assert_refused(run("advise", self.folder / "none.json"))
        self.assert_refused(run("advise", self.moth, "--size", "huge"))
        self.assert_refused(run("advise"))


if __name__ == "__main__":
    unittest.main()
