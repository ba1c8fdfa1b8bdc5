#!/bin/bash
# Makes the oracle's records anew, from the top of the repository: bash tests/oracle/record.sh [NAME …]
# NAME: worked, random, or an example's name without its ending; without any, all of them.
# Needs Debian's python3-scipy and python3-mpmath: apt-get install -y python3-scipy python3-mpmath
set -euo pipefail
cd "$(dirname "$0")/../.."
python=/usr/bin/python3
records=tests/oracle/records

record() {
  case "$1" in
    worked) "$python" -B tests/oracle/record.py worked "$records/worked.json" ;;
    random) "$python" -B tests/oracle/record.py random "$records/random.json.gz.base64" ;;
    *)
      dump=$(mktemp)
      npx tsx tests/oracle/dump.ts "examples/$1.axlewalk.json" > "$dump"
      "$python" -B tests/oracle/record.py "$dump" "$records/$1.json"
      rm "$dump"
      ;;
  esac
  echo "$1: recorded"
}

if [ $# -eq 0 ]; then
  set -- worked random
  for file in examples/*.axlewalk.json; do
    set -- "$@" "$(basename "$file" .axlewalk.json)"
  done
fi
for name in "$@"; do
  record "$name"
done
