import { type Machine, placeOf } from '../../model/index.ts';
import { rule } from '../rule.ts';
import { replaceIn } from '../sample.ts';

export default rule({
  id: 'date-impossible',
  severity: 'error',
  why: 'A row that was compared before its source was written, or on a day to come, was not compared.',
  bad: replaceIn('specs/tarn-420.yaml', 'checkedOn: 2026-10-03', 'checkedOn: 2027-10-03'),
  says: '16:16 axle-nut was compared on 2027-10-03, a day to come',
  good: replaceIn('specs/tarn-420.yaml', 'checkedOn: 2026-10-03', 'checkedOn: 2026-11-25'),

  *around({ machines, corrections }, today) {
    for (const each of corrections)
      if (each.on > today)
        yield {
          place: placeOf(each, 'on'),
          message: `the correction of ${each.spec} was made on ${each.on}, a day to come`,
          help: 'write the day on which it was made',
        };
    for (const machine of machines) {
      const documents = machine.written.documents ?? {};
      for (const [id, { date, title }] of Object.entries(documents))
        if (date !== undefined && date > today)
          yield {
            place: placeOf(machine, 'documents', id, 'date'),
            message: `${title} is dated ${date}, a day to come`,
            help: 'write the day that stands on the document',
          };
      const late = new Set<string>();
      for (const [id, { date, title }] of Object.entries(documents)) {
        const before = date === undefined || date > today ? [] : comparedBefore(machine, id, date);
        // Of a single row either day may be the slip; of several the one on the document is.
        if (before.length < 2) continue;
        late.add(id);
        yield {
          place: placeOf(machine, 'documents', id, 'date'),
          message: `${title} is dated ${date}, and ${before.length} rows were compared with it before, the first on ${before[0]}`,
          help: 'write the day that stands on the document, or compare the rows with this edition',
        };
      }
      for (const spec of machine.specs) {
        const { checkedOn, source, history = [] } = spec.written;
        const written = source && !late.has(source.document) ? documents[source.document]?.date : undefined;
        const wrong = checkedOn === undefined ? undefined : impossible(checkedOn, today, machine, written);
        if (wrong)
          yield {
            place: placeOf(spec, 'checkedOn'),
            message: `${spec.id} was compared on ${checkedOn}, ${wrong}`,
            help: 'write the day on which the row was compared with its source',
          };
        for (const [index, { until }] of history.entries()) {
          const place = placeOf(spec, 'history', index, 'until');
          const said = `${spec.id}: a former value holds until ${until}`;
          if (until > today)
            yield {
              place,
              message: `${said}, a day to come`,
              help: 'a value that still holds is the row itself; move it to history on the day it ends',
            };
          else if (Number(until.slice(0, 4)) < machine.years.from - 1)
            yield {
              place,
              message: `${said}, before ${machine.title} was made, from ${machine.years.from}`,
              help: 'write the last day on which it held, as the bulletin says',
            };
          else if (history.slice(0, index).some((earlier) => earlier.until === until))
            yield {
              place,
              message: `${said}, and so does another`,
              help: 'one value held on each day: write the last day of each, or take one out',
            };
        }
      }
    }
  },
});

/** The days before a day on which rows of a document were compared with it, the earliest first. */
function comparedBefore({ specs }: Machine, document: string, day: string): string[] {
  return specs
    .flatMap(({ written: { source, checkedOn } }) =>
      source?.document === document && checkedOn !== undefined && checkedOn < day ? [checkedOn] : [],
    )
    .toSorted();
}

/** Why a row cannot have been compared on a day; nothing where it can. @param written the day of its source */
function impossible(
  checkedOn: string,
  today: string,
  { title, years }: Machine,
  written: string | undefined,
): string | undefined {
  if (checkedOn > today) return 'a day to come';
  if (Number(checkedOn.slice(0, 4)) < years.from - 1) return `before ${title} was made, from ${years.from}`;
  if (written !== undefined && written <= today && checkedOn < written)
    return `before its source was written, on ${written}`;
  return undefined;
}
