import { z } from 'zod';
import { dayEventsSchema } from '../../../core/day/index.ts';
import { fitClass, fitInWords, partLookup, type Tried, textWithChanges, whatIf } from '../../../core/fit/index.ts';
import { idSchema } from '../../../core/model/index.ts';
import { saveText } from '../../files/index.ts';
import { loadSolver } from '../../programs/index.ts';
import { shownSchema } from '../class-relay.ts';
import type { Room } from '../room.ts';
import { type Answer, refusal, route } from '../route.ts';

const NO_CLASS = () => refusal(404, 'there is no such class', 'go back to the site and open the class there');
/** A class has a file of its name, and logs named after it: longer names than that no disk takes. */
const classId = idSchema.max(200);
const events = dayEventsSchema.extend({ class: classId });
const only = z.strictObject({ class: classId });

/** Everything that a class day is run from, and what has happened so far. */
export const openDay = route({
  method: 'GET',
  path: 'api/day/',
  async handle({ url }, room) {
    const id = classId.safeParse(url.searchParams.get('class'));
    const opened = id.success ? await room.day.open(id.data) : undefined;
    return opened ? { json: opened } : NO_CLASS();
  },
});

/** What the clock of a class shows. */
export const dayTime = route({
  method: 'GET',
  path: 'api/day/time/',
  async handle({ url }, room) {
    const id = classId.safeParse(url.searchParams.get('class'));
    return id.success ? { json: { at: await room.day.time(id.data) } } : NO_CLASS();
  },
});

/** Writes down what happens; the answer comes when it is on the disk. */
export const takeDayEvents = route({
  method: 'POST',
  path: 'api/day/events/',
  async handle({ body }, room) {
    const read = events.safeParse(body);
    if (!read.success) return refusal(400, 'the events are not understood', 'load the page again');
    const kept = await room.day.take(read.data.class, read.data.events);
    return kept ? { json: kept } : NO_CLASS();
  },
});

/** The class begins anew. */
export const dayAfresh = route({
  method: 'POST',
  path: 'api/day/afresh/',
  async handle({ body }, room) {
    const read = only.safeParse(body);
    if (!read.success) return NO_CLASS();
    await room.day.afresh(read.data.class);
    return { json: { afresh: true } };
  },
});

const shown = shownSchema.extend({ class: classId });

/** What the window of the one who leads shows to devices on the shop's network. */
export const showClass = route({
  method: 'POST',
  path: 'api/day/show/',
  async handle({ body }, room) {
    const read = shown.safeParse(body);
    if (!read.success) return refusal(400, 'what is shown is not understood', 'load the page again');
    const { class: of, ...rest } = read.data;
    room.relay.show(of, rest);
    return { json: { shown: true } };
  },
});

const asked = z.array(z.string().max(250)).max(60);
const trial = z.strictObject({
  class: classId,
  attendees: z.string().max(10).optional(),
  slot: z.string().max(10).optional(),
  without: asked,
  with: asked,
  at: asked,
});

/** What would be if: the class fitted with changes that nobody has written. */
export const tryClass = route({
  method: 'POST',
  path: 'api/day/try/',
  async handle({ body }, room) {
    return withTrial(body, room, async (_tried, words) => ({ json: words }));
  },
});

/** Writes what was tried into the class file; nothing where the class does not fit so. */
export const keepTrial = route({
  method: 'POST',
  path: 'api/day/keep/',
  async handle({ body }, room) {
    return withTrial(body, room, async ({ shopClass, changes }, words, texts) => {
      const { file } = shopClass.origin.place;
      const was = texts.get(file);
      if (changes.length === 0 || was === undefined) return refusal(409, 'nothing was tried', 'change something first');
      if (!words.fits) return refusal(409, `${file} stays as it was: so the class does not fit its slot`, words.head);
      const next = textWithChanges(was, changes);
      if (!next.ok) return refusal(409, `${file} stays as it was: ${next.problem}`, next.help);
      const saved = await saveText(room.content, { file, was, text: next.value });
      return saved.ok ? { json: { kept: file } } : refusal(409, saved.problem, saved.help);
    });
  },
});

async function withTrial(
  body: unknown,
  room: Room,
  answer: (tried: Tried, words: ReturnType<typeof fitInWords>, texts: ReadonlyMap<string, string>) => Promise<Answer>,
): Promise<Answer> {
  const read = trial.safeParse(body);
  if (!read.success) return refusal(400, 'what is to be tried is not understood', 'load the page again');
  const { class: id, attendees, slot, ...rest } = read.data;
  const { shop, texts } = await room.load();
  const shopClass = shop.classes.find((each) => each.id === id);
  if (!shopClass) return NO_CLASS();
  const numbers = { ...(attendees !== undefined && { attendees }), ...(slot !== undefined && { slot }) };
  const tried = whatIf(shopClass, { ...rest, ...numbers });
  if (!tried.ok) return refusal(409, tried.problem, tried.help);
  const fit = fitClass(tried.value.shopClass, partLookup(shop), await loadSolver());
  return answer(tried.value, fitInWords(fit), texts);
}
