#!/bin/sh
# run-exhibit.sh PROGRAM FILE.toml: runs the exhibit and starts it again when it
# crashes. Closed by the keeper (status 0), or told to stop, it stays closed.
set -u
if [ $# -ne 2 ]; then
	echo "usage: run-exhibit.sh PROGRAM FILE.toml" >&2
	exit 2
fi
export FYNE_SCALE="${FYNE_SCALE:-1}"
child=
trap 'test -n "$child" && kill "$child" 2>/dev/null; exit 0' INT TERM HUP
while :; do
	"$1" --exhibit "$2" &
	child=$!
	wait "$child"
	status=$?
	child=
	[ "$status" -eq 0 ] && exit 0
	echo "run-exhibit.sh: status $status, again in 3 s" >&2
	sleep 3
done
