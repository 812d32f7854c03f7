import { placeOf } from '../../model/index.ts';
import { rule } from '../rule.ts';
import { replaceIn } from '../sample.ts';

const until = (year: number) => replaceIn('specs/tarn-420.yaml', '2019-2025', `2019-${year}`);

export default rule({
  id: 'years-ahead',
  severity: 'warning',
  why: 'Nobody knows the values of a machine that is not made yet; the maker may change them.',
  bad: until(2028),
  says: '3:10 2028 is beyond the next model year, 2027',
  good: until(2027),

  *check({ machines, lessons }, { today }) {
    // Models of the next year are sold in the year before: common practice, no source.
    const next = Number(today.slice(0, 4)) + 1;
    for (const machine of machines) {
      const own = latest(machine.written.machine.years);
      if (own > next) yield { place: placeOf(machine, 'machine', 'years'), ...words(own, next) };
      if (!isOpen(machine.written.machine.years)) continue;
      // Within closed years, a row or lesson that goes further lies outside the machine, which another rule tells.
      for (const spec of machine.specs) {
        const year = latest(spec.written.years);
        if (year > next) yield { place: placeOf(spec, 'years'), ...words(year, next) };
      }
      for (const lesson of lessons.filter((one) => one.machine === machine.id)) {
        const year = latest(lesson.years);
        if (year > next) yield { place: placeOf(lesson, 'years'), ...words(year, next) };
      }
    }
  },
});

function words(year: number, next: number) {
  return {
    message: `${year} is beyond the next model year, ${next}`,
    help: 'end the years with the last ones that the source covers, or leave the end open: 2019-',
  };
}

/** The last year that is written; 0 where none is. */
function latest(years: string | number | undefined): number {
  return Math.max(0, ...(String(years ?? '').match(/\d{4}/g) ?? []).map(Number));
}

function isOpen(years: string | number): boolean {
  return /-\s*$/.test(String(years));
}
