# Runs a throw-away PostgreSQL until standard input closes: that is, until the one who started this
# drops it, fails, is interrupted or is killed. Arguments: the folder of its programs, and the port.
set -eu
# Ctrl-C reaches this shell too, which then still has to tidy up; PostgreSQL sets its own handlers.
trap '' INT HUP TERM

data=$(mktemp -d)
trap 'rm -rf "$data"' EXIT
"$1/initdb" --pgdata="$data" --username=postgres --auth=trust \
    --encoding=UTF8 --locale=C.UTF-8 --no-sync >/dev/null

# Nothing here outlives the tests, so nothing needs to reach the disk.
"$1/postgres" -D "$data" -h 127.0.0.1 -p "$2" -k '' -F -N 200 \
    -c synchronous_commit=off -c full_page_writes=off -c log_min_messages=fatal &
server=$!
read -r _ || true
kill -INT "$server" 2>/dev/null || true
wait "$server" || true
