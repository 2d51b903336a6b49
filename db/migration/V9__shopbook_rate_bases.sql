-- How a rate is built was told in words; it is figures now. The words stay, as the origin.

update shop_book_edition
set book = jsonb_set(
  book,
  '{workCentres}',
  (
    select jsonb_agg(
      case
        when jsonb_typeof(centre -> 'labourBasis') = 'string'
          or jsonb_typeof(centre -> 'machineBasis') = 'string'
        then centre - 'labourBasis' - 'machineBasis'
          || jsonb_build_object(
            'origin',
            left(
              concat_ws(
                '. ',
                case when jsonb_typeof(centre -> 'labourBasis') = 'string'
                  then centre ->> 'labourBasis' end,
                case when jsonb_typeof(centre -> 'machineBasis') = 'string'
                  then centre ->> 'machineBasis' end),
              200))
        else centre
      end
      order by position)
    from jsonb_array_elements(book -> 'workCentres') with ordinality as c (centre, position)))
where jsonb_path_exists(book, '$.workCentres[*] ? (@.labourBasis.type() == "string" || @.machineBasis.type() == "string")');
