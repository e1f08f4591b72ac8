#!/usr/bin/env python3
"""Changes one operator, bound or rounding at a time in the sources that hold the
tested bounds, and shows that a test fails for each.

    make mutants                all of them, in the build folder: half an hour and more
    make mutants MUTANTS=40     so many, always the same ones

A mutant that no test notices is a survivor. It is either a hole in the tests or
the same program in other words; the second kind stands in tests/mutants.allowed
with the reason. Any other ends this with 1, and so does, in a run of all, an
entry that no longer survives.

Each mutant is one object, without optimisation, linked into the tests in place
of the library's own. The quick tests come first; the first that fails, crashes
or takes too long has killed it. What passes them all is tried again with the
address sanitizer, as the whole suite is.
"""
import argparse
import concurrent.futures
import hashlib
import os
import re
import shlex
import shutil
import subprocess
import sys
import tempfile
import threading
import time

UNDEFINED = ["-fsanitize=undefined", "-fno-sanitize-recover=all"]
ADDRESS = ["-fsanitize=address,undefined", "-fno-sanitize-recover=all"]
SLOW = ("cli", "property")

# -- Mutants --------------------------------------------------------------------

RELATION = {
    "<": ("<=", ">="), "<=": ("<", ">"), ">": (">=", "<="), ">=": (">", "<"),
    "==": ("!=",), "!=": ("==",), "&&": ("||",), "||": ("&&",),
}
WORD = {
    "floor": "ceil", "floor_near": "ceil_near", "POTTLE_AT_LEAST": "POTTLE_AT_MOST",
    "true": "false", "fmin": "fmax", "low": "high", "smallest": "largest",
}
WORD.update({b: a for a, b in list(WORD.items())})
TOKEN = re.compile(
    r"(?P<relation>(?<![-<>=!+*/%&|^])(?:<=|>=|==|!=|<|>)(?![<>=])|&&|\|\|)"
    r"|(?P<not>!(?!=))"
    r"|(?P<number>(?<![\w.])(?:\d+\.\d*(?:[eE][-+]?\d+)?|\d+[eE][-+]?\d+|\d+)(?![\w.]))"
    r"|(?P<word>\b(?:" + "|".join(sorted(WORD, key=len, reverse=True)) + r")\b)")
# how large a text may be is no bound of a recipe; zeros that only begin; how far
# below or above zero a comparison for sorting is
BUFFER = re.compile(r"\bchar \w+\[\d+\][^;={]*|\{ 0(?:, 0)* \}|^ +(?:size_t|double) \w+ = 0;$|\? -?1 : -?1\b|\? -1 :|\? 1 : 0\b"
                    r"|sizeof [\w.>-]+\[\d+\]"
                    # of a kitchen measure: from which amount on it is used is taste, within 1 %; a step of no unit
                    r"|\b\d+\.\d+ \* (?:CUP|TBSP|TSP)_ML|\b\d+\.\d+ \* (?:LB|OZ)_G|(?<=, )0(?=, \d)", re.M)


def blank(text):
    """The text with comments, strings and includes as spaces, as long as it was."""
    pattern = re.compile(r'/\*.*?\*/|//[^\n]*|"(?:\\.|[^"\\\n])*"|\'(?:\\.|[^\'\\\n])*\'|^#include[^\n]*', re.S | re.M)
    text = pattern.sub(lambda m: re.sub(r"[^\n]", " ", m.group()), text)
    return BUFFER.sub(lambda m: " " * len(m.group()), text)


def numbers(word):
    if re.fullmatch(r"\d+", word):
        return [str(int(word) + 1)] + ([str(int(word) - 1)] if int(word) > 0 else [])
    value = float(word)
    if value == 0:
        return ["1.0"]
    # a tolerance: none, and one that a person would see
    if value < 1e-4:
        return ["0.0", "1e-3"]
    return [f"({word} * 1.01)", f"({word} / 1.01)"]


class Mutant:
    def __init__(self, path, function, text, start, old, new):
        self.path, self.function, self.old, self.new = path, function, old, new
        self.text = text[:start] + new + text[start + len(old):]
        begin = text.rfind("\n", 0, start) + 1
        end = text.find("\n", start)
        self.line = text.count("\n", 0, start) + 1
        before = text[begin:end]
        at = start - begin
        squeeze = lambda s: " ".join(s.split())
        self.key = (path, function, squeeze(before), squeeze(before[:at] + new + before[at + len(old):]))

    def __str__(self):
        return "%s %s\n- %s\n+ %s" % self.key


