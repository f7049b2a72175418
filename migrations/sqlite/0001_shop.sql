-- The shop, its people, its customers, its tickets and their records, and its letters.
--
-- Times are UTC microseconds. Ids and codes are text: the program's enums are the only list of
-- codes, and a row with a stranger is refused when it is read. The record of a ticket (entry) can
-- be added to and never changed; everything else about a ticket is made from it.

create table shop (
    shop_id integer primary key check (shop_id = 1),
    settings text not null,
    changed_at integer not null
) strict;

create table service (
    service_id text primary key,
    body text not null,
    retired_at integer
) strict;

create table staff (
    staff_id text primary key,
    name text not null,
    -- The name without case, so that nobody can pass for somebody else by a capital.
    name_key text not null unique,
    role text not null,
    password_hash text not null,
    added_at integer not null,
    disabled_at integer
) strict;

-- Only digests: whoever reads this table can't sign in with it.
create table session (
    digest text primary key,
    staff_id text not null references staff (staff_id),
    begun_at integer not null,
    seen_at integer not null
) strict;

create table customer (
    customer_id text primary key,
    name text not null,
    email text,
    phone text,
    -- Everything that finds a customer, in lower case.
    search text not null
) strict;

create table ticket (
    ticket_id text primary key,
    number integer not null unique,
    customer_id text not null references customer (customer_id),
    opened_at integer not null,
    closed_at integer,
    -- Where its record ends, so that a tail that was cut off is missed.
    entries integer not null default 0,
    head text
) strict;

-- The tickets of a customer, for the search.
create index ticket_by_customer on ticket (customer_id);

create table entry (
    ticket_id text not null references ticket (ticket_id),
    seq integer not null check (seq >= 0),
    at integer not null,
    actor text not null,
    body text not null,
    before text not null,
    link text not null,
    primary key (ticket_id, seq)
) strict;

create trigger entry_is_never_changed before update on entry
begin
    select raise(abort, 'the record is append-only');
end;

create trigger entry_is_never_removed before delete on entry
begin
    select raise(abort, 'the record is append-only');
end;

-- A pair in one line, for lists; made from the record in the same transaction.
create table pair (
    pair_id text primary key,
    ticket_id text not null references ticket (ticket_id),
    brief text not null,
    handed_over_at integer
) strict;

-- The pairs that are still here: the bench, today.
create index pair_still_here on pair (ticket_id) where handed_over_at is null;
create index pair_by_ticket on pair (ticket_id);

-- Which ticket a link opens; only digests of keys.
create table portal_link (
    digest text primary key,
    ticket_id text not null references ticket (ticket_id),
    revoked_at integer
) strict;

-- An offer that is being composed or has been prepared, and is not sent yet.
create table draft (
    pair_id text primary key references pair (pair_id),
    fields text not null,
    sheet text,
    changed_at integer not null
) strict;

create table letter (
    letter_id text primary key,
    ticket_id text not null references ticket (ticket_id),
    notice text not null,
    sender text not null,
    recipient text not null,
    subject text not null,
    -- The finished message (RFC 5322): every try sends the same bytes.
    message blob not null,
    written_at integer not null,
    state text not null,
    tries integer not null,
    next_at integer not null,
    trouble text
) strict;

-- The worker's question: what is due.
create index letter_due on letter (next_at) where state = 'waiting';
create index letter_by_ticket on letter (ticket_id);
