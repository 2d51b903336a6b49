-- Jobs with the plan that they were released with, and the time that people book on them.

alter table number_counter drop constraint number_counter_series_check;
alter table number_counter
  add constraint number_counter_series_check check (series in ('quote', 'job'));

-- The job that an accepted quote was released as: its acceptance can no longer be taken back.
alter table quote add column released_as text;
create unique index quote_by_job on quote (shop_id, released_as);

create table job (
  shop_id uuid not null references shop,
  id uuid not null,
  year integer not null check (year between 2000 and 9999),
  n integer not null check (n >= 1),
  state text not null check (state in ('released', 'in-work', 'finished', 'closed')),
  kind text not null check (kind in ('quote', 'verbal', 'repair', 'warranty')),
  title text not null check (title <> '' and length(title) <= 200),
  customer_id uuid not null,
  revision_id uuid,
  edition integer not null,
  method_version integer not null,
  format_version integer not null,
  plan jsonb not null,
  due_on date,
  released_at timestamptz not null,
  released_by uuid not null,
  started_at timestamptz,
  finished_at timestamptz,
  closed_at timestamptz,
  version integer not null,
  primary key (shop_id, id),
  unique (shop_id, year, n),
  foreign key (shop_id, customer_id) references customer (shop_id, id),
  foreign key (shop_id, revision_id) references quote_revision (shop_id, id),
  foreign key (shop_id, edition) references shop_book_edition (shop_id, n),
  foreign key (shop_id, released_by) references login (shop_id, id),
  check ((kind = 'quote') = (revision_id is not null)),
  check (state = 'released' or started_at is not null),
  check ((state in ('finished', 'closed')) = (finished_at is not null)),
  check ((state = 'closed') = (closed_at is not null))
);

create unique index one_job_of_a_revision on job (shop_id, revision_id);
create index job_by_state on job (shop_id, state);

-- What is booked on, as the plan says it; numbered over the job.
create table job_step (
  shop_id uuid not null references shop,
  job_id uuid not null,
  n integer not null check (n >= 1),
  item integer not null check (item >= 1),
  part text,
  position integer not null,
  kind text not null,
  family text,
  work_centre text not null,
  setup_minutes double precision not null check (setup_minutes >= 0),
  run_minutes double precision not null check (run_minutes >= 0),
  primary key (shop_id, job_id, n),
  foreign key (shop_id, job_id) references job (shop_id, id)
);

-- One stretch of work. Its id is made where it is entered, so that sending it again adds nothing.
create table booking (
  shop_id uuid not null references shop,
  id uuid not null,
  login_id uuid not null,
  job_id uuid,
  step integer,
  what text not null check (what in ('run', 'set-up', 'rework', 'whole-job', 'indirect')),
  started_at timestamptz,
  ended_at timestamptz,
  minutes numeric(9, 2) check (minutes >= 0 and minutes <= 14400),
  pieces integer check (pieces between 0 and 1000000),
  scrapped integer check (scrapped between 0 and 1000000),
  passes integer check (passes between 0 and 1000000),
  checks integer check (checks between 0 and 1000000),
  with_helper boolean not null,
  reason text check (length(reason) <= 200),
  note text check (length(note) <= 2000),
  worked_on date not null,
  entered_at timestamptz not null,
  entered_by uuid not null,
  replaces uuid,
  primary key (shop_id, id),
  foreign key (shop_id, login_id) references login (shop_id, id),
  foreign key (shop_id, entered_by) references login (shop_id, id),
  foreign key (shop_id, job_id, step) references job_step (shop_id, job_id, n),
  foreign key (shop_id, job_id) references job (shop_id, id),
  foreign key (shop_id, replaces) references booking (shop_id, id),
  check (step is null or job_id is not null),
  check ((what = 'indirect') = (job_id is null)),
  check (what not in ('run', 'set-up') or step is not null),
  check (what <> 'rework' or reason is not null),
  check (ended_at is null or ended_at >= started_at),
  check (started_at is not null or minutes is not null),
  check (ended_at is null or minutes is not null)
);

-- One clock runs for a person at a time.
create unique index one_clock_of_a_person on booking (shop_id, login_id)
  where started_at is not null and ended_at is null;
create unique index one_correction_of_a_booking on booking (shop_id, replaces);
create index booking_of_job on booking (shop_id, job_id, step);

-- A stretch that has ended stays as it was written: a correction is another one.
create function refuse_change_of_ended_booking() returns trigger language plpgsql as $$
begin
  if old.started_at is null or old.ended_at is not null then
    raise exception 'a booking that has ended is corrected by another one'
      using errcode = 'integrity_constraint_violation';
  end if;
  return new;
end $$;

create trigger ended_booking_stays before update on booking
  for each row execute function refuse_change_of_ended_booking();

do $$
declare
  t text;
begin
  foreach t in array array['job', 'job_step', 'booking'] loop
    execute format('alter table %I enable row level security', t);
    execute format('alter table %I force row level security', t);
    execute format(
      'create policy own_shop on %I using (shop_id = current_setting(''app.shop'')::uuid)', t);
  end loop;
end $$;

grant select, insert, update on job, booking to "${service}";
grant select, insert on job_step to "${service}";
