-- What an office needs to send a quote and to keep what became of it.

-- What is known of a customer is read and written as one document; its name is looked up by.
alter table customer
  add column card jsonb,
  add column changed_at timestamptz;

alter table customer no force row level security;
update customer
  set card = jsonb_strip_nulls(jsonb_build_object('id', id, 'name', name, 'address', address));
alter table customer force row level security;
alter table customer alter column card set not null, drop column address;

alter table addressee
  add column delivery_address text check (length(delivery_address) <= 1000),
  add column tax_number text check (length(tax_number) <= 200),
  add column contact text check (length(contact) <= 200);

-- Where the quote stands is that of its latest revision; that it lapsed follows from the date.
alter table quote
  add column state text not null default 'draft'
    check (state in ('draft', 'issued', 'accepted', 'declined', 'withdrawn')),
  add column valid_until date,
  add column contact text check (length(contact) <= 200),
  add column copied_from uuid,
  add foreign key (shop_id, copied_from) references quote (shop_id, id);

alter table quote no force row level security;
alter table quote_revision no force row level security;
update quote q set state = r.state
  from quote_revision r
  where r.shop_id = q.shop_id and r.quote_id = q.id and r.n = q.revision;
alter table quote force row level security;
alter table quote_revision force row level security;

create index quote_by_state on quote (shop_id, state, valid_until);

alter table quote_revision
  add column terms jsonb not null default '{}',
  add column valid_until date,
  add column begun_at timestamptz,
  add column begun_by uuid,
  add foreign key (shop_id, begun_by) references login (shop_id, id),
  add column net_minor bigint generated always as ((net * 100)::bigint) stored;

create index quote_revision_of_customer on quote_revision (shop_id, customer_id);

-- What an item is looked up by: drawn from its take-off and estimate when it is stored.
alter table quote_item
  add column grades text[],
  add column kinds text[],
  add column thickness_mm double precision,
  add column size_mm double precision,
  add column hours double precision;

-- What became of an issued revision. One that was taken back stays to be read.
create table quote_outcome (
  shop_id uuid not null references shop,
  id uuid not null,
  revision_id uuid not null,
  kind text not null check (kind in ('accepted', 'declined', 'withdrawn')),
  decided_on date not null,
  outcome jsonb not null,
  net numeric(18, 4) check ((kind = 'accepted') = (net is not null)),
  at timestamptz not null,
  by uuid not null,
  taken_back_at timestamptz,
  taken_back_by uuid,
  primary key (shop_id, id),
  foreign key (shop_id, revision_id) references quote_revision (shop_id, id),
  foreign key (shop_id, by) references login (shop_id, id),
  foreign key (shop_id, taken_back_by) references login (shop_id, id),
  check ((taken_back_at is null) = (taken_back_by is null))
);

create unique index one_outcome_of_a_revision on quote_outcome (shop_id, revision_id)
  where taken_back_at is null;

-- What was said and agreed on the way; kept as it was written, with its time.
create table quote_note (
  shop_id uuid not null references shop,
  id uuid not null,
  quote_id uuid not null,
  at timestamptz not null,
  by uuid not null,
  text text not null check (text <> '' and length(text) <= 2000),
  told_net numeric(18, 4),
  told_currency text check (told_currency ~ '^[A-Z]{3}$'),
  told_to text check (length(told_to) <= 200),
  primary key (shop_id, id),
  foreign key (shop_id, quote_id) references quote (shop_id, id),
  foreign key (shop_id, by) references login (shop_id, id),
  check ((told_net is null) = (told_currency is null))
);

create index quote_note_of_quote on quote_note (shop_id, quote_id, at);

-- How the shop writes to its customers.
create table letterhead (
  shop_id uuid not null references shop,
  letterhead jsonb not null,
  logo bytea check (length(logo) <= 1048576),
  logo_type text check (logo_type in ('image/png', 'image/jpeg')),
  version integer not null,
  primary key (shop_id),
  check ((logo is null) = (logo_type is null))
);

do $$
declare
  t text;
begin
  foreach t in array array['quote_outcome', 'quote_note', 'letterhead'] loop
    execute format('alter table %I enable row level security', t);
    execute format('alter table %I force row level security', t);
    execute format(
      'create policy own_shop on %I using (shop_id = current_setting(''app.shop'')::uuid)', t);
  end loop;
end $$;

grant select, insert, update on letterhead to "${service}";
grant select, insert on quote_note to "${service}";
grant select, insert on quote_outcome to "${service}";
grant update (taken_back_at, taken_back_by) on quote_outcome to "${service}";
-- a draft revision can be dropped; the trigger refuses any other
grant delete on quote_revision to "${service}";
