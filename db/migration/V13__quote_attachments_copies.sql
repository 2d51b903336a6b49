-- Drawings that came with a quote, kept as they came, and which revision a copy was made of.

alter table quote add column copied_revision integer check (copied_revision >= 1);

create table quote_attachment (
  shop_id uuid not null references shop,
  id uuid not null,
  quote_id uuid not null,
  name text not null check (name <> '' and length(name) <= 200),
  type text not null
    check (type in ('application/pdf', 'image/png', 'image/jpeg', 'image/svg+xml')),
  size integer not null check (size between 1 and 10485760),
  sha256 bytea not null check (length(sha256) = 32),
  content bytea not null check (length(content) = size),
  at timestamptz not null,
  by uuid not null,
  primary key (shop_id, id),
  unique (shop_id, quote_id, sha256),
  foreign key (shop_id, quote_id) references quote (shop_id, id),
  foreign key (shop_id, by) references login (shop_id, id)
);

-- read piece by piece; what is in it is packed already
alter table quote_attachment alter column content set storage external;

alter table quote_attachment enable row level security;
alter table quote_attachment force row level security;
create policy own_shop on quote_attachment using (shop_id = current_setting('app.shop')::uuid);

-- Once a revision was issued, what it rests on stays.
create function refuse_loss_of_attachment() returns trigger language plpgsql as $$
begin
  if exists (select from quote_revision r
      where r.shop_id = old.shop_id and r.quote_id = old.quote_id and r.state <> 'draft') then
    raise exception 'an attachment of an issued quote stays'
      using errcode = 'integrity_constraint_violation';
  end if;
  return old;
end $$;

create trigger attachment_stays before delete on quote_attachment
  for each row execute function refuse_loss_of_attachment();

grant select, insert, delete on quote_attachment to "${service}";

-- What was decided lately, for the board.
create index quote_outcome_by_date on quote_outcome (shop_id, decided_on);
