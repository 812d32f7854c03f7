import { z } from 'zod';
import { lanAddress } from '../lan-address.ts';
import type { ShotList } from '../phone-desk.ts';
import type { Room } from '../room.ts';
import { refusedWith, route } from '../route.ts';
import { readTaps } from '../shoot-log-file.ts';

const lessonId = z.string().regex(/^[a-z0-9]+(-[a-z0-9]+)*$/);
const wanted = z.strictObject({ lesson: lessonId });

async function shotList(room: Room, id: string): Promise<ShotList | undefined> {
  const { shop } = await room.load();
  const lesson = shop.lessons.find((l) => l.id === id);
  return (
    lesson && {
      lesson: id,
      title: lesson.title,
      shots: lesson.chapters.flatMap((chapter) => [
        { id: chapter.id, kind: 'chapter' as const, title: chapter.title },
        ...chapter.steps.map((step) => ({ id: step.id, kind: 'step' as const, title: step.title })),
      ]),
    }
  );
}

/** Opens the shoot log to one phone on the shop's network; done only when somebody asks for it. */
export const openPhone = route({
  method: 'POST',
  path: 'api/phone/open/',
  async handle({ body }, room) {
    const read = wanted.safeParse(body);
    const list = read.success ? await shotList(room, read.data.lesson) : undefined;
    if (!list) return refusedWith(404, 'there is no such lesson', 'write its chapters and steps first');
    const address = room.lan ?? lanAddress();
    if (address === undefined)
      return refusedWith(409, 'this machine is in no local network', 'join the shop’s own network, then try again');
    return { json: await room.phone.invite(list, address, room.now().getTime()) };
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

/** What the phones have logged for a lesson. */
export const shootLog = route({
  method: 'GET',
  path: 'api/shoot-log/',
  async handle({ url }, room) {
    const lesson = lessonId.safeParse(url.searchParams.get('lesson'));
    if (!lesson.success) return refusedWith(400, 'which lesson is not said', 'load the page again');
    return { json: { taps: await readTaps(room.content, lesson.data), open: room.phone.isOpen } };
  },
});
