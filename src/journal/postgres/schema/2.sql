-- How often what stood in the log was put in other words: what was folded before holds
-- what was erased since.
alter table lapwing.head add column revised bigint not null default 0;
