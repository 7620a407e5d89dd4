#!/usr/bin/env python3
"""How long `./swardloop budget YARD` takes, against a bare hello-world of the same runtime, in one run.

    python3 bench/startup/measure.py [rounds] > bench/startup/results.txt

Every round runs each program once, in turn, so that whatever else the machine does hits all alike. Numbers are wall-clock
milliseconds from start to exit, output discarded. Needs the SDK and nothing but Python's own library.
"""
import datetime
import json
import os
import pathlib
import shutil
import statistics
import subprocess
import sys
import time

ROOT = pathlib.Path(__file__).resolve().parent.parent.parent
OUT = ROOT / ".build" / "bench"
YARD = str(ROOT / "examples" / "sorrel-corner.yard.json")
LIMIT = 2.5
SETTINGS = ["System.Runtime.TieredPGO", "System.GC.Concurrent", "System.Diagnostics.Tracing.EventSource.IsSupported"]


def publish(project, name, ahead):
    target = OUT / name
    subprocess.run(
        ["dotnet", "publish", str(ROOT / project), "-c", "Release", "--use-current-runtime", "--self-contained", "false",
         "-p:UseArtifactsOutput=true", "--artifacts-path", str(OUT / "artifacts"), "-nodeReuse:false", "-v", "quiet", "--nologo",
         f"-p:PublishReadyToRun={'true' if ahead else 'false'}", "-o", str(target)],
        check=True, stdin=subprocess.DEVNULL, stdout=sys.stderr)
    return target


def without(setting):
    """The published program with one start-up setting left at the runtime's default."""
    target = OUT / ("default-" + setting)
    shutil.rmtree(target, ignore_errors=True)
    shutil.copytree((ROOT / ".build" / "cli").resolve(), target)
    config = target / "swardloop.runtimeconfig.json"
    values = json.loads(config.read_text())
    del values["runtimeOptions"]["configProperties"][setting]
    config.write_text(json.dumps(values))
    return target


def main():
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 30
    script = str(ROOT / "swardloop")
    subprocess.run([script, "budget", YARD], check=True, stdout=subprocess.DEVNULL)
    hello = publish("bench/startup/Hello", "hello", ahead=True)
    plain = publish("src/Swardloop.Cli", "plain", ahead=False)
    budget = ["budget", YARD]
    programs = {
        "hello, world": ["dotnet", str(hello / "hello.dll")],
        "./swardloop budget": [script, *budget],
        "the same without the script": ["dotnet", str(ROOT / ".build/cli/swardloop.dll"), *budget],
        "  not compiled ahead": ["dotnet", str(plain / "swardloop.dll"), *budget],
        **{f"  {name} at its default": ["dotnet", str(without(name) / "swardloop.dll"), *budget] for name in SETTINGS},
    }
    times = {name: [] for name in programs}
    before = os.getloadavg()[0]
    for _ in range(rounds):
        for name, command in programs.items():
            start = time.perf_counter()
            subprocess.run(command, check=True, stdout=subprocess.DEVNULL, stdin=subprocess.DEVNULL)
            times[name].append(1000 * (time.perf_counter() - start))

    runtime = subprocess.run(["dotnet", "--version"], check=True, capture_output=True, text=True, cwd=ROOT).stdout.strip()
    print(f"Start-up, {datetime.date.today()}. SDK {runtime}, Linux x64, {os.cpu_count()} cores shared with other work "
          f"(load average {before:.1f} before, {os.getloadavg()[0]:.1f} after). {rounds} rounds in turn.")
    print()
    print(f"{'ms from start to exit':48} {'least':>7} {'median':>7} {'median / hello':>15}")
    base = statistics.median(times["hello, world"])
    for name, values in times.items():
        median = statistics.median(values)
        print(f"{name:48} {min(values):7.1f} {median:7.1f} {median / base:15.2f}")

    # Round by round: neighbours in time meet the same load.
    ratios = [mine / theirs for mine, theirs in zip(times["./swardloop budget"], times["hello, world"])]
    ratio = statistics.median(ratios)
    least = min(times["./swardloop budget"]) / min(times["hello, world"])
    print()
    print(f"./swardloop budget against hello, world: {ratio:.2f} times (median of the rounds' ratios), {least:.2f} times (least against least); "
          f"limit {LIMIT}: {'kept' if ratio <= LIMIT else 'NOT kept'}")


if __name__ == "__main__":
    main()
