-- What quotes are found by, and what the register shows of an item's quantities.

create extension if not exists pg_trgm;
create extension if not exists btree_gin;

-- Texts are compared without regard to case and to how an accent was typed.
create function folded(said text) returns text language sql immutable parallel safe as
$$ select lower(normalize(said, nfkc) collate "und-x-icu") $$;

-- The pattern of a folded text that has this one somewhere in it; what like takes for a wildcard is
-- none, even where folding makes it one.
create function containing(part text) returns text language sql immutable parallel safe as
$$ select '%' || regexp_replace(folded(part), '([\\%_])', '\\\1', 'g') || '%' $$;

-- One row a quote, drawn from its latest revision: one narrow table answers every filter.
create table quote_lookup (
  shop_id uuid not null references shop,
  quote_id uuid not null,
  revision_id uuid not null,
  customer_id uuid not null,
  year integer not null,
  n integer not null,
  state text not null,
  valid_until date,
  at timestamptz not null,
  estimator uuid not null,
  net numeric(18, 4) not null,
  customer text not null,
  words text not null,
  primary key (shop_id, quote_id),
  foreign key (shop_id, quote_id) references quote (shop_id, id) on delete cascade
);

create unique index quote_lookup_by_number on quote_lookup (shop_id, year, n);
create index quote_lookup_by_customer on quote_lookup (shop_id, customer_id);
create index quote_lookup_by_words on quote_lookup using gin (shop_id, words gin_trgm_ops);

alter table quote_lookup enable row level security;
alter table quote_lookup force row level security;
create policy own_shop on quote_lookup using (shop_id = current_setting('app.shop')::uuid);

-- The rows are locked before anything is read, so that of two who change a quote at once the later
-- one sees what the other wrote.
create function look_up_anew(shop uuid, which uuid[]) returns void
language plpgsql security definer set search_path = public, pg_temp as
$$
begin
  perform from quote_lookup l where l.shop_id = shop and l.quote_id = any (which)
    order by l.quote_id for update;
  insert into quote_lookup
    select q.shop_id, q.id, r.id, r.customer_id, q.year, q.n, q.state, r.valid_until,
      coalesce(r.issued_at, r.changed_at), q.created_by, r.net,
      folded(concat_ws(e'\n', a.name, c.name)),
      folded(concat_ws(e'\n',
        'Q-' || lpad(q.year::text, 4, '0') || '-' || lpad(q.n::text, greatest(4, length(q.n::text)), '0'),
        a.name, c.name, a.contact, q.contact, r.title,
        (select string_agg(i.title, e'\n' order by i.position) from quote_item i
          where i.shop_id = r.shop_id and i.revision_id = r.id),
        r.terms ->> 'customerReference',
        (select o.outcome #>> '{order,number}' from quote_outcome o
          where o.shop_id = r.shop_id and o.revision_id = r.id and o.taken_back_at is null),
        (select string_agg(concat_ws(e'\n', m.text, m.told_to), e'\n' order by m.at) from quote_note m
          where m.shop_id = q.shop_id and m.quote_id = q.id)))
    from quote q
    join quote_revision r on r.shop_id = q.shop_id and r.quote_id = q.id and r.n = q.revision
    join customer c on c.shop_id = r.shop_id and c.id = r.customer_id
    left join addressee a on a.shop_id = r.shop_id and a.revision_id = r.id
    where q.shop_id = shop and q.id = any (which)
  on conflict (shop_id, quote_id) do update set
    revision_id = excluded.revision_id, customer_id = excluded.customer_id, state = excluded.state,
    valid_until = excluded.valid_until, at = excluded.at, net = excluded.net,
    customer = excluded.customer, words = excluded.words;
end
$$;

revoke execute on function look_up_anew from public;

-- At the end of the transaction, when revision, items and outcome stand as they will. Every change
-- of a revision changes its quote's row too, so that this one needs no trigger of its own.
create function quote_changed() returns trigger
language plpgsql security definer set search_path = public, pg_temp as $$
begin
  perform look_up_anew(new.shop_id, array[new.id]);
  return null;
