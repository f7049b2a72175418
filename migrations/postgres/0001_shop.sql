-- The shop, its people, its customers, its tickets and their records, and its letters.
--
-- Times are UTC microseconds. Ids and codes are text: the program's enums are the only list of
-- codes, and a row with a stranger is refused when it is read. The record of a ticket (entry) can
-- be added to and never changed; everything else about a ticket is made from it.

create table shop (
    shop_id bigint primary key check (shop_id = 1),
    settings text not null,
    changed_at bigint not null
);

create table service (
    service_id text primary key,
    body text not null,
    retired_at bigint
);

create table staff (
    staff_id text primary key,
    name text not null,
    -- The name without case, so that nobody can pass for somebody else by a capital.
    name_key text not null unique,
    role text not null,
    password_hash text not null,
    added_at bigint not null,
    disabled_at bigint
);

-- Only digests: whoever reads this table can't sign in with it.
create table session (
    digest text primary key,
    staff_id text not null references staff (staff_id),
    begun_at bigint not null,
    seen_at bigint not null
);

create table customer (
    customer_id text primary key,
    name text not null,
    email text,
    phone text,
    -- Everything that finds a customer, in lower case.
    search text not null
);

create table ticket (
    ticket_id text primary key,
    number bigint not null unique,
    customer_id text not null references customer (customer_id),
    opened_at bigint not null,
    closed_at bigint,
    -- Where its record ends, so that a tail that was cut off is missed.
    entries bigint not null default 0,
    head text
);

-- The tickets of a customer, for the search.
create index ticket_by_customer on ticket (customer_id);

create table entry (
    ticket_id text not null references ticket (ticket_id),
    seq bigint not null check (seq >= 0),
    at bigint not null,
    actor text not null,
    body text not null,
    before text not null,
    link text not null,
    primary key (ticket_id, seq)
);

create function refuse_change() returns trigger language plpgsql as $$
begin
    raise exception 'the record is append-only';
end;
$$;

create trigger entry_is_never_changed before update or delete or truncate on entry
for each statement execute function refuse_change();

-- A pair in one line, for lists; made from the record in the same transaction.
create table pair (
    pair_id text primary key,
    ticket_id text not null references ticket (ticket_id),
    brief text not null,
    handed_over_at bigint
);

-- The pairs that are still here: the bench, today.
create index pair_still_here on pair (ticket_id) where handed_over_at is null;
create index pair_by_ticket on pair (ticket_id);

-- Which ticket a link opens; only digests of keys.
create table portal_link (
    digest text primary key,
    ticket_id text not null references ticket (ticket_id),
    revoked_at bigint
);

-- An offer that is being composed or has been prepared, and is not sent yet.
create table draft (
    pair_id text primary key references pair (pair_id),
    fields text not null,
    sheet text,
    changed_at bigint not null
);

create table letter (
    letter_id text primary key,
    ticket_id text not null references ticket (ticket_id),
    notice text not null,
    sender text not null,
    recipient text not null,
    subject text not null,
    -- The finished message (RFC 5322): every try sends the same bytes.
    message bytea not null,
    written_at bigint not null,
    state text not null,
    tries bigint not null,
    next_at bigint not null,
    trouble text
);

-- The worker's question: what is due.
create index letter_due on letter (next_at) where state = 'waiting';
create index letter_by_ticket on letter (ticket_id);
