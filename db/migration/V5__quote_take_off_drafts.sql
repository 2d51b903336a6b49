-- What somebody has typed into the take-off page and not yet saved: kept with every recalculation, so
-- that neither a lost session nor a closed window loses it. One for each user and place; the place
-- is 'new', or the quote's item that is being changed.

create table take_off_draft (
  shop_id uuid not null references shop,
  login_id uuid not null,
  place text not null check (place <> '' and length(place) <= 60),
  page text not null check (length(page) <= 40),
  turn bigint not null,
  form jsonb not null,
  kept_at timestamptz not null,
  primary key (shop_id, login_id, place),
  foreign key (shop_id, login_id) references login (shop_id, id) on delete cascade
);

alter table take_off_draft enable row level security;
alter table take_off_draft force row level security;
create policy own_shop on take_off_draft using (shop_id = current_setting('app.shop')::uuid);

grant select, insert, update, delete on take_off_draft to "${service}";
