-- Which learned factors were taken over into which edition of the shop book, and what stood there
-- before, so that it can be undone. What is added later is the edition that undid it.

create table learned_adoption (
  shop_id uuid not null references shop,
  edition integer not null,
  format_version integer not null check (format_version >= 1),
  adopted jsonb not null,
  adopted_at timestamptz not null,
  adopted_by uuid not null,
  undone_edition integer,
  primary key (shop_id, edition),
  foreign key (shop_id, edition) references shop_book_edition (shop_id, n),
  foreign key (shop_id, adopted_by) references login (shop_id, id),
  foreign key (shop_id, undone_edition) references shop_book_edition (shop_id, n)
);

alter table learned_adoption enable row level security;
alter table learned_adoption force row level security;
create policy own_shop on learned_adoption using (shop_id = current_setting('app.shop')::uuid);

grant select, insert, update (undone_edition) on learned_adoption to "${service}";
