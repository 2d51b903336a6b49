-- A file that was shown as what it would change, kept until whoever sent it says yes or a day is
-- over.

create table kept_file (
  shop_id uuid not null references shop,
  id uuid not null,
  purpose text not null check (length(purpose) <= 40),
  name text not null check (length(name) <= 200),
  content bytea not null check (length(content) <= 10485760),
  kept_by uuid not null,
  kept_at timestamptz not null,
  primary key (shop_id, id),
  foreign key (shop_id, kept_by) references login (shop_id, id)
);

create index kept_file_of_person on kept_file (shop_id, kept_by, purpose);

alter table kept_file enable row level security;
alter table kept_file force row level security;
create policy own_shop on kept_file using (shop_id = current_setting('app.shop')::uuid);

grant select, insert, delete on kept_file to "${service}";
