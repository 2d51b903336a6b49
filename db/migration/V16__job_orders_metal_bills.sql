-- Jobs without a quote, change orders, what was made, metal used and bills.

alter table job
  add column reason text check (length(reason) <= 2000),
  add column net numeric(16, 4) check (net >= 0),
  add column currency text,
  add column made jsonb,
  add check ((net is null) = (currency is null));

-- More that was agreed on a running job, with a plan of its own.
create table change_order (
  shop_id uuid not null references shop,
  job_id uuid not null,
  n integer not null check (n >= 1),
  id uuid not null,
  title text not null check (title <> '' and length(title) <= 200),
  reason text not null check (reason <> '' and length(reason) <= 2000),
  net numeric(16, 4) not null check (net >= 0),
  currency text not null,
  edition integer not null,
  method_version integer not null,
  format_version integer not null,
  plan jsonb not null,
  agreed_at timestamptz not null,
  agreed_by uuid not null,
  primary key (shop_id, job_id, n),
  unique (shop_id, id),
  foreign key (shop_id, job_id) references job (shop_id, id),
  foreign key (shop_id, edition) references shop_book_edition (shop_id, n),
  foreign key (shop_id, agreed_by) references login (shop_id, id)
);

alter table job_step
  add column change_order integer,
  add foreign key (shop_id, job_id, change_order) references change_order (shop_id, job_id, n);

-- Metal that was taken for a job and paid for, weighed with the shop book of that day. A correction
-- takes the place of another row.
create table metal_used (
  shop_id uuid not null references shop,
  id uuid not null,
  job_id uuid not null,
  entry jsonb not null,
  grade text not null,
  family text,
  taken_kg double precision not null check (taken_kg >= 0),
  back_kg double precision not null check (back_kg >= 0),
  cost numeric(16, 4) not null,
  currency text not null,
  entered_at timestamptz not null,
  entered_by uuid not null,
  replaces uuid,
  primary key (shop_id, id),
  foreign key (shop_id, job_id) references job (shop_id, id),
  foreign key (shop_id, entered_by) references login (shop_id, id),
  foreign key (shop_id, replaces) references metal_used (shop_id, id)
);

create unique index one_correction_of_metal on metal_used (shop_id, replaces);
create index metal_of_job on metal_used (shop_id, job_id);

-- Bills for what was bought out for a job.
create table bill (
  shop_id uuid not null references shop,
  id uuid not null,
  job_id uuid not null,
  entry jsonb not null,
  amount numeric(16, 4) not null check (amount >= 0),
  currency text not null,
  entered_at timestamptz not null,
  entered_by uuid not null,
  replaces uuid,
  primary key (shop_id, id),
  foreign key (shop_id, job_id) references job (shop_id, id),
  foreign key (shop_id, entered_by) references login (shop_id, id),
  foreign key (shop_id, replaces) references bill (shop_id, id)
);

create unique index one_correction_of_a_bill on bill (shop_id, replaces);
create index bill_of_job on bill (shop_id, job_id);

-- What became of the hours of an item that was ordered, written when its job is finished.
create table quote_hours (
  shop_id uuid not null references shop,
  quote_id uuid not null,
  position integer not null,
  made integer not null check (made >= 0),
  actual_hours double precision not null check (actual_hours >= 0),
  primary key (shop_id, quote_id, position),
  foreign key (shop_id, quote_id) references quote (shop_id, id)
);

do $$
declare
  t text;
begin
  foreach t in array array['change_order', 'metal_used', 'bill', 'quote_hours'] loop
    execute format('alter table %I enable row level security', t);
    execute format('alter table %I force row level security', t);
    execute format(
      'create policy own_shop on %I using (shop_id = current_setting(''app.shop'')::uuid)', t);
  end loop;
end $$;

grant select, insert on change_order, metal_used, bill to "${service}";
grant select, insert, delete on quote_hours to "${service}";
