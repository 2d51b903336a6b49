-- The next edition of the shop book while it is written: one for each shop, kept row by row, so that
-- a key stroke costs one row and two people are told apart where they change the same one. A row
-- that was taken out stays, marked, and can be put back. A draft that was given up is put aside
-- until the next one is.

create table shop_book_draft (
  shop_id uuid not null references shop,
  slot text not null check (slot in ('open', 'aside')),
  base integer not null,
  version bigint not null,
  begun_by uuid not null,
  begun_at timestamptz not null,
  changed_by uuid not null,
  changed_at timestamptz not null,
  primary key (shop_id, slot),
  foreign key (shop_id, base) references shop_book_edition (shop_id, n),
  foreign key (shop_id, begun_by) references login (shop_id, id),
  foreign key (shop_id, changed_by) references login (shop_id, id)
);

create table shop_book_draft_row (
  shop_id uuid not null,
  slot text not null,
  section text not null check (length(section) <= 40),
  id integer not null check (id >= 1),
  place integer not null,
  removed boolean not null,
  typed jsonb not null,
  version bigint not null,
  page text not null check (length(page) <= 40),
  changed_by uuid not null,
  changed_at timestamptz not null,
  primary key (shop_id, slot, section, id),
  foreign key (shop_id, slot) references shop_book_draft (shop_id, slot)
    on delete cascade on update cascade,
  foreign key (shop_id, changed_by) references login (shop_id, id)
);

alter table shop_book_draft enable row level security;
alter table shop_book_draft force row level security;
create policy own_shop on shop_book_draft using (shop_id = current_setting('app.shop')::uuid);

alter table shop_book_draft_row enable row level security;
alter table shop_book_draft_row force row level security;
create policy own_shop on shop_book_draft_row using (shop_id = current_setting('app.shop')::uuid);

grant select, insert, update, delete on shop_book_draft to "${service}";
grant select, insert, update, delete on shop_book_draft_row to "${service}";
