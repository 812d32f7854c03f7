import type { Shop, ShopClass } from '../model/index.ts';
import { listWords, plural } from '../read/index.ts';
import { ok, type Parsed } from '../time/index.ts';
import { setYaml } from '../write/index.ts';
import { fitClass } from './fit-class.ts';
import { kitList, passagesOf } from './kit-list.ts';
import { type Offer, offeredMinutes, offersFor, withOffers } from './plan/learn.ts';
import { partLookup } from './plan/part-times.ts';
import { headCount } from './plan/to-plan.ts';
import { hoursText, lengthText } from './plan/words.ts';
import type { Solver } from './solve/linear.ts';

/** A class written after the model of an earlier one. */
export interface NextClass {
  readonly text: string;
  readonly shopClass: ShopClass;
  /** Estimates that what earlier classes took has changed. */
  readonly learned: readonly Offer[];
}

/**
 * The text of a class like an earlier one, on another day, with the minutes that were learned since.
 * Comments and layout stay as they are.
 *
 * @param text of the earlier class
 * @param date YYYY-MM-DD
 */
export function nextClass(
  earlier: ShopClass,
  text: string,
  shop: Pick<Shop, 'actuals' | 'classes'>,
  { id, date }: { readonly id: string; readonly date: string },
): Parsed<NextClass> {
  const dated = { ...earlier, id, date };
  const offers = offersFor(dated, shop);
  let next = setYaml(text, ['date'], date);
  for (const offer of offers) {
    if (!next.ok) return next;
    const b = earlier.blocks.findIndex((block) => block.id === offer.block);
    const t = earlier.blocks[b]?.treatments.findIndex((way) => way.id === offer.treatment) ?? -1;
    const way = earlier.blocks[b]?.treatments[t];
    const within = way?.minutes === undefined && way?.stations ? ['stations', 'minutes'] : ['minutes'];
    next = setYaml(next.value, ['blocks', b, 'treatments', t, ...within], offeredMinutes(offer));
  }
  return next.ok ? ok({ text: next.value, shopClass: withOffers(dated, offers), learned: offers }) : next;
}

/** What is different since the earlier class, in lines for who plans the next one. */
export function changesSince(earlier: ShopClass, next: NextClass, shop: Shop, solver: Solver): readonly string[] {
  const fit = fitClass(next.shopClass, partLookup(shop), solver);
  const { plan, timetable, risk } = fit;
  const ends = fit.fits
    ? `fits: ${hoursText(timetable.end)} planned of ${hoursText(plan.slotSeconds)}, overruns in ${Math.round(risk.overrunProbability * 100)} %`
    : `does not fit any more: liftside fit ${next.shopClass.id} names the ways out`;
  const short = kitList(fit, shop).total.filter(({ have, count }) => have !== undefined && have < count);
  const came = shop.actuals.find(({ id }) => id === earlier.id)?.attendees;
  const people = (earlier.people ?? []).map(({ role, name }) => (name ? `${name} (${role})` : role));
  return [
    ends,
    ...next.learned.map(
      (offer) =>
        `minutes: "${offer.block}" (${offer.treatment}) took ${listWords(offer.took.map(lengthText))}; now [${offeredMinutes(offer).join(', ')}]`,
    ),
    ...(came === undefined ? [] : [`people: ${came} came last time; ${reckoned(next.shopClass)}`]),
    ...(people.length === 0 ? [] : [`people: written for ${listWords(people)}; ask whether they can come`]),
    ...(next.shopClass.presupposes ?? []).map((id) => {
      const before = shop.classes.find((each) => each.id === id);
      return `course: presupposes ${id}${before ? ` of ${before.date}` : ''}; say so, or name the one that is given this time`;
    }),
    ...specsSince(earlier, shop),
    ...shop.corrections
      .filter(({ lesson, on }) => lessonsOf(earlier).has(lesson) && on > earlier.date)
      .map(({ lesson, step, on }) => `correction: "${step}" of ${lesson} has a card since ${on}`),
    ...short.map(({ title, count, have }) => `stock: ${count} × ${title} needed, the shop has ${have}`),
    ...shop.questions
      .filter(({ id }) => id === earlier.id)
      .flatMap(({ questions }) =>
        questions
          .filter(({ answered }) => !answered)
          .map(({ words }) => `question: asked and not answered: "${words}"`),
      ),
  ];
}

function reckoned(shopClass: ShopClass): string {
  const people = headCount(shopClass);
  return people === undefined ? 'nobody is expected yet' : `reckoned for ${plural(people, 'attendee')}`;
}

function lessonsOf({ blocks }: ShopClass): ReadonlySet<string> {
  return new Set(
    blocks.flatMap(({ about, treatments }) =>
      [about, ...treatments.map(({ show }) => show)].flatMap((part) => part?.lesson ?? []),
    ),
  );
}

/** Rows that the class cites and whose value was another one on its day. */
function specsSince(earlier: ShopClass, { lessons, machines }: Shop): string[] {
  const own = lessonsOf(earlier);
  return lessons
    .filter(({ id }) => own.has(id))
    .flatMap((lesson) => {
      const cited = new Set(
        passagesOf({ lesson: lesson.id }, lessons).flatMap(({ cites }) => cites.map(({ spec }) => spec)),
      );
      const rows = machines.find(({ id }) => id === lesson.machine)?.specs ?? [];
      return rows
        .filter(({ id }) => cited.has(id))
        .flatMap(({ id, former }) =>
          former
            .filter(({ until }) => until >= earlier.date)
            .map(
              ({ until, bulletin }) =>
                `spec: ${id} has another value since ${until}${bulletin ? ` (${bulletin})` : ''}`,
            ),
        );
    });
}
