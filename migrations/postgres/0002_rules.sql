-- What the shop changed about the rules between services. The shipped rules are in the program and
-- stand beside this, so that those of a later version arrive.

create table rules (
    shop_id bigint primary key check (shop_id = 1),
    edits text not null,
    -- Counts the changes: one that was made on an older state is decided again on the newer one.
    revision bigint not null,
    changed_at bigint not null
);
