-- Other routes of an item: a list of names and take-offs, kept and frozen with it. Only the item's own
-- take-off is priced for the customer.

alter table quote_item add column alternatives jsonb;
