create schema if not exists lapwing;

create table lapwing.meta (
    one boolean primary key default true check (one),
    schema integer not null,
    format integer not null
);
insert into lapwing.meta (schema, format) values (1, 2);

-- Rewritten in place by every append.
create table lapwing.head (
    one boolean primary key default true check (one),
    place bigint not null,
    mark bytea not null,
    epoch bigint not null
) with (fillfactor = 10);
insert into lapwing.head (place, mark, epoch) values (0, decode(repeat('00', 16), 'hex'), 0);

-- What was lost, and told of, has number 0 and the name of no stream.
create table lapwing.log (
    place bigint primary key,
    stream bytea not null,
    number bigint not null,
    key bytea,
    at bigint not null,
    frame bytea not null
);
create unique index log_stream on lapwing.log (stream, number) where number > 0;
create index log_key on lapwing.log (key, place) where key is not null;

create table lapwing.stream (
    name bytea primary key,
    number bigint not null,
    place bigint not null,
    mark bytea not null
) with (fillfactor = 70);

create table lapwing.snapshot (
    stream bytea primary key,
    through bigint not null,
    mark bytea not null
);
create table lapwing.part (
    stream bytea not null,
    name bytea not null,
    bytes bytea not null,
    primary key (stream, name)
);
