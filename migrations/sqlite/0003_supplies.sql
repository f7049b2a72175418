-- What is cut, sewn, glued or nailed into pairs, with what it costs the shop. A supply is never
-- removed, only retired: what was agreed names it.

create table supply (
    supply_id text primary key,
    body text not null,
    retired_at integer
) strict;

-- What only the owner knows of the shop: what an hour at the bench costs it.
create table shop_cost (
    shop_id integer primary key check (shop_id = 1),
    body text not null
) strict;
