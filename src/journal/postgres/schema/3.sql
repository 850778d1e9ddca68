-- The machines that serve, as they tell one another: lost with the server, and told again.
create unlogged table lapwing.machine (
    name text primary key,
    address text not null,
    key text not null,
    seen timestamptz not null
);
