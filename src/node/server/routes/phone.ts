import { z } from 'zod';
import { idSchema } from '../../../core/model/index.ts';
import { lanAddresses } from '../lan-addresses.ts';
import type { Purpose } from '../pairings.ts';
import type { Room } from '../room.ts';
import { refusal, route } from '../route.ts';
import { addTaps, readTaps, tapsSchema } from '../shoot-log-file.ts';
import { shotList } from '../shot-list.ts';

const address = { address: z.string().max(60).optional() };
const wanted = z.union([
  z.strictObject({ lesson: idSchema, ...address }),
  z.strictObject({ class: idSchema, as: z.enum(['lead', 'room']), ...address }),
]);

/** What a device is to be let in for, where that is there. */
async function purposeOf(body: z.infer<typeof wanted>, room: Room): Promise<Purpose | undefined> {
  const loaded = await room.load();
  if ('lesson' in body) return shotList(loaded, body.lesson) && { lesson: body.lesson };
  return loaded.shop.classes.some(({ id }) => id === body.class) ? { class: body.class, as: body.as } : undefined;
}

/** Addresses that phones may reach this machine at: the one that was given, or all it has on networks of the shop's own. */
export function addressesOf(room: Pick<Room, 'lan'>): string[] {
  return room.lan === undefined ? lanAddresses() : [room.lan];
}

/** Opens the shoot log, or a class, to one phone or screen on the shop's network; done only when somebody asks for it. */
export const openPhone = route({
  method: 'POST',
  path: 'api/phone/open/',
  async handle({ body }, room) {
    const read = wanted.safeParse(body);
    const purpose = read.success ? await purposeOf(read.data, room) : undefined;
    if (!read.success || !purpose)
      return refusal(404, 'there is no such lesson or class', 'write its chapters and steps first');
    const { address } = read.data;
    const own = addressesOf(room);
    const addresses = own.toSorted((a, b) => Number(b === address) - Number(a === address));
    if (addresses.length === 0)
      return refusal(409, 'this machine is in no local network', 'join the shop’s own network, then try again');
    try {
      const invitation = await room.phone.invite(purpose, addresses);
      return { json: { ...invitation, addresses: own, open: room.phone.open } };
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      return refusal(409, `no phone can reach this machine (${why})`, 'look at its network, then try again');
    }
  },
});

/** Ends it: no other machine can reach anything here any more. */
export const closePhone = route({
  method: 'POST',
  path: 'api/phone/close/',
  async handle(_ask, room) {
    await room.phone.close();
    return { json: { closed: true } };
  },
});

/** Whether phones can get in, for every page of the cutting room to show. */
export const phones = route({
  method: 'GET',
  path: 'api/phones/',
  async handle(_ask, room) {
    return { json: { open: room.phone.open ?? null } };
  },
});

/** What the phones have logged for a lesson. */
export const shootLog = route({
  method: 'GET',
  path: 'api/shoot-log/',
  async handle({ url }, room) {
    const lesson = idSchema.safeParse(url.searchParams.get('lesson'));
    if (!lesson.success) return refusal(400, 'which lesson is not said', 'load the page again');
    return { json: { taps: await readTaps(room.content, lesson.data) } };
  },
});

/** Taps handed over from a page that the cutting room was left at, by file or by pictures of codes. */
export const takeTaps = route({
  method: 'POST',
  path: 'api/shoot-log/',
  async handle({ body }, room) {
    const read = tapsSchema.safeParse(body);
    if (!read.success) return refusal(400, 'the taps are not understood', 'hand them over again from the phone');
    for (const lesson of await addTaps(room.content, read.data.taps)) room.hub.tell({ kind: 'shoot-log', lesson });
    return { json: { kept: read.data.taps.map(({ id }) => id) } };
  },
});
