-- {quotes} quotes of one shop over ten years, one item each, four quantities; run by the owner's role.
select set_config('app.shop', '{shop}', false);
insert into customer (shop_id, id, name, card, created_at, version)
  select '{shop}', gen_random_uuid(),
    (array['Harbour', 'Fernhill', 'Quay', 'Millrace', 'Oak', 'Stone', 'Tower', 'River'])[1 + i % 8] || ' '
      || (array['Theatre', 'Fountains', 'Joinery', 'Signs', 'Works', 'Garden'])[1 + (i / 8) % 6] || ' ' || i,
    '{}', now(), 0
  from generate_series(1, 800) i;
alter table quote disable trigger quote_looked_up;
insert into quote (shop_id, id, year, n, revision, state, valid_until, contact, created_at, created_by,
    changed_at, version)
  select '{shop}', gen_random_uuid(), 2017 + i / 10000, 1 + i % 10000, 1,
    (array['draft', 'issued', 'accepted', 'declined', 'withdrawn'])[1 + abs(hashint4(i)) % 5],
    case when abs(hashint4(i)) % 5 > 0 then date '2017-01-31' + i / 28 end,
    'Ms ' || (array['Gray', 'Hill', 'Moss'])[1 + i % 3],
    timestamptz '2017-01-01' + i * interval '51 minutes', '{who}', now(), 0
  from generate_series(0, {quotes} - 1) i;
insert into quote_revision (shop_id, id, quote_id, n, state, title, customer_id, edition, method_version,
    format_version, feasible, currency, net, tax, main_quantity, information, changed_at, changed_by,
    terms, valid_until)
  select q.shop_id, gen_random_uuid(), q.id, 1, 'draft',
    (array['Round sign frame', 'Bowl', 'Repair panel', 'Arch trim', 'Duct reducer', 'Cowl'])
        [1 + abs(hashint4(q.n)) % 6] || ' ' || (100 + abs(hashint4(q.n * 7)) % 1900) || ' '
      || (array['foyer', 'garden', 'left', 'right', 'copper', 'gate', 'north', 'lobby'])
        [1 + abs(hashint4(q.n * 3)) % 8],
    c.id, 1, 1, 1, true, 'EUR', (abs(hashint4(q.n * 11 + q.year)) % 1000000) / 100.0,
    (abs(hashint4(q.n * 11 + q.year)) % 1000000) / 500.0, 5, 'drawing', q.created_at, q.created_by,
    jsonb_build_object('customerReference', 'REF-' || q.n % 500, 'leadTimeDays', 15), q.valid_until
  from quote q
  join (select id, row_number() over (order by id) as k from customer where shop_id = '{shop}') c
    on c.k = 1 + abs(hashint4(q.year * 10000 + q.n)) % 800
  where q.shop_id = '{shop}';
insert into quote_item (shop_id, id, revision_id, position, optional, title, take_off, estimate, grades,
    kinds, thickness_mm, size_mm, hours)
  select r.shop_id, gen_random_uuid(), r.id, 1, false, r.title,
    jsonb_build_object('information', 'drawing', 'mainQuantity', 5,
      'rest', (select string_agg(md5(r.id::text || j), '') from generate_series(1, 30) j)),
    jsonb_build_object(
      'rest', (select string_agg(md5(r.id::text || j), '') from generate_series(1, 80) j),
      'quantities', (
        select jsonb_agg(jsonb_build_object('quantity', k,
          'priceEach', jsonb_build_object('amount', '12.34', 'currency', 'EUR'),
          'price', jsonb_build_object(
            'offer', jsonb_build_object('amount', (12.34 * k)::text, 'currency', 'EUR'),
            'tax', jsonb_build_object('amount', (2.34 * k)::text, 'currency', 'EUR')),
          'hours', jsonb_build_object('plan', 1.23456 * k)))
        from unnest(array[1, 5, 10, 50]) k)),
    array[(array['AL99.5-O', 'AL99.5-H14', 'ALMN1CU-O', 'ALMG3-O', 'DC04', 'X5CRNI18-10',
      'CU-DHP-R220', 'CUZN30'])[1 + abs(hashint8(r.h)) % 8]],
    (array['Order preparation', 'Make template', 'Marking out', 'Deburr', 'curve-edge',
      'Guillotine cut', 'True up', 'Fit joint', 'TIG weld', 'Dress weld', 'Planish weld',
      'Final check, size', 'Final check, contour', 'Packing', 'dish', 'smooth'])
        [1 + abs(hashint8(r.h * 3)) % 5 : 7 + abs(hashint8(r.h * 5)) % 10],
    (array[0.8, 1, 1.5, 2, 2.5, 3])[1 + abs(hashint8(r.h * 13)) % 6],
    100 + abs(hashint8(r.h * 17)) % 1900, 2.5
  from (select *, row_number() over () as h from quote_revision where shop_id = '{shop}') r;
insert into addressee (shop_id, revision_id, name, contact)
  select r.shop_id, r.id, c.name, q.contact
  from quote_revision r
  join quote q on q.shop_id = r.shop_id and q.id = r.quote_id
  join customer c on c.shop_id = r.shop_id and c.id = r.customer_id
  where r.shop_id = '{shop}' and q.state <> 'draft';
update quote_revision r set state = 'issued', issued_at = r.changed_at, issued_by = r.changed_by
  from quote q where q.shop_id = r.shop_id and q.id = r.quote_id and r.shop_id = '{shop}'
    and q.state <> 'draft';
alter table quote enable trigger quote_looked_up;
select look_up_anew('{shop}', array_agg(id)) from quote where shop_id = '{shop}';
vacuum analyze quote, quote_revision, quote_item, quote_lookup, addressee, customer;
