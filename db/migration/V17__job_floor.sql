-- What comes back from the floor: pauses, sorts of work of people who book per job, time that was
-- read from sheets, presence, and what words of time sheets were found to mean.

alter table booking
  add column source text not null default 'minutes',
  add column sort text,
  add column paused boolean not null default false;

alter table booking disable trigger ended_booking_stays;
update booking set source = 'clock' where started_at is not null;
alter table booking enable trigger ended_booking_stays;

alter table booking
  alter column source drop default,
  alter column paused drop default,
  add constraint booking_source_check check (source in ('clock', 'minutes', 'sheet')),
  add constraint booking_sort_check
    check (sort is null or (what = 'whole-job' and sort in ('forming', 'other', 'set-up'))),
  add constraint booking_paused_check check (not paused or minutes is not null);

create index booking_of_person on booking (shop_id, login_id, worked_on);
create index booking_by_day on booking (shop_id, worked_on);
create index paused_booking on booking (shop_id, login_id) where paused;

-- A stretch that has ended stays as it was written: a correction is another one. Only a pause that
-- turns out to have been the end still takes what was counted.
create or replace function refuse_change_of_ended_booking() returns trigger language plpgsql as $$
begin
  if old.started_at is not null and old.ended_at is null then
    return new;
  end if;
  if old.paused and not new.paused
    and (to_jsonb(new) - '{paused,pieces,scrapped,passes,checks,note}'::text[])
      = (to_jsonb(old) - '{paused,pieces,scrapped,passes,checks,note}'::text[]) then
    return new;
  end if;
  raise exception 'a booking that has ended is corrected by another one'
    using errcode = 'integrity_constraint_violation';
end $$;

-- When people were there. The highest n of a day counts; the others stay to be read.
create table presence (
  shop_id uuid not null references shop,
  login_id uuid not null,
  day date not null,
  n integer not null check (n >= 1),
  id uuid not null,
  came time,
  went time,
  break_minutes numeric(7, 2) check (break_minutes >= 0 and break_minutes <= 1440),
  minutes numeric(7, 2) check (minutes >= 0 and minutes <= 1440),
  note text check (length(note) <= 200),
  entered_at timestamptz not null,
  entered_by uuid not null,
  primary key (shop_id, login_id, day, n),
  unique (shop_id, id),
  foreign key (shop_id, login_id) references login (shop_id, id),
  foreign key (shop_id, entered_by) references login (shop_id, id),
  check (went is null or came is not null),
  check (came is not null or minutes is not null),
  check (minutes is not null or went is null)
);

create index presence_by_day on presence (shop_id, day);

-- What a word of a time sheet means in this shop, chosen once and applied from then on.
create table sheet_word (
  shop_id uuid not null references shop,
  kind text not null check (kind in ('person', 'job', 'work')),
  word text not null check (word <> '' and length(word) <= 200),
  meaning text not null check (meaning <> '' and length(meaning) <= 200),
  chosen_at timestamptz not null,
  chosen_by uuid not null,
  primary key (shop_id, kind, word),
  foreign key (shop_id, chosen_by) references login (shop_id, id)
);

do $$
declare
  t text;
begin
  foreach t in array array['presence', 'sheet_word'] loop
    execute format('alter table %I enable row level security', t);
    execute format('alter table %I force row level security', t);
    execute format(
      'create policy own_shop on %I using (shop_id = current_setting(''app.shop'')::uuid)', t);
  end loop;
end $$;

grant select, insert on presence to "${service}";
grant select, insert, update, delete on sheet_word to "${service}";