end $$;

create constraint trigger quote_looked_up after insert or update on quote
  deferrable initially deferred for each row execute function quote_changed();

create function quote_noted() returns trigger
language plpgsql security definer set search_path = public, pg_temp as $$
begin
  perform look_up_anew(new.shop_id, array[new.quote_id]);
  return null;
end $$;

create constraint trigger note_looked_up after insert on quote_note
  deferrable initially deferred for each row execute function quote_noted();

create function addressee_changed() returns trigger
language plpgsql security definer set search_path = public, pg_temp as $$
begin
  perform look_up_anew(new.shop_id, array(
    select quote_id from quote_revision where shop_id = new.shop_id and id = new.revision_id));
  return null;
end $$;

create constraint trigger addressee_looked_up after update on addressee
  deferrable initially deferred for each row execute function addressee_changed();

create function customer_renamed() returns trigger
language plpgsql security definer set search_path = public, pg_temp as $$
begin
  perform look_up_anew(new.shop_id, array(
    select quote_id from quote_lookup where shop_id = new.shop_id and customer_id = new.id));
  return null;
end $$;

create constraint trigger customer_looked_up after update on customer
  deferrable initially deferred for each row when (old.name is distinct from new.name)
  execute function customer_renamed();

-- Read with the owner's rights, so that an index on parts of words serves before the guard of the
-- table is asked: like is not leakproof. The view keeps the shop apart by itself.
create view own_quote_lookup as
  select * from quote_lookup where shop_id = current_setting('app.shop')::uuid;

grant select on own_quote_lookup to "${service}";

-- What the register shows of an item is drawn from its documents when it is stored. The documents go
-- to their own place, so that a row is narrow and reading its columns is quick.

-- Quantity, price each, net, tax and planned hours of each quantity, in the order of the estimate.
create function priced_quantities(estimate jsonb) returns jsonb language sql immutable parallel safe as
$$
  select coalesce(
    jsonb_agg(jsonb_build_array(
      q -> 'quantity', q #> '{priceEach,amount}', q #> '{price,offer,amount}',
      q #> '{price,tax,amount}', q #> '{hours,plan}') order by at), '[]')
  from jsonb_array_elements(estimate -> 'quantities') with ordinality as e (q, at)
$$;

create function price_each(estimate jsonb, of integer) returns numeric
language sql immutable parallel safe as
$$
  select (q #>> '{priceEach,amount}')::numeric
  from jsonb_array_elements(estimate -> 'quantities') q where (q ->> 'quantity')::integer = of limit 1
$$;

alter table quote_item set (toast_tuple_target = 512);
alter table quote_item
  add column information text generated always as (take_off ->> 'information') stored,
  add column main_quantity integer
    generated always as ((take_off ->> 'mainQuantity')::integer) stored,
  add column main_each numeric
    generated always as (price_each(estimate, (take_off ->> 'mainQuantity')::integer)) stored,
  add column priced jsonb generated always as (priced_quantities(estimate)) stored;
alter table quote_item alter column priced set storage main;

create index quote_item_by_size on quote_item (shop_id, size_mm);

-- What was quoted before.
alter table quote no force row level security;
alter table quote_revision no force row level security;
alter table quote_item no force row level security;
alter table customer no force row level security;
alter table addressee no force row level security;
alter table quote_outcome no force row level security;
alter table quote_note no force row level security;
alter table quote_lookup no force row level security;
do $$
begin
  perform look_up_anew(shop_id, array_agg(id)) from quote group by shop_id;
end $$;
alter table quote force row level security;
alter table quote_revision force row level security;
alter table quote_item force row level security;
alter table customer force row level security;
alter table addressee force row level security;
alter table quote_outcome force row level security;
alter table quote_note force row level security;
alter table quote_lookup force row level security;
