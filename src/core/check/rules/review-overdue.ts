import { placeOf } from '../../model/index.ts';
import { rule } from '../rule.ts';
import { replaceIn } from '../sample.ts';

/** A shop that names no period looks at each row again after two years (common practice, no source). */
const REVIEW_MONTHS = 24;
const withReview = (day: string) => replaceIn('specs/tarn-420.yaml', 'checkedOn: 2026-10-03', `checkedOn: ${day}`);

export default rule({
  id: 'review-overdue',
  severity: 'warning',
  why: 'Makers change values by bulletin; a row that nobody has compared for a long time may be out of date.',
  bad: withReview('2024-10-31'),
  says: '16:16 axle-nut was last compared with its source on 2024-10-31; the review was due on 2026-10-31',
  good: withReview('2024-11-25'),

  *around({ machines, info }, today) {
    for (const { specs } of machines)
      for (const spec of specs) {
        const { checkedOn, history = [], reviewMonths = info.reviewMonths ?? REVIEW_MONTHS } = spec.written;
        if (checkedOn === undefined) continue;
        const changed = history.flatMap(({ until }) => (until > checkedOn && until <= today ? [until] : [])).toSorted();
        if (changed.length > 0)
          yield {
            place: placeOf(spec, 'checkedOn'),
            message: `${spec.id} was last compared with its source on ${checkedOn}, and its former value held until ${changed.at(-1)}`,
            help: 'compare the row with the source that brought the new value, then set checkedOn',
          };
        const due = monthsAfter(checkedOn, reviewMonths);
        if (changed.length === 0 && due < today)
          yield {
            place: placeOf(spec, 'checkedOn'),
            message: `${spec.id} was last compared with its source on ${checkedOn}; the review was due on ${due}`,
            help: 'compare the row with the newest edition of its source, then set checkedOn',
          };
      }
  },
});

/** A day so many months later; the last of the month where that month is shorter. */
function monthsAfter(day: string, months: number): string {
  const [year = 0, month = 1, date = 1] = day.split('-').map(Number);
  const last = new Date(Date.UTC(year, month - 1 + months + 1, 0));
  return new Date(Date.UTC(year, month - 1 + months, Math.min(date, last.getUTCDate()))).toISOString().slice(0, 10);
}
