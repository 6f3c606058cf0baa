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
        # Small enough to be solved in a blink.
        self.barrel = self.folder / "barrel.ornament.json"
        self.barrel.write_text(json.dumps({
            "fanwright": 1, "title": "Barrel",
            "silhouette": {"path": "M 0 2 L 26 0 C 34 16 34 44 26 60 L 0 60", "shows": "flat"}, "leaves": 30,
            "rows": {"count": 5, "width": 3, "spine_gap": 3, "edge_gap": 3}, "paper": {"grammage": 120},
            "sizes": [{"name": "small", "height": 60}, {"name": "large", "height": 80}]}, indent=1), encoding="utf-8")

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
        self.assertEqual(run("advise", self.barrel, "--json").stdout, run("advise", self.barrel, "--json").stdout)

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


class Family(Promises):
    def test_writes_a_copy_whose_sizes_open(self):
        copy = self.folder / "moth.ornament.json"
        done = run("family", self.moth, "--heights", "200,110", "--out", copy)
        self.assertEqual((done.returncode, done.stderr), (0, ""))
        for words in ("leaves", "rows", "paper", "opened", "--view family"):
            self.assertIn(words, done.stdout)
        written = json.loads(copy.read_text(encoding="utf-8"))
        self.assertEqual([size["name"] for size in written["sizes"]], ["small", "large"])
        original = json.loads(self.moth.read_text(encoding="utf-8"))
        self.assertEqual({**original, "sizes": []}, {**written, "sizes": []})
        opened = run("open", copy, "--json")
        self.assertEqual((opened.returncode, opened.stderr), (0, ""))
        proposals = json.loads(run("family", self.moth, "--heights", "200,110", "--json").stdout)
        self.assertEqual(proposals["sizes"], written["sizes"])
        for size, proposal in zip(json.loads(opened.stdout)["sizes"], proposals["proposals"]):
            self.assertEqual(size["leaves"], proposal["leaves"])
            # Lengths in the file are rounded to 0.01 mm.
            self.assertAlmostEqual(size["opened"]["height_mm"], proposal["height_mm"], delta=0.05)
            self.assertAlmostEqual(size["opened"]["diameter_mm"], proposal["diameter_mm"], delta=0.05)

    def test_a_file_in_inches_stays_in_inches(self):
        file, copy = self.folder / "a.json", self.folder / "b.json"
        file.write_text(json.dumps({
            "fanwright": 1, "units": "in", "silhouette": {"path": "M 0 0 H 1.6 V 4.8 H 0", "shows": "flat"},
            "rows": {"count": 9, "width": 0.12, "spine_gap": 0.12, "edge_gap": 0.12}, "sheet": {"size": "letter"}}),
            encoding="utf-8")
        done = run("family", file, "--heights", "4,8,12", "--units", "in", "--out", copy)
        self.assertEqual((done.returncode, done.stderr), (0, ""))
        sizes = json.loads(copy.read_text(encoding="utf-8"))["sizes"]
        self.assertEqual([size["height"] for size in sizes], [4, 8, 12])
        self.assertEqual(sizes[2]["sheet"]["size"], "legal")
        self.assertEqual(run("open", copy).returncode, 0)

    def test_refuses_what_no_family_can_be(self):
        for heights in ("5", "100,100", "a,b", "3000", ",".join(str(100 + k) for k in range(13))):
            self.assert_refused(run("family", self.moth, "--heights", heights))
        self.assert_refused(run("family", self.moth))
        self.assert_refused(run("family", self.moth, "--heights", "100", "--size", "huge"))
        self.assert_refused(run("family", self.moth, "--heights", "100", "--out", self.folder / "no" / "such.json"))


class Compare(Promises):
    def predicted(self):
        opened = json.loads(run("open", self.barrel, "--size", "small", "--json").stdout)["sizes"][0]["opened"]
        return opened["height_mm"], opened["diameter_mm"]

    def test_a_piece_within_the_spread_is_as_predicted(self):
        height, diameter = self.predicted()
        done = run("compare", self.barrel, "--size", "small", "--height", height + 0.2, "--diameter", diameter - 0.2)
        self.assertEqual((done.returncode, done.stderr), (0, ""))
        self.assertIn("As predicted", done.stdout)

    def test_a_piece_fitted_to_the_page_is_explained_and_corrected(self):
        height, diameter = self.predicted()
        share = 279.4 / 297  # an A4 page on letter paper
        copy = self.folder / "copy.ornament.json"
        arguments = ["compare", self.barrel, "--size", "small", "--height", share * height, "--diameter", share * diameter,
                     "--want-height", 65, "--out", copy]
        done = run(*arguments, "--json")
        self.assertEqual((done.returncode, done.stderr), (0, ""))
        report = json.loads(done.stdout)
        self.assertFalse(report["as_predicted"])
        self.assertEqual(report["explanations"][0]["input"], "fitted to page")
        self.assertAlmostEqual(report["corrected"]["expected_height_mm"], 65, delta=0.1)
        sizes = json.loads(copy.read_text(encoding="utf-8"))["sizes"]
        # The leaf of 60 mm opens into `height`; without weight the rest goes with the scale but for the paper's thickness.
        self.assertAlmostEqual(sizes[0]["height"], 65 / share * 60 / height, delta=0.1)
        self.assertEqual(sizes[1]["height"], 80)
        self.assertEqual(copy.read_text(encoding="utf-8").count("\n"), self.barrel.read_text(encoding="utf-8").count("\n"))
        words = run(*arguments).stdout
        for part in ("fit to page", "To find out", "mend that first"):
            self.assertIn(part, words)

    def test_readings_may_be_in_inches(self):
        height, diameter = self.predicted()
        done = run("compare", self.barrel, "--size", "small", "--height", height / 25.4, "--diameter", diameter / 25.4,
                   "--units", "in")
        self.assertEqual((done.returncode, done.stderr), (0, ""))
        self.assertIn(" in,", done.stdout)

    def test_refuses_readings_that_cannot_be(self):
        for height, diameter in ((5.1, 2.2), (0, 55), (-3, 55), (1000, 55), ("high", 55), ("nan", 55)):
            self.assert_refused(run("compare", self.moth, "--size", "small", "--height", height, "--diameter", diameter))
        for option in ("--ruler", "--want-height", "--want-diameter"):
            done = run("compare", self.moth, "--size", "small", "--height", 130, "--diameter", 55, option, "nan")
            self.assert_refused(done)
        done = run("compare", self.moth, "--size", "small", "--height", "nan", "--diameter", 55)
        self.assertIn("--height: nan is not a number from 0.1 to 10000", done.stderr)
        self.assert_refused(run("compare", self.moth, "--height", 100))
        self.assert_refused(run("compare", self.moth, "--size", "small", "--height", 130, "--diameter", 55,
                                "--want-height", 100, "--want-diameter", 50))


if __name__ == "__main__":
    unittest.main()
