-- Who comes to the database, once, on the server that takes writes, as the user postgres
-- (from psql 15 on):
--
--   OWNER=… LAPWING=… REPLICA=… psql -f roles.sql
--
-- with three passwords: `owner` has the tables made and changed, `lapwing` serves,
-- `replica` is what the standbys come as.

\set ON_ERROR_STOP on
-- Nobody follows yet, so nobody is waited for.
set synchronous_commit = local;
\getenv owner OWNER
\getenv lapwing LAPWING
\getenv replica REPLICA
create role owner login password :'owner';
create role lapwing login password :'lapwing';
create role replica login replication password :'replica';
-- `database` sees how far each server is, and says whom it hears from.
grant pg_monitor to replica;
grant alter system on parameter primary_conninfo to replica;
grant execute on function pg_reload_conf() to replica;
create database squads owner owner encoding 'UTF8' template template0;