def mutants_of(path, text):
    code = blank(text)
    heads = [(m.start(), m.group(1)) for m in re.finditer(r"^([a-z_]\w*)\(", code, re.M)]
    for m in TOKEN.finditer(code):
        old = m.group()
        if m.group("relation"):
            made = RELATION[old]
        elif m.group("not"):
            made = ("",)
        elif m.group("number"):
            made = numbers(old)
        else:
            made = (WORD[old],)
        if old == "0" and re.search(r"\) [!=]= $", code[:m.start()]):
            continue # of strcmp only the sign is told
        function = next((name for at, name in reversed(heads) if at <= m.start()), "-")
        # outside of any function
        if function != "-" and "\n}" in code[max(at for at, _ in heads if at <= m.start()):m.start()]:
            function = "-"
        for new in made:
            yield Mutant(path, function, text, m.start(), old, new)


# -- Accepted survivors ---------------------------------------------------------

def read_allowed(path):
    """Entries of four parts: FILE FUNCTION, - before, + after, and the reason, indented."""
    allowed, head, before, after = {}, None, None, None
    for number, line in enumerate(open(path, encoding="utf-8"), 1):
        line = line.rstrip("\n")
        if not line or line.startswith("#"):
            continue
        if line.startswith("- "):
            before, after = " ".join(line[2:].split()), None
        elif line.startswith("+ "):
            after = " ".join(line[2:].split())
            allowed[(head[0], head[1], before, after)] = ""
        elif line.startswith("    "):
            for key in allowed:
                if key[:2] == tuple(head) and not allowed[key]:
                    allowed[key] = line.strip()
        elif len(line.split()) == 2:
            head = line.split()
        else:
            sys.exit(f"{path}:{number}: not understood")
    for key, reason in allowed.items():
        if not reason:
            sys.exit(f"{path}: no reason for {' '.join(key[:2])}: {key[3]}")
    return allowed


# -- Building and running -------------------------------------------------------

class Shop:
    """A folder in which one mutant at a time is built and tried."""

    limits, lock = {}, threading.Lock()

    def __init__(self, options, folder):
        self.options, self.folder = options, folder
        for part in ("cli", "tests"):
            os.makedirs(os.path.join(folder, part))
        self.environment = dict(
            os.environ, srcdir=options.srcdir, builddir=folder, CK_FORK="no", LC_ALL="C",
            ASAN_OPTIONS="detect_leaks=0:quarantine_size_mb=8:hard_rss_limit_mb=1500", UPDATE="")

    def run(self, command, limit=None, **more):
        """Exit status; None when it took too long."""
        process = subprocess.Popen(command, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL,
                                   stderr=subprocess.DEVNULL, start_new_session=True, **more)
        try:
            return process.wait(limit)
        except subprocess.TimeoutExpired:
            os.killpg(process.pid, 9)
            process.wait()
            return None

    def compile(self, path, text, sanitize=UNDEFINED):
        self.sanitize = sanitize
        source = os.path.join(self.folder, os.path.basename(path))
        with open(source, "w", encoding="utf-8") as f:
            f.write(text)
        self.object = source[:-2] + ".o"
        own = os.path.join(self.options.srcdir, os.path.dirname(path))
        return self.run(self.options.compile + ["-I" + own, "-O0", "-g0", "-w"] + sanitize +
                        ["-c", "-o", self.object, source]) == 0

    def passes(self, test, limit=None):
        """None for passed, else what happened."""
        program = os.path.join(self.folder, "cli/pottle" if test == "cli" else "tests/" + test)
        if self.run(self.options.link + self.sanitize + ["-o", program] + self.options.objects[test] +
                    [self.object, "lib/.libs/libcore.a"] + self.options.libs) != 0:
            raise SystemExit(f"{test} is not linked")
        command = [program]
        if test == "cli":
            command = ["sh", os.path.join(self.options.srcdir, "tests/run-cli.sh")]
        status = self.run(command, limit, env=self.environment)
        return None if status == 0 else "too long" if status is None else f"exit status {status}"

    def order(self, path):
        """The test of the file itself first; then those that are of more than one file."""
        own = os.path.basename(path)[:-2]
        files = [os.path.basename(p)[:-2] for p in self.options.sources]
        return [t for t in self.options.objects if t == own] + \
            [t for t in self.options.objects if t != own and (t not in files or t == "scale")]

    def limit(self, test):
        """How long a test may take: several times what the source itself does."""
        with self.lock:
            if (test, self.sanitize[0]) not in self.limits:
                path = self.options.sources[0]
                with open(os.path.join(self.options.srcdir, path), encoding="utf-8") as f:
                    text = f.read()
                sane = Shop(self.options, tempfile.mkdtemp(dir=self.folder))
                start = time.monotonic()
                what = sane.passes(test) if sane.compile(path, text, self.sanitize) else "not built"
                if what is not None:
                    raise SystemExit(f"{test} fails without any mutant: {what}")
                self.limits[test, self.sanitize[0]] = 10 + 5 * (time.monotonic() - start)
            return self.limits[test, self.sanitize[0]]


