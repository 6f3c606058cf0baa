"""What fanwright droop promises: the paper from plain readings, a design file changed in its paper alone, one line for a
refusal and then nothing written.

    droop_promises.py FANWRIGHT ORCHARD

ORCHARD is the folder of our own designs.
"""
import json
import os
import pathlib
import stat
import subprocess
import sys
import tempfile
import unittest

ORCHARD = pathlib.Path(sys.argv.pop())
FANWRIGHT = sys.argv.pop()

READINGS = ["--grammage", "176", "--along", "200:67.8", "--across", "150:15deg", "--stack", "2.29"]


def run(*arguments, **options):
    options.setdefault("stdout", subprocess.PIPE)
    return subprocess.run([FANWRIGHT, "droop", *map(str, arguments)], stderr=subprocess.PIPE, timeout=60, check=False,
                          stdin=subprocess.DEVNULL, text=True, **options)


def answer(*arguments):
    done = run(*arguments, "--json")
    if done.returncode != 0 or done.stderr:
        raise AssertionError(done.stderr)
    return json.loads(done.stdout)


class Promises(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory(prefix="droop-")
        self.addCleanup(folder.cleanup)
        self.folder = pathlib.Path(folder.name)

    def design(self, text):
        file = self.folder / "design.ornament.json"
        file.write_text(text, encoding="utf-8")
        return file

    def assert_refused(self, done, words=""):
        self.assertEqual(done.returncode, 2, done.stderr)
        self.assertEqual(done.stdout, "")
        self.assertEqual(len(done.stderr.splitlines()), 1, done.stderr)
        self.assertTrue(done.stderr.startswith("fanwright: ") and done.stderr.endswith(".\n"), done.stderr)
        self.assertIn(words, done.stderr)

    def test_the_worked_examples(self):
        # Computed from the exact heavy elastica: 176 g/m2, 200 mm at 20 degrees (drop 67.8 mm) is 4.61 mN m, 150 mm at
        # 15 degrees 2.68 mN m. ISO 5628: E = 12 Sb / t^3 with t = 0.229 mm.
        paper = answer(*READINGS)
        self.assertAlmostEqual(paper["along"]["stiffness_mNm"], 4.61, delta=0.005)
        self.assertAlmostEqual(paper["across"]["stiffness_mNm"], 2.68, delta=0.005)
        self.assertAlmostEqual(paper["caliper_mm"], 0.229, delta=1e-9)
        self.assertAlmostEqual(paper["along"]["modulus_MPa"], 12 * 4.61 / 0.229 ** 3, delta=6)
        self.assertEqual(list(paper["paper"]), ["grammage", "caliper", "stiffness"])

    def test_answers_in_words(self):
        done = run(*READINGS)
        self.assertEqual((done.returncode, done.stderr), (0, ""))
        for word in ("along", "across", "about as usual", "0.229 mm", '"paper": { "grammage": 176, "caliper": 0.229,'):
            self.assertIn(word, done.stdout)
        self.assertIn("much stiffer than usual", run("--grammage", "80", "--along", "200:68").stdout)
        self.assertIn("much softer than usual", run("--grammage", "300", "--along", "200:150", "200:148").stdout)
        self.assertIn("thicker than usual", run("--grammage", "160", "--along", "200:68", "--stack", "2.6").stdout)

    def test_is_the_same_twice(self):
        self.assertEqual(run(*READINGS).stdout, run(*READINGS).stdout)

    def test_help_tells_how(self):
        done = run("--help")
        self.assertEqual((done.returncode, done.stderr), (0, ""))
        for words in ("How to:", "ruler", "table", "fanwright droop --grammage"):
            self.assertIn(words, done.stdout)

    def test_the_example_of_the_help_works(self):
        line = next(line for line in run("--help").stdout.splitlines() if line.strip().startswith("fanwright droop --gram"))
        self.assertEqual(run(*line.split()[2:]).returncode, 0)

    def test_inches_and_commas_mean_the_same(self):
        millimetres = answer("--grammage", "160", "--along", "203.2:50.8", "--stack", "2.032")
        for arguments in (["--along", "8:2", "--stack", "0.08", "--units", "in"],
                          ["--along", "8in:5,08cm", "--stack", "2,032mm"], ["--along", "20.32 cm:2in", "--stack", "0,08in"]):
            other = answer("--grammage", "160", *arguments)
            self.assertEqual(other["along"], millimetres["along"])
            self.assertEqual(other["caliper_mm"], millimetres["caliper_mm"])
        self.assertEqual(answer("--grammage", "160", "--along", "8:2", "--stack", "0.08", "--units",
                                "in")["paper"]["caliper"], 0.008)

    def test_the_weight_may_come_from_a_kitchen_scale(self):
        # ISO 216: A4 is 210 mm x 297 mm; at 80 g/m2 it weighs 4.990 g.
        for weigh in ("49.90:A4:10", "49.9:210x297:10", "49.9:29.7cmx21cm:10", "4.99:A4"):
            self.assertAlmostEqual(answer("--weigh", weigh, "--along", "120:30")["grammage_gsm"], 80.0, delta=0.05)

    def test_says_what_to_measure_again(self):
        def notes(*arguments):
            return "\n".join(answer("--grammage", "160", *arguments)["notes"])

        four = ["200:62", "200:64", "200:63", "200:62"]
        self.assertEqual(notes("--along", *four, "--across", "150:40", "150:41", "--stack", "1.8"), "")
        self.assertIn("turn the strip over", notes("--along", "200:68"))
        self.assertIn("curled", notes("--along", "200:68", "200:40"))
        self.assertIn("exchanged", notes("--along", "150:40", "--across", "200:68"))
        self.assertIn("not measured but estimated", notes("--across", "200:68"))
        self.assertIn("thickness was not measured", notes("--across", "200:68"))
        self.assertIn("thicker one", notes("--across", "150:40", "--stack", "0.36", "--sheets", "2"))
        self.assertIn("is best read with about", notes("--across", "60:2"))
        self.assertIn("times the usual", notes("--across", "200:45"))

    def test_more_readings_are_worth_more(self):
        one = answer("--grammage", "160", "--along", "200:62")["along"]
        four = answer("--grammage", "160", "--along", *["200:62"] * 4)["along"]
        self.assertEqual(one["stiffness_mNm"], four["stiffness_mNm"])
        self.assertLess(four["uncertainty"], one["uncertainty"])
        self.assertEqual(len(four["readings"]), 4)

    def test_only_the_paper_of_the_file_changes(self):
        for original in sorted(ORCHARD.glob("*.ornament.json")):
            text = original.read_text(encoding="utf-8")
            file = self.design(text)
            paper = answer(*READINGS, "--paper-into", file)["paper"]
            before, after = json.loads(text), json.loads(file.read_text(encoding="utf-8"))
            self.assertEqual({**before["paper"], **paper}, after["paper"])
            self.assertEqual(list(before), list(after))
            self.assertEqual({**before, "paper": None}, {**after, "paper": None})
            changed = [pair for pair in zip(text.splitlines(), file.read_text(encoding="utf-8").splitlines(), strict=True)
                       if pair[0] != pair[1]]
            self.assertEqual(len(changed), 1, original)
            again = file.read_bytes()
            self.assertEqual(run(*READINGS, "--paper-into", file).returncode, 0)
            self.assertEqual(file.read_bytes(), again)

    def test_the_paper_may_go_into_one_size(self):
        file = self.design((ORCHARD / "apple.ornament.json").read_text(encoding="utf-8"))
        before = json.loads(file.read_text(encoding="utf-8"))
        for index, name in enumerate(["small", "medium", "large"]):
            paper = answer(*READINGS, "--paper-into", file, "--size", name)["paper"]
            after = json.loads(file.read_text(encoding="utf-8"))
            before["sizes"][index]["paper"] = paper
            self.assertEqual(before, after)
        self.assert_refused(run(*READINGS, "--paper-into", file, "--size", "huge"), '"small", "medium", "large"')

    def test_a_copy_leaves_the_file_alone(self):
        text = (ORCHARD / "pear.ornament.json").read_text(encoding="utf-8")
        file, copy = self.design(text), self.folder / "copy.ornament.json"
        self.assertEqual(run(*READINGS, "--paper-into", file, "--out", copy).returncode, 0)
        self.assertEqual(file.read_text(encoding="utf-8"), text)
        self.assertEqual(json.loads(copy.read_text(encoding="utf-8"))["paper"]["caliper"], 0.229)
        self.assertEqual(sorted(entry.name for entry in self.folder.iterdir()), [copy.name, file.name])

    def test_odd_but_right_files(self):
        shape = '"silhouette": {"shows": "flat", "path": "M 0 0 H 40 V 120 H 0"}'
        inches = shape.replace("40 V 120", "2 V 5")
        for text, place in ((f'{{"fanwright":1,{shape}}}', "paper"),
                            (f'{{\t"fanwright": 1, {shape},\r\n"p\\u0061per"\n:{{"modulus":\t{{"along":9,"across":9}} }} }}'
                             .replace(":9", ":900"), "paper"),
                            (f'{{"title": "a \\" }} {{ [", "fanwright": 1, {shape}, "paper": {{ }}, "fans": [ ]}}', "paper"),
                            (f'{{"fanwright": 1, "units": "in", {inches}, "rows": {{"count": 6}}}}', "paper")):
            file = self.design(text)
            paper = answer(*READINGS, "--paper-into", file)["paper"]
            after = json.loads(file.read_text(encoding="utf-8"))
            self.assertEqual(after[place], paper)
            self.assertAlmostEqual(after[place]["caliper"], 0.229 / 25.4 if "units" in after else 0.229, delta=1e-6)
            before = json.loads(text)
            self.assertEqual({**before, "paper": None}, {**after, "paper": None})

    def test_names_the_sizes_that_keep_their_paper(self):
        file = self.design((ORCHARD / "apple.ornament.json").read_text(encoding="utf-8"))
        done = run(*READINGS, "--paper-into", file)
        self.assertIn('Size "large" keeps', done.stdout)
        self.assertNotIn('Size "small"', done.stdout)

    def test_a_link_and_the_permissions_stay(self):
        file = self.design((ORCHARD / "pear.ornament.json").read_text(encoding="utf-8"))
        file.chmod(0o600)
        link = self.folder / "link.ornament.json"
        link.symlink_to(file.name)
        self.assertEqual(run(*READINGS, "--paper-into", link).returncode, 0)
        self.assertTrue(link.is_symlink())
        self.assertIn("0.229", file.read_text(encoding="utf-8"))
        self.assertEqual(stat.S_IMODE(file.stat().st_mode), 0o600)

    def test_bad_input_writes_nothing(self):
        text = (ORCHARD / "pear.ornament.json").read_text(encoding="utf-8")
        file = self.design(text)
        into = ["--paper-into", file]
        pipe = self.folder / "pipe"
        os.mkfifo(pipe)
        for words, arguments in {
                "weight of the paper is missing": ["--along", "200:68"],
                "Both --grammage and --weigh": ["--grammage", "160", "--weigh", "50:A4:10", "--along", "200:68"],
                "No reading": ["--grammage", "160"],
                "not 20 to 600": ["--grammage", "1600", "--along", "200:68"],
                "is not a number": ["--grammage", "heavy", "--along", "200:68"],
                "is not OVERHANG:DROP": ["--grammage", "160", "--along", "200"],
                "is not a length": ["--grammage", "160", "--along", "200:68ft"],
                "reading 2": ["--grammage", "160", "--along", "200:68", "200:220"],
                "too little": ["--grammage", "160", "--along", "200:1"],
                "so steep": ["--grammage", "160", "--along", "200:199"],
                "does not hang below": ["--grammage", "160", "--along", "200:-3"],
                "four are enough": ["--grammage", "160", "--along", *["200:68"] * 13],
                "make one sheet": ["--grammage", "160", "--along", "200:68", "--stack", "210"],
                "which no paper": ["--grammage", "160", "--along", "200:10", "--stack", "0.5"],
                "whole number": ["--grammage", "160", "--along", "200:68", "--stack", "2", "--sheets", "1.5"],
                "how many sheets": ["--grammage", "160", "--along", "200:68", "--sheets", "20"],
                "MASS:SHEET": ["--weigh", "50", "--along", "200:68"],
                "not known": ["--weigh", "50:A9", "--along", "200:68"],
                "20 to 2000 mm each way": ["--weigh", "50:0x0", "--along", "200:68"],
                "A ruler is read": ["--grammage", "160", "--along", "200:68", "--ruler", "0"],
                "units": ["--grammage", "160", "--along", "200:68", "--units", "ft"],
                "no size": [*READINGS, "--size", "huge"],
                "not a file": [*READINGS, "--out", pipe],
                "cannot be written": [*READINGS, "--out", self.folder / "missing" / "copy.json"],
        }.items():
            with self.subTest(words):
                self.assert_refused(run(*arguments, *into), words)
        self.assert_refused(run(*READINGS, "--out", self.folder / "copy.json"), "--paper-into")
        self.assert_refused(run(*READINGS, "--paper-into", self.folder / "missing.json"), "no such file")
        self.assertEqual(file.read_text(encoding="utf-8"), text)
        self.assertEqual(sorted(entry.name for entry in self.folder.iterdir()), [file.name, "pipe"])

    def test_a_file_that_is_no_design_stays(self):
        for text in ("", "{", "[]", '{"fanwright": 2}'):
            file = self.design(text)
            self.assert_refused(run(*READINGS, "--paper-into", file))
            self.assertEqual(file.read_text(encoding="utf-8"), text)

    def test_a_full_disk_is_noticed(self):
        with open("/dev/full", "w", encoding="utf-8") as full:
            done = run(*READINGS, stdout=full)
        self.assertEqual(done.returncode, 2)


if __name__ == "__main__":
    unittest.main()
