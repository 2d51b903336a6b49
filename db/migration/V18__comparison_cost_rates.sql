-- What an hour of a person costs the shop, from a day on. Only the owner sees it. What was said
-- stays: the latest saying of a day counts.

create table person_cost_rate (
  shop_id uuid not null references shop,
  login_id uuid not null,
  valid_from date not null,
  n integer not null check (n >= 1),
  per_hour numeric(12, 4) check (per_hour >= 0),
  currency text not null,
  said_at timestamptz not null,
  said_by uuid not null,
  primary key (shop_id, login_id, valid_from, n),
  foreign key (shop_id, login_id) references login (shop_id, id),
  foreign key (shop_id, said_by) references login (shop_id, id)
);

alter table person_cost_rate enable row level security;
alter table person_cost_rate force row level security;
create policy own_shop on person_cost_rate using (shop_id = current_setting('app.shop')::uuid);

grant select, insert on person_cost_rate to "${service}";
