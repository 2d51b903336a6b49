-- Editions of the shop book. An edition never changes: the service may add and read, nothing else.
-- The current one is that with the highest number.

create table shop_book_edition (
  shop_id uuid not null references shop,
  n integer not null check (n >= 1),
  format_version integer not null check (format_version >= 1),
  book jsonb not null,
  added_by uuid not null,
  added_at timestamptz not null,
  note text not null check (length(note) <= 200),
  primary key (shop_id, n),
  foreign key (shop_id, added_by) references login (shop_id, id),
  check ((book ->> 'edition')::integer = n)
);

alter table shop_book_edition enable row level security;
alter table shop_book_edition force row level security;
create policy own_shop on shop_book_edition using (shop_id = current_setting('app.shop')::uuid);

grant select, insert on shop_book_edition to "${service}";
