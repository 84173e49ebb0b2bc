#!/bin/sh
# A throwaway PostgreSQL for the tests: started in a folder of its own on a free port of 127.0.0.1, and nowhere else.
#
#   export HAYWISP_TEST_POSTGRESQL="$(scripts/postgresql_for_tests.sh start)"
#   python3 dev.py test
#   scripts/postgresql_for_tests.sh stop
#
# HAYWISP_TEST_POSTGRESQL_FOLDER chooses the folder; without it there is one for each user.
# Nothing in it outlives "stop", so the server is not asked to be safe against a power cut.
set -eu

folder="${HAYWISP_TEST_POSTGRESQL_FOLDER:-${TMPDIR:-/tmp}/haywisp-postgresql-$(id -u)}"

find_bin() {
    for bin in /usr/lib/postgresql/*/bin /opt/homebrew/opt/postgresql*/bin /usr/pgsql-*/bin; do
        if [ -x "$bin/initdb" ]; then found="$bin"; fi
    done
    if [ -z "${found:-}" ] && command -v initdb >/dev/null; then found="$(dirname "$(command -v initdb)")"; fi
    if [ -z "${found:-}" ]; then
        echo "No PostgreSQL server programs found: install the package postgresql, or set HAYWISP_TEST_POSTGRESQL" >&2
        exit 2
    fi
    echo "$found"
}

# The server refuses to run as root.
as_server() {
    if [ "$(id -u)" -eq 0 ]; then runuser -u postgres -- "$@"; else "$@"; fi
}

free_port() {
    python3 -c 'import socket; s = socket.socket(); s.bind(("127.0.0.1", 0)); print(s.getsockname()[1])'
}

running() {
    [ -f "$folder/port" ] && as_server "$bin/pg_ctl" -D "$folder/data" status >/dev/null 2>&1
}

start() {
    if ! running; then
        rm -rf "$folder"
        mkdir -m 700 -p "$folder"
        if [ "$(id -u)" -eq 0 ]; then chown postgres "$folder"; fi
        cd "$folder"
        python3 -c 'import secrets; print(secrets.token_hex(16))' >"$folder/password"
        chmod 644 "$folder/password" # the folder itself is closed to others
        as_server "$bin/initdb" -D "$folder/data" -U haywisp -A scram-sha-256 --pwfile="$folder/password" \
            -E UTF8 --locale=C >"$folder/initdb.log" 2>&1 || { cat "$folder/initdb.log" >&2; exit 1; }
        port="$(free_port)"
        as_server "$bin/pg_ctl" -D "$folder/data" -w -t 60 -l "$folder/data/server.log" \
            -o "-p $port -h 127.0.0.1 -k '' -c fsync=off -c full_page_writes=off -c synchronous_commit=off" \
            start >/dev/null 2>&1 || { cat "$folder/data/server.log" >&2; exit 1; }
        echo "$port" >"$folder/port"
    fi
    echo "postgresql://haywisp:$(cat "$folder/password")@127.0.0.1:$(cat "$folder/port")/postgres"
}

stop() {
    if [ -d "$folder" ]; then
        cd "$folder"
        if running; then as_server "$bin/pg_ctl" -D "$folder/data" -m immediate -w stop >/dev/null; fi
        cd /
        rm -rf "$folder"
    fi
}

bin="$(find_bin)"
case "${1:-start}" in
    start) start ;;
    stop) stop ;;
    *) echo "Use: $0 start | stop" >&2; exit 2 ;;
esac