def try_one(shop, mutant):
    if not shop.compile(mutant.path, mutant.text):
        return "not built"
    tests = shop.order(mutant.path)
    for test in tests:
        if shop.passes(test, shop.limit(test)) is not None:
            return test
    if not shop.compile(mutant.path, mutant.text, ADDRESS):
        return "not built"
    for test in tests:
        if test not in SLOW and shop.passes(test, shop.limit(test)) is not None:
            return test + " with the address sanitizer"
    return None


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--srcdir", required=True)
    parser.add_argument("--compile", required=True, type=shlex.split)
    parser.add_argument("--link", required=True, type=shlex.split)
    parser.add_argument("--libs", required=True, type=shlex.split)
    parser.add_argument("--test", action="append", metavar="NAME=OBJECTS")
    parser.add_argument("--sample", type=int, default=0)
    parser.add_argument("--jobs", type=int, default=2)
    parser.add_argument("--only", default="", help="a part of a file name")
    parser.add_argument("--quick", action="store_true", help="leave out the slow tests")
    parser.add_argument("--retry", default="", help="only the survivors that an earlier run printed in this file")
    parser.add_argument("sources", nargs="+")
    options = parser.parse_args()
    options.srcdir = os.path.abspath(options.srcdir)
    options.objects = {t.split("=", 1)[0]: t.split("=", 1)[1].split() for t in options.test}

    allowed = read_allowed(os.path.join(options.srcdir, "tests/mutants.allowed"))
    mutants, kept = [], []
    for path in options.sources:
        with open(os.path.join(options.srcdir, path), encoding="utf-8") as f:
            text = f.read()
        mutants += mutants_of(path, text)
    known = {m.key for m in mutants}
    whole = not (options.sample or options.only or options.retry or options.quick)
    if options.quick:
        options.objects = {t: o for t, o in options.objects.items() if t not in SLOW}
    if options.only:
        mutants = [m for m in mutants if options.only in m.path]
    if options.retry:
        with open(options.retry, encoding="utf-8") as f:
            text = f.read()
        mutants = [m for m in mutants if str(m) in text]
    kept = [m for m in mutants if m.key in allowed]
    if not whole:
        mutants = [m for m in mutants if m.key not in allowed]
    if options.sample and options.sample < len(mutants):
        # by their text: one more entry or edited line leaves the others where they are
        mutants.sort(key=lambda m: hashlib.sha256(repr(m.key).encode()).digest())
        mutants = mutants[:options.sample]

    work = tempfile.mkdtemp(prefix="mutants.", dir=".")
    work = os.path.abspath(work)
    bad = 0
    try:
        shops = [Shop(options, os.path.join(work, str(i))) for i in range(options.jobs)]
        free, results = list(shops), {}

        def task(mutant):
            shop = free.pop()
            try:
                return mutant, try_one(shop, mutant)
            finally:
                free.append(shop)

        with concurrent.futures.ThreadPoolExecutor(options.jobs) as pool:
            for mutant, killer in pool.map(task, mutants):
                results.setdefault(mutant.path, []).append((mutant, killer))
                if killer is None and mutant.key not in allowed:
                    bad += 1
                    print(f"survives, line {mutant.line}:\n{mutant}\n", flush=True)
                if killer is not None and mutant.key in allowed:
                    bad += 1
                    print(f"killed by {killer}, yet in mutants.allowed:\n{mutant}\n", flush=True)
        for key in allowed:
            if key not in known:
                bad += 1
                print("in mutants.allowed, but there is no such mutant:\n%s %s\n- %s\n+ %s\n" % key)
        total = [0, 0, 0]
        for path, tried in sorted(results.items()):
            built = [(m, k) for m, k in tried if k != "not built"]
            killed = sum(k is not None for _, k in built)
            accepted = sum(k is None and m.key in allowed for m, k in built)
            print(f"{path}: {len(built)} mutants, {killed} killed, {accepted} accepted")
            total = [total[0] + len(built), total[1] + killed, total[2] + accepted]
        by = {}
        for tried in results.values():
            for _, killer in tried:
                by[killer] = by.get(killer, 0) + 1
        print("killed by: " + ", ".join(f"{k} {n}" for k, n in sorted(by.items(), key=lambda x: str(x[0]))
                                        if k not in (None, "not built")))
        print(f"all: {total[0]} mutants, {total[1]} killed, {total[2]} accepted, "
              f"{total[0] - total[1] - total[2]} survive" + ("" if whole else f"; {len(kept)} accepted ones not tried"))
    finally:
        shutil.rmtree(work, ignore_errors=True)
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
