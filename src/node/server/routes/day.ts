import { z } from 'zod';
import { dayEventsSchema } from '../../../core/day/index.ts';
import { idSchema } from '../../../core/model/index.ts';
import { refusal, route } from '../route.ts';

const NO_CLASS = () => refusal(404, 'there is no such class', 'go back to the site and open the class there');
const events = dayEventsSchema.extend({ class: idSchema });
const only = z.strictObject({ class: idSchema });

/** Everything that a class day is run from, and what has happened so far. */
export const openDay = route({
  method: 'GET',
  path: 'api/day/',
  async handle({ url }, room) {
    const id = idSchema.safeParse(url.searchParams.get('class'));
    const opened = id.success ? await room.day.open(id.data) : undefined;
    return opened ? { json: opened } : NO_CLASS();
  },
});

/** What the clock of a class shows. */
export const dayTime = route({
  method: 'GET',
  path: 'api/day/time/',
  async handle({ url }, room) {
    const id = idSchema.safeParse(url.searchParams.get('class'));
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
