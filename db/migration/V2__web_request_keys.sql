-- What was answered to requests that carried an Idempotency-Key: stored with their effect in one
-- transaction, so that a repeat gets the same answer and has no second effect. Kept for 72 hours.

create table request_key (
  shop_id uuid not null references shop,
  key text not null check (length(key) between 1 and 255),
  request_hash bytea not null check (length(request_hash) = 32),
  status integer,
  body bytea,
  etag text,
  location text,
  created_at timestamptz not null default now(),
  primary key (shop_id, key)
);

create index request_key_by_age on request_key (shop_id, created_at);

alter table request_key enable row level security;
alter table request_key force row level security;
create policy own_shop on request_key using (shop_id = current_setting('app.shop')::uuid);

grant select, insert, update, delete on request_key to "${service}";
