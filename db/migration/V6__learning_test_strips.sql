-- Test strips: what was noted, and what was fitted from it with the edition of then. Both stay as
-- they were entered; the one thing that is added later is that a fit was adopted, into which edition.

create table test_strip_set (
  shop_id uuid not null references shop,
  id uuid not null,
  format_version integer not null check (format_version >= 1),
  edition integer not null,
  notes jsonb not null,
  fit jsonb not null,
  entered_at timestamptz not null,
  entered_by uuid not null,
  adopted_edition integer,
  adopted_at timestamptz,
  adopted_by uuid,
  primary key (shop_id, id),
  foreign key (shop_id, edition) references shop_book_edition (shop_id, n),
  foreign key (shop_id, entered_by) references login (shop_id, id),
  foreign key (shop_id, adopted_edition) references shop_book_edition (shop_id, n),
  foreign key (shop_id, adopted_by) references login (shop_id, id),
  check ((adopted_edition is null) = (adopted_at is null)),
  check ((adopted_edition is null) = (adopted_by is null))
);

create index test_strip_set_by_age on test_strip_set (shop_id, entered_at desc, id desc);

alter table test_strip_set enable row level security;
alter table test_strip_set force row level security;
create policy own_shop on test_strip_set using (shop_id = current_setting('app.shop')::uuid);

grant select, insert, update (adopted_edition, adopted_at, adopted_by) on test_strip_set
  to "${service}";
