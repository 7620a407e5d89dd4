# Sourced by the scripts that write results, so that each result says on what and on which commit it ran.
# Results, and what was built, do not count as changes.
# shellcheck shell=bash
repository=$(cd "$(dirname "$(readlink -f "${BASH_SOURCE[0]}")")/.." && pwd)

# The commit, with a mark where sources differ from it.
code() {
    local changed
    changed=$(git -C "$repository" status --porcelain -- . ':!bench/results') || return 1
    echo "$(git -C "$repository" rev-parse HEAD)${changed:+ with changes}"
}

load() { cut -d' ' -f1 /proc/loadavg; }

# Called before a run whose results are to be written: there must be a commit to name.
begin() { # script
    script=$1 load_before=$(load)
    code_before=$(code) || { echo "$script: no git repository, so no commit to name" >&2; exit 1; }
    if [[ $code_before == *changes ]]; then
        echo "$script: sources differ from ${code_before%% *}; commit them first" >&2
        exit 2
    fi
}

# First line of a result, after the run. Fails where sources changed meanwhile.
heading() { # what is said of the machine beside its processor
    local model
    if [[ $(code) != "$code_before" ]]; then
        echo "$script: sources changed meanwhile; the results are of no commit and not written" >&2
        exit 1
    fi
    model=$(grep -m1 'model name' /proc/cpuinfo | cut -d: -f2 | sed 's/^ //' || true)
    echo "bench/$script, $(date +%F), ${model:-unknown processor}, $1, load $load_before before the run and $(load) at its end, code of $code_before"
}
