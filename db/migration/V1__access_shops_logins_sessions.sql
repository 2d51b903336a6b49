-- Global tables: they are read before anybody knows the shop, so no row-level security here.
-- Everything that a shop owns stands in tables with shop_id first in their key (see docs/security.md).

create table shop (
  id uuid primary key,
  name text not null check (name <> '' and length(name) <= 200),
  currency text not null check (currency ~ '^[A-Z]{3}$'),
  time_zone text not null check (time_zone <> ''),
  opened_at timestamptz not null
);

-- User names are unique over all shops: the name alone finds the shop at sign-in.
create table login (
  id uuid primary key,
  shop_id uuid not null references shop,
  user_name text not null unique check (user_name = lower(user_name) and user_name <> ''),
  display_name text not null check (display_name <> '' and length(display_name) <= 200),
  role text not null check (role in ('estimator', 'owner', 'office', 'floor')),
  password_hash text not null,
  active boolean not null default true,
  created_at timestamptz not null,
  unique (shop_id, id)
);

-- Of a token only the SHA-256 is kept: 256 random bits need no slow hash.
create table api_token (
  id uuid primary key,
  shop_id uuid not null,
  login_id uuid not null,
  name text not null check (name <> '' and length(name) <= 200),
  token_hash bytea not null unique check (length(token_hash) = 32),
  created_at timestamptz not null,
  foreign key (shop_id, login_id) references login (shop_id, id) on delete cascade
);

create index api_token_of_login on api_token (shop_id, login_id);

-- As Spring Session 4.1 wants it.
create table spring_session (
  primary_id char(36) not null primary key,
  session_id char(36) not null,
  creation_time bigint not null,
  last_access_time bigint not null,
  max_inactive_interval int not null,
  expiry_time bigint not null,
  principal_name varchar(100)
);

create unique index spring_session_ix1 on spring_session (session_id);
create index spring_session_ix2 on spring_session (expiry_time);
create index spring_session_ix3 on spring_session (principal_name);

create table spring_session_attributes (
  session_primary_id char(36) not null references spring_session on delete cascade,
  attribute_name varchar(200) not null,
  attribute_bytes bytea not null,
  primary key (session_primary_id, attribute_name)
);

grant usage on schema public to "${service}";
grant select, insert, update on shop, login to "${service}";
grant select, insert, delete on api_token to "${service}";
grant select, insert, update, delete on spring_session, spring_session_attributes to "${service}";
