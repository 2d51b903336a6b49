-- Customers and quotes. A quote has revisions, a revision has items; take-off and estimate of an item
-- are documents, what is searched and summed is columns. Names and addresses stand in customer and,
-- for an issued revision, in addressee, so that a person can be erased without touching a frozen
-- revision.

create table customer (
  shop_id uuid not null references shop,
  id uuid not null,
  name text not null check (name <> '' and length(name) <= 200),
  address text check (length(address) <= 1000),
  created_at timestamptz not null,
  version integer not null,
  primary key (shop_id, id)
);

create index customer_by_name on customer (shop_id, name);

-- Numbers without gap or double: the row is locked from taking one until its transaction ends.
create table number_counter (
  shop_id uuid not null references shop,
  series text not null check (series in ('quote')),
  year integer not null,
  last integer not null check (last >= 1),
  primary key (shop_id, series, year)
);

create table quote (
  shop_id uuid not null references shop,
  id uuid not null,
  year integer not null check (year between 2000 and 9999),
  n integer not null check (n >= 1),
  revision integer not null check (revision >= 1),
  created_at timestamptz not null,
  created_by uuid not null,
  changed_at timestamptz not null,
  version integer not null,
  primary key (shop_id, id),
  unique (shop_id, year, n),
  foreign key (shop_id, created_by) references login (shop_id, id)
);

create table quote_revision (
  shop_id uuid not null references shop,
  id uuid not null,
  quote_id uuid not null,
  n integer not null check (n >= 1),
  state text not null check (state in ('draft', 'issued')),
  title text not null check (title <> '' and length(title) <= 200),
  customer_id uuid not null,
  edition integer not null,
  method_version integer not null,
  format_version integer not null,
  feasible boolean not null,
  currency text not null check (currency ~ '^[A-Z]{3}$'),
  net numeric(18, 4) not null,
  tax numeric(18, 4) not null,
  main_quantity integer not null check (main_quantity >= 1),
  information text not null,
  changed_at timestamptz not null,
  changed_by uuid not null,
  issued_at timestamptz,
  issued_by uuid,
  primary key (shop_id, id),
  unique (shop_id, quote_id, n),
  foreign key (shop_id, quote_id) references quote (shop_id, id),
  foreign key (shop_id, customer_id) references customer (shop_id, id),
  foreign key (shop_id, edition) references shop_book_edition (shop_id, n),
  foreign key (shop_id, changed_by) references login (shop_id, id),
  foreign key (shop_id, issued_by) references login (shop_id, id),
  check ((state = 'draft') = (issued_at is null)),
  check ((issued_at is null) = (issued_by is null)),
  check (state = 'draft' or feasible)
);

create table quote_item (
  shop_id uuid not null references shop,
  id uuid not null,
  revision_id uuid not null,
  position integer not null check (position between 1 and 9999),
  optional boolean not null,
  title text not null check (title <> '' and length(title) <= 200),
  take_off jsonb not null,
  estimate jsonb not null,
  primary key (shop_id, id),
  unique (shop_id, revision_id, position),
  foreign key (shop_id, revision_id) references quote_revision (shop_id, id)
);

create table addressee (
  shop_id uuid not null references shop,
  revision_id uuid not null,
  name text not null check (name <> '' and length(name) <= 200),
  address text check (length(address) <= 1000),
  primary key (shop_id, revision_id),
  foreign key (shop_id, revision_id) references quote_revision (shop_id, id)
);

-- An issued revision never changes, whoever tries.

create function refuse_change_of_issued_revision() returns trigger language plpgsql as $$
begin
  if old.state <> 'draft' then
    raise exception 'an issued revision never changes' using errcode = 'integrity_constraint_violation';
  end if;
  if tg_op = 'DELETE' then
    return old;
  end if;
  return new;
end $$;

create trigger issued_revision_stays before update or delete on quote_revision
  for each row execute function refuse_change_of_issued_revision();

-- The revision's row is locked, so that it cannot be issued between this look and the commit.
create function refuse_change_of_issued_item() returns trigger language plpgsql as $$
declare
  touched quote_item := case when tg_op = 'INSERT' then new else old end;
begin
  perform from quote_revision r
    where r.shop_id = touched.shop_id and r.id = touched.revision_id and r.state = 'draft'
    for share;
  if not found then
    raise exception 'an issued revision never changes' using errcode = 'integrity_constraint_violation';
  end if;
  if tg_op = 'DELETE' then
    return old;
  end if;
  return new;
end $$;

create trigger issued_item_stays before insert or delete on quote_item
  for each row execute function refuse_change_of_issued_item();

create function refuse_change_of_item() returns trigger language plpgsql as $$
begin
  raise exception 'items are replaced, never changed' using errcode = 'integrity_constraint_violation';
end $$;

create trigger item_stays before update on quote_item
  for each row execute function refuse_change_of_item();

do $$
declare
  t text;
begin
  foreach t in array array[
    'customer', 'number_counter', 'quote', 'quote_revision', 'quote_item', 'addressee'] loop
    execute format('alter table %I enable row level security', t);
    execute format('alter table %I force row level security', t);
    execute format(
      'create policy own_shop on %I using (shop_id = current_setting(''app.shop'')::uuid)', t);
  end loop;
end $$;

grant select, insert, update on customer, number_counter, quote, quote_revision to "${service}";
grant select, insert, delete on quote_item to "${service}";
grant select, insert on addressee to "${service}";
